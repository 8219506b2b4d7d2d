package timevalue

import (
	"math"
	"slices"
)

// ReturnRates returns every internal rate of return above -1, ascending:
// every rate at which PresentValue(rate, flows) is zero. It is empty when
// there is none, when all flows are zero, or when a flow is not finite.
//
// With x = 1/(1+rate) the present value is the polynomial of the flows in x,
// and the rates are its roots on x > 0. Multiplying by x^-k and
// differentiating, with k between two powers whose coefficients differ in
// sign, gives a polynomial with one change of sign less, whose roots
// separate those of the first. Repeated until one change is left, which has
// exactly one root. So no root is missed, and none is found twice.
//
// A root where the present value touches zero without crossing counts once.
// Roots so near one another that rounding hides the rise between them (two
// about 1e-7 apart, four about 1e-4) are returned as one.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.24 IRR,
// for the definition; Rolle's theorem and Descartes' rule of signs for the
// separation of roots (standard proof of that rule, from memory).
func ReturnRates(flows []float64) []float64 {
	rates := []float64{}
	for _, u := range logRoots(scaled(flows)) {
		if rate := math.Expm1(-u); rate > -1 && !math.IsInf(rate, 0) {
			rates = append(rates, rate)
		}
	}
	slices.Sort(rates)
	return rates
}

// narrowest is the width in ln(1+rate), thus also in rate near 0, at which a
// root is taken as found: about one unit roundoff.
const narrowest = 1e-16

// scaled returns the coefficients divided by the largest, without the zeros
// at both ends, or nothing when one is not finite or all are zero.
func scaled(coefficients []float64) []float64 {
	largest := 0.0
	for _, c := range coefficients {
		largest = math.Max(largest, math.Abs(c)) // keeps Inf and NaN
	}
	if largest == 0 || math.IsInf(largest, 0) || math.IsNaN(largest) {
		return nil
	}
	out := make([]float64, len(coefficients))
	first, end := len(coefficients), 0
	for i, c := range coefficients {
		// The quotient itself may vanish, so the ends are sought after it.
		if out[i] = c / largest; out[i] != 0 {
			first, end = min(first, i), i+1
		}
	}
	return out[first:end]
}

// logRoots returns the logarithms of the positive roots of the polynomial
// with the given coefficients, lowest power first, ascending. The logarithm
// keeps full precision near a rate of 0 and cannot overflow far from it.
func logRoots(coefficients []float64) []float64 {
	k, changes := middleChange(coefficients)
	if changes == 0 {
		return nil
	}
	low, high := logBounds(coefficients)
	points := []float64{low}
	if changes > 1 {
		points = append(points, logRoots(derivative(coefficients, k))...)
	}
	points = append(points, high)

	var roots []float64
	before := signOf(coefficients[0])
	for i := 1; i < len(points); i++ {
		after := signOf(coefficients[len(coefficients)-1])
		if i < len(points)-1 {
			after = signAt(coefficients, points[i])
		}
		switch {
		case after == 0 && before == 0:
			// One flat stretch around a root of high order, already counted.
		case after == 0:
			roots = append(roots, points[i])
		case before*after < 0:
			roots = append(roots, bisect(coefficients, points[i-1], points[i], before))
		}
		before = after
	}
	return roots
}

// middleChange counts the changes of sign and returns a power strictly
// between the two coefficients of the middle one.
func middleChange(coefficients []float64) (k float64, changes int) {
	var between []float64
	last := 0
	for i, c := range coefficients {
		if c == 0 {
			continue
		}
		if signOf(c) != signOf(coefficients[last]) {
			between = append(between, float64(last+i)/2)
		}
		last = i
	}
	if len(between) == 0 {
		return 0, 0
	}
	return between[len(between)/2], len(between)
}

// derivative returns the coefficients of x^(k+1) times the derivative of
// x^-k times the polynomial, scaled.
func derivative(coefficients []float64, k float64) []float64 {
	out := make([]float64, len(coefficients))
	for i, c := range coefficients {
		out[i] = c * (float64(i) - k)
	}
	return scaled(out)
}

// logBounds encloses the logarithms of all positive roots, by Cauchy's bound
// on the polynomial and on its reverse. No coefficient is above 1 in size.
func logBounds(coefficients []float64) (low, high float64) {
	// One unit of logarithm beyond the bound covers ln(1+1/c) <= 1-ln c.
	first, last := coefficients[0], coefficients[len(coefficients)-1]
	return math.Log(math.Abs(first)) - 1, 1 - math.Log(math.Abs(last))
}

// signAt returns the sign of the polynomial at e^u, or 0 where rounding
// leaves the sign open.
func signAt(coefficients []float64, u float64) float64 {
	value, size := scaledValue(coefficients, u)
	// Rounding error of Horner's scheme is below 2n unit roundoffs of size.
	open := 2 * float64(len(coefficients)) * 0x1p-53 * size
	if math.Abs(value) <= open {
		return 0
	}
	return signOf(value)
}

// scaledValue evaluates the polynomial at e^u and the sum of the sizes of
// its terms, both divided by e^(nu) when u is positive, so that neither can
// overflow.
func scaledValue(coefficients []float64, u float64) (value, size float64) {
	x, last := math.Exp(-math.Abs(u)), len(coefficients)-1
	for i := range coefficients {
		c := coefficients[last-i]
		if u > 0 {
			c = coefficients[i]
		}
		value, size = value*x+c, size*x+math.Abs(c)
	}
	return value, size
}

// bisect narrows low..high, where the polynomial changes sign once and has
// sign before at low, to the narrowest width or to neighbouring numbers.
func bisect(coefficients []float64, low, high, before float64) float64 {
	for {
		middle := low + (high-low)/2
		if high-low < narrowest || middle <= low || middle >= high {
			return middle
		}
		value, _ := scaledValue(coefficients, middle)
		switch {
		case value == 0:
			return middle
		case signOf(value) == before:
			low = middle
		default:
			high = middle
		}
	}
}

// signOf is 1 or -1; nobody asks it of 0.
func signOf(value float64) float64 { return math.Copysign(1, value) }
