package workbook_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/model/intake"
	"shopstint/model/studygen"
	"shopstint/reports/workbook/recalc"
)

// reread reads a decision workbook back.
func reread(t testing.TB, path string) *intake.Book {
	t.Helper()
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	book, problems := intake.Load("decision.xlsx", content)
	require.Empty(t, problems)
	return book
}

func TestAnUneditedDecisionWorkbookIsItsStudyToTheLastDigit(t *testing.T) {
	studies := map[string]*model.Study{"demo": demoStudy(t)}
	for seed := range uint64(6) {
		studies["seed "+string(rune('a'+seed))] = studygen.Study(seed)
	}
	for name, s := range studies {
		book := reread(t, saved(t, "a.xlsx", s))
		assert.Empty(t, book.Edits, name)
		assertSame(t, name, s, book.Study)
		assertSame(t, name, s, book.Solved)
	}
}

// assertSame compares values exactly, and what is known of each.
func assertSame(t testing.TB, name string, want, got *model.Study) {
	t.Helper()
	found := map[string]model.Leaf{}
	model.Walk(got, func(leaf model.Leaf) { found[leaf.Path] = leaf })
	model.Walk(want, func(leaf model.Leaf) {
		require.Contains(t, found, leaf.Path, name)
		assert.Equal(t, leaf.Value.Interface(), found[leaf.Path].Value.Interface(), "%s: %s", name, leaf.Path)
		a, b := want.Origins[leaf.Path], got.Origins[leaf.Path]
		assert.InDelta(t, a.Low, b.Low, 1e-12*max(1, a.High), "%s: %s", name, leaf.Path)
		assert.InDelta(t, a.High, b.High, 1e-12*max(1, a.High), "%s: %s", name, leaf.Path)
		a.Low, a.High, b.Low, b.High = 0, 0, 0, 0
		assert.Equal(t, a, b, "%s: %s", name, leaf.Path)
	})
}

func TestEditsAreToldFromWhatASpreadsheetCutsOff(t *testing.T) {
	file := saved(t, "demo.xlsx", demoStudy(t))
	cached, _ := recalc.Cached(t, file)
	edited := recalc.Edited(t, file,
		recalc.Edit{Sheet: "Inputs", Cell: place(t, cached, "machines.planer20.price"), Value: 5200},
		recalc.Edit{Sheet: "Inputs", Cell: place(t, cached, "shops.big_shop.tariff.hourly_rate"), Value: 190},
		recalc.Edit{Sheet: "Inputs", Cell: place(t, cached, "studio.vehicle.cost"), Value: 0.7},
		recalc.Edit{Sheet: "Inputs", Cell: place(t, cached, "job_types.solid_dining.after_hours"), Value: "yes"},
		recalc.Edit{Sheet: "Inputs", Cell: place(t, cached, "machines.planer20.training"), Value: 300},
	)
	for name, path := range map[string]string{"as edited": edited, "saved by LibreOffice": recalc.LibreOffice(t).Saved(t, edited)} {
		book := reread(t, path)
		now := map[string]string{}
		for _, edit := range book.Edits {
			now[edit.Path] = edit.Was + " → " + edit.Now
			assert.Equal(t, "Inputs", edit.Place.Sheet)
		}
		assert.Equal(t, map[string]string{
			"machines.planer20.price":            "3900 → 5200",
			"shops.big_shop.tariff.hourly_rate":  "150 per h → 190 per h",
			"job_types.solid_dining.after_hours": "no → yes",
			"machines.planer20.training":         "0 → 300",
		}, now, name)
		assertSame(t, name, demoStudy(t), book.Solved)

		price := book.Study.Origins["machines.planer20.price"]
		assert.False(t, price.Assumed)
		assert.InDelta(t, 5200, price.High, 0, "the range takes the edited value in")
		assert.InDelta(t, 3500, price.Low, 0)
		assert.Equal(t, "two quotes", price.Source)
		assert.Equal(t, model.Origin{}, book.Study.Origins["machines.planer20.training"], "what was assumed is given now")
	}
}

// TestSolvedAgainTheWorkbookSaysWhatTheEditedOneShows holds the promise of solving
// again: the edited study has the very figures that the live workbook showed.
func TestSolvedAgainTheWorkbookSaysWhatTheEditedOneShows(t *testing.T) {
	file := saved(t, "demo.xlsx", demoStudy(t))
	cached, _ := recalc.Cached(t, file)
	for name, list := range liveCases {
		var edits []recalc.Edit
		for _, e := range list {
			edits = append(edits, e.at(t, cached))
		}
		book := reread(t, recalc.Edited(t, file, edits...))
		require.Len(t, book.Edits, len(list), name)
		want, got := decision.Decide(editedStudy(t, list)), decision.Decide(book.Study)
		require.Equal(t, len(want.Machines), len(got.Machines), name)
		for i := range want.Machines {
			assert.InDelta(t, want.Machines[i].Difference, got.Machines[i].Difference, 1e-6, name)
		}
	}
}

func TestWhatCannotBeSolvedAgainIsNamedByItsCell(t *testing.T) {
	file := saved(t, "demo.xlsx", demoStudy(t))
	cached, _ := recalc.Cached(t, file)
	at := func(path string) string { return place(t, cached, path) }
	rate, price, yes := at("studio.tax_rate"), at("machines.planer20.price"), at("job_types.coffee.after_hours")
	content, err := os.ReadFile(recalc.Edited(t, file,
		recalc.Edit{Sheet: "Inputs", Cell: rate, Value: 24},
		recalc.Edit{Sheet: "Inputs", Cell: price, Value: "ask"},
		recalc.Edit{Sheet: "Inputs", Cell: yes, Value: "maybe"},
		recalc.Edit{Sheet: "Inputs", Cell: at("studio.people"), Value: 2.5},
		recalc.Edit{Sheet: "Inputs", Cell: at("edges.knives20.price"), Value: ""},
	))
	require.NoError(t, err)
	book, problems := intake.Load("d.xlsx", content)
	require.Nil(t, book)
	cells := map[string]bool{}
	for _, p := range problems {
		assert.Equal(t, "Inputs", p.Place.Sheet)
		cells[p.Place.Cell] = true
	}
	for _, cell := range []string{rate, price, yes, at("edges.knives20.price")} {
		assert.True(t, cells[cell], "%s: %v", cell, problems)
	}
}
