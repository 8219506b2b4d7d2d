package roadmap

import (
	"math"
	"slices"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/work"
)

// mostInTable is the number of candidates up to which what they change together
// is laid out set by set.
const mostInTable = 12

// laying turns a study into an instance.
type laying struct {
	study  *model.Study
	plan   *work.Plan
	alone  []alternative.Ownership // each machine on all the work that it takes alone
	factor []float64               // of money of a year, after tax, by year
	out    *instance
	hope   []table // as the tables of out, at the least that shared steps can cost
	hopes  bool    // some of them cost less
	wide   string  // why there is no instance; "" when there is one
}

// layOut turns a study into an instance.
func layOut(study *model.Study, plan *work.Plan) *laying {
	years := int(study.Studio.Horizon)
	l := &laying{study: study, plan: plan, factor: make([]float64, years), out: &instance{years: years, budget: make([]float64, years)}}
	discount := 1.0
	for t := range l.factor {
		discount /= 1 + float64(study.Studio.DiscountRate)
		l.factor[t] = discount * (1 - float64(study.Studio.TaxRate))
		l.out.budget[t] = infinite
		if study.Studio.YearlyBudget > 0 {
			l.out.budget[t] = float64(study.Studio.YearlyBudget)
		}
	}
	for m := range study.Machines {
		l.addMachine(m)
	}
	if alternative.MembershipOffered(study) {
		l.addTogether()
	} else {
		for job := range study.JobTypes {
			l.addJob(job)
		}
	}
	l.addInductions()
	return l
}

// addMachine reckons a machine for every year of purchase and of sale, on the
// work that it does when no other candidate is owned.
func (l *laying) addMachine(m int) {
	owned := make([]bool, len(l.study.Machines))
	owned[m] = true
	uses := alternative.UsesOf(l.study, l.plan, owned, m)
	alone := alternative.Ownership{Machine: m, Uses: uses, Profile: alternative.ProfileOf(l.study, uses, l.out.years)}
	l.alone = append(l.alone, alone)
	out := machine{own: make([][]float64, l.out.years), paid: make([][]float64, l.out.years)}
	for from := range out.own {
		out.own[from] = make([]float64, l.out.years+1)
		for to := range out.own[from] {
			out.own[from][to] = infinite
			if to <= from {
				continue
			}
			stay := capital.OwnBetween(l.study, &l.study.Machines[m], alone.Profile, from, to)
			out.own[from][to] = stay.Present
			if to == l.out.years {
				out.paid[from] = stay.Paid()[:to]
			}
		}
	}
	l.out.machines = append(l.out.machines, out)
}

// add lays a cost out over every set of some machines; with no machine it is
// the same whatever is owned. Spare is what the cost of a year may be too high by.
func (l *laying) add(machines []int, what string, price func(owned []bool) (cost, spare []float64)) {
	if len(machines) > mostInTable {
		l.wide = what
		return
	}
	out, hope := l.blank(machines), l.blank(machines)
	for set := range 1 << len(machines) {
		owned := make([]bool, len(l.study.Machines))
		for i, m := range machines {
			owned[m] = set>>i&1 == 1
		}
		costs, spares := price(owned)
		for t, cost := range costs {
			out.cost[t][set], hope.cost[t][set] = cost, cost-spares[t]
			l.hopes = l.hopes || spares[t] > 0
		}
	}
	l.out.tables, l.hope = append(l.out.tables, out), append(l.hope, hope)
}

func (l *laying) blank(machines []int) table {
	out := table{machines: machines, cost: make([][]float64, l.out.years)}
	for t := range out.cost {
		out.cost[t] = make([]float64, 1<<len(machines))
	}
	return out
}

// hopeful is the instance at the least that shared steps can cost; nil when
// that is what they do cost.
func (l *laying) hopeful() *instance {
	if !l.hopes {
		return nil
	}
	twin := *l.out
	twin.tables, twin.ceiling = l.hope, 0
	return &twin
}

// takers lists the candidates that take a piece of a job type.
func (l *laying) takers(job int) []int {
	var list []int
	for _, row := range l.plan.Of(job) {
		if row.Site == work.AtStudio && row.Fit.OK() && !slices.Contains(list, row.Machine) {
			list = append(list, row.Machine)
		}
	}
	slices.Sort(list)
	return list
}

// addJob adds what a job type rents and does at the bench, and what its work
// costs on the machines owned less what it would on each of them alone.
func (l *laying) addJob(job int) {
	machines := l.takers(job)
	l.add(machines, "job type "+l.study.JobTypes[job].Key, func(owned []bool) (costs, spare []float64) {
		costs, spare = make([]float64, l.out.years), make([]float64, l.out.years)
		rent := alternative.RentOfJob(l.study, l.plan, owned, job)
		for t := range costs {
			year := rent.Year(l.study, t)
			costs[t] = year.Sum() * l.factor[t]
		}
		l.addShared(costs, spare, owned, machines, job)
		return costs, spare
	})
}

