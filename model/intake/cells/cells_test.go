package cells_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/intake/cells"
)

// read reads every sheet.
func read(src []byte) (*cells.Book, *cells.Trouble) {
	return cells.Read(src, func(sheets []string) []string { return sheets })
}

// part is one file in a workbook.
type part struct{ name, text string }

const (
	head    = `<?xml version="1.0" encoding="UTF-8"?>`
	oneBook = head + `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="One" sheetId="1" r:id="rId1"/></sheets></workbook>`
	oneRels = head + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/><Relationship Id="rId3" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="/xl/sharedStrings.xml"/></Relationships>`
	styles  = head + `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts><numFmt numFmtId="164" formatCode="[$-407]0.00\ &quot;days&quot;"/><numFmt numFmtId="165" formatCode="[h]:mm"/><numFmt numFmtId="166" formatCode="0.0#%"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="166"/><xf numFmtId="9"/></cellXfs></styleSheet>`
	shared  = head + `<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>plain</t></si><si><r><t>in </t></r><r><t>pieces</t></r></si></sst>`
)

func packed(t testing.TB, parts ...part) []byte {
	t.Helper()
	var out bytes.Buffer
	zw := zip.NewWriter(&out)
	for _, one := range parts {
		method := zip.Deflate
		if len(one.text) < 64<<10 {
			method = zip.Store // a fuzzer has no time to compress
		}
		w, err := zw.CreateHeader(&zip.FileHeader{Name: one.name, Method: method})
		require.NoError(t, err)
		_, err = w.Write([]byte(one.text))
		require.NoError(t, err)
	}
	require.NoError(t, zw.Close())
	return out.Bytes()
}

// book is a workbook with one sheet of that content.
func book(t testing.TB, sheet string) []byte {
	t.Helper()
	return bookOf(t, sheet, styles, shared)
}

// bookOf has its own formats and shared texts too.
func bookOf(t testing.TB, sheet, styles, shared string) []byte {
	t.Helper()
	return packed(t, part{"xl/workbook.xml", oneBook}, part{"xl/_rels/workbook.xml.rels", oneRels}, part{"xl/styles.xml", styles}, part{"xl/sharedStrings.xml", shared},
		part{"xl/worksheets/sheet1.xml", head + `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">` + sheet + `</worksheet>`})
}

func TestCellsAreReadByTheirKind(t *testing.T) {
	got, trouble := read(book(t, `<sheetData>
		<row r="2"><c r="A2" t="s"><v>0</v></c><c t="s"><v>1</v></c><c r="D2" t="inlineStr"><is><t>in_x0041_line</t></is></c><c t="str"><v>_x00</v></c></row>
		<row><c><v>1.5</v></c><c t="b"><v>1</v></c><c t="e"><v>#N/A</v></c><c><f>1+1</f><v>2</v></c><c><f t="shared" si="0"/><v>2</v></c><c t="s"><v>7</v></c></row>
		<row r="9"><c s="1"><v>45785</v></c><c s="2"><v>2</v></c><c s="3"><v>0.5</v></c><c s="4"><v>0.12</v></c><c s="5"><v>0.12</v></c><c s="99"><v>3</v></c><c s="1"/><c t="inlineStr"><is><t> </t></is></c></row>
		<row r="12" hidden="1"><c r="ZZZ9" t="n"><v>x</v></c></row>
		</sheetData><mergeCells><mergeCell ref="B2:C4"/><mergeCell ref="nonsense"/></mergeCells>`))
	require.Nil(t, trouble)
	sheet := got.Sheets[0]
	found := map[string]cells.Cell{}
	for at, cell := range sheet.Cells {
		found[at.String()] = cell
	}
	assert.Equal(t, map[string]cells.Cell{
		"A2": {Kind: cells.Text, Text: "plain"}, "B2": {Kind: cells.Text, Text: "in pieces"}, "D2": {Kind: cells.Text, Text: "inAline"}, "E2": {Kind: cells.Text, Text: "_x00"},
		"A3": {Kind: cells.Number, Number: 1.5, Text: "1.5"}, "B3": {Kind: cells.Logical, Number: 1, Text: "TRUE"}, "C3": {Kind: cells.Fault, Text: "#N/A"},
		"D3": {Kind: cells.Formula, Text: "1+1"}, "E3": {Kind: cells.Formula}, "F3": {Kind: cells.Fault, Text: "a text that is not in the file"},
		"A9": {Kind: cells.Number, Number: 45785, Text: "45785", Date: true}, "B9": {Kind: cells.Number, Number: 2, Text: "2"},
		"C9": {Kind: cells.Number, Number: 0.5, Text: "0.5", Date: true}, "D9": {Kind: cells.Number, Number: 0.12, Text: "0.12", Percent: true},
		"E9": {Kind: cells.Number, Number: 0.12, Text: "0.12", Percent: true}, "F9": {Kind: cells.Number, Number: 3, Text: "3"},
	}, found)
	assert.Equal(t, "One", sheet.Name)
	assert.Equal(t, 9, sheet.Rows)
	assert.Equal(t, &cells.Place{Row: 9, Col: 18278}, sheet.Beyond)
	require.Len(t, sheet.Merged, 1)
	assert.Equal(t, "B2:C4", sheet.Merged[0].String())
}

