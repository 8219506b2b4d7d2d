package roadmap

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// seeds are the generated studies of a test.
const seeds = 60

// small cuts a generated study down so that every roadmap of it can be tried.
func small(s *model.Study, machines int, horizon quantity.Years) *model.Study {
	s.Machines = s.Machines[:min(machines, len(s.Machines))]
	s.Studio.Horizon = min(horizon, s.Studio.Horizon)
	return s
}

// tight leaves out what does not follow the hours in proportion.
func tight(s *model.Study) *model.Study {
	for m := range s.Machines {
		machine := &s.Machines[m]
		machine.LearningShare, machine.Upkeep, machine.Tax.Method = 0, model.UpkeepShare, model.TaxStraightLine
		if machine.Resale == model.ResaleRemainingValue {
			machine.Resale = model.ResaleDeclining
			machine.FirstYearValue, machine.YearlyValue = 0.7, 0.9
		}
	}
	return s
}

func inducted(s *model.Study) *model.Study {
	for i := range s.Shops {
		for m := range s.Shops[i].Machines {
			s.Shops[i].Machines[m].Inducted = true
		}
	}
	return s
}

// courses draws some roadmaps of an instance.
func courses(p *instance, seed int) [][]span {
	rng := rand.New(rand.NewPCG(uint64(seed), 3))
	var list [][]span
	for range 6 {
		plan := []span{}
		for m := range p.machines {
			if from := rng.IntN(p.years + 1); from < p.years {
				plan = append(plan, span{m, from, from + 1 + rng.IntN(p.years-from)})
			}
		}
		list = append(list, plan)
	}
	return list
}

func TestTheTablesSayWhatTheEvaluatorSays(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		s = inducted(tight(s))
		plan := work.New(s)
		laid := layOut(s, plan)
		require.Empty(t, laid.wide, "seed %d", seed)
		assert.False(t, laid.loose(), "seed %d", seed)
		assert.Nil(t, laid.hopeful(), "seed %d", seed)
		for _, spans := range courses(laid.out, seed) {
			want := alternative.EvaluateCourse(s, plan, laid.out.ownedIn(spans)).Present
			assert.InDelta(t, want, laid.out.cost(spans), studygen.Dust(want)+1e-4, "seed %d %v", seed, spans)
		}
	}
}

func TestWithInductionsTheTablesLeaveOutOnlyThoseThatFallDueLater(t *testing.T) {
	due := false
	for seed, s := range studygen.Studies(seeds) {
		plan := work.New(tight(s))
		p := layOut(s, plan).out
		for _, spans := range courses(p, seed) {
			want := alternative.EvaluateCourse(s, plan, p.ownedIn(spans)).Present
			assert.LessOrEqual(t, p.cost(spans), want+studygen.Dust(want)+1e-4, "seed %d %v", seed, spans)
			for i := range spans {
				spans[i].to = p.years // nothing is sold, so that nothing falls due later
			}
			course := alternative.EvaluateCourse(s, plan, p.ownedIn(spans))
			assert.InDelta(t, course.Present, p.cost(spans), studygen.Dust(want)+1e-4, "seed %d %v", seed, spans)
			due = due || course.Rented[0].Induction > 0
		}
	}
	assert.True(t, due, "some study has an induction")
}

func TestNoRoadmapCostsLessThanTheLeastThatSharedStepsCanCost(t *testing.T) {
	hopeful := 0
	for seed, s := range studygen.Studies(seeds) {
		s = inducted(tight(s))
		for m := range s.Machines {
			s.Machines[m].LearningShare = 0.5
		}
		plan := work.New(s)
		laid := layOut(s, plan)
		hope := laid.hopeful()
		if hope == nil {
			continue
		}
		hopeful++
		for _, spans := range courses(laid.out, seed) {
			is := alternative.EvaluateCourse(s, plan, laid.out.ownedIn(spans)).Present
			assert.LessOrEqual(t, hope.cost(spans), is+studygen.Dust(is)+1e-4, "seed %d %v", seed, spans)
			assert.GreaterOrEqual(t, laid.out.cost(spans), is-studygen.Dust(is)-1e-4, "seed %d %v", seed, spans)
		}
	}
	assert.Greater(t, hopeful, 5)
}

