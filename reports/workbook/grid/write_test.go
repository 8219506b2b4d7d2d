package grid_test

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"shopstint/reports/workbook/grid"
	"shopstint/reports/workbook/recalc"
)

func TestSameBookGivesSameBytes(t *testing.T) {
	first := sha256.Sum256(written(t, sample()))
	for range 50 {
		require.Equal(t, first, sha256.Sum256(written(t, sample())))
	}
}

// room is a writer that takes so many bytes and no more.
type room int

func (r *room) Write(content []byte) (int, error) {
	fits := min(len(content), int(*r))
	*r -= room(fits)
	if fits < len(content) {
		return fits, io.ErrShortWrite
	}
	return fits, nil
}

func TestAWriterThatHasNoMoreRoomIsTold(t *testing.T) {
	size := len(written(t, sample()))
	step := size/50 + 1
	for at := 0; at < size; at += step {
		left := room(at)
		require.ErrorIs(t, sample().Write(&left), io.ErrShortWrite, "after %d of %d bytes", at, size)
	}
	left := room(size - 1)
	require.ErrorIs(t, sample().Write(&left), io.ErrShortWrite)
	left = room(size)
	require.NoError(t, sample().Write(&left))
}

func TestCellsInAnyOrderGiveTheSameBytes(t *testing.T) {
	want := written(t, sample())
	b := sample()
	for _, s := range b.Sheets {
		for i, j := 0, len(s.Cells)-1; i < j; i, j = i+1, j-1 {
			s.Cells[i], s.Cells[j] = s.Cells[j], s.Cells[i]
		}
	}
	assert.Equal(t, styleless(t, want), styleless(t, written(t, b)))
}

// styleless gives the parts of a file that hold cells and charts.
func styleless(t *testing.T, file []byte) map[string]string {
	t.Helper()
	parts := map[string]string{}
	for name, text := range partsOf(t, file) {
		if strings.HasPrefix(name, "xl/charts/") || strings.HasPrefix(name, "xl/worksheets/") {
			parts[name] = text
		}
	}
	require.NotEmpty(t, parts)
	return parts
}

func partsOf(t *testing.T, file []byte) map[string]string {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(t, err)
	parts := map[string]string{}
	for _, part := range archive.File {
		r, err := part.Open()
		require.NoError(t, err)
		content, err := io.ReadAll(r)
		require.NoError(t, err)
		parts[part.Name] = string(content)
	}
	return parts
}

func TestBothOfficeProgramsFindTheCachedValues(t *testing.T) {
	file := writtenFile(t, sample())
	cached, formulas := recalc.Cached(t, file)
	libre := recalc.LibreOffice(t).Recalculate(t, file)[0]
	tally := recalc.Compare(t, cached, formulas, libre, 1e-9)
	recalc.Compare(t, cached, formulas, recalc.Gnumeric(t, file)[0], 1e-9)
	assert.Equal(t, recalc.Tally{Numbers: 26, Texts: 2, Logicals: 1}, tally)
}

func TestAnEditedInputMovesWhatHangsOnIt(t *testing.T) {
	file := writtenFile(t, sample())
	got := recalc.LibreOffice(t).RecalculateEach(t, file, [][]recalc.Edit{
		{{Sheet: "Inputs", Cell: "B2", Value: 100.0}},
		{{Sheet: "Inputs", Cell: "B2", Value: 90}, {Sheet: "Inputs", Cell: "B4", Value: "cheap"}},
	})
	assert.Equal(t, 25.0, got[0]["Inputs"]["B5"].Number)
	assert.Equal(t, "Meet at 25.0 uses <&>", got[0]["Inputs"]["B6"].Text)
	assert.Equal(t, 22.5, got[1]["Inputs"]["B5"].Number)
	assert.Equal(t, "cheap", got[1]["Inputs"]["B8"].Text)
}

func TestNumbersKeepAllTheirDigits(t *testing.T) {
	numbers := []float64{1.0 / 3, 6666666666.666667, 1e-300, 1.7976931348623157e308, 5e-324, -0.1, 123456789012345680, 1e15, 999999999999999.9, 1e-5}
	b := &grid.Book{Created: made}
	s := b.Add("Numbers")
	for i, x := range numbers {
		s.Set(i+1, 1, grid.Cell{Value: x})
		s.Set(i+1, 2, grid.Cell{Formula: grid.Ref(i+1, 1), Value: x})
	}
	values, _ := recalc.Cached(t, writtenFile(t, b))
	for i, x := range numbers {
		assert.Equal(t, x, values["Numbers"][grid.Ref(i+1, 1)].Number)
		assert.Equal(t, x, values["Numbers"][grid.Ref(i+1, 2)].Number)
	}
}

