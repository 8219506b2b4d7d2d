// Package ways compares ways of doing the same work: an edge that is thrown away
// against one that is sharpened, one deep pass against several, a cheap abrasive
// against a dear one. Each way is a line over the work of a year, so that a
// break-even is where two lines cross.
//
// All money is before tax, at the prices of the first year: the ways differ in
// costs that are deducted alike. What is bought is recovered over the years kept
// at the study's discount rate.
package ways

import (
	"math"

	"shopstint/model"
)

// Result is one comparison, priced.
type Result struct {
	Comparison int   // place in the study
	Ways       []Way // in the order of the study
	Pairs      []Pair
	Best       int  // the way that costs least at the study's amount
	Next       int  // and the one after it
	Close      bool // what it saves is too close to call
}

// Saving returns what the best way saves in a year against the next one.
func (r *Result) Saving() float64 { return r.Ways[r.Next].Yearly - r.Ways[r.Best].Yearly }

// Pair is how two ways of a comparison lie to each other.
type Pair struct {
	First, Second int
	Outcome       Outcome
	At            float64 // m or m² a year at which both cost the same; 0 without a crossing
	Hours         float64 // running hours a year of the way that is cheaper above, at that amount
	Below, Above  int     // cheaper below and above that amount; without a crossing the same way, -1 where both cost the same

	Dearer  int     // the way that has to lay out more at first; -1 where both lay out the same
	More    float64 // and how much more
	Repaid  bool    // whether it comes back at the study's pace
	RepayAt float64 // m or m² of work after which it has
}

// Compare prices every comparison of a study. The study must have its defaults
// filled in and keep its rules.
func Compare(study *model.Study) []Result {
	list := make([]Result, len(study.Comparisons))
	for i := range study.Comparisons {
		list[i] = compare(study, i)
	}
	return list
}

func compare(study *model.Study, index int) Result {
	comparison := &study.Comparisons[index]
	r := Result{Comparison: index, Ways: make([]Way, len(comparison.Ways))}
	for i := range comparison.Ways {
		r.Ways[i] = wayOf(study, comparison, &comparison.Ways[i])
	}
	r.rank()
	r.Close = r.Saving() <= float64(study.Studio.CloseCall)*r.Ways[r.Next].Yearly
	for first := range r.Ways {
		for second := first + 1; second < len(r.Ways); second++ {
			r.Pairs = append(r.Pairs, r.pair(first, second, comparison.Amount()))
		}
	}
	return r
}

// rank finds the two ways that cost least; among equals the earlier one.
func (r *Result) rank() {
	r.Best = -1
	for i := range r.Ways {
		switch {
		case r.Best < 0 || r.Ways[i].Yearly < r.Ways[r.Best].Yearly:
			r.Best, r.Next = i, r.Best
		case r.Next < 0 || r.Ways[i].Yearly < r.Ways[r.Next].Yearly:
			r.Next = i
		}
	}
}

func (r *Result) pair(first, second int, amount float64) Pair {
	a, b := &r.Ways[first], &r.Ways[second]
	p := Pair{First: first, Second: second, Below: first, Above: first, Dearer: -1}
	p.Outcome, p.At = BreakEven(a.Line, b.Line)
	switch {
	case p.Outcome == Same:
		p.Below, p.Above = -1, -1
	case p.Outcome == SecondAlways:
		p.Below, p.Above = second, second
	case p.Outcome == Crossing && a.Line.Fixed < b.Line.Fixed:
		p.Above = second
	case p.Outcome == Crossing:
		p.Below = second
	}
	if p.Outcome == Crossing {
		p.Hours = p.At * r.Ways[p.Above].Running / 60
	}
	p.repay(r, amount)
	return p
}

// repay tells after how much work the way that lays out more at first has that
// back, from what it saves at the study's pace before recovery and interest.
//
// Source: simple payback, as in C. S. Park, Contemporary Engineering Economics
// (from memory, page not seen).
func (p *Pair) repay(r *Result, amount float64) {
	a, b := &r.Ways[p.First], &r.Ways[p.Second]
	more := Apart(a.Outlay, b.Outlay)
	if more == 0 {
		return
	}
	dear, cheap := a, b
	p.Dearer = p.First
	if more < 0 {
		dear, cheap, p.Dearer = b, a, p.Second
	}
	p.More = math.Abs(more)
	saved := (cheap.Line.Unit-dear.Line.Unit)*amount + cheap.Kept.Upkeep + cheap.Kept.Housing - dear.Kept.Upkeep - dear.Kept.Housing
	if p.Repaid = saved > 0; p.Repaid {
		p.RepayAt = p.More * amount / saved
	}
}
