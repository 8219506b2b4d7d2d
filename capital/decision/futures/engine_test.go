package futures

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// The engine on the edited study is the truth; what is shared between choices
// and kept from future to future must not change it.
func TestEveryFutureCostsWhatTheEngineSaysOfTheEditedStudy(t *testing.T) {
	drawn, correlated := 0, 0
	for seed, s := range studygen.Studies(45) {
		scene, err := sceneOf(s, Options{Seed: uint64(seed), Sets: Choices(s)[:1+len(s.Machines)]})
		require.NoError(t, err)
		correlated += len(s.Correlations)
		d := scene.desk()
		for block := range 2 {
			d.shuffle(block)
			for _, future := range []int{0, 31, 63} {
				d.live(future)
				twin := d.Study.Clone()
				require.True(t, reflect.DeepEqual(twin.Machines, d.Study.Machines))
				for c, owned := range scene.options.Sets {
					want := alternative.EvaluateAt(twin, work.New(twin), owned, d.pace)
					require.InDelta(t, want.Present, d.costs[c], 1e-9*math.Max(1, math.Abs(want.Present)), "seed %d, block %d, future %d, choice %d", seed, block, future, c)
				}
				drawn++
			}
		}
	}
	assert.Positive(t, drawn)
	assert.Positive(t, correlated)
}

func TestAFutureDrawsWhatHasARangeAndNothingElse(t *testing.T) {
	for seed, s := range studygen.Studies(12) {
		scene, err := sceneOf(s, Options{Seed: 1, Sets: Choices(s)[:1]})
		require.NoError(t, err)
		d := scene.desk()
		d.shuffle(0)
		d.live(5)
		before := map[string]model.Leaf{}
		model.Walk(s, func(leaf model.Leaf) { before[leaf.Path] = leaf })
		moved := 0
		model.Walk(d.Study, func(leaf model.Leaf) {
			is, ok := chance.Ranged(s, before[leaf.Path])
			if !ok {
				assert.Equal(t, before[leaf.Path].Value.Interface(), leaf.Value.Interface(), "seed %d: %s", seed, leaf.Path)
				return
			}
			assert.False(t, leaf.Has("chosen"), leaf.Path)
			assert.True(t, leaf.Number() >= is.Low && leaf.Number() <= is.High, "seed %d: %s is %v", seed, leaf.Path, leaf.Number())
			if leaf.Has("whole") {
				assert.Equal(t, math.Trunc(leaf.Number()), leaf.Number(), leaf.Path)
			}
			if leaf.Number() != before[leaf.Path].Number() {
				moved++
			}
		})
		assert.Positive(t, moved, "seed %d", seed)
	}
}

func TestJobsScatterAroundTheGrownCount(t *testing.T) {
	s := studygen.Study(3)
	s.Origins = nil
	s.JobTypes = s.JobTypes[:1]
	s.JobTypes[0].PerYear, s.JobTypes[0].Growth = 7, 0.1
	scene, err := sceneOf(s, Options{Seed: 4, Sets: Choices(s)[:1]})
	require.NoError(t, err)
	d := scene.desk()
	last := scene.horizon - 1
	want := 7 * math.Pow(1.1, float64(last))
	var counts, squares []float64
	for block := range 100 {
		d.shuffle(block)
		for i := range chance.PerBlock {
			d.scatter(i)
			count := d.pace[0][last] * 7
			assert.InDelta(t, math.Round(count), count, 1e-9, "jobs are whole")
			counts = append(counts, count)
			squares = append(squares, (count-want)*(count-want))
		}
	}
	mean, variance := chance.MeanOf(counts, want), chance.MeanOf(squares, want)
	assert.InDelta(t, want, mean.Value, 4*mean.Error, "mean of a Poisson count")
	assert.InDelta(t, want, variance.Value, 4*variance.Error, "its variance")
}
