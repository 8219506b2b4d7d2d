package futures

import (
	"math"
	"slices"

	"shopstint/model/chance"
)

// Result is what the futures say of every choice. Money is present cost after
// tax over the horizon.
type Result struct {
	Seed      uint64
	Futures   int
	Met       bool // drawn until the error was small; else the most that were allowed
	Drawn     int  // inputs that were drawn
	Tied      int  // correlations that were kept
	Lacking   int  // futures in which some work fits no machine and is not priced
	Choices   []Choice
	Left      []LeftOut       // sets that are no choice
	Best      int             // the choice that is cheapest on average
	Perfect   chance.Estimate // what it would be worth to know everything: expected value of perfect information
	Inputs    []Information   // what it would be worth to know one input, the most first
	Among     int             // choices, the cheapest on average, among which the worth of one input is found
	Certainty bool            // nothing was drawn: every figure is exact
}

// Choice is one set of owned machines over the futures.
type Choice struct {
	Owned      []bool
	Typical    float64 // cost in the study as it is
	Cost       chance.Spread
	Difference chance.Spread   // what renting everything costs more: positive favours this choice
	Band       float64         // a difference under this is too close to call
	Better     chance.Estimate // share of futures in which it is cheaper than renting everything
	Cheapest   chance.Estimate // share of futures in which it is the cheapest of all choices
	Regret     chance.Estimate // what it costs on average over the choice that turns out cheapest
	Curve      []Point         // of the difference
	Years      []YearBand      // cost so far by year from 0; nil for a choice that was not followed
}

// Point says in which share of futures the difference is below an amount.
type Point struct{ Difference, Below float64 }

// YearBand is what a choice has cost up to a year, in present worth.
type YearBand struct{ Low, Median, High float64 } // a twentieth of the futures below Low, and above High

// points is how many points a curve has.
const points = 50

// precision is how small the error of every mean difference is when drawing
// ends: this share of what is too close to call, or of the scatter where nothing is.
const precision, precisionOfScatter = 0.1, 0.01

// precise tells whether the error is small enough.
func (s *sample) precise() bool {
	rented := s.of(0)
	for c := 1; c < len(s.typical); c++ {
		difference := chance.MeanOf(s.gap(rented, s.of(c)), 0)
		least := precision * s.bands[c]
		if s.bands[c] == 0 {
			least = precisionOfScatter * chance.SpreadOf(s.gap(rented, s.of(c)), 0).Deviation.Value
		}
		if !(difference.Error <= least) {
			return false
		}
	}
	return true
}

func (s *sample) gap(dearer, cheaper []float64) []float64 {
	gap := make([]float64, len(dearer))
	for i := range gap {
		gap[i] = dearer[i] - cheaper[i]
	}
	return gap
}

// result weighs the choices.
func (s *sample) result(met bool) *Result {
	costs := make([][]float64, len(s.typical))
	for c := range costs {
		costs[c] = s.of(c)
	}
	result := &Result{
		Seed: s.options.Seed, Futures: s.futures(), Met: met, Drawn: s.inputs.Len(), Tied: len(s.study.Correlations),
		Choices: Weigh(costs, s.typical), Certainty: !s.scatters(),
	}
	result.Best = cheapest(result.Choices)
	result.Perfect = result.Choices[result.Best].Regret
	for c := range result.Choices {
		choice := &result.Choices[c]
		choice.Owned, choice.Band = s.options.Sets[c], s.bands[c]
		choice.Years = s.yearBands(c)
	}
	for b := range s.blocks {
		result.Lacking += s.blocks[b].lacking
	}
	result.Inputs, result.Among = s.informations(costs, result)
	if result.Certainty {
		result.certain()
	}
	return result
}

// certain takes the errors off figures that nothing was drawn for.
func (r *Result) certain() {
	r.Perfect.Error = 0
	for c := range r.Choices {
		choice := &r.Choices[c]
		for _, spread := range []*chance.Spread{&choice.Cost, &choice.Difference} {
			spread.Mean.Error, spread.Deviation.Error = 0, 0
		}
		choice.Better.Error, choice.Cheapest.Error, choice.Regret.Error = 0, 0, 0
	}
}

// cheapest is the choice with the least mean cost, the first of equals.
func cheapest(choices []Choice) int {
	best := 0
	for c := range choices {
		if choices[c].Cost.Mean.Value < choices[best].Cost.Mean.Value {
			best = c
		}
	}
	return best
}

// Weigh compares choices by what each costs in the same futures, which come in
// blocks of 64; the first choice is what the others are compared with. Typical
// costs, one for each choice, are shown beside.
//
// Source: expected value of perfect information and expected loss of
// opportunity, as in H. Raiffa and R. Schlaifer, Applied Statistical Decision
// Theory, 1961.
func Weigh(costs [][]float64, typical []float64) []Choice {
	least, winner := slices.Clone(costs[0]), make([]int, len(costs[0]))
	for c := range costs {
		for i, cost := range costs[c] {
			if cost < least[i] {
				least[i], winner[i] = cost, c
			}
		}
	}
	choices := make([]Choice, len(costs))
	for c := range choices {
		choices[c] = weighOne(costs[0], costs[c], least, winner, c, typical)
	}
	return choices
}

func weighOne(first, cost, least []float64, winner []int, c int, typical []float64) Choice {
	n := len(cost)
	difference, regret, better, wins := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range cost {
		difference[i], regret[i] = first[i]-cost[i], cost[i]-least[i]
		if difference[i] > 0 {
			better[i] = 1
		}
		if winner[i] == c {
			wins[i] = 1
		}
	}
	choice := Choice{
		Typical: typical[c], Cost: chance.SpreadOf(cost, typical[c]), Difference: chance.SpreadOf(difference, typical[0]-typical[c]),
		Better: chance.ShareOf(better), Cheapest: chance.ShareOf(wins), Regret: chance.MeanOf(regret, 0),
	}
	slices.Sort(difference)
	for i := range points {
		below := (float64(i) + 0.5) / points
		choice.Curve = append(choice.Curve, Point{difference[min(n-1, int(math.Floor(below*float64(n))))], below})
	}
	return choice
}

func (s *sample) yearBands(c int) []YearBand {
	if c >= followed {
		return nil
	}
	bands := make([]YearBand, s.horizon+1)
	for t := range bands {
		sorted := s.soFar(c, t)
		slices.Sort(sorted)
		bands[t] = YearBand{chance.Percentile(sorted, 0.05).Value, chance.Percentile(sorted, 0.5).Value, chance.Percentile(sorted, 0.95).Value}
	}
	return bands
}
