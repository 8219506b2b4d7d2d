package quantity

import "strings"

// factor converts: si = shown × num ÷ den. Both are whole numbers wherever the
// unit's definition allows, so that 9 mm is the float nearest to 0.009 and not
// its neighbour, as 9 × 0.001 would be.
type factor struct{ num, den float64 }

// toSI leaves the numbers of a unit of size 1 alone: 1.3 × 3600 ÷ 3600 may not
// be 1.3.
func (f factor) toSI(shown float64) float64 {
	if f.num == f.den {
		return shown
	}
	return shown * f.num / f.den
}

func (f factor) fromSI(si float64) float64 { return factor{f.den, f.num}.toSI(si) }
func (f factor) over(g factor) factor      { return factor{f.num * g.den, f.den * g.num} }
func (f factor) times(g factor) factor     { return factor{f.num * g.num, f.den * g.den} }
func (f factor) inverse() factor           { return factor{f.den, f.num} }
func (f factor) size() float64             { return f.num / f.den }

// unitSet is every spelling of the units of one dimension. Spellings are ASCII
// (m2, not m²): that is what unitText makes of the user's text.
type unitSet map[string]factor

// unitSets is filled once, before anything is read, and never changed.
//
// Source: A. Thompson and B. N. Taylor, Guide for the Use of the International
// System of Units (SI), NIST Special Publication 811, 2008, appendix B.8.
var unitSets = makeUnitSets()

func makeUnitSets() [lastDimension + 1]unitSet {
	var sets [lastDimension + 1]unitSet
	addPhysical(&sets)
	addPlain(&sets)
	addRates(&sets)
	return sets
}

func addPhysical(sets *[lastDimension + 1]unitSet) {
	sets[DimLength] = join(lengths(), spelled(foot, "'"), spelled(inch, `"`))
	sets[DimDistance] = join(ways(), spelled(one, "m"), spelled(foot, "ft")) // the life of an edge is told in metres or feet
	sets[DimArea] = areas()
	sets[DimMass] = masses()
	sets[DimDensity] = quotients(masses(), volumes())
	sets[DimDuration] = times()
	sets[DimSpeed] = quotients(lengths(), times())
	sets[DimPower] = join(spelled(one, "W"), spelled(factor{1000, 1}, "kW"), spelled(horsepower, "hp"))
	sets[DimAirFlow] = join(quotients(volumes(), times()), spelled(cubicFoot.over(minute), "cfm"))
	sets[DimVoltage] = join(spelled(one, "V", "volt", "volts"), spelled(factor{1000, 1}, "kV"))
	sets[DimCurrent] = spelled(one, "A", "amp", "amps")
	sets[DimRotation] = join(spelled(minute.inverse(), "rpm", "1/min"), spelled(one, "1/s"))
	sets[DimSpecificEnergy] = quotients(energies(), volumes())
	sets[DimAreaTime] = quotients(times(), areas())
}

func addPlain(sets *[lastDimension + 1]unitSet) {
	sets[DimYears] = join(years(), scaled(months(), factor{1, monthsPerYear}))
	sets[DimShare] = spelled(factor{1, 100}, "%", "percent")
	sets[DimCount] = unitSet{}
	sets[DimMoney] = unitSet{}
}

// addRates stores what stands after "per". A rate's factor is the inverse of
// the unit it is per, measured in the unit of the type's name.
func addRates(sets *[lastDimension + 1]unitSet) {
	yearsAndMonths := sets[DimYears]
	monthsAndYears := scaled(yearsAndMonths, factor{monthsPerYear, 1})
	sets[DimMoneyPerHour] = inverses(scaled(times(), hour.inverse()))
	sets[DimMoneyPerKilometre] = inverses(scaled(ways(), factor{1, 1000}))
	sets[DimMoneyPerMetre] = inverses(lengths())
	sets[DimMoneyPerSquareMetre] = inverses(areas())
	sets[DimMoneyPerSquareMetreYear] = inverses(products(areas(), yearsAndMonths))
	sets[DimMoneyPerKilowattHour] = spelled(one, "kWh")
	sets[DimMoneyPerKilowattMonth] = inverses(products(spelled(one, "kW"), monthsAndYears))
	sets[DimMoneyPerMonth] = inverses(monthsAndYears)
}

// spelled is one unit under all its names.
func spelled(f factor, names ...string) unitSet {
	set := make(unitSet, len(names))
	for _, name := range names {
		set[name] = f
	}
	return set
}

func join(sets ...unitSet) unitSet {
	all := unitSet{}
	for _, set := range sets {
		for name, f := range set {
			all[name] = f
		}
	}
	return all
}

func scaled(set unitSet, by factor) unitSet {
	out := make(unitSet, len(set))
	for name, f := range set {
		out[name] = f.times(by)
	}
	return out
}

func inverses(set unitSet) unitSet {
	out := make(unitSet, len(set))
	for name, f := range set {
		out[name] = f.inverse()
	}
	return out
}

// quotients is every upper unit over every lower one: m/min, ft/s.
func quotients(upper, lower unitSet) unitSet {
	return combine(upper, lower, factor.over)
}

// products is every pair as it stands behind "per": "per m2 per year".
func products(first, second unitSet) unitSet {
	return combine(first, second, factor.times)
}

func combine(first, second unitSet, by func(factor, factor) factor) unitSet {
	out := make(unitSet, len(first)*len(second))
	for a, f := range first {
		for b, g := range second {
			out[a+"/"+b] = by(f, g)
		}
	}
	return out
}

// otherCase finds the spelling that differs from name in capitals only.
func (u unitSet) otherCase(name string) (string, bool) {
	best := ""
	for known := range u {
		if strings.EqualFold(known, name) && (best == "" || known < best) {
			best = known
		}
	}
	return best, best != ""
}
