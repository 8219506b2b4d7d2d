package joint

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint/subset"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/work"
)

// chooser is a study with the tables that its choice is made on.
type chooser struct {
	study    *model.Study
	plan     *work.Plan
	problems []subset.Problem // one whose cost is exact, or several that bound it
	exact    bool
	bounding bool // no set costs less than in the cheapest problem
	money    subset.Limit
	floor    subset.Limit
	peak     subset.Peak
	on       []string // what the problems' limits are on
}

func chooserOf(study *model.Study, plan *work.Plan, sizes sizes) *chooser {
	b := builderOf(study, plan, sizes)
	c := &chooser{study: study, plan: plan, peak: draws(study)}
	c.money, c.floor = b.resources()
	base := subset.Problem{Items: len(study.Machines), Terms: b.owning()}
	base.Excludes, base.Needs = alternative.Relations(study)
	c.limit(&base, Money, c.money)
	c.limit(&base, Floor, c.floor)
	if alternative.SupplyKnown(study) {
		base.Peak = c.peak
	}
	for _, terms := range b.rentProblems() {
		problem := base
		problem.Terms = append(slices.Clone(base.Terms), terms...)
		c.problems = append(c.problems, problem)
	}
	c.exact, c.bounding = !b.coarse && !b.tied, !b.coarse
	return c
}

// limit adds a limit that the study sets; 0 is none.
func (c *chooser) limit(problem *subset.Problem, on string, limit subset.Limit) {
	if limit.Most > 0 {
		problem.Limits = append(problem.Limits, limit)
		c.on = append(c.on, on)
	}
}

// cost is the present cost of a set.
func (c *chooser) cost(set uint64) float64 {
	if c.exact {
		return c.problems[0].Cost(set)
	}
	return alternative.Evaluate(c.study, c.plan, members(set, len(c.study.Machines))).Present
}

// choice prices one set by the one evaluator.
func (c *chooser) choice(set uint64) Choice {
	owned := members(set, len(c.study.Machines))
	priced := alternative.Evaluate(c.study, c.plan, owned)
	choice := Choice{Owned: owned, Present: priced.Present, Amps: c.peak.Drawn(set)}
	for rest := set; rest != 0; rest &= rest - 1 {
		choice.Machines = append(choice.Machines, bits.TrailingZeros64(rest))
	}
	for i := range priced.Owner {
		choice.Owning += priced.Owner[i].Present
		choice.Cash += priced.Owner[i].Table[capital.Net][0]
		choice.Area += priced.Owner[i].Area
	}
	choice.Renting = choice.Present - choice.Owning
	choice.Annual = c.annual(choice.Present)
	return choice
}

// annual is a present amount as an equal amount each year.
func (c *chooser) annual(present float64) float64 {
	studio := &c.study.Studio
	return timevalue.EquivalentAnnual(float64(studio.DiscountRate), float64(studio.Horizon), present)
}

// compare sets every choice beside the best and beside renting everything.
func (c *chooser) compare(result *Result) {
	best := result.Choices[0]
	result.Single = c.single()
	for i := range result.Choices {
		c.against(&result.Choices[i], result.Rented.Present, &best)
	}
	c.against(&result.Single, result.Rented.Present, &best)
	c.against(&result.Rented, result.Rented.Present, &best)
	result.Draw = Draw{Amps: best.Amps, Free: c.peak.Most, AtOnce: c.peak.AtOnce, Limited: c.problems[0].Peak.AtOnce > 0}
}

func (c *chooser) against(choice *Choice, rented float64, best *Choice) {
	choice.Saving, choice.Over = rented-choice.Present, choice.Present-best.Present
	choice.SavingAnnual, choice.OverAnnual = c.annual(choice.Saving), c.annual(choice.Over)
	choice.Close = !slices.Equal(choice.Machines, best.Machines) && c.close(choice, best)
}

// close tells whether two sets are too close to call: what one saves of renting
// and what it costs more to own differ by less than the study's share of the
// larger of the two.
func (c *chooser) close(a, b *Choice) bool {
	owning, renting := a.Owning-b.Owning, a.Renting-b.Renting
	band := float64(c.study.Studio.CloseCall) * max(owning, -owning, renting, -renting)
	difference := owning + renting
	return max(difference, -difference) <= band
}

