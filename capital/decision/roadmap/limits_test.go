package roadmap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/joint"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// sanders is the study in round figures with a second, dearer sander and a
// collector for all.
func sanders() *model.Study {
	s := studygen.Round()
	second := s.Machines[1]
	second.Key, second.Price = "sander2", second.Price+100
	s.Machines = append(s.Machines, second)
	s.Fixtures = []model.Fixture{{Key: "collector", Price: 500, Resale: 0.1}}
	for m := range s.Machines {
		s.Machines[m].Fixtures = []string{"collector"}
	}
	return s
}

// purchased lists the machines that a roadmap ever buys.
func purchased(r Roadmap) []int {
	var list []int
	for t := range r.Years {
		list = append(list, r.Years[t].Buy...)
	}
	return list
}

func TestAFixtureIsPricedForEachMachineThatWouldWriteItOffOtherwise(t *testing.T) {
	otherwise := func(change func(first, second, third *model.Machine)) []int {
		s := sanders()
		change(&s.Machines[0], &s.Machines[1], &s.Machines[2])
		return layOut(s, work.New(s)).otherwise([]int{0, 1, 2})
	}
	assert.Empty(t, otherwise(func(_, _, _ *model.Machine) {}), "all alike")
	assert.Equal(t, []int{2}, otherwise(func(_, _, third *model.Machine) { third.YearsKept = 2 }))
	assert.Equal(t, []int{1}, otherwise(func(_, second, _ *model.Machine) {
		second.Tax = model.Depreciation{Method: model.TaxStraightLine, Life: 5}
	}))
	assert.Equal(t, []int{1}, otherwise(func(_, second, third *model.Machine) { second.YearsKept, third.YearsKept = 2, 2 }), "one of each kind")
	assert.Equal(t, []int{1, 2}, otherwise(func(first, second, third *model.Machine) {
		for _, m := range []*model.Machine{first, second, third} {
			m.Tax.Method = model.TaxUnitsOfProduction
		}
	}), "each has hours of its own")
}

func TestAMachineIsBoughtOnceAndAFixtureAsOftenAsItIsNeeded(t *testing.T) {
	s := sanders()
	out := layOut(s, work.New(s)).out
	twice := func(m int) []span { return []span{{m, 0, 1}, {m, 2, 3}} }
	assert.False(t, out.allowed(twice(0)))
	assert.True(t, out.allowed(twice(0)[:1]))
	assert.True(t, out.allowed(twice(len(s.Machines))))
}

func TestSandersShareAStepAndThePlanerSharesNone(t *testing.T) {
	s := sanders()
	l := layOut(s, work.New(s))
	assert.Equal(t, [3]bool{false, true, true}, [3]bool{l.shares(0), l.shares(1), l.shares(2)})
}

func TestTwoSandersExcludeEachOtherAndTheCollectorIsPaidOnce(t *testing.T) {
	s := sanders()
	s.Machines[2].Price = 100 // both are worth having
	s.Machines[2].Excludes = []string{s.Machines[1].Key}
	got := Decide(s, work.New(s))
	require.Contains(t, purchased(got.Best), 2)
	assert.NotContains(t, purchased(got.Best), 1)
	for _, year := range got.Best.Years {
		sum := 0.0
		for _, m := range year.Buy {
			sum += float64(s.Machines[m].Price)
		}
		if len(year.Buy) > 0 {
			assert.InDelta(t, sum+500, year.Spent, 1e-6, "one collector on the day of the first purchase")
			break
		}
	}
	require.Zero(t, got.Best.Gap)
	s.Studio.YearlyBudget = s.Machines[2].Price + 499
	tight := Decide(s, work.New(s))
	assert.NotContains(t, purchased(tight.Best), 2, "the collector counts in the year in which it is bought")
	assert.Greater(t, tight.Best.Present, got.Best.Present)
}

func TestAMachineIsOwnedOnlyWithWhatItNeeds(t *testing.T) {
	s := sanders()
	s.Machines[0].Price = 1e6
	require.Contains(t, purchased(decided(s).Best), 1)
	s.Machines[1].Needs, s.Machines[2].Needs = []string{s.Machines[0].Key}, []string{s.Machines[0].Key}
	assert.Empty(t, purchased(decided(s).Best))
}

func decided(s *model.Study) Result { return Decide(s, work.New(s)) }

