package booking

import (
	"math"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/rental"
	"shopstint/rental/visitplan"
)

// price prices visits to one shop for the solver. Contents are nodes of a tree
// of kinds in rising order, so that the same jobs in any order are one node, which
// is priced once.
type price struct {
	study  *model.Study
	group  *group
	nodes  []node
	with   map[uint64]uint32 // by node and kind: the node with one more
	counts []int             // scratch
}

type node struct {
	above uint64
	kind  int
	cost  float64 // NaN until it is asked for
}

func newPrice(study *model.Study, g *group) *price {
	return &price{study: study, group: g, nodes: []node{{kind: -1}}, with: map[uint64]uint32{}, counts: make([]int, len(g.kinds))}
}

// Add finds or makes the node with one more job of a kind.
func (p *price) Add(contents uint64, kind int) uint64 {
	key := contents<<16 | uint64(kind)
	if next, known := p.with[key]; known {
		return uint64(next)
	}
	next := uint64(len(p.nodes))
	if at := p.nodes[contents]; at.kind > kind {
		next = p.Add(p.Add(at.above, kind), at.kind)
	} else {
		p.nodes = append(p.nodes, node{contents, kind, math.NaN()})
	}
	p.with[key] = uint32(next)
	return next
}

// Of is what a visit costs in all: invoice, travel and own labour. Two jobs or
// more that the shop's day does not hold are no visit.
func (p *price) Of(contents uint64) float64 {
	if cost := p.nodes[contents].cost; !math.IsNaN(cost) {
		return cost
	}
	clear(p.counts)
	jobs := 0
	for at := contents; at != 0; at = p.nodes[at].above {
		p.counts[p.nodes[at].kind]++
		jobs++
	}
	visit := p.visit(p.counts)
	cost := visit.Total
	if day := p.study.Shops[p.group.shop].Tariff.Day; jobs > 1 && beyond(float64(visit.Billed), float64(day)) {
		cost = math.Inf(1)
	}
	p.nodes[contents].cost = cost
	return cost
}

// visit prices so many jobs of each kind.
func (p *price) visit(counts []int) rental.Visit {
	trip := alternative.Together(p.study, p.group.shop, p.group.kinds, counts)
	return rental.Price(&p.study.Studio, p.study.Money, trip, p.group.member)
}

// posted is how many of the currency's smallest units the roundings of a visit's
// lines can add up to, supplements and tax on them included.
const posted = 30

// bound gives the solver what a visit costs at least, and how much the shop's day
// holds: the visit's part, and every job's. Both come from prices at a tariff that is nowhere
// dearer: no minimum block, steps of a hundredth of a second, every hour at the
// rate of a full half day or day, one round trip for any load. There a second job
// of a kind adds what a job of it adds to any visit at least, in money and in
// minutes.
//
// Source: common practice, no source.
func bound(study *model.Study, g *group, sought *visitplan.Problem) {
	eased := &group{shop: g.shop, kinds: g.kinds, member: g.member}
	at := newPrice(ease(study, g.shop), eased)
	slip := posted * math.Pow10(-study.Money.Places())
	least, shared := math.Inf(1), math.Inf(1)
	for kind := range g.kinds {
		counts := make([]int, len(g.kinds))
		counts[kind] = 1
		one := at.visit(counts)
		counts[kind] = 2
		two := at.visit(counts)
		more, longer := two.Total-one.Total, float64(two.Billed-one.Billed)
		least, shared = min(least, one.Total-more-2*slip), min(shared, float64(one.Billed)-longer)
		for i := range g.jobs {
			if g.jobs[i].Kind == kind {
				g.jobs[i].Linear, g.jobs[i].Load = max(0, more-slip), longer
			}
		}
	}
	sought.Floor.Visit = max(0, least)
	sought.Capacity = max(0, float64(study.Shops[g.shop].Tariff.Day)-shared)
}

// ease is the study with a tariff that is nowhere dearer.
func ease(study *model.Study, shop int) *model.Study {
	twin := study.Clone()
	at, tariff := &twin.Shops[shop], &twin.Shops[shop].Tariff
	most := quantity.MoneyPerHour(math.Inf(1))
	if tariff.HalfDayPrice > 0 {
		most = min(most, quantity.MoneyPerHour(float64(tariff.HalfDayPrice)/tariff.HalfDay.Hours()))
	}
	if tariff.DayPrice > 0 {
		most = min(most, quantity.MoneyPerHour(float64(tariff.DayPrice)/tariff.Day.Hours()))
	}
	tariff.HourlyRate = min(tariff.HourlyRate, most)
	for q := range at.Machines {
		at.Machines[q].HourlyRate = min(at.Machines[q].HourlyRate, most)
	}
	tariff.HalfDayPrice, tariff.DayPrice, tariff.MinimumBlock, tariff.Increment = 0, 0, 0, 0.01
	twin.Studio.Vehicle.Payload = quantity.Mass(math.MaxFloat64)
	return twin
}
