package intake_test

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"shopstint/model/demo"
	"shopstint/model/intake"
	"shopstint/model/problem"
	"shopstint/model/study"
)

// demoForm is the demo as a form, made once.
var demoForm = sync.OnceValues(func() ([]byte, error) {
	read, places, problems := study.Load(demo.Name, demo.Study())
	if len(problems) > 0 {
		return nil, problems
	}
	return formBytes(read, places)
})

// hand is somebody at work in the form with a spreadsheet program.
type hand struct {
	t    testing.TB
	file *excelize.File
}

func columnOf(heading string) string {
	for i, one := range intake.Headings() {
		if one == heading {
			return string(rune('A' + i))
		}
	}
	return ""
}

// row finds the row of an input.
func (h hand) row(sheet, which, input string) int {
	rows, err := h.file.GetRows(sheet)
	require.NoError(h.t, err)
	for i, row := range rows {
		if len(row) > 1 && row[0] == which && row[1] == input {
			return i + 1
		}
	}
	require.Failf(h.t, "no such row", "%s: %s, %s", sheet, which, input)
	return 0
}

// cell is the cell of an input under a heading.
func (h hand) cell(sheet, which, input, heading string) string {
	return columnOf(heading) + strconv.Itoa(h.row(sheet, which, input))
}

func (h hand) set(sheet, cell string, value any) string {
	require.NoError(h.t, h.file.SetCellValue(sheet, cell, value))
	return sheet + "!" + cell
}

// enter types a value into the cell of an input.
func (h hand) enter(sheet, which, input, heading string, value any) string {
	return h.set(sheet, h.cell(sheet, which, input, heading), value)
}

// date enters the due date of a dated job as a number that is shown as a date.
func (h hand) date(which string, serial float64) string {
	cell := h.cell("Dated jobs", which, "due", intake.HeadValue)
	style, err := h.file.NewStyle(&excelize.Style{NumFmt: 14})
	require.NoError(h.t, err)
	require.NoError(h.t, h.file.SetCellStyle("Dated jobs", cell, cell, style))
	return h.set("Dated jobs", cell, serial)
}

// below is the first free row of a sheet.
func (h hand) below(sheet string) int {
	rows, err := h.file.GetRows(sheet)
	require.NoError(h.t, err)
	return len(rows) + 1
}

// add writes a row at the end of a sheet.
func (h hand) add(sheet string, values ...any) int {
	row := h.below(sheet)
	for i, value := range values {
		if value != nil {
			h.set(sheet, string(rune('A'+i))+strconv.Itoa(row), value)
		}
	}
	return row
}

func at(sheet, column string, row int) string { return sheet + "!" + column + strconv.Itoa(row) }

