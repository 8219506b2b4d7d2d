package decision_test

import (
	"fmt"
	"math"
	"reflect"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/capital/decision/joint"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

const seeds = 40

// population answers the studies once.
var population = sync.OnceValue(func() []decision.Answer {
	list := make([]decision.Answer, seeds)
	for seed, s := range studygen.Studies(seeds) {
		list[seed] = decision.Decide(s)
	}
	return list
})

// notOffered are the fields in which an infinity says that a price is not offered.
var notOffered = map[string]bool{"WithHalfDay": true, "WholeDays": true}

// assertNumbers walks everything an answer holds and fails on what is no
// finite number.
func assertNumbers(t *testing.T, answer *decision.Answer, message string) {
	t.Helper()
	w := walker{seen: map[uintptr]bool{}}
	w.walk("answer", "", reflect.ValueOf(answer))
	assert.Empty(t, w.bad, message)
	assert.Greater(t, w.count, 300, "%s: so many figures at least", message)
}

type walker struct {
	seen  map[uintptr]bool
	bad   []string
	count int
}

func (w *walker) walk(path, name string, value reflect.Value) {
	switch value.Kind() {
	case reflect.Float64:
		w.count++
		if x := value.Float(); math.IsNaN(x) || math.IsInf(x, 0) && !(math.IsInf(x, 1) && notOffered[name]) {
			w.bad = append(w.bad, fmt.Sprintf("%s is %v", path, x))
		}
	case reflect.Pointer:
		if !value.IsNil() && !w.seen[value.Pointer()] {
			w.seen[value.Pointer()] = true
			w.walk(path, name, value.Elem())
		}
	case reflect.Struct:
		for i := range value.NumField() {
			field := value.Type().Field(i).Name
			w.walk(path+"."+field, field, value.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range value.Len() {
			w.walk(fmt.Sprintf("%s[%d]", path, i), name, value.Index(i))
		}
	case reflect.Map:
		for _, key := range value.MapKeys() {
			w.walk(path+"."+key.String(), name, value.MapIndex(key))
		}
	}
}

func TestTheWalkFindsWhatIsNoNumber(t *testing.T) {
	answer := decision.Decide(studygen.Round())
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		broken := answer
		broken.Machines = []single.Result{answer.Machines[0]}
		broken.Machines[0].Flows = []float64{0, x}
		w := walker{seen: map[uintptr]bool{}}
		w.walk("answer", "", reflect.ValueOf(&broken))
		assert.Len(t, w.bad, 1, "%v", x)
	}
}

func TestEveryStudyIsAnsweredInNumbers(t *testing.T) {
	for seed, answer := range population() {
		assertNumbers(t, &answer, fmt.Sprintf("seed %d", seed))
		assert.Len(t, answer.Machines, len(answer.Study.Machines), "seed %d", seed)
	}
}

func TestStudiesAtTheEdgeAreAnsweredInNumbers(t *testing.T) {
	jobs := func(s *model.Study, change func(*model.JobType)) {
		for j := range s.JobTypes {
			change(&s.JobTypes[j])
		}
	}
	for _, row := range []struct {
		name   string
		change func(*model.Study)
	}{
		{"money costs nothing", func(s *model.Study) { s.Studio.DiscountRate = 0 }},
		{"one year", func(s *model.Study) { s.Studio.Horizon = 1 }},
		{"kept for one year", func(s *model.Study) {
			for m := range s.Machines {
				s.Machines[m].YearsKept, s.Machines[m].Tax.Life = 1, 1
				if s.Machines[m].Tax.Method == model.TaxHalfYear || s.Machines[m].Tax.Method == model.TaxMidQuarter {
					s.Machines[m].Tax.Method = model.TaxStraightLine
				}
			}
		}},
		{"no jobs at all", func(s *model.Study) { jobs(s, func(kind *model.JobType) { kind.PerYear = 0 }) }},
		{"work that dies out", func(s *model.Study) { jobs(s, func(kind *model.JobType) { kind.Growth = -0.5 }) }},
		{"one machine", func(s *model.Study) { s.Machines = s.Machines[:1] }},
		{"free machines", func(s *model.Study) {
			for m := range s.Machines {
				s.Machines[m].Price, s.Machines[m].NewPrice = 0, 0
			}
		}},
		{"a free shop", func(s *model.Study) {
			model.Walk(s, func(leaf model.Leaf) {
				if dim, ok := leaf.Dimension(); ok && dim.IsMoney() && len(leaf.Path) > 6 && leaf.Path[:6] == "shops." {
					leaf.SetNumber(0)
				}
			})
		}},
		{"a shop next door", func(s *model.Study) {
			for i := range s.Shops {
				s.Shops[i].Distance, s.Shops[i].DriveTime = 0, 0
			}
		}},
		{"machines that take nothing", func(s *model.Study) {
			for m := range s.Machines {
				s.Machines[m].LeastLength, s.Machines[m].MostMass = 20, 1e-6
			}
		}},
		{"all money is nothing", func(s *model.Study) {
			model.Walk(s, func(leaf model.Leaf) {
				if dim, ok := leaf.Dimension(); ok && dim.IsMoney() {
					leaf.SetNumber(0)
				}
			})
		}},
		{"thirty years at the highest rate", func(s *model.Study) { s.Studio.Horizon, s.Studio.DiscountRate = 30, 0.6 }},
		{"ten thousand jobs", func(s *model.Study) {
			s.JobTypes = s.JobTypes[:1]
			s.JobTypes[0].PerYear = 10000
		}},
	} {
		for seed, s := range studygen.Studies(5) {
			row.change(s)
			answer := decision.Decide(s)
			assertNumbers(t, &answer, fmt.Sprintf("%s, seed %d", row.name, seed))
		}
	}
}

func TestSixtyJobTypesAreAnswered(t *testing.T) {
	s := studygen.Study(3)
	first := s.JobTypes[0]
	s.JobTypes = s.JobTypes[:0:0]
	for i := range 60 {
		kind := first
		kind.Key, kind.PerYear = fmt.Sprintf("kind%d", i), quantity.Count(i)
		s.JobTypes = append(s.JobTypes, kind)
	}
	answer := decision.Decide(s)
	assertNumbers(t, &answer, "sixty job types")
	assert.Len(t, answer.Rented.Jobs, 60)

	// Sixty kinds of the same job cost what their number of it costs, visit by visit.
	one := s.Clone()
	one.JobTypes = one.JobTypes[:1]
	one.JobTypes[0].PerYear = 59 * 60 / 2
	one.JobTypes[0].JobsPerVisit, first.JobsPerVisit = 1, 1
	for i := range s.JobTypes {
		s.JobTypes[i].JobsPerVisit = 1
	}
	many, single := decision.Decide(s), decision.Decide(one)
	assert.InEpsilon(t, single.Present, many.Present, 1e-9)
	for m := range many.Machines {
		assert.InDelta(t, single.Machines[m].Difference, many.Machines[m].Difference, 1e-6)
	}
}

func TestRentingEverythingIsTheSideEveryMachineIsMeasuredBy(t *testing.T) {
	for seed, answer := range population() {
		for m := range answer.Machines {
			result := &answer.Machines[m]
			assert.Equal(t, m, result.Machine, "seed %d", seed)
			beside := answer.Present - result.Rent.Present(answer.Study)
			assert.InDelta(t, beside, result.Saved, studygen.Dust(answer.Present), "seed %d machine %d", seed, m)
		}
	}
}

func TestAssumedInputsAreRankedByWhatTheyMove(t *testing.T) {
	for seed, answer := range population() {
		assumed := 0
		for _, origin := range answer.Study.Origins {
			if origin.Assumed {
				assumed++
			}
		}
		assert.Equal(t, assumed, answer.AssumedCount, "seed %d", seed)
		seen := map[string]bool{}
		for i, entry := range answer.Assumed {
			assert.False(t, seen[entry.Path], "seed %d: %s comes once", seed, entry.Path)
			seen[entry.Path] = true
			assert.True(t, answer.Study.Origins[entry.Path].Assumed, "seed %d: %s", seed, entry.Path)
			if i > 0 {
				assert.GreaterOrEqual(t, answer.Assumed[i-1].Swing.Rank(), entry.Swing.Rank(), "seed %d", seed)
			}
			largest := 0.0
			for m := range answer.Machines {
				for _, swing := range answer.Machines[m].Swings {
					if swing.Path == entry.Path {
						largest = max(largest, swing.Rank())
					}
				}
			}
			assert.InDelta(t, largest, entry.Swing.Rank(), 0, "seed %d: %s", seed, entry.Path)
			assert.Equal(t, entry.Swing.Flips(answer.Machines[entry.Machine].Difference), entry.Flips, "seed %d: %s", seed, entry.Path)
		}
	}
}

// loaded reads a study as written in a system of units.
func loaded(t *testing.T, s *model.Study, system quantity.System) *model.Study {
	t.Helper()
	read, _, problems := study.Load("study.yaml", studygen.YAML(s, system))
	require.Empty(t, problems)
	return read
}

func demoStudy(tb testing.TB) *model.Study {
	tb.Helper()
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(tb, problems)
	return s
}

func TestAStudyIsAnsweredAlikeInMetricAndInInches(t *testing.T) {
	for seed, s := range studygen.Studies(seeds / 2) {
		assertAlike(t, s, fmt.Sprintf("seed %d", seed))
	}
	assertAlike(t, demoStudy(t), "the demo")
}

// assertAlike compares to a billionth of what is compared: a value may differ in
// its last digit after one conversion, and sums carry that along.
func assertAlike(t *testing.T, s *model.Study, message string) {
	t.Helper()
	inMetric, inInches := loaded(t, s, quantity.Metric), loaded(t, s, quantity.Inch)
	inMetric.Units, inInches.Units = s.Units, s.Units // notes are shown in them
	metric, inch := decision.Decide(inMetric), decision.Decide(inInches)
	b := besideOf(s, 1, map[string]*standing{})
	b.compare(metric, inch)
	assert.Empty(t, b.told(), message)
	const alike = 1e-9
	assert.InDelta(t, metric.Present, inch.Present, alike*math.Abs(metric.Present), message)
	for m := range metric.Machines {
		a, b := &metric.Machines[m], &inch.Machines[m]
		size := math.Abs(a.Saved) + math.Abs(a.Owning)
		assert.InDelta(t, a.Saved, b.Saved, alike*size, "%s machine %d", message, m)
		assert.InDelta(t, a.Owning, b.Owning, alike*size, "%s machine %d", message, m)
		assert.Equal(t, a.Verdict, b.Verdict, "%s machine %d", message, m)
		require.Len(t, b.Swings, len(a.Swings), "%s machine %d", message, m)
		swings := map[string]single.Swing{}
		for _, swing := range a.Swings {
			swings[swing.Path] = swing
		}
		for _, swing := range b.Swings {
			assert.InDelta(t, swings[swing.Path].AtLow, swing.AtLow, alike*size, "%s machine %d: %s", message, m, swing.Path)
			assert.InDelta(t, swings[swing.Path].AtHigh, swing.AtHigh, alike*size, "%s machine %d: %s", message, m, swing.Path)
		}
		for i := range a.BreakEvens {
			assert.Len(t, b.BreakEvens[i].Crossings, len(a.BreakEvens[i].Crossings), "%s machine %d in %s", message, m, a.BreakEvens[i].In)
		}
	}
}

func BenchmarkDecide(b *testing.B) {
	s := demoStudy(b)
	for b.Loop() {
		decision.Decide(s)
	}
}

func BenchmarkDifferences(b *testing.B) {
	s := demoStudy(b)
	for b.Loop() {
		single.Differences(s)
	}
}

// What a machine saves alone is the same whoever asks.
func TestTheJointChoiceAndTheSingleDecisionsAgreeOnMachinesAlone(t *testing.T) {
	for seed, s := range studygen.Studies(40) {
		result, alone := joint.Decide(s, work.New(s)), single.Differences(s)
		assert.InDeltaSlice(t, alone, result.Alone, studygen.Dust(result.Rented.Present), "seed %d", seed)
	}
}
