package reports_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/joint"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/starter"
	"shopstint/reports"
)

func TestTheSetToOwnIsTheAnswersOwn(t *testing.T) {
	answer := answered(t, demo.Study(), nil)
	said, result := reports.Summarize(answer).Joint, &answer.Joint
	require.Len(t, said.Others, len(result.Choices)-1)
	for i, set := range append([]reports.Set{said.Best}, said.Others...) {
		choice := result.Choices[i]
		require.Len(t, set.Machines, len(choice.Machines))
		for k, m := range choice.Machines {
			assert.Equal(t, answer.Study.Machines[m].Key, set.Machines[k])
		}
		assert.Equal(t,
			[]float64{choice.Present, choice.Annual, choice.Saving, choice.SavingAnnual, choice.Over, choice.OverAnnual, choice.Cash, choice.Area, choice.Amps},
			[]float64{set.CostPresent, set.CostAnnual, set.SavingPresent, set.SavingAnnual, set.OverPresent, set.OverAnnual, set.Cash, set.Area, set.Amps})
	}
	for m, worth := range said.Worths {
		assert.Equal(t, []float64{result.Alone[m], result.InBest[m]}, []float64{worth.Alone, worth.InBest})
		for a := range worth.After {
			assert.InDelta(t, result.After[a][m], worth.After[a], 0)
		}
	}
	assert.Equal(t, "own "+said.Best.InWords, said.Verdict)
	assert.Contains(t, said.Saving, "better than renting everything")
	assert.Contains(t, said.Saving, said.Single.InWords)
	require.Len(t, said.Limits, 1)
	assert.Contains(t, said.Limits[0], "the electrical supply holds the choice down: with 131 A, not 100 A")
}

// together words the joint answer of a changed demo.
func together(t *testing.T, change func(*model.Study)) reports.Joint {
	return reports.Summarize(answered(t, demo.Study(), change)).Joint
}

func TestEachLimitSaysWhatItHoldsDown(t *testing.T) {
	for _, row := range []struct {
		change func(*model.Study)
		says   string
	}{
		{func(s *model.Study) { s.Studio.Amps, s.Studio.Budget = 300, 40000 }, "the purchase budget holds the choice down: with "},
		{func(s *model.Study) { s.Studio.Amps, s.Studio.FloorFree = 300, 20 }, "the free floor holds the choice down: with "},
	} {
		said := together(t, row.change)
		require.Len(t, said.Limits, 1, row.says)
		assert.Contains(t, said.Limits[0], row.says)
	}
	free := together(t, func(s *model.Study) { s.Studio.Amps = 300 })
	assert.Empty(t, free.Limits)
	assert.Len(t, free.Best.Machines, 4)
}

func TestWhenNothingPaysTheAnswerIsToRent(t *testing.T) {
	said := together(t, func(s *model.Study) {
		for m := range s.Machines {
			s.Machines[m].Price *= 20
		}
	})
	assert.Equal(t, "rent everything", said.Verdict)
	assert.Contains(t, said.Saving, "no set of these machines costs less")
	assert.True(t, strings.HasPrefix(said.Next, "next best: own "), said.Next)
}

// What could not be proven is said with the figures.
func TestAGapIsSaid(t *testing.T) {
	answer := answered(t, demo.Study(), nil)
	assert.Empty(t, reports.Summarize(answer).Joint.Proof)
	answer.Joint.Gap, answer.Joint.GapAnnual = 7000, 1043
	assert.Contains(t, reports.Summarize(answer).Joint.Proof, "up to 1,043 a year better")
	answer.Joint.GapKnown = false
	assert.Contains(t, reports.Summarize(answer).Joint.Proof, "a cheaper set may exist")
}

func TestOneMachineWithoutALimitNeedsNoJointAnswer(t *testing.T) {
	one := answered(t, starter.Short(), nil)
	assert.True(t, reports.Summarize(one).Joint.Obvious)
	one.Joint.Limits = []joint.Limit{{On: joint.Money, Binds: true, Next: one.Joint.Choices[0]}}
	assert.False(t, reports.Summarize(one).Joint.Obvious)
	assert.False(t, together(t, nil).Obvious)
}
