package quantity

const monthsPerYear = 12

// Sizes in SI units, as fractions of whole numbers.
//
// Source: NIST SP 811, 2008, appendix B.8; the horsepower is 550 ft·lbf/s, from
// the exact foot, pound and standard gravity of the same appendix.
var (
	one        = factor{1, 1}
	minute     = factor{secondsPerMinute, 1}
	hour       = factor{secondsPerHour, 1}
	inch       = factor{254, 10000}
	foot       = factor{3048, 10000}
	mile       = factor{1609344, 1000}
	squareInch = factor{64516, 1e8}
	squareFoot = factor{9290304, 1e8}
	cubicInch  = factor{16387064, 1e12}
	cubicFoot  = factor{28316846592, 1e12}
	pound      = factor{45359237, 1e8}
	ounce      = factor{28349523125, 1e12}
	horsepower = factor{745.6998715822702, 1}
)

func lengths() unitSet {
	return join(
		spelled(factor{1, 1000}, "mm"),
		spelled(factor{1, 100}, "cm"),
		spelled(one, "m", "metre", "metres", "meter", "meters"),
		spelled(inch, "in", "inch", "inches"),
		spelled(foot, "ft", "foot", "feet"),
	)
}

func ways() unitSet {
	return join(
		spelled(factor{1000, 1}, "km"),
		spelled(mile, "mi", "mile", "miles"),
	)
}

func areas() unitSet {
	return join(
		spelled(factor{1, 1e6}, "mm2"),
		spelled(factor{1, 1e4}, "cm2"),
		spelled(one, "m2", "sq m"),
		spelled(squareInch, "in2", "sq in"),
		spelled(squareFoot, "ft2", "sq ft"),
	)
}

func volumes() unitSet {
	return join(
		spelled(factor{1, 1e9}, "mm3"),
		spelled(factor{1, 1e6}, "cm3"),
		spelled(one, "m3"),
		spelled(cubicInch, "in3"),
		spelled(cubicFoot, "ft3"),
	)
}

func masses() unitSet {
	return join(
		spelled(factor{1, 1000}, "g"),
		spelled(one, "kg"),
		spelled(factor{1000, 1}, "t"),
		spelled(ounce, "oz"),
		spelled(pound, "lb", "lbs"),
	)
}

func energies() unitSet {
	return join(
		spelled(one, "J"),
		spelled(factor{1000, 1}, "kJ"),
		spelled(factor{joulesPerMega, 1}, "MJ"),
		spelled(factor{3.6 * joulesPerMega, 1}, "kWh"),
	)
}

func times() unitSet {
	return join(
		spelled(one, "s", "sec", "second", "seconds"),
		spelled(minute, "min", "mins", "minute", "minutes"),
		spelled(hour, "h", "hr", "hrs", "hour", "hours"),
	)
}

func years() unitSet { return spelled(one, "year", "years", "y", "yr", "yrs") }

func months() unitSet { return spelled(one, "month", "months", "mo") }
