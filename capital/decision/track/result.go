package track

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"time"

	"shopstint/model/quantity"
)

// Result brings what was taken so far to its figures. More may be added behind it.
func (t *Tracker) Result() *Result {
	r := &Result{Study: t.study, Lines: t.lines, Years: t.span.days() / daysOfYear}
	if t.span.any {
		r.First, r.Last = dateOf(t.span.first), dateOf(t.span.last)
	}
	r.Machines, r.Visits, r.Wear, r.Jobs = t.machineResults(), t.visitResults(), t.wearResults(), t.jobResults()
	r.Drift = t.drift()
	r.Suggestions = t.suggest(r)
	for _, why := range slices.Sorted(maps.Keys(t.leftOut)) {
		r.LeftOut = append(r.LeftOut, LeftOut{t.leftOut[why], why})
	}
	if t.backwards > 0 {
		r.LeftOut = append(r.LeftOut, LeftOut{t.backwards, "stand behind a later date; lives are taken in the order of the lines"})
	}
	return r
}

func dateOf(day int) quantity.Date { return quantity.DateOf(day) }

// firstDayOf is the first day of a month counted from year 0.
func firstDayOf(month int) int {
	return int(time.Date(month/12, time.Month(month%12+1), 1, 0, 0, 0, 0, time.UTC).Unix() / (24 * 60 * 60))
}

// subjects lists the edges and abrasives in the order of their paths.
func (t *Tracker) subjects() []*subject {
	list := slices.Collect(maps.Values(t.worn))
	slices.SortFunc(list, func(a, b *subject) int { return cmp.Compare(a.path, b.path) })
	return list
}

// whole rounds a count for the tests of whole numbers.
func whole(count float64) float64 { return math.Round(count) }