// Motors of 2.3, 4.6 and 4.6 kW at 230 V: 10, 20 and 20 A.
func TestWhatThePeopleRunAtOnceFitsTheSupplyInEveryYear(t *testing.T) {
	for _, row := range []struct {
		name   string
		people quantity.Count
		amps   quantity.Current
		sets   [8]bool // planer 1, sanders 2 and 4
	}{
		{"one runs one at a time", 1, 20, [8]bool{true, true, true, true, true, true, true, true}},
		{"one, the sanders too large", 1, 19, [8]bool{0: true, 1: true}},
		{"two, any two too many", 2, 29, [8]bool{0: true, 1: true, 2: true, 4: true}},
		{"two, both sanders too many", 2, 30, [8]bool{0: true, 1: true, 2: true, 3: true, 4: true, 5: true}},
		{"two, any two", 2, 40, [8]bool{true, true, true, true, true, true, true, true}},
		{"three, but not all", 3, 49, [8]bool{true, true, true, true, true, true, true, false}},
		{"three", 3, 50, [8]bool{true, true, true, true, true, true, true, true}},
	} {
		s := sanders()
		s.Studio.Volts, s.Studio.Phases, s.Studio.People, s.Studio.Amps = 230, 1, row.people, row.amps
		s.Machines[0].Motor, s.Machines[1].Motor, s.Machines[2].Motor = 2300, 4600, 4600
		p := layOut(s, work.New(s)).out
		for set, allowed := range row.sets {
			plan := []span{}
			for m := range s.Machines {
				if set>>m&1 == 1 {
					plan = append(plan, span{m, 0, p.years})
				}
			}
			plan = followed(p, plan)
			assert.Equal(t, allowed, p.allowed(plan) && p.cost(plan) < p.forbidden(), "%s: set %d", row.name, set)
		}
	}
}

// Fifteen machines are more than one table holds: pairs say the same for two people.
func TestManyMachinesExcludeEachOtherInPairs(t *testing.T) {
	s := studygen.Round()
	one := s.Machines[0]
	s.Machines = nil
	for m := range 15 {
		one.Key, one.Motor = "m"+string(rune('a'+m)), quantity.Power(230*(10+m))
		s.Machines = append(s.Machines, one)
	}
	s.Studio.Volts, s.Studio.Phases, s.Studio.People, s.Studio.Amps = 230, 1, 2, 33
	l := &laying{study: s, out: &instance{years: 1, machines: make([]machine, 15), budget: []float64{infinite}}}
	for m := range l.out.machines {
		l.out.machines[m] = machine{own: [][]float64{{infinite, 0}}, paid: [][]float64{{0}}}
	}
	l.addSupply()
	require.Empty(t, l.wide)
	for a := range 15 {
		for b := range a {
			plan := []span{{b, 0, 1}, {a, 0, 1}}
			assert.Equal(t, 20+a+b <= 33, l.out.allowed(plan) && l.out.cost(plan) < l.out.forbidden(), "%d and %d", b, a)
		}
	}
	for m := range 15 {
		assert.True(t, l.out.allowed([]span{{m, 0, 1}}), "%d alone", m)
	}
	s.Studio.People = 3
	l.addSupply()
	assert.NotEmpty(t, l.wide)
}

// Twelve hand machines without a motor and three that three people cannot run at once
// are few enough for a table: those that draw nothing, or never may be bought, are not in it.
func TestOnlyWhatCanBeTooMuchTogetherIsCounted(t *testing.T) {
	s := studygen.Round()
	one := s.Machines[0]
	s.Machines = nil
	for m := range 18 {
		one.Key, one.Motor = "m"+string(rune('a'+m)), 0
		if m < 3 {
			one.Motor = 230 * 10
		} else if m < 6 {
			one.Motor = 230 * 100
		}
		s.Machines = append(s.Machines, one)
	}
	s.Studio.Volts, s.Studio.Phases, s.Studio.People, s.Studio.Amps = 230, 1, 3, 29
	l := &laying{study: s, out: &instance{years: 1, machines: make([]machine, 18), budget: []float64{infinite}}}
	for m := range l.out.machines {
		l.out.machines[m] = machine{own: [][]float64{{infinite, 0}}, paid: [][]float64{{0}}}
	}
	l.addSupply()
	require.Empty(t, l.wide)
	require.Len(t, l.out.tables, 1)
	assert.Equal(t, []int{0, 1, 2}, l.out.tables[0].machines)
	assert.Equal(t, []float64{0, 0, 0, 0, 0, 0, 0, l.out.forbidden()}, l.out.tables[0].cost[0])
	for m := range 18 {
		assert.Equal(t, m >= 3 && m < 6, math.IsInf(l.out.machines[m].own[0][1], 1), "machine %d", m)
	}
}

