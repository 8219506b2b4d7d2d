package work_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision/conformance"
	"shopstint/model/work"
)

func TestWorkAgreesWithPublishedCases(t *testing.T) { conformance.Hold(t, "model/work") }

func TestASinglePhaseMotorDrawsTheRootOfThreeMore(t *testing.T) {
	// Source: as for three phases, P = V·I·PF·η: 2300 W ÷ (230 V × 0.8 × 0.9) = 13.889 A.
	one := work.MotorCurrent(2300, 230, 0.8, 0.9, 1)
	assert.InDelta(t, 13.889, float64(one), 0.0005)
	assert.InDelta(t, math.Sqrt(3), float64(one/work.MotorCurrent(2300, 230, 0.8, 0.9, 3)), 1e-12)
}
