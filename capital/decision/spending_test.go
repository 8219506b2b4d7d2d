package decision_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/joint"
	"shopstint/capital/decision/roadmap"
	"shopstint/capital/decision/spend"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

func spending(t *testing.T, s *model.Study, owning decision.Owning, most int) *spend.Spend {
	t.Helper()
	found, err := decision.Spending(context.Background(), s, owning, spend.Options{}, futures.Options{Seed: 1, Most: most})
	require.NoError(t, err)
	return found
}

func TestSpendingOwnsWhatIsNamedOrTheRoadmapOrTheCheapestSet(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].PerYear = 200 // enough work for the planer
	named := spending(t, s, decision.Owning{Named: []bool{false, true}}, 0)
	assert.Equal(t, spend.Always(s, []bool{false, true}), named.Owned)
	best := joint.Decide(s, work.New(s))
	require.NotEqual(t, best.Choices[0].Owned, best.Choices[1].Owned)
	cheapest := spending(t, s, decision.Owning{}, 0)
	assert.Equal(t, spend.Always(s, best.Choices[0].Owned), cheapest.Owned)
	assert.Equal(t, best.Choices[0].Owned, decision.Decide(s).Spend.Owned[0])
	along := spending(t, s, decision.Owning{Roadmap: true, Named: []bool{false, true}}, 0)
	assert.Equal(t, spend.Along(s, roadmap.Decide(s, work.New(s)).Best.Stays), along.Owned)
	assert.Zero(t, named.Futures)
	assert.Nil(t, named.YearRanges)
}

func TestSpendingDrawsFuturesWhereTheyAreAskedFor(t *testing.T) {
	s := studygen.Round()
	assert.Equal(t, chance.PerBlock, spending(t, s, decision.Owning{Named: []bool{true, false}}, 1).Futures, "one future is a block of them")
	assert.Equal(t, 2*chance.PerBlock, spending(t, s, decision.Owning{Named: []bool{true, false}}, 2*chance.PerBlock).Futures)
}

func TestSpendingAlongARoadmapThatIsNoneSaysWhy(t *testing.T) {
	s := studygen.Round()
	for len(s.Machines) < 40 {
		s.Machines = append(s.Machines, s.Machines[0])
	}
	why := roadmap.Decide(s, work.New(s)).Why
	require.NotEmpty(t, why)
	_, err := decision.Spending(context.Background(), s, decision.Owning{Roadmap: true}, spend.Options{}, futures.Options{})
	var none *decision.NoRoadmapError
	require.ErrorAs(t, err, &none)
	assert.Equal(t, "there is no roadmap: "+why, err.Error())
}

// The answer's own spending takes no more futures than are usual, and no more than asked.
func TestAnAnswerDrawsItsSpendingWithAsManyFuturesAsIsUsual(t *testing.T) {
	for most, want := range map[int]int{chance.PerBlock: chance.PerBlock, spend.Usual + chance.PerBlock: spend.Usual} {
		s := studygen.Round()
		answer := decision.Decide(s)
		require.NoError(t, answer.Draw(context.Background(), futures.Options{Seed: 1, Most: most}))
		require.NotNil(t, answer.Futures)
		assert.Equal(t, want, answer.Spend.Futures)
	}
}
