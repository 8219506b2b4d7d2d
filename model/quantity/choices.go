package quantity

import (
	"slices"
	"strconv"
	"strings"
)

// choices are the units that a form offers for each dimension: those that
// shops use, and last, where no other has it, the one of size 1, in which every
// value can be written without a loss. Bare numbers and amounts have none.
var choices = [lastDimension + 1][]string{
	DimLength:                  {"mm", "cm", "m", "in", "ft"},
	DimDistance:                {"km", "mi", "ft", "m"},
	DimArea:                    {"m²", "ft²"},
	DimMass:                    {"kg", "lb", "g", "t", "oz"},
	DimDensity:                 {"kg/m³", "lb/ft³"},
	DimDuration:                {"min", "h", "s"},
	DimSpeed:                   {"m/min", "ft/min", "m/s"},
	DimPower:                   {"kW", "hp", "W"},
	DimAirFlow:                 {"m³/h", "ft³/min", "m³/s"},
	DimVoltage:                 {"V"},
	DimCurrent:                 {"A"},
	DimRotation:                {"rpm", "1/s"},
	DimSpecificEnergy:          {"MJ/m³", "kWh/m³", "J/m³"},
	DimAreaTime:                {"min/m²", "min/ft²", "s/m²"},
	DimYears:                   {"years", "months"},
	DimShare:                   {"%"},
	DimMoneyPerHour:            {"per h", "per 30 min", "per 15 min", "per min"},
	DimMoneyPerKilometre:       {"per km", "per mi"},
	DimMoneyPerMetre:           {"per m", "per ft"},
	DimMoneyPerSquareMetre:     {"per m²", "per ft²"},
	DimMoneyPerSquareMetreYear: {"per m² per year", "per ft² per year", "per m² per month", "per ft² per month"},
	DimMoneyPerKilowattHour:    {"per kWh"},
	DimMoneyPerKilowattMonth:   {"per kW per month", "per kW per year"},
	DimMoneyPerMonth:           {"per month", "per year"},
}

// Choices lists the units in which a value of the dimension is usually written,
// the one that is shown in the system first. Parse reads each behind a number.
// It is empty for bare numbers and amounts of money.
//
// Source: common practice, no source.
func Choices(d Dimension, s System) []string {
	if !d.known() {
		return nil
	}
	list := slices.Clone(choices[d])
	shown := symbol(d, s)
	slices.SortStableFunc(list, func(a, b string) int {
		switch shown {
		case a:
			return -1
		case b:
			return 1
		}
		return 0
	})
	return list
}

// longestUsual is how many characters a number may have before another unit is
// looked for in which it is shorter: 20 hp, and not 14.9139974316454 kW.
const longestUsual = 8

// Written gives values as numbers with one unit for all of them, so that each is
// read back as exactly the same value: the unit that is shown in the system, or
// another one where the numbers would be long or inexact in that. A share is in %
// or, where that is not exact, a bare number with the empty unit. Infinite values
// and values that are no numbers come out in the shown unit.
//
// Source: common practice, no source.
func Written(d Dimension, s System, values ...float64) (numbers []string, unit string) {
	units := Choices(d, s)
	if d.isBare() {
		units = append(units, "")
	}
	best := -1
	for i, one := range units {
		found, ok := WrittenIn(d, one, values...)
		if !ok {
			continue
		}
		if size := longest(found); best < 0 || size < best {
			numbers, unit, best = found, one, size
		}
		if i == 0 && best <= longestUsual || d.isBare() {
			return numbers, unit
		}
	}
	if best >= 0 {
		return numbers, unit
	}
	for _, value := range values {
		numbers = append(numbers, decimalText(Shown(d, value, s)))
	}
	return numbers, symbol(d, s)
}

func longest(numbers []string) int {
	most := 0
	for _, number := range numbers {
		most = max(most, len(number))
	}
	return most
}

// WrittenIn gives values as numbers in a unit of one's own choice; ok is false
// where a number would not be read back as exactly the same value.
//
// Source: common practice, no source.
func WrittenIn(d Dimension, unit string, values ...float64) (numbers []string, ok bool) {
	numbers = make([]string, len(values))
	for i, value := range values {
		number, ok := exactIn(d, unit, value)
		if !ok {
			return nil, false
		}
		numbers[i] = number
	}
	return numbers, true
}

// exactIn looks for the shortest decimal that is read back as the value.
func exactIn(d Dimension, unit string, value float64) (string, bool) {
	size, _, err := Parse(d, strings.TrimSpace("1 "+unit))
	if err != nil {
		return "", false
	}
	for _, digits := range [...]int{15, 16, 17} {
		near, err := strconv.ParseFloat(strconv.FormatFloat(value/size, 'e', digits-1, 64), 64)
		if err != nil {
			return "", false
		}
		number := decimalText(near + 0)
		if back, _, err := Parse(d, strings.TrimSpace(number+" "+unit)); err == nil && back == value {
			return number, true
		}
	}
	return "", false
}
