package study_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/study"
)

const small = `shops:
  mill:
    distance: 25 km
    tariff: {hourly_rate: 85 per h}
    machines: {planer: {class: planer}, belt: {class: wide_belt}}
machines:
  planer20: {class: planer, price: {value: 3200, low: 3000, high: 3500, note: with carriage}}
job_types:
  top: {per_year: 24, operations: {plane: {class: planer}, sand: {class: wide_belt, grits: {80: 0.6 mm, 120: 0.3 mm}}}}
units: inch
currency: EUR
`

// entered are the same inputs as a form holds them.
func entered() []study.Entry {
	var entries []study.Entry
	for row, one := range [][2]string{
		{"currency", "EUR"}, {"units", "inch"}, {"shops.mill.distance", "25 km"}, {"shops.mill.tariff.hourly_rate", "85 per h"}, {"shops.mill.machines.planer.class", "planer"}, {"shops.mill.machines.belt.class", "wide_belt"},
		{"machines.planer20.class", "planer"}, {"machines.planer20.price", "3200"}, {"job_types.top.per_year", "24"}, {"job_types.top.operations.plane.class", "planer"},
		{"job_types.top.operations.sand.class", "wide_belt"}, {"job_types.top.operations.sand.grits.80.stock", "0.6 mm"}, {"job_types.top.operations.sand.grits.120.stock", "0.3 mm"},
	} {
		at := problem.Place{File: "form", Sheet: "S", Cell: "C" + string(rune('a'+row))}
		e := study.Entry{Path: one[0], Which: at, Named: at, Value: study.Text{Text: one[1], Place: at}}
		if e.Path == "machines.planer20.price" {
			e.Low, e.High, e.Note = study.Text{Text: "3000", Place: at}, study.Text{Text: "3500", Place: at}, study.Text{Text: "with carriage", Place: at}
		}
		entries = append(entries, e)
	}
	return entries
}

func TestAFormIsReadAsTheStudyOfItsEntries(t *testing.T) {
	want, _, problems := study.Load("small.yaml", []byte(small))
	require.Empty(t, problems)
	got, _, problems := study.LoadForm(study.Form{Name: "form", Entries: entered()})
	require.Empty(t, problems)
	assert.Equal(t, want, got)
	assert.Equal(t, "inch", got.Units)
	assert.Equal(t, model.Origin{HasRange: true, Low: 3000, High: 3500, Note: "with carriage"}, got.Origins["machines.planer20.price"])
}

func TestAWordOfAFormThatHasARemarkIsOneProblem(t *testing.T) {
	entries := entered()
	at := problem.Place{File: "form", Sheet: "S", Cell: "E9"}
	for i := range entries {
		if entries[i].Path == "machines.planer20.class" {
			entries[i].Note = study.Text{Text: "as the plate says", Place: at}
		}
	}
	_, _, problems := study.LoadForm(study.Form{Name: "form", Entries: entries})
	require.Len(t, problems, 1)
	assert.Equal(t, "machines.planer20.class has a note", problems[0].What)
	assert.Equal(t, at, problems[0].Place)
}

// The keys of a study may come in any order: what comes last counts for all above it.
func TestMoneyAndUnitsThatComeLastHoldForAll(t *testing.T) {
	_, _, problems := study.Load("s.yaml", []byte(replaced(t, small, "value: 3200", "value: 3200 USD")))
	require.Len(t, problems, 1)
	assert.Equal(t, "machines.planer20.price is in USD and the study in EUR", problems[0].What)

	inch := strings.Replace(small, "units: inch\n", "", 1) + "units: inch\n"
	_, _, problems = study.Load("s.yaml", []byte(replaced(t, inch, "distance: 25 km", "distance: 9000 km")))
	require.Len(t, problems, 1)
	assert.Regexp(t, `^give a value from 0 mi to [0-9.]+ mi$`, problems[0].Right)
}

func TestAWrittenStudyNamesAGritAndItsStockOnOneLine(t *testing.T) {
	read, places, problems := study.Load("small.yaml", []byte(small))
	require.Empty(t, problems)
	text, err := study.Write(read, places, "")
	require.NoError(t, err)
	assert.Contains(t, string(text), "80: 0.6 mm\n")
	again, _, problems := study.Load("again.yaml", text)
	require.Empty(t, problems)
	assert.Equal(t, "inch", again.Units)
	assert.Equal(t, "EUR", again.Currency)
}

func TestAShareOverOneIsAskedForItsPercentSign(t *testing.T) {
	for value, right := range map[string]string{
		"1.5": "; a percentage has its sign: 1.5 %", "25": "; a percentage has its sign: 25 %", "150 %": "", "-0.5": "",
	} {
		_, _, problems := study.Load("s.yaml", []byte(small+"studio: {tax_rate: "+value+"}\n"))
		require.Len(t, problems, 1, value)
		assert.Contains(t, problems[0].Right, "give a value from 0 % to ", value)
		if right == "" {
			assert.NotContains(t, problems[0].Right, "sign", value)
		} else {
			assert.Contains(t, problems[0].Right, right, value)
		}
	}
}

func TestAnInputThatMustBeGivenIsMissedOnce(t *testing.T) {
	for from, path := range map[string]string{
		"planer20: {class: planer, ": "machines.planer20.class", "top: {per_year: 24, ": "job_types.top.per_year", "{plane: {class: planer}, ": "job_types.top.operations.plane.class",
	} {
		kept := map[string]string{"planer20: {class: planer, ": "planer20: {", "top: {per_year: 24, ": "top: {", "{plane: {class: planer}, ": "{plane: {faces: 2}, "}[from]
		_, _, problems := study.Load("s.yaml", []byte(replaced(t, small, from, kept)))
		require.Len(t, problems, 1, path)
		assert.Equal(t, path, problems[0].Path)
	}
}

func TestAnEditBehindALastLineWithoutItsBreakGivesItOne(t *testing.T) {
	const before = "currency: EUR\nunits: metric\n" + `shops: {mill: {distance: 25 km, tariff: {hourly_rate: 85 per h}, machines: {planer: {class: planer}}}}
machines: {planer20: {class: planer, price: 3200}}
job_types:
  top:
    operations: {plane: {class: planer}}
    per_year: 24`
	after, err := study.Edit("kept.yaml", []byte(before), []study.Change{{Path: "job_types.top.loading_time", Value: "20 min"}})
	require.NoError(t, err)
	assert.Equal(t, before+"\n    loading_time: 20 min\n", string(after))
}

// replaced is a text with one part of it changed, which must be there.
func replaced(t *testing.T, text, from, to string) string {
	t.Helper()
	require.Contains(t, text, from)
	return strings.Replace(text, from, to, 1)
}