func TestAnyTextStaysTheSameText(t *testing.T) {
	cells := []string{"=1+1", "+1", "-x", "@sum", "'=", " outer blanks ", "two\nlines", "tab\there", "<&>\"'", "_x0041_", "_x004", "_x", "日本語 😀", "#N/A", "1e5", "TRUE", ""}
	b := &grid.Book{Created: made}
	s := b.Add("Texts")
	for i, text := range cells {
		s.Set(i+1, 1, grid.Cell{Value: text})
		s.Set(i+1, 2, grid.Cell{Formula: grid.Ref(i+1, 1), Value: text})
	}
	file := writtenFile(t, b)
	readers := map[string]recalc.Sheets{"LibreOffice": recalc.LibreOffice(t).Recalculate(t, file)[0]}
	readers["gnumeric"] = recalc.Gnumeric(t, file)[0]
	readers["ours"], _ = recalc.Cached(t, file)
	for i, text := range cells {
		for reader, values := range readers {
			assert.Equal(t, text, values["Texts"][grid.Ref(i+1, 1)].Text, "%s, constant %q", reader, text)
			assert.Equal(t, text, values["Texts"][grid.Ref(i+1, 2)].Text, "%s, formula %q", reader, text)
		}
	}
}

func TestAnotherReaderSeesTypesFormulasAndNotes(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(written(t, sample())))
	require.NoError(t, err)
	defer func() { assert.NoError(t, f.Close()) }()
	formula, err := f.GetCellFormula("Inputs", "B6")
	require.NoError(t, err)
	assert.Equal(t, `"Meet at "&TEXT(meeting,"0.0")&" uses <&>"`, formula)
	kind, err := f.GetCellType("Inputs", "B7")
	require.NoError(t, err)
	assert.Equal(t, excelize.CellTypeBool, kind)
	title, err := f.GetCellValue("Inputs", "C1")
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(title, "=Remark"))
	notes, err := f.GetComments("Inputs")
	require.NoError(t, err)
	assert.Len(t, notes, 2)
	assert.Len(t, f.GetDefinedName(), 3+1+1)
	props, err := f.GetDocProps()
	require.NoError(t, err)
	assert.Equal(t, "2025-03-01T08:30:00Z", props.Created)
}

func TestANumberThatIsNoneBecomesAnErrorCellBehindAFormula(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		b := &grid.Book{Created: made}
		b.Add("A").Set(1, 1, grid.Cell{Formula: "1/0", Value: x})
		values, _ := recalc.Cached(t, writtenFile(t, b))
		assert.Equal(t, recalc.Value{Kind: recalc.Fault, Text: "#NUM!"}, values["A"]["A1"])
	}
}

func TestWriteLeavesTheBookAsItWas(t *testing.T) {
	b := sample()
	s := b.Sheets[0]
	s.Cells[0], s.Cells[1] = s.Cells[1], s.Cells[0]
	before := fmt.Sprintf("%+v", s.Cells)
	written(t, b)
	assert.Equal(t, before, fmt.Sprintf("%+v", s.Cells))
}

func TestChartsCarryTheirValuesAndCures(t *testing.T) {
	parts := partsOf(t, written(t, sample()))
	curve := parts["xl/charts/chart1.xml"]
	for _, want := range []string{
		`<c:majorUnit val="10"/>`, `rot="-5400000"`, `<c:symbol val="none"/>`, `<a:srgbClr val="35506B"/>`, `<c:v>Buy</c:v>`,
		`<c:strCache><c:ptCount val="1"/><c:pt idx="0"><c:v>Meet at 16.7 uses &lt;&amp;&gt;</c:v>`, `<c:v>66.66666666666667</c:v>`,
		`Where buying &amp; renting meet`,
	} {
		assert.Contains(t, curve, want)
	}
	assert.Contains(t, parts["xl/drawings/drawing1.xml"], `descr="Two straight lines that cross"`)
	assert.Contains(t, parts["xl/workbook.xml"], `fullCalcOnLoad="true"`)
}

func TestEveryWrittenNumberReadsBackExactly(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		x := rapid.Float64().Draw(r, "x")
		b := &grid.Book{Created: made}
		b.Add("A").Set(1, 1, grid.Cell{Value: x})
		var out bytes.Buffer
		require.NoError(r, b.Write(&out))
		f, err := excelize.OpenReader(&out)
		require.NoError(r, err)
		raw, err := f.GetCellValue("A", "A1", excelize.Options{RawCellValue: true})
		require.NoError(r, err)
		var back float64
		_, err = fmt.Sscan(raw, &back)
		require.NoError(r, err)
		assert.Equal(r, x, back)
	})
}

func TestEveryTextIsRefusedOrReadsBackAsItWas(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`(_x|[0-9a-fA-F]{4}|_|[=+@"&<]){1,6}`)).Draw(r, "text")
		b := &grid.Book{Created: made}
		b.Add("A").Set(1, 1, grid.Cell{Value: text})
		var out bytes.Buffer
		if err := b.Write(&out); err != nil {
			require.ErrorContains(r, err, "control character")
			return
		}
		f, err := excelize.OpenReader(&out)
		require.NoError(r, err)
		back, err := f.GetCellValue("A", "A1")
		require.NoError(r, err)
		assert.Equal(r, text, back)
	})
}
