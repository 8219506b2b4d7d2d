package study_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/study"
)

// cell is a place of a form, named by its column and what it is about.
func cell(column, row string) problem.Place {
	return problem.Place{File: "form", Sheet: "S", Cell: column + row}
}

// row is an entry whose texts each have a place of their own: W names the member, N the
// input, V is the value, L and H its range, S its shape, M its note and Q its source.
func row(path, value string, besides ...string) study.Entry {
	at := func(column, text string) study.Text { return study.Text{Text: text, Place: cell(column, "-"+path)} }
	e := study.Entry{Path: path, Which: cell("W", "-"+path), Named: cell("N", "-"+path), Value: at("V", value),
		Low: at("L", ""), High: at("H", ""), Shape: at("S", ""), Note: at("M", ""), Source: at("Q", "")}
	for i, text := range besides {
		*[]*study.Text{&e.Low, &e.High, &e.Shape, &e.Note, &e.Source}[i] = at([]string{"L", "H", "S", "M", "Q"}[i], text)
	}
	return e
}

// least are the rows of a form that says just enough.
func least() []study.Entry {
	return []study.Entry{
		row("currency", "EUR"), row("units", "metric"), row("shops.mill.distance", "25 km"), row("shops.mill.tariff.hourly_rate", "85 per h"), row("shops.mill.machines.planer.class", "planer"),
		row("machines.planer20.class", "planer"), row("machines.planer20.price", "3200"), row("job_types.top.per_year", "24"), row("job_types.top.operations.plane.class", "planer"),
	}
}

// toldOf are the problems of a form as "place: what; right".
func toldOf(entries []study.Entry) []string {
	_, _, problems := study.LoadForm(study.Form{Name: "form", Home: cell("A", "1"), Entries: entries})
	var lines []string
	for _, one := range problems {
		line := one.Place.Cell + ": " + one.What + "; " + one.Right
		for _, also := range one.Also {
			line += " (" + also.Cell + ")"
		}
		lines = append(lines, line)
	}
	return lines
}

func TestEachProblemOfAFormStandsInTheCellThatIsWrong(t *testing.T) {
	without := func(paths ...string) []study.Entry {
		return slices.DeleteFunc(least(), func(e study.Entry) bool { return slices.Contains(paths, e.Path) })
	}
	with := func(more ...study.Entry) []study.Entry { return append(least(), more...) }
	refused := row("machines.planer20.delivery", "?")
	refused.Refused = true
	refusedClass := row("machines.planer20.class", "")
	refusedClass.Refused = true
	for name, one := range map[string]struct {
		entries []study.Entry
		want    []string
	}{
		"nothing is wrong":            {least(), nil},
		"a blank row says nothing":    {with(row("studio.people", ""), row("machines.planer20.value_table.1", ""), row("studio.vehicle", ""), row("growth", ""), row("tools", ""), row("machines.planer20.loan.share", "")), nil},
		"a blank row of no input":     {with(row("machines.planer20.colour", ""), row("machines.planer20.colour.shade", ""), row("luck", ""), row("luck.more", "")), nil},
		"a missing input":             {without("machines.planer20.price"), []string{"W-machines.planer20.class: machines.planer20 has no price; give price, such as 22000 or 22000 USD"}},
		"a blank input":               {append(without("machines.planer20.price"), row("machines.planer20.price", "")), []string{"V-machines.planer20.price: machines.planer20 has no price; give price, such as 22000 or 22000 USD"}},
		"a member alone":              {append(without("machines.planer20.price", "machines.planer20.class"), row("machines.planer20", "")), []string{"W-machines.planer20: machines.planer20 has no class; give class: planer, wide_belt, panel_saw, track_saw, router, router_sled, orbital or other", "W-machines.planer20: machines.planer20 has no price; give price, such as 22000 or 22000 USD"}},
		"a list alone":                {append(without("machines.planer20.price", "machines.planer20.class"), row("machines", "")), []string{"V-machines: the study has no machines; give machines with at least one row"}},
		"no row of a list":            {without("machines.planer20.price", "machines.planer20.class"), []string{"A1: the study has no machines; give machines with at least one row"}},
		"an unknown input":            {with(row("machines.planer20", ""), row("machines.planer20.prise", "red")), []string{`N-machines.planer20.prise: unknown input "prise" in machines.planer20; did you mean "price"?`}},
		"an unknown input within one": {with(row("machines.planer20.loann.share", "50 %")), []string{`W-machines.planer20.loann.share: unknown input "loann" in machines.planer20; did you mean "loan"?`}},
		"a value beyond its limits":   {with(row("studio.people", "21")), []string{`V-studio.people: studio.people is "21"; give a value from 1 to 20`}},
		"a low beyond the value":      {with(row("studio.labour_rate", "50 per h", "51 per h", "60 per h")), []string{"V-studio.labour_rate: studio.labour_rate is 50 per h and its range runs from 51 per h to 60 per h; give low, value and high in rising order"}},
		"a low that is none":          {with(row("studio.labour_rate", "50 per h", "x", "60 per h")), []string{`L-studio.labour_rate: studio.labour_rate.low: "x" is not understood as an hourly rate; write 85 per h or 75 per 30 min`}},
		"a high that is none":         {with(row("studio.labour_rate", "50 per h", "40 per h", "x")), []string{`H-studio.labour_rate: studio.labour_rate.high: "x" is not understood as an hourly rate; write 85 per h or 75 per 30 min`}},
		"a shape that is none":        {with(row("studio.labour_rate", "50 per h", "40 per h", "60 per h", "round")), []string{`S-studio.labour_rate: studio.labour_rate.shape is "round"; one of pert, triangular, uniform, normal, lognormal`}},
		"a range without a value":     {with(row("studio.labour_rate", "", "40 per h", "60 per h")), []string{"V-studio.labour_rate: studio.labour_rate has no value; give value, and with it low, high, note and source as you like"}},
		"a note alone on a word":      {append(without("machines.planer20.class"), row("machines.planer20.class", "", "", "", "", "as it says")), []string{"M-machines.planer20.class: machines.planer20.class has a note; only figures keep a range, a note or a source; take it out"}},
		"a range and source on a word": {append(without("machines.planer20.class"), row("machines.planer20.class", "planer", "a", "", "", "", "b")), []string{"L-machines.planer20.class: machines.planer20.class has a low; only figures keep a range, a note or a source; take it out",
			"Q-machines.planer20.class: machines.planer20.class has a source; only figures keep a range, a note or a source; take it out"}},
		"a row that comes twice":         {with(row("studio.people", "2"), row("studio.people", "3")), []string{"N-studio.people: studio.people comes twice; keep one of the rows (N-studio.people)"}},
		"a table that begins with 2":     {with(row("machines.planer20.value_table.2", "60 %")), []string{`V-machines.planer20.value_table.2: row "2" of a table stands where row 1 is due; number the rows from 1 on without a gap`}},
		"a row that is none besides":     {with(row("machines.planer20.value_table.2", "x")), []string{`V-machines.planer20.value_table.2: row "2" of a table stands where row 1 is due; number the rows from 1 on without a gap`}},
		"a table with a gap":             {with(row("machines.planer20.value_table.1", "60 %"), row("machines.planer20.value_table.3", "50 %")), []string{`V-machines.planer20.value_table.3: row "3" of a table stands where row 2 is due; number the rows from 1 on without a gap`}},
		"a row of a table that is none":  {with(row("machines.planer20.value_table.1", "60 %"), row("machines.planer20.value_table.2", "x")), []string{`V-machines.planer20.value_table.2: machines.planer20.value_table.2: "x" is not understood as a share; write 12 % or 0.12`}},
		"a value refused before":         {with(refused), nil},
		"a needed value refused before":  {append(without("machines.planer20.class"), refusedClass), nil},
		"words of which one is unknown":  {with(row("machines.planer20.does", "planer rooter")), []string{`V-machines.planer20.does: machines.planer20.does has "rooter"; did you mean "router"?`}},
		"an input below a single value":  {with(row("studio.labour_rate.low", "40 per h")), []string{"W-studio.labour_rate.low: studio.labour_rate has no value; give value, and with it low, high, note and source as you like"}},
		"a blank input below such a one": {with(row("studio.labour_rate.low", "")), nil},
	} {
		assert.Equal(t, one.want, toldOf(one.entries), name)
	}
}

