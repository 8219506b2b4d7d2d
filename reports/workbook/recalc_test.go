package workbook_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/reports/workbook"
	"shopstint/reports/workbook/recalc"
)

// tolerance is relative, with a floor of the same size: what two programs that
// add in another order may differ by.
const tolerance = 1e-9

func demoStudy(t testing.TB) *model.Study {
	t.Helper()
	read, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return read
}

func written(t testing.TB, s *model.Study) []byte {
	t.Helper()
	answer := decision.Decide(s)
	return writtenOf(t, &answer)
}

func writtenOf(t testing.TB, answer *decision.Answer) []byte {
	t.Helper()
	var content bytes.Buffer
	require.NoError(t, workbook.Write(&content, answer, workbook.Options{Created: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}))
	return content.Bytes()
}

func saved(t testing.TB, name string, s *model.Study) string {
	t.Helper()
	return kept(t, name, written(t, s))
}

// kept is the path of a file with some content.
func kept(t testing.TB, name string, content []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, content, 0o600))
	return path
}

// TestTheDemosWholeWorkbookRecalculatesToTheEngineInTwoPrograms has every sheet there is.
func TestTheDemosWholeWorkbookRecalculatesToTheEngineInTwoPrograms(t *testing.T) {
	file, _, _ := whole(t)
	cached, formulas := recalc.Cached(t, file)
	office := recalc.LibreOffice(t).Recalculate(t, file)
	tally := recalc.Compare(t, cached, formulas, office[0], tolerance)
	assert.Greater(t, tally.Numbers, 10000, "formula cells compared")
	tally = recalc.Compare(t, cached, formulas, recalc.Gnumeric(t, file)[0], tolerance)
	assert.Greater(t, tally.Numbers, 10000, "formula cells compared")
}

// generated is how many generated studies are recalculated: a handful, or as
// many as SHOPSTINT_STUDIES says.
func generated(t testing.TB) []uint64 {
	text := os.Getenv("SHOPSTINT_STUDIES")
	if text == "" {
		return []uint64{6, 2, 1} // without decimals, with two, and with three
	}
	count, err := strconv.Atoi(text)
	require.NoError(t, err, "SHOPSTINT_STUDIES must be a number of studies")
	var seeds []uint64
	for seed := range count {
		seeds = append(seeds, uint64(seed))
	}
	return seeds
}

// batch is how many workbooks one start of the office program recalculates.
const batch = 10

func TestGeneratedStudiesRecalculateToTheEngine(t *testing.T) {
	office, numbers, seeds := recalc.LibreOffice(t), 0, generated(t)
	places := map[int]bool{}
	for some := range slices.Chunk(seeds, batch) {
		var files []string
		var answers []decision.Answer
		for _, seed := range some {
			study := studygen.Study(seed)
			places[study.Money.Places()] = true
			answer := decision.Decide(study)
			answers, files = append(answers, answer), append(files, kept(t, fmt.Sprintf("study%d.xlsx", seed), writtenOf(t, &answer)))
		}
		both := min(1, len(files)) // as many as gnumeric is asked for, too
		for i, got := range recalc.Gnumeric(t, files[:both]...) {
			cached, formulas := recalc.Cached(t, files[i])
			recalc.Compare(t, cached, formulas, got, tolerance)
		}
		for i, got := range office.Recalculate(t, files...) {
			cached, formulas := recalc.Cached(t, files[i])
			differences, tally := recalc.Differences(cached, formulas, got, tolerance)
			assert.Emptyf(t, differences, "generated study with seed %d", some[i])
			assert.NotZero(t, tally.Numbers)
			assertCases(t, &answers[i], 0, got, fmt.Sprintf("seed %d", some[i]))
			numbers += tally.Numbers
		}
	}
	t.Logf("%d studies, %d numeric formula cells compared", len(seeds), numbers)
	assert.Greater(t, numbers, 1000*len(seeds))
	assert.Equal(t, map[int]bool{0: true, 2: true, 3: true}, places, "decimals of the currencies")
}

// edit changes one input in the study and in the workbook.
type edit struct {
	path  string
	value float64 // as shown in the input sheet, in the study's units
	word  string  // for a yes or no
}

