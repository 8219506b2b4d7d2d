package reports_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/futures"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/reports"
)

// drawn words the futures of a changed demo.
func drawn(t *testing.T, change func(*model.Study)) *reports.Futures {
	t.Helper()
	answer := answered(t, demo.Study(), change)
	require.NoError(t, answer.Draw(context.Background(), futures.Options{Most: 64}))
	return reports.Summarize(answer).Futures
}

func TestTheAnswerSaysHowManySetsMayNotBeOwnedAndWhy(t *testing.T) {
	for _, row := range []struct {
		change func(*model.Study)
		says   string
		left   int
	}{
		{nil, "48 of 64 sets may not be owned and are no choice, because of the electrical supply", 48},
		{func(s *model.Study) { s.Studio.Amps, s.Machines[1].Excludes = 1000, []string{s.Machines[0].Key} },
			"16 of 64 sets may not be owned and are no choice, because of machines that exclude each other", 16},
		{func(s *model.Study) { s.Studio.Amps, s.Studio.FloorFree = 1000, 1e-3 },
			"62 of 64 sets may not be owned and are no choice, because of the free floor; among them by itself 20-in planer, new; 24-in industrial planer, used; " +
				"25-in wide-belt sander, new; 43-in wide-belt sander, used; panel saw with sliding table, new", 62},
		{func(s *model.Study) { s.Machines[1].Needs = []string{s.Machines[0].Key} },
			"52 of 64 sets may not be owned and are no choice, because of the electrical supply (48), a machine without one that it needs (16)" +
				"; among them by itself 24-in industrial planer, used", 52},
	} {
		said := drawn(t, row.change)
		assert.Equal(t, row.says, said.Notes[0])
		assert.Len(t, said.Left, row.left)
		assert.Len(t, said.Choices, 64-row.left)
	}
}

func TestWhereEverySetMayBeOwnedNoneIsSaidToBeLeftOut(t *testing.T) {
	said := drawn(t, func(s *model.Study) { s.Studio.Amps = 1000 })
	assert.Empty(t, said.Left)
	for _, note := range said.Notes {
		assert.NotContains(t, note, "may not be owned")
	}
}