func TestMachinesThatAreOwnedOneAfterAnotherArePricedExactly(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		s = inducted(s)
		plan := work.New(s)
		p := layOut(s, plan).out
		for from := range p.years {
			spans := []span{{from % len(p.machines), 0, from}, {(from + 1) % len(p.machines), from, p.years}}
			if from == 0 || len(p.machines) == 1 {
				spans = spans[1:]
			}
			want := alternative.EvaluateCourse(s, plan, p.ownedIn(spans)).Present
			assert.InDelta(t, want, p.cost(spans), studygen.Dust(want)+1e-4, "seed %d %v", seed, spans)
		}
	}
}

func TestARoadmapThatBuysTodayAndKeepsCostsWhatTheSetCosts(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		plan := work.New(s)
		p := layOut(s, plan).out
		owned, spans := make([]bool, len(s.Machines)), []span{}
		for m := range owned {
			if (seed+m)%2 == 0 {
				owned[m], spans = true, append(spans, span{m, 0, p.years})
			}
		}
		want := alternative.Evaluate(s, plan, owned).Present
		assert.InDelta(t, want, roadmapOf(s, plan, p, spans).Present, studygen.Dust(want)+1e-4, "seed %d", seed)
	}
}

// Every roadmap of a small study is priced by the evaluator itself.
func TestDecideFindsTheCheapestOfAllRoadmapsOfAStudy(t *testing.T) {
	proved := 0
	defer func() { assert.Greater(t, proved, seeds*9/10, "the gap is open for few") }()
	for seed, s := range studygen.Studies(seeds) {
		s = small(tight(s), 3, 3)
		if seed%2 == 0 {
			for m := range s.Machines {
				s.Machines[m].LearningShare = 0.6
			}
		}
		rng := rand.New(rand.NewPCG(uint64(seed), 4))
		if rng.IntN(2) == 0 {
			s.Studio.YearlyBudget = quantity.Money(rng.Float64() * 2 * float64(s.Machines[0].Price))
		}
		plan := work.New(s)
		p := layOut(s, plan).out
		least, wait := infinite, infinite
		everyPlan(p, func(spans []span, _ float64) {
			cost := alternative.EvaluateCourse(s, plan, p.ownedIn(spans)).Present
			least = math.Min(least, cost)
			if !slices.ContainsFunc(spans, func(s span) bool { return s.from == 0 }) {
				wait = math.Min(wait, cost)
			}
		})
		got := Decide(s, plan)
		dust := studygen.Dust(least) + 1e-4
		assert.GreaterOrEqual(t, got.Best.Present, least-dust, "seed %d", seed)
		assert.LessOrEqual(t, got.Best.Present-got.Best.Gap, least+dust, "seed %d", seed)
		assert.GreaterOrEqual(t, got.Waiting.Present, wait-dust, "seed %d", seed)
		assert.LessOrEqual(t, got.Waiting.Present-got.Waiting.Gap, wait+dust, "seed %d", seed)
		if got.Best.Gap == 0 {
			proved++
		}
		for _, year := range got.Best.Years {
			if s.Studio.YearlyBudget > 0 {
				assert.LessOrEqual(t, year.Spent, float64(s.Studio.YearlyBudget)+1e-6, "seed %d", seed)
			}
		}
	}
}

func demoStudy(tb testing.TB) *model.Study {
	tb.Helper()
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(tb, problems)
	return s
}

func TestATighterBudgetNeverMakesTheRoadmapCheaper(t *testing.T) {
	s := demoStudy(t)
	plan := work.New(s)
	last := Decide(s, plan).Best.Present
	for _, budget := range []quantity.Money{60000, 30000, 15000, 5000} {
		s.Studio.YearlyBudget = budget
		got := Decide(s, plan)
		assert.Zero(t, got.Best.Gap)
		assert.GreaterOrEqual(t, got.Best.Present, last-1e-6)
		last = got.Best.Present
	}
	s.Studio.YearlyBudget = 1
	got := Decide(s, plan)
	assert.Empty(t, got.Best.Stays)
	assert.InDelta(t, got.Rented, got.Best.Present, 1e-6)
	assert.Nil(t, got.RunnerUp)
}

func TestTheSameStudyGivesTheSameRoadmap(t *testing.T) {
	s := demoStudy(t)
	s.Studio.YearlyBudget = 20000
	first := Decide(s, work.New(s))
	for range 3 {
		assert.Equal(t, first, Decide(s, work.New(s)))
	}
}
