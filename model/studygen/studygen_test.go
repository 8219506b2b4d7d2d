package studygen_test

import (
	"math"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/check"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

const seeds = 200

// population makes the studies once for all tests that only look at them.
var population = sync.OnceValue(func() []*model.Study { return studygen.Studies(seeds) })

func TestTheSameSeedMakesTheSameStudy(t *testing.T) {
	for seed := range uint64(20) {
		assert.Equal(t, studygen.Study(seed), studygen.Study(seed), "seed %d", seed)
	}
	assert.NotEqual(t, studygen.Study(1), studygen.Study(2))
}

func TestTheIndexOfAStudyIsItsSeed(t *testing.T) {
	list := studygen.Studies(3)
	require.Len(t, list, 3)
	for seed, s := range list {
		assert.Equal(t, studygen.Study(uint64(seed)), s, "seed %d", seed)
	}
}

func TestAStemIsAPathWithoutTheOwnersKeys(t *testing.T) {
	for path, want := range map[string]string{
		"studio.people":                       "studio.people",
		"shops.mill.tolls":                    "shops.tolls",
		"shops.mill.machines.planer.setup":    "shops.machines.setup",
		"job_types.table.operations.cut.cuts": "job_types.operations.cuts",
		"machines.machines.value_table.3":     "machines.value_table",
		"job_types.edges.pieces.edges.length": "job_types.pieces.length",
		"shops.tools.tariff.minimum_block":    "shops.tariff.minimum_block",
	} {
		assert.Equal(t, want, studygen.Stem(path))
	}
}

func TestDustIsABillionthOfTheSizeOfEitherSign(t *testing.T) {
	assert.InDelta(t, 1e-9, studygen.Dust(0), 0)
	assert.InEpsilon(t, 1e-3, studygen.Dust(1e6-1), 1e-12)
	assert.InDelta(t, studygen.Dust(5), studygen.Dust(-5), 0)
}

func TestEveryStudyKeepsTheRules(t *testing.T) {
	for seed, s := range population() {
		for _, found := range check.Study(s) {
			t.Errorf("seed %d: %s; %s", seed, found.What, found.Right)
		}
		assert.NotEmpty(t, s.Money.Code(), "seed %d", seed)
	}
}

func TestEveryStepHasAWay(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		assert.Empty(t, plan.Homeless(), "seed %d", seed)
		used := 0
		for i := range plan.Rows {
			if plan.Rows[i].Used {
				used++
			}
		}
		assert.Equal(t, plan.Steps, used, "seed %d", seed)
	}
}

func TestEveryInputLiesWithinItsLimits(t *testing.T) {
	for seed, s := range population() {
		model.Walk(s, func(leaf model.Leaf) {
			dim, measured := leaf.Dimension()
			if !measured {
				assertWord(t, seed, leaf)
				return
			}
			values := []float64{leaf.Number()}
			if origin := s.Origins[leaf.Path]; origin.HasRange {
				assert.LessOrEqual(t, origin.Low, leaf.Number(), "seed %d %s", seed, leaf.Path)
				assert.GreaterOrEqual(t, origin.High, leaf.Number(), "seed %d %s", seed, leaf.Path)
				values = append(values, origin.Low, origin.High)
			}
			for _, x := range values {
				assert.True(t, inside(leaf, dim, x), "seed %d: %s is %g", seed, leaf.Path, x)
			}
		})
	}
}

func assertWord(t *testing.T, seed int, leaf model.Leaf) {
	t.Helper()
	allowed := strings.Fields(leaf.Tag.Get("oneof"))
	word, isWord := leaf.Value.Interface().(string)
	if isWord && len(allowed) > 0 && leaf.Key() != "fallback" {
		assert.Contains(t, allowed, word, "seed %d %s", seed, leaf.Path)
	}
}

func inside(leaf model.Leaf, dim quantity.Dimension, x float64) bool {
	holds := func(tag string, test func(limit float64) bool) bool {
		text := leaf.Tag.Get(tag)
		if text == "" {
			return true
		}
		limit, _, err := quantity.Parse(dim, text)
		if text == "0" {
			limit, err = 0, nil
		}
		return err == nil && test(limit)
	}
	return !math.IsNaN(x) &&
		holds("least", func(limit float64) bool { return x >= limit }) &&
		holds("above", func(limit float64) bool { return x > limit }) &&
		holds("most", func(limit float64) bool { return x <= limit }) &&
		(!leaf.Has("whole") || x == math.Trunc(x))
}

func TestTheStudiesAreVaried(t *testing.T) {
	seen := map[string]int{}
	for _, s := range population() {
		for name, holds := range features(s) {
			if holds {
				seen[name]++
			}
		}
	}
	for name := range features(population()[0]) {
		assert.Positive(t, seen[name], name)
		assert.Less(t, seen[name], seeds, name)
	}
}

