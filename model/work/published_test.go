package work_test

import (
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/published"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

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

type worked = map[string][]float64

func TestWorkAgreesWithPublishedCases(t *testing.T) {
	for method, workOut := range map[string]func(*published.Inputs) worked{
		"knifemarks": knifeMarks, "density": density, "lifting": lifting, "current": current,
	} {
		t.Run(method, func(t *testing.T) {
			require.NoError(t, published.Agree(os.DirFS("../../testdata/published"), method, workOut))
		})
	}
}

func knifeMarks(in *published.Inputs) worked {
	head := quantity.Rotation(in.Number("rpm") / 60)
	feed := quantity.Speed(in.Number("feet_a_minute") * foot / 60)
	marks := work.KnifeMarks(head, in.Number("knives"), feed) * inch
	return worked{"marks_an_inch": {marks}, "inches_a_tooth": {1 / marks}}
}

func density(in *published.Inputs) worked {
	stock := &model.Material{SpecificGravity: quantity.Count(in.Number("gravity")), Moisture: quantity.Share(in.Number("moisture_percent") / 100)}
	found := float64(work.StockDensity(stock))
	pounds := found / 1000 * waterPounds
	got := worked{
		"kilograms_a_cubic_metre": {found},
		"pounds_a_cubic_foot":     {pounds},
		"pounds_a_board_foot":     {pounds / boardFeetInOne},
	}
	if in.Has("length_in") {
		slab := &model.Piece{Length: quantity.Length(in.Number("length_in") * inch), Width: quantity.Length(in.Number("width_in") * inch), Thickness: quantity.Length(in.Number("thickness_in") * inch)}
		volume := float64(work.PieceMass(slab, stock)) / found / cubicFoot
		got["slab_pounds"] = []float64{volume * pounds}
	}
	return got
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
		in.Keep(fmt.Errorf("%s: no method %q", in.Case, method))
		return nil
	}
}

func TestASinglePhaseMotorDrawsTheRootOfThreeMore(t *testing.T) {
	// Source: as for three phases, P = V·I·PF·η: 2300 W ÷ (230 V × 0.8 × 0.9) = 13.889 A.
	one := work.MotorCurrent(2300, 230, 0.8, 0.9, 1)
	assert.InDelta(t, 13.889, float64(one), 0.0005)
	assert.InDelta(t, math.Sqrt(3), float64(one/work.MotorCurrent(2300, 230, 0.8, 0.9, 3)), 1e-12)
}
