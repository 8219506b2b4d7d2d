package intake

import (
	"math"
	"reflect"
	"strings"

	"shopstint/model"
	layout "shopstint/model/intake"
	"shopstint/model/quantity"
	"shopstint/reports/workbook/grid"
)

// Columns of every sheet of inputs, in the order of layout.Headings.
const (
	colWhich = iota + 1
	colInput
	colValue
	colUnit
	colLow
	colHigh
	colShape
	colAssumed
	colNote
	colSource
	colAbout
)

// headRow is the row of headings.
const headRow = 3

// page is a sheet with what its drop-downs share.
type page struct {
	*grid.Sheet
	rules map[string]int // by what a rule asks: its place among the validations
	cells map[string]int // how many cells it has
}

func (p page) text(row, col int, value string, style grid.Style) {
	p.Set(row, col, grid.Cell{Value: value, Style: style})
}

// sheet writes the groups of one part of the study.
func (b *book) sheet(s *grid.Sheet, part layout.Part, groups []group) {
	p := page{s, map[string]int{}, map[string]int{}}
	s.Columns = []float64{26, 22, 17, 16, 11, 11, 12, 26, 30, 26, 70}
	s.Freeze, s.TabColor = "D4", fern
	s.Print = grid.Print{Landscape: true, FitWide: 1, TitleRows: headRow, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, part.Sheet, title)
	p.text(2, 1, leadOf(part, b.short), lead)
	s.Heights = map[int]float64{headRow: 20}
	for i, heading := range layout.Headings() {
		p.text(headRow, i+1, heading, header)
	}
	row := headRow + 1
	for i := range groups {
		if strings.Count(groups[i].which, "/") < deep {
			b.band(p, row, &groups[i])
			row++
		}
		for j := range groups[i].entries {
			b.row(p, row, groups[i].which, &groups[i].entries[j])
			row++
		}
	}
}

// deep is from where on members have no heading of their own: grits are one row each.
const deep = 2

// leadOf is the line under a sheet's title.
func leadOf(part layout.Part, short bool) string {
	switch {
	case part.List == "":
		return "An empty value is assumed as the grey column says. Blue cells are to be filled in; apricot ones must be."
	case short:
		return "To add one, copy the rows of another and change the first column. Everything that has no row here is assumed."
	}
	return "To add one, copy the rows of another and change the first column; to drop one, delete its rows. An empty value is assumed as the grey column says."
}

// band writes the heading of a group. It names no input, so the reader passes
// over it.
func (b *book) band(p page, row int, g *group) {
	for col := 1; col <= colAbout; col++ {
		p.text(row, col, "", section)
	}
	words := g.which
	if g.name != "" && !strings.HasSuffix(g.which, g.name) {
		words = strings.TrimPrefix(words+" · "+g.name, " · ")
	}
	p.Sheet.Cells[len(p.Cells)-colAbout].Value = words
}

// row writes one input.
func (b *book) row(p page, row int, which string, e *entry) {
	p.text(row, colWhich, which, plain)
	p.text(row, colInput, e.Name, plain)
	dim, measured := e.Dimension()
	if measured {
		b.figure(p, row, e, dim)
	} else {
		b.word(p, row, e)
	}
	p.text(row, colAssumed, b.assumed(e, dim, measured), faint)
	says := b.about(e, dim, measured)
	p.text(row, colAbout, says, about)
	note, source := b.remarks(e)
	lines := max(linesOf(says, p.Columns[colAbout-1]), linesOf(note, p.Columns[colNote-1]), linesOf(source, p.Columns[colSource-1]))
	p.Heights[row] = lineHeight * float64(lines)
}

// remarks are the note and the source of a given input; those of an assumed one
// are the program's own.
func (b *book) remarks(e *entry) (note, source string) {
	if !e.given {
		return "", ""
	}
	origin := b.study.Origins[e.path]
	return origin.Note, origin.Source
}

// lineHeight is the height of one line of text, in points.
const lineHeight = 15.0

// linesOf guesses on how many lines a text wraps in a column of that many characters.
func linesOf(text string, width float64) int {
	return max(1, int(math.Ceil(0.95*float64(len([]rune(text)))/width)))
}

