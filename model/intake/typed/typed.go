// Package typed writes a workbook as plain text and makes it from such a text,
// for tests only: so a fuzzer changes cells, and not the bytes of a packed file.
//
// A line [Name] begins a sheet, a line &B2:C4 merges cells, and every other line
// is a row whose cells stand between tabs:
//
//	'5 mm    the text 5 mm          =1+2    a formula
//	#N/A     an error value         !TRUE   yes or no
//	%0.12    12 %                   @46458  a date
//	5        a number, and whatever else is a text
package typed

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"shopstint/model/intake/cells"
)

// Numbers of the formats in the part of styles, by the sign in front of a cell.
const (
	percentFormat = 1
	dateFormat    = 2
)

// Workbook packs what the text says as a spreadsheet program would, without
// compressing it. Sheets beyond a few dozen, and rows beyond a sheet's end, are
// packed too: bounds are for the reader to hold.
func Workbook(text string) []byte {
	var book, relations strings.Builder
	parts := map[string]string{}
	var sheet *sheet
	n := 0
	close := func() {
		if sheet != nil {
			parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", n)] = sheet.String()
		}
	}
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\r\n")
		name, isSheet := strings.CutPrefix(line, "[")
		switch {
		case isSheet:
			close()
			n++
			sheet = newSheet()
			fmt.Fprintf(&book, `<sheet name="%s" sheetId="%d" r:id="r%d"/>`, escaped(strings.TrimSuffix(name, "]")), n, n)
			fmt.Fprintf(&relations, `<Relationship Id="r%d" Type="o/worksheet" Target="worksheets/sheet%d.xml"/>`, n, n)
		case sheet != nil:
			sheet.line(line)
		}
	}
	close()
	parts["xl/workbook.xml"] = `<workbook xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets>` + book.String() + `</sheets></workbook>`
	parts["xl/_rels/workbook.xml.rels"] = `<Relationships><Relationship Id="s" Type="o/styles" Target="styles.xml"/>` + relations.String() + `</Relationships>`
	parts["xl/styles.xml"] = `<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="10"/><xf numFmtId="14"/></cellXfs></styleSheet>`
	return packed(parts)
}

func packed(parts map[string]string) []byte {
	var out bytes.Buffer
	zw := zip.NewWriter(&out)
	for name, content := range parts {
		w, err := zw.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		if err == nil {
			_, err = w.Write([]byte(content))
		}
		if err != nil {
			panic(err) // nothing in memory fails
		}
	}
	if err := zw.Close(); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// sheet is one sheet in the making.
type sheet struct {
	rows, merged strings.Builder
	row          int
}

func newSheet() *sheet { return &sheet{} }

// String is the sheet as its part of the file.
func (s *sheet) String() string {
	return `<worksheet><sheetData>` + s.rows.String() + `</sheetData><mergeCells>` + s.merged.String() + `</mergeCells></worksheet>`
}

func (s *sheet) line(line string) {
	if area, ok := strings.CutPrefix(line, "&"); ok {
		fmt.Fprintf(&s.merged, `<mergeCell ref="%s"/>`, escaped(area))
		return
	}
	s.row++
	fmt.Fprintf(&s.rows, `<row r="%d">`, s.row)
	col := 0
	for cell := range strings.SplitSeq(line, "\t") {
		if col++; cell != "" {
			fmt.Fprintf(&s.rows, `<c r="%s" %s</c>`, cells.Place{Row: s.row, Col: col}, content(cell))
		}
	}
	s.rows.WriteString(`</row>`)
}

// content is what follows the place of a cell.
func content(cell string) string {
	rest := cell[1:]
	switch cell[0] {
	case '\'':
		return `t="inlineStr"><is><t>` + escaped(rest) + `</t></is>`
	case '=':
		return `><f>` + escaped(rest) + `</f><v>1</v>`
	case '#':
		return `t="e"><v>` + escaped(cell) + `</v>`
	case '!':
		return `t="b"><v>` + map[bool]string{true: "1", false: "0"}[rest == "TRUE"] + `</v>`
	case '%':
		return fmt.Sprintf(`s="%d"><v>%s</v>`, percentFormat, escaped(rest))
	case '@':
		return fmt.Sprintf(`s="%d"><v>%s</v>`, dateFormat, escaped(rest))
	}
	if _, err := strconv.ParseFloat(cell, 64); err == nil {
		return `><v>` + cell + `</v>`
	}
	return content("'" + cell)
}

// escaped writes a text for a part of the file; what cannot stand there becomes
// the sign for that.
func escaped(text string) string {
	var out bytes.Buffer
	_ = xml.EscapeText(&out, []byte(text)) // a buffer takes all
	return out.String()
}

// Text writes a workbook as the text that makes it again, without empty rows, with
// the rows that are kept: a row comes as the texts of its cells, from column A on.
func Text(src []byte, keep func(sheet string, row []string) bool) (string, error) {
	book, trouble := cells.Read(src, func(sheets []string) []string { return sheets })
	if trouble != nil {
		return "", fmt.Errorf("could not read the workbook: %s", trouble.What)
	}
	var out strings.Builder
	for _, sheet := range book.Sheets {
		out.WriteString("[" + sheet.Name + "]\n")
		for row := 1; row <= sheet.Rows; row++ {
			if shown, plain := rowOf(&sheet, row); len(plain) > 0 && keep(sheet.Name, plain) {
				out.WriteString(strings.Join(shown, "\t") + "\n")
			}
		}
	}
	return out.String(), nil
}

// rowOf gives the cells of a row as they are typed and as they are read.
func rowOf(sheet *cells.Sheet, row int) (shown, plain []string) {
	for col := 1; col <= cells.MostColumns; col++ {
		cell, ok := sheet.Cells[cells.Place{Row: row, Col: col}]
		if !ok {
			continue
		}
		empty := slices.Repeat([]string{""}, col-1-len(shown))
		shown, plain = append(append(shown, empty...), typed(cell)), append(append(plain, empty...), cell.Text)
	}
	return shown, plain
}

// typed is a cell as it is typed.
func typed(cell cells.Cell) string {
	text := strings.Join(strings.FieldsFunc(cell.Text, func(r rune) bool { return r == '\t' || r == '\n' || r == '\r' }), " ")
	switch {
	case cell.Kind == cells.Formula:
		return "=" + text
	case cell.Kind == cells.Logical:
		return "!" + text
	case cell.Kind == cells.Number && cell.Percent:
		return "%" + text
	case cell.Kind == cells.Number && cell.Date:
		return "@" + text
	case cell.Kind == cells.Text && content(text) != content("'"+text):
		return "'" + text
	}
	return text
}
