package single

import (
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// counted counts how often a function is asked.
func counted(of func(float64) float64) (ask func(float64) float64, asked *int) {
	asked = new(int)
	return func(x float64) float64 {
		*asked++
		return of(x)
	}, asked
}

// What a break-even is told by: lines, curves and jumps, each with where it changes
// sides and how often it is asked until that is known. Whoever changes how it is
// narrowed down sees here what that costs or saves, and writes the new figures.
func TestACrossingIsFoundInAsFewLooksAsBefore(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("a processor that fuses products into sums ends elsewhere")
	}
	for _, row := range []struct {
		name       string
		of         func(float64) float64
		a, b, want float64
		looks      int // narrowed down as a break-even
		steps      int // narrowed down as a switching value
	}{
		{"a line", func(x float64) float64 { return 3 - x }, 0, 10, 3, 2, 3},
		{"a line from above", func(x float64) float64 { return 3 - x }, 10, 0, 3, 2, 3},
		{"a line near one end", func(x float64) float64 { return x - 9.999 }, 0, 10, 9.999, 2, 1},
		{"a square", func(x float64) float64 { return x*x - 2 }, 0, 10, math.Sqrt2, 24, 11},
		{"a power that stays flat long", func(x float64) float64 { return math.Pow(x, 9) - 1 }, 0, 4, 1, 14, 7},
		{"the rest of a power", func(x float64) float64 { return 100 - math.Exp(x) }, 0, 8, math.Log(100), 24, 13},
		{"a hyperbola", func(x float64) float64 { return 1/x - 0.2 }, 0.5, 100, 5, 15, 9},
		{"a jump", func(x float64) float64 { return 3.5 - math.Floor(x) }, 0, 10, 4, 47, 9},
		{"a jump on slopes", func(x float64) float64 { return x - 1 + 40*math.Floor(x/7) - 30 }, 0, 13, 7, 45, 10},
	} {
		ask, asked := counted(row.of)
		assert.InDelta(t, row.want, falsePosition(ask, row.a, row.b, row.of(row.a)), 1e-9, row.name)
		looks := *asked
		*asked = 0
		near := 1e-3 * math.Abs(row.b-row.a)
		assert.InDelta(t, row.want, turningPoint(ask, row.a, row.b, row.of(row.a), row.of(row.b)), near, row.name)
		assert.Equal(t, [2]int{row.looks, row.steps}, [2]int{looks, *asked}, row.name)
	}
}

func TestALevelStretchIsACrossingWhereItBeginsAndATouchIsNone(t *testing.T) {
	clip := func(x, low, high float64) float64 { return math.Min(math.Max(x, low), high) }
	for _, row := range []struct {
		name string
		of   func(float64) float64
		want []float64
	}{
		{"level between the sides", func(x float64) float64 { return x - clip(x, 2, 5) }, []float64{2}},
		{"level, then the same side", func(x float64) float64 { return math.Abs(x - clip(x, 2, 5)) }, nil},
		{"a touch and a crossing", func(x float64) float64 { return (x - 2) * (x - 2) * (x - 6) }, []float64{6}},
		{"level from the beginning", func(x float64) float64 { return x - clip(x, 0, 5) }, nil},
		{"level to the end", func(x float64) float64 { return x - clip(x, 3, 8) }, nil},
		{"two level stretches", func(x float64) float64 { return (x - clip(x, 1, 2)) * (x - clip(x, 5, 6)) }, []float64{1, 5}},
		{"nothing at all", func(float64) float64 { return 0 }, nil},
	} {
		assert.Equal(t, row.want, Crossings(row.of, 0, 8, nil), row.name)
	}
}

// A machine that costs nothing, saves nothing and does nothing has no break-even, and
// nothing turns its answer.
func TestWhatNeitherCostsNorSavesHasNoBreakEven(t *testing.T) {
	s := studygen.Round()
	idle := &s.Machines[0]
	idle.Price, idle.NewPrice, idle.MaxWidth = 0, 0, 0.001
	plan := work.New(s)
	rented := alternative.RentOf(s, plan, make([]bool, len(s.Machines)))
	result := DecideAll(s, plan, &rented)[0]
	assert.Zero(t, result.Difference)
	assert.Zero(t, result.Jobs, "no piece fits it")
	most := map[string]float64{InJobs: 6, InHours: 6, InRate: 6, InPrice: 4, InDistance: 10}
	for _, found := range result.BreakEvens {
		assert.Empty(t, found.Crossings, found.In)
		if found.In != InKept {
			assert.InDelta(t, most[found.In]*found.Now, found.To, 1e-9, found.In)
		}
	}
	end, _, turns := Swing{Value: 5, Low: 1, High: 6, AtLow: -1, AtHigh: 2}.turningEnd(0)
	assert.False(t, turns, "an answer of nothing has no other side")
	assert.Zero(t, end)
}

// Of two job types alike, one of them too wide for the planer, the other alone is spread
// over: 20 jobs a year.
func TestAJobThatDoesNotRunOnAMachineIsNotOneOfItsJobs(t *testing.T) {
	s := studygen.Round()
	plan := work.New(s)
	rented := alternative.RentOf(s, plan, make([]bool, len(s.Machines)))
	alone := Decide(s, plan, &rented, 0)
	wide := s.Clone().JobTypes[0]
	wide.Key = "wide"
	for i := range wide.Pieces {
		wide.Pieces[i].Width = 0.99
	}
	s.JobTypes = append(s.JobTypes, wide)
	s.Machines[0].MaxWidth = 0.95
	plan = work.New(s)
	rented = alternative.RentOf(s, plan, make([]bool, len(s.Machines)))
	both := Decide(s, plan, &rented, 0)
	assert.InDelta(t, 20, both.Jobs, 0)
	assert.InDelta(t, alone.PerJob, both.PerJob, 1e-9)
	assert.InDelta(t, alone.PerHour, both.PerHour, 1e-9)
}

func TestAnAnswerFlipsWhenAnEndHasTheOtherSide(t *testing.T) {
	for _, row := range []struct {
		low, high, now float64
		flips          bool
	}{{-1, 5, 3, true}, {1, -5, 3, true}, {1, 5, 3, false}, {0, 5, 3, false}, {1, 0, 3, false}, {1, 5, -3, true}, {-1, -5, -3, false}, {-1, 5, 0, false}, {0.25, 0.125, -0.5, true}} {
		assert.Equal(t, row.flips, Swing{AtLow: row.low, AtHigh: row.high}.Flips(row.now), "%+v", row)
	}
}

func TestPricesOfAShopByTheMachineAreNamedByItsDearest(t *testing.T) {
	s := studygen.Round()
	assert.InDelta(t, 150, hourly(&s.Shops[0]), 0, "of the whole shop")
	s.Shops[0].Tariff.Basis = model.PerMachine
	assert.InDelta(t, 90, hourly(&s.Shops[0]), 0)
	s.Shops[0].Machines[0], s.Shops[0].Machines[1] = s.Shops[0].Machines[1], s.Shops[0].Machines[0]
	assert.InDelta(t, 90, hourly(&s.Shops[0]), 0, "wherever it stands")
}
