package quantity

const (
	secondsPerMinute = 60
	secondsPerHour   = 3600
	joulesPerMega    = 1e6
)

// Millimetres makes a length of x mm.
//
// Source: NIST SP 811, 2008, section 4.4, SI prefixes.
func Millimetres(x float64) Length { return Length(x / 1000) }

// Kilometres makes a distance of x km.
//
// Source: NIST SP 811, 2008, section 4.4, SI prefixes.
func Kilometres(x float64) Distance { return Distance(x * 1000) }

// Minutes makes a duration of x min.
//
// Source: NIST SP 811, 2008, table 6.
func Minutes(x float64) Duration { return Duration(x * secondsPerMinute) }

// Hours makes a duration of x h.
//
// Source: NIST SP 811, 2008, table 6.
func Hours(x float64) Duration { return Duration(x * secondsPerHour) }

// MetresPerMinute makes a speed of x m/min.
//
// Source: NIST SP 811, 2008, table 6.
func MetresPerMinute(x float64) Speed { return Speed(x / secondsPerMinute) }

// Kilowatts makes a power of x kW.
//
// Source: NIST SP 811, 2008, section 4.4, SI prefixes.
func Kilowatts(x float64) Power { return Power(x * 1000) }

// MegajoulesPerCubicMetre makes a specific energy of x MJ/m³.
//
// Source: NIST SP 811, 2008, section 4.4, SI prefixes.
func MegajoulesPerCubicMetre(x float64) SpecificEnergy { return SpecificEnergy(x * joulesPerMega) }

// Millimetres is the length in mm.
//
// Source: NIST SP 811, 2008, section 4.4, SI prefixes.
func (l Length) Millimetres() float64 { return float64(l) * 1000 }

// Kilometres is the distance in km.
//
// Source: NIST SP 811, 2008, section 4.4, SI prefixes.
func (d Distance) Kilometres() float64 { return float64(d) / 1000 }

// Minutes is the duration in min.
//
// Source: NIST SP 811, 2008, table 6.
func (d Duration) Minutes() float64 { return float64(d) / secondsPerMinute }

// Hours is the duration in h.
//
// Source: NIST SP 811, 2008, table 6.
func (d Duration) Hours() float64 { return float64(d) / secondsPerHour }

// MetresPerMinute is the speed in m/min.
//
// Source: NIST SP 811, 2008, table 6.
func (s Speed) MetresPerMinute() float64 { return float64(s) * secondsPerMinute }

// Kilowatts is the power in kW.
//
// Source: NIST SP 811, 2008, section 4.4, SI prefixes.
func (p Power) Kilowatts() float64 { return float64(p) / 1000 }
