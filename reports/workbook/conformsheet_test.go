package workbook

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision"
	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/published"
	"shopstint/model/quantity"
	"shopstint/reports/workbook/grid"
	"shopstint/reports/workbook/recalc"
)

// desk is a sheet of published cases. Their inputs stand in cells, and the
// functions that write the formulas of a decision workbook write here the
// formulas that read them. No cell holds a value that was worked out before.
type desk struct {
	t      *testing.T
	sheet  *grid.Sheet
	row    int // the next free one
	files  []string
	values []recalc.Sheets // of the files, as they were written
	solved map[string]int  // decision workbooks among the files, by their cases' inputs
}

const sheetPublished = "Published"

// figures are the cells that carry the figures of a case, by name.
type figures map[string][]string

// entry is one case on the sheet. Where the source has other units than the
// formulas, finish makes the wanted figures of what the cells say.
type entry struct {
	file   int    // 0 is the desk's own
	sheet  string // where it is another one
	cells  figures
	finish func(map[string][]float64) map[string][]float64
}

// sheetCase is the part of the sheet that one case stands in, with a book of its
// own for the formulas.
type sheetCase struct {
	*desk
	in *published.Inputs
	b  *book
}

func (d *desk) begin(in *published.Inputs) *sheetCase {
	c := &sheetCase{desk: d, in: in, b: &book{
		study: &model.Study{}, answer: &decision.Answer{}, system: quantity.Inch, // which has a row for each foot, too
		places: map[string]string{}, names: map[string]string{}, taken: map[string]bool{}, out: &grid.Book{},
	}}
	page{d.sheet}.text(d.row, 1, in.Case.ID, plain)
	d.row++
	return c
}

// put writes a number, or a formula, and returns its cell.
func (d *desk) put(row, col int, content any) string {
	made := grid.Cell{Value: content}
	if formula, ok := content.(string); ok {
		made = grid.Cell{Formula: formula}
	}
	d.sheet.Set(row, col, made)
	return cell(row, col)
}

// next writes into a row of its own.
func (d *desk) next(content any) string {
	d.row++
	return d.put(d.row-1, 2, content)
}

// give puts inputs of the study into cells, where formulas look for them.
func (c *sheetCase) give(inputs map[string]float64) {
	for path, value := range inputs {
		page{c.sheet}.text(c.row, 1, path, plain)
		c.b.names[path] = "$B$" + c.next(value)[1:]
	}
}

// machine begins the years of one machine: a row for each line of the sheet of
// owning, so that the formulas of a line find the others where they look for them.
func (c *sheetCase) machine(m *model.Machine, years int) ownFormulas {
	m.Key = "m"
	c.b.study.Machines = []model.Machine{*m}
	o := &ownPlaces{rows: map[ownLine]int{}, years: c.row}
	for t := 0; t <= years+1; t++ {
		c.put(o.years, yearColumn+t, float64(t))
	}
	c.row++
	for _, line := range ownLines {
		o.rows[line.line] = c.row
		page{c.sheet}.text(c.row, 1, line.label, plain)
		c.row++
	}
	f := ownFormulas{b: c.b, o: o, in: "machines.m.", machine: m, horizon: years + 1}
	for t := 0; t <= years+1; t++ {
		c.put(o.rows[lineOf(capital.Age)], yearColumn+t, float64(t))
	}
	return f
}

// own puts inputs of the machine into cells.
func (c *sheetCase) own(inputs map[string]float64) {
	paths := map[string]float64{}
	for key, value := range inputs {
		paths["machines.m."+key] = value
	}
	c.give(paths)
}

// line writes the formulas of lines in year t and returns the cell of the last.
func (c *sheetCase) line(f ownFormulas, t int, lines ...ownLine) string {
	made := ""
	for _, line := range lines {
		made = c.put(f.o.rows[line], yearColumn+t, f.formula(line, t))
	}
	return made
}

// fixed puts a figure of a line in year t.
func (c *sheetCase) fixed(f ownFormulas, line capital.Line, t int, value float64) {
	c.put(f.o.rows[lineOf(line)], yearColumn+t, value)
}

// way is one way of a comparison as a published case gives it.
type way struct{ price, resale, years, yearly, unit float64 }

