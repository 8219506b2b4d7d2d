package main

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestUnitsChangeWhatIsShownAndNotWhatIsReckoned has each command answer in both systems:
// whatever has no unit of its own is the same number.
func TestUnitsChangeWhatIsShownAndNotWhatIsReckoned(t *testing.T) {
	shown := 0
	for _, command := range [][]string{
		{"decide", "--demo", "--no-workbook", "--json"}, {"visits", "--demo", "--json"}, {"spend", "--demo", "--futures", "0", "--json"},
		{"wear", "--demo", "--json"}, {"track", "--demo", "--json"},
	} {
		var answers [2]any
		for i, units := range []string{"metric", "inch"} {
			status, stdout, stderr := ran(0, nil, append(command, "--units", units)...)
			require.Equal(t, exitDone, status, stderr)
			require.NoError(t, json.Unmarshal([]byte(stdout), &answers[i]))
		}
		seen := tally{}
		seen.compare(t, command[0], answers[0], answers[1])
		assert.Greater(t, seen.same, 50, command[0])
		shown += seen.shown
	}
	assert.Positive(t, shown, "no figure was shown in another unit")
}

// tally counts numbers that are the same, and those that have a unit in which they differ.
type tally struct{ same, shown int }

func (seen *tally) compare(t *testing.T, place string, one, other any) {
	switch one := one.(type) {
	case map[string]any:
		other, ok := other.(map[string]any)
		require.True(t, ok, place)
		if one["unit"] != other["unit"] {
			seen.shown++
			return
		}
		require.Len(t, other, len(one), place)
		for key, value := range one {
			seen.compare(t, place+"."+key, value, other[key])
		}
	case []any:
		other, ok := other.([]any)
		require.True(t, ok, place)
		require.Len(t, other, len(one), place)
		for i := range one {
			seen.compare(t, fmt.Sprintf("%s[%d]", place, i), one[i], other[i])
		}
	case float64:
		seen.same++
		assert.Equal(t, one, other, place)
	}
}
