package life

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Four lives of 10, 20, 45 and 90, and one of 60 that goes on: at scales far from the
// fitted one the best shape lies far from the fitted one too. What is found is the
// greatest likelihood among shapes a thousandth apart.
func TestTheBestShapeIsFoundFarFromTheFittedOne(t *testing.T) {
	fit, err := Fit([]Observation{{10, true, 1}, {20, true, 1}, {45, true, 1}, {90, true, 1}, {60, false, 1}})
	require.NoError(t, err)
	for _, factor := range []float64{0.2, 0.4, 0.8, 1, 1.5, 4, 10} {
		scale := math.Log(fit.Scale * factor)
		greatest := math.Inf(-1)
		for shape := leastShape; shape < 20; shape *= 1.001 {
			powers, _ := fit.sample.powers(shape)
			greatest = max(greatest, fit.sample.likelihood(shape, scale, powers))
		}
		assert.InDelta(t, greatest, fit.best(func(float64) float64 { return scale }), 1e-4, "at %v times the scale", factor)
	}
}