// compared lays ways of a comparison out, with the formulas of the sheet of ways.
func (c *sheetCase) compared(rate, amount float64, given ...way) *wayBlock {
	comparison := model.Comparison{Key: "c", YearlyLength: 1}
	result := ways.Result{}
	inputs := map[string]float64{"studio.discount_rate": rate}
	for i, one := range given {
		key := fmt.Sprintf("w%d", i)
		comparison.Ways = append(comparison.Ways, model.Way{Key: key})
		result.Ways = append(result.Ways, ways.Way{})
		for name, value := range map[string]float64{
			"price": one.price, "resale": one.resale, "years_kept": one.years, "yearly_upkeep": one.yearly, "spares": 0,
			"passes": 1, "life_factor": 1, "feed": 0, "piece_time": 0, "rework_share": 0, "rework_time": 0, "rework_cost": 0, "rework_wait": 0,
		} {
			inputs["comparisons.c.ways."+key+"."+name] = value
		}
	}
	inputs["studio.labour_rate"] = 0
	if len(given) > 1 {
		result.Pairs = []ways.Pair{{Second: 1}}
	}
	c.give(inputs)
	c.b.study.Comparisons, c.b.answer.Comparisons = []model.Comparison{comparison}, []ways.Result{result}
	w := c.b.placeWays(0, c.row)
	c.put(w.at+headAmount, 2, amount)
	for row, line := range c.b.wayLines(w) {
		for i, one := range given {
			if wayRow(row) == wayWear {
				c.put(w.place[row], wayColumn+i, one.unit)
				continue
			}
			c.put(w.place[row], wayColumn+i, line.formula(i))
		}
	}
	for i := range result.Pairs {
		c.b.wayPair(page{c.sheet}, w, w.pairs+i, &w.result.Pairs[i])
	}
	c.row = w.curve + waySteps + 3
	return w
}

// decided writes the decision workbook of a study without any of its values, and
// gives its place among the files. Cases of the same inputs share one.
func (c *sheetCase) decided(s *model.Study) int {
	key := fmt.Sprint(c.in.Case.Inputs)
	if at, ok := c.solved[key]; ok {
		return at
	}
	answer := decision.Decide(s)
	path := filepath.Join(c.t.TempDir(), "decided.xlsx")
	file, err := os.Create(path)
	require.NoError(c.t, err)
	require.NoError(c.t, Write(file, &answer, Options{Created: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}))
	require.NoError(c.t, file.Close())
	values, _ := recalc.Cached(c.t, path)
	c.files, c.values = append(c.files, recalc.Edited(c.t, path)), append(c.values, values)
	c.solved[key] = len(c.files)
	return len(c.files)
}

// found is where a label stands, once, on a sheet of a decision workbook.
func (c *sheetCase) found(file int, sheet, label string) (row, column int) {
	var places []string
	for at, value := range c.values[file-1][sheet] {
		if value.Text == label {
			places = append(places, at)
		}
	}
	require.Len(c.t, places, 1, "%q on %s", label, sheet)
	letters := strings.TrimRight(places[0], "0123456789")
	row, err := strconv.Atoi(places[0][len(letters):])
	require.NoError(c.t, err)
	for column = 1; grid.ColumnName(column) != letters; {
		column++
	}
	return row, column
}

// recalculated writes the sheet, has LibreOffice calculate it and the decision
// workbooks, and gives what it found, the sheet first.
func (d *desk) recalculated() []recalc.Sheets {
	d.t.Helper()
	out := &grid.Book{Author: "shopstint", Sheets: []*grid.Sheet{d.sheet}}
	for i := range d.sheet.Cells {
		if placed := d.sheet.Cells[i].Cell; placed.Formula != "" {
			placed.Value = nil
		}
	}
	path := filepath.Join(d.t.TempDir(), "published.xlsx")
	file, err := os.Create(path)
	require.NoError(d.t, err)
	require.NoError(d.t, out.Write(file))
	require.NoError(d.t, file.Close())
	return recalc.LibreOffice(d.t).Recalculate(d.t, append([]string{path}, d.files...)...)
}

// read gives the numbers in the cells of an entry, and an error that names a cell
// without one.
func (e entry) read(files []recalc.Sheets) (map[string][]float64, error) {
	sheet := files[e.file][cmp.Or(e.sheet, sheetPublished)]
	got := map[string][]float64{}
	for name, cells := range e.cells {
		for _, at := range cells {
			if sheet[at].Kind != recalc.Numeric {
				return nil, fmt.Errorf("%s: cell %s holds %v, which is no number", name, at, sheet[at])
			}
			got[name] = append(got[name], sheet[at].Number)
		}
	}
	if e.finish != nil {
		got = e.finish(got)
	}
	return got, nil
}
