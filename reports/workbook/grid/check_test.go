package grid_test

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"shopstint/reports/workbook/grid"
)

func TestWriteRefusesWhatTheFormatDoesNotTake(t *testing.T) {
	first := func(change func(*grid.Sheet)) func(*grid.Book) {
		return func(b *grid.Book) { change(b.Sheets[0]) }
	}
	cell := func(c grid.Cell) func(*grid.Book) {
		return first(func(s *grid.Sheet) { s.Set(50, 1, c) })
	}
	chart := func(change func(*grid.Chart)) func(*grid.Book) {
		return func(b *grid.Book) { change(&b.Sheets[1].Charts[0]) }
	}
	cases := map[string]struct {
		change func(*grid.Book)
		says   string
	}{
		"no sheet":                  {func(b *grid.Book) { b.Sheets = nil }, "no sheet"},
		"sheet twice":               {func(b *grid.Book) { b.Add("INPUTS") }, "taken"},
		"sheet name long":           {func(b *grid.Book) { b.Add(strings.Repeat("x", 32)) }, "1 to 31"},
		"sheet name empty":          {func(b *grid.Book) { b.Add("") }, "1 to 31"},
		"sheet name apostrophe":     {func(b *grid.Book) { b.Add("Joe's") }, "must not hold"},
		"sheet name slash":          {func(b *grid.Book) { b.Add("a/b") }, "must not hold"},
		"sheet name reserved":       {func(b *grid.Book) { b.Add("History") }, "reserved"},
		"cell twice":                {first(func(s *grid.Sheet) { s.Set(2, 2, grid.Cell{Value: 1.0}) }), "cell B2: given twice"},
		"cell outside":              {first(func(s *grid.Sheet) { s.Set(0, 1, grid.Cell{}) }), "outside"},
		"not a number":              {cell(grid.Cell{Value: math.NaN()}), "finite"},
		"infinite":                  {cell(grid.Cell{Value: math.Inf(1)}), "finite"},
		"unknown type":              {cell(grid.Cell{Value: int64(3)}), "int64"},
		"big int":                   {cell(grid.Cell{Value: 1<<53 + 1}), "2^53"},
		"long text":                 {cell(grid.Cell{Value: strings.Repeat("x", 32768)}), "32767"},
		"long cached text":          {cell(grid.Cell{Formula: "A1", Value: strings.Repeat("x", 32768)}), "32767"},
		"control character":         {cell(grid.Cell{Value: "a\x01"}), "U+0001"},
		"broken UTF-8":              {cell(grid.Cell{Value: "a\xff"}), "UTF-8"},
		"formula with =":            {cell(grid.Cell{Formula: "=1"}), "leading ="},
		"long formula":              {cell(grid.Cell{Formula: strings.Repeat("1+", 4096) + "1"}), "8191"},
		"bad colour":                {cell(grid.Cell{Style: grid.Style{Fill: "red"}}), "colour"},
		"bad size":                  {cell(grid.Cell{Style: grid.Style{Size: math.NaN()}}), "font size"},
		"bad freeze":                {first(func(s *grid.Sheet) { s.Freeze = "3B" }), "freeze"},
		"bad zoom":                  {first(func(s *grid.Sheet) { s.Zoom = 5 }), "zoom"},
		"bad width":                 {first(func(s *grid.Sheet) { s.Columns = []float64{300} }), "width"},
		"bad print area":            {first(func(s *grid.Sheet) { s.Print.Area = "B9:A1" }), "print area"},
		"list with a comma":         {first(func(s *grid.Sheet) { s.Validations[1].List = []string{"a,b"} }), "commas"},
		"list and limits":           {first(func(s *grid.Sheet) { s.Validations[0].List = []string{"a"} }), "exactly one"},
		"link to nowhere":           {first(func(s *grid.Sheet) { s.Links[0].Target = "'No'!A1" }), "no sheet"},
		"condition without rule":    {first(func(s *grid.Sheet) { s.Conditions[0].Formula = "" }), "must have a formula"},
		"name to nowhere":           {func(b *grid.Book) { b.Names[0].Ref = "'No'!$A$1" }, "no sheet"},
		"name to nothing":           {func(b *grid.Book) { b.Names[0].Ref = "" }, "nothing"},
		"name twice":                {func(b *grid.Book) { b.Names[0].Name = "EACH" }, "already given"},
		"chart of lines over lines": {chart(func(c *grid.Chart) { c.Series[0].Over = true }), "columns under them"},
		"chart without series":      {chart(func(c *grid.Chart) { c.Series = nil }), "no series"},
		"chart of another sheet":    {chart(func(c *grid.Chart) { c.Series[0].Values = "'No'!$A$1" }), "no sheet"},
		"chart without colour":      {chart(func(c *grid.Chart) { c.Series[0].Color = "" }), "colour"},
		"chart with two names":      {chart(func(c *grid.Chart) { c.Series[1].Name = "x" }), "not both"},
		"chart axis upside down":    {chart(func(c *grid.Chart) { c.X.Min = new(50.0) }), "lower limit"},
		"chart of no size":          {chart(func(c *grid.Chart) { c.Width = 0 }), "pixels"},
		"scatter without x place":   {chart(func(c *grid.Chart) { c.Series[0].Categories = "" }), "x values"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			b := sample()
			c.change(b)
			assert.ErrorContains(t, b.Write(io.Discard), c.says)
		})
	}
}

