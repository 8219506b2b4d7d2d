package visitplan_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// variableMILP is the most jobs of the problems that are given to the solver.
const variableMILP = "SHOPSTINT_MILP"

// python finds an interpreter that has the solver, "" without.
func python() string {
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import scipy.optimize").Run() == nil {
			return name
		}
	}
	return ""
}

// asked is one problem as the solver's script reads it.
type asked struct {
	Jobs     [][4]int `json:"jobs"`
	Capacity int      `json:"capacity"`
	Block    int      `json:"block"`
	Travel   int      `json:"travel"`
	Limit    int      `json:"limit"` // seconds
}

// TestPlansCostWhatAGeneralPurposeSolverFinds compares with the optimum of a
// mixed-integer programme: a few small problems, or, where the environment says
// up to how many jobs, thirty of each size. Every run has an outer time-out: the
// solver may not keep its own.
func TestPlansCostWhatAGeneralPurposeSolverFinds(t *testing.T) {
	most, seeds, limit := 20, 1, 20
	if text := os.Getenv(variableMILP); text != "" {
		number, err := strconv.Atoi(text)
		require.NoError(t, err)
		most, seeds, limit = number, 30, 60
	}
	interpreter := python()
	if interpreter == "" {
		require.Empty(t, os.Getenv(variableMILP), "python3-scipy is not there")
		t.Skip("python3-scipy is not there")
	}
	compared := 0
	for _, n := range []int{10, 20, 50} {
		for seed := 1; n <= most && seed <= seeds; seed++ {
			for _, loads := range []bool{true, false} {
				want, ok := general(t, interpreter, ask(n, uint64(seed), loads, limit))
				if !ok {
					t.Logf("no proof of the solver for %d jobs, seed %d", n, seed)
					continue
				}
				plan := solved(t, trips(n, uint64(seed), loads, 2200))
				assert.Equal(t, want, plan.Cost, "%d jobs, seed %d, loads %t", n, seed, loads)
				assert.Equal(t, plan.Cost, plan.Bound)
				compared++
			}
		}
	}
	assert.Positive(t, compared, "the solver was of no use")
}

func ask(n int, seed uint64, loads bool, limit int) asked {
	problem := asked{Block: 1400, Travel: 2200, Limit: limit}
	if loads {
		problem.Capacity = 100
	}
	for _, e := range errands(n, seed, loads) {
		problem.Jobs = append(problem.Jobs, [4]int{e.ready, e.due, e.minutes, e.load})
	}
	return problem
}

// general has the solver work a problem out; ok is false without a proof.
func general(t *testing.T, interpreter string, problem asked) (cost float64, ok bool) {
	t.Helper()
	line, err := json.Marshal(problem)
	require.NoError(t, err)
	ctx, stop := context.WithTimeout(t.Context(), time.Duration(problem.Limit+30)*time.Second)
	defer stop()
	command := exec.CommandContext(ctx, interpreter, "testdata/optimum.py")
	command.Stdin = bytes.NewReader(line)
	var stderr bytes.Buffer
	command.Stderr = &stderr
	out, err := command.Output()
	if ctx.Err() != nil {
		return 0, false
	}
	require.NoError(t, err, stderr.String())
	cost, err = strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	return cost, err == nil
}
