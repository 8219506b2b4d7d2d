package visitplan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/rental/visitplan"
)

// What any grouping costs at least, before any search: 22 for each visit that the load
// and the windows prove, and 1 a minute.
func TestTheBoundBeforeAnySearchCountsTheVisitsThatMustBe(t *testing.T) {
	for _, row := range []struct {
		name   string
		jobs   []errand
		visits float64
	}{
		{"one for light jobs together", []errand{{0, 4, 10, 30}, {1, 5, 11, 30}, {2, 6, 12, 40}}, 1},
		{"a load too many", []errand{{0, 4, 10, 30}, {1, 5, 11, 30}, {2, 6, 12, 41}}, 2},
		{"one alone early, then two that are too heavy together", []errand{{0, 1, 10, 60}, {5, 6, 11, 60}, {5, 6, 12, 60}}, 3},
		{"the load of the first two, then one that is ready after them", []errand{{0, 2, 10, 60}, {1, 3, 11, 60}, {4, 9, 12, 1}}, 3},
		{"windows apart", []errand{{0, 1, 10, 1}, {2, 3, 11, 1}, {4, 5, 12, 1}}, 3},
		{"one heavier than a visit fills one and no more", []errand{{0, 4, 10, 250}, {1, 5, 11, 30}}, 2},
		{"two heavier than a visit", []errand{{0, 4, 10, 101}, {1, 5, 11, 300}, {1, 5, 12, 100}}, 3},
	} {
		want := 22 * row.visits
		for _, job := range row.jobs {
			want += float64(job.minutes)
		}
		for _, capacity := range []float64{100, 1} { // loads in hundredths and in wholes
			problem := problemOf(row.jobs, capacity, func(minutes int) float64 { return 22 + float64(minutes) }, visitplan.Floor{Visit: 22, Unit: 1}, 1)
			for i := range problem.Jobs {
				problem.Jobs[i].Load *= capacity / 100
			}
			plan, err := visitplan.Solve(problem, visitplan.Limits{})
			require.NoError(t, err)
			assert.InDelta(t, want, plan.Bound, 1e-9, "%s, capacity %v", row.name, capacity)
		}
	}
}

// The groups of two jobs each that are not neighbours, and far off a job heavier than
// any visit may be: it takes one visit, not two, and so the neighbours are no proof.
func TestAJobHeavierThanAVisitProvesOneVisit(t *testing.T) {
	half := func(ready, due int) errand { return errand{ready, due, 60, 50} }
	jobs := []errand{half(1, 1), half(2, 2), half(1, 4), half(2, 5), {20, 21, 60, 200}}
	problem := problemOf(jobs, 100, func(minutes int) float64 { return 22 + float64(minutes) }, visitplan.Floor{Visit: 22, Unit: 1}, 1)
	assert.InDelta(t, 284+82, solved(t, problem).Cost, 1e-9)
}

func TestAVisitThatHoldsOneJobToTheMinuteIsAPrice(t *testing.T) {
	least := func(minutes int) float64 {
		if minutes > 30 {
			return math.Inf(1)
		}
		return float64(minutes)
	}
	plan := solved(t, problemOf([]errand{{0, 4, 30, 0}, {1, 5, 30, 0}}, 0, least, visitplan.Floor{}, 0))
	assert.InDelta(t, 60, plan.Cost, 1e-9)
	assert.Len(t, plan.Visits, 2)
}