// hostile are files that mean harm, or that something has gone wrong with.
func hostile(t testing.TB) map[string][]byte {
	whole := book(t, `<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>`)
	var many, sheets, rels strings.Builder
	for i := range 4000 {
		fmt.Fprintf(&many, `<sheet name="s%d" sheetId="%d" r:id="r%d"/>`, i, i+1, i)
		fmt.Fprintf(&rels, `<Relationship Id="r%d" Type="x/worksheet" Target="worksheets/sheet1.xml"/>`, i)
	}
	sheets.WriteString(strings.Replace(oneBook, `<sheet name="One" sheetId="1" r:id="rId1"/>`, many.String(), 1))
	crowd := make([]part, 60000)
	for i := range crowd {
		crowd[i] = part{fmt.Sprintf("p%d", i), ""}
	}
	flipped := bytes.Clone(whole)
	for i := len(flipped) / 3; i < len(flipped)/3+40; i++ {
		flipped[i] ^= 0x55
	}
	return map[string][]byte{
		"a bomb in the sheet":       book(t, `<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>`+strings.Repeat("0", 100<<20)+`</t></is></c></row></sheetData>`),
		"a bomb in the styles":      packed(t, part{"xl/workbook.xml", oneBook}, part{"xl/_rels/workbook.xml.rels", oneRels}, part{"xl/styles.xml", strings.Repeat(" ", 80<<20)}),
		"a million cells":           book(t, `<sheetData><row>`+strings.Repeat(`<c><v>1</v></c>`, 1000000)+`</row></sheetData>`),
		"a text of many characters": book(t, `<sheetData><row><c t="str"><v>`+strings.Repeat("_x0041_", 1<<20)+`</v></c></row></sheetData>`),
		"cut off":                   whole[:len(whole)/2],
		"a few bytes":               []byte("PK\x03\x04"),
		"a password":                append([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), make([]byte, 4096)...),
		"no workbook":               packed(t, part{"hello.txt", "hello"}),
		"another office file":       packed(t, part{"_rels/.rels", `<Relationships><Relationship Id="r" Type="x/officeDocument" Target="word/document.xml"/></Relationships>`}, part{"word/document.xml", "<d/>"}),
		"thousands of sheets":       packed(t, part{"xl/workbook.xml", sheets.String()}, part{"xl/_rels/workbook.xml.rels", "<Relationships>" + rels.String() + "</Relationships>"}),
		"thousands of parts":        packed(t, crowd...),
		"a sheet that is not there": packed(t, part{"xl/workbook.xml", oneBook}, part{"xl/_rels/workbook.xml.rels", oneRels}),
		"flipped bits":              flipped,
		"an entity that grows":      packed(t, part{"xl/workbook.xml", head + `<!DOCTYPE w [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;&a;">]><workbook><sheets><sheet name="&b;"/></sheets></workbook>`}),
		"a deep nest":               book(t, strings.Repeat("<a>", 1<<20)),
		"shared texts without end":  bookOf(t, "", styles, "<sst>"+strings.Repeat("<si/>", 400001)+"</sst>"),
		"formats without end":       bookOf(t, "", "<styleSheet><cellXfs>"+strings.Repeat("<xf/>", 4<<20)+"</cellXfs></styleSheet>", shared),
		"merged ranges without end": book(t, `<sheetData/><mergeCells>`+strings.Repeat(`<mergeCell ref="A1:B2"/>`, 1001)+`</mergeCells>`),
		"a row below nought":        book(t, `<sheetData><row r="-5"><c><v>1</v></c></row></sheetData>`),
		"a row far beyond":          book(t, `<sheetData><row r="99999999999999999999"><c><v>1</v></c></row></sheetData>`),
		"a cell below nought":       book(t, `<sheetData><row r="1"><c r="A-5"><v>1</v></c></row></sheetData>`),
		"one cell twice":            book(t, `<sheetData><row r="1"><c r="A1"><v>1</v></c><c r="A1"><v>2</v></c></row></sheetData>`),
		"one part twice":            packed(t, part{"xl/workbook.xml", oneBook}, part{"/xl/workbook.xml", oneBook}),
		"a packed file of nothing":  []byte("PK\x05\x06" + strings.Repeat("\x00", 18)),
		"an entity from outside":    packed(t, part{"xl/workbook.xml", head + `<!DOCTYPE w [<!ENTITY a SYSTEM "file:///dev/zero">]><workbook><sheets><sheet name="&a;"/></sheets></workbook>`}),
		"a sheet outside the file":  packed(t, part{"xl/workbook.xml", oneBook}, part{"xl/_rels/workbook.xml.rels", strings.Replace(oneRels, "worksheets/sheet1.xml", "../../../../dev/zero", 1)}),
		"another encoding":          packed(t, part{"xl/workbook.xml", `<?xml version="1.0" encoding="UTF-16"?><workbook/>`}),
	}
}

