package evidence

import "math"

// Parts sums triples: two parts that a figure should have, and what it was. The
// scatter is taken to grow with the figure. The zero value has none.
type Parts struct{ n, aa, ab, bb, aw, bw, ww float64 }

// Factors are what each part came to for each unit of it, with intervals.
type Factors struct {
	A, B         float64
	OfA, OfB     Interval
	Same         float64 // the probability that factors that are alike come out so different
	Alike        float64 // the one factor when both are alike
	OfAlike      Interval
	OnlyA, OnlyB float64 // the one factor when the other part comes out as it should
	OfOnlyA      Interval
	OfOnlyB      Interval
	Observations float64
}

// Add adds one triple; a triple of which nothing should be is left out.
//
// Source: by definition.
func (p *Parts) Add(a, b, was float64) {
	if !(a+b > 0) {
		return
	}
	a, b, was = a/(a+b), b/(a+b), was/(a+b)
	p.n++
	p.aa += a * a
	p.ab += a * b
	p.bb += b * b
	p.aw += a * was
	p.bw += b * was
	p.ww += was * was
}

// What parts must have to be told apart: triples enough, and a spread of their shares
// that is not a matter of rounding.
const (
	leastTriples = 10
	leastSpread  = 0.05 // standard deviation of a part's share
)

// Fit returns the factors of both parts; false where they cannot be told apart: too
// few triples, or all with nearly the same shares.
//
// Source: N. R. Draper and H. Smith, Applied Regression Analysis, 3rd edition, 1998,
// section 9.2 (weighted least squares); the weights are one over the square of what
// the figure should be.
func (p Parts) Fit(level float64) (Factors, bool) {
	if p.n < leastTriples {
		return Factors{}, false
	}
	// Shares add up to one, so that their spread follows from their squares.
	meanA := (p.aa + p.ab) / p.n
	if spread := p.aa/p.n - meanA*meanA; spread < leastSpread*leastSpread {
		return Factors{}, false
	}
	det := p.aa*p.bb - p.ab*p.ab
	f := Factors{A: (p.bb*p.aw - p.ab*p.bw) / det, B: (p.aa*p.bw - p.ab*p.aw) / det, Observations: p.n}
	left := max(0, p.ww-f.A*p.aw-f.B*p.bw) / (p.n - 2)
	varA, varB, cov := left*p.bb/det, left*p.aa/det, -left*p.ab/det
	t := Student(p.n-2, (1+level)/2)
	around := func(value, variance float64) Interval {
		half := t * math.Sqrt(variance)
		return Interval{value - half, value + half}
	}
	f.OfA, f.OfB = around(f.A, varA), around(f.B, varB)
	off, wide := math.Abs(f.A-f.B), math.Sqrt(max(0, varA+varB-2*cov))
	switch {
	case wide > 0:
		f.Same = beyond(off/wide, p.n-2)
	case off < exact:
		f.Same = 1
	}
	// With weights of one over the square, the one factor is the mean of the ratios.
	f.Alike = (p.aw + p.bw) / p.n
	half := Student(p.n-1, (1+level)/2) * math.Sqrt(max(0, p.ww/p.n-f.Alike*f.Alike)/(p.n-1))
	f.OfAlike = Interval{f.Alike - half, f.Alike + half}
	f.OnlyA, f.OfOnlyA = p.only(p.aa, p.aw, p.bb, p.bw, level)
	f.OnlyB, f.OfOnlyB = p.only(p.bb, p.bw, p.aa, p.aw, level)
	return f, true
}

// only returns the factor of one part when the other comes out as it should.
func (p Parts) only(own, ownWas, other, otherWas, level float64) (float64, Interval) {
	factor := (ownWas - p.ab) / own
	// What is left of Σ(was − other)² once the part is taken out.
	left := max(0, p.ww-2*otherWas+other-factor*(ownWas-p.ab)) / (p.n - 1)
	half := Student(p.n-1, (1+level)/2) * math.Sqrt(left/own)
	return factor, Interval{factor - half, factor + half}
}
