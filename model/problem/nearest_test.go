package problem_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/problem"
)

var fields = []string{"price", "width", "feed", "minimum", "hourly_rate", "h", "rate", "rates"}

func TestNearestFindsTheSlipAndNothingElse(t *testing.T) {
	for _, row := range []struct {
		word, want string
		found      bool
	}{
		{"pric", "price", true},              // one left out
		{"pricce", "price", true},            // one added
		{"prise", "price", true},             // one changed
		{"prcie", "price", true},             // neighbours swapped
		{"minmun", "minimum", true},          // two slips
		{"HOURLY_RATE", "hourly_rate", true}, // capitals only
		{"Width", "width", true},
		{"price", "price", true},
		{"ratee", "rate", true}, // equally near to rates: first listed
		{"fd", "", false},       // two slips of two letters
		{"fxx", "", false},      // two slips of three letters
		{"fee", "feed", true},   // one of three
		{"x", "", false},        // one slip is all of it
		{"", "", false},
		{"colour", "", false},
		{"mnmm", "", false}, // three slips
	} {
		got, found := problem.Nearest(row.word, fields)
		assert.Equal(t, row.want, got, row.word)
		assert.Equal(t, row.found, found, row.word)
	}
	_, found := problem.Nearest("price", nil)
	assert.False(t, found)
}

func TestNearestCountsLettersNotBytes(t *testing.T) {
	got, found := problem.Nearest("größe", []string{"grösse", "größer"})
	assert.True(t, found)
	assert.Equal(t, "größer", got)
}

func TestOneSlipInALongNameIsAlwaysFound(t *testing.T) {
	name := rapid.StringMatching(`[a-z]{5,12}`)
	rapid.Check(t, func(t *rapid.T) {
		want := name.Draw(t, "name")
		at := rapid.IntRange(0, len(want)-1).Draw(t, "at")
		for _, word := range []string{want[:at] + want[at+1:], want[:at] + "_" + want[at:], want[:at] + "_" + want[at+1:]} {
			got, found := problem.Nearest(word, []string{"0123456789", want})
			require.True(t, found, word)
			require.Equal(t, want, got)
		}
	})
}

func TestNearestTakesWhatIsAllowedOrNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		got, found := problem.Nearest(rapid.String().Draw(t, "word"), fields)
		if found {
			require.Contains(t, fields, got)
		} else {
			require.Empty(t, got)
		}
	})
}

func TestAHostileWordCostsNoTime(t *testing.T) {
	long := strings.Repeat("a", 1<<20)
	start := time.Now()
	_, found := problem.Nearest(long, fields)
	assert.False(t, found)
	assert.Less(t, time.Since(start), time.Second)
}

func TestSuggestNamesTheNearestOrAll(t *testing.T) {
	for _, row := range []struct {
		word    string
		allowed []string
		want    string
	}{
		{"metrik", []string{"metric", "inch"}, `did you mean "metric"?`},
		{"cubits", []string{"metric", "inch", "x"}, "one of metric, inch, x"},
		{"cubits", []string{"metric"}, "only metric may stand here"},
		{"cubits", nil, "nothing may stand here, remove it"},
	} {
		assert.Equal(t, row.want, problem.Suggest(row.word, row.allowed))
	}
}
