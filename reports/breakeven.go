package reports

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"shopstint/capital/decision/single"
	"shopstint/model/quantity"
)

// breakEven gives one break-even in the units it is spoken of.
func (w wording) breakEven(found *single.BreakEven) BreakEven {
	said := BreakEven{
		In: found.In, Unit: w.unitAlong(found), Now: w.along(found, found.Now),
		From: w.along(found, found.From), To: w.along(found, found.To),
	}
	for _, crossing := range found.Crossings {
		said.Crossings = append(said.Crossings, w.along(found, crossing))
	}
	said.InWords = w.breakEvenInWords(found)
	return said
}

func (w wording) breakEvenInWords(found *single.BreakEven) string {
	switch {
	case found.From == found.To:
		return "nothing to scale: it is " + w.at(found, found.Now) + " today"
	case len(found.Crossings) == 0:
		return "never turns between " + w.at(found, found.From) + " and " + w.at(found, found.To)
	}
	places := make([]string, len(found.Crossings))
	for i, crossing := range found.Crossings {
		places[i] = w.at(found, crossing)
	}
	return "turns at " + strings.Join(places, ", ") + " (now " + w.at(found, found.Now) + ")"
}

// along converts a value on a break-even's axis to the unit it is shown in.
func (w wording) along(found *single.BreakEven, value float64) float64 {
	if found.In == single.InHours {
		return quantity.Duration(value).Hours()
	}
	return quantity.Shown(found.Dimension, value, w.system)
}

func (w wording) unitAlong(found *single.BreakEven) string {
	switch found.In {
	case single.InJobs:
		return "jobs a year"
	case single.InHours:
		return "h a year"
	}
	return w.unit(found.Dimension)
}

// at writes a value on a break-even's axis.
func (w wording) at(found *single.BreakEven, value float64) string {
	switch found.In {
	case single.InJobs:
		return w.counted(value, "job") + " a year"
	case single.InHours:
		return w.number(w.along(found, value)) + " h a year"
	case single.InRate:
		return w.posted(value) + " per h"
	}
	return w.measure(found.Dimension, value)
}

// crossings lists, for each quantity that turns the answer, the crossing
// nearest to today's value. Hours say the same as jobs and are left out.
func (w wording) crossings(result *single.Result) []Flip {
	var list []Flip
	for i := range result.BreakEvens {
		found := &result.BreakEvens[i]
		if found.In == single.InHours || len(found.Crossings) == 0 {
			continue
		}
		nearest := slices.MinFunc(found.Crossings, func(a, b float64) int {
			return cmp.Compare(math.Abs(a-found.Now), math.Abs(b-found.Now))
		})
		list = append(list, Flip{
			What: found.In, Unit: w.unitAlong(found), Now: w.along(found, found.Now), At: w.along(found, nearest),
			InWords: w.past(found, nearest) + " (now " + w.now(found) + ")",
		})
	}
	slices.SortStableFunc(list, nearer)
	return list
}

// past says on which side of a crossing the answer is the other one.
func (w wording) past(found *single.BreakEven, crossing float64) string {
	more := crossing > found.Now
	side := func(above, below string) string {
		if more {
			return above
		}
		return below
	}
	switch found.In {
	case single.InJobs:
		return side("more than ", "fewer than ") + w.at(found, crossing)
	case single.InKept:
		if more {
			return "kept " + w.at(found, crossing) + " or longer"
		}
		return "kept less than " + w.at(found, crossing)
	case single.InDistance:
		return "a shop " + side("farther than ", "nearer than ") + w.at(found, crossing)
	case single.InRate:
		return "a shop rate " + side("over ", "under ") + w.at(found, crossing)
	}
	return "a " + found.In + side(" over ", " under ") + w.at(found, crossing)
}

// now writes today's value shortly, beside a crossing that names the unit.
func (w wording) now(found *single.BreakEven) string {
	switch found.In {
	case single.InJobs, single.InKept:
		return w.number(found.Now)
	case single.InRate:
		return w.posted(found.Now)
	}
	return w.at(found, found.Now)
}

// nearer sorts changes by how far they lie from today's value, as a share of
// the larger of the two.
func nearer(a, b Flip) int { return cmp.Compare(a.away(), b.away()) }

func (f Flip) away() float64 {
	largest := math.Max(math.Abs(f.Now), math.Abs(f.At))
	if largest == 0 {
		return 0
	}
	return math.Abs(f.At-f.Now) / largest
}
