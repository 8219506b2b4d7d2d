package alternative_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/model/work"
	"shopstint/rental"
)

// A visit with one type aboard is the one that renting prices by the year.
func TestOneTypeTogetherIsTheVisitThatRentingPrices(t *testing.T) {
	compared := 0
	for _, s := range studygen.Studies(30) {
		plan, owned := work.New(s), make([]bool, len(s.Machines))
		for set := range 2 {
			for m := range owned {
				owned[m] = set == 1 && m%2 == 0
			}
			rent := alternative.RentOf(s, plan, owned)
			for job := range s.JobTypes {
				shop := work.ShopOf(s, job)
				errand := alternative.ErrandOf(s, plan, owned, job)
				for k, want := range rent.Jobs[job].Visits {
					trip := alternative.Together(s, shop, []alternative.Errand{errand}, []int{k + 1})
					got := rental.Price(&s.Studio, s.Money, trip, rent.Members[shop])
					assert.InDelta(t, float64(want.Billed), float64(got.Billed), 1e-6)
					assert.InDelta(t, want.Total, got.Total, 1e-6*max(1, want.Total))
					assert.Equal(t, want.Billed > 0, len(errand.Pieces) > 0)
					compared++
				}
			}
		}
	}
	assert.Greater(t, compared, 200)
}

// By hand, for the demo's consoles and headboard, both planed, sanded with grits
// 80, 120 and 150 and sawn: together they save the three set-ups and three changes
// of grit of one of them, and the cleaning.
func TestTypesThatRideTogetherShareSetUpsAndGrits(t *testing.T) {
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	plan, owned := work.New(s), make([]bool, len(s.Machines))
	var errands []alternative.Errand
	for _, key := range []string{"headboard", "consoles"} {
		errands = append(errands, alternative.ErrandOf(s, plan, owned, model.Index(s.JobTypes, key)))
	}
	price := func(counts ...int) rental.Visit {
		return rental.Price(&s.Studio, s.Money, alternative.Together(s, 0, errands, counts), rental.Membership{})
	}
	shop := &s.Shops[0]
	saved := shop.Cleaning
	for q := range shop.Machines {
		saved += shop.Machines[q].Setup
	}
	sander := model.Index(shop.Machines, "sander43")
	saved += 3 * shop.Machines[sander].GritChange
	first, second, both := price(1, 0), price(0, 1), price(1, 1)
	assert.InDelta(t, (first.Billed + second.Billed - saved).Minutes(), both.Billed.Minutes(), 1e-9)
	assert.Greater(t, saved.Minutes(), 20.0)
	assert.InDelta(t, first.Vehicle, both.Vehicle, 1e-9)
}
