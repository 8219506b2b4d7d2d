package quantity

import (
	"strconv"
	"strings"
)

// Dimension names a kind of quantity: what a text must be to be read as one.
// The zero Dimension is none of them; Parse refuses it.
type Dimension int

// One Dimension for each type of this package.
const (
	DimLength                  Dimension = iota + 1 // 45 mm or 1 3/4 in
	DimDistance                                     // 25 km or 15 mi
	DimArea                                         // 12 m² or 130 ft²
	DimMass                                         // 80 kg or 175 lb
	DimDensity                                      // 650 kg/m³ or 41 lb/ft³
	DimDuration                                     // 90 min or 1 h 30 min
	DimSpeed                                        // 6 m/min or 20 ft/min
	DimPower                                        // 7.5 kW or 10 hp
	DimAirFlow                                      // 2000 m³/h or 1200 ft³/min
	DimVoltage                                      // 230 V
	DimCurrent                                      // 32 A
	DimRotation                                     // 3000 rpm
	DimSpecificEnergy                               // 60 MJ/m³
	DimAreaTime                                     // 4 min/m² or 0.4 min/ft²
	DimYears                                        // 10 years or 6 months
	DimShare                                        // 12 % or 0.12
	DimCount                                        // 12
	DimMoney                                        // 22000 or 22000 USD
	DimMoneyPerHour                                 // 85 per h or 75 per 30 min
	DimMoneyPerKilometre                            // 0.43 per km or 0.70 per mile
	DimMoneyPerMetre                                // 3 per m or 0.9 per ft
	DimMoneyPerSquareMetre                          // 9 per m² or 0.8 per ft²
	DimMoneyPerSquareMetreYear                      // 151 per m² per year or 14 per ft² per year
	DimMoneyPerKilowattHour                         // 0.135 per kWh
	DimMoneyPerKilowattMonth                        // 10 per kW per month
	DimMoneyPerMonth                                // 120 per month
)

const lastDimension = DimMoneyPerMonth

// description is how a dimension is spoken of and shown.
type description struct {
	noun    string    // with its article: "a length"
	example string    // right values, joined by " or "
	symbols [2]string // shown unit, by System
}

var descriptions = [lastDimension + 1]description{
	{noun: "a quantity of an unknown kind"},
	DimLength:                  {"a length", "45 mm or 1 3/4 in", [2]string{"mm", "in"}},
	DimDistance:                {"a distance", "25 km or 15 mi", [2]string{"km", "mi"}},
	DimArea:                    {"an area", "12 m² or 130 ft²", [2]string{"m²", "ft²"}},
	DimMass:                    {"a mass", "80 kg or 175 lb", [2]string{"kg", "lb"}},
	DimDensity:                 {"a density", "650 kg/m³ or 41 lb/ft³", [2]string{"kg/m³", "lb/ft³"}},
	DimDuration:                {"a duration", "90 min or 1 h 30 min", [2]string{"min", "min"}},
	DimSpeed:                   {"a speed", "6 m/min or 20 ft/min", [2]string{"m/min", "ft/min"}},
	DimPower:                   {"a power", "7.5 kW or 10 hp", [2]string{"kW", "kW"}},
	DimAirFlow:                 {"an air flow", "2000 m³/h or 1200 ft³/min", [2]string{"m³/h", "ft³/min"}},
	DimVoltage:                 {"a voltage", "230 V", [2]string{"V", "V"}},
	DimCurrent:                 {"a current", "32 A", [2]string{"A", "A"}},
	DimRotation:                {"a rotation speed", "3000 rpm", [2]string{"rpm", "rpm"}},
	DimSpecificEnergy:          {"a specific energy", "60 MJ/m³", [2]string{"MJ/m³", "MJ/m³"}},
	DimAreaTime:                {"a time per area", "4 min/m² or 0.4 min/ft²", [2]string{"min/m²", "min/ft²"}},
	DimYears:                   {"a time in years", "10 years or 6 months", [2]string{"years", "years"}},
	DimShare:                   {"a share", "12 % or 0.12", [2]string{"%", "%"}},
	DimCount:                   {"a bare number", "12", [2]string{"", ""}},
	DimMoney:                   {"an amount of money", "22000 or 22000 USD", [2]string{"", ""}},
	DimMoneyPerHour:            {"an hourly rate", "85 per h or 75 per 30 min", [2]string{"per h", "per h"}},
	DimMoneyPerKilometre:       {"a rate per distance", "0.43 per km or 0.70 per mile", [2]string{"per km", "per mi"}},
	DimMoneyPerMetre:           {"a rate per length", "3 per m or 0.9 per ft", [2]string{"per m", "per ft"}},
	DimMoneyPerSquareMetre:     {"a rate per area", "9 per m² or 0.8 per ft²", [2]string{"per m²", "per ft²"}},
	DimMoneyPerSquareMetreYear: {"a yearly rate per area", "151 per m² per year or 14 per ft² per year", [2]string{"per m² per year", "per ft² per year"}},
	DimMoneyPerKilowattHour:    {"an energy rate", "0.135 per kWh", [2]string{"per kWh", "per kWh"}},
	DimMoneyPerKilowattMonth:   {"a demand rate", "10 per kW per month", [2]string{"per kW per month", "per kW per month"}},
	DimMoneyPerMonth:           {"a monthly rate", "120 per month", [2]string{"per month", "per month"}},
}

// Dimensions lists every dimension once, in the order of their constants.
func Dimensions() []Dimension {
	all := make([]Dimension, 0, lastDimension)
	for d := Dimension(1); d <= lastDimension; d++ {
		all = append(all, d)
	}
	return all
}

// Name is the dimension in the words of the trade, without an article:
// "length", "hourly rate".
func (d Dimension) Name() string {
	_, name, _ := strings.Cut(d.described().noun, " ")
	return name
}

// Example shows what a right value looks like, in both systems where they
// differ: "45 mm or 1 3/4 in".
func (d Dimension) Example() string { return d.described().example }

// String is Name, with the number of a dimension that does not exist.
func (d Dimension) String() string {
	if !d.known() {
		return "dimension " + strconv.Itoa(int(d))
	}
	return d.Name()
}

// IsMoney tells whether the dimension is an amount of money or a rate in money,
// and so may be written with a currency code.
func (d Dimension) IsMoney() bool { return d >= DimMoney && d <= lastDimension }

func (d Dimension) known() bool { return d >= 1 && d <= lastDimension }

func (d Dimension) described() description {
	if !d.known() {
		return descriptions[0]
	}
	return descriptions[d]
}

// firstExample is the shorter half of Example, for the end of a sentence.
func (d Dimension) firstExample() string {
	first, _, _ := strings.Cut(d.Example(), " or ")
	return first
}

// isSum tells whether a value may be written in parts: 8 ft 6 in, 1 h 30 min.
func (d Dimension) isSum() bool {
	return d == DimLength || d == DimDuration || d == DimYears
}

// isBare tells whether a value may stand without a unit.
func (d Dimension) isBare() bool {
	return d == DimShare || d == DimCount || d == DimMoney
}
