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

// Source of the examples below: common practice, no source; sums stand beside them.

// dated moves a line to a date.
func dated(date string, line logbook.Entry) logbook.Entry {
	line.Date = quantity.Date(date)
	return line
}

// at the ends of both years: the day before the first, its first and last day, and the
// first and last day of the second.
var ends = [5]string{"2025-12-31", "2026-01-01", "2026-12-31", "2027-01-01", "2027-12-31"}

func TestTheTwoYearsOfADriftEndWithTheirMonths(t *testing.T) {
	var log []logbook.Entry
	for i, date := range ends {
		jobs, again := dated(date, done(0)), dated(date, logbook.Entry{Kind: logbook.Rework, Job: "top"})
		jobs.Jobs, again.Jobs = []float64{1, 10, 100, 1000, 10000}[i], []float64{1, 2, 3, 4, 5}[i]
		run, cut := dated(date, use(0, "1", []float64{1, 20, 300, 4000, 50000}[i])), dated(date, timed(0, "saw", "top", "cut", 1, 45.6*[]float64{1, 2, 4, 8, 16}[i]))
		visit := dated(date, withTops(1, visited(0, 60, 150*[]float64{1, 2, 4, 8, 16}[i])))
		log = append(log, jobs, again, run, dated(date, end(0, "1", logbook.Dull)), cut, cut, visit, visit)
	}
	r := taken(t, studygen.Round(), log)
	top := drifts(r, "job_types.top")
	assert.InDelta(t, 110/(365/365.25), top[track.DriftJobs].Before, 1e-9)
	assert.InDelta(t, 11000/(365/365.25), top[track.DriftJobs].Now, 1e-9)
	assert.InDelta(t, 5.0/110, top[track.DriftRework].Before, 1e-12)
	assert.InDelta(t, 9.0/11000, top[track.DriftRework].Now, 1e-12)
	wear := drifts(r, "edges.blade")[track.DriftWear]
	assert.InDelta(t, 2.0/320, wear.Before, 1e-12)
	assert.InDelta(t, 2.0/54000, wear.Now, 1e-12)
	assert.Equal(t, "blade", wear.Name)
	saw := drifts(r, "tools.saw")[track.DriftMinutes]
	assert.InDelta(t, 3, saw.Before, 1e-9, "the mean of 2 and 4")
	assert.InDelta(t, 12, saw.Now, 1e-9)
	assert.Equal(t, "saw", saw.Name)
	mill := drifts(r, "shops.mill")[track.DriftInvoices]
	assert.InDelta(t, 3, mill.Before, 1e-9)
	assert.InDelta(t, 12, mill.Now, 1e-9)
	assert.Equal(t, "mill", mill.Name)
	assert.Equal(t, "top", top[track.DriftJobs].Name)
}

// Jobs in the last days of 2025 are not of the year before, and nor are the days: the year
// before has 365 of them.
func TestALogbookThatGoesBackFurtherIsComparedWithOneYearOfIt(t *testing.T) {
	log := []logbook.Entry{dated("2024-01-10", done(0)), dated("2026-05-05", done(0)), dated("2027-05-05", done(0)), dated("2027-12-31", done(0))}
	jobs := drifts(taken(t, studygen.Round(), log), "job_types.top")[track.DriftJobs]
	assert.InDelta(t, 365.25/365, jobs.Before, 1e-12)
	assert.InDelta(t, 2*365.25/365, jobs.Now, 1e-12)
}

// A year that ends on the tenth of March has the days from the first of April on.
func TestTheLastMonthCountsAsFarAsTheLogbookGoes(t *testing.T) {
	log := []logbook.Entry{dated("2026-01-01", done(0)), dated("2027-04-20", done(0)), dated("2028-03-10", done(0))}
	jobs := drifts(taken(t, studygen.Round(), log), "job_types.top")[track.DriftJobs]
	assert.InDelta(t, 2*365.25/345, jobs.Now, 1e-12, "April 2027 to 10 March 2028: 366 days less 21")
	assert.InDelta(t, 0, jobs.Before, 1e-12, "the first of 2026 is further back than April")
	log[0].Date = "2026-12-22"
	jobs = drifts(taken(t, studygen.Round(), log), "job_types.top")[track.DriftJobs]
	assert.InDelta(t, 365.25/100, jobs.Before, 1e-12, "ten days of December, and three months")
}

