package single

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/work"
)

// DecideAll answers for every machine of a study, each judged alone, with its
// break-evens and its inputs ranked by swing, inputs of the same swing in the order of the
// study. Machines are reckoned side by
// side; the result does not depend on how many processors there are.
func DecideAll(study *model.Study, plan *work.Plan, rented *alternative.Rent) []Result {
	results := make([]Result, len(study.Machines))
	var wait sync.WaitGroup
	for m := range results {
		wait.Go(func() {
			results[m] = Decide(study, plan, rented, m)
			results[m].Curve = curveOf(study, rented, &results[m])
			results[m].BreakEvens = breakEvens(study, plan, &results[m])
		})
	}
	wait.Wait()
	for m, swings := range Swings(study) {
		for i := range swings {
			swings[i].settle(results[m].Difference, math.Max(math.Abs(results[m].Saved), math.Abs(results[m].Owning)))
		}
		slices.SortStableFunc(swings, func(a, b Swing) int { return cmp.Compare(b.Rank(), a.Rank()) })
		results[m].Swings = swings
	}
	return results
}
