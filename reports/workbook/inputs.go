package workbook

import (
	"fmt"
	"reflect"
	"strings"

	"shopstint/model"
	"shopstint/model/intake"
	"shopstint/model/quantity"
	"shopstint/reports/workbook/grid"
)

// Columns of the input sheet.
const (
	inputPath = iota + 1
	inputValue
	inputUnit
	inputLow
	inputHigh
	inputWorking
	inputStatus
	inputAbout
	inputSource
	inputSolved // for reading the workbook back: the value as written, exactly
	inputNote   // and the note, which the source's column shows behind the source
	inputWas    // the value as it stood when it was solved for
	inputShape  // and how low and high are read
)

// inputs lists every input of the study. An input's defined name points to its
// value, or, where the study's unit is not the working unit of the formulas,
// to the converted value beside it.
func (b *book) inputs(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{46, 14, 15, 11, 11, 13, 10, 58, 44, 22, 30, 14, 11}
	s.Freeze, s.Protected, s.TabColor = "A4", true, sand
	s.Print = grid.Print{Landscape: true, FitWide: 1, TitleRows: 3, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Inputs", title)
	p.text(2, 1, "Straw cells may be changed: every live figure follows. Grey cells decide the shape of the sheets; change them in the study. What the program solved is brought up to date by: shopstint decide THIS FILE.", lead)
	p.headers(3, "input", "value", "unit", "low", "high", "working value", "status", "what it means", intake.DecisionFrom, intake.DecisionSolved, intake.DecisionNote, "value when solved", intake.HeadShape)
	p.text(1, inputSolved, intake.DecisionMark, faint)
	rows := b.placeInputs()
	b.lastInput = rows[len(rows)-1].at
	b.aside.Go(func() {
		for _, row := range rows {
			if row.group != "" {
				p.band(row.at-1, inputSource, strings.ReplaceAll(row.group, ".", " · "))
			}
			b.input(p, row.at, row.leaf)
		}
		s.Print.Area = span(1, 1, b.lastInput, inputSource)
	})
}

// inputRow is one input and its row; where a group begins, the row above names it.
type inputRow struct {
	at    int
	leaf  model.Leaf
	group string
}

// placeInputs settles where each input stands, which the formulas need to know
// before the sheet is filled.
func (b *book) placeInputs() []inputRow {
	var rows []inputRow
	at, group := 4, ""
	model.Walk(b.study, func(leaf model.Leaf) {
		row := inputRow{leaf: leaf}
		if now := groupOf(leaf.Path); now != group {
			group, row.group = now, now
			at++
		}
		row.at = at
		column := inputValue
		if dim, ok := leaf.Dimension(); ok && unitOf(leaf, dim, quantity.Metric).size != unitOf(leaf, dim, b.system).size {
			column = inputWorking
		}
		b.places[leaf.Path] = grid.SheetRef(sheetInputs, at, column)
		b.inputRows[leaf.Path], b.leaves[leaf.Path] = at, leaf
		if _, ok := leaf.Dimension(); ok {
			b.numericInputs++
		}
		rows = append(rows, row)
		at++
	})
	return rows
}

// groupOf is the first part of a path, with the key where it is a list's.
func groupOf(path string) string {
	parts := strings.Split(path, ".")
	switch {
	case len(parts) == 1:
		return "study"
	case len(parts) > 2 && parts[0] != "studio":
		return parts[0] + "." + parts[1]
	}
	return parts[0]
}

func (b *book) input(p page, row int, leaf model.Leaf) {
	origin := b.study.Origins[leaf.Path]
	p.text(row, inputPath, leaf.Path, plain)
	p.text(row, inputAbout, leaf.Tag.Get("about"), plain)
	p.text(row, inputSource, strings.TrimSpace(strings.Join(nonEmpty(origin.Source, origin.Note), "; ")), faint)
	p.text(row, inputStatus, map[bool]string{true: intake.StatusAssumed, false: intake.StatusGiven}[origin.Assumed], plain)
	p.text(row, inputSolved, intake.Solved(leaf, b.system), faint)
	if origin.Note != "" {
		p.text(row, inputNote, origin.Note, faint)
	}
	if origin.Shape != "" {
		p.text(row, inputShape, origin.Shape, faint)
	}
	if dim, ok := leaf.Dimension(); ok {
		b.measured(p, row, leaf, dim, origin)
	} else {
		b.word(p, row, leaf)
	}
}

func nonEmpty(parts ...string) []string {
	var list []string
	for _, part := range parts {
		if part != "" {
			list = append(list, part)
		}
	}
	return list
}

// nameOf turns a path into a defined name.
func nameOf(path string) string { return strings.ReplaceAll(path, ".", "_") }

// measured writes a quantity, and beside it the value in the working unit of
// the formulas where that is another one.
func (b *book) measured(p page, row int, leaf model.Leaf, dim quantity.Dimension, origin model.Origin) {
	shown := unitOf(leaf, dim, b.system)
	style := b.inputStyle(leaf)
	style.NumberFormat = asGeneral
	if dim == quantity.DimShare {
		style.NumberFormat = asPercent
	}
	p.number(row, inputValue, shown.of(leaf.Number()), style)
	p.number(row, inputWas, shown.of(leaf.Number()), faint)
	p.text(row, inputUnit, b.unitText(shown, dim), plain)
	if origin.HasRange {
		p.number(row, inputLow, shown.of(origin.Low), numbers(style.NumberFormat))
		p.number(row, inputHigh, shown.of(origin.High), numbers(style.NumberFormat))
	}
	if style.Unlocked {
		b.validate(p, row, leaf, dim, shown)
	}
	working := unitOf(leaf, dim, quantity.Metric)
	if working.size == shown.size {
		return
	}
	factor := fmt.Sprintf("%s*%.17g", cell(row, inputValue), shown.size/working.size)
	p.calc(row, inputWorking, factor, working.of(leaf.Number()), memo(asGeneral))
}

// unit is how a quantity stands in a cell: value × size is SI.
type unit struct {
	symbol string
	size   float64
	dim    quantity.Dimension
	system quantity.System
}

func unitOf(leaf model.Leaf, dim quantity.Dimension, system quantity.System) unit {
	switch {
	case dim == quantity.DimShare:
		return unit{symbol: "", size: 1}
	case leaf.Tag.Get("show") == "h":
		return unit{symbol: "h", size: 3600}
	}
	display := quantity.Display(dim, system)
	return unit{display.Symbol, display.Size, dim, system}
}

// of converts from SI, giving clean numbers where the quantity has a usual unit.
func (u unit) of(si float64) float64 {
	if u.dim != 0 {
		return quantity.Shown(u.dim, si, u.system)
	}
	return si / u.size
}

func (b *book) unitText(u unit, dim quantity.Dimension) string {
	switch {
	case dim == quantity.DimShare:
		return "share"
	case dim.IsMoney():
		return strings.TrimSpace(b.study.Currency + " " + u.symbol)
	}
	return u.symbol
}

// inputStyle marks a cell that may be edited; an input that decides the shape
// of the sheets, or cannot leave zero, is locked.
func (b *book) inputStyle(leaf model.Leaf) grid.Style {
	fixed := leaf.Tag.Get("fixed")
	if fixed == "yes" || fixed == "zero" && leaf.Number() == 0 {
		return locked
	}
	return editable
}

// validate keeps an edited number inside the limits that the study has.
func (b *book) validate(p page, row int, leaf model.Leaf, dim quantity.Dimension, shown unit) {
	bound := func(tags ...string) *float64 {
		for _, tag := range tags {
			if text := leaf.Tag.Get(tag); text != "" {
				if si, _, err := quantity.Parse(dim, text); err == nil {
					value := shown.of(si)
					return &value
				}
			}
		}
		return nil
	}
	least, most := bound("least", "above"), bound("most")
	if least == nil && most == nil {
		return
	}
	b.allow(p, leaf.Key(), grid.Validation{Range: cell(row, inputValue), Min: least, Max: most, Title: leaf.Key(), Message: leaf.Tag.Get("about")})
}

// mostShared is how many cells share one rule; the format keeps their list short.
const mostShared = 60

// allow adds a rule for one cell. Cells of the same input in other machines and
// job types share it, since a file with a rule a cell opens slowly.
func (b *book) allow(p page, key string, rule grid.Validation) {
	key += rule.Message
	if at, ok := b.rules[key]; ok && b.ruled[key] < mostShared {
		p.Validations[at].Range += " " + rule.Range
		b.ruled[key]++
		return
	}
	b.rules[key], b.ruled[key] = len(p.Validations), 1
	p.Validations = append(p.Validations, rule)
}

// word writes a text, a yes or no, or a list of words.
func (b *book) word(p page, row int, leaf model.Leaf) {
	style, value := b.inputStyle(leaf), leaf.Value.String()
	switch leaf.Value.Kind() {
	case reflect.Bool:
		value = intake.YesNo(leaf.Value.Bool())
		if style.Unlocked {
			b.allow(p, "yes or no", grid.Validation{Range: cell(row, inputValue), List: []string{"yes", "no"}})
		}
	case reflect.Slice:
		value = strings.Join(leaf.Value.Interface().([]string), " ")
	default:
		style.Unlocked, style.Fill = false, ""
	}
	p.text(row, inputValue, value, style)
	p.text(row, inputWas, value, faint)
}

// Inward turns a value as it stands on the input sheet back into the field's
// own unit: SI, money, or a share.
func Inward(study *model.Study, leaf model.Leaf, shown float64) float64 {
	dim, ok := leaf.Dimension()
	system, err := quantity.ParseSystem(study.Units)
	if !ok || err != nil {
		return shown
	}
	return shown * unitOf(leaf, dim, system).size
}
