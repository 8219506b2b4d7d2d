package futures

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// sampleOf draws so many blocks of renting everything and of owning the first machine.
func sampleOf(t *testing.T, s *model.Study, blocks, workers int) *sample {
	t.Helper()
	scene, err := sceneOf(s, Options{Seed: 7, Sets: Choices(s)[:2]})
	require.NoError(t, err)
	drawn := newSample(scene)
	require.NoError(t, drawn.extend(context.Background(), blocks, workers))
	return drawn
}

// What a block keeps is what one desk finds in its futures, one after another: costs
// by choice, costs so far by choice and year, and the sixteenth of each input's chances.
func TestABlockKeepsCostsYearsAndSlicesOfItsFutures(t *testing.T) {
	s := studygen.Study(2)
	drawn := sampleOf(t, s, 3, 2)
	d, years := drawn.desk(), make([]float64, drawn.horizon+1)
	require.Greater(t, drawn.inputs.Len(), 1)
	for b := range drawn.blocks {
		d.shuffle(b)
		for i := range chance.PerBlock {
			d.live(i)
			at := b*chance.PerBlock + i
			for c := range 2 {
				assert.Equal(t, d.costs[c], drawn.of(c)[at])
				d.pricer.Years(c, years)
				sum := 0.0
				for year, amount := range years {
					sum += amount
					assert.Equal(t, float64(float32(sum)), drawn.soFar(c, year)[at], "block %d, future %d, choice %d, year %d", b, i, c, year)
				}
			}
			for k := range drawn.inputs.Len() {
				assert.Equal(t, uint8(16*d.draws[k][i])/2, drawn.slices(k)[at], "eighths while there are few futures")
			}
		}
	}
}

func TestManyFuturesTellSixteenthsApartAndTheFirst4096KeepTheirYears(t *testing.T) {
	s := studygen.Round()
	s.Origins["studio.labour_rate"] = model.Origin{HasRange: true, Low: 50, High: 70}
	drawn := sampleOf(t, s, 128, 1)
	require.Equal(t, 8192, drawn.futures())
	assert.Len(t, drawn.of(1), 8192)
	assert.Len(t, drawn.soFar(1, 2), 4096)
	counts := [slicesOf]int{}
	for _, slice := range drawn.slices(0) {
		counts[slice]++
	}
	for slice, count := range counts {
		assert.Equal(t, 8192/slicesOf, count, "slice %d of stratified draws", slice)
	}
}

func TestThereAreNoMoreDesksThanBlocksToDraw(t *testing.T) {
	drawn := sampleOf(t, studygen.Round(), 2, 8)
	assert.Len(t, drawn.desks, 2)
	require.NoError(t, drawn.extend(context.Background(), 5, 9))
	assert.Len(t, drawn.desks, 3, "three more blocks")
	require.NoError(t, drawn.extend(context.Background(), 12, 6))
	assert.Len(t, drawn.desks, 6)
	assert.Equal(t, 12*chance.PerBlock, drawn.futures())
}

func TestFuturesShownOneByOneSayWhereTheyWereInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	shown := 0
	err := Each(ctx, studygen.Round(), Options{Most: 1000}, func(*model.Study, *work.Plan, alternative.Pace) {
		if shown++; shown == 2*chance.PerBlock {
			cancel()
		}
	})
	require.ErrorIs(t, err, ErrInterrupted)
	assert.ErrorIs(t, err, context.Canceled)
	assert.ErrorContains(t, err, fmt.Sprintf("after %d of them", 2*chance.PerBlock))
	assert.Equal(t, 2*chance.PerBlock, shown)
	shown = 0
	require.NoError(t, Each(context.Background(), studygen.Round(), Options{Most: 100}, func(*model.Study, *work.Plan, alternative.Pace) { shown++ }))
	assert.Equal(t, 2*chance.PerBlock, shown, "whole blocks")
}

// A choice against one that costs nothing, in two halves of 64 futures that each lie
// half in slice 0 and half in slice 1. In the first half it costs 4 and −6: on average
// it is chosen, with knowledge in slice 1 only. In the second it costs 10 and −2: on
// average it is not. Judged on the other half knowledge saves 0 and 6 in the first,
// where the second's choice stands beside, and 10 and 0 in the second.
func TestKnowledgeIsJudgedOnTheFuturesOfTheOtherHalf(t *testing.T) {
	var rows []float64
	var slices []uint8
	for i := range 2 * chance.PerBlock {
		cost := [2][2]float64{{4, -6}, {10, -2}}[i/chance.PerBlock][i%2]
		rows, slices = append(rows, 0, cost), append(slices, uint8(i%2))
	}
	assert.Equal(t, (0+6+10+0)/4.0, Worth(rows, 2, slices).Value)
	for i := range slices {
		slices[i] = uint8(3 + 2*(i/chance.PerBlock)) // no slice lies in both halves
	}
	assert.Zero(t, Worth(rows, 2, slices).Value, "what was never seen says nothing")
	for i := range slices {
		slices[i], rows[2*i+1] = 0, 5
		if i%chance.PerBlock == 0 {
			slices[i], rows[2*i+1] = 7, -100
		}
	}
	assert.Equal(t, 200.0/128, Worth(rows, 2, slices).Value, "what was seen once in each half says something")
}

func TestWithoutRangesAndWithoutJobsNothingIsDrawn(t *testing.T) {
	s := studygen.Round()
	s.Origins, s.Correlations = nil, nil
	for _, row := range []struct {
		jobs    float64
		certain bool
	}{{0, true}, {0.5, false}} {
		s.JobTypes[0].PerYear = quantity.Count(row.jobs)
		result, err := Draw(context.Background(), s, Options{Most: 64})
		require.NoError(t, err)
		assert.Equal(t, row.certain, result.Certainty, "%v jobs", row.jobs)
		assert.Equal(t, chance.PerBlock, result.Futures)
		for _, choice := range result.Choices {
			assert.Len(t, choice.Years, int(s.Studio.Horizon)+1)
		}
	}
}

// Where no difference is too close to call, drawing ends when the error of the mean is
// a hundredth of how far the differences scatter.
func TestWithoutABandTheScatterSaysWhenThereIsEnough(t *testing.T) {
	s := studygen.Study(2)
	drawn, enough := sampleOf(t, s, 16, 1), 0
	clear(drawn.bands)
	for _, blocks := range []int{17, 64, 128, 256, 400} {
		require.NoError(t, drawn.extend(context.Background(), blocks, 2))
		gap := chance.SpreadOf(drawn.gap(drawn.of(0), drawn.of(1)), 0)
		met := gap.Mean.Error <= 0.01*gap.Deviation.Value
		assert.Equal(t, met, drawn.precise(), "%d blocks", blocks)
		if met {
			enough++
		}
	}
	assert.True(t, enough > 0 && enough < 5, "%d of five", enough)
}
