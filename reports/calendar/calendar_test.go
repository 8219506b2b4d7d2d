package calendar_test

import (
	"bytes"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/reports"
	"shopstint/reports/calendar"
)

var stamp = time.Date(2027, 2, 22, 0, 0, 0, 0, time.UTC)

func written(t require.TestingT, plan *reports.VisitPlan) string {
	var out bytes.Buffer
	require.NoError(t, calendar.Write(&out, plan, stamp))
	return out.String()
}

func twoVisits() *reports.VisitPlan {
	visit := func(date string, away float64, jobs ...reports.VisitJob) reports.PlannedVisit {
		return reports.PlannedVisit{Date: date, Shop: "mill", ShopName: "the mill", Away: away, Jobs: jobs}
	}
	return &reports.VisitPlan{Title: "tops", Visits: []reports.PlannedVisit{
		visit("2027-03-08", 245.4, reports.VisitJob{Key: "lee", Name: "Lee, hall", Count: 1}, reports.VisitJob{Key: "orr", Name: "orr", Count: 2}),
		visit("2027-03-15", 1000, reports.VisitJob{Key: "orr", Name: "orr", Count: 2}),
		visit("2027-03-16", 60, reports.VisitJob{Key: "orr", Name: "orr", Count: 2}),
	}}
}

// uids are the identities in the order of the events.
func uids(text string) []string {
	var list []string
	for line := range strings.SplitSeq(text, "\r\n") {
		if id, ok := strings.CutPrefix(line, "UID:"); ok {
			list = append(list, id)
		}
	}
	return list
}

func TestAnEventRunsFromEightUntilYouAreBackByTheWallsClock(t *testing.T) {
	text := written(t, twoVisits())
	for _, line := range []string{
		"BEGIN:VCALENDAR", "VERSION:2.0", "DTSTAMP:20270222T000000Z", "DTSTART:20270308T080000", "DTEND:20270308T120500",
		"DTSTART:20270315T080000", "DTEND:20270316T004000", `SUMMARY:the mill: Lee\, hall\, orr`, "LOCATION:the mill", "END:VCALENDAR",
	} {
		assert.Contains(t, text, line+"\r\n")
	}
	assert.Equal(t, 3, strings.Count(text, "BEGIN:VEVENT"))
}

func TestAVisitKeepsItsIdentityWhenItMoves(t *testing.T) {
	first := uids(written(t, twoVisits()))
	require.Len(t, first, 3)
	assert.NotEqual(t, first[1], first[2], "two parts of one job are two events")
	moved := twoVisits()
	moved.Visits[0].Date = "2027-03-09"
	assert.Equal(t, first, uids(written(t, moved)))
	moved.Visits[0].Jobs = moved.Visits[0].Jobs[:1]
	assert.NotEqual(t, first[0], uids(written(t, moved))[0])
}

func TestADayThatIsNoneIsAnError(t *testing.T) {
	plan := twoVisits()
	plan.Visits[0].Date = "soon"
	assert.ErrorContains(t, calendar.Write(&bytes.Buffer{}, plan, stamp), "could not read the day of a visit")
}

// Whatever a stranger has written into a study: lines of at most 75 octets of
// UTF-8, nothing but the events that were written, and the text comes back.
func TestTextsAreFoldedAndEscapedWhateverTheNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := twoVisits()
		name := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
			"a\r\nEND:VEVENT\r\nBEGIN:VALARM", `back\slash; semi, comma`, strings.Repeat("広い板", 60), strings.Repeat("x", 300), "  ", "<a> <b>", "\xff\xfe",
		})).Draw(t, "name")
		plan.Visits[0].Jobs[0].InWords, plan.Visits[0].ShopName = name, name
		text := written(t, plan)
		require.True(t, strings.HasSuffix(text, "\r\n"))
		for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
			require.LessOrEqual(t, len(line), 75)
			require.True(t, utf8.ValidString(line))
			require.NotContains(t, line, "\n")
			require.NotContains(t, line, "\r")
			require.NotEqual(t, "BEGIN:VALARM", line)
		}
		read, err := ics.ParseCalendar(strings.NewReader(text))
		require.NoError(t, err)
		require.Len(t, read.Events(), 3)
	})
}
