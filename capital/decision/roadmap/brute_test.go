package roadmap

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// everyPlan calls each with every roadmap of an instance that keeps to its limits and rules.
func everyPlan(p *instance, each func(plan []span, cost float64)) {
	owned := make([]uint32, len(p.machines))
	var next func(m int)
	next = func(m int) {
		if m == len(owned) {
			if plan := p.planOf(owned); p.allowed(plan) && p.cost(plan) < p.forbidden() {
				each(plan, p.cost(plan))
			}
			return
		}
		for set := range uint32(1) << p.years {
			if p.machines[m].again || len(spansOf(m, set, p.years)) <= 1 {
				owned[m] = set
				next(m + 1)
			}
		}
	}
	next(0)
}

// cheapest is the least cost of the roadmaps that the condition allows.
func cheapest(p *instance, condition func(plan []span) bool) float64 {
	least := infinite
	everyPlan(p, func(plan []span, cost float64) {
		if cost < least && condition(plan) {
			least = cost
		}
	})
	return least
}

// firstOf is what a roadmap buys first: the machines and the year, years without
// a purchase.
func firstOf(p *instance, plan []span) (bundle []bool, year int) {
	bundle, year = make([]bool, len(p.machines)), p.years
	for _, s := range plan {
		year = min(year, s.from)
	}
	for _, s := range plan {
		bundle[s.machine] = bundle[s.machine] || s.from == year
	}
	return bundle, year
}

func whatever([]span) bool { return true }

// drawInstance makes a small question: costs by age and year without any order
// in them, savings that hang on several machines, replacements that are paid
// for, budgets and rooms that bind or not. Parting costs can be walked by sets.
func drawInstance(t *rapid.T, parting bool) *instance {
	n := rapid.IntRange(1, 3).Draw(t, "machines")
	p := &instance{years: rapid.IntRange(1, 4).Draw(t, "years")}
	money := func(name string, low, high int) float64 { return float64(rapid.IntRange(low, high).Draw(t, name)) }
	for range p.years {
		p.budget = append(p.budget, pickLimit(t, money("budget", 0, 60)))
	}
	for range n {
		p.machines = append(p.machines, drawMachine(p, parting, rapid.Bool().Draw(t, "again"), money))
	}
	for range rapid.IntRange(0, 4).Draw(t, "tables") {
		members := rapid.Permutation([]int{0, 1, 2}[:n]).Draw(t, "members")[:rapid.IntRange(1, n).Draw(t, "width")]
		one := table{machines: members}
		for range p.years {
			row := make([]float64, 1<<len(members))
			for set := range row {
				row[set] = money("rent", 0, 50)
			}
			one.cost = append(one.cost, row)
		}
		p.tables = append(p.tables, one)
	}
	for range rapid.IntRange(0, 2).Draw(t, "rooms") {
		need := make([]float64, n)
		for m := range need {
			need[m] = money("need", 0, 20)
		}
		most := make([]float64, p.years)
		for t := range most {
			most[t] = money("most", 0, 50)
		}
		p.rooms = append(p.rooms, room{need, most})
	}
	if n > 1 && rapid.Bool().Draw(t, "follow") {
		p.follow(n-1, []int{0, 1}[:n-1])
	}
	return p
}

func pickLimit(t *rapid.T, limit float64) float64 {
	if rapid.Bool().Draw(t, "no limit") {
		return infinite
	}
	return limit
}

func drawMachine(p *instance, parting, again bool, money func(string, int, int) float64) machine {
	out := machine{again: again}
	sell := make([]float64, p.years+1)
	for b := range sell[:p.years] {
		sell[b] = infinite
		if again {
			sell[b] = -money("sell", 0, 15)
		}
	}
	for a := range p.years {
		own, paid := make([]float64, p.years+1), make([]float64, p.years)
		buy := money("buy", 15, 50)
		paid[a] = buy
		for b := range own {
			switch {
			case b <= a:
				own[b] = infinite
			case parting:
				own[b] = buy + sell[b]
			default:
				own[b] = money("own", 0, 60)
			}
		}
		for later := a + 2; later < p.years && !parting; later += 2 {
			paid[later] = money("replacement", 1, 30)
		}
		out.own, out.paid = append(out.own, own), append(out.paid, paid)
	}
	return out
}

var enough = effort{work: 1 << 40, steps: 40} // for every question of a test