// broken are ways in which a form goes wrong: what is done to it, which gives the
// cell where it must be told, and words of the message.
var broken = map[string]struct {
	do   func(h hand) string
	says string
}{
	"a formula for a value": {func(h hand) string {
		cell := h.cell("Machines", "planer20", "price", intake.HeadValue)
		require.NoError(h.t, h.file.SetCellFormula("Machines", cell, "3000+900"))
		return "Machines!" + cell
	}, "is a formula; type the value itself"},
	"a formula for a source": {func(h hand) string {
		cell := h.cell("Machines", "planer20", "price", intake.HeadSource)
		require.NoError(h.t, h.file.SetCellFormula("Machines", cell, `"two"&" quotes"`))
		return "Machines!" + cell
	}, "price.source is a formula"},
	"a formula for a key": {func(h hand) string {
		cell := h.cell("Machines", "planer20", "price", intake.HeadWhich)
		require.NoError(h.t, h.file.SetCellFormula("Machines", cell, "A4"))
		return "Machines!" + cell
	}, "the name of the machine is a formula"},
	"text for a number": {func(h hand) string { return h.enter("Machines", "planer20", "price", intake.HeadValue, "about 3900") }, `"about 3900"`},
	"a decimal comma":   {func(h hand) string { return h.enter("Machines", "planer20", "motor", intake.HeadValue, "3,5") }, "comma"},
	"another currency":  {func(h hand) string { return h.enter("Machines", "planer20", "price", intake.HeadValue, "3900 EUR") }, "in EUR and the study in USD"},
	"no unit":           {func(h hand) string { return h.enter("Shops", "big_shop", "distance", intake.HeadUnit, nil) }, "has no unit"},
	"a unit of no use": {func(h hand) string {
		return strings.Replace(h.enter("Shops", "big_shop", "distance", intake.HeadUnit, "kg"), "!D", "!C", 1)
	}, "a mass"},
	"a unit of a word": {func(h hand) string { return h.enter("Machines", "planer20", "class", intake.HeadUnit, "mm") }, "is no figure"},
	"no day of the week": {func(h hand) string {
		return h.enter("Shops", "big_shop", "open_days", intake.HeadValue, "mon tues wed")
	}, `did you mean "tue"?`},
	"an unknown shape": {func(h hand) string { return h.enter("Machines", "planer20", "price", intake.HeadShape, "trianguler") }, `did you mean "triangular"?`},
	"a shape of no range": {func(h hand) string {
		return h.enter("Machines", "planer20", "delivery", intake.HeadShape, "uniform")
	}, "has a shape and no range"},
	"over the limit":         {func(h hand) string { return h.enter("Machines", "planer20", "price", intake.HeadValue, -1) }, "from 0 to 100000000"},
	"a share over all":       {func(h hand) string { return h.enter("Study", "studio", "tax_rate", intake.HeadValue, 24) }, "from 0 % to 90 %"},
	"not whole":              {func(h hand) string { return h.enter("Machines", "planer20", "first_edges", intake.HeadValue, 1.5) }, "a whole number"},
	"yes and no":             {func(h hand) string { return h.enter("Jobs", "coffee", "after_hours", intake.HeadValue, "sometimes") }, "write yes or no"},
	"a flag for a price":     {func(h hand) string { return h.enter("Machines", "planer20", "price", intake.HeadValue, true) }, `"TRUE"`},
	"a misspelt word":        {func(h hand) string { return h.enter("Machines", "planer20", "class", intake.HeadValue, "plainer") }, `did you mean "planer"?`},
	"a lost reference":       {func(h hand) string { return h.enter("Machines", "planer20", "edge", intake.HeadValue, "knives21") }, "knives2"},
	"a currency sign":        {func(h hand) string { return h.enter("Study", "study", "currency", intake.HeadValue, "$") }, "no currency code"},
	"no price":               {func(h hand) string { return h.enter("Machines", "planer20", "price", intake.HeadValue, nil) }, "has no value"},
	"no class":               {func(h hand) string { return h.enter("Tools", "router", "class", intake.HeadValue, nil) }, "tools.router has no class"},
	"no currency":            {func(h hand) string { return h.enter("Study", "study", "currency", intake.HeadValue, nil) }, "the study has no currency"},
	"no day of the calendar": {func(h hand) string { return h.enter("Dated jobs", "lee", "due", intake.HeadValue, "2027-02-30") }, "no day of the calendar"},
	"a time of day for a date": {func(h hand) string {
		return h.date("lee", 46465.25)
	}, "is a date or a time of day"},
	"one end of a range": {func(h hand) string {
		h.enter("Machines", "planer20", "price", intake.HeadLow, nil)
		return "Machines!" + h.cell("Machines", "planer20", "price", intake.HeadValue)
	}, "one end of a range"},
	"a range that falls": {func(h hand) string {
		h.enter("Machines", "planer20", "price", intake.HeadLow, 5000)
		return "Machines!" + h.cell("Machines", "planer20", "price", intake.HeadValue)
	}, "rising order"},
	"text for the end of a range": {func(h hand) string { return h.enter("Machines", "planer20", "price", intake.HeadHigh, "more") }, "price.high"},
	"a range of what stays": {func(h hand) string {
		h.enter("Study", "studio", "horizon", intake.HeadLow, 8)
		h.enter("Study", "studio", "horizon", intake.HeadHigh, 12)
		return "Study!" + h.cell("Study", "studio", "horizon", intake.HeadValue)
	}, "has a range; give the value alone"},
	"a range without a value": {func(h hand) string {
		h.enter("Machines", "planer20", "delivery", intake.HeadValue, nil)
		h.enter("Machines", "planer20", "delivery", intake.HeadLow, 300)
		h.enter("Machines", "planer20", "delivery", intake.HeadHigh, 500)
		return "Machines!" + h.cell("Machines", "planer20", "delivery", intake.HeadValue)
	}, "has no value"},
	"a note on a word": {func(h hand) string { return h.enter("Machines", "planer20", "class", intake.HeadNote, "I think") }, "only figures keep"},
	"a note too long": {func(h hand) string {
		return h.enter("Machines", "planer20", "price", intake.HeadNote, strings.Repeat("long ", 60))
	}, "characters; give at most 200"},
	"a note over lines": {func(h hand) string { return h.enter("Machines", "planer20", "price", intake.HeadNote, "one\ntwo") }, "several lines"},
	"a date": {func(h hand) string {
		place := h.enter("Machines", "planer20", "depth_per_pass", intake.HeadValue, 45785)
		style, err := h.file.NewStyle(&excelize.Style{NumFmt: 14})
		require.NoError(h.t, err)
		cell := strings.TrimPrefix(place, "Machines!")
		require.NoError(h.t, h.file.SetCellStyle("Machines", cell, cell, style))
		return place
	}, "5/8 as 0.625"},
	"merged values": {func(h hand) string {
		cell := h.cell("Machines", "planer20", "price", intake.HeadValue)
		require.NoError(h.t, h.file.MergeCell("Machines", cell, columnOf(intake.HeadValue)+strconv.Itoa(h.row("Machines", "planer20", "price")+2)))
		return "Machines!" + cell
	}, "are merged; unmerge them"},
	"a row twice": {func(h hand) string {
		return at("Machines", "B", h.add("Machines", "planer20", "price", 4000))
	}, "comes twice; keep one of the rows (also: form.xlsx!Machines!B"},
	"an input misspelt": {func(h hand) string { return at("Machines", "B", h.add("Machines", "planer20", "prise", 4000)) }, `unknown input "prise" in machines.planer20; did you mean "price"?`},
	"an input unheard of": {func(h hand) string {
		return at("Jobs", "B", h.add("Jobs", "coffee / sand", "varnish", 2))
	}, `unknown input "varnish"`},
	"a part of an input misspelt": {func(h hand) string { return at("Shops", "B", h.add("Shops", "big_shop", "tariff.hour_rate", 2)) }, `"hourly_rate"?`},
	"no key":                      {func(h hand) string { return at("Machines", "A", h.add("Machines", nil, "price", 4000)) }, "does not say which machine"},
	"no input":                    {func(h hand) string { return at("Machines", "B", h.add("Machines", "planer20", nil, 4000)) }, "names no input"},
	"a key in capitals":           {func(h hand) string { return at("Edges", "A", h.add("Edges", "Big Blade", "price", 40)) }, "is no key for a member"},
	"a grit without a number":     {func(h hand) string { return at("Jobs", "A", h.add("Jobs", "coffee / sand / fine", "stock", 0.1, "mm")) }, "use the grit number"},
	"a member within none":        {func(h hand) string { return at("Machines", "A", h.add("Machines", "planer20 / x", "price", 40)) }, "is no machine"},
	"a section unheard of":        {func(h hand) string { return at("Study", "A", h.add("Study", "studios", "people", 2)) }, `did you mean "studio"?`},
	"a gap in a table":            {func(h hand) string { return at("Machines", "C", h.add("Machines", "planer20", "value_table.2", 0.5)) }, "row 1 is due"},
	"a sheet of one's own": {func(h hand) string {
		_, err := h.file.NewSheet("Sums")
		require.NoError(h.t, err)
		h.set("Sums", "B7", 1)
		return "Sums!A1"
	}, `unknown sheet "Sums"`},
	"a sheet renamed": {func(h hand) string {
		require.NoError(h.t, h.file.SetSheetName("Machines", "Machine"))
		return "Machine!A1"
	}, `did you mean "Machines"?`},
	"headings taken away": {func(h hand) string {
		require.NoError(h.t, h.file.RemoveRow("Tools", 3))
		return "Tools!A1"
	}, "no row of headings"},
	"a heading changed": {func(h hand) string { h.set("Tools", "D3", "units"); return "Tools!A3" }, `no column "unit"`},
	"far out":           {func(h hand) string { return h.set("Tools", "CA7", 1) }, "beyond the part of the sheet"},
	"every machine deleted": {func(h hand) string {
		for row := h.below("Machines"); row > 3; row-- {
			require.NoError(h.t, h.file.RemoveRow("Machines", row))
		}
		return "Machines!A1"
	}, "the study has no machines"},
	"a hidden row": {func(h hand) string {
		place := h.enter("Machines", "planer20", "price", intake.HeadValue, "secret")
		require.NoError(h.t, h.file.SetRowVisible("Machines", h.row("Machines", "planer20", "price"), false))
		return place
	}, `"secret"`},
	"a rule of the whole study": {func(h hand) string {
		return h.enter("Shops", "big_shop", "tariff.half_day_price", intake.HeadValue, 900)
	}, "day"},
	"the mark of another version": {func(h hand) string { return h.set(intake.ReadMe, "B3", "shopstint.intake/9") }, "shopstint.intake/9"},
}

