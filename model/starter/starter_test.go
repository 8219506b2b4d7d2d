package starter_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/defaults"
	"shopstint/model/starter"
	"shopstint/model/study"
	"shopstint/model/work"
)

func TestBothStartersLoadWithoutAProblem(t *testing.T) {
	for name, src := range map[string][]byte{"short": starter.Short(), "long": starter.Long()} {
		t.Run(name, func(t *testing.T) {
			loaded, places, problems := study.Load(name, src)
			for _, p := range problems {
				t.Log(p)
			}
			require.Empty(t, problems)
			assert.NotEmpty(t, places)
			assert.Empty(t, work.New(loaded).Homeless())
		})
	}
}

func TestTheShortStarterIsNoLongerThanFifteenLines(t *testing.T) {
	lines := 0
	for line := range strings.Lines(string(starter.Short())) {
		if text := strings.TrimSpace(line); text != "" && text[0] != '#' {
			lines++
		}
	}
	assert.LessOrEqual(t, lines, 15)
	assert.Greater(t, lines, 5)
}

func TestTheShortStarterLeavesNothingWithoutAnOrigin(t *testing.T) {
	loaded, places, problems := study.Load("short", starter.Short())
	require.Empty(t, problems)
	assumed := 0
	model.Walk(loaded, func(leaf model.Leaf) {
		if _, given := places[leaf.Path]; given {
			return
		}
		assumed++
		assert.True(t, loaded.Origins[leaf.Path].Assumed, leaf.Path)
		assert.NotEmpty(t, loaded.Origins[leaf.Path].Source, leaf.Path)
	})
	assert.Greater(t, assumed, 100)
}

func TestTheLongStarterShowsEverySection(t *testing.T) {
	loaded, places, problems := study.Load("long", starter.Long())
	require.Empty(t, problems)
	for _, section := range []string{"studio", "growth", "shops", "tools", "machines", "edges", "abrasives", "materials", "job_types", "comparisons"} {
		assert.Contains(t, string(starter.Long()), "\n"+section+":", section)
	}
	assert.NotEmpty(t, places)
	assert.NotEqual(t, defaults.ForeignMoney, loaded.Origins["studio.demand_charge"].Note)
}
