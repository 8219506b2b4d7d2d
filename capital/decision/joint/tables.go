package joint

import (
	"math/bits"
	"slices"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint/subset"
	"shopstint/model"
	"shopstint/model/work"
	"shopstint/rental"
)

// sizes bound the work that goes into tables.
type sizes struct {
	// groups is how many groups of machines one table may hang on. Only a job type
	// with steps that are taken by more different sets of machines has more; its
	// table is then coarse, and nothing is called proven.
	groups int
	// priced is the number of machines up to which a study with a membership has
	// every set priced: a membership ties all job types of a shop together, so that
	// no small table holds its price.
	priced int
}

// usual are the sizes that keep a choice within a second.
var usual = sizes{groups: 10, priced: 12}

// builder takes the cost of a set of machines apart into tables, each of which
// hangs on few machines:
//
// A step is done by an owned machine as soon as one that takes the piece is
// owned. So what a job type rents hangs on one yes or no for each group of
// machines that take the same of its steps, and not on which of them it is.
// What owning a machine costs hangs on which of its steps an earlier machine of
// the study does, and on whether an earlier one pays for a fixture that they
// share. An induction is due as long as one step is left to that machine.
type builder struct {
	study  *model.Study
	plan   *work.Plan
	sizes  sizes
	takes  [][]uint64 // by job type: for each step the machines that take it
	coarse bool       // some table stands for more groups than it tells apart
	tied   bool       // the tables only bound what is rented, as memberships tie it together
}

func builderOf(study *model.Study, plan *work.Plan, sizes sizes) *builder {
	b := &builder{study: study, plan: plan, sizes: sizes, takes: make([][]uint64, len(study.JobTypes))}
	for job := range b.takes {
		last := -1
		for _, row := range plan.Of(job) {
			if row.Step != last {
				b.takes[job] = append(b.takes[job], 0)
				last = row.Step
			}
			if row.Site == work.AtStudio && row.Fit.OK() {
				b.takes[job][len(b.takes[job])-1] |= 1 << row.Machine
			}
		}
	}
	return b
}

// groups drops what comes twice and what has no machine, and joins what is too
// much for one table.
func (b *builder) groups(masks []uint64) []uint64 {
	masks = slices.DeleteFunc(slices.Clone(masks), func(mask uint64) bool { return mask == 0 })
	slices.SortFunc(masks, func(x, y uint64) int {
		if by := bits.OnesCount64(y) - bits.OnesCount64(x); by != 0 {
			return by
		}
		return bits.TrailingZeros64(x&^y) - bits.TrailingZeros64(y&^x)
	})
	masks = slices.Compact(masks)
	for len(masks) > b.sizes.groups {
		b.coarse = true
		last := len(masks) - 1
		masks[last-1] |= masks[last]
		masks = masks[:last]
	}
	return masks
}

// tabulate prices every state of some groups: which of them have an owned
// machine. A state that no set of machines is in is false in reached.
func tabulate[T any](machines int, when []uint64, price func(owned []bool) T) (states []T, reached []bool) {
	states, reached = make([]T, 1<<len(when)), make([]bool, 1<<len(when))
	for at := range states {
		set, none := uint64(0), uint64(0)
		for i, group := range when {
			if at>>i&1 == 0 {
				none |= group
			}
		}
		reached[at] = true
		for i, group := range when {
			if at>>i&1 != 0 {
				set |= group &^ none
				reached[at] = reached[at] && group&^none != 0
			}
		}
		if reached[at] {
			states[at] = price(members(set, machines))
		}
	}
	return states, reached
}

// members turns the bits of a set into a list by machine.
func members(set uint64, machines int) []bool {
	owned := make([]bool, machines)
	for m := range owned {
		owned[m] = set>>m&1 != 0
	}
	return owned
}