func TestABrokenFormIsToldAtItsCell(t *testing.T) {
	require.GreaterOrEqual(t, len(broken), 30)
	content, err := demoForm()
	require.NoError(t, err)
	for name, row := range broken {
		t.Run(name, func(t *testing.T) {
			file, err := excelize.OpenReader(bytes.NewReader(content))
			require.NoError(t, err)
			place := row.do(hand{t, file})
			var out bytes.Buffer
			require.NoError(t, file.Write(&out))
			wanted(t, out.Bytes(), place, row.says)
		})
	}
}

// wanted wants a problem at a cell that says certain words.
func wanted(t *testing.T, content []byte, place, says string) {
	t.Helper()
	book, problems := intake.Load("form.xlsx", content)
	require.Nil(t, book)
	require.NotEmpty(t, problems)
	for _, p := range problems {
		if p.Place.String() == "form.xlsx!"+place && strings.Contains(p.Error(), says) {
			return
		}
	}
	assert.Failf(t, "not told", "want %q at %s, got\n%s", says, place, problems.Error())
}

func TestOneWrongCellIsOneProblem(t *testing.T) {
	content, err := demoForm()
	require.NoError(t, err)
	for _, name := range []string{"a formula for a value", "text for a number", "no unit", "no day of the week", "a date", "no class", "no price", "a share over all", "a note on a word", "a misspelt word", "a formula for a source"} {
		file, err := excelize.OpenReader(bytes.NewReader(content))
		require.NoError(t, err)
		if name == "no price" {
			h := hand{t, file}
			for _, heading := range []string{intake.HeadLow, intake.HeadHigh, intake.HeadSource} {
				h.enter("Machines", "planer20", "price", heading, nil)
			}
		}
		broken[name].do(hand{t, file})
		var out bytes.Buffer
		require.NoError(t, file.Write(&out))
		_, problems := intake.Load("form.xlsx", out.Bytes())
		assert.Len(t, problems, 1, "%s: %s", name, problems.Error())
	}
}

