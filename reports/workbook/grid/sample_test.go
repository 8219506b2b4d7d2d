package grid_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"shopstint/reports/workbook/grid"
)

var made = time.Date(2025, 3, 1, 8, 30, 0, 0, time.UTC)

var (
	plainNumber = grid.Style{NumberFormat: "#,##0.00"}
	input       = grid.Style{NumberFormat: `0.0" h"`, Fill: "FFF8E1", Border: grid.BorderBox, Unlocked: true}
	heading     = grid.Style{Bold: true, Fill: "35506B", FontColor: "FFFFFF", Wrap: true, VAlign: grid.VAlignTop}
)

// sample is a small book with every feature: two ways to boil water, one dear to buy and cheap to run.
func sample() *grid.Book {
	b := &grid.Book{Title: "Sample", Subject: "Every feature", Author: "grid", Created: made}
	in, curve, bars := b.Add("Inputs"), b.Add("Curve & more"), b.Add("Bars")
	fillInputs(in)
	fillCurve(curve)
	fillBars(bars)
	b.Names = []grid.Name{
		{Name: "fixed", Ref: grid.SheetRef("Inputs", 2, 2), Comment: "paid once"},
		{Name: "each", Ref: grid.SheetRef("Inputs", 3, 2)},
		{Name: "meeting", Ref: grid.SheetRef("Inputs", 5, 2)},
	}
	return b
}

func fillInputs(s *grid.Sheet) {
	s.TabColor, s.Columns, s.Freeze, s.Protected, s.Zoom = "35506B", []float64{24, 16, 40}, "B2", true, 110
	s.Heights = map[int]float64{1: 30, 20: 25}
	for i, title := range []string{"Quantity", "Value", "=Remark, a text that wraps because it is long for its column"} {
		s.Set(1, i+1, grid.Cell{Value: title, Style: heading})
	}
	s.Set(2, 1, grid.Cell{Value: "Fixed", Note: "A note on hovering.\nSecond line."})
	s.Set(2, 2, grid.Cell{Value: 200.0 / 3, Style: input, Note: "Another note"})
	s.Set(3, 1, grid.Cell{Value: "Each"})
	s.Set(3, 2, grid.Cell{Value: 4, Style: input})
	s.Set(4, 1, grid.Cell{Value: "Kind"})
	s.Set(4, 2, grid.Cell{Value: "dear", Style: grid.Style{Unlocked: true}})
	s.Set(5, 1, grid.Cell{Value: "Meet at"})
	s.Set(5, 2, grid.Cell{Formula: "fixed/each", Value: 200.0 / 3 / 4, Style: grid.Style{NumberFormat: "0.000", Border: grid.BorderTotal, Bold: true}})
	s.Set(6, 2, grid.Cell{Formula: `"Meet at "&TEXT(meeting,"0.0")&" uses <&>"`, Value: "Meet at 16.7 uses <&>"})
	s.Set(7, 2, grid.Cell{Formula: "AND(fixed>1,each<5)", Value: true})
	s.Set(8, 2, grid.Cell{Formula: `IF(Inputs!B4="dear","","cheap")`, Value: ""})
	s.Set(9, 2, grid.Cell{Formula: "ROUND(ROUND(B2*B3,8),2)", Value: 266.67, Style: plainNumber})
	s.Set(10, 2, grid.Cell{Style: input})
	least, most := 0.0, 1e6
	s.Validations = []grid.Validation{
		{Range: "B2:B3", Min: &least, Max: &most, Title: "Amount", Message: "From 0 to 1,000,000"},
		{Range: "B4", List: []string{"dear", "cheap & quick"}, Title: "Kind", Message: "One of the list"},
		{Range: "B10", ListRef: grid.RangeRef("Curve & more", 2, 1, 4, 1)},
		{Range: "B20", Min: &least},
	}
	s.Conditions = []grid.Condition{{Range: "B2:B3", Formula: "$B$2<$B$3*100", Style: grid.Style{Fill: "E2F0D9", FontColor: "375623", Bold: true}}}
	s.Links = []grid.Link{{Cell: "C2", Target: "'Curve & more'!A1", Tooltip: "To the curve"}}
	s.Set(2, 3, grid.Cell{Value: "To the curve", Style: grid.Style{Underline: true, FontColor: "1F4E79"}})
	s.Print = grid.Print{FitWide: 1, FitTall: 1, Area: "A1:C20", Footer: "&LSample&RPage &P of &N"}
}

