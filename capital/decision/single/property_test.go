package single_test

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

const seeds = 80

// decided is one generated study with its answers.
type decided struct {
	seed    int
	study   *model.Study
	plan    *work.Plan
	results []single.Result
}

// population decides the studies once. Their money has four places, so that
// posting hardly shows in what is compared.
var population = sync.OnceValue(func() []decided {
	list := make([]decided, seeds)
	for seed, s := range studygen.Studies(seeds) {
		s.Money, _ = money.ParseCurrency("CLF") // known: its places are asserted below
		list[seed] = decided{seed, s, work.New(s), decide(s)}
	}
	return list
})

func TestTheCurrencyOfThePopulationHasFourPlaces(t *testing.T) {
	assert.Equal(t, 4, population()[0].study.Money.Places())
}

func each(visit func(d *decided, result *single.Result)) {
	for i := range population() {
		d := &population()[i]
		for m := range d.results {
			visit(d, &d.results[m])
		}
	}
}

func TestTheDifferenceIsWhatTheOneEvaluatorSays(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		owned := make([]bool, len(d.study.Machines))
		none := alternative.Evaluate(d.study, d.plan, owned).Present
		owned[result.Machine] = true
		one := alternative.Evaluate(d.study, d.plan, owned).Present
		assert.InDelta(t, none-one, result.Difference, studygen.Dust(none), "seed %d machine %d", d.seed, result.Machine)
		assert.InDelta(t, result.Saved-result.Owning, result.Difference, studygen.Dust(none), "seed %d machine %d", d.seed, result.Machine)
		assert.InDelta(t, single.Differences(d.study)[result.Machine], result.Difference, studygen.Dust(none), "seed %d machine %d", d.seed, result.Machine)
	})
}

func TestTheFlowsAreWorthTheDifference(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		rate, horizon := float64(d.study.Studio.DiscountRate), float64(d.study.Studio.Horizon)
		size := math.Abs(result.Saved) + math.Abs(result.Owning)
		assert.InDelta(t, result.Difference, timevalue.PresentValue(rate, result.Flows), studygen.Dust(size), "seed %d machine %d", d.seed, result.Machine)
		assert.InDelta(t, result.Difference, result.Annual*timevalue.AnnuityFactor(rate, horizon), studygen.Dust(size), "seed %d machine %d", d.seed, result.Machine)
		largest := 0.0
		for _, flow := range result.Flows {
			largest = max(largest, math.Abs(flow))
		}
		for _, found := range result.Returns {
			worth := timevalue.PresentValue(found, result.Flows)
			scale := largest * math.Pow(1+math.Min(found, 0), -horizon) // near −100 % late flows weigh without end
			assert.InDelta(t, 0, worth, 1e-6*scale, "seed %d machine %d at %v", d.seed, result.Machine, found)
		}
		if result.Payback.SimpleOK {
			assert.LessOrEqual(t, result.Payback.Simple, horizon, "seed %d machine %d", d.seed, result.Machine)
		}
		if result.Payback.DiscountedOK && result.Payback.SimpleOK && rate > 0 && result.Flows[0] < 0 {
			assert.LessOrEqual(t, 0.0, result.Payback.Discounted, "seed %d machine %d", d.seed, result.Machine)
		}
	})
}

func TestTheVerdictFollowsTheDifferenceAndItsBand(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		want := single.KeepRenting
		switch {
		case math.Abs(result.Difference) <= result.Band:
			want = single.TooClose
		case result.Difference > 0:
			want = single.Buy
		}
		assert.Equal(t, want, result.Verdict, "seed %d machine %d", d.seed, result.Machine)
		dearer := math.Max(math.Abs(result.Saved), math.Abs(result.Owning))
		assert.InDelta(t, float64(d.study.Studio.CloseCall)*dearer, result.Band, studygen.Dust(dearer), "seed %d machine %d", d.seed, result.Machine)
	})
}

func TestTheCurveGoesThroughTheStudyItself(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		size := math.Abs(result.Saved) + math.Abs(result.Owning)
		assert.InDelta(t, result.Difference, result.Curve.Difference(1), studygen.Dust(size), "seed %d machine %d", d.seed, result.Machine)
		assert.InDelta(t, result.Saved, result.Curve.Saving(1), studygen.Dust(size), "seed %d machine %d", d.seed, result.Machine)
		assert.InDelta(t, result.Owning, result.Curve.Owning(1), studygen.Dust(size), "seed %d machine %d", d.seed, result.Machine)
	})
}

// steady tells whether scaling the work leaves as planned what the curve leaves
// as planned: memberships, a resale and a tax relief that follow the hours.
func steady(s *model.Study, m int) bool {
	for i := range s.Shops {
		if s.Shops[i].Tariff.MembershipFee > 0 {
			return false
		}
	}
	return s.Machines[m].Resale != model.ResaleRemainingValue && s.Machines[m].Tax.Method != model.TaxUnitsOfProduction
}

