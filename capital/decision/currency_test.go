package decision_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/booking"
	"shopstint/model/studygen"
	"shopstint/model/work"
	"shopstint/rental"
)

// TestEveryPostedAmountIsAWholeNumberOfTheSmallestUnit looks at what is invoiced, paid on
// the way and reckoned as own time, in currencies without decimals, with two and with three.
func TestEveryPostedAmountIsAWholeNumberOfTheSmallestUnit(t *testing.T) {
	amounts, booked := 0, 0
	for seed := range uint64(24) {
		for _, code := range []string{"JPY", "EUR", "KWD"} {
			s := inUnits(t, studygen.Study(seed), 1, code)
			posted := func(what string, amount float64) {
				if !assert.Equal(t, s.Money.Round(amount), amount, "seed %d: %s in %s", seed, what, code) {
					t.FailNow()
				}
				if minor := amount * math.Pow10(s.Money.Places()); minor != 0 {
					amounts++
					require.InDelta(t, math.Round(minor), minor, 1e-6, "seed %d: %s in %s", seed, what, code)
				}
			}
			rent := alternative.RentOf(s, work.New(s), make([]bool, len(s.Machines)))
			for _, job := range rent.Jobs {
				for i := range job.Visits {
					ofVisit(&job.Visits[i], posted)
				}
				ofVisit(&job.Rework, posted)
			}
			for shop := range s.Shops {
				posted("fee", alternative.FeeOf(s, shop))
			}
			plan, _, err := booking.Book(s, booking.Options{Limits: booking.Brief()})
			require.NoError(t, err)
			for i := range plan.Visits {
				ofVisit(&plan.Visits[i].Visit, posted)
				booked++
			}
		}
	}
	assert.Greater(t, amounts, 1000)
	assert.Greater(t, booked, 50)
}

// ofVisit tells the amounts of a visit that are posted.
func ofVisit(v *rental.Visit, posted func(what string, amount float64)) {
	for what, amount := range map[string]float64{
		"machine time": v.MachineTime, "member": v.Member, "operator": v.Operator, "after hours": v.AfterHours, "resin": v.Resin, "wear": v.Wear,
		"handling": v.Handling, "tax": v.Tax, "vehicle": v.Vehicle, "tolls": v.Tolls, "damage": v.Damage, "own time": v.OwnCost, "helpers": v.HelperCost,
	} {
		posted(what, amount)
	}
}

// TestACurrencyDecidesWhereTheRoundingFalls has the same figures in each: the coarser the
// smallest unit, the farther the sums lie from the finest.
func TestACurrencyDecidesWhereTheRoundingFalls(t *testing.T) {
	present := func(seed uint64, code string) float64 {
		s := inUnits(t, studygen.Study(seed), 1, code)
		rent := alternative.RentOf(s, work.New(s), make([]bool, len(s.Machines)))
		return rent.Present(s)
	}
	off := func(code string) (sum float64) {
		for seed := range uint64(8) {
			sum += math.Abs(present(seed, code) - present(seed, "CLF"))
		}
		return sum
	}
	assert.Greater(t, off("JPY"), off("EUR"))
	assert.Greater(t, off("EUR"), off("KWD"))
	assert.Positive(t, off("KWD"))
}
