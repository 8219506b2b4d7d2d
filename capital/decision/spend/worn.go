package spend

import (
	"math"
	"slices"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/wear"
	"shopstint/model/work"
)

// Worn is one edge or abrasive at one machine, and how much of it is run in each
// month of the study: metres or square metres as in plain hardwood, so that harder
// stock counts for more.
type Worn struct {
	Site     work.Site
	Shop     int // where Site is the shop's
	Machine  int // of the shop, the tools or the candidates
	Edge     int // by its index in the study, -1 for an abrasive
	Abrasive int // by its index in the study, -1 for an edge
	Months   [][12]float64
	Had      []bool    // by year: the machine is there
	Lives    []float64 // what a fresh one runs until it is dull, then after each sharpening; the last ends with a new one
}

// livesOf is what an edge runs when new and after each sharpening, in metres, as
// expected: as many lives as it has in the mean before it is spent, each shorter than
// the one before, and all of them together its run from new to spent.
//
// Source: as work.SpanOf.
func livesOf(edge *model.Edge) []float64 {
	span := work.SpanOf(edge)
	lives := make([]float64, 1+int(math.Round(span.Sharpened)))
	sum := 0.0
	for k := range lives {
		lives[k] = math.Pow(1-float64(edge.LifeLost), float64(k))
		sum += lives[k]
	}
	for k := range lives {
		lives[k] *= span.Run / sum
	}
	return lives
}

// wornOf lists what the work of a study wears at machines whose edges and abrasives
// the studio pays for.
func wornOf(study *model.Study, plan *work.Plan, owned [][]bool, pace alternative.Pace, calendar *calendar) []Worn {
	var list []Worn
	var doing []bool
	for t := range owned {
		if t == 0 || !slices.Equal(owned[t], owned[t-1]) {
			doing = alternative.Doing(plan, owned[t])
		}
		for i := range plan.Rows {
			row := &plan.Rows[i]
			if !doing[i] {
				continue
			}
			worn, run := wornBy(study, row)
			if run == 0 {
				continue
			}
			at := slices.IndexFunc(list, worn.same)
			if at < 0 {
				at = len(list)
				list = append(list, worn.empty(study, owned))
			}
			list[at].add(t, run*float64(study.JobTypes[row.Job].PerYear)*pace[row.Job][t], &calendar.jobs[t][row.Job])
		}
	}
	return list
}

// wornBy names what a row wears and says how much one job does, reworks included.
func wornBy(study *model.Study, row *work.Row) (Worn, float64) {
	worn := Worn{Site: row.Site, Machine: row.Machine, Edge: -1, Abrasive: -1}
	if row.Site == work.AtShop {
		worn.Shop = work.ShopOf(study, row.Job)
	}
	switch edge, abrasive := row.Wears(study); {
	case edge != nil:
		worn.Edge = model.Index(study.Edges, edge.Key)
	case abrasive != nil:
		worn.Abrasive = model.Index(study.Abrasives, abrasive.Key)
	default:
		return worn, 0
	}
	run, life := row.Worn(study)
	return worn, wear.Times(&study.JobTypes[row.Job], row) * run / life
}

// empty prepares what is worn to be run.
func (w Worn) empty(study *model.Study, owned [][]bool) Worn {
	w.Months, w.Had = make([][12]float64, len(owned)), make([]bool, len(owned))
	for t := range owned {
		w.Had[t] = w.Site != work.AtStudio || owned[t][w.Machine]
	}
	w.Lives = []float64{0}
	if w.Edge >= 0 {
		w.Lives = livesOf(&study.Edges[w.Edge])
	} else {
		w.Lives[0] = work.AbrasiveRun(&study.Abrasives[w.Abrasive])
	}
	return w
}

func (w *Worn) same(other Worn) bool {
	return w.Site == other.Site && w.Shop == other.Shop && w.Machine == other.Machine && w.Edge == other.Edge && w.Abrasive == other.Abrasive
}

func (w *Worn) add(t int, run float64, over *shares) {
	for m, share := range over {
		w.Months[t][m] += run * share
	}
}

// after is what is run when it falls due for the k-th time, from 1.
func (w *Worn) after(k int) float64 {
	sum, cycle := 0.0, 0.0
	for i, life := range w.Lives {
		cycle += life
		if i < k%len(w.Lives) {
			sum += life
		}
	}
	return sum + cycle*float64(k/len(w.Lives))
}

// turns is how often it falls due within a run.
func (w *Worn) turns(run float64) int {
	cycle := w.after(len(w.Lives))
	turns := int(run/cycle) * len(w.Lives)
	for w.after(turns+1) <= run {
		turns++
	}
	return turns
}

// run is how much has been run by each month's end, from a day on.
type run struct {
	days []int     // the first day of each month from then, and the day after the last
	sums []float64 // run before that day
}

// runOf follows what is worn from a day to the end of the study.
func runOf(w *Worn, calendar *calendar, start int) run {
	r := run{days: []int{start}, sums: []float64{0}}
	for t := range w.Months {
		for m, amount := range w.Months[t] {
			begins, ends := calendar.dayOf(t, m), calendar.dayOf(t, m+1)
			if ends <= start {
				continue
			}
			share := float64(ends-max(begins, start)) / float64(ends-begins)
			r.days = append(r.days, ends)
			r.sums = append(r.sums, r.sums[len(r.sums)-1]+amount*share)
		}
	}
	return r
}

// until is what has been run before a day.
func (r *run) until(day int) float64 {
	for i := 1; i < len(r.days); i++ {
		if day < r.days[i] {
			part := float64(day-r.days[i-1]) / float64(r.days[i]-r.days[i-1])
			return r.sums[i-1] + (r.sums[i]-r.sums[i-1])*part
		}
	}
	return r.sums[len(r.sums)-1]
}

// dateOf is the day on which so much has been run, "" where the study ends before.
func (r *run) dateOf(amount float64) quantity.Date {
	for i := 1; i < len(r.days); i++ {
		if r.sums[i] >= amount && r.sums[i] > r.sums[i-1] {
			part := (amount - r.sums[i-1]) / (r.sums[i] - r.sums[i-1])
			return quantity.DateOf(r.days[i-1] + int(part*float64(r.days[i]-r.days[i-1])))
		}
	}
	return ""
}
