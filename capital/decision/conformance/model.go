package conformance

import (
	"fmt"

	"gonum.org/v1/gonum/stat/distuv"

	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/published"
	"shopstint/model/quantity"
	"shopstint/model/wear/change"
	"shopstint/model/wear/life"
	"shopstint/model/work"
)

func modelRooms() []Room {
	return []Room{
		{"model/quantity", map[string]published.WorkOut{"units": units}},
		{"model/chance", map[string]published.WorkOut{"spread": spread}},
		{"model/work", map[string]published.WorkOut{"knifemarks": knifeMarks, "density": density, "lifting": lifting, "current": current}},
		{"model/wear/change", map[string]published.WorkOut{"toolchange": toolChange}},
		{"model/wear/life", map[string]published.WorkOut{"life": lives}},
	}
}

// Units of the sources, from NIST SP 811, 2008, appendix B.8.
const (
	inch      = 0.0254
	foot      = 0.3048
	cubicFoot = 0.028316846592 // m³
)

// The sources' own roundings: a handbook of wood in pounds takes water at 62.4
// lb/ft³ where 1000 kg/m³ are 62.428, and the lifting manual's two forms are the
// same equation with an inch of 2.5 cm and a limit of 51 lb for 23 kg.
const (
	waterPounds    = 62.4
	liftingInch    = 0.025
	liftingPound   = 23.0 / 51
	boardFeetInOne = 12 // in a cubic foot
)

// units reads a text as a quantity of the dimension that the case names.
func units(in *published.Inputs) worked {
	for _, dimension := range quantity.Dimensions() {
		if dimension.Name() == in.Text("dimension") {
			si, _, err := quantity.Parse(dimension, in.Text("text"))
			in.Keep(err)
			return worked{"si": {si}}
		}
	}
	in.Keep(fmt.Errorf("%s: no such dimension", in.Case))
	return nil
}

// drawn is from how many evenly spaced quantiles a mean is taken.
const drawn = 20000

// spread draws a range of each shape from its quantiles.
func spread(in *published.Inputs) worked {
	shape := model.ShapePERT
	if in.Has("shape") {
		shape = in.Text("shape")
	}
	range_ := chance.Range{Low: in.Number("low"), Value: in.Number("mode"), High: in.Number("high"), Shape: shape}
	distribution, err := chance.NewTables().Of(range_)
	in.Keep(err)
	if in.Err() != nil {
		return nil
	}
	mean, square := 0.0, 0.0
	for i := range drawn {
		x := distribution.Quantile((float64(i) + 0.5) / drawn)
		mean, square = mean+x/drawn, square+x*x/drawn
	}
	return worked{"mean": {mean}, "variance": {square - mean*mean}}
}

func knifeMarks(in *published.Inputs) worked {
	head := quantity.Rotation(in.Number("rpm") / 60)
	feed := quantity.Speed(in.Number("feet_a_minute") * foot / 60)
	marks := work.KnifeMarks(head, in.Number("knives"), feed) * inch
	return worked{"marks_an_inch": {marks}, "inches_a_tooth": {1 / marks}}
}

func density(in *published.Inputs) worked {
	stock := &model.Material{SpecificGravity: quantity.Count(in.Number("gravity")), Moisture: quantity.Share(in.Number("moisture_percent") / 100)}
	slab := &model.Piece{}
	if in.Has("length_in") {
		slab.Length, slab.Width, slab.Thickness = Metres(in, "length_in"), Metres(in, "width_in"), Metres(in, "thickness_in")
	}
	return Pounds(float64(work.StockDensity(stock)), float64(work.PieceMass(slab, stock)))
}

// Metres is an input in inches.
func Metres(in *published.Inputs, name string) quantity.Length {
	return quantity.Length(in.Number(name) * inch)
}

// Pounds tells a density in kg/m³, and the mass of a slab in kg, as the handbook does.
func Pounds(density, mass float64) map[string][]float64 {
	foot := density / 1000 * waterPounds
	return worked{
		"kilograms_a_cubic_metre": {density}, "pounds_a_cubic_foot": {foot}, "pounds_a_board_foot": {foot / boardFeetInOne},
		"slab_pounds": {mass / density / cubicFoot * foot},
	}
}