// TestHostileFilesAreRefusedInLittleTimeAndRoom holds the bounds: what a file may
// unpack to, and what reading it may take.
func TestHostileFilesAreRefusedInLittleTimeAndRoom(t *testing.T) {
	says := map[string]string{
		"a bomb in the sheet": "unpacks to far more", "a bomb in the styles": "unpacks to far more", "a million cells": "far more cells",
		"cut off": "damaged or cut off", "a password": "has a password", "no workbook": "holds none", "another office file": "holds none",
		"shared texts without end": "far more texts", "formats without end": "unpacks to far more", "merged ranges without end": "more than 1000 merged ranges",
		"a row below nought": `the row "-5", which cannot be`, "a row far beyond": "which cannot be", "a cell below nought": `the cell "A-5", which cannot be`, "one cell twice": "the cell A1 twice",
		"one part twice": "one of its parts twice", "a packed file of nothing": "holds none", "an entity from outside": "damaged", "a sheet outside the file": "damaged",
		"thousands of sheets": "4000 sheets", "thousands of parts": "60000 parts", "an entity that grows": "damaged", "flipped bits": "damaged",
	}
	for name, src := range hostile(t) {
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		start := time.Now()
		got, trouble := read(src)
		took := time.Since(start)
		runtime.ReadMemStats(&after)
		if name == "a text of many characters" {
			require.Nil(t, trouble, name)
			assert.LessOrEqual(t, len(got.Sheets[0].Cells[cells.Place{Row: 1, Col: 1}].Text), cells.MostText+3)
		} else {
			assert.Nil(t, got, name)
			require.NotNil(t, trouble, name)
			assert.NotEmpty(t, trouble.What, name)
			assert.Contains(t, trouble.What, says[name], name)
			assert.NotEmpty(t, trouble.Right, name)
			assert.NotContains(t, trouble.What, "zip", name)
		}
		assert.Less(t, took, 2*time.Minute, name) // a second or two, and more on a busy machine
		assert.Less(t, (after.TotalAlloc-before.TotalAlloc)>>20, uint64(1000), "%s: MiB allocated", name)
	}
}

func TestACellAtTheEndOfTheSheetCostsNothing(t *testing.T) {
	got, trouble := read(book(t, `<sheetData><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>`))
	require.Nil(t, trouble)
	assert.Empty(t, got.Sheets[0].Cells)
	assert.Equal(t, "XFD1048576", got.Sheets[0].Beyond.String())
}

func TestAWorkbookIsKnownByItsFirstBytes(t *testing.T) {
	assert.True(t, cells.IsWorkbook(book(t, "")))
	assert.True(t, cells.IsWorkbook([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")))
	assert.True(t, cells.IsWorkbook([]byte("PK\x05\x06")))
	assert.False(t, cells.IsWorkbook([]byte("currency: EUR")))
	assert.False(t, cells.IsWorkbook(nil))
}

func TestASheetThatIsNotWantedIsNotUnpacked(t *testing.T) {
	src := book(t, `<sheetData><row>`+strings.Repeat(`<c><v>1</v></c>`, 1000000)+`</row></sheetData>`)
	got, trouble := cells.Read(src, func(sheets []string) []string {
		assert.Equal(t, []string{"One"}, sheets)
		return nil
	})
	require.Nil(t, trouble)
	assert.Equal(t, []cells.Sheet{{Name: "One"}}, got.Sheets)
}
