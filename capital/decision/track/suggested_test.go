package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
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
