package money

import (
	"errors"
	"fmt"
	"math"

	"github.com/shopspring/decimal"
)

const (
	// guardPlaces is the inner rounding: a product that is a half cent on paper
	// may miss it by a bit or two in binary, never by 1e-8.
	guardPlaces = 8
	// fastLimit, in minor units, is below where a float64 no longer tells a half.
	fastLimit = 1e14
)

// ErrNotFinite is behind every error about an amount that is no number.
var ErrNotFinite = errors.New("the amount is not a finite number")

// Round gives x as it would be posted: to eight decimals, then to the places
// of c, halves away from zero. NaN and infinities come back as they are.
//
// Source: common practice, no source; equal to the worksheet's
// ROUND(ROUND(x,8),places).
func (c Currency) Round(x float64) float64 {
	if minor, ok := c.minorUnits(x); ok {
		return minor / c.scale()
	}
	if !isFinite(x) {
		return x
	}
	return Float(c.exactly(x))
}

// Post gives x as the amount on an invoice, equal to Round(x). An x that is no
// finite number is ErrNotFinite.
//
// Source: common practice, no source.
func (c Currency) Post(x float64) (decimal.Decimal, error) {
	if minor, ok := c.minorUnits(x); ok {
		return decimal.New(int64(minor), -int32(c.places)), nil
	}
	if !isFinite(x) {
		return decimal.Decimal{}, fmt.Errorf("could not post %v: %w", x, ErrNotFinite)
	}
	return c.exactly(x), nil
}

// Exact gives the shortest decimal that reads back as x, unrounded: for rates
// and quantities that a posted amount is multiplied with.
//
// Source: common practice, no source.
func Exact(x float64) (decimal.Decimal, error) {
	if !isFinite(x) {
		return decimal.Decimal{}, fmt.Errorf("could not write %v as a decimal: %w", x, ErrNotFinite)
	}
	return decimal.NewFromFloat(x), nil
}

// Float gives the float64 nearest to d, for analysis.
//
// Source: IEEE 754-2019, section 5.12.2, round to nearest.
func Float(d decimal.Decimal) float64 { return d.InexactFloat64() }

// RoundDecimal rounds a decimal product or quotient to the places of c, halves
// away from zero.
//
// Source: common practice, no source.
func (c Currency) RoundDecimal(d decimal.Decimal) decimal.Decimal {
	return d.Round(int32(c.places))
}

// minorUnits rounds x to whole cents without decimals, and is false where that
// could be wrong: near a half, or where cents are no longer counted exactly.
func (c Currency) minorUnits(x float64) (float64, bool) {
	scaled := x * c.scale()
	size := math.Abs(scaled)
	if !(size < fastLimit) { // or no number
		return 0, false
	}
	fromHalf := math.Abs(size - math.Floor(size) - 0.5)
	if fromHalf <= c.scale()/1e8+size*0x1p-50 {
		return 0, false
	}
	// + 0 turns -0 into 0.
	return math.Round(scaled) + 0, true
}

func (c Currency) exactly(x float64) decimal.Decimal {
	return decimal.NewFromFloat(x).Round(guardPlaces).Round(int32(c.places))
}

func (c Currency) scale() float64 {
	switch c.places {
	case 0:
		return 1
	case 2:
		return 100
	}
	return math.Pow10(c.places)
}

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
