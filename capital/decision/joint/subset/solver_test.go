package subset

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/bits"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// variableSolver asks for the long comparison with a general-purpose solver:
// SHOPSTINT_SOLVER=1 go test ./capital/decision/joint/subset -run GeneralSolver -v
const variableSolver = "SHOPSTINT_SOLVER"

// compared is one instance that both solve.
type compared struct {
	name    string
	problem *Problem
}

func comparisons(seeds int, sizes ...[2]int) []compared {
	var list []compared
	for _, size := range sizes {
		for _, limited := range []bool{false, true} {
			for seed := range seeds {
				name := fmt.Sprintf("%d machines, %d jobs, limited %t, seed %d", size[0], size[1], limited, seed+1)
				list = append(list, compared{name, instance(size[0], size[1], uint64(seed+1), limited)})
			}
		}
	}
	return list
}

func TestAGeneralSolverFindsNoCheaperSet(t *testing.T) {
	list, limit := comparisons(1, [2]int{8, 20}, [2]int{16, 20}), time.Minute
	if os.Getenv(variableSolver) == "1" {
		list, limit = comparisons(5, [2]int{8, 20}, [2]int{16, 20}, [2]int{24, 20}, [2]int{24, 60}, [2]int{40, 60}), 20*time.Minute
	}
	python := solverOf(t)
	ctx, cancel := context.WithTimeout(t.Context(), limit)
	defer cancel()
	input, err := json.Marshal(plain(list))
	require.NoError(t, err)
	command := exec.CommandContext(ctx, python, "testdata/optimum.py")
	command.Stdin = bytes.NewReader(input)
	output, err := command.Output()
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(output)), "\n")
	require.Len(t, lines, len(list))
	for i, one := range list {
		one.compare(t, lines[i])
	}
}

// compare sets our answer beside a line of the script.
func (c *compared) compare(t *testing.T, line string) {
	t.Helper()
	var cost, theirs float64
	var set uint64
	_, err := fmt.Sscan(line, &cost, &set, &theirs)
	require.NoError(t, err, "%s: %s", c.name, line)
	start := time.Now()
	answer := Cheapest(c.problem, 1, 1<<30)
	ours := time.Since(start)
	require.True(t, answer.Proven, c.name)
	assert.InDelta(t, c.problem.Cost(set), answer.Sets[0].Cost, 1e-6, c.name)
	assert.True(t, c.problem.Allows(set), c.name)
	t.Logf("%s: %.0f, ours %.3f ms, general %.1f ms", c.name, cost, ours.Seconds()*1000, theirs)
}

// solverOf finds an interpreter that has the solver. Without one the test is
// left out, unless it was asked for.
func solverOf(t *testing.T) string {
	t.Helper()
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		ctx, cancel := context.WithTimeout(t.Context(), 30*time.Second)
		err := exec.CommandContext(ctx, python, "-c", "import scipy.optimize; scipy.optimize.milp").Run()
		cancel()
		if err == nil {
			return python
		}
	}
	require.NotEqual(t, "1", os.Getenv(variableSolver), "no python3 with scipy 1.9 or newer")
	t.Skip("no python3 with scipy 1.9 or newer")
	return ""
}

// plain writes problems whose groups are single items as the script reads them.
func plain(compared []compared) []map[string]any {
	var list []map[string]any
	for _, one := range compared {
		p := one.problem
		terms, limits := []map[string]any{}, []map[string]any{}
		for _, term := range p.Terms {
			items := []int{}
			for _, when := range term.When {
				items = append(items, bits.TrailingZeros64(when))
			}
			terms = append(terms, map[string]any{"items": items, "cost": term.Cost})
		}
		for _, limit := range p.Limits {
			limits = append(limits, map[string]any{"weight": limit.Weight, "most": limit.Most})
		}
		list = append(list, map[string]any{"items": p.Items, "terms": terms, "limits": limits})
	}
	return list
}
