package roadmap

import (
	"math"
	"slices"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/work"
	"shopstint/rental"
)

// mostInTable is the number of candidates up to which what they change together
// is laid out set by set.
const mostInTable = 14

// laying turns a study into an instance.
type laying struct {
	study  *model.Study
	plan   *work.Plan
	alone  []alternative.Ownership // each machine on all the work that it takes alone
	factor []float64               // of money of a year, after tax, by year
	out    *instance
	hope   []table // as the tables of out, at the least that shared steps can cost

	fixtures []int     // those that machines share, by their index in the study: the last items of out
	least    []machine // as the machines of out, at the least that shared fixtures can cost
	hopes    bool      // some table or fixture may cost less

	wide string // why there is no instance; "" when there is one
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
	l.addFixtures()
	if l.wide != "" {
		return l
	}
	if alternative.MembershipOffered(study) {
		l.addTogether()
	} else {
		for job := range study.JobTypes {
			l.addJob(job)
		}
	}
	l.addInductions()
	l.follow()
	l.addLimits()
	l.out.trim()
	l.out.tables, l.hope = merge(l.out.tables, append(l.hope, l.out.tables[len(l.hope):]...)) // with what may not be
	return l
}

// addMachine reckons a machine for every year of purchase and of sale, on the
// work that it does when no other candidate is owned.
func (l *laying) addMachine(m int) {
	owned := make([]bool, len(l.study.Machines))
	owned[m] = true
	bare := alternative.Unshared(l.study, m)
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
			stay := capital.OwnBetween(l.study, &bare, alone.Profile, from, to)
			out.own[from][to] = stay.Present
			if to == l.out.years {
				out.paid[from] = stay.Paid()[:to]
			}
		}
	}
	l.out.machines = append(l.out.machines, out)
}

// add lays a cost out over every set of the machines that take over steps of
// some jobs. Sets that part the steps alike cost alike, but for the machines in
// them that are left idle: what those do not cost is counted where the work is
// shared out.
func (l *laying) add(jobs []int, shared bool, what string, price func(owned []bool, machines []int) priced) {
	var machines []int
	for _, job := range jobs {
		machines = append(machines, l.takers(job)...)
	}
	slices.Sort(machines)
	machines = slices.Compact(machines)
	if len(machines) > mostInTable {
		l.wide = what
		return
	}
	known := map[string]priced{}
	idle := make([]priced, len(l.study.Machines))
	for _, m := range machines {
		idle[m] = l.nothing()
		if shared {
			idle[m] = l.idle(jobs, m)
		}
	}
	out, hope := l.blank(machines), l.blank(machines)
	for set := range 1 << len(machines) {
		owned := make([]bool, len(l.study.Machines))
		for i, m := range machines {
			owned[m] = set>>i&1 == 1
		}
		who, works := l.parted(jobs, owned)
		if _, ok := known[who]; !ok {
			known[who] = price(works, machines)
		}
		sum := l.nothing()
		sum.add(known[who])
		for _, m := range machines {
			if owned[m] && !works[m] {
				sum.add(idle[m])
			}
		}
		for t := range sum.cost {
			out.cost[t][set], hope.cost[t][set] = sum.cost[t], sum.cost[t]-sum.spare[t]
			l.hopes = l.hopes || sum.spare[t] > 0
		}
	}
	l.out.tables, l.hope = append(l.out.tables, out), append(l.hope, hope)
}

// priced is a cost of each year, and what it may be too high by.
type priced struct{ cost, spare []float64 }

func (l *laying) nothing() priced {
	return priced{make([]float64, l.out.years), make([]float64, l.out.years)}
}

func (p priced) add(more priced) {
	for t := range p.cost {
		p.cost[t] += more.cost[t]
		p.spare[t] += more.spare[t]
	}
}

// parted writes who does each step of the jobs: the first owned machine that
// takes it, or nobody; and which machines do any.
func (l *laying) parted(jobs []int, owned []bool) (string, []bool) {
	var who []byte
	works := make([]bool, len(owned))
	for _, job := range jobs {
		step := -1
		for _, row := range l.plan.Of(job) {
			if row.Step != step {
				step, who = row.Step, append(who, 0)
			}
			if last := len(who) - 1; who[last] == 0 && row.Site == work.AtStudio && owned[row.Machine] && row.Fit.OK() {
				who[last], works[row.Machine] = byte(row.Machine+1), true
			}
		}
	}
	return string(who), works
}