func TestAllProblemsAreToldAtOnceInOrder(t *testing.T) {
	content, err := demoForm()
	require.NoError(t, err)
	file, err := excelize.OpenReader(bytes.NewReader(content))
	require.NoError(t, err)
	names := []string{"text for a number", "no currency", "a note on a word", "yes and no", "no unit", "a row twice"}
	for _, name := range names {
		broken[name].do(hand{t, file})
	}
	var out bytes.Buffer
	require.NoError(t, file.Write(&out))
	_, problems := intake.Load("form.xlsx", out.Bytes())
	assert.GreaterOrEqual(t, len(problems), len(names))
	assert.Equal(t, problem.List(problems).Sorted(), problems)
}

func TestAnErrorValueIsNamed(t *testing.T) {
	content, err := demoForm()
	require.NoError(t, err)
	file, err := excelize.OpenReader(bytes.NewReader(content))
	require.NoError(t, err)
	cell := hand{t, file}.cell("Machines", "planer20", "price", intake.HeadValue)
	edited := patched(t, content, "xl/worksheets/sheet5.xml", func(sheet string) string {
		return regexp.MustCompile(`<c r="`+cell+`"[^>]*>.*?</c>`).ReplaceAllString(sheet, `<c r="`+cell+`" t="e"><v>#N/A</v></c>`)
	})
	wanted(t, edited, "Machines!"+cell, "is the error #N/A")
}

// patched changes one part of a workbook.
func patched(t testing.TB, content []byte, name string, change func(string) string) []byte {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	require.NoError(t, err)
	var out bytes.Buffer
	zw := zip.NewWriter(&out)
	for _, part := range archive.File {
		r, err := part.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		if part.Name == name {
			changed := change(string(text))
			require.NotEqual(t, string(text), changed)
			text = []byte(changed)
		}
		w, err := zw.Create(part.Name)
		require.NoError(t, err)
		_, err = w.Write(text)
		require.NoError(t, err)
	}
	require.NoError(t, zw.Close())
	return out.Bytes()
}

