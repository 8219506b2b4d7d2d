package capital_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital"
	"shopstint/capital/decision/conformance"
	"shopstint/model"
	"shopstint/model/studygen"
)

func TestOwningAgreesWithPublishedCases(t *testing.T) { conformance.Hold(t, "capital") }

func TestTheEconomicLifeSaysWhenTheCurveIsStillFalling(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.UpkeepShare, m.Resale = 0, model.ResaleDeclining
	life := capital.EconomicLife(s, m, level(20, 0, 0, 0))
	assert.True(t, life.StillFalling)
	assert.Equal(t, 20, life.Best)
	m.UpkeepShare, m.UpkeepRise = 0.05, 0.5
	life = capital.EconomicLife(s, m, level(20, 0, 0, 0))
	assert.False(t, life.StillFalling)
	assert.Less(t, life.Best, 20)
}
