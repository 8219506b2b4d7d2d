package track_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// Source of the examples below: common practice, no source.

func TestMinutesOfAMeasuredStepChangeNoFeedAndNoHandling(t *testing.T) {
	s := studygen.Round()
	for o := range s.JobTypes[0].Operations {
		if operation := &s.JobTypes[0].Operations[o]; operation.Key == "cut" {
			operation.Measured = quantity.Minutes(40)
		}
	}
	var log []logbook.Entry
	for day := range 8 {
		log = append(log, logbook.Entry{
			Date: on(day), Kind: logbook.Work, Subject: "saw", Job: "top", Operation: "cut", Jobs: 1,
			Minutes: quantity.Minutes(55 + float64(day%3)), Given: logbook.HasMinutes,
		})
	}
	r := taken(t, s, log)
	_, measured := suggestion(r, "job_types.top.operations.cut.measured")
	assert.True(t, measured, "the minutes that were measured are what the lines speak of")
	for _, path := range []string{"tools.saw.feed", "tools.saw.handling_per_pass", "tools.saw.handling_heavy"} {
		_, ok := suggestion(r, path)
		assert.False(t, ok, path)
	}
}

// invoices are visits of an hour, paid at the study's 150 an hour times each factor.
func invoices(factors ...float64) []logbook.Entry {
	var log []logbook.Entry
	for day, factor := range factors {
		log = append(log, logbook.Entry{
			Date: on(day), Kind: logbook.Visit, Subject: "mill", Job: "top", Jobs: 1, Minutes: quantity.Hours(1),
			Amount: quantity.Money(150 * factor), Given: logbook.HasMinutes | logbook.HasAmount,
		})
	}
	return log
}

func TestAPostedRateThatMostDaysImplyIsLeftAsItIs(t *testing.T) {
	const rate = "shops.mill.tariff.hourly_rate"
	_, ok := suggestion(taken(t, studygen.Round(), invoices(0.92, 1.03, 0.97, 1.05, 1.02, 1.1, 0.98, 1.02)), rate)
	assert.False(t, ok, "the middle is 2 %% off, and the study's rate lies among the days'")

	found, ok := suggestion(taken(t, studygen.Round(), invoices(1.08, 1.12, 1.1, 1.1, 1.09, 1.11)), rate)
	require.True(t, ok, "no day was billed at the study's rate")
	assert.InDelta(t, 165, found.New, 1e-9)
	assert.Equal(t, track.OfInvoices, found.Ground)
}

// lived are so many blades that lasted so far, by turns a quarter more and less.
func lived(lives int, metres float64) []logbook.Entry {
	var log []logbook.Entry
	for life := range lives {
		log = append(log, buy(3*life, "1", 80), use(3*life+1, "1", metres*(1+0.25*float64(life%3-1))), end(3*life+2, "1", logbook.Dull))
	}
	return log
}

// The study's own life is right. Of its range of 140 to 290 m three lives leave two thirds,
// which is told and no news, and six a half. What is known to three tenths is news.
func TestALifeIsSuggestedWhereItIsKnownMuchMoreNarrowly(t *testing.T) {
	for lives, news := range map[int]bool{3: false, 6: true} {
		s := studygen.Round()
		s.Origins["edges.blade.life"] = model.Origin{HasRange: true, Low: 140, High: 290}
		r := taken(t, s, lived(lives, 205))
		blade := worn(t, r, "edges.blade")
		require.True(t, blade.Belief.Told())
		require.False(t, blade.Lasts.Excludes(200))
		narrow := math.Log(blade.Lasts.High/blade.Lasts.Low) / math.Log(290.0/140)
		assert.Equal(t, news, narrow <= 0.6, "%d lives: %.2f of the range", lives, narrow)
		found, ok := suggestion(r, "edges.blade.life")
		assert.Equal(t, news, ok, "%d lives", lives)
		if news {
			assert.InDelta(t, blade.Lasts.Value, found.New, 0)
			assert.InDelta(t, blade.Lasts.Low, found.Low, 0)
			assert.InDelta(t, blade.Lasts.High, found.High, 0)
			assert.Equal(t, track.OfLives, found.Ground)
			assert.Equal(t, lives, found.Count)
			assert.InDelta(t, 200, found.Old, 0)
			assert.True(t, found.Ranged)
			assert.InDelta(t, 140, found.OldLow, 0)
			assert.InDelta(t, 290, found.OldHigh, 0)
			assert.Equal(t, quantity.DimDistance, found.Dimension)
		}
	}
}

