package single_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision/single"
)

// Visits of one or two jobs save 10 and 16 a year, and each job 1 besides.
func TestAJobTypesSavingFollowsItsVisits(t *testing.T) {
	curve := single.JobCurve{PerYear: 4, Saved: []float64{0, 10, 16}, PerJob: 1}
	for jobs, want := range map[float64]float64{
		0: 0, 1: 10 + 1, 2: 16 + 2, 4: 2*16 + 4, // whole visits
		3: 16 + 10 + 3, 3.5: 16 + (10+16)/2.0 + 3.5, 0.25: 0.25*10 + 0.25, // one more with a part of the jobs
	} {
		assert.InDelta(t, want, curve.At(jobs), 1e-12, "%v jobs", jobs)
	}
}

func TestTheStaircaseHasACornerAtEachWholeNumberOfJobsThatSavesSomething(t *testing.T) {
	kinks := func(job single.JobCurve) []float64 {
		curve := single.Curve{Jobs: []single.JobCurve{job}}
		return curve.Kinks(1)
	}
	assert.Equal(t, []float64{0.25, 0.5, 0.75}, kinks(single.JobCurve{PerYear: 4, Saved: []float64{0, 10, 16}}))
	assert.Equal(t, []float64{0.25, 0.5, 0.75}, kinks(single.JobCurve{PerYear: 4, Saved: []float64{0, 0, 0}, PerJob: 3}))
	assert.Empty(t, kinks(single.JobCurve{PerYear: 4, Saved: []float64{0, 0, 0}}), "nothing is saved")
	assert.Empty(t, kinks(single.JobCurve{PerYear: 4, Saved: []float64{0, 10}}), "each job has its own visit: a straight line")
	assert.Empty(t, kinks(single.JobCurve{Saved: []float64{0, 10, 16}}), "no jobs")
}

func TestASwingIsAsLargeAsItsEndsAreApart(t *testing.T) {
	assert.InDelta(t, 7, single.Swing{AtLow: -3, AtHigh: 4}.Size(), 0)
	assert.InDelta(t, 7, single.Swing{AtLow: 4, AtHigh: -3}.Size(), 0)
	assert.Zero(t, single.Swing{AtLow: 4, AtHigh: 4}.Size())
}
