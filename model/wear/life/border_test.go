package life_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model/wear/life"
)

func TestABeliefIsToldByTheLivesOnceHalfOfTheDoubtIsGone(t *testing.T) {
	assert.True(t, life.Belief{Learnt: 0.5}.Told())
	assert.False(t, life.Belief{Learnt: 0.499}.Told())
}
