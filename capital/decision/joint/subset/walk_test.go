package subset

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A walk keeps up what a set costs and uses; each step tells what the problem tells.
func TestAWalkTellsWhatEachStepChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anything(t, 8)
		w := walkOn(p)
		for range rapid.IntRange(0, 30).Draw(t, "steps") {
			m := rapid.IntRange(0, p.Items-1).Draw(t, "item")
			assert.InDelta(t, p.Cost(w.set^1<<m)-p.Cost(w.set), w.change(m), 1e-9)
			assert.Equal(t, p.Allows(w.set), w.allows(), "%b", w.set)
			before := w.set
			w.flip(m)
			assert.Equal(t, before^1<<m, w.set)
		}
		set := rapid.Uint64Range(0, 1<<p.Items-1).Draw(t, "put")
		w.put(set)
		assert.Equal(t, set, w.set)
		for m := range p.Items {
			assert.InDelta(t, p.Cost(set^1<<m)-p.Cost(set), w.change(m), 1e-9)
		}
		assert.Equal(t, p.Allows(set), w.allows())
	})
}
