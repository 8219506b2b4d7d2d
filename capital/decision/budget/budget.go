// Package budget says what to put into the price of one job before it is
// started: hours and money at the bigger shop, on the way and at the own bench,
// as they are expected and as they are enough in most cases.
package budget

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
)

// Line names one figure of a budget. Money is before tax on profit.
type Line int

// The lines in the order in which they are shown.
const (
	Billed   Line = iota // hours on the shop's clock
	Paid                 // hours that the shop charges, blocks and steps rounded up
	OwnHours             // hours of the own people: drive, wait, load, machine, bench
	Invoice              // the shop's charges with tax
	Travel               // vehicle, tolls and damage allowance
	OwnTime              // what the own hours are worth
	Helpers              // hired hands for lifting
	Wear                 // edges and abrasives at the own bench
	Total                // all the money
	Lines                // number of lines
)

// IsHours tells whether a line is hours and not money.
func (l Line) IsHours() bool { return l <= OwnHours }

// Figure is what to expect of a line, and what is enough in 80 and in 95 of 100 cases.
type Figure struct{ Expected, Enough80, Enough95 chance.Estimate }

// Case is the budget of the job under one way of driving to the shop.
type Case struct{ Lines [Lines]Figure }

// Options are what the caller decides.
type Options struct {
	Seed   uint64
	Aboard int // jobs that share a visit; 0 as the study says
}

// Result is the budget of one job of a type.
type Result struct {
	Job     int
	Aboard  int   // jobs on a shared visit, this one included
	Drawn   int   // jobs that were drawn
	Met     bool  // drawn until the error was small; else the most that are drawn
	Inputs  int   // inputs with a range that were drawn
	Lacking int   // jobs drawn of which some work fits no machine and is not priced
	Alone   Case  // on a visit of its own
	Shared  *Case // its part of a shared visit; nil where it shares none
	Member  bool  // at a member's reduction, the fee not in it
	Owned   []Owned
}

// least and most are how many blocks are drawn; precision is the error, as a
// share of the figure, at which drawing ends.
const (
	leastBlocks, mostBlocks = 16, 64
	precision               = 0.01
)

// Of reckons the budget of one job: every input with a range is drawn, and so is
// whether the job comes back for rework. The context ends it early, with an
// error. Job is an index among the study's job types.
//
// Source: common practice, no source: a rework with its chance, once, on visits
// of its own; percentiles as order statistics.
func Of(ctx context.Context, study *model.Study, job int, options Options) (*Result, error) {
	inputs, err := chance.InputsOf(study)
	if err != nil {
		return nil, fmt.Errorf("could not draw jobs: %w", err)
	}
	result := &Result{Job: job, Inputs: inputs.Len(), Aboard: options.Aboard}
	if result.Aboard == 0 {
		result.Aboard = int(study.JobTypes[job].JobsPerVisit)
	}
	d := deskOf(study, inputs, result)
	for upto := leastBlocks; ; upto = min(mostBlocks, upto*3/2) {
		for ; result.Drawn < upto*chance.PerBlock; result.Drawn += chance.PerBlock {
			if ctx.Err() != nil {
				return nil, fmt.Errorf("the budget was interrupted: %w", context.Cause(ctx))
			}
			d.block(options.Seed, uint64(result.Drawn/chance.PerBlock))
		}
		result.Alone = d.alone.budget()
		if result.Aboard > 1 {
			shared := d.shared.budget()
			result.Shared = &shared
		}
		if result.Met = result.precise(); result.Met || upto == mostBlocks {
			result.Owned = owned(study, job)
			return result, nil
		}
	}
}

func (r *Result) precise() bool {
	small := func(c *Case) bool {
		for _, one := range []chance.Estimate{c.Lines[Total].Expected, c.Lines[Total].Enough80, c.Lines[Total].Enough95} {
			if one.Error > precision*one.Value {
				return false
			}
		}
		return true
	}
	return small(&r.Alone) && (r.Shared == nil || small(r.Shared))
}

