package recalc

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// Edited types the edits into a copy of the file, without calculating it, and gives the path of the copy.
func Edited(t testing.TB, file string, edits ...Edit) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), filepath.Base(file))
	require.NoError(t, editFile(file, to, edits))
	return to
}

func editFile(from, to string, edits []Edit) error {
	archive, err := zip.OpenReader(from)
	if err != nil {
		return err
	}
	defer func() { _ = archive.Close() }()
	parts, err := partsBySheet(&archive.Reader)
	if err != nil {
		return err
	}
	bySheet := map[string][]Edit{}
	for _, e := range edits {
		part, ok := parts[e.Sheet]
		if !ok {
			return fmt.Errorf("edit of %s!%s: no such sheet", e.Sheet, e.Cell)
		}
		bySheet[part] = append(bySheet[part], e)
	}
	isSheet := map[string]bool{}
	for _, part := range parts {
		isSheet[part] = true
	}
	var out bytes.Buffer
	if err := copyParts(&out, &archive.Reader, isSheet, bySheet); err != nil {
		return err
	}
	return os.WriteFile(to, out.Bytes(), 0o600)
}

// partsBySheet gives the part of each sheet by the sheet's name.
func partsBySheet(archive *zip.Reader) (map[string]string, error) {
	var book xmlWorkbook
	if err := readPart(archive, "xl/workbook.xml", &book); err != nil {
		return nil, err
	}
	targets, err := sheetParts(archive)
	if err != nil {
		return nil, err
	}
	parts := map[string]string{}
	for _, s := range book.Sheets {
		parts[s.Name] = targets[s.ID]
	}
	return parts, nil
}

func copyParts(out io.Writer, archive *zip.Reader, isSheet map[string]bool, edits map[string][]Edit) error {
	zw := zip.NewWriter(out)
	for _, part := range archive.File {
		content, err := readAll(part)
		if err != nil {
			return err
		}
		if isSheet[part.Name] {
			if content, err = editSheet(content, edits[part.Name]); err != nil {
				return err
			}
		}
		w, err := zw.Create(part.Name)
		if err != nil {
			return err
		}
		if _, err := w.Write(content); err != nil {
			return err
		}
	}
	return zw.Close()
}

func readAll(part *zip.File) ([]byte, error) {
	r, err := part.Open()
	if err != nil {
		return nil, err
	}
	defer func() { _ = r.Close() }()
	return io.ReadAll(r)
}

var (
	cachedValue = regexp.MustCompile(`</f><v>[^<]*</v>`)
	formulaType = regexp.MustCompile(`(<c r="[A-Z]+[0-9]+"(?: s="[0-9]+")?) t="[a-z]+">(<f[ >])`)
)

// editSheet changes constants and takes every cached value away.
func editSheet(content []byte, edits []Edit) ([]byte, error) {
	content = cachedValue.ReplaceAll(content, []byte("</f>"))
	content = formulaType.ReplaceAll(content, []byte("$1>$2"))
	for _, e := range edits {
		cell := regexp.MustCompile(`<c r="` + regexp.QuoteMeta(e.Cell) + `"( s="[0-9]+")?(?: t="[A-Za-z]+")?>(<v>[^<]*</v>|<is>.*?</is>|)</c>`)
		at := cell.FindSubmatchIndex(content)
		if at == nil {
			return nil, fmt.Errorf("edit of %s!%s: no constant stands there", e.Sheet, e.Cell)
		}
		typed, err := e.xml()
		if err != nil {
			return nil, err
		}
		style := ""
		if at[2] >= 0 {
			style = string(content[at[2]:at[3]])
		}
		edited := []byte(`<c r="` + e.Cell + `"` + style + typed + `</c>`)
		content = append(content[:at[0]:at[0]], append(edited, content[at[1]:]...)...)
	}
	return content, nil
}

// typable refuses what nobody types into a cell.
func (e Edit) typable() error {
	_, err := e.xml()
	return err
}

// xml ends the start tag of a cell and writes the value.
func (e Edit) xml() (string, error) {
	switch v := e.Value.(type) {
	case float64:
		return `><v>` + strconv.FormatFloat(v, 'g', -1, 64) + `</v>`, nil
	case int:
		return `><v>` + strconv.Itoa(v) + `</v>`, nil
	case bool:
		return ` t="b"><v>` + map[bool]string{true: "1", false: "0"}[v] + `</v>`, nil
	case string:
		var text bytes.Buffer
		if err := xml.EscapeText(&text, []byte(v)); err != nil {
			return "", err
		}
		return ` t="inlineStr"><is><t xml:space="preserve">` + text.String() + `</t></is>`, nil
	}
	return "", fmt.Errorf("edit of %s!%s: value of type %T; must be float64, int, bool or string", e.Sheet, e.Cell, e.Value)
}
