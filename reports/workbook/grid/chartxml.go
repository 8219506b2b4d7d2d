package grid

import (
	"bytes"
	"fmt"
	"slices"
)

const (
	xmlHeader   = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	nsChart     = "http://schemas.openxmlformats.org/drawingml/2006/chart"
	nsDrawing   = "http://schemas.openxmlformats.org/drawingml/2006/main"
	nsRelations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	axisX       = 100000001
	axisY       = 100000002
	textColor   = "404040" // the automatic grey is hardly readable
	gridColor   = "D9D9D9"
)

// plot says how a kind of chart is spelt: its element, what stands before the series and what behind them.
type plot struct {
	element, before, behind string
	bars, stacked, upright  bool // bars or lines; bars on each other; whether the x axis stands upright
}

func (k ChartKind) plot() plot {
	switch k {
	case Column:
		return plot{"barChart", `<c:barDir val="col"/><c:grouping val="clustered"/><c:varyColors val="0"/>`, `<c:gapWidth val="60"/><c:overlap val="-10"/>`, true, false, false}
	case ColumnStacked:
		return plot{"barChart", `<c:barDir val="col"/><c:grouping val="stacked"/><c:varyColors val="0"/>`, `<c:gapWidth val="60"/><c:overlap val="100"/>`, true, true, false}
	case BarStacked:
		return plot{"barChart", `<c:barDir val="bar"/><c:grouping val="stacked"/><c:varyColors val="0"/>`, `<c:gapWidth val="30"/><c:overlap val="100"/>`, true, true, true}
	case Line:
		return plot{"lineChart", `<c:grouping val="standard"/><c:varyColors val="0"/>`, `<c:marker val="1"/>`, false, false, false}
	}
	return plot{"scatterChart", `<c:scatterStyle val="lineMarker"/><c:varyColors val="0"/>`, "", false, false, false}
}

// chartXML writes the chart's part. The values are cached in it, so that programs that do not calculate draw it too.
// The order of the elements is fixed by the format.
func chartXML(c Chart, v *values) []byte {
	out := &bytes.Buffer{}
	fmt.Fprintf(out, xmlHeader+`<c:chartSpace xmlns:c="%s" xmlns:a="%s" xmlns:r="%s"><c:date1904 val="0"/><c:roundedCorners val="0"/><c:chart>`, nsChart, nsDrawing, nsRelations)
	writeTitle(out, c.Title, 1300, true, false)
	if c.Title == "" {
		out.WriteString(`<c:autoTitleDeleted val="1"/>`)
	} else {
		out.WriteString(`<c:autoTitleDeleted val="0"/>`)
	}
	p := c.Kind.plot()
	out.WriteString(`<c:plotArea><c:layout/>`)
	c.writePlot(out, false, v)
	if c.combined() {
		c.writePlot(out, true, v)
	}
	c.writeAxes(out, p)
	out.WriteString(`<c:spPr><a:noFill/></c:spPr></c:plotArea>`)
	if !c.NoLegend {
		fmt.Fprintf(out, `<c:legend><c:legendPos val="b"/><c:overlay val="0"/>%s</c:legend>`, textProperties(textColor))
	}
	out.WriteString(`<c:plotVisOnly val="0"/><c:dispBlanksAs val="gap"/></c:chart>`)
	fmt.Fprintf(out, `<c:spPr><a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill><a:ln w="9525"><a:solidFill><a:srgbClr val="%s"/></a:solidFill></a:ln></c:spPr></c:chartSpace>`, gridColor)
	return out.Bytes()
}

// combined tells whether lines are drawn over columns.
func (c Chart) combined() bool {
	return slices.ContainsFunc(c.Series, func(s Series) bool { return s.Over })
}

// writePlot writes the series of the chart's own kind, or those that are lines over
// them; all keep their place in the chart, and the axes are the same.
func (c Chart) writePlot(out *bytes.Buffer, over bool, v *values) {
	if over {
		c.Kind = Line
	}
	p := c.Kind.plot()
	fmt.Fprintf(out, `<c:%s>%s`, p.element, p.before)
	for i, s := range c.Series {
		if s.Over == over {
			writeSeries(out, i, s, c, v)
		}
	}
	fmt.Fprintf(out, `%s<c:axId val="%d"/><c:axId val="%d"/></c:%s>`, p.behind, axisX, axisY, p.element)
}

func (c Chart) writeAxes(out *bytes.Buffer, p plot) {
	x, y := axisPlace{axisX, axisY, "b", false}, axisPlace{axisY, axisX, "l", true}
	if p.upright {
		x.side, y.side = "l", "b"
	}
	if c.Kind == Scatter {
		writeValueAxis(out, c.X, x, "midCat")
	} else {
		writeCategoryAxis(out, c.X, x)
	}
	writeValueAxis(out, c.Y, y, "between")
}

