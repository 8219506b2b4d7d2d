package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Unit is a unit as it is shown: si = shown × Size. For money rates Symbol is
// "per h" and the like, and the caller writes the currency in front; for bare
// numbers and amounts it is empty.
type Unit struct {
	Symbol string
	Size   float64
}

// Display is the unit that tables and the workbook show d in. A dimension that
// does not exist has the empty Symbol and Size 1.
//
// Source: NIST SP 811, 2008, appendix B.8; the choice of unit is common
// practice, no source.
func Display(d Dimension, s System) Unit {
	return Unit{Symbol: symbol(d, s), Size: shownIn(d, s).size()}
}

// Format writes si with its unit, in the fewest digits that Parse reads back
// as the same value (or, where no decimal does, its nearest neighbour):
// "45 mm", "1.75 in", "75 per h", "12 %". Values beyond 1e30 or nearer to zero
// than 1e-30 and values that are no numbers are written, but not read back.
//
// Source: common practice, no source.
func Format(d Dimension, si float64, s System) string {
	number := decimalText(Shown(d, si, s))
	sym := symbol(d, s)
	switch {
	case sym == "":
		return number
	case sym == "years" && number == "1":
		return "1 year"
	}
	return number + " " + sym
}

// Shown is si as the number to show in Display's unit: si ÷ Size, without the
// last-digit noise of that division (0.07 is 7 %, not 7.000000000000001 %).
//
// Source: common practice, no source.
func Shown(d Dimension, si float64, s System) float64 {
	unit := shownIn(d, s)
	raw := unit.fromSI(si)
	for _, digits := range [...]int{15, 16} {
		v, err := strconv.ParseFloat(strconv.FormatFloat(raw, 'e', digits-1, 64), 64)
		if err == nil && unit.toSI(v) == si {
			return v + 0 // + 0 turns -0 into 0
		}
	}
	return raw + 0
}

// Brief writes a quantity for reading, with the unit of the system, to four
// digits that count: what was converted has no more.
func Brief(d Dimension, si float64, s System) string {
	shown := Shown(d, si, s)
	if short, err := strconv.ParseFloat(strconv.FormatFloat(shown, 'e', 3, 64), 64); err == nil {
		shown = short
	}
	return strings.TrimSpace(strconv.FormatFloat(shown, 'f', -1, 64) + " " + symbol(d, s))
}

func decimalText(v float64) string {
	if size := math.Abs(v); size > 1e40 || (size != 0 && size < 1e-40) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func symbol(d Dimension, s System) string {
	if s == Inch {
		return d.described().symbols[Inch]
	}
	return d.described().symbols[Metric]
}

// shownIn finds the factor of the shown unit through the same table that reads
// it, so the two cannot disagree.
func shownIn(d Dimension, s System) factor {
	name := strings.TrimPrefix(unitText(plainText(symbol(d, s))), "/")
	if !d.known() || name == "" {
		return one
	}
	return unitSets[d][name]
}