func (l *laying) blank(machines []int) table {
	out := table{machines: machines, cost: make([][]float64, l.out.years)}
	for t := range out.cost {
		out.cost[t] = make([]float64, 1<<len(machines))
	}
	return out
}

// hopeful is the instance at the least that shared steps and fixtures can cost;
// nil when that is what they do cost.
func (l *laying) hopeful() *instance {
	if !l.hopes {
		return nil
	}
	twin := *l.out
	twin.machines = l.least
	twin.tables = l.hope
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
	l.add([]int{job}, true, "job type "+l.study.JobTypes[job].Key, func(owned []bool, machines []int) priced {
		sum := l.nothing()
		rent := alternative.JobRentOf(l.study, l.plan, owned, job, rental.Membership{})
		for t := range sum.cost {
			year := rent.Year(l.study, t)
			sum.cost[t] = year.Sum() * l.factor[t]
		}
		l.addShared(sum, owned, machines, job)
		return sum
	})
}

// addTogether adds all job types in one table: a membership ties them.
func (l *laying) addTogether() {
	jobs := make([]int, len(l.study.JobTypes))
	for job := range jobs {
		jobs[job] = job
	}
	l.add(jobs, true, "the membership of a shop", func(owned []bool, machines []int) priced {
		sum := l.nothing()
		rent := alternative.RentOf(l.study, l.plan, owned)
		rent.Induction = 0 // has tables of its own
		for t, year := range rent.Years(l.study) {
			sum.cost[t] = year.Sum() * l.factor[t]
		}
		for job := range l.study.JobTypes {
			l.addShared(sum, owned, machines, job)
		}
		return sum
	})
}

// addShared corrects the work of machines that share a job type's steps: what
// one does for another is not done twice.
func (l *laying) addShared(sum priced, owned []bool, machines []int, job int) {
	for _, m := range machines {
		if !owned[m] {
			continue
		}
		if is, ok := alternative.UseOf(l.study, l.plan, owned, m, job); ok {
			l.takeOff(sum, m, is)
		}
	}
}

// idle is what a machine owned beside others that do all its steps does not
// cost of what it would alone.
func (l *laying) idle(jobs []int, m int) priced {
	sum := l.nothing()
	for _, job := range jobs {
		l.takeOff(sum, m, alternative.JobUse{Job: job})
	}
	return sum
}

// takeOff takes off what machine m does less for a job type than alone.
// Learning follows the hours of the first year only, so what it may cost less
// is spare in every year.
func (l *laying) takeOff(sum priced, m int, is alternative.JobUse) {
	at := slices.IndexFunc(l.alone[m].Uses, func(use alternative.JobUse) bool { return use.Job == is.Job })
	if at < 0 || is == l.alone[m].Uses[at] {
		return
	}
	off := alternative.ProfileOf(l.study, l.alone[m].Uses[at:at+1], l.out.years) // work taken off it
	shared := alternative.ProfileOf(l.study, []alternative.JobUse{is}, l.out.years)
	machine := &l.study.Machines[m]
	for t := range sum.cost {
		off.Hours[t] -= shared.Hours[t]
		off.OwnHours[t] -= shared.OwnHours[t]
		off.Wear[t] -= shared.Wear[t]
		sum.cost[t] -= capital.WorkCosts(l.study, machine, off, t+1) * l.factor[t]
		learning := capital.RunningCosts(l.study, machine, off, capital.Year{T: t + 1, New: true})[capital.Learning]
		sum.spare[t] += math.Max(0, learning) * l.factor[t]
	}
}

// addInductions adds the inductions of the first year. One that falls due later,
// since a machine was sold that had done the work, is left out here.
func (l *laying) addInductions() {
	none := make([]bool, len(l.study.Machines))
	for _, at := range alternative.Inductions(l.study, l.plan, none) {
		var jobs []int
		for job := range l.study.JobTypes {
			if l.uses(job, at) {
				jobs = append(jobs, job)
			}
		}
		l.add(jobs, false, "the induction at shop "+l.study.Shops[at.Shop].Key, func(owned []bool, _ []int) priced {
			sum := l.nothing()
			if slices.Contains(alternative.Inductions(l.study, l.plan, owned), at) {
				sum.cost[0] = alternative.InductionCost(l.study, at, 0) * l.factor[0]
			}
			return sum
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
// by side, these are as if each had all of its work alone; so is the tax on a
// fixture that they share.
func (l *laying) loose() bool {
	if l.byHours() {
		return true
	}
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
