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
	for method, workOut := range map[string]func(*inputs) worked{
		"knifemarks": knifeMarks, "density": density, "lifting": lifting, "current": current,
	} {
		t.Run(method, func(t *testing.T) {
			files, err := published.Load(os.DirFS("../../testdata/published"), method)
			require.NoError(t, err)
			for _, file := range files {
				for _, c := range file.Cases {
					in := &inputs{c: c}
					got := workOut(in)
					require.NoError(t, in.err)
					assert.NoError(t, c.Compare(got), c.Note)
				}
			}
		})
	}
}

// inputs reads a case's figures and keeps the first error.
type inputs struct {
	c   published.Case
	err error
}

func (in *inputs) number(name string) float64 {
	value, err := in.c.Number(name)
	if err != nil && in.err == nil {
		in.err = err
	}
	return value
}

// given is a figure that not every case of the method has.
func (in *inputs) given(name string) (float64, bool) {
	if _, ok := in.c.Inputs[name]; !ok {
		return 0, false
	}
	return in.number(name), true
}

func knifeMarks(in *inputs) worked {
	head := quantity.Rotation(in.number("rpm") / 60)
	feed := quantity.Speed(in.number("feet_a_minute") * foot / 60)
	marks := work.KnifeMarks(head, in.number("knives"), feed) * inch
	return worked{"marks_an_inch": {marks}, "inches_a_tooth": {1 / marks}}
}

func density(in *inputs) worked {
	stock := &model.Material{SpecificGravity: quantity.Count(in.number("gravity")), Moisture: quantity.Share(in.number("moisture_percent") / 100)}
	found := float64(work.StockDensity(stock))
	pounds := found / 1000 * waterPounds
	got := worked{
		"kilograms_a_cubic_metre": {found},
		"pounds_a_cubic_foot":     {pounds},
		"pounds_a_board_foot":     {pounds / boardFeetInOne},
	}
	if length, ok := in.given("length_in"); ok {
		slab := &model.Piece{Length: quantity.Length(length * inch), Width: quantity.Length(in.number("width_in") * inch), Thickness: quantity.Length(in.number("thickness_in") * inch)}
		volume := float64(work.PieceMass(slab, stock)) / found / cubicFoot
		got["slab_pounds"] = []float64{volume * pounds}
	}
	return got
}

func lifting(in *inputs) worked {
	length := func(name string) quantity.Length { return quantity.Length(in.number(name) * liftingInch) }
	limit := work.LiftingLimit(length("horizontal_in"), length("vertical_in"), length("travel_in"),
		in.number("angle_degrees"), in.number("frequency_multiplier"), in.number("coupling_multiplier"))
	pounds := float64(limit) / liftingPound
	got := worked{"limit_pounds": {pounds}}
	if load, ok := in.given("load_pounds"); ok {
		got["lifting_index"] = []float64{load / pounds}
	}
	return got
}

func current(in *inputs) worked {
	method, err := in.c.Text("method")
	if err != nil {
		in.err = err
		return nil
	}
	switch method {
	case "power":
		// What draws the measured current: the current is in proportion to the power.
		oneWatt := work.MotorCurrent(1, quantity.Voltage(in.number("volts")), 1, in.number("power_factor"), in.number("phases"))
		return worked{"kilowatts": {in.number("amperes") / float64(oneWatt) / 1000}}
	case "current":
		amperes := work.MotorCurrent(quantity.Power(in.number("output_watts")), quantity.Voltage(in.number("volts")),
			in.number("efficiency"), in.number("power_factor"), in.number("phases"))
		return worked{"amperes": {float64(amperes)}}
	case "motor input":
		output := in.number("output_watts")
		input := float64(work.InputPower(quantity.Power(output), 1, in.number("efficiency")))
		return worked{"input_watts": {input}, "loss_watts": {input - output}}
	}
	in.err = fmt.Errorf("%s: no method %q", in.c, method)
	return nil
}

func TestASinglePhaseMotorDrawsTheRootOfThreeMore(t *testing.T) {
	// Source: as for three phases, P = V·I·PF·η: 2300 W ÷ (230 V × 0.8 × 0.9) = 13.889 A.
	one := work.MotorCurrent(2300, 230, 0.8, 0.9, 1)
	assert.InDelta(t, 13.889, float64(one), 0.0005)
	assert.InDelta(t, math.Sqrt(3), float64(one/work.MotorCurrent(2300, 230, 0.8, 0.9, 3)), 1e-12)
}