func TestAFixtureOfTooManyMachinesIsSaid(t *testing.T) {
	s := sanders()
	for len(s.Machines) < mostInTable {
		one := s.Machines[0]
		one.Key = "m" + string(rune('a'+len(s.Machines)))
		s.Machines = append(s.Machines, one)
	}
	assert.Contains(t, decided(s).Why, "fixture collector")
}

func TestAFixtureWrittenOffByHoursIsApproximated(t *testing.T) {
	s := sanders()
	assert.False(t, layOut(s, work.New(s)).byHours())
	s.Machines[1].Tax.Method = model.TaxUnitsOfProduction
	assert.True(t, decided(s).Loose)
}

// What the joint choice does not allow is owned in no year.
func TestTheDemosRoadmapKeepsToTheSupplyOfTheJointChoice(t *testing.T) {
	s := demoStudy(t)
	plan := work.New(s)
	supply := joint.Decide(s, plan).Draw
	require.True(t, supply.Limited)
	free := Decide(withAmps(s, 1000), plan)
	require.False(t, together(s, everOwned(s, &free.Best)), "with all the current in the world it would own more")
	got := Decide(s, plan)
	assertKeeps(t, s, &got.Best)
	assert.Greater(t, got.Best.Present, free.Best.Present)
}

func withAmps(s *model.Study, amps quantity.Current) *model.Study {
	other := *s
	other.Studio.Amps = amps
	return &other
}

func everOwned(s *model.Study, r *Roadmap) []bool {
	owned := make([]bool, len(s.Machines))
	for i := range r.Stays {
		owned[r.Stays[i].Machine] = true
	}
	return owned
}

// A machine that takes 5 of a room that has 4 in the fourth year of five, and a
// replacement that costs 11 of 10 two years after a purchase in the third: a
// span is barred from the first year on that breaks a limit by itself.
func TestASpanIsBarredFromTheFirstYearThatBreaksALimit(t *testing.T) {
	p := &instance{years: 5, budget: []float64{10, 10, 10, 10, 10}}
	one := machine{}
	for a := range p.years {
		own, paid := make([]float64, p.years+1), make([]float64, p.years)
		paid[a] = 10
		if a+2 < p.years {
			paid[a+2] = []float64{1, 1, 11}[a]
		}
		one.own, one.paid = append(one.own, own), append(one.paid, paid)
	}
	p.machines = []machine{one}
	p.rooms = []room{{need: []float64{5}, most: []float64{5, 9, 9, 4, 5}}}
	p.trim()
	barred := func(a int) (list []int) {
		for b := a + 1; b <= p.years; b++ {
			if math.IsInf(p.machines[0].own[a][b], 1) {
				list = append(list, b)
			}
		}
		return list
	}
	assert.Equal(t, [][]int{{4, 5}, {4, 5}, {4, 5}, {4, 5}, nil}, [][]int{barred(0), barred(1), barred(2), barred(3), barred(4)})
	p.rooms = nil
	p.machines[0].own = [][]float64{make([]float64, 6), make([]float64, 6), make([]float64, 6), make([]float64, 6), make([]float64, 6)}
	p.trim()
	assert.Equal(t, [][]int{nil, nil, {5}, nil, nil}, [][]int{barred(0), barred(1), barred(2), barred(3), barred(4)})
}

// Two people, 29 A, and machines of 20, 15, 14, 13, 9 and 5 A: the two largest of a set
// decide. The two smallest run beside any other and are not in the table.
func TestTheLargestOfASetThatThePeopleRunDecide(t *testing.T) {
	s := studygen.Round()
	one := s.Machines[0]
	s.Machines = nil
	amps := []int{5, 14, 20, 13, 15, 9}
	for m, draw := range amps {
		one.Key, one.Motor = "m"+string(rune('a'+m)), quantity.Power(230*draw)
		s.Machines = append(s.Machines, one)
	}
	s.Studio.Volts, s.Studio.Phases, s.Studio.People, s.Studio.Amps = 230, 1, 2, 29
	l := &laying{study: s, out: &instance{years: 1, machines: make([]machine, len(amps)), budget: []float64{infinite}}}
	l.addSupply()
	require.Len(t, l.out.tables, 1)
	table := l.out.tables[0]
	require.Equal(t, []int{2, 4, 1, 3}, table.machines, "by what they draw")
	for set, cost := range table.cost[0] {
		large := set&1 == 1 && set != 1 // 20 A beside any of the others
		assert.Equal(t, large, cost > 0, "set %04b: 15 and 14 A just fit, whatever smaller is owned besides", set)
	}
}
