package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "shopstint/"

// bounds is what one package may import: of ours, and from outside the library of
// the language.
type bounds struct{ ours, outside []string }

// allowed is the plan of the house: down only, sideways never except as listed.
// An import that is not here fails, and so does a line that no package uses any
// more, so that the plan cannot rot.
var allowed = map[string]bounds{
	"model":          {ours: these("model/money model/quantity")},
	"model/quantity": {},
	"model/money":    {outside: these("github.com/shopspring/decimal golang.org/x/text/currency")},
	"model/problem":  {},
	"model/demo":     {},
	"model/starter":  {},
	"model/work":     {ours: these("model model/quantity")},
	"model/wear":     {ours: these("model model/quantity model/wear/change model/work"), outside: these("gonum.org/v1/gonum/stat/distuv")},
	// Plain numbers, no noun of ours.
	"model/wear/change": {outside: these("gonum.org/v1/gonum/integrate/quad")},
	"model/chance":      {ours: these("model model/quantity"), outside: these("gonum.org/v1/gonum/mathext")},
	"model/defaults":    {ours: these("model model/quantity model/work")},
	"model/check":       {ours: these("model model/chance model/problem model/quantity model/work")},
	"model/study":       {ours: these("model model/check model/defaults model/money model/problem model/quantity"), outside: these("go.yaml.in/yaml/v3")},
	"model/intake":      {ours: these("model model/problem model/quantity model/study model/intake/cells")},
	// What comes from a stranger is read by the library of the language alone, in bounds.
	"model/intake/cells": {},
	"model/intake/typed": {ours: these("model/intake/cells")},
	// Lives that have ended or are still going, as plain numbers.
	"model/wear/life": {outside: these("gonum.org/v1/gonum/mathext")},
	"model/published": {outside: these("go.yaml.in/yaml/v3")},
	"model/studygen":  {ours: these("model model/defaults model/money model/quantity model/work"), outside: these("go.yaml.in/yaml/v3")},
	"model/logbook": {
		ours:    these("model model/problem model/quantity"),
		outside: these("golang.org/x/text/encoding/unicode golang.org/x/text/transform"),
	},

	"rental": {ours: these("model model/money model/quantity model/work"), outside: these("github.com/shopspring/decimal")},

	"rental/demolog": {ours: these("model model/logbook model/quantity model/work rental")},

	// The solver knows days and costs, and no noun of ours.
	"rental/visitplan": {},

	// The formula packages take and give plain numbers and know no noun of ours.
	"capital/depreciation": {},
	"capital/economiclife": {},
	"capital/loan":         {},
	"capital/timevalue":    {},
	"capital/upkeep":       {},
	"capital":              {ours: these("model model/quantity model/work capital/depreciation capital/economiclife capital/loan capital/upkeep")},

	// Only the decision stands above both rental and capital.
	"capital/decision/alternative": {ours: these("model model/quantity model/work rental capital")},
	"capital/decision/single":      {ours: these("model model/quantity model/work rental capital capital/timevalue capital/upkeep capital/decision/alternative")},
	"capital/decision/sensitivity": {ours: these("model model/quantity model/work capital capital/timevalue capital/decision/alternative capital/decision/single")},
	"capital/decision/joint":       {ours: these("model model/work rental capital capital/timevalue capital/decision/alternative capital/decision/joint/subset")},
	// Finds the cheapest subset of anything, from plain numbers.
	"capital/decision/joint/subset": {},
	"capital/decision/budget":       {ours: these("model model/chance model/quantity model/work rental capital/decision/alternative capital/decision/single")},
	"capital/decision/futures":      {ours: these("model model/chance model/work capital/decision/alternative capital/decision/joint")},
	"capital/decision/roadmap":      {ours: these("model model/work rental capital capital/timevalue capital/decision/alternative")},
	"capital/decision":              {ours: these("model model/quantity model/work rental capital capital/timevalue capital/decision/alternative capital/decision/futures capital/decision/joint capital/decision/roadmap capital/decision/single capital/decision/ways capital/decision/spend")},

	"capital/decision/track": {ours: these("model model/logbook model/quantity model/wear/life model/work rental capital/decision/alternative capital/decision/track/evidence")},
	// What counts and measured figures tell, as plain numbers.
	"capital/decision/track/evidence": {outside: these("gonum.org/v1/gonum/mathext")},

	"capital/decision/booking": {ours: these("model model/problem model/quantity model/work rental rental/visitplan capital/decision/alternative")},

	// Holds the engine to published figures: it knows whatever has some.
	"capital/decision/conformance": {
		ours: these("model model/chance model/published model/quantity model/studygen model/wear/change model/wear/life model/work rental rental/visitplan " +
			"capital capital/depreciation capital/economiclife capital/loan capital/timevalue capital/upkeep capital/decision/futures capital/decision/single capital/decision/ways"),
		outside: these("gonum.org/v1/gonum/stat/distuv"),
	},

	"reports":               {ours: these("capital model model/chance model/quantity rental rental/visitplan capital/decision capital/decision/booking capital/decision/budget capital/decision/futures capital/decision/joint capital/decision/roadmap capital/decision/single capital/decision/track capital/decision/ways model/work capital/decision/spend model/wear")},
	"capital/decision/ways": {ours: these("model model/wear model/wear/change model/work capital capital/timevalue")},
	"reports/calendar":      {ours: these("reports reports/text"), outside: these("github.com/arran4/golang-ical")},
	"reports/text":          {ours: these("reports capital/decision/single"), outside: these("golang.org/x/text/width")},
	"reports/jsonout":       {ours: these("reports model/chance model/problem model/wear/life capital/decision/futures capital/decision/single capital/decision/track")},
	"reports/intake":        {ours: these("model model/intake model/quantity model/study reports reports/workbook/grid")},
	"reports/workbook":      {ours: these("model model/intake model/money model/quantity model/work rental capital capital/timevalue capital/decision capital/decision/alternative capital/decision/futures capital/decision/roadmap capital/decision/sensitivity capital/decision/single capital/decision/ways reports reports/workbook/grid model/wear model/wear/life capital/decision/track")},
	// Sorts what a course costs; it reckons no price of its own.
	"capital/decision/spend": {ours: these("model model/chance model/quantity model/wear model/work capital capital/timevalue capital/decision/alternative capital/decision/futures")},
	// The grid knows cells and no word of the trade.
	"reports/workbook/grid":   {outside: these("github.com/klauspost/compress/flate github.com/xuri/excelize/v2")},
	"reports/workbook/recalc": {ours: these("reports/workbook/grid"), outside: these("github.com/stretchr/testify/require")},

	"cmd/shopstint": {
		ours:    these("model model/demo model/intake model/logbook model/problem model/quantity model/starter model/study capital/decision capital/decision/booking capital/decision/budget capital/decision/futures capital/decision/track reports reports/calendar reports/intake reports/jsonout reports/text reports/workbook cmd/shopstint/early cmd/shopstint/keep model/wear model/work capital/decision/ways capital/decision/spend"),
		outside: these("github.com/spf13/afero github.com/spf13/cobra github.com/spf13/pflag github.com/spf13/viper golang.org/x/term"),
	},
	"cmd/shopstint/early": {},
	// Writes files so that nothing is lost, and knows no word of the trade.
	"cmd/shopstint/keep":         {outside: these("github.com/spf13/afero golang.org/x/sys/unix")},
	"cmd/shopstint/keep/failing": {outside: these("github.com/spf13/afero")},
}

