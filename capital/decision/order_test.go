package decision_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/studygen"
)

// backwards is a study whose lists stand the other way round. Lists whose order says
// something stay: which tool, hired machine or owned machine is taken first where several
// could do a step, and which of several machines pays for a fixture; the operations of a job.
func backwards(s *model.Study) *model.Study {
	twin := s.Clone()
	slices.Reverse(twin.Shops)
	slices.Reverse(twin.Fixtures)
	slices.Reverse(twin.Edges)
	slices.Reverse(twin.Abrasives)
	slices.Reverse(twin.Materials)
	slices.Reverse(twin.JobTypes)
	slices.Reverse(twin.DatedJobs)
	slices.Reverse(twin.Comparisons)
	return twin
}

// TestTheOrderOfAStudysListsMovesNoFigure turns them round. Sums are then added up in
// another order, so that the last digits may differ.
func TestTheOrderOfAStudysListsMovesNoFigure(t *testing.T) {
	for seed := range uint64(9) {
		s := studygen.Study(seed)
		turned := backwards(s)
		was, is := decision.Decide(s), decision.Decide(turned)
		size := math.Abs(was.Present)
		for m := range was.Machines {
			size += math.Abs(was.Machines[m].Owning)
		}
		near := func(what string, want, got float64) {
			assert.InDelta(t, want, got, studygen.Dust(size), "seed %d: %s", seed, what)
		}
		near("renting", was.Present, is.Present)
		for m := range was.Machines {
			one, other := &was.Machines[m], &is.Machines[m]
			near("saved", one.Saved, other.Saved)
			near("owning", one.Owning, other.Owning)
			assert.Equal(t, one.Verdict, other.Verdict, "seed %d", seed)
			assert.Len(t, other.Swings, len(one.Swings), "seed %d", seed)
		}
		near("together", was.Joint.Choices[0].Present, is.Joint.Choices[0].Present)
		if was.Roadmap.Why == "" {
			near("roadmap", was.Roadmap.Best.Present, is.Roadmap.Best.Present)
		}
		for c := range was.Comparisons {
			one, other := &was.Comparisons[c], &is.Comparisons[len(is.Comparisons)-1-c]
			near("ways", one.Saving(), other.Saving())
			assert.Equal(t, one.Best, other.Best, "seed %d", seed)
		}
	}
}

// TestTheOrderOfTheMachinesMovesNoAnswerOfOneAlone: beside no other machine there is none
// that could be first.
func TestTheOrderOfTheMachinesMovesNoAnswerOfOneAlone(t *testing.T) {
	for seed := range uint64(30) {
		s := studygen.Study(seed)
		turned := s.Clone()
		slices.Reverse(turned.Machines)
		was, is := single.Differences(s), single.Differences(turned)
		slices.Reverse(is)
		assert.InDeltaSlice(t, was, is, studygen.Dust(1e6), "seed %d", seed)
	}
}
