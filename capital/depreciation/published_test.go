package depreciation_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/capital/depreciation"
	"shopstint/model/published"
)

func TestDepreciationAgreesWithPublishedCases(t *testing.T) {
	require.NoError(t, published.Agree(os.DirFS("../../testdata/published"), "depreciation", workOut))
}

// workOut gives the schedule of the method the case names in percent and,
// where there is a cost, in money.
func workOut(in *published.Inputs) map[string][]float64 {
	cost := 100.0
	if in.Has("cost") {
		cost = in.Number("cost")
	}
	shares, err := schedule(in, cost)
	in.Keep(err)
	if in.Err() != nil {
		return nil
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
	if in.Has("from") {
		got["between"] = []float64{sum(amounts[int(in.Number("from")):int(in.Number("to"))])}
	}
	return got
}

// schedule gives the method's share of the cost for each year.
func schedule(in *published.Inputs, cost float64) ([]float64, error) {
	method := in.Text("method")
	switch method {
	case "half-year":
		return depreciation.HalfYear(int(in.Number("class")))
	case "half-year worked out":
		return halfYearExact(int(in.Number("class"))), nil
	case "mid-quarter":
		return depreciation.MidQuarter(int(in.Number("class")), int(in.Number("quarter")))
	case "straight line half-year":
		return depreciation.StraightLineHalfYear(int(in.Number("life"))), nil
	case "straight line":
		return depreciation.StraightLine(int(in.Number("life")), in.Number("salvage")/cost), nil
	case "sum of years":
		return depreciation.SumOfYears(int(in.Number("life")), in.Number("salvage")/cost), nil
	case "declining balance":
		return depreciation.DecliningBalance(int(in.Number("life")), in.Number("salvage")/cost, in.Number("factor")), nil
	case "declining balance without switch":
		return depreciation.DecliningBalanceNoSwitch(int(in.Number("life")), in.Number("salvage")/cost, in.Number("factor")), nil
	case "units of production":
		return depreciation.UnitsOfProduction(in.List("units"), in.Number("total_units"), in.Number("salvage")/cost), nil
	}
	return nil, fmt.Errorf("%s: no method %q", in.Case, method)
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