// forTests are packages that serve tests only.
var forTests = these("model/intake/typed cmd/shopstint/keep/failing capital/decision/conformance model/published model/studygen rental/demolog reports/workbook/recalc")

func these(words string) []string { return strings.Fields(words) }

// listed is a package as the go tool sees it.
type listed struct {
	ImportPath string
	Imports    []string
}

func (p listed) name() string { return strings.TrimPrefix(p.ImportPath, module) }

// ours are the imports of our own packages.
func (p listed) ours() []string {
	var found []string
	for _, path := range p.Imports {
		if name, ok := strings.CutPrefix(path, module); ok {
			found = append(found, name)
		}
	}
	return found
}

// outside are the imports from other modules: their first word has a dot.
func (p listed) outside() []string {
	return slices.DeleteFunc(slices.Clone(p.Imports), func(path string) bool {
		first, _, _ := strings.Cut(path, "/")
		return !strings.Contains(first, ".")
	})
}

func packages(t *testing.T) []listed {
	t.Helper()
	command := exec.Command("go", "list", "-json=ImportPath,Imports", module+"...")
	var stderr bytes.Buffer
	command.Stderr = &stderr
	out, err := command.Output()
	require.NoError(t, err, stderr.String())
	var found []listed
	for decoder := json.NewDecoder(bytes.NewReader(out)); ; {
		var one listed
		err := decoder.Decode(&one)
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		found = append(found, one)
	}
	require.Greater(t, len(found), 20)
	return found
}