func TestTheSearchFindsTheCheapestOfAllRoadmaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawInstance(t, false)
		got := newSolver(p).best(p.wholeDomain(), infinite, enough)
		require.InDelta(t, cheapest(p, whatever), got.cost, 1e-6)
		assert.InDelta(t, got.cost, got.bound, 1e-6*(1+got.cost))
		assert.InDelta(t, got.cost, p.cost(got.plan), 1e-9)
		assert.True(t, p.allowed(got.plan))
	})
}

// ofOneYear is a question of one year, six machines with money for about three
// of them, and rents that hang on two or three at a time.
func ofOneYear(seed uint64) *instance {
	r := &splitMix{seed}
	p := &instance{years: 1, budget: []float64{100}}
	for range 6 {
		price := float64(15 + r.below(36))
		p.machines = append(p.machines, machine{own: [][]float64{{infinite, price}}, paid: [][]float64{{price}}})
	}
	for m := range p.machines {
		row := make([]float64, 8)
		for set := range row {
			row[set] = float64(r.below(80))
		}
		p.tables = append(p.tables, table{machines: []int{m, (m + 1) % 6, (m + 3) % 6}, cost: [][]float64{row}})
	}
	return p
}

func TestAQuestionOfOneYearIsSearchedLikeAnyOther(t *testing.T) {
	for seed := range uint64(20) {
		p := ofOneYear(seed)
		search := &solver{p: p, climb: newClimb(newRelaxation(p))}
		assert.InDelta(t, cheapest(p, whatever), search.best(p.wholeDomain(), infinite, enough).cost, 1e-6, "seed %d", seed)
	}
}

func TestTheSetsFindTheCheapestOfAllRoadmaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawInstance(t, true)
		parts, ok := p.trades()
		require.True(t, ok)
		plan, cost := p.bySets(parts, p.wholeDomain())
		require.InDelta(t, cheapest(p, whatever), cost, 1e-6)
		assert.InDelta(t, cost, p.cost(plan), 1e-6)
		assert.True(t, p.allowed(plan))
		search := &solver{p: p, climb: newClimb(newRelaxation(p))}
		assert.InDelta(t, cost, search.best(p.wholeDomain(), infinite, enough).cost, 1e-6, "branch and bound says the same")
	})
}

func TestWaitingAndAnotherFirstPurchaseAreTheCheapestOfTheirKind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawInstance(t, rapid.Bool().Draw(t, "parting"))
		s := newSolver(p)
		best := s.best(p.wholeDomain(), infinite, enough)
		waiting := s.best(p.waiting(1), infinite, enough)
		require.InDelta(t, cheapest(p, func(plan []span) bool {
			return !slices.ContainsFunc(plan, func(s span) bool { return s.from == 0 })
		}), waiting.cost, 1e-6)
		bundle, _ := firstOf(p, best.plan)
		want := cheapest(p, func(plan []span) bool {
			other, _ := firstOf(p, plan)
			return !slices.Equal(bundle, other)
		})
		got := s.otherFirst(bundle, infinite, enough)
		if math.IsInf(want, 1) {
			assert.Nil(t, got.plan)
			return
		}
		require.InDelta(t, want, got.cost, 1e-6)
		other, _ := firstOf(p, got.plan)
		assert.NotEqual(t, bundle, other)
	})
}

func TestNoBoundIsAboveTheCheapestRoadmap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawInstance(t, false)
		got := newSolver(p).best(p.wholeDomain(), infinite, effort{1, 40})
		least := cheapest(p, whatever)
		assert.LessOrEqual(t, got.bound, least+1e-6*(1+math.Abs(least)), "stopped at the first node")
		if got.plan != nil {
			assert.GreaterOrEqual(t, got.cost, least-1e-6)
		}
	})
}

func TestWhatExcludesAndNeedsIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawInstance(t, rapid.Bool().Draw(t, "parting"))
		if len(p.machines) < 2 {
			return
		}
		exclude := rapid.Bool().Draw(t, "exclude")
		rule := func(plan []span) bool {
			for _, owned := range p.ownedIn(plan) {
				if owned[0] && owned[1] == exclude {
					return false
				}
			}
			return true
		}
		want := cheapest(p, rule)
		if exclude {
			p.exclude(0, 1)
		} else {
			p.require(0, 1)
		}
		got := newSolver(p).best(p.wholeDomain(), infinite, enough)
		require.InDelta(t, want, got.cost, 1e-6)
		assert.True(t, rule(got.plan))
	})
}