func TestASharpeningAndAPriceAsInTheStudyAreNotSuggested(t *testing.T) {
	for paid, news := range map[float64]bool{80: false, 40: true, 100: true} {
		log := sharpened(6, 0)
		for i := range log {
			if log[i].Kind == logbook.Sharpen {
				log[i].Amount = quantity.Money(paid)
			}
		}
		found, ok := suggestion(taken(t, studygen.Round(), log), "edges.knives.sharpening_price")
		assert.Equal(t, news, ok, "60 and an errand of 20, and %g was paid", paid)
		if news {
			assert.InDelta(t, paid-20, found.New, 1e-9)
			assert.InDelta(t, 0.99*(paid-20), found.Low, 1e-9, "a range of one in a hundred at least")
			assert.InDelta(t, 1.01*(paid-20), found.High, 1e-9)
			assert.InDelta(t, paid, found.Seen.Value, 0)
			assert.Equal(t, track.OfSharpenings, found.Ground)
		}
	}
	_, ok := suggestion(taken(t, studygen.Round(), lived(6, 205)), "edges.blade.price")
	assert.False(t, ok)
}

// A sharpening that cost less than its errand is free: no input is below nothing. Of jobs
// that all came back no more than all did.
func TestASuggestionKeepsWithinTheLimitsOfItsInput(t *testing.T) {
	log := sharpened(6, 0)
	for i := range log {
		if log[i].Kind == logbook.Sharpen {
			log[i].Amount = 28 - 9*quantity.Money(i%4) // 10 and 28 by turns, and the errand is 20
		}
	}
	found, ok := suggestion(taken(t, studygen.Round(), log), "edges.knives.sharpening_price")
	require.True(t, ok)
	assert.Zero(t, found.Low)
	assert.Zero(t, found.New)
	assert.Positive(t, found.High)

	again := []logbook.Entry{}
	for day := range 12 {
		again = append(again, done(day), logbook.Entry{Date: on(day), Kind: logbook.Rework, Job: "top", Jobs: 1})
	}
	rework, ok := suggestion(taken(t, studygen.Round(), again), "job_types.top.rework_chance")
	require.True(t, ok)
	assert.InDelta(t, 1, rework.New, 0, "all of them")
	assert.InDelta(t, 1, rework.High, 0)
	assert.Less(t, rework.Low, 0.99)
	assert.Equal(t, 12, rework.Count)
	assert.Equal(t, track.OfRework, rework.Ground)
}

// Suggestions come in the order of the report: minutes, invoices, lives, jobs.
func TestSuggestionsComeInTheOrderOfTheReport(t *testing.T) {
	log := cuts(24, 1.5)
	log = append(log, invoices(1.2, 1.2, 1.2, 1.2, 1.2)...)
	log = append(log, lived(9, 500)...)
	for range 60 {
		log = append(log, done(380))
	}
	var paths []string
	for _, one := range taken(t, studygen.Round(), log).Suggestions {
		paths = append(paths, one.Path)
	}
	assert.Equal(t, []string{"tools.saw.feed", "tools.saw.handling_heavy", "shops.mill.tariff.hourly_rate", "edges.blade.life", "job_types.top.per_year"}, paths)
}

func TestARateHalfAPercentOffIsLeftAsItIs(t *testing.T) {
	const rate = "shops.mill.tariff.hourly_rate"
	for factor, news := range map[float64]bool{1.005: false, 0.995: false, 1.02: true, 0.98: true} {
		_, ok := suggestion(taken(t, studygen.Round(), invoices(factor, factor, factor, factor, factor)), rate)
		assert.Equal(t, news, ok, "%g", factor)
	}
}