func TestTheCurveIsTheStudyWithItsWorkScaled(t *testing.T) {
	compared := 0
	each(func(d *decided, result *single.Result) {
		if !steady(d.study, result.Machine) {
			return
		}
		for _, scale := range []float64{0.35, 0.5, 1.7, 3, 5.21} {
			twin := d.study.Clone()
			for j := range twin.JobTypes {
				twin.JobTypes[j].PerYear *= quantity.Count(scale)
			}
			want := single.Differences(twin)[result.Machine]
			size := math.Abs(result.Curve.Saving(scale)) + math.Abs(result.Curve.Owning(scale))
			// Whole jobs are told from parts to a millionth, which may move a millionth of a visit.
			assert.InDelta(t, want, result.Curve.Difference(scale), 1e-6*(1+size), "seed %d machine %d scaled by %v", d.seed, result.Machine, scale)
			compared++
		}
	})
	assert.Greater(t, compared, 100)
}

// movedAlong returns the difference with the quantity of a break-even at x,
// reckoned on a study of its own.
func movedAlong(d *decided, result *single.Result, found single.BreakEven, x float64) float64 {
	scale := x / found.Now
	if found.In == single.InJobs || found.In == single.InHours {
		return result.Curve.Difference(scale)
	}
	twin := d.study.Clone()
	switch found.In {
	case single.InRate:
		model.Walk(twin, func(leaf model.Leaf) {
			switch leaf.Key() {
			case "hourly_rate", "half_day_price", "day_price":
				leaf.SetNumber(leaf.Number() * scale)
			}
		})
	case single.InPrice:
		twin.Machines[result.Machine].Price *= quantity.Money(scale)
	case single.InDistance:
		for i := range twin.Shops {
			twin.Shops[i].Distance *= quantity.Distance(scale)
			twin.Shops[i].DriveTime *= quantity.Duration(scale)
		}
	}
	return single.Differences(twin)[result.Machine]
}

// At a crossing the difference is nothing, or jumps over it: a membership that
// is taken or left, a posted amount that rounds the other way.
func TestAtEveryCrossingTheDifferenceChangesSides(t *testing.T) {
	crossed := map[string]int{}
	each(func(d *decided, result *single.Result) {
		for _, found := range result.BreakEvens {
			if found.In == single.InKept {
				continue
			}
			size := math.Abs(result.Saved) + math.Abs(result.Owning)
			for _, x := range found.Crossings {
				assert.True(t, found.From <= x && x <= found.To, "seed %d machine %d: %v in %s", d.seed, result.Machine, x, found.In)
				step := 1e-6 * found.To
				before, after := movedAlong(d, result, found, x-step), movedAlong(d, result, found, x+step)
				nothing := math.Abs(movedAlong(d, result, found, x)) <= 1e-7*(1+size)
				assert.True(t, before*after < 0 || nothing, "seed %d machine %d %s at %v: %v and %v", d.seed, result.Machine, found.In, x, before, after)
				crossed[found.In]++
			}
		}
	})
	for _, in := range []string{single.InJobs, single.InHours, single.InRate, single.InPrice, single.InDistance} {
		assert.Positive(t, crossed[in], "no break-even in %s was looked at", in)
	}
}

func TestBetweenCrossingsTheDifferenceKeepsItsSide(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		for _, found := range result.BreakEvens {
			if found.In == single.InKept || found.Now == 0 {
				continue
			}
			ends := append([]float64{found.From}, found.Crossings...)
			ends = append(ends, found.To)
			last := 0.0
			for i := 1; i < len(ends); i++ {
				side := movedAlong(d, result, found, (ends[i-1]+ends[i])/2)
				if i > 1 {
					assert.LessOrEqual(t, last*side, 0.0, "seed %d machine %d: %v in %s", d.seed, result.Machine, found.Crossings, found.In)
				}
				last = side
			}
		}
	})
}

// Along the jobs the curve is straight between corners, unless repairs follow
// the hours: a fine walk meets no crossing that was not reported.
func TestNoCrossingInTheJobsIsMissed(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		if d.study.Machines[result.Machine].Upkeep == model.UpkeepAccumulated || result.Jobs == 0 {
			return
		}
		found := result.BreakEvens[0]
		require.Equal(t, single.InJobs, found.In)
		sides, size := 0, math.Abs(result.Saved)+math.Abs(result.Owning)
		last := 0.0
		for i := range 6001 {
			now := result.Curve.Difference(float64(i) / 1000)
			if math.Abs(now) <= 1e-9*size {
				continue
			}
			if last*now < 0 {
				sides++
			}
			last = now
		}
		assert.GreaterOrEqual(t, len(found.Crossings), sides, "seed %d machine %d", d.seed, result.Machine)
	})
}

