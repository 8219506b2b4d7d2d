package logbook

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"shopstint/model/quantity"
)

// measure says how the numbers of a column are written.
type measure struct {
	dimension quantity.Dimension
	unit      string  // of a bare number, as quantity.Parse reads it
	size      float64 // of that unit
	most      float64 // in the unit
	field     Fields
}

// Numbers beyond these are slips of the pen.
const (
	mostJobs    = 10_000
	mostMinutes = 1_000_000
	mostAmount  = 100_000_000
	mostLength  = 1_000_000_000 // m
	mostArea    = 1_000_000     // m2
	mostHours   = 200_000
)

var measures = [columnCount]measure{
	colJobs:    {quantity.DimCount, "", 1, mostJobs, HasJobs},
	colMinutes: {quantity.DimDuration, "min", 60, mostMinutes, HasMinutes},
	colAmount:  {quantity.DimMoney, "", 1, mostAmount, HasAmount},
	colLength:  {quantity.DimDistance, "m", 1, mostLength, HasLength},
	colArea:    {quantity.DimArea, "m2", 1, mostArea, HasArea},
	colHours:   {quantity.DimDuration, "h", 3600, mostHours, HasHours},
}

// shortNumber is the longest number that is read without quantity.Parse.
const shortNumber = 20

// number reads the number of one column, in SI. The text has a point for
// decimals by then; code is the currency that was written with an amount.
func (m measure) number(text string) (si float64, code string, what, right string) {
	if value, ok := plainNumber(text); ok {
		si = value * m.size
	} else {
		var err error
		si, code, err = m.parse(text)
		var wrong *quantity.ParseError
		if errors.As(err, &wrong) {
			return si, code, wrong.What, wrong.Right
		}
	}
	switch {
	case si < 0:
		what, right = quoted(text)+" is negative", "leave the minus out"
	case si > m.most*m.size:
		what, right = quoted(text)+" is too much to be meant", "give at most "+m.text(m.most*m.size)
	}
	return si + 0, code, what, right // + 0 turns -0 into 0
}

// parse reads a number with or without its unit.
func (m measure) parse(text string) (float64, string, error) {
	if m.dimension == quantity.DimDistance {
		// A cut is measured as lengths are, in feet and inches too; quantity's
		// distances are ways driven.
		if si, code, err := quantity.Parse(quantity.DimLength, m.withUnit(text)); err == nil {
			return si, code, nil
		}
	}
	return quantity.Parse(m.dimension, m.withUnit(text))
}

func (m measure) withUnit(text string) string {
	if m.unit == "" || strings.Trim(text, "0123456789.eE+- ") != "" {
		return text
	}
	return text + " " + m.unit
}

// plainNumber reads digits with a point among them, as nearly all are written.
func plainNumber(text string) (float64, bool) {
	if text == "" || len(text) > shortNumber {
		return 0, false
	}
	for i := range len(text) {
		if c := text[i]; c != '.' && (c < '0' || c > '9') {
			return 0, false
		}
	}
	if text[0] == '.' || text[len(text)-1] == '.' {
		return 0, false
	}
	value, err := strconv.ParseFloat(text, 64)
	return value, err == nil
}

// text writes a number so that number reads back the very same: bare, or where
// no decimal of the column's unit is that time, with a smaller unit behind it.
func (m measure) text(si float64) string {
	if text, exact := decimal(si, m.size); exact {
		return text
	}
	if text, exact := decimal(si, 60); exact {
		return text + " min"
	}
	text, _ := decimal(si, 1)
	return text + " s"
}

// decimal writes si as so many of a unit's size, in the fewest digits that give
// si again; exact is whether any do, and without one there is no text. With
// size 1 some always do.
func decimal(si, size float64) (text string, exact bool) {
	shown := si / size
	for _, digits := range [...]int{15, 16, 17} {
		for _, near := range [...]float64{shown, math.Nextafter(shown, 0), math.Nextafter(shown, math.Inf(1))} {
			value, err := strconv.ParseFloat(strconv.FormatFloat(near, 'e', digits-1, 64), 64)
			if err == nil && value*size == si {
				return strconv.FormatFloat(value, 'f', -1, 64), true
			}
		}
	}
	return "", false
}
