package recalc

import (
	"archive/zip"
	"cmp"
	"encoding/xml"
	"fmt"
	"path"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Kind is what a cell holds.
type Kind int

// The kinds of content. A Fault is an error value such as #DIV/0!, spelt out in Value.Text.
const (
	Empty Kind = iota
	Numeric
	Textual
	Logical // Number is 1 or 0
	Fault
)

// Value is the content of a cell.
type Value struct {
	Kind   Kind
	Number float64
	Text   string
}

// String shows a value for a message.
func (v Value) String() string {
	switch v.Kind {
	case Numeric:
		return strconv.FormatFloat(v.Number, 'g', -1, 64)
	case Textual:
		return strconv.Quote(v.Text)
	case Logical:
		return strings.ToUpper(strconv.FormatBool(v.Number != 0))
	case Fault:
		return v.Text
	}
	return "nothing"
}

// Sheets holds the values of a workbook by sheet name and cell reference; empty cells are left out.
type Sheets map[string]map[string]Value

// Formulas holds the formulas of a workbook, without "=", by sheet name and cell reference.
type Formulas map[string]map[string]string

// Cached reads the values that stand in a file, calculated or not, and its formulas. A cell that shares the
// formula of another is given that formula, as it stands in the other.
func Cached(t testing.TB, file string) (Sheets, Formulas) {
	t.Helper()
	archive, err := zip.OpenReader(file)
	require.NoError(t, err)
	defer func() { _ = archive.Close() }()
	values, formulas, err := readWorkbook(&archive.Reader)
	require.NoError(t, err, file)
	require.NotEmpty(t, values, "%s: no sheet", file)
	return values, formulas
}

type xmlWorkbook struct {
	Sheets []struct {
		Name string `xml:"name,attr"`
		ID   string `xml:"http://schemas.openxmlformats.org/officeDocument/2006/relationships id,attr"`
	} `xml:"sheets>sheet"`
}

type xmlRelations struct {
	Relations []struct {
		ID     string `xml:"Id,attr"`
		Target string `xml:"Target,attr"`
	} `xml:"Relationship"`
}

type xmlText struct {
	Text string `xml:"t"`
	Runs []struct {
		Text string `xml:"t"`
	} `xml:"r"`
}

type xmlSheet struct {
	Cells []xmlCell `xml:"sheetData>row>c"`
}

type xmlCell struct {
	Ref     string      `xml:"r,attr"`
	Type    string      `xml:"t,attr"`
	Formula *xmlFormula `xml:"f"`
	Value   *string     `xml:"v"`
	Inline  *xmlText    `xml:"is"`
}

type xmlFormula struct {
	Text  string `xml:",chardata"`
	Type  string `xml:"t,attr"`
	Group string `xml:"si,attr"`
}

func readWorkbook(archive *zip.Reader) (Sheets, Formulas, error) {
	var book xmlWorkbook
	if err := readPart(archive, "xl/workbook.xml", &book); err != nil {
		return nil, nil, err
	}
	targets, err := sheetParts(archive)
	if err != nil {
		return nil, nil, err
	}
	shared, err := sharedTexts(archive)
	if err != nil {
		return nil, nil, err
	}
	values, formulas := Sheets{}, Formulas{}
	for _, s := range book.Sheets {
		var sheet xmlSheet
		if err := readPart(archive, targets[s.ID], &sheet); err != nil {
			return nil, nil, fmt.Errorf("sheet %q: %w", s.Name, err)
		}
		if values[s.Name], formulas[s.Name], err = sheet.read(shared); err != nil {
			return nil, nil, fmt.Errorf("sheet %q: %w", s.Name, err)
		}
	}
	return values, formulas, nil
}

func readPart(archive *zip.Reader, name string, into any) error {
	part, err := archive.Open(name)
	if err != nil {
		return err
	}
	defer func() { _ = part.Close() }()
	return xml.NewDecoder(part).Decode(into)
}

// sheetParts gives the parts that the workbook's relations lead to.
func sheetParts(archive *zip.Reader) (map[string]string, error) {
	var relations xmlRelations
	if err := readPart(archive, "xl/_rels/workbook.xml.rels", &relations); err != nil {
		return nil, err
	}
	targets := map[string]string{}
	for _, r := range relations.Relations {
		targets[r.ID] = path.Join("xl", r.Target)
		if strings.HasPrefix(r.Target, "/") {
			targets[r.ID] = strings.TrimPrefix(r.Target, "/")
		}
	}
	return targets, nil
}

// sharedTexts reads the table of texts, which a file without any may leave out.
func sharedTexts(archive *zip.Reader) ([]string, error) {
	const name = "xl/sharedStrings.xml"
	var table struct {
		Texts []xmlText `xml:"si"`
	}
	for _, part := range archive.File {
		if part.Name != name {
			continue
		}
		if err := readPart(archive, name, &table); err != nil {
			return nil, err
		}
	}
	texts := make([]string, len(table.Texts))
	for i, text := range table.Texts {
		texts[i] = text.whole()
	}
	return texts, nil
}

func (x xmlText) whole() string {
	text := x.Text
	for _, run := range x.Runs {
		text += run.Text
	}
	return plain(text)
}

var charCode = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

// plain undoes the format's way of writing characters that XML cannot hold: _x0041_ is A.
func plain(text string) string {
	return charCode.ReplaceAllStringFunc(text, func(code string) string {
		n, _ := strconv.ParseUint(code[2:6], 16, 16) // four hexadecimal digits always parse
		return string(rune(n))
	})
}

func (s xmlSheet) read(shared []string) (map[string]Value, map[string]string, error) {
	values, formulas, groups := map[string]Value{}, map[string]string{}, map[string]string{}
	for _, c := range s.Cells {
		if f := c.Formula; f != nil {
			if f.Type == "shared" && f.Text != "" {
				groups[f.Group] = f.Text
			}
			if text := cmp.Or(f.Text, groups[f.Group]); text != "" {
				formulas[c.Ref] = text
			}
		}
		v, err := c.value(shared)
		if err != nil {
			return nil, nil, fmt.Errorf("cell %s: %w", c.Ref, err)
		}
		if v.Kind != Empty {
			values[c.Ref] = v
		}
	}
	return values, formulas, nil
}

func (c xmlCell) value(shared []string) (Value, error) {
	if c.Inline != nil {
		return Value{Kind: Textual, Text: c.Inline.whole()}, nil
	}
	if c.Value == nil {
		return Value{}, nil
	}
	switch c.Type {
	case "str":
		return Value{Kind: Textual, Text: plain(*c.Value)}, nil
	case "e":
		return Value{Kind: Fault, Text: *c.Value}, nil
	case "s":
		i, err := strconv.Atoi(*c.Value)
		if err != nil || i < 0 || i >= len(shared) {
			return Value{}, fmt.Errorf("text number %q of %d", *c.Value, len(shared))
		}
		return Value{Kind: Textual, Text: shared[i]}, nil
	}
	x, err := strconv.ParseFloat(*c.Value, 64)
	if c.Type == "b" {
		return Value{Kind: Logical, Number: x}, err
	}
	return Value{Kind: Numeric, Number: x}, err
}
