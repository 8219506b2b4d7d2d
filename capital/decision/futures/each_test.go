package futures_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/futures"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// Whoever looks at futures one by one sees those in which choices are compared.
func TestEachShowsTheFuturesThatChoicesAreComparedIn(t *testing.T) {
	for seed, s := range studygen.Studies(20) {
		options := futures.Options{Seed: uint64(seed), Most: 64, Workers: 1}
		result, err := futures.Draw(context.Background(), s, options)
		require.NoError(t, err)
		count, sum := 0, 0.0
		none := make([]bool, len(s.Machines))
		require.NoError(t, futures.Each(context.Background(), s, options, func(study *model.Study, plan *work.Plan, pace alternative.Pace) {
			count++
			sum += alternative.EvaluateAt(study, plan, none, pace).Present
		}))
		assert.Equal(t, 64, count)
		assert.InDelta(t, result.Choices[0].Cost.Mean.Value, sum/64, studygen.Dust(sum), "seed %d", seed)
	}
}
