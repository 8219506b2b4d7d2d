package spend

import (
	"context"
	"fmt"
	"slices"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/futures"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/work"
)

// Usual is how many futures are drawn where nobody says: enough for the twentieths,
// within a fraction of a second.
const Usual = 512

// Draw finds what every year and month comes to in the first futures of a seed, the
// same in which choices are compared: inputs that have a range are drawn, and the
// jobs of each year scatter. The error is that of futures.Each.
//
// Source: percentiles as order statistics, as in chance.Percentile.
func (s *Spend) Draw(ctx context.Context, options futures.Options) error {
	years, months := newSamples(len(s.Years)), newSamples(len(s.Months))
	drawn := 0
	err := futures.Each(ctx, s.Study, options, func(study *model.Study, plan *work.Plan, pace alternative.Pace) {
		drawn++
		course := alternative.EvaluateCourseAt(study, plan, s.Owned, pace)
		books := booksOf(study, plan, s.Owned, calendarOf(study, pace), s.Month)
		books.course(&course, pace)
		years.add(books.years)
		months.add(books.months[:])
	})
	if err != nil {
		return fmt.Errorf("could not draw what is spent: %w", err)
	}
	s.Futures, s.Seed = drawn, options.Seed
	s.YearRanges, s.MonthRanges = years.ranges(), months.ranges()
	return nil
}

// samples are what each of some periods came to, future by future.
type samples []struct{ cash, cost []float64 }

func newSamples(periods int) samples { return make(samples, periods) }

func (s samples) add(amounts []Amounts) {
	for i := range amounts {
		s[i].cash = append(s[i].cash, amounts[i].CashSum())
		s[i].cost = append(s[i].cost, amounts[i].CostSum())
	}
}

func (s samples) ranges() []Ranges {
	list := make([]Ranges, len(s))
	for i := range s {
		list[i] = Ranges{rangeOf(s[i].cash), rangeOf(s[i].cost)}
	}
	return list
}

// lowShare and highShare are the shares of futures that the ends of a range are above.
const lowShare, highShare = 0.05, 0.95

func rangeOf(values []float64) Range {
	slices.Sort(values)
	return Range{chance.Percentile(values, lowShare).Value, chance.Percentile(values, highShare).Value}
}
