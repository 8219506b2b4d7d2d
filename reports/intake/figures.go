package intake

import (
	"reflect"
	"strconv"
	"strings"

	layout "shopstint/model/intake"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/reports/workbook/grid"
)

// written gives figures as the cells hold them, and their unit. A share is a part
// of one in a cell that shows percent; a span that is usually told in hours is.
func (b *book) written(e *entry, dim quantity.Dimension, figures []float64) (cells []float64, unit string) {
	if dim == quantity.DimShare {
		return figures, quantity.Choices(dim, b.system)[0]
	}
	numbers, unit := quantity.Written(dim, b.system, figures...)
	if hours, ok := quantity.WrittenIn(dim, usualUnit(e), figures...); ok && usualUnit(e) != "" {
		numbers, unit = hours, usualUnit(e)
	}
	for _, number := range numbers {
		x, err := strconv.ParseFloat(number, 64)
		if err != nil {
			return nil, unit // never: Written gives decimals
		}
		cells = append(cells, x)
	}
	return cells, unit
}

// usualUnit is the unit that a field asks to be shown in, "" for that of its
// dimension.
func usualUnit(e *entry) string { return e.Tag.Get("show") }

// mostShared is how many cells share one rule; the format keeps their list short.
const mostShared = 60

// allow adds a rule for a cell, together with the cells that have the same rule:
// a file with a rule a cell opens slowly.
func (p page) allow(place string, rule grid.Validation) {
	key := strings.Join(rule.List, ",") + "\n" + rule.Title + rule.Message
	if at, ok := p.rules[key]; ok && p.cells[key] < mostShared {
		p.Validations[at].Range += " " + place
		p.cells[key]++
		return
	}
	rule.Range = place
	p.rules[key], p.cells[key] = len(p.Validations), 1
	p.Sheet.Validations = append(p.Sheet.Validations, rule)
}

// limit keeps numbers within what any unit on offer could mean. Texts such as
// 8 ft 6 in are let through: the program reads them.
func (b *book) limit(p page, row int, e *entry, dim quantity.Dimension) {
	says := b.limits(e, dim)
	least, most, ok := bounds(dim, e.Tag.Get("least")+e.Tag.Get("above"), e.Tag.Get("most"))
	if says == "" || !ok {
		return
	}
	place := grid.Ref(row, colValue)
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
	p.allow(place, grid.Validation{ // written for the first cell; in the others it moves along

		Formula: "OR(ISTEXT(" + place + "),AND(" + place + ">=" + number(least) + "," + place + "<=" + number(most) + "))",
		Title:   clipped(e.Name, 32), Message: clipped(says, 200),
	})
}

func clipped(text string, most int) string {
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most])
	}
	return text
}

// bounds are the smallest and the largest number that a value within the limits
// is, in whichever unit.
func bounds(dim quantity.Dimension, least, most string) (low, high float64, ok bool) {
	from, okFrom := limitOf(dim, least)
	to, okTo := limitOf(dim, most)
	if !okFrom || !okTo {
		return 0, 0, false
	}
	units := quantity.Choices(dim, quantity.Metric)
	if dim == quantity.DimShare || len(units) == 0 {
		return from, to, true
	}
	for i, unit := range units {
		size, _, err := quantity.Parse(dim, "1 "+unit)
		if err != nil {
			return 0, 0, false
		}
		if i == 0 {
			low, high = from/size, to/size
		}
		low, high = min(low, from/size), max(high, to/size)
	}
	return low, high, true
}

// limitOf reads a limit of a tag; a rate of zero is written as a bare 0.
func limitOf(dim quantity.Dimension, text string) (float64, bool) {
	if text == "0" {
		return 0, true
	}
	x, _, err := quantity.Parse(dim, text)
	return x, err == nil
}

// assumed says what holds when the value is left empty; "" for a given input,
// since that is known only once it is empty.
func (b *book) assumed(e *entry, dim quantity.Dimension, measured bool) string {
	if e.leaf == nil || e.given {
		return ""
	}
	if !measured {
		return layout.Solved(*e.leaf, b.system)
	}
	origin := b.study.Origins[e.path]
	text := b.shown(e, dim, e.leaf.Number())
	if origin.HasRange {
		text += " (" + b.shown(e, dim, origin.Low) + " to " + b.shown(e, dim, origin.High) + ")"
	}
	return text + " " + b.shownUnit(e, dim)
}

func (b *book) shownUnit(e *entry, dim quantity.Dimension) string {
	if unit := usualUnit(e); unit != "" {
		return unit
	}
	return quantity.Display(dim, b.system).Symbol
}

// shown writes four digits of a number in the shown unit.
func (b *book) shown(e *entry, dim quantity.Dimension, si float64) string {
	number := quantity.Shown(dim, si, b.system)
	if unit := usualUnit(e); unit != "" {
		if size, _, err := quantity.Parse(dim, "1 "+unit); err == nil {
			number = si / size
		}
	}
	short, err := strconv.ParseFloat(strconv.FormatFloat(number, 'g', 4, 64), 64)
	if err != nil {
		short = number
	}
	return strconv.FormatFloat(short+0, 'f', -1, 64)
}

// about says what an input means and what it may be.
func (b *book) about(e *entry, dim quantity.Dimension, measured bool) string {
	text := e.Tag.Get("about")
	if limits := b.limits(e, dim); measured && limits != "" {
		text += "; " + limits
	}
	if words := strings.Fields(e.Tag.Get("oneof")); len(words) > 0 {
		text += "; one of " + strings.Join(words, ", ")
		if e.Name == "does" {
			text = strings.Replace(text, "; one of ", "; one or more of ", 1)
		}
	}
	if list := e.Tag.Get("ref"); list != "" && e.Kind.Kind() == reflect.Slice {
		text += "; keys of the sheet " + sheetOf(list) + ", with spaces between"
	} else if list != "" {
		text += "; a key of the sheet " + sheetOf(list)
	}
	if strings.HasSuffix(e.Name, ".1") {
		text += "; copy the row for .2, .3 …"
	}
	return text
}

// limits says between which values an input makes sense, in the unit that it is
// usually given in.
func (b *book) limits(e *entry, dim quantity.Dimension) string {
	least, okLeast := limitOf(dim, e.Tag.Get("least"))
	most, okMost := limitOf(dim, e.Tag.Get("most"))
	if unit := usualUnit(e); unit != "" && okLeast && okMost {
		if numbers, ok := quantity.WrittenIn(dim, unit, least, most); ok && len(numbers[0])+len(numbers[1]) < longestLimits {
			return "from " + numbers[0] + " " + unit + " to " + numbers[1] + " " + unit
		}
	}
	return study.Limits(dim, e.Tag, b.system)
}

// longestLimits is how many digits two limits may have and still be read at a glance.
const longestLimits = 12

func sheetOf(list string) string {
	for _, part := range layout.Parts() {
		if part.List == list {
			return part.Sheet
		}
	}
	return list
}
