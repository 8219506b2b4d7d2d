package roadmap

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
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

// alike has all machines that share fixtures write them off alike.
func alike(s *model.Study) *model.Study {
	for m := range s.Machines {
		if len(s.Machines[m].Fixtures) > 0 {
			s.Machines[m].Tax, s.Machines[m].YearsKept = s.Machines[0].Tax, s.Machines[0].YearsKept
		}
	}
	return s
}

// unlimited leaves out what keeps machines from being owned together.
func unlimited(s *model.Study) *model.Study {
	s.Studio.FloorFree, s.Studio.Amps = 0, 1e6
	for m := range s.Machines {
		s.Machines[m].Excludes, s.Machines[m].Needs = nil, nil
	}
	return s
}

// followed completes a plan of machines with what follows them.
func followed(p *instance, plan []span) []span {
	owned := make([]uint32, len(p.machines))
	for _, s := range plan {
		owned[s.machine] |= years(s.from, s.to)
	}
	for f := range p.machines {
		for _, leader := range p.machines[f].leaders {
			owned[f] |= owned[leader]
		}
	}
	return p.planOf(owned)
}

// courses draws some roadmaps of an instance.
func courses(p *instance, seed int) [][]span {
	rng := rand.New(rand.NewPCG(uint64(seed), 3))
	var list [][]span
	for range 6 {
		plan := []span{}
		for m := range p.machines {
			if p.machines[m].leaders != nil {
				continue
			}
			if from := rng.IntN(p.years + 1); from < p.years {
				plan = append(plan, span{m, from, from + 1 + rng.IntN(p.years-from)})
			}
		}
		list = append(list, followed(p, plan))
	}
	return list
}

