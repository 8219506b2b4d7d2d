package alternative_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
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
			for i, owner := range want.Owner {
				sum, shared := got.Stays[i].Present, false
				for _, stay := range got.Fixtures {
					if stay.Payer == owner.Machine {
						sum, shared = sum+stay.Present, true
					}
				}
				assert.InDelta(t, owner.Present, sum, studygen.Dust(want.Present), "seed %d %v", seed, owned)
				if !shared {
					assert.Equal(t, owner.Table, got.Stays[i].Table, "seed %d %v", seed, owned)
				}
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
			want.InductionOwn, is.InductionOwn = 0, 0
			assert.Equal(t, want, is, "seed %d year %d", seed, year)
		}
		for _, stay := range got.Stays {
			for year := range course {
				inside := year >= stay.From && year < stay.To
				assert.Equal(t, course[year][stay.Machine], inside, "seed %d machine %d year %d", seed, stay.Machine, year)
				if inside {
					want := alternative.OwnerOf(s, plan, course[year], stay.Machine).Profile.Hours[year]
					assert.InDelta(t, want, stay.Profile.Hours[year], studygen.Dust(want), "seed %d machine %d: the hours beside the machines of year %d", seed, stay.Machine, year)
				}
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

// collector has both machines of the round study name one fixture.
func collector() *model.Study {
	s := studygen.Round()
	s.Fixtures = []model.Fixture{{Key: "collector", Price: 1000, Resale: 0.1}}
	s.Machines[0].Fixtures, s.Machines[1].Fixtures = []string{"collector"}, []string{"collector"}
	return s
}

// The round study has three years, 10 % and no tax.
func TestACollectorThatMachinesShareIsPaidWithTheFirstAndSoldWithTheLast(t *testing.T) {
	none, first, second, both := []bool{false, false}, []bool{true, false}, []bool{false, true}, []bool{true, true}
	for _, row := range []struct {
		name   string
		course [][]bool
		stays  []alternative.FixtureStay
	}{
		{"never owned", [][]bool{none, none, none}, nil},
		{"both all years", [][]bool{both, both, both}, []alternative.FixtureStay{{Payer: 0, From: 0, To: 3, Paid: 1000, Present: 1000 - 100/1.331}}},
		{"the second joins", [][]bool{none, first, both}, []alternative.FixtureStay{{Payer: 0, From: 1, To: 3, Paid: 1000, Present: 1000/1.1 - 100/1.331}}},
		{"the payer goes before the other", [][]bool{both, second, none}, []alternative.FixtureStay{{Payer: 0, From: 0, To: 2, Paid: 1000, Present: 1000 - 100/1.21}}},
		{"one takes over from the other", [][]bool{second, first, first}, []alternative.FixtureStay{{Payer: 1, From: 0, To: 3, Paid: 1000, Present: 1000 - 100/1.331}}},
		{"a year without", [][]bool{first, none, second}, []alternative.FixtureStay{
			{Payer: 0, From: 0, To: 1, Paid: 1000, Present: 1000 - 100/1.1}, {Payer: 1, From: 2, To: 3, Paid: 1000, Present: 1000/1.21 - 100/1.331}}},
	} {
		s := collector()
		s.Machines[0].Wiring, s.Machines[1].Wiring = 300, 200 // their own
		plan := work.New(s)
		got := alternative.EvaluateCourse(s, plan, row.course)
		require.Len(t, got.Fixtures, len(row.stays), row.name)
		sum := 0.0
		for i := range got.Fixtures {
			sum += got.Fixtures[i].Present
			assert.InDelta(t, row.stays[i].Present, got.Fixtures[i].Present, 1e-6, row.name)
			assert.InDelta(t, got.Fixtures[i].Paid, got.Fixtures[i].At(capital.Fixtures, got.Fixtures[i].From), 1e-9, row.name)
			stay := &got.Fixtures[i]
			got.Fixtures[i] = alternative.FixtureStay{Fixture: stay.Fixture, Payer: stay.Payer, From: stay.From, To: stay.To, Paid: stay.Paid, Present: row.stays[i].Present}
		}
		assert.Equal(t, row.stays, got.Fixtures, row.name)
		s.Fixtures = nil
		assert.InDelta(t, sum, got.Present-alternative.EvaluateCourse(s, plan, row.course).Present, 1e-6, row.name)
	}
}

func TestAFixtureOfOneMachineStaysInside(t *testing.T) {
	s := collector()
	s.Machines[1].Fixtures = nil
	got := alternative.EvaluateCourse(s, work.New(s), always(s, []bool{true, true}))
	assert.Empty(t, got.Fixtures)
	assert.InDelta(t, 1000, got.Stays[0].Table[capital.Fixtures][0], 1e-9)
}

// Every step of the work is done once: by an owned machine, or as it was before.
func TestEveryStepIsDoneOnceWhateverIsOwned(t *testing.T) {
	owners := 0
	for seed, s := range studygen.Studies(60) {
		plan, owned := work.New(s), make([]bool, len(s.Machines))
		for m := range owned {
			owned[m] = (seed+m)%2 == 0
		}
		done, before := map[int]int{}, map[int]int{}
		for i, does := range alternative.Doing(plan, owned) {
			row := &plan.Rows[i]
			if does && row.Site == work.AtStudio {
				require.True(t, owned[row.Machine] && row.Fit.OK())
				owners++
			}
			if does {
				done[row.Step]++
			}
			if row.Used {
				before[row.Step]++
			}
		}
		for step := range before {
			assert.Equal(t, 1, done[step], "seed %d step %d", seed, step)
		}
	}
	assert.Greater(t, owners, 50)
}
