package track

import (
	"math"

	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/logbook"
)

// Jobs is how many jobs of a type were finished, and how many had to be done again.
type Jobs struct {
	Key, Name string
	Done      float64
	PerYear   Estimate // of the days that the logbook covers
	Study     float64  // jobs a year in the study
	Again     float64  // jobs that had to be done again
	Share     Estimate // of those done
	Chance    float64  // of a rework in the study
	Waits     int      // reworks with a wait written beside them
	Waiting   Estimate // minutes before one could go on
}

// jobSums counts by month.
type jobSums struct {
	done, again map[int]float64
	all, redone float64
	waits       evidence.Ratio // one for each rework, and its minutes
}

func newJobSums() *jobSums { return &jobSums{done: map[int]float64{}, again: map[int]float64{}} }

const noSuchJob = "the study has no such job type"

func (t *Tracker) addJobs(entry *logbook.Entry, month int) {
	job := model.Index(t.study.JobTypes, entry.Job)
	if job < 0 {
		t.leave(noSuchJob)
		return
	}
	sums := t.jobs[job]
	if entry.Kind == logbook.Done {
		sums.done[month] += entry.Jobs
		sums.all += entry.Jobs
		return
	}
	sums.again[month] += entry.Jobs
	sums.redone += entry.Jobs
	if entry.Given.Has(logbook.HasMinutes) {
		sums.waits.Add(1, float64(entry.Minutes)/60)
	}
}

// daysOfYear is the mean length of a year.
const daysOfYear = 365.25

func (t *Tracker) jobResults() []Jobs {
	var results []Jobs
	years := t.span.days() / daysOfYear
	for job, sums := range t.jobs {
		kind := &t.study.JobTypes[job]
		if sums.all == 0 && sums.redone == 0 {
			continue
		}
		r := Jobs{
			Key: kind.Key, Name: nameOr(kind.Name, kind.Key), Done: sums.all, Again: sums.redone,
			Study: float64(kind.PerYear), Chance: float64(kind.ReworkChance), Waits: int(sums.waits.N),
			PerYear: estimated(sums.all/years, known(func(level float64) evidence.Interval { return evidence.Rate(sums.all, years, level) })),
		}
		if sums.all > 0 {
			// A job that is done again twice counts as one: a share is no more than all.
			again := math.Min(sums.redone, sums.all)
			r.Share = estimated(again/sums.all, known(func(level float64) evidence.Interval { return evidence.Proportion(again, sums.all, level) }))
		}
		if sums.waits.N > 0 {
			r.Waiting = estimated(sums.waits.Value(), sums.waits.Interval)
		}
		results = append(results, r)
	}
	return results
}
