package chance_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// from gives inputs of a study the same range.
func from(s *model.Study, low, high float64, shape string, paths ...string) {
	for _, path := range paths {
		s.Origins[path] = model.Origin{HasRange: true, Low: low, High: high, Shape: shape}
	}
}

func inputsOf(t *testing.T, s *model.Study) *chance.Inputs {
	t.Helper()
	in, err := chance.InputsOf(s)
	require.NoError(t, err)
	return in
}

func TestFuturesDrawWhatHasARangeAndIsNotDecided(t *testing.T) {
	s := studygen.Round()
	from(s, 10, 90, "", "studio.helper_rate", "studio.labour_rate")
	from(s, 0, 1, "", "studio.discount_rate", "studio.horizon", "edges.knives.dull_feed", "title") // decided, fixed, beside the answer, no figure
	from(s, 100, 100, "", "studio.floor_cost")
	s.Origins["studio.lift_limit"] = model.Origin{Low: 20, High: 30} // no range
	in := inputsOf(t, s)
	require.Equal(t, 2, in.Len())
	assert.Equal(t, []string{"studio.labour_rate", "studio.helper_rate"}, []string{in.Path(0), in.Path(1)}, "in the order of the study")
	assert.False(t, in.Reshape())
}

func TestADrawSetsTheInputsOfACopy(t *testing.T) {
	s := studygen.Round()
	from(s, 50, 70, model.ShapeUniform, "studio.labour_rate")
	from(s, 1, 5, model.ShapeUniform, "edges.knives.sharpenings")
	in := inputsOf(t, s)
	twin, block := in.Twin(), chance.Block(in.Len())
	for i := range block {
		require.Len(t, block[i], chance.PerBlock)
		block[i][0], block[i][1] = 0.25, 0.35
	}
	twin.Draw(block, 0)
	assert.InDelta(t, 55, float64(twin.Study.Studio.LabourRate), 1e-9)
	assert.InDelta(t, 2, float64(twin.Study.Edges[0].Sharpenings), 0, "1 + 0.25 × 4")
	twin.Draw(block, 1)
	assert.InDelta(t, 57, float64(twin.Study.Studio.LabourRate), 1e-9)
	assert.InDelta(t, 2, float64(twin.Study.Edges[0].Sharpenings), 0, "2.4 is no whole number")
	assert.InDelta(t, 60, float64(s.Studio.LabourRate), 0, "the study itself stays")
}

func TestTheFiguresOfABlockAreApart(t *testing.T) {
	block := chance.Block(3)
	for i := range block {
		for k := range block[i] {
			block[i][k] = float64(i)
		}
	}
	for i := range block {
		for _, x := range block[i] {
			assert.InDelta(t, float64(i), x, 0)
		}
	}
}

func TestAMeasuredTimeThatMayBeZeroMayChangeTheSteps(t *testing.T) {
	for low, reshapes := range map[float64]bool{0: true, 1: false} {
		s := studygen.Round()
		s.JobTypes[0].Operations[0].Measured = 60
		from(s, low, 90, "", "job_types.top.operations.plane.measured")
		from(s, 0, 90, "", "studio.helper_rate")
		assert.Equal(t, reshapes, inputsOf(t, s).Reshape(), "from %v", low)
	}
}

func TestTheFirstInputThatCannotBeDrawnIsNamed(t *testing.T) {
	s := studygen.Round()
	from(s, 0, 130, model.ShapeLognormal, "studio.labour_rate", "studio.helper_rate")
	_, err := chance.InputsOf(s)
	var wrong *chance.InputError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "studio.labour_rate", wrong.Path)
	assert.ErrorContains(t, err, "studio.labour_rate: the range from 0 to 130 around 60 is lognormal and does not begin above zero")
}

func TestInputsThatAreTiedAreDrawnTogether(t *testing.T) {
	s := studygen.Round()
	from(s, 10, 90, "", "studio.labour_rate", "studio.helper_rate", "studio.floor_cost")
	s.Studio.FloorCost = 50
	s.Correlations = []model.Correlation{
		{Key: "hours", A: "studio.labour_rate", B: "studio.floor_cost", Rho: 1},
		{Key: "known and not", A: "studio.helper_rate", B: "studio.volts", Rho: 1},
		{Key: "not and known", A: "studio.volts", B: "studio.helper_rate", Rho: 1},
	}
	in := inputsOf(t, s)
	together, alone := chance.Block(3), chance.Block(3)
	chance.Latin(seeded(1), in.Copula(), together)
	chance.Latin(seeded(1), nil, alone)
	assert.InDeltaSlice(t, together[0], together[2], 1e-9)
	assert.Equal(t, alone[1], together[1], "tied to what is not drawn")
	assert.NotPanics(t, func() { chance.Latin(seeded(1), in.Copula(), nil) })

	s.Correlations = []model.Correlation{
		{Key: "x", A: "studio.labour_rate", B: "studio.helper_rate", Rho: 0.9},
		{Key: "y", A: "studio.helper_rate", B: "studio.floor_cost", Rho: 0.9},
		{Key: "z", A: "studio.floor_cost", B: "studio.labour_rate", Rho: -0.9},
	}
	_, err := chance.InputsOf(s)
	require.ErrorContains(t, err, "correlations: the correlations contradict each other")
}

func TestADrawStaysWithinTheLimitsOfItsInput(t *testing.T) {
	s := studygen.Round()
	length := quantity.Length(2)
	of := func(tag reflect.StructTag) chance.Range {
		from(s, 1, 3, "", "x")
		is, ok := chance.Ranged(s, model.Leaf{Path: "x", Tag: tag, Value: reflect.ValueOf(&length).Elem()})
		require.True(t, ok)
		return is
	}
	assert.Equal(t, chance.Range{Value: 2, Low: 1, High: 3, Least: 0.1, Most: 20}, of(`above:"100 mm" most:"20 m"`))
	assert.Equal(t, chance.Range{Value: 2, Low: 1, High: 3, Least: -1, Most: 0}, of(`least:"-1 m" most:"0"`))
	assert.Equal(t, chance.Range{Value: 2, Low: 1, High: 3, Least: math.Inf(-1), Most: math.Inf(1)}, of(``))
}