// sums are the figures of the jobs drawn so far, line by line.
type sums [Lines][]float64

func (s *sums) budget() Case {
	var c Case
	for line := range Lines {
		spread := chance.Sorted(s[line])
		c.Lines[line] = Figure{chance.MeanOf(s[line], s[line][0]), chance.Percentile(spread, 0.8), chance.Percentile(spread, 0.95)}
	}
	return c
}

// desk draws jobs on its own copy of the study.
type desk struct {
	*chance.Twin
	inputs        *chance.Inputs
	result        *Result
	plan          *work.Plan
	none          []bool
	member        rental.Membership
	draws         [][]float64
	alone, shared sums
}

func deskOf(study *model.Study, inputs *chance.Inputs, result *Result) *desk {
	twin := inputs.Twin()
	d := &desk{Twin: twin, inputs: inputs, result: result, plan: work.New(twin.Study), none: make([]bool, len(study.Machines))}
	d.draws = chance.Block(inputs.Len() + 2) // whether it comes back, and a part of a visit
	rented := alternative.RentOf(study, d.plan, d.none)
	d.member = rented.Members[work.ShopOf(study, result.Job)]
	result.Member = d.member.Joined
	return d
}

func (d *desk) block(seed, block uint64) {
	chance.Latin(rand.New(rand.NewPCG(seed, block)), d.inputs.Copula(), d.draws)
	for i := range chance.PerBlock {
		d.Draw(d.draws, i)
		if d.inputs.Reshape() {
			d.plan = work.New(d.Study)
		} else {
			d.plan.Again(d.Study)
		}
		if d.plan.Lacks() {
			d.result.Lacking++
		}
		comesBack := d.draws[d.inputs.Len()][i] < float64(d.Study.JobTypes[d.result.Job].ReworkChance)
		d.job(1, comesBack, d.draws[d.inputs.Len()+1][i], &d.alone)
		if d.result.Aboard > 1 {
			d.job(d.result.Aboard, comesBack, d.draws[d.inputs.Len()+1][i], &d.shared)
		}
	}
}

// job prices one job that goes to the shop with others, and what its rework takes.
func (d *desk) job(aboard int, comesBack bool, part float64, into *sums) {
	kind := &d.Study.JobTypes[d.result.Job]
	was := *kind
	defer func() { *kind = was }()
	kind.PerYear, kind.JobsPerVisit, kind.ReworkChance = quantity.Count(aboard), quantity.Count(aboard), 0
	visits := 0.0
	if comesBack {
		kind.ReworkChance = 1
		visits = wholeVisits(float64(kind.ReworkVisits), part)
	}
	rent := alternative.JobRentOf(d.Study, d.plan, d.none, d.result.Job, d.member)
	share := 1 / float64(aboard)
	lines := [Lines]float64{
		OwnHours: rent.Bench.Hours * share,
		OwnTime:  rent.Bench.Labour * share,
		Wear:     rent.Bench.Wear * share,
	}
	add(&lines, &rent.Visits[aboard-1], share)
	add(&lines, &rent.Rework, visits)
	for _, line := range []Line{Invoice, Travel, OwnTime, Helpers, Wear} {
		lines[Total] += lines[line]
	}
	for line, amount := range lines {
		into[line] = append(into[line], amount)
	}
}

// wholeVisits is how many visits a rework takes: a broken number is the mean of
// the two whole ones beside it.
func wholeVisits(mean, u float64) float64 {
	whole := math.Floor(mean)
	if u < mean-whole {
		whole++
	}
	return whole
}

func add(lines *[Lines]float64, visit *rental.Visit, times float64) {
	if visit.Billed == 0 {
		return
	}
	lines[Billed] += times * visit.Billed.Hours()
	lines[Paid] += times * visit.Paid.Hours()
	lines[OwnHours] += times * visit.OwnTime.Hours()
	lines[Invoice] += times * visit.Shop
	lines[Travel] += times * visit.Travel
	lines[OwnTime] += times * visit.OwnCost
	lines[Helpers] += times * visit.HelperCost
}