func TestWriteTakesWhatJustFits(t *testing.T) {
	b := sample()
	b.Add(strings.Repeat("x", 31))
	s := b.Sheets[0]
	s.Set(50, 1, grid.Cell{Value: strings.Repeat("x", 32767)})
	s.Set(51, 1, grid.Cell{Formula: strings.Repeat("1+", 4095) + "1", Value: 4096})
	s.Set(1<<20, 1<<14, grid.Cell{Value: -1 << 53})
	require.NoError(t, b.Write(io.Discard))
}

func TestNamesThatReadAsSomethingElseAreRefused(t *testing.T) {
	for _, name := range []string{"", "A1", "ab12", "XFD1048576", "ZZZ1", "R", "c", "r1c1", "RC", "R1", "C12", "R1C", "RC1", "TRUE", "false", "1a", "a b", "a-b", ".a", "_xlnm.x", strings.Repeat("n", 256)} {
		b := sample()
		b.Names[0].Name = name
		assert.Error(t, b.Write(io.Discard), name)
	}
	for _, name := range []string{"fixed", "_a", "RATE1", "r1c1x", "rent_per_hour", "a.b", "Größe", "RCx", "AB", "tax2024x"} {
		b := &grid.Book{Created: made, Names: []grid.Name{{Name: name, Ref: "'A'!$A$1"}}}
		b.Add("A")
		assert.NoError(t, b.Write(io.Discard), name)
	}
}

func TestReferencesAreSpeltAsTheSheetCountsThem(t *testing.T) {
	for _, c := range []struct {
		row, col  int
		want, abs string
	}{
		{1, 1, "A1", "$A$1"}, {9, 26, "Z9", "$Z$9"}, {3, 27, "AA3", "$AA$3"}, {1, 702, "ZZ1", "$ZZ$1"}, {1 << 20, 1 << 14, "XFD1048576", "$XFD$1048576"},
	} {
		assert.Equal(t, c.want, grid.Ref(c.row, c.col))
		assert.Equal(t, c.abs, grid.AbsRef(c.row, c.col))
	}
	assert.Equal(t, `'My sheet'!$B$3:$C$9`, grid.RangeRef("My sheet", 3, 2, 9, 3))
	assert.Equal(t, `"6"" belt"`, grid.Quote(`6" belt`))
}

func TestAValidationMayBeAFormulaOrAnOffer(t *testing.T) {
	b := &grid.Book{Author: "grid"}
	s := b.Add("One")
	s.Set(1, 1, grid.Cell{Value: 1.0})
	s.Validations = []grid.Validation{
		{Range: "A1 A5", Formula: `OR(ISTEXT(A1),A1<10)`, Title: "one", Message: "under ten"},
		{Range: "B1", List: []string{"a", "b"}, Suggest: true},
	}
	var out bytes.Buffer
	require.NoError(t, b.Write(&out))
	file, err := excelize.OpenReader(&out)
	require.NoError(t, err)
	rules, err := file.GetDataValidations("One")
	require.NoError(t, err)
	require.Len(t, rules, 2)
	assert.Equal(t, "custom", rules[0].Type)
	assert.Equal(t, "OR(ISTEXT(A1),A1<10)", rules[0].Formula1)
	assert.True(t, rules[0].ShowErrorMessage)
	assert.False(t, rules[1].ShowErrorMessage, "an offer refuses nothing")

	s.Validations = []grid.Validation{{Range: "A1", Formula: "A1<10", List: []string{"a"}}}
	assert.ErrorContains(t, b.Write(&out), "exactly one of")
}