// features are what a population of studies must have, and not always have.
func features(s *model.Study) map[string]bool {
	has := map[string]bool{
		"inch": s.Units == "inch", "one machine": len(s.Machines) == 1, "six machines": len(s.Machines) == 6,
		"two shops": len(s.Shops) == 2, "discount 0": s.Studio.DiscountRate == 0, "one year": s.Studio.Horizon == 1,
		"fifteen years": s.Studio.Horizon == 15, "no places": s.Money.Places() == 0, "three places": s.Money.Places() == 3,
		"no growth": s.Growth.Rental == 0, "falling prices": s.Growth.Rental < 0, "no tax": s.Studio.TaxRate == 0,
		"eight job types": len(s.JobTypes) == 8, "no tools": len(s.Tools) == 0, "half assumed": assumed(s) > 150,
	}
	for _, path := range []string{"machines.candidate0.price", "job_types.job0.per_year", "job_types.job0.operations.step0.stock", "job_types.job0.pieces.piece0.width"} {
		has["a range on "+path] = s.Origins[path].HasRange
	}
	mark := func(name string, holds bool) { has[name] = has[name] || holds }
	for i := range s.Shops {
		tariff := &s.Shops[i].Tariff
		mark("a clock for each machine", tariff.Basis == model.PerMachine)
		mark("half days", tariff.HalfDayPrice > 0)
		mark("days", tariff.DayPrice > 0)
		mark("membership", tariff.MembershipFee > 0)
	}
	for i := range s.Machines {
		m := &s.Machines[i]
		mark("used with hours", m.Hours > 0 && m.Age > 0)
		mark("several classes", len(m.Does) > 1)
		mark("hours sold", m.HoursSold > 0)
		mark("loan", m.Loan.Share > 0)
		mark("resale "+m.Resale, true)
		mark("upkeep "+m.Upkeep, true)
		mark("tax "+m.Tax.Method, true)
		mark("class "+m.Class, true)
	}
	for _, word := range []string{model.ResaleDeclining, model.ResaleTable, model.ResaleRemainingValue} {
		mark("resale "+word, false)
	}
	for _, word := range []string{model.UpkeepShare, model.UpkeepAccumulated} {
		mark("upkeep "+word, false)
	}
	for _, word := range []string{model.TaxNone, model.TaxStraightLine, model.TaxDecliningBalance, model.TaxSumOfYears, model.TaxUnitsOfProduction, model.TaxHalfYear, model.TaxMidQuarter} {
		mark("tax "+word, false)
	}
	for _, word := range model.Classes {
		mark("class "+word, false)
		mark("operation "+word, false)
	}
	for i := range s.JobTypes {
		kind := &s.JobTypes[i]
		mark("no jobs of a type", kind.PerYear == 0)
		mark("part of a job", float64(kind.PerYear) != math.Trunc(float64(kind.PerYear)))
		mark("shared visits", kind.JobsPerVisit == 4)
		mark("rework", kind.ReworkChance > 0 && kind.ReworkVisits > 0)
		for o := range kind.Operations {
			operation := &kind.Operations[o]
			mark("operation "+operation.Class, true)
			mark("measured", operation.Measured > 0)
			mark("grits", len(operation.Grits) > 2)
			mark("fallback", operation.Fallback != "")
		}
	}
	return has
}

func assumed(s *model.Study) int {
	count := 0
	for _, origin := range s.Origins {
		if origin.Assumed {
			count++
		}
	}
	return count
}

func TestAStudyReadsBackAsItWasWritten(t *testing.T) {
	for seed, s := range population()[:seeds/4] {
		own, err := quantity.ParseSystem(s.Units)
		require.NoError(t, err)
		assertReadsBack(t, seed, s, own, 0)
		assertReadsBack(t, seed, s, 1-own, 1e-15)
	}
}

func TestTheDemoReadsBackInBothSystems(t *testing.T) {
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	assertReadsBack(t, 0, s, quantity.Inch, 1e-15)
	assertReadsBack(t, 0, s, quantity.Metric, 1e-15)
}

// assertReadsBack compares every input, and the origin of every given one, to a
// share of its size.
func assertReadsBack(t *testing.T, seed int, s *model.Study, system quantity.System, share float64) {
	t.Helper()
	read, _, problems := study.Load("study.yaml", studygen.YAML(s, system))
	for _, p := range problems {
		t.Errorf("seed %d %s: %v", seed, system, p)
	}
	if read == nil {
		return
	}
	want, got := leaves(s), leaves(read)
	require.Len(t, got, len(want), "seed %d %s", seed, system)
	for path, leaf := range want {
		other, ok := got[path]
		if !assert.True(t, ok, "seed %d %s: %s is missing", seed, system, path) || path == "units" {
			continue
		}
		if _, measured := leaf.Dimension(); !measured {
			assert.Equal(t, leaf.Value.Interface(), other.Value.Interface(), "seed %d %s: %s", seed, system, path)
			continue
		}
		assertNear(t, share, leaf.Number(), other.Number(), "seed %d %s: %s", seed, system, path)
		was, is := s.Origins[path], read.Origins[path]
		assert.Equal(t, was.Assumed, is.Assumed, "seed %d %s: %s", seed, system, path)
		assert.Equal(t, was.HasRange, is.HasRange, "seed %d %s: %s", seed, system, path)
		assert.Equal(t, was.Note, is.Note, "seed %d %s: %s", seed, system, path)
		assertNear(t, share, was.Low, is.Low, "seed %d %s: low of %s", seed, system, path)
		assertNear(t, share, was.High, is.High, "seed %d %s: high of %s", seed, system, path)
	}
}

func assertNear(t *testing.T, share, want, got float64, message ...any) {
	t.Helper()
	assert.InDelta(t, want, got, share*math.Abs(want), message...)
}

func leaves(s *model.Study) map[string]model.Leaf {
	found := map[string]model.Leaf{}
	model.Walk(s, func(leaf model.Leaf) { found[leaf.Path] = leaf })
	return found
}

func TestTheStudyInRoundFiguresKeepsTheRules(t *testing.T) {
	s := studygen.Round()
	assert.Empty(t, check.Study(s))
	assert.Empty(t, work.New(s).Homeless())
	assert.Equal(t, 2, s.Money.Places())
	s.Machines[0].Price = 1
	assert.NotEqual(t, s, studygen.Round(), "each call gives its own")
	assertReadsBack(t, 0, studygen.Round(), quantity.Metric, 0)
	assertReadsBack(t, 0, studygen.Round(), quantity.Inch, 1e-15)
}
