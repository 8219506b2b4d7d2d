package spend

import (
	"time"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/quantity"
)

// calendar says in which months the jobs of each year come.
type calendar struct {
	start int        // calendar year of the first year
	jobs  [][]shares // by year and job type
	dated []int      // by year: jobs whose month is known
}

// calendarOf puts dated jobs into their months, each into that of the day halfway
// from ready to due, and spreads all other jobs of a year evenly. Where more jobs
// have dates than the study says come in a year, their months alone count.
//
// Source: common practice, no source.
func calendarOf(study *model.Study, pace alternative.Pace) *calendar {
	horizon := int(study.Studio.Horizon)
	c := &calendar{start: int(study.StartYear), jobs: make([][]shares, horizon), dated: make([]int, horizon)}
	known := make([][][12]float64, horizon)
	for t := range known {
		known[t], c.jobs[t] = make([][12]float64, len(study.JobTypes)), make([]shares, len(study.JobTypes))
	}
	for i := range study.DatedJobs {
		dated := &study.DatedJobs[i]
		year, month := monthOf((dated.Ready.Day() + dated.Due.Day()) / 2)
		t, job := year-c.start, model.Index(study.JobTypes, dated.JobType)
		if t < 0 || t >= horizon || job < 0 {
			continue
		}
		known[t][job][month] += float64(dated.Number())
		c.dated[t] += dated.Number()
	}
	for t := range known {
		for job := range known[t] {
			c.jobs[t][job] = mixed(&known[t][job], float64(study.JobTypes[job].PerYear)*pace[job][t])
		}
	}
	return c
}

// mixed shares so many jobs among the months, some of which have theirs.
func mixed(known *[12]float64, jobs float64) shares {
	sum := 0.0
	for _, count := range known {
		sum += count
	}
	if sum == 0 {
		return even
	}
	rest := max(0, jobs-sum) / 12
	var out shares
	for m := range out {
		out[m] = (known[m] + rest) / (sum + 12*rest)
	}
	return out
}

// monthOf returns the year and the month, from 0, of a day.
func monthOf(day int) (year, month int) {
	at := timeOf(day)
	return at.Year(), int(at.Month()) - 1
}

func timeOf(day int) time.Time { return time.Unix(0, 0).UTC().AddDate(0, 0, day) }

// dayOf counts the first day of a month, from 0, of a year of the study as
// quantity.Date does.
func (c *calendar) dayOf(t, month int) int {
	at := time.Date(c.start+t, time.Month(month+1), 1, 0, 0, 0, 0, time.UTC)
	return quantity.Date(at.Format(time.DateOnly)).Day()
}

// hours shares the running hours of a machine in a year among its months.
func (c *calendar) hours(uses []alternative.JobUse, pace alternative.Pace, t int) *shares {
	var out shares
	sum := 0.0
	for i := range uses {
		hours := uses[i].Hours * pace[uses[i].Job][t]
		sum += hours
		for m, share := range c.jobs[t][uses[i].Job] {
			out[m] += hours * share
		}
	}
	if sum == 0 {
		return &even
	}
	for m := range out {
		out[m] /= sum
	}
	return &out
}
