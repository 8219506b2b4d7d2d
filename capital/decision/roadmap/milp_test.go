package roadmap

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/quantity"
	"shopstint/model/work"
)

// outer ends a program that does not keep to a time limit of its own.
const outer = 2 * time.Minute

// asJSON is an instance for another program; what is without limit is null.
func asJSON(t *testing.T, p *instance) []byte {
	t.Helper()
	type member struct {
		Own  [][]*float64 `json:"own"`
		Paid [][]float64  `json:"paid"`
	}
	type list struct {
		Machines []int       `json:"machines"`
		Cost     [][]float64 `json:"cost"`
	}
	var out struct {
		Years    int        `json:"years"`
		Again    bool       `json:"again"`
		Budget   []*float64 `json:"budget"`
		Machines []member   `json:"machines"`
		Tables   []list     `json:"tables"`
	}
	out.Years, out.Again, out.Budget = p.years, p.machines[0].again, finite(p.budget)
	for m := range p.machines {
		one := member{Paid: p.machines[m].paid}
		for _, own := range p.machines[m].own {
			one.Own = append(one.Own, finite(own))
		}
		out.Machines = append(out.Machines, one)
	}
	for i := range p.tables {
		out.Tables = append(out.Tables, list{p.tables[i].machines, p.tables[i].cost})
	}
	text, err := json.Marshal(out)
	require.NoError(t, err)
	return text
}

func finite(list []float64) []*float64 {
	out := make([]*float64, len(list))
	for i := range list {
		if !math.IsInf(list[i], 0) {
			out[i] = &list[i]
		}
	}
	return out
}

// solverSays asks the general-purpose solver; false when it is too slow.
func solverSays(t *testing.T, python string, p *instance) (float64, bool) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), outer)
	defer cancel()
	command := exec.CommandContext(ctx, python, "testdata/milp.py")
	command.Stdin = bytes.NewReader(asJSON(t, p))
	var stderr bytes.Buffer
	command.Stderr = &stderr
	out, err := command.Output()
	if ctx.Err() != nil {
		return 0, false
	}
	require.NoError(t, err, stderr.String())
	cost, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	require.NoError(t, err)
	return cost, true
}

// TestAGeneralPurposeSolverSaysTheSame runs where SHOPSTINT_MILP names a Python
// with SciPy, such as /usr/bin/python3.
func TestAGeneralPurposeSolverSaysTheSame(t *testing.T) {
	python := os.Getenv("SHOPSTINT_MILP")
	if python == "" {
		t.Skip("SHOPSTINT_MILP names no python3 with scipy")
	}
	compared := 0
	compare := func(name string, p *instance) {
		want, ok := solverSays(t, python, p)
		if !ok {
			t.Logf("%s: no answer in %v", name, outer)
			return
		}
		compared++
		got := newSolver(p).best(p.wholeDomain(), infinite, benchEffort)
		assert.InDelta(t, want, got.cost, 1e-5*want, name) // the solver's own tolerance on rows and whole numbers
		assert.InDelta(t, got.cost, got.bound, proven*got.cost, name)
	}
	for _, n := range []int{8, 12, 16, 24} {
		for seed := range uint64(5) {
			for _, sell := range []bool{false, true} {
				compare(strconv.Itoa(n)+" machines, seed "+strconv.Itoa(int(seed+1)), benchmark(n, seed+1, sell))
			}
		}
	}
	for _, budget := range []float64{0, 40000, 20000, 10000} {
		s := demoStudy(t)
		s.Studio.YearlyBudget = quantity.Money(budget)
		compare("the demo with a budget of "+strconv.Itoa(int(budget)), layOut(s, work.New(s)).out)
	}
	assert.Greater(t, compared, 25)
}