func TestTheTablesSayWhatTheEvaluatorSays(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		s = unlimited(inducted(alike(tight(s))))
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
		plan := work.New(unlimited(alike(tight(s))))
		p := layOut(s, plan).out
		for _, spans := range courses(p, seed) {
			want := alternative.EvaluateCourse(s, plan, p.ownedIn(spans)).Present
			assert.LessOrEqual(t, p.cost(spans), want+studygen.Dust(want)+1e-4, "seed %d %v", seed, spans)
			for i := range spans {
				spans[i].to = p.years // nothing is sold, so that nothing falls due later
			}
			spans = followed(p, spans)
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
		s = unlimited(inducted(alike(tight(s))))
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
		s = unlimited(inducted(s))
		for m := range s.Machines {
			s.Machines[m].Fixtures = nil
		}
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

// Whoever pays for a fixture, it costs no less than in the hopeful twin.
func TestNoRoadmapCostsLessThanTheLeastThatSharedFixturesCanCost(t *testing.T) {
	hopeful, dearer := 0, 0
	for seed, s := range studygen.Studies(seeds) {
		s = unlimited(inducted(tight(s)))
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
			if hope.cost(spans) < is-1 {
				dearer++
			}
		}
	}
	assert.Greater(t, hopeful, 5)
	assert.Greater(t, dearer, 5)
}

// everyCourse calls each with every roadmap of a study's machines.
func everyCourse(s *model.Study, each func(owned [][]bool)) {
	owned := make([][]bool, int(s.Studio.Horizon))
	for t := range owned {
		owned[t] = make([]bool, len(s.Machines))
	}
	var next func(m int)
	next = func(m int) {
		if m == len(s.Machines) {
			each(owned)
			return
		}
		next(m + 1)
		for from := range owned {
			for to := from; to < len(owned); to++ {
				owned[to][m] = true
				next(m + 1)
			}
			for t := range owned {
				owned[t][m] = false
			}
		}
	}
	next(0)
}

// keeps tells, in the words of a study, whether a course keeps its limits.
func keeps(s *model.Study, owned [][]bool, course *alternative.Course) bool {
	spent := make([]float64, len(owned)+1)
	for i := range course.Stays {
		for t, paid := range course.Stays[i].Paid() {
			spent[t] += paid
		}
	}
	for _, fixture := range course.Fixtures {
		spent[fixture.From] += fixture.Paid
	}
	most := float64(s.Studio.YearlyBudget)
	if most > 0 && slices.ContainsFunc(spent, func(sum float64) bool { return sum > most*(1+1e-9) }) {
		return false
	}
	return !slices.ContainsFunc(owned, func(year []bool) bool { return !together(s, year) })
}

// together tells whether machines may be owned together.
func together(s *model.Study, owned []bool) bool {
	draws, area := []float64{}, 0.0
	seen := map[string]bool{}
	for m, has := range owned {
		if !has {
			continue
		}
		machine := s.Machines[m]
		owns := func(key string) bool { return owned[model.Index(s.Machines, key)] }
		if slices.ContainsFunc(machine.Excludes, owns) || slices.ContainsFunc(machine.Needs, func(key string) bool { return !owns(key) }) {
			return false
		}
		draws = append(draws, alternative.MachineDraw(s, &machine))
		for _, key := range machine.Fixtures {
			if fixture, _ := model.Find(s.Fixtures, key); !seen[key] {
				seen[key], area = true, area+float64(fixture.Area)
			}
		}
		machine.Fixtures = nil
		area += capital.FloorArea(s, &machine, alternative.LongestPiece(s))
	}
	slices.Sort(draws)
	amps := 0.0
	for _, draw := range draws[max(0, len(draws)-int(s.Studio.People)):] {
		amps += draw
	}
	floor := float64(s.Studio.FloorFree)
	assumed := s.Origins["studio.amps"].Assumed || s.Origins["studio.volts"].Assumed || s.Origins["studio.phases"].Assumed
	return (floor == 0 || area <= floor*(1+1e-9)) && (assumed || amps <= float64(s.Studio.Amps)*(1+1e-9))
}

// limited draws limits that some of a small study's roadmaps break.
func limited(s *model.Study, seed int) *model.Study {
	rng := rand.New(rand.NewPCG(uint64(seed), 4))
	draw, area := 0.0, 0.0
	for m := range s.Machines {
		draw += alternative.MachineDraw(s, &s.Machines[m])
		area += capital.FloorArea(s, &s.Machines[m], alternative.LongestPiece(s))
	}
	s.Studio.FloorFree, s.Studio.People = 0, quantity.Count(1+rng.IntN(4))
	s.Studio.Amps = quantity.Current(1 + draw*(0.1+0.7*rng.Float64()))
	if rng.IntN(2) == 0 {
		s.Studio.YearlyBudget = quantity.Money(rng.Float64() * 2 * float64(s.Machines[0].Price))
	}
	if rng.IntN(2) == 0 {
		s.Studio.FloorFree = quantity.Area(area * (0.1 + 0.7*rng.Float64()))
	}
	if rng.IntN(2) == 0 {
		s.Fixtures = []model.Fixture{{Key: "collector", Price: s.Machines[0].Price / 4, Area: quantity.Area(area / 20), Resale: 0.2}}
		for m := range s.Machines {
			s.Machines[m].Fixtures = []string{"collector"}
		}
	}
	for m := range s.Machines {
		relation := func(list []string) []string { // to machines that were cut off
			return slices.DeleteFunc(slices.Clone(list), func(key string) bool { return model.Index(s.Machines, key) < 0 })
		}
		s.Machines[m].Excludes, s.Machines[m].Needs = relation(s.Machines[m].Excludes), relation(s.Machines[m].Needs)
	}
	return s
}

// Every roadmap of a small study is priced by the evaluator itself, and held to
// the limits in the study's own words.
func TestDecideFindsTheCheapestOfAllRoadmapsOfAStudy(t *testing.T) {
	proved, bound := 0, 0
	defer func() {
		assert.Greater(t, proved, seeds*4/5, "the gap is open for few")
		assert.Greater(t, bound, seeds/10, "limits change some")
	}()
	for seed, s := range studygen.Studies(seeds) {
		s = limited(small(tight(s), 3, 3), seed)
		if seed%2 == 0 {
			for m := range s.Machines {
				s.Machines[m].LearningShare = 0.6
			}
		}
		plan := work.New(s)
		least, wait, free := infinite, infinite, infinite
		firsts := map[string]float64{} // the least by what is bought first
		everyCourse(s, func(owned [][]bool) {
			course := alternative.EvaluateCourse(s, plan, owned)
			free = math.Min(free, course.Present)
			if !keeps(s, owned, &course) {
				return
			}
			least = math.Min(least, course.Present)
			if !slices.Contains(owned[0], true) {
				wait = math.Min(wait, course.Present)
			}
			first := "nothing"
			if year := slices.IndexFunc(owned, func(of []bool) bool { return slices.Contains(of, true) }); year >= 0 {
				first = fmt.Sprint(owned[year])
			}
			if known, ok := firsts[first]; !ok || course.Present < known {
				firsts[first] = course.Present
			}
		})
		got := Decide(s, plan)
		require.Empty(t, got.Why)
		dust := studygen.Dust(least) + 1e-4
		assert.GreaterOrEqual(t, got.Best.Present, least-dust, "seed %d", seed)
		assert.LessOrEqual(t, got.Best.Present-got.Best.Gap, least+dust, "seed %d", seed)
		assert.GreaterOrEqual(t, got.Waiting.Present, wait-dust, "seed %d", seed)
		assert.LessOrEqual(t, got.Waiting.Present-got.Waiting.Gap, wait+dust, "seed %d", seed)
		delete(firsts, firstBought(s, &got.Best))
		if assert.Equal(t, len(firsts) > 0, got.RunnerUp != nil, "seed %d", seed) && len(firsts) > 0 {
			second := slices.Min(slices.Collect(maps.Values(firsts)))
			assert.Contains(t, firsts, firstBought(s, got.RunnerUp), "seed %d: other machines first", seed)
			assert.GreaterOrEqual(t, got.RunnerUp.Present, second-dust, "seed %d", seed)
			assert.LessOrEqual(t, got.RunnerUp.Present-got.RunnerUp.Gap, second+dust, "seed %d", seed)
		}
		for _, one := range []*Roadmap{&got.Best, got.RunnerUp, &got.Waiting} {
			assertKeeps(t, s, one)
		}
		if got.Best.Gap == 0 {
			proved++
		}
		if least > free+dust {
			bound++
		}
	}
}

// firstBought is the set of machines that a roadmap buys first.
func firstBought(s *model.Study, r *Roadmap) string {
	year := r.First()
	if year < 0 {
		return "nothing"
	}
	owned := make([]bool, len(s.Machines))
	for _, m := range r.Years[year].Buy {
		owned[m] = true
	}
	return fmt.Sprint(owned)
}

func assertKeeps(t *testing.T, s *model.Study, found *Roadmap) {
	t.Helper()
	if found == nil {
		return
	}
	for year := range int(s.Studio.Horizon) {
		owned := make([]bool, len(s.Machines))
		for i := range found.Stays {
			owned[found.Stays[i].Machine] = owned[found.Stays[i].Machine] || found.Stays[i].From <= year && year < found.Stays[i].To
		}
		assert.True(t, together(s, owned), "year %d %v", year, owned)
		if s.Studio.YearlyBudget > 0 {
			assert.LessOrEqual(t, found.Years[year].Spent, float64(s.Studio.YearlyBudget)*(1+1e-9))
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