func fillCurve(s *grid.Sheet) {
	s.Columns = []float64{10, 12, 12}
	for i, title := range []string{"Uses", "Buy", "Rent"} {
		s.Set(1, i+1, grid.Cell{Value: title, Style: heading})
	}
	for i := range 9 {
		row, uses := i+2, float64(5*i)
		s.Set(row, 1, grid.Cell{Value: uses})
		s.Set(row, 2, grid.Cell{Formula: "fixed", Value: 200.0 / 3, Style: plainNumber})
		s.Set(row, 3, grid.Cell{Formula: fmt.Sprintf("each*A%d", row), Value: 4 * uses, Style: plainNumber})
	}
	place := func(col int) string { return grid.RangeRef("Curve & more", 2, col, 10, col) }
	s.Charts = []grid.Chart{{
		Kind: grid.Scatter, Title: "Where buying & renting meet", Cell: "E2", Width: 620, Height: 340, AltText: "Two straight lines that cross",
		X: grid.Axis{Title: "Uses a year", MajorUnit: 10, Max: new(40.0), Min: new(0.0)},
		Y: grid.Axis{Title: "Cost a year", Format: "#,##0"},
		Series: []grid.Series{
			{Name: "Buy", Categories: place(1), Values: place(2), Color: "35506B"},
			{NameRef: grid.SheetRef("Curve & more", 1, 3), Categories: place(1), Values: place(3), Color: "C55A11", Dash: grid.DashLong, Marker: grid.MarkerCircle},
			{NameRef: grid.SheetRef("Inputs", 6, 2), Categories: grid.SheetRef("Inputs", 5, 2), Values: grid.SheetRef("Inputs", 2, 2),
				Color: "C00000", NoLine: true, Marker: grid.MarkerDiamond, MarkerSize: 10, Label: grid.LabelName},
		},
	}, {
		Kind: grid.Line, Title: "Line", Cell: "E20", Width: 620, Height: 340, AltText: "The same as a line chart", X: grid.Axis{Title: "Uses"}, Y: grid.Axis{Title: "Cost", Min: new(0.0)},
		Series: []grid.Series{{Name: "Rent", Categories: place(1), Values: place(3), Color: "C55A11", Label: grid.LabelValue}},
	}}
	s.Print = grid.Print{Landscape: true, FitWide: 1, FitTall: 1, TitleRows: 1, Footer: "&CPage &P of &N"}
}

func fillBars(s *grid.Sheet) {
	s.GridLines = true
	for i, name := range []string{"Rent", "Energy", "Wages"} {
		row := i + 2
		s.Set(row, 1, grid.Cell{Value: name})
		s.Set(row, 2, grid.Cell{Formula: fmt.Sprintf("-each*%d", row), Value: float64(-4 * row)})
		s.Set(row, 3, grid.Cell{Formula: fmt.Sprintf("each*%d^2", row), Value: 4 * math.Pow(float64(row), 2)})
	}
	series := []grid.Series{
		{Name: "Less", Categories: "'Bars'!$A$2:$A$4", Values: "'Bars'!$B$2:$B$4", Color: "35506B"},
		{Name: "More", Categories: "'Bars'!$A$2:$A$4", Values: "'Bars'!$C$2:$C$4", Color: "C55A11", Label: grid.LabelValue},
	}
	for i, kind := range []grid.ChartKind{grid.BarStacked, grid.ColumnStacked, grid.Column} {
		s.Charts = append(s.Charts, grid.Chart{Kind: kind, Title: fmt.Sprintf("Kind %d", kind), Cell: grid.Ref(2+18*i, 5), Width: 560, Height: 320,
			AltText: "bars", X: grid.Axis{Title: "Item", LabelsLow: true}, Y: grid.Axis{Title: "Change of cost", Format: "#,##0"}, Series: series})
	}
	over := slices.Clone(series)
	over[1].Over, over[1].Marker = true, grid.MarkerCircle
	s.Charts = append(s.Charts, grid.Chart{Kind: grid.ColumnStacked, Title: "A line over columns", Cell: grid.Ref(2+18*3, 5), Width: 560, Height: 320,
		AltText: "columns under a line", X: grid.Axis{LabelsLow: true}, Series: over})
	s.Print = grid.Print{FitWide: 1, FitTall: 1}
}

func written(t testing.TB, b *grid.Book) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, b.Write(&out))
	return out.Bytes()
}

func writtenFile(t testing.TB, b *grid.Book) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sample.xlsx")
	require.NoError(t, os.WriteFile(file, written(t, b), 0o600))
	return file
}
