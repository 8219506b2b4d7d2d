package work

import (
	"math"

	"shopstint/model/quantity"
)

// KnifeMarks returns the knife marks on each metre that a head leaves.
//
// Source: FDM, Knife marks per inch: marks = head speed × knives ÷ feed.
func KnifeMarks(head quantity.Rotation, knives float64, feed quantity.Speed) float64 {
	return float64(head) * knives / float64(feed)
}

// GoodMarks is the least number of knife marks a metre on a face that only
// needs sanding: 20 to the inch.
//
// Source: FDM, Knife marks per inch (finish target ≥ 20 to the inch).
const GoodMarks = 20 / 0.0254

// DensityAt returns the density of wood from its specific gravity (oven-dry
// mass, volume at that moisture) and its moisture content as a share.
//
// Source: USDA Forest Products Laboratory, Wood Handbook (FPL-GTR-190), chapter 4: 1000 × G × (1 + MC).
func DensityAt(gravity, moisture float64) quantity.Density {
	return quantity.Density(1000 * gravity * (1 + moisture))
}

// LiftingLimit returns the recommended weight limit for one person's lift.
// Distances are from the body, from the floor and over the way of the lift;
// the angle is in degrees; frequency and coupling are the manual's multipliers.
//
// Source: Waters et al., Applications Manual for the Revised NIOSH Lifting
// Equation, DHHS (NIOSH) 94-110, 1994: 23 kg × HM × VM × DM × AM × FM × CM.
func LiftingLimit(reach, height, travel quantity.Length, degrees, frequency, coupling float64) quantity.Mass {
	h := math.Max(float64(reach), 0.25)
	d := math.Max(float64(travel), 0.25)
	horizontal := 0.25 / h
	vertical := 1 - 0.3*math.Abs(float64(height)-0.75)
	distance := 0.82 + 0.045/d
	asymmetry := 1 - 0.0032*degrees
	return quantity.Mass(23 * horizontal * vertical * distance * asymmetry * frequency * coupling)
}

// Persons returns how many must share the lift of a piece.
//
// Source: common practice, no source: mass ÷ limit of one person, rounded up.
func Persons(mass, limit quantity.Mass) float64 {
	return math.Max(1, StepsUp(float64(mass), float64(limit)))
}

// MotorCurrent returns the current that a motor draws at full load. A planning
// figure: the nameplate and an electrician decide.
//
// Source: US Department of Energy, Determining Electric Motor Load and
// Efficiency: P = √3·V·I·PF·η for three phases, V·I·PF·η for one.
func MotorCurrent(power quantity.Power, volts quantity.Voltage, efficiency, factor, phases float64) quantity.Current {
	lines := 1.0
	if phases > 1 {
		lines = math.Sqrt(3)
	}
	return quantity.Current(float64(power) / (lines * float64(volts) * efficiency * factor))
}

// InputPower returns what a motor draws from the supply at a share of its rating.
//
// Source: US Department of Energy, Determining Electric Motor Load and Efficiency: input = rating × load ÷ efficiency.
func InputPower(power quantity.Power, load, efficiency float64) quantity.Power {
	return quantity.Power(float64(power) * load / efficiency)
}
