package decision_test

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/joint/subset"
	"shopstint/rental/visitplan"
)

// variableBaselines asks for the comparison with general-purpose programs; its
// number multiplies the instances of each size.
const variableBaselines = "SHOPSTINT_BASELINES"

const (
	solverLimit = 60                   // seconds that a solver is told to end after
	outer       = 75 * time.Second     // after which it is ended
	late        = 1000.0 * solverLimit // milliseconds that its time is then more than
	ourRuns     = 9                    // of one instance, of which the median counts
	processes   = 10 * time.Minute     // for one run of a package's own benchmark
	nearlyEqual = 1e-6                 // part by which two programs' costs may differ
)

// baselines is one comparison.
type baselines struct {
	*testing.T
	*general
	times int // as many instances
	rows  []baselineRow
}

// baselineRow is the milliseconds of one size, by instance; +Inf for a time-out.
type baselineRow struct {
	workload, baseline, instances string
	ours, theirs                  []float64
}

// TestBaselines runs the workloads beside general-purpose programs, each
// instance in turn, and logs a table of medians, worst cases and ratios. Where
// a program ends with a proof its cost must be ours.
func TestBaselines(t *testing.T) {
	times, err := strconv.Atoi(cmp.Or(os.Getenv(variableBaselines), "0"))
	require.NoError(t, err, variableBaselines)
	if times < 1 {
		t.Skip(variableBaselines + "=1 asks for it; it takes some minutes")
	}
	b := &baselines{T: t, general: generalOf(t), times: times}
	defer b.stop()
	for _, size := range [][2]int{{8, 20}, {16, 20}, {24, 20}, {40, 60}} {
		for limited := range 2 {
			b.sets(size[0], size[1], limited)
		}
	}
	for _, machines := range []int{8, 12, 16, 24} {
		b.roadmaps(machines)
	}
	b.futures(100_000)
	b.visits(20, 5*times)
	b.visits(50, 5*times)
	b.visits(200, times)
	t.Log("\n" + b.table())
}

// ours is the median time of a call in milliseconds.
func ours(call func()) float64 {
	list := make([]float64, ourRuns)
	for i := range list {
		start := time.Now()
		call()
		list[i] = time.Since(start).Seconds() * 1000
	}
	return medianOf(list)
}

func medianOf(list []float64) float64 {
	list = slices.Sorted(slices.Values(list))
	return (list[(len(list)-1)/2] + list[len(list)/2]) / 2
}

// found is the answer of a general-purpose program.
type found struct {
	Cost *float64 `json:"cost"` // none without a proof
	MS   float64  `json:"ms"`
}

// theirs asks a general-purpose program for a cost, which must be ours, and
// returns its time. A negative cost of ours is not compared.
func (b *baselines) theirs(question string, cost float64) float64 {
	b.Helper()
	var answer found
	if !b.ask(b.T, question, outer, &answer) || answer.Cost == nil {
		b.Logf("%s: no proof in %.0f s", question, late/1000)
		return math.Inf(1)
	}
	if cost >= 0 {
		assert.InEpsilon(b, *answer.Cost, cost, nearlyEqual, question)
	}
	return answer.MS
}

// mostEnumerated is up to how many machines NumPy prices all sets.
const mostEnumerated = 24

// sets is W1: the cheapest set of machines, under a budget for price and floor or not.
func (b *baselines) sets(machines, types, limited int) {
	name := fmt.Sprintf("W1 %d machines, %d job types%s", machines, types, []string{"", ", budgets"}[limited])
	milp := baselineRow{workload: name, baseline: "SciPy milp", instances: fmt.Sprint(5 * b.times)}
	plain := baselineRow{workload: name, baseline: "NumPy, all sets", instances: milp.instances}
	for seed := range 5 * b.times {
		words := fmt.Sprintf(" %d %d %d %d", machines, types, seed+1, limited)
		problem := b.choice("choice" + words)
		cost := subset.Cheapest(problem, 1, math.MaxInt).Sets[0].Cost
		milp.theirs = append(milp.theirs, b.theirs("choice_milp"+words, cost))
		milp.ours = append(milp.ours, ours(func() { subset.Cheapest(problem, 1, math.MaxInt) }))
		if machines <= mostEnumerated {
			plain.theirs = append(plain.theirs, b.theirs("choice_numpy"+words, cost))
		}
	}
	b.rows = append(b.rows, milp)
	if machines <= mostEnumerated {
		plain.ours = milp.ours
		b.rows = append(b.rows, plain)
	}
}

