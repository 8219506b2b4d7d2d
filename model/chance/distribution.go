// Package chance turns a low, a typical and a high figure into a distribution,
// and draws from many of them at once: stratified, correlated where asked for,
// the same for the same seed. It prices nothing.
package chance

import (
	"fmt"
	"math"

	"shopstint/model"
)

// Range is what is known of a figure: the typical value between low and high,
// the shape that says how they are read (one of model.Shapes, "" for PERT), and
// the limits outside of which the figure makes no sense (±Inf for none).
type Range struct {
	Value, Low, High float64
	Shape            string
	Least, Most      float64
}

// Distribution gives the value below which a figure stays with probability u,
// for u over 0 and under 1.
type Distribution interface{ Quantile(u float64) float64 }

// Tails is the probability below low, and above high, of the shapes that have tails.
const Tails = 0.05

// normalTail is how many standard deviations low and high are from the middle.
const normalTail = 1.6448536269514722 // Φ⁻¹(0.95); Abramowitz and Stegun, table 26.5, 1.64485

// Tables makes distributions and keeps what those of one form share.
type Tables struct{ perts map[float64]*unitPERT }

// NewTables returns tables without any form yet.
func NewTables() *Tables { return &Tables{map[float64]*unitPERT{}} }

// Of returns the distribution of a range. The error says what of the range its
// shape cannot read; a range that Fault passes has none.
//
// Source: D. G. Malcolm and others, Application of a Technique for Research and
// Development Program Evaluation, Operations Research 7, 1959 (PERT); S. Kotz
// and J. R. van Dorp, Beyond Beta, 2004 (triangular); the others by definition.
func (t *Tables) Of(r Range) (Distribution, error) {
	if fault := Fault(r); fault != "" {
		return nil, fmt.Errorf("the range from %v to %v around %v %s", r.Low, r.High, r.Value, fault)
	}
	switch r.Shape {
	case model.ShapeTriangular:
		return triangular{r.Low, r.Value, r.High}, nil
	case model.ShapeUniform:
		return uniform{r.Low, r.High}, nil
	case model.ShapeNormal:
		spread := (r.High - r.Low) / (2 * normalTail)
		return within(normal{(r.Low + r.High) / 2, spread}, r), nil
	case model.ShapeLognormal:
		low, high := math.Log(r.Low), math.Log(r.High)
		return within(lognormal{normal{(low + high) / 2, (high - low) / (2 * normalTail)}}, r), nil
	}
	return t.pert(r), nil
}

// Fault says what is wrong with a range for its shape, "" when nothing is. It
// continues a sentence whose subject is the range.
func Fault(r Range) string {
	switch {
	case !(r.Low < r.High) || r.Value < r.Low || r.Value > r.High:
		return "does not rise from low by the value to high"
	case r.Shape == model.ShapeLognormal && r.Low <= 0:
		return "is lognormal and does not begin above zero"
	case r.Shape != model.ShapeNormal && r.Shape != model.ShapeLognormal:
		return ""
	case math.Abs(r.Value-Middle(r)) > offCentre*(r.High-r.Low):
		return "is " + r.Shape + " and its value is not in the middle"
	}
	return ""
}

// offCentre is how far, as a share of the range, a value may be from the middle
// of a shape that has it there: values are written rounded.
const offCentre = 0.05

// Middle is the value that a normal or lognormal range has in its middle: the
// mean, or the median.
func Middle(r Range) float64 {
	if r.Shape == model.ShapeLognormal {
		return math.Sqrt(r.Low * r.High)
	}
	return (r.Low + r.High) / 2
}

type uniform struct{ low, high float64 }

func (d uniform) Quantile(u float64) float64 { return d.low + u*(d.high-d.low) }

type triangular struct{ low, mode, high float64 }

func (d triangular) Quantile(u float64) float64 {
	width := d.high - d.low
	if rise := d.mode - d.low; u*width < rise {
		return d.low + math.Sqrt(u*width*rise)
	}
	return d.high - math.Sqrt((1-u)*width*(d.high-d.mode))
}

// spread is a distribution that knows its probabilities, so that it can be cut off.
type spread interface {
	Distribution
	below(x float64) float64
}

type normal struct{ mean, deviation float64 }

func (d normal) Quantile(u float64) float64 { return d.mean + d.deviation*Score(u) }
func (d normal) below(x float64) float64    { return Below((x - d.mean) / d.deviation) }

type lognormal struct{ log normal }

func (d lognormal) Quantile(u float64) float64 { return math.Exp(d.log.Quantile(u)) }
func (d lognormal) below(x float64) float64 {
	if x <= 0 {
		return 0
	}
	return d.log.below(math.Log(x))
}

// cut is a distribution without what lies beyond its limits.
type cut struct {
	spread
	from, to float64 // probabilities below the limits
}

func within(d spread, r Range) Distribution {
	from, to := 0.0, 1.0
	if !math.IsInf(r.Least, -1) {
		from = d.below(r.Least)
	}
	if !math.IsInf(r.Most, 1) {
		to = d.below(r.Most)
	}
	if from == 0 && to == 1 {
		return d
	}
	return cut{d, from, to}
}

func (d cut) Quantile(u float64) float64 { return d.spread.Quantile(d.from + u*(d.to-d.from)) }

// Score returns the standard normal value below which there is probability u.
//
// Source: by definition: √2·erf⁻¹(2u − 1).
func Score(u float64) float64 { return math.Sqrt2 * math.Erfinv(2*u-1) }

// Below returns the probability that a standard normal value is below z.
//
// Source: by definition: erfc(−z/√2)/2.
func Below(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
