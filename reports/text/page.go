package text

import (
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// page is text in the making, wrapped to a number of columns.
type page struct {
	strings.Builder

	columns int
	colour  bool

	elsewhere string // where to read what has no place here
}

func newPage(options Options) *page {
	columns := options.Width
	if columns <= 0 || columns > Width {
		columns = Width
	}
	p := &page{columns: max(columns, narrowest), colour: options.Colour, elsewhere: "in the workbook"}
	if options.Workbook == "" {
		p.elsewhere = "with --json"
	}
	return p
}

// narrowest keeps an indent and a word on a line.
const narrowest = 20

func (p *page) blank() { p.WriteByte('\n') }

// paragraph writes a text wrapped, every line behind the indent.
func (p *page) paragraph(indent, text string) { p.hanging(indent, indent, text) }

// item writes a list item, wrapped behind its dash.
func (p *page) item(text string) { p.hanging("- ", "  ", text) }

func (p *page) hanging(first, next, text string) {
	for i, line := range Wrap(text, p.columns-len(first)) {
		if i > 0 {
			first = next
		}
		p.WriteString(first + line + "\n")
	}
}

// marked writes a line that begins with a coloured word. The word is short and
// our own, so it stands whole on the first line.
func (p *page) marked(word, colour, rest string) {
	lines := Wrap(word+rest, p.columns)
	if tail, ok := strings.CutPrefix(lines[0], word); ok && p.colour {
		lines[0] = "\x1b[" + colour + "m" + word + "\x1b[0m" + tail
	}
	p.WriteString(strings.Join(lines, "\n") + "\n")
}

// Wrap breaks a text into lines of at most columns, between words where it can
// and within a word that is longer than a line. Control characters become
// spaces. There is always one line.
func Wrap(text string, columns int) []string {
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(Clean(text)) {
		for _, part := range pieces(word, columns) {
			wide := columnsOf(part)
			if used > 0 && used+1+wide > columns {
				lines, line, used = append(lines, line), "", 0
			}
			if used > 0 {
				line, used = line+" ", used+1
			}
			line, used = line+part, used+wide
		}
	}
	return append(lines, line)
}

// Clean turns what a terminal would obey, not show, into spaces: control
// characters and the marks that change the direction of writing.
func Clean(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "�"))
}

// pieces cuts a word into parts that fit a line.
func pieces(word string, columns int) []string {
	var parts []string
	part, used := "", 0
	for _, r := range word {
		wide := runeColumns(r)
		if used+wide > columns && part != "" {
			parts, part, used = append(parts, part), "", 0
		}
		part, used = part+string(r), used+wide
	}
	return append(parts, part)
}

func columnsOf(text string) int {
	sum := 0
	for _, r := range text {
		sum += runeColumns(r)
	}
	return sum
}

// runeColumns is how many columns a terminal gives a character: none to a mark
// that is written over the one before, two to a wide one.
func runeColumns(r rune) int {
	if unicode.In(r, unicode.Mn, unicode.Me) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}