// term is a table of costs; states that cannot be cost as much as the dearest
// that can.
func term[T any](when []uint64, states []T, reached []bool, cost func(*T) float64) subset.Term {
	costs, first, most := make([]float64, len(states)), true, 0.0
	for at := range states {
		if reached[at] {
			costs[at] = cost(&states[at])
			if first || costs[at] > most {
				most = costs[at]
			}
			first = false
		}
	}
	for at := range costs {
		if !reached[at] {
			costs[at] = most
		}
	}
	return subset.Term{When: when, Cost: costs}
}

// rents is what one job type rents in every state.
type rents struct {
	when    []uint64
	states  []alternative.JobRent
	reached []bool
}

func (b *builder) rents(job int, member rental.Membership) rents {
	when := b.groups(b.takes[job])
	states, reached := tabulate(len(b.study.Machines), when, func(owned []bool) alternative.JobRent {
		return alternative.JobRentOf(b.study, b.plan, owned, job, member)
	})
	return rents{when, states, reached}
}

func (b *builder) rentTerm(job int, r rents) subset.Term {
	factors := alternative.FactorsOf(b.study, job)
	return term(r.when, r.states, r.reached, func(rent *alternative.JobRent) float64 { return rent.Present(factors) })
}

// owning lists the table of each machine's cost.
func (b *builder) owning() []subset.Term {
	var list []subset.Term
	for m := range b.study.Machines {
		when := slices.Insert(b.groups(b.before(m)), 0, 1<<m)
		costs, reached := tabulate(len(b.study.Machines), when, func(owned []bool) float64 {
			if !owned[m] {
				return 0
			}
			return alternative.OwnerOf(b.study, b.plan, owned, m).Present
		})
		list = append(list, term(when, costs, reached, func(cost *float64) float64 { return *cost }))
	}
	return list
}

// before lists the groups of earlier machines that leave machine m less to do,
// or pay for a fixture.
func (b *builder) before(m int) []uint64 {
	earlier := uint64(1)<<m - 1
	var groups []uint64
	for job := range b.takes {
		for _, takes := range b.takes[job] {
			if takes>>m&1 != 0 {
				groups = append(groups, takes&earlier)
			}
		}
	}
	for _, fixture := range b.study.Machines[m].Fixtures {
		groups = append(groups, b.sharers(fixture)&earlier)
	}
	return groups
}

// sharers are the machines that need a fixture.
func (b *builder) sharers(fixture string) uint64 {
	set := uint64(0)
	for _, m := range alternative.Sharers(b.study, fixture) {
		set |= 1 << m
	}
	return set
}

// inductions lists the table of each induction: due unless owned machines take
// every step that needs it.
func (b *builder) inductions() []subset.Term {
	var list []subset.Term
	for _, one := range alternative.InductionsOf(b.study, b.plan) {
		var groups []uint64
		always := false
		for _, row := range one.Rows {
			takes := b.takesStep(row)
			groups, always = append(groups, takes), always || takes == 0
		}
		if always {
			groups = nil
		}
		when := b.groups(smallest(groups))
		due := one.Cost * alternative.FirstYear(b.study)
		costs := make([]float64, 1<<len(when))
		for at := range costs {
			costs[at] = due
		}
		if !always {
			costs[len(costs)-1] = 0
		}
		list = append(list, subset.Term{When: when, Cost: costs})
	}
	return list
}

// takesStep are the machines that take the step of a row.
func (b *builder) takesStep(row int) uint64 {
	at := &b.plan.Rows[row]
	return b.takes[at.Job][at.Step-b.plan.Of(at.Job)[0].Step]
}

// smallest keeps the groups that contain no other: who owns one of each of them
// owns one of all.
func smallest(groups []uint64) []uint64 {
	var kept []uint64
	for _, group := range groups {
		if !slices.ContainsFunc(groups, func(other uint64) bool { return other != group && other&^group == 0 }) {
			kept = append(kept, group)
		}
	}
	return kept
}