func TestWhatFollowsIsOwnedWithItsLeaders(t *testing.T) {
	bought := 0
	defer func() { assert.Positive(t, bought) }()
	rapid.Check(t, func(t *rapid.T) {
		p := drawInstance(t, false)
		last := len(p.machines) - 1
		if p.machines[last].leaders == nil {
			return
		}
		got := newSolver(p).best(p.wholeDomain(), infinite, enough)
		for _, owned := range p.ownedIn(got.plan) {
			assert.Equal(t, slices.Contains(owned[:last], true), owned[last])
			if owned[last] {
				bought++
			}
		}
	})
}

// Merged tables say of every set what the tables say together.
func TestMergedTablesAddUpToTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawInstance(t, false)
		twins := slices.Clone(p.tables)
		for i := range twins {
			twins[i].cost = append(slices.Clone(twins[i].cost[1:]), twins[i].cost[0]) // the years turned by one
		}
		merged, turned := merge(p.tables, twins)
		require.LessOrEqual(t, len(merged), 1, "few machines")
		for set := range 1 << len(p.machines) {
			owned := make([]bool, len(p.machines))
			for m := range owned {
				owned[m] = set>>m&1 == 1
			}
			of := func(tables []table, year int) float64 {
				sum := 0.0
				for i := range tables {
					sum += tables[i].cost[year][tables[i].setOf(owned)]
				}
				return sum
			}
			for year := range p.years {
				assert.InDelta(t, of(p.tables, year), of(merged, year), 1e-9)
				assert.InDelta(t, of(p.tables, (year+1)%p.years), of(turned, year), 1e-9)
			}
		}
	})
}

func TestAFillingIsWorthTheMostThatFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 8).Draw(t, "items")
		size := rapid.SliceOfN(rapid.Map(rapid.IntRange(1, 30), func(i int) float64 { return float64(i) }), n, n).Draw(t, "sizes")
		fill := &filling{}
		fill.reset(n)
		copy(fill.size, size)
		limit := float64(rapid.IntRange(0, 90).Draw(t, "limit"))
		for range 3 { // the order is kept from one use to the next
			for i := range fill.worth {
				fill.worth[i] = float64(rapid.IntRange(-5, 30).Draw(t, "worth"))
			}
			best := 0.0
			for set := range 1 << n {
				taken, worth := 0.0, 0.0
				for i := range n {
					if set>>i&1 == 1 {
						taken, worth = taken+size[i], worth+fill.worth[i]
					}
				}
				if taken <= limit {
					best = math.Max(best, worth)
				}
			}
			got := fill.most(limit)
			require.GreaterOrEqual(t, got, best-1e-9)
			if fill.steps <= mostSteps {
				require.InDelta(t, best, got, 1e-9)
			}
		}
	})
}

// fullest is the most worth of items of whole sizes that fit a limit, by dynamic
// programming over the limits up to it.
func fullest(size, worth []float64, limit int) float64 {
	most := make([]float64, limit+1)
	for i := range size {
		for left := limit; left >= int(size[i]); left-- {
			most[left] = math.Max(most[left], most[left-int(size[i])]+worth[i])
		}
	}
	return most[limit]
}

// Thirty items nearly as dear for their size take more steps than a filling may.
func TestAFillingThatIsCutShortSaysNoLessThanFits(t *testing.T) {
	short := 0
	for seed := range uint64(60) {
		r, fill := &splitMix{seed}, &filling{}
		fill.reset(30)
		total := 0
		for i := range fill.size {
			size := 40 + r.below(60)
			fill.size[i], fill.worth[i] = float64(size), float64(10*size+r.below(9))
			total += size
		}
		limit := total/2 + r.below(9)
		got, best := fill.most(float64(limit)), fullest(fill.size, fill.worth, limit)
		require.GreaterOrEqual(t, got, best, "seed %d", seed)
		if fill.steps < mostSteps {
			require.Equal(t, best, got, "seed %d", seed)
			continue
		}
		short++
	}
	assert.Positive(t, short)
}

