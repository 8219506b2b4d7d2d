package loan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/loan"
	"shopstint/capital/timevalue"
)

// terms are a loan.
type terms struct {
	principal, rate float64
	months          int
}

func drawTerms(t *rapid.T) terms {
	return terms{
		principal: rapid.Float64Range(100, 1e6).Draw(t, "principal"),
		rate:      rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 0.03), rapid.Float64Range(1e-15, 1e-6)).Draw(t, "monthly rate"),
		months:    rapid.IntRange(1, 360).Draw(t, "months"),
	}
}

func TestInterestAndPrincipalOfEveryYearAddUpToItsPayments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawTerms(t)
		payment := timevalue.Payment(l.rate, float64(l.months), l.principal)
		principal := 0.0
		for year := 1; (year-1)*12 < l.months; year++ {
			payments := min(12, l.months-(year-1)*12)
			interest := loan.YearInterest(l.principal, l.rate, l.months, year)
			repaid := loan.YearPrincipal(l.principal, l.rate, l.months, year)
			require.InDelta(t, float64(payments)*payment, interest+repaid, 1e-6)
			principal += repaid
		}
		require.InDelta(t, l.principal, principal, 1e-6)
	})
}

func TestBalanceFollowsFromMonthToMonth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawTerms(t)
		payment := timevalue.Payment(l.rate, float64(l.months), l.principal)
		owed := l.principal
		for month := 1; month <= l.months; month++ {
			owed += owed*l.rate - payment
			// An error at the start grows with interest over the months.
			growth := math.Pow(1+l.rate, float64(month))
			require.InDeltaf(t, owed, loan.Balance(l.principal, l.rate, l.months, month), 1e-10*l.principal*growth, "month %d", month)
		}
	})
}

func TestALoanWithoutInterestFallsInAStraightLine(t *testing.T) {
	assert.InDelta(t, 750, loan.Balance(1000, 0, 24, 6), 1e-9)
	assert.Zero(t, loan.YearInterest(1000, 0, 24, 1))
	assert.InDelta(t, 500, loan.YearPrincipal(1000, 0, 24, 2), 1e-9)
}

func TestNothingIsOwedOrPaidOutsideTheLoan(t *testing.T) {
	assert.InDelta(t, 1000, loan.Balance(1000, 0.01, 24, -3), 1e-12)
	assert.Zero(t, loan.Balance(1000, 0.01, 24, 24))
	assert.Zero(t, loan.Balance(1000, 0.01, 24, 30))
	assert.Zero(t, loan.Balance(1000, 0.01, 0, 0))
	assert.Zero(t, loan.Balance(1000, 0.01, -5, -7))
	// 12 months times the last but one overflow to those of the first year.
	for _, year := range []int{math.MinInt, -1, 0, 3, 25, 1<<62 + 1, math.MaxInt} {
		assert.Zerof(t, loan.YearInterest(1000, 0.01, 24, year), "interest of year %d", year)
		assert.Zerof(t, loan.YearPrincipal(1000, 0.01, 24, year), "principal of year %d", year)
	}
}
