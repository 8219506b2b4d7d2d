package loan_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/loan"
	"shopstint/model/published"
)

func TestLoansAgreeWithPublishedCases(t *testing.T) {
	files, err := published.Load(os.DirFS("../../testdata/published"), "loan")
	require.NoError(t, err)
	for _, file := range files {
		for _, c := range file.Cases {
			got, err := workOut(c)
			require.NoError(t, err)
			assert.NoError(t, c.Compare(got), c.Note)
		}
	}
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
func workOut(c published.Case) (map[string][]float64, error) {
	in := inputs{c: c}
	l := terms{in.number("principal"), in.number("yearly_rate") / 12, int(in.number("months"))}
	got := map[string][]float64{}
	if in.has("at") {
		for _, at := range in.list("at") {
			month := int(at)
			got["balances"] = append(got["balances"], l.balance(month))
			got["interests"] = append(got["interests"], l.interest(month))
			got["principals"] = append(got["principals"], l.repaid(month))
		}
	}
	if in.has("from") {
		interest, principal := 0.0, 0.0
		for month := int(in.number("from")); month <= int(in.number("to")); month++ {
			interest += l.interest(month)
			principal += l.repaid(month)
		}
		got["sum_interest"], got["sum_principal"] = []float64{interest}, []float64{principal}
	}
	if in.has("year") {
		year := int(in.number("year"))
		got["year_interest"] = []float64{loan.YearInterest(l.principal, l.rate, l.months, year)}
		got["year_principal"] = []float64{loan.YearPrincipal(l.principal, l.rate, l.months, year)}
	}
	return got, in.err
}

// inputs reads a case's figures and keeps the first error.
type inputs struct {
	c   published.Case
	err error
}

func (in *inputs) has(name string) bool {
	_, ok := in.c.Inputs[name]
	return ok
}

func (in *inputs) number(name string) float64 {
	value, err := in.c.Number(name)
	if err != nil && in.err == nil {
		in.err = err
	}
	return value
}

func (in *inputs) list(name string) []float64 {
	values, err := in.c.List(name)
	if err != nil && in.err == nil {
		in.err = err
	}
	return values
}

func TestEveryFormulaNamesItsSource(t *testing.T) {
	missing, err := published.Unsourced(os.DirFS("."))
	require.NoError(t, err)
	assert.Empty(t, missing)
}
