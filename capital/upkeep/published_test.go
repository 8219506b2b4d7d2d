package upkeep_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/capital/upkeep"
	"shopstint/model/published"
)

func TestUpkeepAgreesWithPublishedCases(t *testing.T) {
	require.NoError(t, published.Agree(os.DirFS("../../testdata/published"), "upkeep", workOut))
}

func workOut(in *published.Inputs) map[string][]float64 {
	switch method := in.Text("method"); method {
	case "repair":
		return repairs(in)
	case "remaining share":
		return remaining(in)
	default:
		in.Keep(fmt.Errorf("%s: no method %q", in.Case, method))
		return nil
	}
}

func repairs(in *published.Inputs) map[string][]float64 {
	hours := in.List("hours")
	for i, at := range hours {
		hours[i] = upkeep.AccumulatedRepair(in.Number("price"), in.Number("rf1"), in.Number("rf2"), at)
	}
	return map[string][]float64{"repair": hours}
}

func remaining(in *published.Inputs) map[string][]float64 {
	ages := in.List("ages")
	for i, age := range ages {
		ages[i] = upkeep.RemainingShare(in.Number("c1"), in.Number("c2"), in.Number("c3"), age, in.Number("hours_a_year"))
	}
	return map[string][]float64{"shares": ages}
}
