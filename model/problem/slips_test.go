package problem_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/problem"
)

// slips counts by definition: the last letter is added, left out, changed or right,
// or the last two are swapped. Source: F. J. Damerau, Communications of the ACM
// 7(3), 1964.
func slips(a, b string) int {
	if a == "" || b == "" {
		return len(a) + len(b)
	}
	m, n := len(a)-1, len(b)-1
	changed := 1
	if a[m] == b[n] {
		changed = 0
	}
	least := min(slips(a[:m], b)+1, slips(a, b[:n])+1, slips(a[:m], b[:n])+changed)
	if m > 0 && n > 0 && a[m] == b[n-1] && a[m-1] == b[n] {
		least = min(least, slips(a[:m-1], b[:n-1])+1)
	}
	return least
}

func TestNearestIsTheFirstNameWithTheFewestSlips(t *testing.T) {
	word := rapid.StringMatching(`[abc]{0,7}`)
	rapid.Check(t, func(t *rapid.T) {
		given, names := word.Draw(t, "word"), rapid.SliceOfN(word, 1, 3).Draw(t, "names")
		want, fewest := "", 3
		for _, name := range names {
			if n := slips(given, name); n < fewest && (2*n < len(given) || n == 0) {
				want, fewest = name, n
			}
		}
		got, found := problem.Nearest(given, names)
		require.Equal(t, want, got)
		require.Equal(t, fewest < 3, found)
	})
}

func TestASwapOrALetterTooManyIsOneSlipWhereverItIs(t *testing.T) {
	for word, want := range map[string]string{"prm": "rpm", "rmp": "rpm", "ratse": "rates", "arte": "rate", "xrpm": "rpm", "rpmx": "rpm"} {
		got, found := problem.Nearest(word, []string{want})
		assert.True(t, found, word)
		assert.Equal(t, want, got)
	}
	for word, name := range map[string]string{"prx": "rpm", "xmp": "rpm", "rrr": "rpm", "hurly_rt": "hourly_rate"} {
		_, found := problem.Nearest(word, []string{name})
		assert.False(t, found, "two of three letters are wrong, or three of eight: %s", word)
	}
}

func TestOneOtherPlaceIsTold(t *testing.T) {
	p := problem.Problem{What: "a", Also: []problem.Place{{File: "shop.yaml", Line: 1}}}
	assert.EqualError(t, p, "a (also: shop.yaml:1)")
}
