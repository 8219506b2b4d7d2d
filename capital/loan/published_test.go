package loan_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/capital/loan"
	"shopstint/model/published"
)

func TestLoansAgreeWithPublishedCases(t *testing.T) {
	require.NoError(t, published.Agree(os.DirFS("../../testdata/published"), "loan", workOut))
}

// terms are a case's loan.
type terms struct {
	principal, rate float64
	months          int
}

func (l terms) balance(paid int) float64 { return loan.Balance(l.principal, l.rate, l.months, paid) }

func (l terms) interest(month int) float64 { return l.rate * l.balance(month-1) }

func (l terms) repaid(month int) float64 { return l.balance(month-1) - l.balance(month) }

// workOut gives every figure the case has the inputs for.
func workOut(in *published.Inputs) map[string][]float64 {
	l := terms{in.Number("principal"), in.Number("yearly_rate") / 12, int(in.Number("months"))}
	got := map[string][]float64{}
	if in.Has("at") {
		for _, at := range in.List("at") {
			month := int(at)
			got["balances"] = append(got["balances"], l.balance(month))
			got["interests"] = append(got["interests"], l.interest(month))
			got["principals"] = append(got["principals"], l.repaid(month))
		}
	}
	if in.Has("from") {
		interest, principal := 0.0, 0.0
		for month := int(in.Number("from")); month <= int(in.Number("to")); month++ {
			interest += l.interest(month)
			principal += l.repaid(month)
		}
		got["sum_interest"], got["sum_principal"] = []float64{interest}, []float64{principal}
	}
	if in.Has("year") {
		year := int(in.Number("year"))
		got["year_interest"] = []float64{loan.YearInterest(l.principal, l.rate, l.months, year)}
		got["year_principal"] = []float64{loan.YearPrincipal(l.principal, l.rate, l.months, year)}
	}
	return got
}
