package visitplan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// drawMask draws a set of the numbers below reach, as a mask and one by one. Now and
// then it begins with a long run: the first that is missing then stands far on.
func drawMask(t *rapid.T, name string) (mask, [reach]bool) {
	var m mask
	var set [reach]bool
	run := rapid.OneOf(rapid.Just(0), rapid.IntRange(0, reach), rapid.Just(64), rapid.Just(reach)).Draw(t, name+": run")
	density := rapid.SampledFrom([]int{0, 1, 5, 9}).Draw(t, name+": of ten")
	for k := range reach {
		if set[k] = k < run || rapid.IntRange(0, 9).Draw(t, name) < density; set[k] {
			m = m.with(k)
		}
	}
	return m, set
}

func TestAMaskIsASetOfTheNumbersBelowItsReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, inA := drawMask(t, "a")
		b, inB := drawMask(t, "b")
		common, missing := false, false
		for k := range reach {
			assert.Equal(t, inA[k], a.has(k), "%d", k)
			assert.Equal(t, inA[k] || inB[k], a.or(b).has(k), "%d", k)
			common, missing = common || inA[k] && inB[k], missing || inB[k] && !inA[k]
		}
		assert.Equal(t, common, a.meets(b))
		assert.Equal(t, !missing, a.holds(b))
	})
}

func TestAMaskMovesToTheFirstThatIsMissingOrThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, in := drawMask(t, "m")
		for _, there := range []bool{false, true} {
			first := 0
			for first < reach && in[first] != there {
				first++
			}
			places, rest := m.next()
			if there {
				places, rest = m.lowest()
			}
			assert.Equal(t, first+1, places)
			for k := range reach {
				assert.Equal(t, k+places < reach && in[k+places], k < reach && rest.has(k), "%d of those after %d", k, places)
			}
		}
	})
}