// axisPlace is where an axis stands: its number, the number of the axis it crosses, its side, and whether it has
// lines across the chart.
type axisPlace struct {
	id, cross int
	side      string
	grid      bool
}

func writeCategoryAxis(out *bytes.Buffer, a Axis, at axisPlace) {
	out.WriteString(`<c:catAx>`)
	writeAxisHead(out, a, at)
	fmt.Fprintf(out, `<c:crossAx val="%d"/><c:crosses val="autoZero"/><c:auto val="0"/><c:lblAlgn val="ctr"/><c:lblOffset val="100"/><c:noMultiLvlLbl val="1"/></c:catAx>`, at.cross)
}

func writeValueAxis(out *bytes.Buffer, a Axis, at axisPlace, between string) {
	out.WriteString(`<c:valAx>`)
	writeAxisHead(out, a, at)
	fmt.Fprintf(out, `<c:crossAx val="%d"/><c:crosses val="autoZero"/><c:crossBetween val="%s"/>`, at.cross, between)
	if a.MajorUnit > 0 {
		fmt.Fprintf(out, `<c:majorUnit val="%s"/>`, number(a.MajorUnit))
	}
	out.WriteString(`</c:valAx>`)
}

func writeAxisHead(out *bytes.Buffer, a Axis, at axisPlace) {
	fmt.Fprintf(out, `<c:axId val="%d"/><c:scaling><c:orientation val="minMax"/>`, at.id)
	if a.Max != nil {
		fmt.Fprintf(out, `<c:max val="%s"/>`, number(*a.Max))
	}
	if a.Min != nil {
		fmt.Fprintf(out, `<c:min val="%s"/>`, number(*a.Min))
	}
	fmt.Fprintf(out, `</c:scaling><c:delete val="0"/><c:axPos val="%s"/>`, at.side)
	if at.grid {
		fmt.Fprintf(out, `<c:majorGridlines><c:spPr>%s</c:spPr></c:majorGridlines>`, lineProperties(gridColor, 0.75, DashSolid))
	}
	writeTitle(out, a.Title, 900, false, at.side == "l")
	labels, format := "nextTo", a.Format
	if a.LabelsLow {
		labels = "low"
	}
	if format == "" {
		format = "General"
	}
	fmt.Fprintf(out, `<c:numFmt formatCode="%s" sourceLinked="0"/><c:majorTickMark val="out"/><c:minorTickMark val="none"/><c:tickLblPos val="%s"/>`, escaped(format), labels)
	fmt.Fprintf(out, `<c:spPr>%s</c:spPr>%s`, lineProperties("7F7F7F", 0.75, DashSolid), textProperties(textColor))
}

func writeTitle(out *bytes.Buffer, text string, size int, bold, upright bool) {
	if text == "" {
		return
	}
	turn := ""
	if upright {
		turn = ` rot="-5400000" vert="horz"`
	}
	fmt.Fprintf(out, `<c:title><c:tx><c:rich><a:bodyPr%s/><a:lstStyle/><a:p><a:pPr><a:defRPr%s</a:defRPr></a:pPr><a:r><a:rPr lang="en-US"%s</a:rPr><a:t>%s</a:t></a:r></a:p></c:rich></c:tx><c:overlay val="0"/></c:title>`,
		turn, font(size, bold, textColor), font(size, bold, textColor), escaped(text))
}

// font ends an opening tag of run properties: size in hundredths of a point, weight, colour, family.
func font(size int, bold bool, color string) string {
	weight := 0
	if bold {
		weight = 1
	}
	return fmt.Sprintf(` sz="%d" b="%d"><a:solidFill><a:srgbClr val="%s"/></a:solidFill><a:latin typeface="%s"/>`, size, weight, color, fontFamily)
}

// textProperties sets small text in a colour.
func textProperties(color string) string {
	return `<c:txPr><a:bodyPr/><a:lstStyle/><a:p><a:pPr><a:defRPr` + font(900, false, color) + `</a:defRPr></a:pPr><a:endParaRPr lang="en-US"/></a:p></c:txPr>`
}

func lineProperties(color string, points float64, dash Dash) string {
	const emuPerPoint = 12700
	pattern := ""
	if dash != DashSolid {
		pattern = fmt.Sprintf(`<a:prstDash val="%s"/>`, dash)
	}
	return fmt.Sprintf(`<a:ln w="%d" cap="rnd"><a:solidFill><a:srgbClr val="%s"/></a:solidFill>%s<a:round/></a:ln>`, int(points*emuPerPoint), color, pattern)
}

func number(x float64) string { return string(appendNumber(nil, x)) }
