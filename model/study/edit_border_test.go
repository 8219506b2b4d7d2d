package study_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/study"
)

// A member whose inputs all stand in blocks of their own has no single value to
// stand behind: what is added stands in front of the first block.
func TestAnInputAmongBlocksAloneIsAddedInFrontOfThem(t *testing.T) {
	const before = `currency: EUR
units: metric
shops:
  mill:
    distance:
      value: 25 km
      note: by the bridge
    tariff:
      hourly_rate: 85 per h
    machines:
      planer:
        class: planer
machines:
  planer20: {class: planer, price: 3200}
job_types:
  top:
    per_year: 24
    operations:
      plane: {class: planer}
`
	after, err := study.Edit("kept.yaml", []byte(before), []study.Change{{Path: "shops.mill.tolls", Value: "4"}})
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(before, "    distance:\n", "    tolls: 4\n    distance:\n", 1), string(after))
}
