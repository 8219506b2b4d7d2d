// Package spend says what the equipment of a studio will cost in each year of the
// horizon and each month of one of them: as money that leaves the account, and as
// cost, with purchases spread over the years in which they serve and own time at
// its worth. Beside that: when edges, abrasives and machines fall due, what to set
// aside for replacing them, and what an hour of an owned machine is worth charging.
//
// All amounts are those of alternative.EvaluateCourse, sorted by what they are for;
// none is reckoned anew.
package spend

import (
	"fmt"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// Category is what money is spent on. Costs are positive, income and relief negative.
type Category int

// The categories in the order in which they are shown.
const (
	Rental     Category = iota // the shop's invoices, membership and induction fees
	Travel                     // vehicle, tolls, damage allowance
	Helpers                    // hired hands for lifting
	Purchase                   // cash only: machines, sales tax, moving, fixtures, start, the own learning time left out
	Borrowed                   // cash only: received from the lender (negative)
	Repaid                     // cash only: interest and principal of loans
	Resale                     // cash only: machines and fixtures sold, less moving out (negative)
	Recovery                   // cost only: all four above, and learning time, spread over the years in which they serve
	Upkeep                     //
	Insurance                  // with property tax, permits and inspections
	Edges                      // sharpening and replacing
	Abrasives                  //
	Energy                     // with the demand charge
	Floor                      //
	OwnTime                    // cost only: own hours at their worth
	Sold                       // hours sold to others, net (negative)
	Tax                        // tax effect of all of it; in cash without relief on own time
	Categories                 // number of categories
)

// Amounts are the amounts of one year or month by category.
type Amounts struct{ Cash, Cost [Categories]float64 }

// CashSum is what leaves the account.
func (a *Amounts) CashSum() float64 { return sumOf(&a.Cash) }

// CostSum is what it costs.
func (a *Amounts) CostSum() float64 { return sumOf(&a.Cost) }

func sumOf(amounts *[Categories]float64) float64 {
	sum := 0.0
	for _, amount := range amounts {
		sum += amount
	}
	return sum
}

// Options are what is asked beside the study and the machines owned.
type Options struct {
	// Today is the day from which due dates are counted, on which every edge and
	// abrasive is fresh; "" for the first day of the study.
	Today   quantity.Date
	Month   int            // the year that is shown by month, 0 for the first
	Savings quantity.Share // yearly interest on what is set aside
}

// Spend is what the equipment costs when the given machines are owned. Years are
// counted from 0, the first of the study; amounts are in money of their year.
type Spend struct {
	Study *model.Study
	Plan  *work.Plan
	Owned [][]bool // by year and machine

	Options
	Years  []Amounts
	Months [12]Amounts        // of year Month, from January
	Dated  int                // dated jobs that gave that year's jobs their months
	Course alternative.Course // as the one evaluator has it

	YearRanges  []Ranges // nil until Draw
	MonthRanges []Ranges
	Futures     int // drawn
	Seed        uint64

	Due      []Due
	Events   []Event
	Reserves []Reserve
	Rates    []Rate
}

// Ranges are what a year or a month comes to in the futures.
type Ranges struct{ Cash, Cost Range }

// Range is what 5 and 95 of 100 futures are below.
type Range struct{ Low, High float64 }

// Years are the first and the last calendar year of a study.
func Years(study *model.Study) (first, last int) {
	first = int(study.StartYear)
	return first, first + int(study.Studio.Horizon) - 1
}

// Span is the first and the last day of a study.
func Span(study *model.Study) (first, last quantity.Date) {
	from, to := Years(study)
	return quantity.Date(fmt.Sprintf("%d-01-01", from)), quantity.Date(fmt.Sprintf("%d-12-31", to))
}

// Always owns the same machines in every year of the study.
func Always(study *model.Study, owned []bool) [][]bool {
	years := make([][]bool, int(study.Studio.Horizon))
	for t := range years {
		years[t] = owned
	}
	return years
}

// Along owns machines as they are bought and sold in the stays of a course.
func Along(study *model.Study, stays []alternative.Stay) [][]bool {
	years := make([][]bool, int(study.Studio.Horizon))
	for t := range years {
		years[t] = make([]bool, len(study.Machines))
		for i := range stays {
			years[t][stays[i].Machine] = years[t][stays[i].Machine] || stays[i].From <= t && t < stays[i].To
		}
	}
	return years
}

// Of reckons the spending of a study whose machines are owned as given, by year.
//
// Source: the amounts as in alternative.EvaluateCourse; the spreading of a purchase
// by capital recovery, as in timevalue.CapitalRecovery.
func Of(study *model.Study, plan *work.Plan, owned [][]bool, options Options) Spend {
	s := Spend{Study: study, Plan: plan, Owned: owned, Options: options}
	pace := alternative.SteadyPace(study, len(owned))
	s.Course = alternative.EvaluateCourseAt(study, plan, owned, pace)
	calendar := calendarOf(study, pace)
	s.Dated = calendar.dated[options.Month]
	books := booksOf(study, plan, owned, calendar, options.Month)
	books.course(&s.Course, pace)
	s.Years, s.Months = books.years, books.months
	s.due(pace, calendar)
	s.reserves()
	s.rates()
	return s
}

// Present is what all years together cost today, by what they cost and not by
// what is paid: the same as the course's.
func (s *Spend) Present() float64 {
	flows := make([]float64, len(s.Years)+1)
	for t := range s.Years {
		flows[t+1] = s.Years[t].CostSum()
	}
	return timevalue.PresentValue(float64(s.Study.Studio.DiscountRate), flows)
}
