package workbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"shopstint/reports/workbook/grid"
)

// page is a sheet with a pen: what follows goes where the pen stands.
type page struct {
	*grid.Sheet
}

func (p page) text(row, col int, value string, style grid.Style) {
	p.Set(row, col, grid.Cell{Value: value, Style: style})
}

func (p page) number(row, col int, value float64, style grid.Style) {
	p.Set(row, col, grid.Cell{Value: value, Style: style})
}

// calc writes a live formula with the engine's value as its cached result. A
// formula that is only a number is written as one.
func (p page) calc(row, col int, formula string, value any, style grid.Style) {
	if strings.Trim(formula, "0123456789.") == "" && formula != "" {
		if constant, err := strconv.ParseFloat(formula, 64); err == nil {
			p.number(row, col, constant, style)
			return
		}
	}
	p.Set(row, col, grid.Cell{Formula: formula, Value: value, Style: style})
}

// band writes headings over a number of columns: words in the first, and in
// other columns what is given for them.
func (p page) band(row, columns int, words string) { p.bands(row, columns, map[int]string{1: words}) }

func (p page) bands(row, columns int, words map[int]string) {
	for col := 1; col <= columns; col++ {
		p.text(row, col, words[col], section)
	}
}

// headers writes a row of column titles, high enough for the longest of them.
func (p page) headers(row int, titles ...string) {
	lines := 1
	for i, name := range titles {
		p.text(row, i+1, name, header)
		lines = max(lines, p.lines(name, i))
	}
	p.high(row, lines)
}

// lineHeight is the height of one line of text, in points.
const lineHeight = 15.0

// high makes a row as high as a number of lines.
func (p page) high(row, lines int) {
	if p.Heights == nil {
		p.Heights = map[int]float64{}
	}
	p.Heights[row] = lineHeight * float64(max(1, lines))
}

// lines guesses on how many lines a text wraps in a column, counted from 0.
func (p page) lines(words string, column int) int {
	width := 10.0
	if column < len(p.Columns) {
		width = p.Columns[column]
	}
	return int(math.Ceil(1.05 * float64(len([]rune(words))) / width))
}

// mostWide is how many characters a sentence across a page may have.
const mostWide = 170

// sentences writes clauses as sentences, a row each, or more where a clause is
// longer than a page is wide; it returns the row below.
func (p page) sentences(at int, clauses []string, style grid.Style) int {
	for _, clause := range clauses {
		first, size := utf8.DecodeRuneInString(clause)
		line := string(unicode.ToUpper(first))
		for _, word := range strings.SplitAfter(clause[size:]+".", " ") {
			if len(line)+len(word) > mostWide {
				p.text(at, 1, strings.TrimSpace(line), style)
				at, line = at+1, ""
			}
			line += word
		}
		p.text(at, 1, line, style)
		at++
	}
	return at
}

// caution writes a text of whole sentences, a row each, and returns the row below.
func (p page) caution(at int, text string) int {
	return p.sentences(at, strings.Split(strings.TrimSuffix(text, "."), ". "), faint)
}

// cell is a place within the same sheet, such as C12.
func cell(row, col int) string { return grid.Ref(row, col) }

// span is a range within the same sheet, such as C12:C20.
func span(row1, col1, row2, col2 int) string {
	return grid.Ref(row1, col1) + ":" + grid.Ref(row2, col2)
}

// pick is the formula of the member of a list that stands at a place: a row, or
// 1 and a column. A list of one cell is that cell: one of the spreadsheet programs takes it for no list.
func pick(list, place string) string {
	first, last, ok := strings.Cut(list, ":")
	if _, cell, sheet := strings.Cut(first, "!"); ok && (first == last || sheet && cell == last) {
		return first
	}
	return "INDEX(" + list + "," + place + ")"
}

// in returns the defined name of an input, in the working unit of formulas:
// millimetres, metres a minute, minutes, kilograms, kilowatts, money.
func (b *book) in(path string) string {
	if name, ok := b.names[path]; ok {
		return name
	}
	place, ok := b.places[path]
	if !ok {
		b.missing = append(b.missing, path)
	}
	b.names[path] = b.name(nameOf(path), place, "")
	return b.names[path]
}

// name claims a defined name, adding a number when it is taken.
func (b *book) name(wanted, ref, comment string) string {
	name := strings.Map(func(r rune) rune {
		if r == '.' {
			return '_'
		}
		return r
	}, wanted)
	for i := 2; b.taken[strings.ToLower(name)]; i++ {
		name = fmt.Sprintf("%s_%d", wanted, i)
	}
	b.taken[strings.ToLower(name)] = true
	b.out.Names = append(b.out.Names, grid.Name{Name: name, Ref: ref, Comment: comment})
	return name
}

// posted is the formula of an amount rounded to the currency's smallest unit,
// with the inner rounding that keeps float dust from moving a cent; the twin of money.Round.
func (b *book) posted(formula string) string {
	return "ROUND(ROUND(" + formula + ",8)," + b.round + ")"
}

// stepsUp is the twin of work.StepsUp.
func stepsUp(amount, step string) string { return "ROUNDUP(ROUND((" + amount + ")/" + step + ",6),0)" }

// offered shows a price that is not on offer as one that nobody would take.
func offered(price float64) float64 {
	if math.IsInf(price, 1) {
		return notOffered
	}
	return price
}

const notOffered = 1e99

// rounded keeps four digits: what is found by narrowing down is no better.
func rounded(x float64) float64 {
	if x == 0 {
		return 0
	}
	scale := math.Pow(10, 3-math.Floor(math.Log10(math.Abs(x))))
	return math.Round(x*scale) / scale
}

func flag(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// sum joins terms with plus signs; no terms are zero.
func sum(terms []string) string {
	if len(terms) == 0 {
		return "0"
	}
	return strings.Join(terms, "+")
}