// Who may buy for 30 and sell for 31 a year later sells and buys again for gain: that
// is not parted into buying and selling.
func TestCostsByWhichSellingAndBuyingAgainGainsAreNotParted(t *testing.T) {
	for _, row := range []struct {
		fetched float64
		parts   bool
	}{{30, true}, {31, false}} {
		p := &instance{years: 3, budget: []float64{infinite, infinite, infinite}}
		sell := []float64{0, -row.fetched, 0, 0}
		one := machine{again: true}
		for a := range p.years {
			own, paid := make([]float64, p.years+1), make([]float64, p.years)
			for b := range own {
				own[b] = infinite
				if b > a {
					own[b] = 30 + sell[b]
				}
			}
			one.own, one.paid = append(one.own, own), append(one.paid, paid)
		}
		p.machines = []machine{one}
		_, ok := p.trades()
		assert.Equal(t, row.parts, ok, "fetched %g", row.fetched)
	}
}

func TestWhatIsForbiddenCostsMoreThanAnyRoadmap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawInstance(t, false)
		p.budget, p.rooms, p.ceiling = slices.Repeat([]float64{infinite}, p.years), nil, 0
		p.tables = slices.DeleteFunc(p.tables, func(one table) bool { // the rules
			return slices.ContainsFunc(one.cost, func(row []float64) bool { return slices.Max(row) > 50 })
		})
		forbidden := p.forbidden()
		p.ceiling = infinite
		everyPlan(p, func(_ []span, cost float64) { assert.Less(t, cost, forbidden) })
	})
}

// once is a machine for three years that costs 30 to buy and fetches 29 at any time.
func once(again bool) machine {
	out := machine{again: again}
	for a := range 3 {
		own, paid := []float64{infinite, infinite, infinite, infinite}, make([]float64, 3)
		paid[a] = 30
		for b := a + 1; b <= 3; b++ {
			own[b] = 30 - 29
		}
		out.own, out.paid = append(out.own, own), append(out.paid, paid)
	}
	return out
}

// Sets say enough where what is bought may be bought again and nothing is paid later
// out of a budget.
func TestSetsAreWalkedThroughOnlyWhereTheySayEnough(t *testing.T) {
	free := []float64{infinite, infinite, infinite}
	parted := func(budget []float64, change func(*machine)) bool {
		one := once(true)
		change(&one)
		p := &instance{years: 3, budget: budget, machines: []machine{one}}
		_, ok := p.trades()
		return ok
	}
	assert.True(t, parted(free, func(*machine) {}))
	assert.False(t, parted(free, func(m *machine) { m.again = false }), "sold early, it could be bought again")
	assert.False(t, parted(free, func(m *machine) { m.own[1][2] += 0.01 }), "dearer for that one year")
	assert.True(t, parted(free, func(m *machine) { m.paid[0][2] = 5 }))
	assert.False(t, parted([]float64{100, 100, 100}, func(m *machine) { m.paid[0][2] = 5 }))
	assert.False(t, parted([]float64{infinite, infinite, 100}, func(m *machine) { m.paid[1][2] = 5 }))
	assert.True(t, parted([]float64{infinite, 100, infinite}, func(m *machine) { m.paid[0][2] = 5 }), "paid when there is no limit")
}

// Renting costs 50 in the first and the last year and nothing in the second, in which
// owning costs 10: the machine is sold in between, or bought for the last year only.
func TestWhatIsSoldAYearAfterItWasBoughtIsSoldInThePlan(t *testing.T) {
	for _, row := range []struct {
		rents [3]float64
		want  []span
	}{
		{[3]float64{50, -10, 50}, []span{{0, 0, 1}, {0, 2, 3}}},
		{[3]float64{50, -10, -10}, []span{{0, 0, 1}}},
		{[3]float64{-10, -10, 50}, []span{{0, 2, 3}}},
		{[3]float64{-10, 50, -10}, []span{{0, 1, 2}}},
	} {
		for _, budget := range []float64{infinite, 30} {
			p := &instance{years: 3, budget: []float64{budget, budget, budget}, machines: []machine{once(true)}}
			of := table{machines: []int{0}}
			for _, rent := range row.rents {
				of.cost = append(of.cost, []float64{max(0, rent), max(0, -rent)})
			}
			p.tables = []table{of}
			parts, ok := p.trades()
			require.True(t, ok)
			plan, cost := p.bySets(parts, p.wholeDomain())
			assert.Equal(t, row.want, plan)
			assert.InDelta(t, p.cost(plan), cost, 1e-9)
			got := newSolver(p).best(p.wholeDomain(), infinite, enough)
			assert.Equal(t, outcome{plan: plan, cost: cost, bound: cost}, got, "by sets: no part of a search was looked at")
		}
	}
}
