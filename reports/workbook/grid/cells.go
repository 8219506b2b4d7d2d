package grid

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// ordered gives the sheet's cells by row, then column, without touching the sheet. Most sheets are in order already.
func (s *Sheet) ordered() []Placed {
	byPlace := func(a, b Placed) int {
		return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col))
	}
	if slices.IsSortedFunc(s.Cells, byPlace) {
		return s.Cells
	}
	cells := slices.Clone(s.Cells)
	slices.SortStableFunc(cells, byPlace)
	return cells
}

// sheetData writes the rows of a sheet as XML. The cells are in order and
// checked; styles has the style number of each.
func sheetData(cells []Placed, heights map[int]float64, styles []int) []byte {
	out := make([]byte, 0, 64+100*len(cells))
	out = append(out, "<sheetData>"...)
	next := 0
	for _, row := range rowsOf(cells, heights) {
		out = appendRowStart(out, row, heights[row])
		for ; next < len(cells) && cells[next].Row == row; next++ {
			out = appendCell(out, &cells[next], styles[next])
		}
		out = append(out, "</row>"...)
	}
	return append(out, "</sheetData>"...)
}

// rowsOf lists every row that has a cell or a height of its own, ascending.
func rowsOf(cells []Placed, heights map[int]float64) []int {
	var rows []int
	for _, c := range cells {
		if len(rows) == 0 || rows[len(rows)-1] != c.Row {
			rows = append(rows, c.Row)
		}
	}
	for row := range heights {
		rows = append(rows, row)
	}
	slices.Sort(rows)
	return slices.Compact(rows)
}

func appendRowStart(out []byte, row int, height float64) []byte {
	out = append(out, `<row r="`...)
	out = strconv.AppendInt(out, int64(row), 10)
	if height != 0 {
		out = append(out, `" customHeight="1" ht="`...)
		out = appendNumber(out, height)
	}
	return append(out, `">`...)
}

func appendCell(out []byte, c *Placed, style int) []byte {
	out = append(out, `<c r="`...)
	out = append(out, ColumnName(c.Col)...)
	out = strconv.AppendInt(out, int64(c.Row), 10)
	if style != 0 {
		out = append(out, `" s="`...)
		out = strconv.AppendInt(out, int64(style), 10)
	}
	out = append(out, '"')
	if !c.live() {
		return append(appendConstant(out, c.Value), "</c>"...)
	}
	return append(appendFormula(out, c), "</c>"...)
}

// appendConstant closes the start tag with the type of the value and writes the value. Text goes inline, so that
// nothing in it is ever taken for a formula.
func appendConstant(out []byte, value any) []byte {
	text, isText := value.(string)
	if !isText {
		return appendValue(append(out, typeOf(value)...), value)
	}
	out = append(out, ` t="inlineStr"><is><t xml:space="preserve">`...)
	out = appendText(out, text)
	return append(out, "</t></is>"...)
}

func appendFormula(out []byte, c *Placed) []byte {
	out = append(out, typeOf(c.Value)...)
	out = append(out, "<f"...)
	switch {
	case c.Array:
		out = fmt.Appendf(out, ` t="array" ref="%s"`, Ref(c.Row, c.Col))
	case c.group != nil:
		out = c.group.appendTo(out, c.Cell)
	}
	out = append(out, '>')
	out = appendEscaped(out, c.Formula)
	return appendValue(append(out, "</f>"...), c.Value)
}

// appendTo marks a cell as one of the group; the first one says which they are.
func (g *group) appendTo(out []byte, c *Cell) []byte {
	out = append(out, ` t="shared"`...)
	if c == g.first {
		out = append(append(append(out, ` ref="`...), g.cells...), '"')
	}
	out = strconv.AppendInt(append(out, ` si="`...), int64(g.id), 10)
	return append(out, '"')
}

// typeOf ends the start tag of a cell with the type that its <v> has.
func typeOf(value any) string {
	switch v := value.(type) {
	case string:
		return ` t="str">`
	case bool:
		return ` t="b">`
	case float64:
		if !finite(v) {
			return ` t="e">`
		}
	}
	return ">"
}

func appendValue(out []byte, value any) []byte {
	if value == nil {
		return out
	}
	out = append(out, "<v>"...)
	switch v := value.(type) {
	case string:
		out = appendText(out, v)
	case bool:
		out = append(out, map[bool]byte{false: '0', true: '1'}[v])
	case int:
		out = strconv.AppendInt(out, int64(v), 10)
	case float64:
		out = appendNumber(out, v)
	}
	return append(out, "</v>"...)
}

// appendNumber writes the shortest digits that read back as exactly the same float64.
func appendNumber(out []byte, x float64) []byte {
	switch size := math.Abs(x); {
	case !finite(x):
		return append(out, "#NUM!"...)
	case x == 0: // a negative zero would be shown as -0
		return append(out, '0')
	case size < 1e-5 || size >= 1e15:
		return strconv.AppendFloat(out, x, 'E', -1, 64)
	}
	return strconv.AppendFloat(out, x, 'f', -1, 64)
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// appendText escapes a cell's text. The format reads _x0041_ as the character A, so a text that really holds such
// a run has its first underline written as _x005F_.
func appendText(out []byte, text string) []byte {
	for {
		at := strings.Index(text, "_x")
		if at < 0 {
			return appendEscaped(out, text)
		}
		out = appendEscaped(out, text[:at])
		if isCharCode(text[at:]) {
			out = append(out, "_x005F_x"...)
		} else {
			out = append(out, "_x"...)
		}
		text = text[at+len("_x"):]
	}
}

func isCharCode(text string) bool {
	if len(text) < len("_x0041_") || text[6] != '_' {
		return false
	}
	_, err := strconv.ParseUint(text[2:6], 16, 16)
	return err == nil
}

// appendEscaped escapes what XML reserves. A bare carriage return would be read as a line feed.
func appendEscaped(out []byte, text string) []byte {
	done := 0
	for i := 0; i < len(text); i++ {
		entity := ""
		switch text[i] {
		case '&':
			entity = "&amp;"
		case '<':
			entity = "&lt;"
		case '>':
			entity = "&gt;"
		case '"':
			entity = "&quot;"
		case '\r':
			entity = "&#13;"
		default:
			continue
		}
		out = append(append(out, text[done:i]...), entity...)
		done = i + 1
	}
	return append(out, text[done:]...)
}

func escaped(text string) string { return string(appendEscaped(nil, text)) }