func TestEdgesThatRanAndDidNotEndAreNotCompared(t *testing.T) {
	var log []logbook.Entry
	for _, date := range ends {
		log = append(log, dated(date, use(0, "1", 10)), dated(date, done(0)))
	}
	assert.Empty(t, drifts(taken(t, studygen.Round(), log), "edges.blade"))
	withEnd := drifts(taken(t, studygen.Round(), append(log, dated(ends[4], end(0, "1", logbook.Dull)))), "edges.blade")
	assert.InDelta(t, 1.0/20, withEnd[track.DriftWear].Now, 1e-12)
}

func TestRunsOfLessThanASquareMetreAYearAreCompared(t *testing.T) {
	var log []logbook.Entry
	for _, date := range ends[1:] {
		log = append(log, dated(date, use(0, "1", 0.2)), dated(date, end(0, "1", logbook.Dull)))
	}
	wear, ok := drifts(taken(t, studygen.Round(), over("disc80", logbook.HasArea, log...)), "abrasives.disc80")[track.DriftWear]
	require.True(t, ok)
	assert.InDelta(t, 5, wear.Now, 1e-9)
	assert.InDelta(t, 5, wear.Before, 1e-9)
}

// A job type that was not made in one of the years has no share of rework there.
func TestReworkIsComparedWhereJobsWereDoneInBothYears(t *testing.T) {
	again := logbook.Entry{Kind: logbook.Rework, Job: "top", Jobs: 1}
	for _, one := range [][]logbook.Entry{
		{dated(ends[1], done(0)), dated(ends[1], again), dated(ends[4], again)},
		{dated(ends[1], again), dated(ends[4], done(0)), dated(ends[4], again)},
		{dated(ends[1], done(0)), dated(ends[4], done(0))},
	} {
		_, ok := drifts(taken(t, studygen.Round(), one), "job_types.top")[track.DriftRework]
		assert.False(t, ok)
	}
	twice := drifts(taken(t, studygen.Round(), []logbook.Entry{
		dated(ends[1], done(0)), dated(ends[1], again), dated(ends[2], again), dated(ends[3], done(0)), dated(ends[3], again), dated(ends[4], again),
	}), "job_types.top")[track.DriftRework]
	assert.InDelta(t, 1, twice.Before, 0, "what came back twice came back")
	assert.InDelta(t, 1, twice.Now, 0)
}

// Differences are told at one in twenty, all that are looked at together: of nothing and
// five jobs in years as long, 2/32 is the probability by chance, of six 2/64.
func TestADriftIsToldAtOneInTwenty(t *testing.T) {
	for jobs, told := range map[int]bool{5: false, 6: true} {
		log := []logbook.Entry{{Date: "2026-01-01", Kind: logbook.Visit, Subject: "mill", Jobs: 1}}
		for range jobs {
			log = append(log, dated(ends[4], done(0)))
		}
		drift := drifts(taken(t, studygen.Round(), log), "job_types.top")[track.DriftJobs]
		assert.InDelta(t, map[int]float64{5: 1.0 / 16, 6: 1.0 / 32}[jobs], drift.P, 1e-12)
		assert.Equal(t, told, drift.Told, "%d jobs", jobs)
	}
}

func TestWhatDriftedIsListedByMachinesShopsJobsAndEdges(t *testing.T) {
	s := studygen.Round()
	var log []logbook.Entry
	for _, date := range ends[1:] {
		for range 2 {
			log = append(log, dated(date, timed(0, "saw", "top", "cut", 1, 50)), dated(date, withTops(1, visited(0, 60, 150))), dated(date, done(0)),
				dated(date, logbook.Entry{Kind: logbook.Rework, Job: "top", Jobs: 1}),
				dated(date, use(0, "1", 60)), dated(date, end(0, "1", logbook.Dull)), dated(date, knives(use(0, "1", 60))), dated(date, knives(end(0, "1", logbook.Dull))))
			log = append(log, over("disc80", logbook.HasArea, dated(date, use(0, "1", 1)), dated(date, end(0, "1", logbook.Dull)))...)
		}
	}
	var what []track.DriftOf
	var paths []string
	for _, one := range taken(t, s, log).Drift {
		what, paths = append(what, one.What), append(paths, one.Path)
		assert.False(t, one.Told)
	}
	assert.Equal(t, []string{"tools.saw", "shops.mill", "job_types.top", "job_types.top", "abrasives.disc80", "edges.blade", "edges.knives"}, paths)
	assert.Equal(t, []track.DriftOf{track.DriftMinutes, track.DriftInvoices, track.DriftJobs, track.DriftRework, track.DriftWear, track.DriftWear, track.DriftWear}, what)
}
