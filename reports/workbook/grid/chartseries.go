package grid

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// writeSeries writes one series: name, look, labels, and its cells with their cached values.
func writeSeries(out *bytes.Buffer, index int, s Series, c Chart, v *values) {
	fmt.Fprintf(out, `<c:ser><c:idx val="%d"/><c:order val="%d"/><c:tx>`, index, index)
	if s.NameRef != "" {
		v.writeTexts(out, s.NameRef)
	} else {
		fmt.Fprintf(out, `<c:v>%s</c:v>`, escaped(s.Name))
	}
	out.WriteString(`</c:tx>`)
	if c.Kind.plot().bars {
		fmt.Fprintf(out, `<c:spPr><a:solidFill><a:srgbClr val="%s"/></a:solidFill></c:spPr><c:invertIfNegative val="0"/>`, s.Color)
	} else {
		s.writeLine(out)
	}
	s.writeLabels(out, c)
	v.writeSeriesCells(out, s, c.Kind)
	if c.Kind == Line || c.Kind == Scatter {
		out.WriteString(`<c:smooth val="0"/>`)
	}
	out.WriteString(`</c:ser>`)
}

func (s Series) writeLine(out *bytes.Buffer) {
	line := `<a:ln><a:noFill/></a:ln>`
	if !s.NoLine {
		line = lineProperties(s.Color, cmp.Or(s.Width, 2.25), s.Dash)
	}
	fmt.Fprintf(out, `<c:spPr>%s</c:spPr>`, line)
	if s.Marker == MarkerNone {
		out.WriteString(`<c:marker><c:symbol val="none"/></c:marker>`)
		return
	}
	fmt.Fprintf(out, `<c:marker><c:symbol val="%s"/><c:size val="%d"/><c:spPr><a:solidFill><a:srgbClr val="%s"/></a:solidFill><a:ln><a:noFill/></a:ln></c:spPr></c:marker>`,
		s.Marker, cmp.Or(s.MarkerSize, 7), s.Color)
}

func (s Series) writeLabels(out *bytes.Buffer, c Chart) {
	if s.Label == LabelNone {
		return
	}
	format, side, color := "", "", textColor
	if c.Y.Format != "" {
		format = fmt.Sprintf(`<c:numFmt formatCode="%s" sourceLinked="0"/>`, escaped(c.Y.Format))
	}
	if !c.Kind.plot().bars {
		side = `<c:dLblPos val="t"/>`
	}
	if c.Kind.plot().stacked && dark(s.Color) {
		color = "FFFFFF"
	}
	value, name := 1, 0
	if s.Label == LabelName {
		value, name = 0, 1
	}
	fmt.Fprintf(out, `<c:dLbls>%s<c:spPr><a:noFill/><a:ln><a:noFill/></a:ln></c:spPr>%s%s<c:showLegendKey val="0"/><c:showVal val="%d"/><c:showCatName val="0"/><c:showSerName val="%d"/><c:showPercent val="0"/><c:showBubbleSize val="0"/></c:dLbls>`,
		format, textProperties(color), side, value, name)
}

// dark tells whether white reads better on a colour than grey: by its brightness as the eye weighs red, green, blue.
func dark(color string) bool {
	rgb, _ := strconv.ParseUint(color, 16, 32) // checked to be six hexadecimal digits
	return 299*(rgb>>16)+587*(rgb>>8&0xFF)+114*(rgb&0xFF) < 150*1000
}

// values finds the cached values of cells for the charts, sheet by sheet.
type values struct {
	sheets map[string][]Placed // by name in lower case; cells in order
}

// at gives the value of every cell of a place, row by row; nil for an empty one.
func (v *values) at(ref string) []any {
	sheet, rest, _ := splitSheet(ref)
	b, _ := parseBlock(rest)
	cells := v.sheets[strings.ToLower(sheet)]
	var out []any
	for row := b.first.row; row <= b.last.row; row++ {
		for col := b.first.col; col <= b.last.col; col++ {
			i, found := slices.BinarySearchFunc(cells, place{row, col}, func(c Placed, p place) int {
				return cmp.Or(cmp.Compare(c.Row, p.row), cmp.Compare(c.Col, p.col))
			})
			if !found {
				out = append(out, nil)
				continue
			}
			out = append(out, cells[i].Value)
		}
	}
	return out
}

func (v *values) writeSeriesCells(out *bytes.Buffer, s Series, kind ChartKind) {
	x, y := "cat", "val"
	if kind == Scatter {
		x, y = "xVal", "yVal"
	}
	if s.Categories != "" {
		fmt.Fprintf(out, `<c:%s>`, x)
		if kind == Scatter || allNumbers(v.at(s.Categories)) {
			v.writeNumbers(out, s.Categories)
		} else {
			v.writeTexts(out, s.Categories)
		}
		fmt.Fprintf(out, `</c:%s>`, x)
	}
	fmt.Fprintf(out, `<c:%s>`, y)
	v.writeNumbers(out, s.Values)
	fmt.Fprintf(out, `</c:%s>`, y)
}

// asNumber gives a finite number; a text or an empty cell is a gap.
func asNumber(value any) (float64, bool) {
	switch x := value.(type) {
	case float64:
		return x, finite(x)
	case int:
		return float64(x), true
	}
	return 0, false
}

func allNumbers(cells []any) bool {
	return !slices.ContainsFunc(cells, func(value any) bool {
		_, ok := asNumber(value)
		return !ok
	})
}

func (v *values) writeNumbers(out *bytes.Buffer, ref string) {
	cells := v.at(ref)
	fmt.Fprintf(out, `<c:numRef><c:f>%s</c:f><c:numCache><c:formatCode>General</c:formatCode><c:ptCount val="%d"/>`, escaped(ref), len(cells))
	for i, value := range cells {
		if x, ok := asNumber(value); ok {
			fmt.Fprintf(out, `<c:pt idx="%d"><c:v>%s</c:v></c:pt>`, i, number(x))
		}
	}
	out.WriteString(`</c:numCache></c:numRef>`)
}

func (v *values) writeTexts(out *bytes.Buffer, ref string) {
	cells := v.at(ref)
	fmt.Fprintf(out, `<c:strRef><c:f>%s</c:f><c:strCache><c:ptCount val="%d"/>`, escaped(ref), len(cells))
	for i, value := range cells {
		if value != nil {
			fmt.Fprintf(out, `<c:pt idx="%d"><c:v>%s</c:v></c:pt>`, i, escaped(fmt.Sprint(value)))
		}
	}
	out.WriteString(`</c:strCache></c:strRef>`)
}