// good are things that people do to a form and that are all right.
var good = map[string]func(h hand){
	"fractions, feet and inches, and units in the value": func(h hand) {
		h.enter("Machines", "planer20", "max_width", intake.HeadValue, "1 ft 8 in")
		h.enter("Machines", "planer20", "depth_per_pass", intake.HeadValue, "1/32")
		h.enter("Machines", "planer20", "max_opening", intake.HeadValue, "203.2 mm")
		h.enter("Machines", "planer20", "max_opening", intake.HeadUnit, nil)
	},
	"no column of shapes, as in forms of before there were any": func(h hand) {
		for _, sheet := range h.file.GetSheetList()[1:] {
			h.set(sheet, columnOf(intake.HeadShape)+"3", nil)
		}
	},
	"the usual shape, said": func(h hand) { h.enter("Machines", "planer20", "price", intake.HeadShape, "pert") },
	"numbers as text":       func(h hand) { h.enter("Machines", "planer20", "price", intake.HeadValue, "3900") },
	"a share as a plain number of percent": func(h hand) {
		cell := strings.TrimPrefix(h.enter("Study", "studio", "tax_rate", intake.HeadValue, 24), "Study!")
		style, err := h.file.NewStyle(&excelize.Style{})
		require.NoError(h.t, err)
		require.NoError(h.t, h.file.SetCellStyle("Study", cell, cell, style))
	},
	"a date that the program made one": func(h hand) {
		h.date("lee", 46458) // 2027-03-12
	},
	"a row hidden":       func(h hand) { require.NoError(h.t, h.file.SetRowVisible("Machines", 9, false)) },
	"a sheet left empty": func(h hand) { _, err := h.file.NewSheet("Sheet10"); require.NoError(h.t, err) },
	"a column of one's own": func(h hand) {
		h.set("Machines", "M3", "my remarks")
		require.NoError(h.t, h.file.SetCellFormula("Machines", "M9", "1/0"))
	},
	"a column put between": func(h hand) { require.NoError(h.t, h.file.InsertCols("Machines", "C", 1)) },
	"rows put above":       func(h hand) { require.NoError(h.t, h.file.InsertRows("Machines", 1, 2)) },
	"spaces about words":   func(h hand) { h.enter("Machines", "planer20", "class", intake.HeadValue, " planer ") },
	"strokes without spaces": func(h hand) {
		h.set("Shops", h.cell("Shops", "big_shop / planer36", "feed", intake.HeadWhich), "big_shop/planer36")
	},
	"merged headings and titles": func(h hand) { require.NoError(h.t, h.file.MergeCell("Machines", "A1", "F1")) },
}

func TestWhatPeopleDoToAFormIsRead(t *testing.T) {
	content, err := demoForm()
	require.NoError(t, err)
	want, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	for name, do := range good {
		t.Run(name, func(t *testing.T) {
			file, err := excelize.OpenReader(bytes.NewReader(content))
			require.NoError(t, err)
			do(hand{t, file})
			var out bytes.Buffer
			require.NoError(t, file.Write(&out))
			book, problems := intake.Load("form.xlsx", out.Bytes())
			require.Empty(t, problems)
			near(t, name, want, book.Study)
		})
	}
}

func TestCopiedRowsUnderANewKeyAreANewMachine(t *testing.T) {
	content, err := demoForm()
	require.NoError(t, err)
	file, err := excelize.OpenReader(bytes.NewReader(content))
	require.NoError(t, err)
	h := hand{t, file}
	rows, err := file.GetRows("Machines", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	for _, row := range rows {
		if len(row) < 3 || row[0] != "rail_saw" {
			continue
		}
		copied := h.add("Machines", "rail_saw_2", row[1], row[2])
		if len(row) > 3 && row[2] != "" {
			h.set("Machines", "D"+strconv.Itoa(copied), row[3])
		}
	}
	h.set("Machines", h.cell("Machines", "rail_saw_2", "price", intake.HeadValue), 990)
	h.set("Machines", h.cell("Machines", "rail_saw_2", "upkeep_share", intake.HeadValue), "4 %")
	var out bytes.Buffer
	require.NoError(t, file.Write(&out))
	book, problems := intake.Load("form.xlsx", out.Bytes())
	require.Empty(t, problems)
	last := book.Study.Machines[len(book.Study.Machines)-1]
	assert.Equal(t, "rail_saw_2", last.Key)
	assert.InDelta(t, 990, float64(last.Price), 0)
	assert.InDelta(t, float64(book.Study.Machines[4].MaxOpening), float64(last.MaxOpening), 1e-12)
}
