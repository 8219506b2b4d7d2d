package roadmap

import (
	"math"
	"slices"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
)

// addFixtures lays each fixture that several candidates share out as an item of
// its own, behind the machines: owned in the years in which one of them is. It
// is priced as a part of the first of them in study order. Whoever of them pays
// for it may write it off otherwise: the least of that is for the hopeful twin.
func (l *laying) addFixtures() {
	l.least = slices.Clone(l.out.machines)
	for f := range l.study.Fixtures {
		sharers := alternative.Sharers(l.study, l.study.Fixtures[f].Key)
		if len(sharers) < 2 {
			continue
		}
		out := l.fixture(f, sharers[0])
		least := machine{paid: out.paid, again: true}
		for from := range out.own {
			least.own = append(least.own, slices.Clone(out.own[from]))
		}
		for _, payer := range l.otherwise(sharers) {
			other := l.fixture(f, payer)
			for from := range least.own {
				for to, own := range other.own[from] {
					least.own[from][to] = math.Min(least.own[from][to], own)
				}
			}
			l.hopes = true
		}
		l.fixtures = append(l.fixtures, f)
		l.out.machines, l.least = append(l.out.machines, out), append(l.least, least)
		if len(sharers) >= mostInTable {
			l.wide = "fixture " + l.study.Fixtures[f].Key
		}
	}
}

// fixture reckons a fixture for every year of purchase and of sale.
func (l *laying) fixture(f, payer int) machine {
	out := machine{own: make([][]float64, l.out.years), paid: make([][]float64, l.out.years), again: true}
	for from := range out.own {
		out.own[from], out.paid[from] = make([]float64, l.out.years+1), make([]float64, l.out.years)
		for to := range out.own[from] {
			out.own[from][to] = infinite
			if to <= from {
				continue
			}
			stay := alternative.FixtureBetween(l.study, f, payer, l.alone[payer].Profile, from, to)
			out.own[from][to], out.paid[from][from] = stay.Present, stay.Paid
		}
	}
	return out
}

// otherwise lists one machine of each kind that would write a fixture off
// otherwise than the first does: by its tax method, or to its first replacement.
func (l *laying) otherwise(sharers []int) []int {
	var list []int
	alike := func(a, b int) bool {
		one, other := &l.study.Machines[a], &l.study.Machines[b]
		return one.Tax == other.Tax && one.YearsKept == other.YearsKept && one.Tax.Method != model.TaxUnitsOfProduction
	}
	for _, m := range sharers[1:] {
		if !alike(m, sharers[0]) && !slices.ContainsFunc(list, func(other int) bool { return alike(m, other) }) {
			list = append(list, m)
		}
	}
	return list
}

// follow has each fixture owned in the years in which a machine that names it is.
func (l *laying) follow() {
	if twin := l.hopeful(); twin != nil { // what is forbidden is so in both
		l.out.ceiling = math.Max(l.out.above(), twin.above())
	}
	for i, f := range l.fixtures {
		l.out.follow(len(l.study.Machines)+i, alternative.Sharers(l.study, l.study.Fixtures[f].Key))
	}
}

// byHours tells whether a fixture that is shared would be written off by the
// hours of who pays for it.
func (l *laying) byHours() bool {
	return slices.ContainsFunc(l.fixtures, func(f int) bool {
		return slices.ContainsFunc(alternative.Sharers(l.study, l.study.Fixtures[f].Key), func(m int) bool {
			return l.study.Machines[m].Tax.Method == model.TaxUnitsOfProduction
		})
	})
}