// single is the best choice of at most one machine.
func (c *chooser) single() Choice {
	best := subset.Set{Cost: c.cost(0)}
	for m := range c.study.Machines {
		set := uint64(1) << m
		if cost := c.cost(set); cost < best.Cost && c.problems[0].Allows(set) {
			best = subset.Set{Items: set, Cost: cost}
		}
	}
	return c.choice(best.Items)
}

// interactions says what machines are worth alone, after one another and in the
// best set.
func (c *chooser) interactions(result *Result) {
	machines := len(c.study.Machines)
	none, best := c.cost(0), uint64(0)
	for _, m := range result.Choices[0].Machines {
		best |= 1 << m
	}
	alone := make([]float64, machines)
	for m := range alone {
		alone[m] = c.cost(1 << m)
		result.Alone = append(result.Alone, none-alone[m])
		with, without := c.cost(best|1<<m), c.cost(best&^(1<<m))
		result.InBest = append(result.InBest, without-with)
	}
	for a := range machines {
		result.After = append(result.After, make([]float64, machines))
		for b := range a {
			both := c.cost(1<<a | 1<<b)
			result.After[a][b], result.After[b][a] = alone[a]-both, alone[b]-both
		}
	}
}

// reprice finds good sets where the problems only bound their cost: the cheapest
// of each are priced, and the best of them improved by changing one machine.
func (c *chooser) reprice() (found []subset.Set, bound float64) {
	seen := map[uint64]bool{}
	var list []subset.Set
	price := func(set uint64) {
		if !seen[set] {
			seen[set] = true
			list = append(list, subset.Set{Items: set, Cost: c.cost(set)})
		}
	}
	price(0)
	for i := range c.problems {
		answer := subset.Cheapest(&c.problems[i], mostRepriced, mostBranches)
		for _, set := range answer.Sets {
			price(set.Items)
		}
		if i == 0 || answer.Bound < bound {
			bound = answer.Bound
		}
	}
	slices.SortStableFunc(list, byCost)
	for best := list[0]; ; best = list[0] {
		for m := range c.study.Machines {
			if set := best.Items ^ 1<<m; c.problems[0].Allows(set) {
				price(set)
			}
		}
		slices.SortStableFunc(list, byCost)
		if list[0].Items == best.Items {
			return list[:min(Shown, len(list))], bound
		}
	}
}

func byCost(a, b subset.Set) int { return cmp.Compare(a.Cost, b.Cost) }

// limits says what binds, and what the next step of each limit is worth.
func (c *chooser) limits(result *Result) {
	best := result.Choices[0]
	for i, on := range c.on {
		switch on {
		case Money:
			result.Limits = append(result.Limits, c.step(result, i, Limit{On: on, Path: "studio.purchase_budget", Most: c.money.Most, Used: best.Cash}))
		case Floor:
			result.Limits = append(result.Limits, c.step(result, i, Limit{On: on, Path: "studio.floor_free", Most: c.floor.Most, Used: best.Area}))
		}
	}
	if result.Draw.Limited {
		result.Limits = append(result.Limits, c.step(result, subset.ThePeak, Limit{On: Supply, Path: "studio.amps", Most: c.peak.Most, Used: best.Amps}))
	}
}

// step finds the next value of a limit at which a cheaper set is allowed. Where
// costs are only bounded no step is looked for.
func (c *chooser) step(result *Result, number int, limit Limit) Limit {
	if !c.exact {
		return limit
	}
	problem, best := c.problems[0], &result.Choices[0]
	step := subset.NextStep(&problem, number, best.Present, mostBranches)
	limit.Known, limit.Proven = true, step.Proven
	if limit.Binds = !math.IsInf(step.Most, 1); !limit.Binds {
		return limit
	}
	limit.More = step.Most - limit.Most
	if number == subset.ThePeak {
		problem.Peak.Most = step.Most
	} else {
		problem.Limits = slices.Clone(problem.Limits)
		problem.Limits[number].Most = step.Most
	}
	answer := subset.Cheapest(&problem, 1, mostBranches)
	limit.Proven = limit.Proven && answer.Proven
	if len(answer.Sets) == 0 {
		return limit
	}
	limit.Next = c.choice(answer.Sets[0].Items)
	c.against(&limit.Next, result.Rented.Present, best)
	limit.Gain = best.Present - limit.Next.Present
	limit.Annual = c.annual(limit.Gain)
	return limit
}