// choice has the script make an instance of W1.
func (b *baselines) choice(question string) *subset.Problem {
	b.Helper()
	var plain struct {
		Items int `json:"items"`
		Terms []struct {
			Items []int     `json:"items"`
			Cost  []float64 `json:"cost"`
		} `json:"terms"`
		Limits []struct {
			Weight []float64 `json:"weight"`
			Most   float64   `json:"most"`
		} `json:"limits"`
	}
	require.True(b, b.ask(b.T, question, outer, &plain), question)
	problem := &subset.Problem{Items: plain.Items}
	for _, term := range plain.Terms {
		when := make([]uint64, len(term.Items))
		for i, m := range term.Items {
			when[i] = 1 << m
		}
		problem.Terms = append(problem.Terms, subset.Term{When: when, Cost: term.Cost})
	}
	for _, limit := range plain.Limits {
		alone := make([]uint64, plain.Items)
		for m := range alone {
			alone[m] = 1 << m
		}
		problem.Limits = append(problem.Limits, subset.Limit{When: alone, Weight: limit.Weight, Most: limit.Most})
	}
	return problem
}

// roadmaps is W2. Our times are those of the package's own benchmark, forty
// instances five times over; the other program has the first of them. The
// package's own test compares the costs.
func (b *baselines) roadmaps(machines int) {
	row := baselineRow{workload: fmt.Sprintf("W2 %d machines, ten years", machines), baseline: "SciPy milp"}
	row.instances = fmt.Sprintf("40 / %d", 5*b.times)
	out := b.benchmark("./roadmap", fmt.Sprintf("Roadmap/^%d_machines,_buy$", machines), "1x")
	median := medianOf(b.figures(out, "ms-median"))
	row.ours = []float64{median, median, medianOf(b.figures(out, "ms-worst"))}
	for seed := range 5 * b.times {
		row.theirs = append(row.theirs, b.theirs(fmt.Sprintf("roadmap_milp %d %d %d", machines, seed+1, solverLimit), -1))
	}
	b.rows = append(b.rows, row)
}

// futures is W3: the package's own benchmark on two workers, and its test has the
// check figures.
func (b *baselines) futures(futures int) {
	row := baselineRow{workload: fmt.Sprintf("W3 %d futures of 256 sets", futures), baseline: "NumPy", instances: "1"}
	for _, ns := range b.figures(b.benchmark("./futures", "W3/^2_workers$", "1s"), "ns/op") {
		row.ours = append(row.ours, ns/1e6)
	}
	for run := range 5 {
		row.theirs = append(row.theirs, b.theirs(fmt.Sprintf("futures_numpy %d %d", futures, run+1), -1))
	}
	b.rows = append(b.rows, row)
}

// benchmark runs one of a package's own benchmarks five times.
func (b *baselines) benchmark(folder, name, long string) string {
	b.Helper()
	ctx, cancel := context.WithTimeout(b.Context(), processes)
	defer cancel()
	out, err := exec.CommandContext(ctx, "go", "test", folder, "-run", "^$", "-bench", name, "-benchtime", long, "-count", "5").CombinedOutput()
	require.NoError(b, err, string(out))
	return string(out)
}