func TestPackagesImportWhatThePlanAllowsAndNoMore(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range packages(t) {
		plan, ok := allowed[p.name()]
		if !assert.True(t, ok, "%s is not in the plan", p.name()) {
			continue
		}
		seen[p.name()] = true
		assert.Empty(t, without(p.ours(), plan.ours), "%s imports what the plan does not allow", p.name())
		assert.Empty(t, without(plan.ours, p.ours()), "the plan allows %s what it does not import", p.name())
		assert.Empty(t, without(p.outside(), plan.outside), "%s imports a library that the plan does not allow", p.name())
		assert.Empty(t, without(plan.outside, p.outside()), "the plan allows %s a library that it does not import", p.name())
	}
	for name := range allowed {
		assert.True(t, seen[name], "%s is in the plan and is no package", name)
	}
}

// without returns what is in the list and not in the other one.
func without(list, other []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(one string) bool { return slices.Contains(other, one) })
}

func TestWhatServesTestsIsImportedByTestsOnly(t *testing.T) {
	for _, p := range packages(t) {
		if slices.Contains(forTests, p.name()) {
			continue // it may build on others that serve tests
		}
		for _, name := range p.ours() {
			assert.NotContains(t, forTests, name, "%s is no test", p.name())
		}
	}
	for name, plan := range allowed {
		if !slices.Contains(forTests, name) {
			assert.Empty(t, without(plan.ours, without(plan.ours, forTests)), name)
		}
		if !slices.Contains(forTests, name) {
			assert.NotContains(t, strings.Join(plan.outside, " "), "testify", name)
		}
	}
}

// storeys are the houses from the ground up; those on one storey do not know
// each other.
func storey(name string) int {
	switch first, _, _ := strings.Cut(name, "/"); {
	case first == "model":
		return 0
	case strings.HasPrefix(name, "capital/decision"):
		return 2
	case first == "rental" || first == "capital":
		return 1
	case first == "reports":
		return 3
	case first == "cmd":
		return 4
	}
	return -1
}

func TestThePlanPointsDown(t *testing.T) {
	for name, plan := range allowed {
		require.GreaterOrEqual(t, storey(name), 0, "%s stands in none of the folders", name)
		house, _, _ := strings.Cut(name, "/")
		for _, below := range plan.ours {
			other, _, _ := strings.Cut(below, "/")
			assert.True(t, storey(below) < storey(name) || storey(below) == storey(name) && house == other, "%s may not know %s", name, below)
		}
	}
}

func TestCommandsComputeNothing(t *testing.T) {
	for _, p := range packages(t) {
		if storey(p.name()) != 4 {
			continue
		}
		for _, path := range p.Imports {
			assert.False(t, path == "math" || strings.HasPrefix(path, "math/"), "%s imports %s", p.name(), path)
		}
	}
}
