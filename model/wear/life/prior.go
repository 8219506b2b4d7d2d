package life

import "math"

// Prior is what was believed before any life was seen: a lognormal mean life, one in
// twenty under MeanLow and one in twenty over MeanHigh, and by itself a lognormal
// coefficient of variation with the same tails. All are above 0, low under high.
type Prior struct {
	MeanLow, MeanHigh           float64
	VariationLow, VariationHigh float64
}

// Belief is what is to be believed of the mean life once the lives were seen.
type Belief struct {
	Mode   float64 // most likely, together with the shape
	Mean   float64 // expected
	Median float64
	Interval
	Shape float64 // the shape at the mode
	// Learnt is the share of the prior's variance of ln(mean life) that the lives
	// have taken away: 0 when they say nothing, near 1 when they say all.
	Learnt float64
}

// Told tells whether the lives say more than the prior did: at least half of its
// variance is gone. Below that the belief is mostly the prior's.
//
// Source: common practice, no source.
func (b Belief) Told() bool { return b.Learnt >= 0.5 }

// tail is how many standard deviations a prior's ends are from its middle: Φ⁻¹(0.95).
const tail = 1.6448536269514722

// axis is one coordinate of the grid: the logarithm of a figure and its prior.
type axis struct{ middle, spread, low, high float64 }

func axisOf(low, high float64) axis {
	middle, spread := (math.Log(low)+math.Log(high))/2, (math.Log(high)-math.Log(low))/(2*tail)
	return axis{middle, spread, middle - reach*spread, middle + reach*spread}
}

func (a axis) at(i, nodes int) float64 {
	return a.low + (a.high-a.low)*float64(i)/float64(nodes-1)
}

func (a axis) density(log float64) float64 {
	off := (log - a.middle) / a.spread
	return -off * off / 2
}

// The grid: how far it reaches to begin with (in standard deviations of the prior),
// how far below its summit it is cut off (in log-likelihood), and its nodes.
const (
	reach      = 6.0
	cut        = 14.0
	meanNodes  = 81
	shapeNodes = 41
	narrowings = 6
)

// Combine joins the lives with the prior by Bayes' rule, for a Weibull distribution,
// on a grid of mean life and coefficient of variation that is narrowed to where the
// belief is. Without lives the belief is the prior's.
//
// Source: W. Q. Meeker and L. A. Escobar, Statistical Methods for Reliability Data,
// 1998, chapter 14 (from memory); the trapezoidal rule on both axes.
func Combine(lives []Observation, prior Prior, level float64) Belief {
	s := sampleOf(lives)
	mean, variation := axisOf(prior.MeanLow, prior.MeanHigh), axisOf(prior.VariationLow, prior.VariationHigh)
	var g grid
	for range narrowings {
		g = s.grid(mean, variation)
		narrowMean, narrowVariation := g.where(mean, variation)
		settled := narrowMean.high-narrowMean.low > 0.6*(mean.high-mean.low) && narrowVariation.high-narrowVariation.low > 0.6*(variation.high-variation.low)
		if settled {
			break
		}
		mean, variation = narrowMean, narrowVariation
	}
	return g.belief(mean, level)
}

// grid is the logarithm of the belief at every node, up to a constant.
type grid struct {
	log    [shapeNodes][meanNodes]float64
	shapes [shapeNodes]float64
	top    float64
	topAt  [2]int // shape, mean
}

func (s *sample) grid(mean, variation axis) grid {
	g := grid{top: math.Inf(-1)}
	for j := range shapeNodes {
		log := variation.at(j, shapeNodes)
		shape := ShapeOf(math.Exp(log))
		g.shapes[j] = shape
		powers, gamma := math.Inf(-1), logGamma(1+1/shape)
		if len(s.logs) > 0 {
			powers, _ = s.powers(shape)
		}
		for i := range meanNodes {
			logMean := mean.at(i, meanNodes)
			at := s.likelihood(shape, logMean-gamma, powers) + mean.density(logMean) + variation.density(log)
			g.log[j][i] = at
			if at > g.top {
				g.top, g.topAt = at, [2]int{j, i}
			}
		}
	}
	return g
}

// where narrows both axes to the nodes that are not far below the summit, and one
// more on each side.
func (g *grid) where(mean, variation axis) (axis, axis) {
	firstShape, lastShape, firstMean, lastMean := shapeNodes-1, 0, meanNodes-1, 0
	for j := range shapeNodes {
		for i := range meanNodes {
			if g.log[j][i] > g.top-cut {
				firstShape, lastShape = min(firstShape, j), max(lastShape, j)
				firstMean, lastMean = min(firstMean, i), max(lastMean, i)
			}
		}
	}
	return mean.cut(firstMean, lastMean, meanNodes), variation.cut(firstShape, lastShape, shapeNodes)
}

func (a axis) cut(first, last, nodes int) axis {
	narrow := a
	narrow.low, narrow.high = a.at(max(0, first-1), nodes), a.at(min(nodes-1, last+1), nodes)
	return narrow
}

// belief sums the grid over the shapes and reads the figures of the mean life off it.
func (g *grid) belief(mean axis, level float64) Belief {
	var weights [meanNodes]float64
	total := 0.0
	for i := range meanNodes {
		for j := range shapeNodes {
			weights[i] += math.Exp(g.log[j][i] - g.top)
		}
		total += weights[i]
	}
	b := Belief{Mode: math.Exp(mean.at(g.topAt[1], meanNodes)), Shape: g.shapes[g.topAt[0]]}
	first, second := 0.0, 0.0
	for i := range meanNodes {
		weights[i] /= total
		log := mean.at(i, meanNodes)
		b.Mean += weights[i] * math.Exp(log)
		first += weights[i] * log
		second += weights[i] * (log - mean.middle) * (log - mean.middle)
	}
	variance := second - (first-mean.middle)*(first-mean.middle)
	b.Learnt = min(1, max(0, 1-variance/(mean.spread*mean.spread)))
	quantile := func(p float64) float64 { return math.Exp(mean.quantile(weights[:], p)) }
	b.Median, b.Interval = quantile(0.5), Interval{quantile((1 - level) / 2), quantile((1 + level) / 2)}
	return b
}

// quantile returns the logarithm under which the share p of the weights lies: half of
// a node's weight stands on each side of it.
func (a axis) quantile(weights []float64, p float64) float64 {
	below := 0.0
	for i := 0; i+1 < len(weights); i++ {
		step := (weights[i] + weights[i+1]) / 2
		if below+step >= p {
			return a.at(i, len(weights)) + (p-below)/step*(a.high-a.low)/float64(len(weights)-1)
		}
		below += step
	}
	return a.high
}