// figures reads those of one unit from what a benchmark wrote.
func (b *baselines) figures(out, unit string) []float64 {
	b.Helper()
	var list []float64
	for _, match := range regexp.MustCompile(`([0-9.]+) `+regexp.QuoteMeta(unit)).FindAllStringSubmatch(out, -1) {
		value, err := strconv.ParseFloat(match[1], 64)
		require.NoError(b, err)
		list = append(list, value)
	}
	require.Len(b, list, 5, "%s: %s", unit, out)
	return list
}

// minutePrice prices a visit of W4 by its minutes: blocks and the way.
type minutePrice struct{ block, travel float64 }

func (p minutePrice) Add(contents uint64, kind int) uint64 { return contents + uint64(kind/100) }
func (p minutePrice) Of(contents uint64) float64 {
	return p.travel + p.block*max(2, math.Ceil(float64(contents)/30))
}

// visits is W4: dated jobs to visits of a vehicle that takes a hundred.
func (b *baselines) visits(jobs, seeds int) {
	row := baselineRow{workload: fmt.Sprintf("W4 %d jobs with loads", jobs), baseline: "SciPy milp", instances: fmt.Sprint(seeds)}
	for seed := range seeds {
		words := fmt.Sprintf(" %d %d 1", jobs, seed+1)
		problem := b.errands("errands" + words)
		plan, err := visitplan.Solve(problem, visitplan.Usual())
		require.NoError(b, err)
		assert.Zero(b, plan.Gap(), words)
		row.theirs = append(row.theirs, b.theirs(fmt.Sprintf("visits_milp%s %d", words, solverLimit), plan.Cost))
		row.ours = append(row.ours, ours(func() { _, _ = visitplan.Solve(problem, visitplan.Usual()) }))
	}
	b.rows = append(b.rows, row)
}

// errands has the script make an instance of W4. Minutes and load make a kind.
func (b *baselines) errands(question string) *visitplan.Problem {
	b.Helper()
	var plain struct {
		Jobs                    [][4]int `json:"jobs"`
		Capacity, Block, Travel float64
	}
	require.True(b, b.ask(b.T, question, outer, &plain), question)
	problem := &visitplan.Problem{
		Price: minutePrice{plain.Block, plain.Travel}, Monotone: true, Capacity: plain.Capacity,
		Floor: visitplan.Floor{Visit: plain.Travel, Unit: plain.Block, Whole: true},
	}
	for _, job := range plain.Jobs {
		problem.Jobs = append(problem.Jobs, visitplan.Job{
			Ready: job[0], Due: job[1], Kind: 100*job[2] + job[3], Load: float64(job[3]), Units: float64(job[2]) / 30,
		})
	}
	return problem
}

// table is all rows in one.
func (b *baselines) table() string {
	var text strings.Builder
	text.WriteString("| workload | instances | ours, ms: median (worst) | baseline | ms: median (worst) | ours / baseline: median (worst) |\n")
	text.WriteString("| --- | --- | --- | --- | --- | --- |\n")
	for _, row := range b.rows {
		mine, other := medianOf(row.ours), medianOf(row.theirs)
		worst, otherWorst := slices.Max(row.ours), slices.Max(row.theirs)
		fmt.Fprintf(&text, "| %s | %s | %s (%s) | %s | %s (%s) | %s (%s) |\n", row.workload, row.instances,
			milliseconds(mine), milliseconds(worst), row.baseline, milliseconds(other), milliseconds(otherWorst),
			ratio(mine, other), ratio(worst, otherWorst))
	}
	return text.String()
}

func milliseconds(ms float64) string {
	if math.IsInf(ms, 1) {
		return fmt.Sprintf("> %.0f", late)
	}
	return strconv.FormatFloat(ms, 'g', 3, 64)
}

func ratio(ours, theirs float64) string {
	if math.IsInf(theirs, 1) {
		return fmt.Sprintf("< %.2g", ours/late)
	}
	return fmt.Sprintf("%.2g", ours/theirs)
}
