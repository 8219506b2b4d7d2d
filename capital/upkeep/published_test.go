package upkeep_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/upkeep"
	"shopstint/model/published"
)

func TestUpkeepAgreesWithPublishedCases(t *testing.T) {
	files, err := published.Load(os.DirFS("../../testdata/published"), "upkeep")
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
	method, err := c.Text("method")
	if err != nil {
		return nil, err
	}
	switch method {
	case "repair":
		return repairs(c)
	case "remaining share":
		return remaining(c)
	}
	return nil, fmt.Errorf("%s: no method %q", c, method)
}

func repairs(c published.Case) (map[string][]float64, error) {
	in, err := numbers(c, "price", "rf1", "rf2")
	if err != nil {
		return nil, err
	}
	hours, err := c.List("hours")
	for i, at := range hours {
		hours[i] = upkeep.AccumulatedRepair(in[0], in[1], in[2], at)
	}
	return map[string][]float64{"repair": hours}, err
}

func remaining(c published.Case) (map[string][]float64, error) {
	in, err := numbers(c, "c1", "c2", "c3", "hours_a_year")
	if err != nil {
		return nil, err
	}
	ages, err := c.List("ages")
	for i, age := range ages {
		ages[i] = upkeep.RemainingShare(in[0], in[1], in[2], age, in[3])
	}
	return map[string][]float64{"shares": ages}, err
}

func numbers(c published.Case, names ...string) ([]float64, error) {
	values := make([]float64, len(names))
	for i, name := range names {
		value, err := c.Number(name)
		if err != nil {
			return nil, err
		}
		values[i] = value
	}
	return values, nil
}

func TestEveryFormulaNamesItsSource(t *testing.T) {
	missing, err := published.Unsourced(os.DirFS("."))
	require.NoError(t, err)
	assert.Empty(t, missing)
}
