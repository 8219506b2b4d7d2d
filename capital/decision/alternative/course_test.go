package alternative_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// always lays a set out over the horizon.
func always(s *model.Study, owned []bool) [][]bool {
	course := make([][]bool, int(s.Studio.Horizon))
	for t := range course {
		course[t] = owned
	}
	return course
}

func TestACourseThatNeverChangesCostsWhatItsSetCosts(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		for _, owned := range sets(s, seed) {
			want := alternative.Evaluate(s, plan, owned)
			got := alternative.EvaluateCourse(s, plan, always(s, owned))
			assert.InDelta(t, want.Present, got.Present, studygen.Dust(want.Present), "seed %d %v", seed, owned)
			assert.Equal(t, want.Rent.Years(s), got.Rented, "seed %d %v", seed, owned)
			for i := range want.Owner {
				assert.Equal(t, want.Owner[i].Table, got.Stays[i].Table, "seed %d %v", seed, owned)
			}
		}
	}
}

func TestTheYearsOfACourseAreThoseOfTheirSets(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		list := sets(s, seed)
		before, after := list[len(list)-1], list[len(list)-2]
		course := always(s, before)
		turn := seed % len(course)
		for t := turn; t < len(course); t++ {
			course[t] = after
		}
		got := alternative.EvaluateCourse(s, plan, course)
		one, other := alternative.RentOf(s, plan, before), alternative.RentOf(s, plan, after)
		for year := range got.Rented {
			want := one.Years(s)[year]
			if year >= turn {
				want = other.Years(s)[year]
			}
			is := got.Rented[year]
			want.Induction, is.Induction = 0, 0
			assert.Equal(t, want, is, "seed %d year %d", seed, year)
		}
		for _, stay := range got.Stays {
			for year := range course {
				inside := year >= stay.From && year < stay.To
				assert.Equal(t, course[year][stay.Machine], inside, "seed %d machine %d year %d", seed, stay.Machine, year)
			}
		}
	}
}

func TestAnInductionFallsDueInTheFirstYearThatNeedsIt(t *testing.T) {
	seen := false
	for seed, s := range population() {
		plan := work.New(s)
		none, all := set(s), set(s)
		for m := range all {
			all[m] = true
		}
		places := alternative.Inductions(s, plan, none)
		if len(places) == 0 || len(alternative.Inductions(s, plan, all)) > 0 || s.Studio.Horizon < 2 {
			continue
		}
		seen = true
		course := always(s, all)
		course[len(course)-1] = none
		got := alternative.EvaluateCourse(s, plan, course)
		want := 0.0
		for _, at := range places {
			want += alternative.InductionCost(s, at, len(course)-1)
		}
		assert.Zero(t, got.Rented[0].Induction, "seed %d", seed)
		assert.InDelta(t, want, got.Rented[len(course)-1].Induction, studygen.Dust(want), "seed %d", seed)
	}
	assert.True(t, seen, "some study has one")
}
