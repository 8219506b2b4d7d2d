package economiclife_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/economiclife"
	"shopstint/model/published"
)

func TestEconomicLivesAgreeWithPublishedCases(t *testing.T) {
	files, err := published.Load(os.DirFS("../../testdata/published"), "economiclife")
	require.NoError(t, err)
	for _, file := range files {
		for _, c := range file.Cases {
			got, err := workOut(c)
			require.NoError(t, err)
			assert.NoError(t, c.Compare(got), c.Note)
		}
	}
}

func workOut(c published.Case) (map[string][]float64, error) {
	rate, err := c.Number("rate")
	if err != nil {
		return nil, err
	}
	price, err := c.Number("price")
	if err != nil {
		return nil, err
	}
	operating, err := c.List("operating")
	if err != nil {
		return nil, err
	}
	market, err := c.List("market")
	if err != nil {
		return nil, err
	}
	costs := economiclife.EquivalentAnnualCosts(rate, price, operating, market)
	life, cost := economiclife.Best(costs)
	return map[string][]float64{
		"costs": costs, "last": costs[len(costs)-1:], "life": {float64(life)}, "cost": {cost},
	}, nil
}

func TestEveryFormulaNamesItsSource(t *testing.T) {
	missing, err := published.Unsourced(os.DirFS("."))
	require.NoError(t, err)
	assert.Empty(t, missing)
}