// valueStyle marks a cell to be filled in.
func valueStyle(e *entry) grid.Style {
	style := fill
	if e.Tag.Get("need") == "yes" {
		style = needed
	}
	return style
}

// word writes an input that is no figure; its other cells have no use.
func (b *book) word(p page, row int, e *entry) {
	style := valueStyle(e)
	style.Align = grid.AlignLeft
	p.Set(row, colValue, grid.Cell{Style: style})
	if e.given {
		p.Sheet.Cells[len(p.Cells)-1].Value = layout.Solved(*e.leaf, b.system)
	}
	for _, col := range []int{colUnit, colLow, colHigh, colShape, colNote, colSource} {
		p.Set(row, col, grid.Cell{Style: unused})
	}
	place := grid.Ref(row, colValue)
	words := strings.Fields(e.Tag.Get("oneof"))
	switch {
	case e.Kind.Kind() == reflect.Bool:
		p.allow(place, grid.Validation{List: []string{"yes", "no"}})
	case len(words) > 0 && e.Kind.Kind() == reflect.String:
		p.allow(place, grid.Validation{List: words})
	case e.Tag.Get("ref") != "":
		if keys := keysOf(b.study, e.Tag.Get("ref")); len(keys) > 0 {
			p.allow(place, grid.Validation{List: keys, Suggest: true})
		}
	}
}

// longestList bounds the keys that a drop-down offers, in characters.
const longestList = 240

// keysOf lists the keys of a list of the study, as many as a drop-down takes: it
// is an offer, other keys may be typed.
func keysOf(s *model.Study, list string) []string {
	var keys []string
	length := 0
	for i := range reflect.TypeFor[model.Study]().NumField() {
		members := reflect.ValueOf(s).Elem().Field(i)
		if reflect.TypeFor[model.Study]().Field(i).Tag.Get("key") != list {
			continue
		}
		for j := range members.Len() {
			key := members.Index(j).FieldByName("Key").String()
			if length += len(key) + 1; length > longestList {
				break
			}
			keys = append(keys, key)
		}
	}
	return keys
}

// figure writes an input with its unit and range.
func (b *book) figure(p page, row int, e *entry, dim quantity.Dimension) {
	origin := b.study.Origins[e.path]
	ranged := e.given && origin.HasRange
	var figures []float64
	if e.given {
		figures = append(figures, e.leaf.Number())
	}
	if ranged {
		figures = append(figures, origin.Low, origin.High)
	}
	numbers, unit := b.written(e, dim, figures)
	style := valueStyle(e)
	if dim == quantity.DimShare {
		style.NumberFormat = asPercent
	}
	for i, col := range []int{colValue, colLow, colHigh} {
		cell := grid.Cell{Style: style}
		if i > 0 {
			cell.Style.Fill = pale
		}
		if i > 0 && e.Tag.Get("fixed") == "yes" {
			cell.Style = unused
		}
		if i < len(numbers) {
			cell.Value = numbers[i]
		}
		p.Set(row, col, cell)
	}
	b.shape(p, row, e, origin.Shape)
	b.unit(p, row, dim, unit)
	b.limit(p, row, e, dim)
	note, source := b.remarks(e)
	p.text(row, colNote, note, remark)
	p.text(row, colSource, source, remark)
}

// shape writes how the range is read, with the shapes on offer.
func (b *book) shape(p page, row int, e *entry, shape string) {
	if e.Tag.Get("fixed") == "yes" {
		p.Set(row, colShape, grid.Cell{Style: unused})
		return
	}
	if !e.given {
		shape = ""
	}
	p.text(row, colShape, shape, unitStyle)
	p.allow(grid.Ref(row, colShape), grid.Validation{List: model.Shapes})
}

// unit writes the unit with the others that are read; a bare number has none.
func (b *book) unit(p page, row int, dim quantity.Dimension, unit string) {
	choices := quantity.Choices(dim, b.system)
	if len(choices) == 0 {
		p.Set(row, colUnit, grid.Cell{Style: unused})
		return
	}
	p.text(row, colUnit, unit, unitStyle)
	p.allow(grid.Ref(row, colUnit), grid.Validation{List: choices, Suggest: true})
}
