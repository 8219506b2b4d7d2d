package single

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/demo"
	"shopstint/model/study"
)

func TestOfTwoTurningEndsTheNearerIsTaken(t *testing.T) {
	for _, row := range []struct {
		name  string
		swing Swing
		want  float64
		turns bool
	}{
		{"neither", Swing{Value: 5, Low: 1, High: 6, AtLow: 1, AtHigh: 2}, 0, false},
		{"low", Swing{Value: 5, Low: 1, High: 6, AtLow: -1, AtHigh: 2}, 1, true},
		{"high", Swing{Value: 5, Low: 1, High: 6, AtLow: 1, AtHigh: -2}, 6, true},
		{"both, high nearer", Swing{Value: 5, Low: 1, High: 6, AtLow: -1, AtHigh: -2}, 6, true},
		{"both, low nearer", Swing{Value: 2, Low: 1, High: 6, AtLow: -1, AtHigh: -2}, 1, true},
	} {
		end, _, turns := row.swing.turningEnd(3)
		assert.Equal(t, row.turns, turns, row.name)
		assert.InDelta(t, row.want, end, 0, row.name)
	}
}

func TestASwitchingValueSeparatesTheTwoAnswers(t *testing.T) {
	read, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	now, found := Differences(read), 0
	mover := newMover(read)
	for m, swings := range Swings(read) {
		for _, swing := range swings {
			if !swing.Switches {
				assert.False(t, swing.AtLow*now[m] < 0 || swing.AtHigh*now[m] < 0, swing.Path)
				continue
			}
			found++
			if swing.whole {
				assert.InDelta(t, math.Round(swing.Switch), swing.Switch, 0, swing.Path)
				step := math.Copysign(1, swing.Switch-swing.Value)
				assert.Negativef(t, mover.on(m, swing.Path, swing.Switch)*now[m], "%s: the first whole number at which the answer has turned is %g", swing.Path, swing.Switch)
				assert.Positivef(t, mover.on(m, swing.Path, swing.Switch-step)*now[m], "%s: one before %g it stands", swing.Path, swing.Switch)
				continue
			}
			end, _, _ := swing.turningEnd(now[m])
			step := 2e-3 * (end - swing.Value)
			before, after := mover.at(swing.Path, swing.Switch-step)[m], mover.at(swing.Path, swing.Switch+step)[m]
			assert.InDelta(t, before, mover.on(m, swing.Path, swing.Switch-step), 1e-9*(1+math.Abs(now[m])), swing.Path)
			assert.Positivef(t, before*now[m], "%s: the answer stands just before %g", swing.Path, swing.Switch)
			assert.Negativef(t, after*now[m], "%s: the answer has turned just after %g", swing.Path, swing.Switch)
		}
	}
	assert.Greater(t, found, 10, "inputs that turn an answer of the demo")
}

func TestTurningPointOfAStraightLineAndOfAStaircase(t *testing.T) {
	line := func(x float64) float64 { return 3 - x }
	assert.InDelta(t, 3, turningPoint(line, 0, 10, line(0), line(10)), 0.01)
	stairs := func(x float64) float64 { return 3.5 - math.Floor(x) }
	assert.InDelta(t, 4, turningPoint(stairs, 0, 10, stairs(0), stairs(10)), 0.01)
	assert.InDelta(t, 4, turningPoint(stairs, 10, 0, stairs(10), stairs(0)), 0.01)
}