func TestTheYearsKeptChangeSidesWhereSaid(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		found := result.BreakEvens[len(result.BreakEvens)-1]
		require.Equal(t, single.InKept, found.In)
		var want []float64
		last := 0.0
		for kept := 1.0; kept <= float64(d.study.Studio.Horizon); kept++ {
			twin := d.study.Clone()
			twin.Machines[result.Machine].YearsKept = quantity.Years(kept)
			now := single.Differences(twin)[result.Machine]
			if last*now < 0 {
				want = append(want, kept)
			}
			last = now
		}
		assert.Equal(t, want, found.Crossings, "seed %d machine %d", d.seed, result.Machine)
	})
}

func TestEverySwingIsTheStudyWithThatOneInputMoved(t *testing.T) {
	for i := range population() {
		d := &population()[i]
		inputs := d.results[0].Swings
		for k := d.seed % 7; k < len(inputs); k += 7 { // every seventh: each takes a whole decision
			for _, end := range []struct {
				value float64
				at    func(single.Swing) float64
			}{
				{inputs[k].Low, func(s single.Swing) float64 { return s.AtLow }},
				{inputs[k].High, func(s single.Swing) float64 { return s.AtHigh }},
			} {
				twin := d.study.Clone()
				model.Walk(twin, func(leaf model.Leaf) {
					if leaf.Path == inputs[k].Path {
						leaf.SetNumber(end.value)
					}
				})
				want := single.Differences(twin)
				for m := range d.results {
					swing := swingOf(t, d.results[m].Swings, inputs[k].Path)
					assert.InDelta(t, want[m], end.at(swing), studygen.Dust(want[m]+d.results[m].Owning), "seed %d machine %d: %s at %v", d.seed, m, swing.Path, end.value)
				}
			}
		}
	}
}

func swingOf(t *testing.T, swings []single.Swing, path string) single.Swing {
	t.Helper()
	i := slices.IndexFunc(swings, func(s single.Swing) bool { return s.Path == path })
	require.GreaterOrEqual(t, i, 0, path)
	return swings[i]
}

func TestEveryInputWithARangeHasASwingAndTheLargestComesFirst(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		ranged := 0
		model.Walk(d.study, func(leaf model.Leaf) {
			if origin := d.study.Origins[leaf.Path]; origin.HasRange && origin.Low != origin.High && !leaf.Has("aside") {
				ranged++
			}
		})
		assert.Len(t, result.Swings, ranged, "seed %d machine %d", d.seed, result.Machine)
		for i := 1; i < len(result.Swings); i++ {
			assert.GreaterOrEqual(t, result.Swings[i-1].Rank(), result.Swings[i].Rank(), "seed %d machine %d", d.seed, result.Machine)
		}
	})
}

func TestTheAnswerDoesNotHangOnTheNumberOfProcessors(t *testing.T) {
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	for seed, s := range studygen.Studies(6) {
		runtime.GOMAXPROCS(1)
		one := decide(s)
		runtime.GOMAXPROCS(2)
		two := decide(s)
		runtime.GOMAXPROCS(7)
		assert.Equal(t, one, two, "seed %d", seed)
		assert.Equal(t, one, decide(s), "seed %d", seed)
	}
}

func TestTheStudyIsLeftAsItWas(t *testing.T) {
	for seed := range uint64(6) {
		s := studygen.Study(seed)
		decide(s)
		assert.Equal(t, studygen.Study(seed), s, "seed %d", seed)
	}
}

func TestTheCurveKeepsItsPartsApart(t *testing.T) {
	each(func(d *decided, result *single.Result) {
		curve := &result.Curve
		idle := curve.Owning(0)
		own := 0.0
		for _, line := range []capital.Line{capital.Energy, capital.Wear, capital.OwnTime, capital.Care, capital.Learning} {
			for year, amount := range result.Owner.Table[line] {
				own += amount * result.Owner.Table[capital.Discount][year] * (1 - float64(d.study.Studio.TaxRate))
			}
		}
		assert.InDelta(t, own, curve.Work, studygen.Dust(own), "seed %d machine %d", d.seed, result.Machine)
		kept := 0.0
		for year, amount := range result.Owner.Table[capital.Upkeep] {
			kept += amount * result.Owner.Table[capital.Discount][year] * (1 - float64(d.study.Studio.TaxRate))
		}
		assert.InDelta(t, kept, curve.Upkeep(1), studygen.Dust(kept), "seed %d machine %d", d.seed, result.Machine)
		assert.InDelta(t, curve.Fixed+curve.Upkeep(0), idle, studygen.Dust(idle), "seed %d machine %d", d.seed, result.Machine)
		assert.InDelta(t, curve.Floor, curve.Saving(0), studygen.Dust(result.Saved), "seed %d machine %d", d.seed, result.Machine)
	})
}