// at is the edit as it is typed into the sheet of inputs.
func (e edit) at(t testing.TB, cached recalc.Sheets) recalc.Edit {
	t.Helper()
	typed := recalc.Edit{Sheet: "Inputs", Cell: place(t, cached, e.path), Value: e.value}
	if e.word != "" {
		typed.Value = e.word
	}
	return typed
}

// liveCases are edits that a user makes, each with the engine's own answer to
// the edited study beside it.
var liveCases = map[string][]edit{
	"the tariff": {{path: "shops.big_shop.tariff.hourly_rate", value: 190}, {path: "shops.big_shop.tariff.minimum_block", value: 75},
		{path: "shops.big_shop.tariff.increment", value: 20}},
	"day and half day off, after hours": {{path: "shops.big_shop.tariff.day_price", value: 0}, {path: "shops.big_shop.tariff.half_day_price", value: 0},
		{path: "job_types.solid_dining.after_hours", word: "yes"}},
	"jobs a year, farther away": {{path: "job_types.coffee.per_year", value: 25.5}, {path: "job_types.river_dining.per_year", value: 0},
		{path: "shops.big_shop.distance", value: 40}, {path: "shops.big_shop.drive_time", value: 70}},
	"price, rework and discount rate": {{path: "machines.sander43_used.price", value: 26000}, {path: "studio.discount_rate", value: 0.13},
		{path: "job_types.river_dining.rework_chance", value: 0.8}},
	"no discounting": {{path: "studio.discount_rate", value: 0}},
	"ways of doing the same work": {{path: "comparisons.thick_cuts.yearly_length", value: 0.05}, {path: "comparisons.thick_cuts.ways.deep.feed", value: 2},
		{path: "comparisons.flush_edges.ways.spiral.spares", value: 3}, {path: "comparisons.flush_edges.ways.straight.life_factor", value: 0.8},
		{path: "comparisons.tiny_faults.waiting_rate", value: 0}, {path: "comparisons.last_grits.ways.mesh.passes", value: 3},
		{path: "edges.rail_blade.sudden_share", value: 0.0005}, {path: "machines.rail_saw.upkeep_rise", value: 0}},
	"pieces that fit no more": {{path: "job_types.river_dining.pieces.halves.width", value: 22}, {path: "job_types.river_dining.pieces.top.thickness", value: 3.9},
		{path: "shops.big_shop.machines.sander43.takes_resin", word: "no"}},
	"a piece that fits the small, smaller van": {{path: "job_types.river_dining.pieces.top.width", value: 24}, {path: "studio.lift_limit", value: 90},
		{path: "studio.vehicle.payload", value: 120}},
	"replaced within the horizon, with a loan": {{path: "machines.planer24.years_kept", value: 4}, {path: "machines.sander43_used.loan.share", value: 0.6},
		{path: "machines.sander43_used.loan.months", value: 54}},
	"edges that end by size and by damage": {{path: "edges.flush_bit.size_spare", value: 0.02}, {path: "edges.spiral_bit.size_lost", value: 0}, {path: "edges.flush_bit.sudden_share", value: 0.5},
		{path: "edges.knives20.damage_spends", value: 0.5}, {path: "edges.rail_blade.sudden_share", value: 0}, {path: "edges.small_blade.turnaround", value: 90}, {path: "abrasives.disc180.sudden_share", value: 0}},
	"edges that grow dull": {{path: "edges.sled_inserts.dull_feed", value: 0.6}, {path: "edges.panel_blade.dull_feed", value: 0}, {path: "studio.labour_rate", value: 150},
		{path: "edges.knives24.change_time", value: 5}, {path: "job_types.river_dining.rework_chance", value: 0.6}},
	"edge life, growth and tax": {{path: "edges.knives20.life", value: 1.5}, {path: "job_types.benches.growth", value: -0.05}, {path: "growth.rental", value: 0.09},
		{path: "studio.tax_rate", value: 0.41}, {path: "machines.planer20.tax.first_year", value: 0.5}},
}