// addTogether adds all job types in one table: a membership ties them.
func (l *laying) addTogether() {
	var machines []int
	for job := range l.study.JobTypes {
		machines = append(machines, l.takers(job)...)
	}
	slices.Sort(machines)
	machines = slices.Compact(machines)
	l.add(machines, "the membership of a shop", func(owned []bool) (costs, spare []float64) {
		costs, spare = make([]float64, l.out.years), make([]float64, l.out.years)
		rent := alternative.RentOf(l.study, l.plan, owned)
		rent.Induction = 0 // has tables of its own
		for t, year := range rent.Years(l.study) {
			costs[t] = year.Sum() * l.factor[t]
		}
		for job := range l.study.JobTypes {
			l.addShared(costs, spare, owned, machines, job)
		}
		return costs, spare
	})
}

// addShared corrects the work of machines that share a job type's steps: what
// one does for another is not done twice. Learning follows the hours of the
// first year only, so what it may cost less is spare in every year.
func (l *laying) addShared(costs, spare []float64, owned []bool, machines []int, job int) {
	for _, m := range machines {
		if !owned[m] {
			continue
		}
		is, ok := alternative.UseOf(l.study, l.plan, owned, m, job)
		at := slices.IndexFunc(l.alone[m].Uses, func(use alternative.JobUse) bool { return use.Job == job })
		if !ok || at < 0 || is == l.alone[m].Uses[at] {
			continue
		}
		off := alternative.ProfileOf(l.study, l.alone[m].Uses[at:at+1], len(costs)) // work taken off it
		shared := alternative.ProfileOf(l.study, []alternative.JobUse{is}, len(costs))
		for t := range costs {
			off.Hours[t] -= shared.Hours[t]
			off.OwnHours[t] -= shared.OwnHours[t]
			off.Wear[t] -= shared.Wear[t]
			kind := &l.study.Machines[m]
			costs[t] -= capital.WorkCosts(l.study, kind, off, t+1) * l.factor[t]
			learning := capital.RunningCosts(l.study, kind, off, capital.Year{T: t + 1, New: true})[capital.Learning]
			spare[t] += math.Max(0, learning) * l.factor[t]
		}
	}
}

// addInductions adds the inductions of the first year. One that falls due later,
// since a machine was sold that had done the work, is left out here.
func (l *laying) addInductions() {
	none := make([]bool, len(l.study.Machines))
	for _, at := range alternative.Inductions(l.study, l.plan, none) {
		var machines []int
		for job := range l.study.JobTypes {
			if l.uses(job, at) {
				machines = append(machines, l.takers(job)...)
			}
		}
		slices.Sort(machines)
		machines = slices.Compact(machines)
		l.add(machines, "the induction at shop "+l.study.Shops[at.Shop].Key, func(owned []bool) (costs, spare []float64) {
			costs, spare = make([]float64, l.out.years), make([]float64, l.out.years)
			if slices.Contains(alternative.Inductions(l.study, l.plan, owned), at) {
				costs[0] = alternative.InductionCost(l.study, at, 0) * l.factor[0]
			}
			return costs, spare
		})
	}
}

// uses tells whether a job type goes to a machine of a shop when nothing is owned.
func (l *laying) uses(job int, at alternative.Place) bool {
	return work.ShopOf(l.study, job) == at.Shop && slices.ContainsFunc(l.plan.Of(job), func(row work.Row) bool {
		return row.Used && row.Site == work.AtShop && row.Machine == at.Machine
	})
}

// loose tells whether two candidates share a step and have upkeep, resale or
// tax that follows the hours, but not in proportion: when they are weighed side
// by side, these are as if each had all of its work alone.
func (l *laying) loose() bool {
	for m := range l.study.Machines {
		machine := &l.study.Machines[m]
		bent := machine.Upkeep == model.UpkeepAccumulated || machine.Resale == model.ResaleRemainingValue ||
			machine.Tax.Method == model.TaxUnitsOfProduction
		if bent && l.shares(m) {
			return true
		}
	}
	return false
}

// shares tells whether another candidate takes a step that machine m takes.
func (l *laying) shares(m int) bool {
	for i := range l.plan.Rows {
		row := &l.plan.Rows[i]
		if row.Site != work.AtStudio || row.Machine != m || !row.Fit.OK() {
			continue
		}
		for k := range l.plan.Rows {
			other := &l.plan.Rows[k]
			if other.Step == row.Step && other.Site == work.AtStudio && other.Machine != m && other.Fit.OK() {
				return true
			}
		}
	}
	return false
}