func lifting(in *published.Inputs) worked {
	length := func(name string) quantity.Length { return quantity.Length(in.Number(name) * liftingInch) }
	limit := work.LiftingLimit(length("horizontal_in"), length("vertical_in"), length("travel_in"),
		in.Number("angle_degrees"), in.Number("frequency_multiplier"), in.Number("coupling_multiplier"))
	pounds := float64(limit) / liftingPound
	got := worked{"limit_pounds": {pounds}}
	if in.Has("load_pounds") {
		got["lifting_index"] = []float64{in.Number("load_pounds") / pounds}
	}
	return got
}

func current(in *published.Inputs) worked {
	switch method := in.Text("method"); method {
	case "power":
		// What draws the measured current: the current is in proportion to the power.
		oneWatt := work.MotorCurrent(1, quantity.Voltage(in.Number("volts")), 1, in.Number("power_factor"), in.Number("phases"))
		return worked{"kilowatts": {in.Number("amperes") / float64(oneWatt) / 1000}}
	case "current":
		amperes := work.MotorCurrent(quantity.Power(in.Number("output_watts")), quantity.Voltage(in.Number("volts")),
			in.Number("efficiency"), in.Number("power_factor"), in.Number("phases"))
		return worked{"amperes": {float64(amperes)}}
	case "motor input":
		output := in.Number("output_watts")
		input := float64(work.InputPower(quantity.Power(output), 1, in.Number("efficiency")))
		return worked{"input_watts": {input}, "loss_watts": {input - output}}
	default:
		return unknown(in)
	}
}

// unknown keeps that a case names a method that nothing here works out.
func unknown(in *published.Inputs) worked {
	in.Keep(fmt.Errorf("%s: no method %q", in.Case, in.Text("method")))
	return nil
}

// toolChange reads the law of damage from the inputs that a case has: a Weibull
// shape and scale, the end of an even spread, or neither.
func toolChange(in *published.Inputs) worked {
	costs := change.Costs{Change: in.Number("change")}
	var ends change.Life = change.Sudden(0)
	switch {
	case in.Has("shape"):
		costs.Damage = in.Number("damage")
		ends = distuv.Weibull{K: in.Number("shape"), Lambda: in.Number("scale")}
	case in.Has("longest"):
		costs.Damage = in.Number("damage")
		ends = distuv.Uniform{Min: 0, Max: in.Number("longest")}
	default:
		costs.Steady, costs.Rise = in.Number("steady"), in.Number("rise")
	}
	best := change.Best(costs, ends)
	got := worked{"best": {best}, "rate": {change.Rate(costs, ends, best)}}
	if in.Has("runs") {
		for _, run := range in.List("runs") {
			got["rates"] = append(got["rates"], change.Rate(costs, ends, run))
		}
	}
	return got
}

func lives(in *published.Inputs) worked {
	switch method := in.Text("method"); method {
	case "weibull":
		fit, err := life.Fit(livesOf(in))
		in.Keep(err)
		return worked{
			"scale": {fit.Scale}, "shape": {fit.Shape}, "mean": {fit.Mean()}, "sd": {fit.SD()},
			"log_likelihood": {fit.LogLikelihood}, "aic": {fit.AIC()},
		}
	case "curve":
		return curve(in)
	case "exponential":
		fit, err := life.FitExponential(livesOf(in))
		in.Keep(err)
		return worked{"mean": {fit.Mean}}
	case "exponential bounds":
		// One life of the whole run for each failure: what counts is the run of all.
		failures := in.Number("failures")
		fit, err := life.FitExponential([]life.Observation{{Run: in.Number("run") / failures, Ended: true, Count: failures}})
		in.Keep(err)
		within := fit.Interval(in.Number("level"))
		return worked{"mean": {fit.Mean}, "low": {within.Low}, "high": {within.High}}
	default:
		return unknown(in)
	}
}

func livesOf(in *published.Inputs) []life.Observation {
	var lives []life.Observation
	for _, run := range in.List("ended") {
		lives = append(lives, life.Observation{Run: run, Ended: true, Count: 1})
	}
	for _, run := range in.List("going") {
		lives = append(lives, life.Observation{Run: run, Count: 1})
	}
	return lives
}

func curve(in *published.Inputs) worked {
	level := 0.9
	if in.Has("level") {
		level = in.Number("level")
	}
	got := worked{}
	for _, step := range life.Curve(livesOf(in), level) {
		for name, value := range map[string]float64{"survival": step.Survival, "at_risk": step.AtRisk, "error": step.Error, "low": step.Low, "high": step.High} {
			got[name] = append(got[name], value)
		}
	}
	return got
}
