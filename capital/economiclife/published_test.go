package economiclife_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/capital/economiclife"
	"shopstint/model/published"
)

func TestEconomicLivesAgreeWithPublishedCases(t *testing.T) {
	require.NoError(t, published.Agree(os.DirFS("../../testdata/published"), "economiclife", workOut))
}

func workOut(in *published.Inputs) map[string][]float64 {
	rate, price, operating, market := in.Number("rate"), in.Number("price"), in.List("operating"), in.List("market")
	if in.Err() != nil {
		return nil
	}
	costs := economiclife.EquivalentAnnualCosts(rate, price, operating, market)
	life, cost := economiclife.Best(costs)
	return map[string][]float64{
		"costs": costs, "last": costs[len(costs)-1:], "life": {float64(life)}, "cost": {cost},
	}
}
