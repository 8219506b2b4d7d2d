package chance

import (
	"math"
	"slices"
)

// PerBlock is how many draws make a block: one stream of random numbers, and one
// stratified sample.
const PerBlock = 64

// Estimate is a figure found by sampling, and the standard error of that: two in
// three such figures are within it of the true one, 19 in 20 within twice it.
type Estimate struct{ Value, Error float64 }

// Spread is how a figure scatters over the futures.
type Spread struct {
	Mean, Deviation Estimate
	Percentiles     [5]Estimate // Shares below them
}

// Shares are the shares of futures below the percentiles of a Spread.
func Shares() [5]float64 { return [5]float64{0.05, 0.25, 0.5, 0.75, 0.95} }

// MeanOf is the mean of values that come in blocks, its error from how the means
// of the blocks scatter. About is a value near the mean: equal values then have
// exactly themselves as mean. Of a single block the values count as independent,
// which rather overstates the error.
//
// Source: batch means, as in A. M. Law, Simulation Modeling and Analysis, output
// analysis; blocks are independent of each other.
func MeanOf(values []float64, about float64) Estimate {
	sum, square, count, group := 0.0, 0.0, 0.0, PerBlock
	if len(values) <= PerBlock {
		group = 1
	}
	for len(values) > 0 {
		size := min(group, len(values))
		mean := 0.0
		for _, x := range values[:size] {
			mean += (x - about) / float64(size)
		}
		sum += mean
		square += mean * mean
		count++
		values = values[size:]
	}
	mean := sum / count
	return Estimate{about + mean, math.Sqrt(math.Max(0, square/count-mean*mean) / math.Max(1, count-1))}
}

// SpreadOf describes values that come in blocks.
//
// Source: error of the deviation by the delta method from that of the variance.
func SpreadOf(values []float64, about float64) Spread {
	spread := Spread{Mean: MeanOf(values, about)}
	squares := make([]float64, len(values))
	for i, x := range values {
		squares[i] = (x - spread.Mean.Value) * (x - spread.Mean.Value)
	}
	variance := MeanOf(squares, 0)
	deviation := math.Sqrt(variance.Value)
	spread.Deviation = Estimate{deviation, 0}
	if deviation > 0 {
		spread.Deviation.Error = variance.Error / (2 * deviation)
	}
	sorted := Sorted(values)
	for i, share := range Shares() {
		spread.Percentiles[i] = Percentile(sorted, share)
	}
	return spread
}

// Sorted returns the values in rising order.
func Sorted(values []float64) []float64 {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	return sorted
}

// Percentile is the value below which a share of sorted values lies.
//
// Source: order statistics, as in H. A. David and H. N. Nagaraja, Order
// Statistics; the error from the binomial scatter of the rank.
func Percentile(sorted []float64, share float64) Estimate {
	n := float64(len(sorted))
	rank := func(x float64) float64 { return sorted[int(math.Min(math.Max(math.Floor(x), 0), n-1))] }
	reach := math.Sqrt(n * share * (1 - share))
	return Estimate{rank(n * share), (rank(n*share+reach) - rank(n*share-reach)) / 2}
}

// ShareOf is the share of futures for which a value is one and not zero. Where it
// never or always is, blocks show no error, and it is that of one draw more of
// each kind.
//
// Source: batch means; else the rule of succession of P. S. Laplace.
func ShareOf(values []float64) Estimate {
	share := MeanOf(values, 0)
	n := float64(len(values))
	if share.Value == 0 || share.Value == 1 {
		smoothed := (share.Value*n + 1) / (n + 2)
		share.Error = math.Sqrt(smoothed * (1 - smoothed) / n)
	}
	return share
}
