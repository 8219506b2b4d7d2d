package track_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/logbook"
	"shopstint/model/study"
	"shopstint/rental/demolog"
)

func demoStudy(t testing.TB) *model.Study {
	t.Helper()
	loaded, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return loaded
}

// tracked reads a logbook and compares it.
func tracked(t testing.TB, loaded *model.Study, log []byte) *track.Result {
	t.Helper()
	tracker := track.New(loaded)
	problems, err := logbook.Read("log.csv", bytes.NewReader(log), loaded, tracker.Add)
	require.NoError(t, err)
	require.Empty(t, problems)
	return tracker.Result()
}

// taken compares entries that were never written.
func taken(t testing.TB, loaded *model.Study, entries []logbook.Entry) *track.Result {
	t.Helper()
	tracker := track.New(loaded)
	for _, entry := range entries {
		require.NoError(t, tracker.Add(entry))
	}
	return tracker.Result()
}

func machine(t testing.TB, r *track.Result, path string) track.Machine {
	t.Helper()
	for _, m := range r.Machines {
		if m.Path == path {
			return m
		}
	}
	require.Fail(t, "no minutes of "+path)
	return track.Machine{}
}

func worn(t testing.TB, r *track.Result, path string) track.Wear {
	t.Helper()
	for _, w := range r.Wear {
		if w.Path == path {
			return w
		}
	}
	require.Fail(t, "no lives of "+path)
	return track.Wear{}
}

func suggestion(r *track.Result, path string) (track.Suggestion, bool) {
	for _, s := range r.Suggestions {
		if s.Path == path {
			return s, true
		}
	}
	return track.Suggestion{}, false
}

// TestTheTruthBehindGeneratedLogbooksIsFound holds intervals to how often they cover
// what was so in truth in the demo's studio, over many seeds.
func TestTheTruthBehindGeneratedLogbooksIsFound(t *testing.T) {
	loaded := demoStudy(t)
	const seeds = 60
	sanding, river, steps, rates, sled := 0, 0, 0, 0, 0
	for seed := range uint64(seeds) {
		r := taken(t, loaded, demolog.Entries(loaded, seed))
		ratio := machine(t, r, "shops.big_shop.machines.sander43").All.Ratio
		sanding += yes(ratio.Low <= demolog.Sanding && demolog.Sanding <= ratio.High)
		for _, m := range r.Machines {
			if m.Path == "tools.sled" && m.All.Ratio.Known {
				sled += yes(m.All.Ratio.Low <= demolog.Sled && demolog.Sled <= m.All.Ratio.High)
			}
		}
		for _, j := range r.Jobs {
			if j.Key == "river_dining" {
				river += yes(j.Share.Low <= demolog.ReworkRiver && demolog.ReworkRiver <= j.Share.High)
			}
		}
		require.Len(t, r.Visits, 1)
		if v := r.Visits[0]; len(v.Steps) == 1 {
			steps++
			days := v.Steps[0].Date.Day() - demolog.RateDay.Day()
			assert.True(t, days >= 0 && days <= 31, "the first visit at the new rate was on %s", v.Steps[0].Date)
			assert.InDelta(t, 150, v.Steps[0].Before, 0.05)
			assert.InDelta(t, demolog.NewRate, v.Steps[0].After, 0.05)
		}
		if s, ok := suggestion(r, "shops.big_shop.tariff.hourly_rate"); ok {
			rates++
			assert.InDelta(t, demolog.NewRate, s.New, 0.05)
		}
	}
	assert.Equal(t, seeds, steps, "one change of the tariff, in every logbook")
	assert.Equal(t, seeds, rates)
	// 90 % of 60, less three standard errors.
	assert.GreaterOrEqual(t, sanding, 47)
	assert.GreaterOrEqual(t, river, 47)
	assert.Positive(t, sled)
	t.Logf("of %d: sanding %d, sled %d, rework %d", seeds, sanding, sled, river)
}

func TestTheDemosLogbookSaysWhatWasSo(t *testing.T) {
	r := tracked(t, demoStudy(t), demo.Log())
	assert.Equal(t, 385, r.Lines)
	assert.Empty(t, r.LeftOut)
	assert.Equal(t, track.InHandling, machine(t, r, "shops.big_shop.machines.planer36").Bias)
	assert.Equal(t, track.Unsplit, machine(t, r, "shops.big_shop.machines.sander43").Bias)
	assert.Equal(t, track.AsReckoned, machine(t, r, "tools.router").Bias)
	discs := worn(t, r, "abrasives.disc180")
	assert.InDelta(t, 24, discs.Ended, 0)
	assert.InDelta(t, 3, discs.Damaged, 0)
	assert.InDelta(t, 0.60/(38.7/24), discs.Cost.Value, 1e-9, "0.60 a disc, 24 of them over 38.7 m²")
	assert.Empty(t, r.Drift, "eleven months are no two years")
	belts := worn(t, r, "abrasives.belt80")
	assert.False(t, belts.Belief.Told(), "two lives do not tell")
	for _, s := range r.Suggestions {
		assert.Less(t, s.Low, s.New)
		assert.Greater(t, s.High, s.New)
	}
}

func TestTheSameLogbookSaysTheSame(t *testing.T) {
	loaded := demoStudy(t)
	assert.Equal(t, tracked(t, loaded, demo.Log()), tracked(t, loaded, demo.Log()))
}

func yes(told bool) int {
	if told {
		return 1
	}
	return 0
}
