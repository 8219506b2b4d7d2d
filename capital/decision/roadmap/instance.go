package roadmap

import (
	"math"
	"slices"
)

// instance is the question without its trade: machines are owned or not in each
// of some years, and everything costs money of today.
//
// The cost of a roadmap is the sum of what each machine costs from the year in
// which it is bought to the year in which it is sold, and of what each table
// says of each year for the machines of the table that are owned in that year.
type instance struct {
	years    int
	machines []machine
	tables   []table
	budget   []float64 // money for machines by year; +Inf where there is no limit
	rooms    []room    // what the machines owned at one time share
	ceiling  float64   // see forbidden; 0 before it is needed
}

// machine is one candidate. Years count from 0; a machine bought in year a and
// sold in year b is owned in the years a to b-1.
type machine struct {
	own  [][]float64 // own[a][b]: cost of owning it from a to b; +Inf where it may not be
	paid [][]float64 // paid[a][t]: money spent on it in year t by who bought it in year a

	again   bool  // it may be bought again once it was sold
	leaders []int // those that follow ties it to; nil for one that is bought for itself
}

// table is a cost of each year that hangs on which of a few machines are owned.
type table struct {
	machines []int
	cost     [][]float64 // cost[t][set]: bit i of the set is machines[i]
}

// room is something that the machines owned in a year share, such as floor.
type room struct {
	need []float64 // by machine
	most []float64 // by year
}

// span is a machine owned from the start of year from to the start of year to.
type span struct{ machine, from, to int }

// forbidden is the cost of what may not be: above the cost of every roadmap, and
// small enough to leave that its digits.
func (p *instance) forbidden() float64 {
	if p.ceiling == 0 {
		p.ceiling = p.above()
	}
	return p.ceiling
}

func (p *instance) above() float64 {
	sum := 1.0
	for i := range p.tables {
		for _, row := range p.tables[i].cost {
			worst := 0.0
			for _, cost := range row {
				worst = math.Max(worst, math.Abs(cost))
			}
			sum += worst
		}
	}
	for m := range p.machines {
		worst := 0.0
		for _, row := range p.machines[m].own {
			for _, cost := range row {
				if !math.IsInf(cost, 0) {
					worst = math.Max(worst, math.Abs(cost))
				}
			}
		}
		sum += worst * float64(p.years)
	}
	return sum
}

// exclude forbids owning both machines in one year.
func (p *instance) exclude(a, b int) {
	p.rule([]int{a, b}, func(set int) bool { return set != 0b11 })
}

// require forbids owning machine a in a year without machine b.
func (p *instance) require(a, b int) {
	p.rule([]int{a, b}, func(set int) bool { return set != 0b01 })
}

// follow has a machine owned in exactly the years in which one of the others is.
func (p *instance) follow(machine int, leaders []int) {
	p.machines[machine].leaders = leaders
	last := 1 << len(leaders)
	p.rule(append(slices.Clone(leaders), machine), func(set int) bool { return set >= last == (set&(last-1) != 0) })
}

// rule forbids the sets of some machines that are not allowed, in every year.
func (p *instance) rule(machines []int, allows func(set int) bool) {
	row := make([]float64, 1<<len(machines))
	for set := range row {
		if !allows(set) {
			row[set] = p.forbidden()
		}
	}
	p.tables = append(p.tables, table{machines: machines, cost: slices.Repeat([][]float64{row}, p.years)})
}

// ban forbids owning a machine at all.
func (p *instance) ban(m int) {
	for _, own := range p.machines[m].own {
		for b := range own {
			own[b] = infinite
		}
	}
}

// ownedIn lays a roadmap out: the set of machines owned in each year.
func (p *instance) ownedIn(plan []span) [][]bool {
	owned := make([][]bool, p.years)
	for t := range owned {
		owned[t] = make([]bool, len(p.machines))
	}
	for _, s := range plan {
		for t := s.from; t < s.to; t++ {
			owned[t][s.machine] = true
		}
	}
	return owned
}

// cost is what a roadmap costs.
func (p *instance) cost(plan []span) float64 {
	sum := 0.0
	for _, s := range plan {
		sum += p.machines[s.machine].own[s.from][s.to]
	}
	owned := p.ownedIn(plan)
	for i := range p.tables {
		for t, row := range p.tables[i].cost {
			sum += row[p.tables[i].setOf(owned[t])]
		}
	}
	return sum
}

func (b *table) setOf(owned []bool) int {
	set := 0
	for i, m := range b.machines {
		if owned[m] {
			set |= 1 << i
		}
	}
	return set
}

// spend is the money for machines by year.
func (p *instance) spend(plan []span) []float64 {
	spent := make([]float64, p.years)
	for _, s := range plan {
		for t := s.from; t < s.to; t++ {
			spent[t] += p.machines[s.machine].paid[s.from][t]
		}
	}
	return spent
}

// dust is the share of a limit that rounding may add to a sum that meets it exactly.
const dust = 1e-9

// allowed tells whether a roadmap keeps to the budget and the rooms, and buys a
// machine once where it may not be bought again.
func (p *instance) allowed(plan []span) bool {
	for i := 1; i < len(plan); i++ {
		if m := plan[i].machine; m == plan[i-1].machine && !p.machines[m].again {
			return false
		}
	}
	for t, spent := range p.spend(plan) {
		if spent > withDust(p.budget[t]) {
			return false
		}
	}
	for t := range p.years {
		for r := range p.rooms {
			if p.taken(plan, r, t) > withDust(p.rooms[r].most[t]) {
				return false
			}
		}
	}
	return true
}

func (p *instance) taken(plan []span, r, t int) float64 {
	sum := 0.0
	for _, s := range plan {
		if s.from <= t && t < s.to {
			sum += p.rooms[r].need[s.machine]
		}
	}
	return sum
}

// trim bars the spans that break a limit by themselves.
func (p *instance) trim() {
	for m := range p.machines {
		for a, own := range p.machines[m].own {
			barred := false
			for b := a + 1; b <= p.years; b++ {
				if barred = barred || !p.alone(m, a, b-1); barred {
					own[b] = infinite
				}
			}
		}
	}
}

// alone tells whether a machine bought in year a keeps to the limits of year t.
func (p *instance) alone(m, a, t int) bool {
	if p.machines[m].paid[a][t] > withDust(p.budget[t]) {
		return false
	}
	for r := range p.rooms {
		if p.rooms[r].need[m] > withDust(p.rooms[r].most[t]) {
			return false
		}
	}
	return true
}

func withDust(limit float64) float64 { return limit + dust*math.Abs(limit) }
