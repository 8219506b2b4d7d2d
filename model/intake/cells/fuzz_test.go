package cells_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"shopstint/model/intake/cells"
)

// FuzzAnySheetIsReadOrRefused takes the inside of a sheet, of the formats and of
// the shared texts: every cell that is read lies in bounds, and is the same once
// it is written and read again.
func FuzzAnySheetIsReadOrRefused(f *testing.F) {
	const formats, texts = `<numFmts><numFmt numFmtId="164" formatCode="0.0#%"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/></cellXfs>`, `<si><t>plain</t></si><si><r><t>in </t></r><r><t>pieces</t></r></si>`
	for _, sheet := range []string{
		`<sheetData><row r="2"><c r="A2" t="s"><v>0</v></c><c s="1"><v>3</v></c></row></sheetData><mergeCells><mergeCell ref="B2:C4"/></mergeCells>`,
		`<sheetData><row r="-1"><c r="A0"><f/></c><c t="d"><v>2026-01-01</v></c></row></sheetData>`,
		`<sheetData><row r="1"><c t="inlineStr"><is><t>_x005F_x0041_</t></is></c><c t="b"><v>1</v></c><c t="e"><v>#REF!</v></c><c s="2"><v>1e-3</v></c></row></sheetData>`,
		`<sheetData><row r="99999999999999999999"><c r="XFE1"><v>0x1p4</v></c><c t="s"><v>-1</v></c><c s="-1"><v>1e309</v></c></row></sheetData>`,
	} {
		f.Add(sheet, formats, texts)
	}
	f.Fuzz(func(t *testing.T, sheet, formats, texts string) {
		start := time.Now()
		got, trouble := read(bookOf(t, sheet, "<styleSheet>"+formats+"</styleSheet>", "<sst>"+texts+"</sst>"))
		require.Less(t, time.Since(start), 5*time.Second)
		require.Equal(t, got == nil, trouble != nil)
		if trouble != nil {
			require.NotEmpty(t, trouble.What)
			require.NotEmpty(t, trouble.Right)
			return
		}
		requireInBounds(t, &got.Sheets[0])
		again, trouble := read(rewritten(t, &got.Sheets[0]))
		require.Nil(t, trouble)
		require.Equal(t, got.Sheets[0].Cells, again.Sheets[0].Cells)
		require.Equal(t, got.Sheets[0].Merged, again.Sheets[0].Merged)
		require.Equal(t, got.Sheets[0].Rows, again.Sheets[0].Rows)
	})
}

func requireInBounds(t *testing.T, sheet *cells.Sheet) {
	rows := 0
	for at, cell := range sheet.Cells {
		require.True(t, at.Row >= 1 && at.Col >= 1 && at.Row <= cells.MostRows && at.Col <= cells.MostColumns, "%v", at)
		require.NotEqual(t, cells.Empty, cell.Kind, "%v", at)
		require.False(t, math.IsNaN(cell.Number) || math.IsInf(cell.Number, 0), "%v", at)
		require.LessOrEqual(t, len(cell.Text), cells.MostText+len("…"), "%v", at)
		require.True(t, utf8.ValidString(cell.Text), "%v: %q", at, cell.Text)
		rows = max(rows, at.Row)
	}
	require.Equal(t, rows, sheet.Rows)
}

// rewritten packs a workbook with those cells.
func rewritten(t *testing.T, sheet *cells.Sheet) []byte {
	var rows strings.Builder
	for at, cell := range sheet.Cells {
		style := 0
		if cell.Percent {
			style += 1
		}
		if cell.Date {
			style += 2
		}
		fmt.Fprintf(&rows, `<c r="%s" s="%d" `, at, style)
		switch text := written(cell.Text); {
		case cell.Kind == cells.Formula:
			rows.WriteString(`><f>` + text + `</f></c>`)
		case cell.Kind == cells.Text:
			rows.WriteString(`t="inlineStr"><is><t>` + text + `</t></is></c>`)
		case cell.Kind == cells.Fault:
			rows.WriteString(`t="e"><v>` + text + `</v></c>`)
		case cell.Kind == cells.Logical:
			fmt.Fprintf(&rows, `t="b"><v>%g</v></c>`, cell.Number)
		case cell.Date && !cell.Percent && cell.Number == 0: // a date as text has no number
			rows.WriteString(`t="d"><v>` + text + `</v></c>`)
		default:
			rows.WriteString(`><v>` + text + `</v></c>`)
		}
	}
	var merged strings.Builder
	for _, area := range sheet.Merged {
		fmt.Fprintf(&merged, `<mergeCell ref="%s"/>`, area)
	}
	const formats = `<styleSheet><numFmts><numFmt numFmtId="200" formatCode="yyyy%"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="9"/><xf numFmtId="14"/><xf numFmtId="200"/></cellXfs></styleSheet>`
	return bookOf(t, `<sheetData><row>`+rows.String()+`</row></sheetData><mergeCells>`+merged.String()+`</mergeCells>`, formats, "<sst/>")
}

// written escapes a text, what in it could be read as a written sign, and the signs
// that XML cannot hold.
func written(text string) string {
	var signs strings.Builder
	for _, sign := range strings.ReplaceAll(text, "_x", "_x005F_x") {
		if sign < ' ' && !strings.ContainsRune("\t\n\r", sign) || sign == 0xFFFE || sign == 0xFFFF {
			fmt.Fprintf(&signs, "_x%04X_", sign)
			continue
		}
		signs.WriteRune(sign)
	}
	var out bytes.Buffer
	if err := xml.EscapeText(&out, []byte(signs.String())); err != nil {
		panic(err) // a buffer takes all
	}
	return out.String()
}
