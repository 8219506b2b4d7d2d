package depreciation_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/depreciation"
	"shopstint/model/published"
)

func TestDepreciationAgreesWithPublishedCases(t *testing.T) {
	files, err := published.Load(os.DirFS("../../testdata/published"), "depreciation")
	require.NoError(t, err)
	for _, file := range files {
		for _, c := range file.Cases {
			got, err := workOut(c)
			require.NoError(t, err)
			assert.NoError(t, c.Compare(got), c.Note)
		}
	}
}

// workOut gives the schedule of the method the case names in percent and,
// where there is a cost, in money.
func workOut(c published.Case) (map[string][]float64, error) {
	in := inputs{c: c}
	cost := 100.0
	if in.has("cost") {
		cost = in.number("cost")
	}
	shares, err := in.schedule(cost)
	if err == nil {
		err = in.err
	}
	if err != nil {
		return nil, err
	}
	amounts := times(cost, shares)
	got := map[string][]float64{
		"percent":    times(100, shares),
		"deductions": amounts,
		"first":      amounts[:1],
		"last":       amounts[len(amounts)-1:],
		"total":      {sum(amounts)},
		"book":       {cost - sum(amounts)},
	}
	if in.has("from") {
		got["between"] = []float64{sum(amounts[int(in.number("from")):int(in.number("to"))])}
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

func (in *inputs) schedule(cost float64) ([]float64, error) {
	method, err := in.c.Text("method")
	if err != nil {
		return nil, err
	}
	switch method {
	case "half-year":
		return depreciation.HalfYear(int(in.number("class")))
	case "half-year worked out":
		return halfYearExact(int(in.number("class"))), nil
	case "mid-quarter":
		return depreciation.MidQuarter(int(in.number("class")), int(in.number("quarter")))
	case "straight line half-year":
		return depreciation.StraightLineHalfYear(int(in.number("life"))), nil
	case "straight line":
		return depreciation.StraightLine(int(in.number("life")), in.number("salvage")/cost), nil
	case "sum of years":
		return depreciation.SumOfYears(int(in.number("life")), in.number("salvage")/cost), nil
	case "declining balance":
		return depreciation.DecliningBalance(int(in.number("life")), in.number("salvage")/cost, in.number("factor")), nil
	case "declining balance without switch":
		return depreciation.DecliningBalanceNoSwitch(int(in.number("life")), in.number("salvage")/cost, in.number("factor")), nil
	case "units of production":
		units, err := in.c.List("units")
		return depreciation.UnitsOfProduction(units, in.number("total_units"), in.number("salvage")/cost), err
	}
	return nil, fmt.Errorf("%s: no method %q", in.c, method)
}

func times(factor float64, shares []float64) []float64 {
	out := make([]float64, len(shares))
	for i, share := range shares {
		out[i] = factor * share
	}
	return out
}

func sum(amounts []float64) float64 {
	total := 0.0
	for _, amount := range amounts {
		total += amount
	}
	return total
}

func TestEveryFormulaNamesItsSource(t *testing.T) {
	missing, err := published.Unsourced(os.DirFS("."))
	require.NoError(t, err)
	assert.Empty(t, missing)
}