// place is where an input's value stands on the input sheet.
func place(t testing.TB, cached recalc.Sheets, path string) string {
	t.Helper()
	for cell, value := range cached["Inputs"] {
		if strings.HasPrefix(cell, "A") && value.Text == path {
			return "B" + cell[1:]
		}
	}
	require.Failf(t, "no such input", "%s has no row on the input sheet", path)
	return ""
}

func TestEditedInputsRecalculateToTheEngineOnTheEditedStudy(t *testing.T) {
	file := saved(t, "demo.xlsx", demoStudy(t))
	cached, _ := recalc.Cached(t, file)
	var names []string
	var sets [][]recalc.Edit
	for name, edits := range liveCases {
		names = append(names, name)
		var set []recalc.Edit
		for _, e := range edits {
			set = append(set, e.at(t, cached))
		}
		sets = append(sets, set)
	}
	for i, got := range recalc.LibreOffice(t).RecalculateEach(t, file, sets) {
		want, formulas := recalc.Cached(t, saved(t, "edited.xlsx", editedStudy(t, liveCases[names[i]])))
		assertStale(t, formulas, got, len(liveCases[names[i]]))
		leaveSolved(formulas, cached)
		differences, tally := recalc.Differences(want, formulas, got, tolerance)
		assert.Emptyf(t, differences, "edited: %s", names[i])
		assert.Greater(t, tally.Numbers, 10000)
	}
}

// editedStudy is the demo with the same edits made to the study itself.
func editedStudy(t testing.TB, edits []edit) *model.Study {
	t.Helper()
	edited := demoStudy(t)
	for _, e := range edits {
		found := false
		model.Walk(edited, func(leaf model.Leaf) {
			if leaf.Path != e.path {
				return
			}
			found = true
			if e.word != "" {
				leaf.Value.SetBool(e.word == "yes")
				return
			}
			leaf.SetNumber(workbook.Inward(edited, leaf, e.value))
		})
		require.True(t, found, e.path)
	}
	return edited
}

// assertStale asks that every stamp tells how many inputs were edited.
func assertStale(t *testing.T, formulas recalc.Formulas, live recalc.Sheets, edits int) {
	t.Helper()
	stamps := 0
	for name, sheet := range formulas {
		for cell, formula := range sheet {
			if strings.HasPrefix(formula, "IF(inputs_edited=0,") {
				stamps++
				assert.Regexp(t, fmt.Sprintf("^stale: %d inputs? edited; solve again$", edits), live[name][cell].Text, "%s!%s", name, cell)
			}
		}
	}
	assert.Equal(t, 8, stamps, "on the answer, the break-even, the ranges, the sets, the roadmap and three sheets of spending")
}

// leaveSolved takes out what only a fresh run of the program can bring up to
// date: the stamps of what was solved, sums of solved figures, and cells that are
// formulas in one of the two workbooks only.
func leaveSolved(formulas recalc.Formulas, live recalc.Sheets) {
	delete(formulas["Checks"], "E3")
	for _, sheet := range []string{"Yearly spend", "Monthly spend", "Replacements"} {
		delete(formulas, sheet)
	}
	for _, sheet := range formulas {
		for cell, formula := range sheet {
			if strings.HasPrefix(formula, "IF(inputs_edited=0,") {
				delete(sheet, cell)
			}
		}
	}
	for cell := range formulas["Owning"] {
		if strings.HasPrefix(formulas["Owning"][cell], "IFERROR(IRR(") && live["Owning"][cell].Text == "none" {
			delete(formulas["Owning"], cell)
		}
	}
}

func TestTheSameStudyGivesTheSameBytes(t *testing.T) {
	first := written(t, demoStudy(t))
	for range 5 {
		require.True(t, bytes.Equal(first, written(t, demoStudy(t))), "two writes of one study differ")
	}
}

func BenchmarkWriteDemo(b *testing.B) {
	answer := decision.Decide(demoStudy(b))
	for b.Loop() {
		var content bytes.Buffer
		if err := workbook.Write(&content, &answer, workbook.Options{Created: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}); err != nil {
			b.Fatal(err)
		}
	}
}
