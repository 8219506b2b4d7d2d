package demo_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/defaults"
	"shopstint/model/demo"
	"shopstint/model/study"
	"shopstint/model/work"
)

func load(t *testing.T) *model.Study {
	t.Helper()
	loaded, _, problems := study.Load(demo.Name, demo.Study())
	for _, p := range problems {
		t.Log(p)
	}
	require.Empty(t, problems)
	return loaded
}

func TestTheDemoLoadsWithoutAProblem(t *testing.T) {
	loaded := load(t)
	assert.GreaterOrEqual(t, len(loaded.JobTypes), 6)
	assert.GreaterOrEqual(t, len(loaded.Machines), 5)
	assert.Len(t, loaded.Shops, 1)
}

func TestEachCallGivesItsOwnCopy(t *testing.T) {
	first := demo.Study()
	first[0] = 'x'
	assert.NotEqual(t, first[0], demo.Study()[0])
}

func TestTheDemoLeavesNoEdgeAndNoAbrasiveToAssumption(t *testing.T) {
	loaded := load(t)
	for path, origin := range loaded.Origins {
		if strings.HasPrefix(path, "abrasives.") {
			assert.NotContains(t, path, "assumed_")
		}
		if strings.HasPrefix(path, "machines.") && strings.HasSuffix(path, ".edge") && origin.Assumed {
			machine, _ := model.Find(loaded.Machines, strings.Split(path, ".")[1])
			assert.Equal(t, model.WideBelt, machine.Class, path)
		}
	}
}

func TestEveryStepOfTheDemoCanBeRented(t *testing.T) {
	assert.Empty(t, work.New(load(t)).Homeless())
}

func TestSomePieceIsTooWideForEachFeedMachineThatCouldBeBought(t *testing.T) {
	loaded := load(t)
	refused := map[string]bool{}
	plan := work.New(loaded)
	for _, refusal := range plan.Refusals(loaded) {
		if row := plan.Rows[refusal.Row]; row.Site == work.AtStudio && refusal.What == "wide" {
			refused[loaded.Machines[row.Machine].Key] = true
		}
	}
	for _, key := range []string{"planer20", "planer24", "sander25"} {
		assert.True(t, refused[key], "%s takes every piece", key)
	}
	assert.False(t, refused["sander43_used"])
}

func TestValuesOfTheDemoLieInTheRangesOfTheTrade(t *testing.T) {
	loaded := load(t)
	compared := 0
	model.Walk(loaded, func(leaf model.Leaf) {
		_, measured := leaf.Dimension()
		if !measured || loaded.Origins[leaf.Path].Assumed || isGeometry(leaf.Path) {
			return
		}
		origin, listed := rareRanges[leaf.Path]
		if !listed {
			origin = assumedFor(loaded, leaf.Path)
		}
		if !origin.HasRange {
			return
		}
		compared++
		assert.LessOrEqual(t, origin.Low*(1-1e-9), leaf.Number(), "%s under the trade's range", leaf.Path)
		assert.GreaterOrEqual(t, origin.High*(1+1e-9), leaf.Number(), "%s over the trade's range", leaf.Path)
	})
	assert.Greater(t, compared, 120)
}

// rareRanges are the trade's ranges of what no assumed value stands for: a long
// straight bit, a spiral bit and mesh discs. Source: common practice, no source.
var rareRanges = map[string]model.Origin{
	"edges.straight_bit.price":          {HasRange: true, Low: 20, High: 60},
	"edges.straight_bit.life":           {HasRange: true, Low: 30, High: 120},
	"edges.straight_bit.sharpenings":    {HasRange: true, Low: 0, High: 5},
	"edges.spiral_bit.price":            {HasRange: true, Low: 70, High: 180},
	"edges.spiral_bit.life":             {HasRange: true, Low: 60, High: 400},
	"edges.spiral_bit.sharpenings":      {HasRange: true, Low: 1, High: 4},
	"edges.spiral_bit.sharpening_price": {HasRange: true, Low: 10, High: 35},
	"edges.spiral_bit.size_lost":        {HasRange: true, Low: 0.0001, High: 0.0003},
	"edges.spiral_bit.sudden_share":     {HasRange: true, Low: 0.1, High: 0.35},
	"edges.spiral_bit.damage_spends":    {HasRange: true, Low: 0.3, High: 0.9},
	"abrasives.mesh180.price":           {HasRange: true, Low: 0.9, High: 2.2},
	"abrasives.mesh220.price":           {HasRange: true, Low: 0.9, High: 2.2},
	"abrasives.mesh180.life":            {HasRange: true, Low: 2 * 0.6, High: 4 * 2.5}, // times that of paper
	"abrasives.mesh220.life":            {HasRange: true, Low: 2 * 1, High: 4 * 4},
}

// isGeometry tells whether an input says what this job is, not what the trade does.
func isGeometry(path string) bool {
	return strings.Contains(path, ".pieces.") || strings.HasSuffix(path, ".cuts")
}

// assumedFor returns what would be assumed for an input, were it left out.
func assumedFor(loaded *model.Study, path string) model.Origin {
	without := loaded.Clone()
	without.Origins = map[string]model.Origin{}
	defaults.Fill(without, func(other string) bool { return other != path })
	return without.Origins[path]
}
