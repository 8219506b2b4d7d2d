package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
)

// Source of the examples below: common practice, no source; sums stand beside them.

// again is a rework of so many jobs with a wait of some minutes, below zero for none.
func again(day int, job string, jobs, minutes float64) logbook.Entry {
	line := logbook.Entry{Date: on(day), Kind: logbook.Rework, Job: job, Jobs: jobs}
	if minutes >= 0 {
		line.Minutes, line.Given = quantity.Minutes(minutes), logbook.HasMinutes
	}
	return line
}

func TestEachJobTypeIsCountedByItself(t *testing.T) {
	s := mixed(60, func(kind *model.JobType) { kind.Name, kind.ReworkChance = "", 0.04 })
	other := done(99)
	other.Job, other.Jobs = "other", 8
	r := taken(t, s, []logbook.Entry{done(0), done(50), other, again(60, "other", 2, -1), again(70, "other", 1, 45), again(80, "top", 1, 60)})
	require.Len(t, r.Jobs, 2)
	top, second := r.Jobs[0], r.Jobs[1]
	assert.Equal(t, "top", top.Key)
	assert.Equal(t, "other", second.Key)
	assert.Equal(t, "other", second.Name, "its key where it has no name")
	years := 100 / 365.25
	assert.InDelta(t, 2/years, top.PerYear.Value, 1e-9)
	assert.InDelta(t, 8/years, second.PerYear.Value, 1e-9)
	rate := evidence.Rate(8, years, 0.9)
	assert.InDelta(t, rate.Low, second.PerYear.Low, 1e-9)
	assert.InDelta(t, rate.High, second.PerYear.High, 1e-9)
	assert.True(t, second.PerYear.Known)
	assert.InDelta(t, 20, top.Study, 0)
	assert.InDelta(t, 60, second.Study, 0)
	assert.InDelta(t, 0.04, second.Chance, 1e-12)
	assert.InDelta(t, 3, second.Again, 0)
	assert.InDelta(t, 8, second.Done, 0)
	assert.InDelta(t, 3.0/8, second.Share.Value, 1e-12)
	share := evidence.Proportion(3, 8, 0.9)
	assert.InDelta(t, share.Low, second.Share.Low, 1e-12)
	assert.InDelta(t, share.High, second.Share.High, 1e-12)
	assert.InDelta(t, 0.5, top.Share.Value, 1e-12)
	assert.Equal(t, 1, second.Waits, "of two reworks one has its wait")
	assert.InDelta(t, 45, second.Waiting.Value, 1e-9)
	assert.False(t, second.Waiting.Known)
	assert.Equal(t, 1, top.Waits)
}

func TestAJobTypeThatTheLogbookDoesNotNameIsNotListed(t *testing.T) {
	s := mixed(60, func(*model.JobType) {})
	r := taken(t, s, []logbook.Entry{done(0)})
	require.Len(t, r.Jobs, 1)
	assert.Zero(t, r.Jobs[0].Again)
	assert.Zero(t, r.Jobs[0].Waits)
	assert.Zero(t, r.Jobs[0].Waiting)
	assert.InDelta(t, 0, r.Jobs[0].Share.Value, 0)
	assert.True(t, r.Jobs[0].Share.Known)
	only := taken(t, s, []logbook.Entry{again(0, "top", 1, -1)}).Jobs[0]
	assert.Equal(t, track.Estimate{}, only.Share, "none was finished")
	assert.Zero(t, only.Done)
}

func TestHalfAJobIsCounted(t *testing.T) {
	half := done(0)
	half.Jobs = 0.5
	s := mixed(60, func(*model.JobType) {})
	assert.InDelta(t, 0.5, taken(t, s, []logbook.Entry{half}).Jobs[0].Done, 0)
	assert.InDelta(t, 0, taken(t, s, []logbook.Entry{half}).Jobs[0].Share.Value, 0)
}