func TestAFormKeepsRangesTablesAndWhatWasAssumed(t *testing.T) {
	assumed, blank := row("studio.people", "2", "1", "3", "", "two of us", "owner"), row("studio.phases", "")
	assumed.Assumed, blank.Assumed = true, true
	entries := append(least(), assumed, blank, row("studio.labour_rate", "50 per h", "40 per h", "60 per h", "uniform"), row("growth.labour", "3 %", "", "", "", "", "the union"),
		row("machines.planer20.resale", "table"), row("machines.planer20.value_table.1", "70 %"), row("machines.planer20.value_table.2", "60 %", "50 %", "65 %"), row("machines.planer20.does", "planer router_sled"))
	known := false
	read, places, problems := study.LoadForm(study.Form{Name: "form", Entries: entries, Known: func(s *model.Study) { known = len(s.Machines[0].ValueTable) == 2 }})
	require.Empty(t, problems.Error())
	assert.True(t, known)
	assert.Equal(t, model.Origin{Assumed: true, HasRange: true, Low: 1, High: 3, Note: "two of us", Source: "owner"}, read.Origins["studio.people"])
	assert.Equal(t, "common practice, no source", read.Origins["studio.phases"].Source, "a blank cell is assumed anew")
	assert.Equal(t, model.Origin{HasRange: true, Low: 40, High: 60, Shape: "uniform"}, read.Origins["studio.labour_rate"])
	assert.Equal(t, model.Origin{Source: "the union"}, read.Origins["growth.labour"])
	assert.True(t, read.Origins["machines.planer20.value_table.2"].HasRange)
	assert.InDeltaSlice(t, []float64{0.7, 0.6}, []float64{float64(read.Machines[0].ValueTable[0]), float64(read.Machines[0].ValueTable[1])}, 1e-12)
	assert.Equal(t, []string{"planer", "router_sled"}, read.Machines[0].Does)
	for path, at := range map[string]string{"studio.people": "V-studio.people", "machines.planer20": "W-machines.planer20.class", "currency": "V-currency"} {
		assert.Equal(t, at, places[path].Cell, path)
	}
}

func TestProblemsOfTheFormItselfComeFirstOfAll(t *testing.T) {
	found := problem.List{{Place: cell("Z", "1"), What: "a cell is broken", Right: "mend it"}}
	read, _, problems := study.LoadForm(study.Form{Name: "form", Entries: least(), Found: found})
	assert.Nil(t, read)
	assert.Len(t, problems, 1)
	assert.Len(t, found, 1)
}
