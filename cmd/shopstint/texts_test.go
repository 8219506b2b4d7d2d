package main

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"shopstint/model/starter"
)

// textForms are the forms in which editors and spreadsheets save a text.
var textForms = map[string]func(text string) string{
	"plain":         func(text string) string { return text },
	"Windows":       func(text string) string { return strings.ReplaceAll(text, "\n", "\r\n") },
	"old Mac":       func(text string) string { return strings.ReplaceAll(text, "\n", "\r") },
	"a mark":        func(text string) string { return "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n") },
	"UTF-16 LE":     wide(unicode.LittleEndian, unicode.IgnoreBOM),
	"UTF-16 BE":     wide(unicode.BigEndian, unicode.IgnoreBOM),
	"UTF-16 LE BOM": wide(unicode.LittleEndian, unicode.UseBOM),
	"UTF-16 BE BOM": wide(unicode.BigEndian, unicode.UseBOM),
	"Windows-1252": func(text string) string {
		narrow, err := charmap.Windows1252.NewEncoder().String(text)
		if err != nil {
			panic(err)
		}
		return narrow
	},
	"zeros": func(text string) string { return text + strings.Repeat("\x00", 512) },
}

func wide(order unicode.Endianness, mark unicode.BOMPolicy) func(string) string {
	return func(text string) string {
		coded, err := unicode.UTF16(order, mark).NewEncoder().String(text)
		if err != nil {
			panic(err)
		}
		return coded
	}
}

// read is what is told of a text that is read as it should be.
const read = ""

// TestATextIsReadRightOrRefusedInOneLineHoweverItWasSaved reads each kind of file
// in each form in which it may have been saved.
func TestATextIsReadRightOrRefusedInOneLineHoweverItWasSaved(t *testing.T) {
	const utf8Please = `; save it as UTF-8`
	const csvPlease = `; save the file as "CSV UTF-8"`
	logbook := "date,kind,job,note\n2026-11-25,done,coffee,Fräse\n"
	for _, row := range []struct {
		name, text string
		command    string
		told       map[string]string // by form; what is not here is read
	}{
		{"study.yaml", string(starter.Short()) + "title: Fräse\n", "wear study.yaml", map[string]string{
			"old Mac":   "study.yaml:1:78: a line break of neither Windows nor Unix stands here; save the file with the line breaks of one of them",
			"UTF-16 LE": "study.yaml:1:1: the file is written in UTF-16" + utf8Please, "UTF-16 BE": "study.yaml:1:1: the file is written in UTF-16" + utf8Please,
			"UTF-16 LE BOM": "study.yaml:1:1: the file is written in UTF-16" + utf8Please, "UTF-16 BE BOM": "study.yaml:1:1: the file is written in UTF-16" + utf8Please,
			"Windows-1252": "study.yaml:19:10: the byte 0xe4 is not UTF-8 text; save the file as UTF-8",
			"zeros":        "study.yaml:20:1: the file ends in 512 zero bytes, as after a loss of power; take them out, and see whether the end of the study is there",
		}},
		{"more.csv", logbook, "record new.csv --from more.csv", map[string]string{
			"old Mac":   "more.csv:1:19: a line break stands within the line; save the file as CSV with the line breaks of Windows or Unix, and cells without any",
			"UTF-16 LE": "more.csv:1:2: the line is no text" + csvPlease, "UTF-16 BE": "more.csv:1:1: the line is no text" + csvPlease,
			"Windows-1252": "more.csv:2:26: a letter is not written as UTF-8" + csvPlease,
			"zeros":        "more.csv:3:1: the line is no text" + csvPlease,
		}},
		{"own.csv", logbook, "record own.csv done --job coffee --note Maß", map[string]string{
			"old Mac":   "own.csv:1:19: a line break stands within the line; save the file as CSV with the line breaks of Windows or Unix, and cells without any",
			"UTF-16 LE": "own.csv:1:2: the line is no text" + csvPlease, "UTF-16 BE": "own.csv:1:1: the line is no text" + csvPlease,
			"UTF-16 LE BOM": `shopstint: own.csv: the logbook is UTF-16, to which no line can be added; save it as "CSV UTF-8" once`,
			"UTF-16 BE BOM": `shopstint: own.csv: the logbook is UTF-16, to which no line can be added; save it as "CSV UTF-8" once`,
		}},
		{"set.yaml", "# Fräse\nunits: metric\nnumber_format: plain\n", "wear --demo --settings set.yaml", map[string]string{
			"UTF-16 LE": "shopstint: set.yaml: this is not a settings file; save it as a plain text in UTF-8", "UTF-16 BE": "shopstint: set.yaml: this is not a settings file; save it as a plain text in UTF-8",
			"Windows-1252": "shopstint: set.yaml: this is not a settings file; save it as a plain text in UTF-8",
			"zeros":        "shopstint: set.yaml: this is not a settings file; save it as a plain text in UTF-8",
		}},
	} {
		var plain string
		for _, form := range append([]string{"plain"}, slices.Sorted(maps.Keys(textForms))...) {
			t.Chdir(t.TempDir())
			saved := textForms[form](row.text)
			require.NoError(t, os.WriteFile(row.name, []byte(saved), 0o600))
			status, stdout, stderr := ran(0, nil, strings.Fields(row.command)...)
			if want := row.told[form]; want != read {
				assert.Equal(t, exitBad, status, "%s, %s", row.name, form)
				assert.Empty(t, stdout)
				assert.Equal(t, want, strings.SplitN(stderr, "\n", 2)[0])
				assert.Equal(t, saved, page(t, row.name))
				continue
			}
			require.Equal(t, exitDone, status, "%s, %s: %s", row.name, form, stderr)
			if form == "plain" {
				plain = stdout
			}
			if form != "zeros" { // the logbook then has a line that lost its end, and says so
				assert.Equal(t, plain, stdout, "%s, %s", row.name, form)
			}
			if row.name == "own.csv" {
				assert.True(t, strings.HasPrefix(page(t, row.name), saved), form)
			}
		}
	}
}

// TestNoDecimalCommaIsReadAsAThousand writes a number with a comma wherever one may
// stand: it is refused, or read with its decimals, and never ten or a thousand times
// as large.
func TestNoDecimalCommaIsReadAsAThousand(t *testing.T) {
	t.Chdir(t.TempDir())
	short := string(starter.Short())
	for _, row := range []struct{ was, now, told string }{
		{"15 mi ", "12,5 mi ", `study.yaml:8:15: shops.shop.distance: "12,5 mi" has a comma; use a point for decimals and nothing between thousands, such as 25 km`},
		{"15 mi ", "1.500,5 mi ", `study.yaml:8:15: shops.shop.distance: "1.500,5 mi" has a comma; use a point for decimals and nothing between thousands, such as 25 km`},
		{"price: 4500", "price: 4500,50", `study.yaml:13:61: "50" in machines.own_planer stands behind a comma, which ends a value in braces; use a point for decimals and nothing between thousands`},
		{"price: 4500", "price: 4,500", `study.yaml:13:58: "500" in machines.own_planer stands behind a comma, which ends a value in braces; use a point for decimals and nothing between thousands`},
		{"price: 4500", "price: '4500,50'", `study.yaml:13:56: machines.own_planer.price: "4500,50" has a comma; use a point for decimals and nothing between thousands, such as 22000`},
		{"max_width: 20 in", "max_width: {value: 20,5 in, low: 20 in}", `study.yaml:13:53: "5 in" in machines.own_planer.max_width stands behind a comma, which ends a value in braces; use a point for decimals and nothing between thousands`},
		{"max_width: 20 in", "value_table: [80,5 %, 70 %]", `study.yaml:13:45: machines.own_planer.value_table.1 is "80"; give a value from 0 % to 100 %; a percentage has its sign: 80 %`},
	} {
		require.Contains(t, short, row.was)
		require.NoError(t, os.WriteFile("study.yaml", []byte(strings.Replace(short, row.was, row.now, 1)), 0o600))
		status, stdout, stderr := ran(0, nil, "check", "study.yaml")
		assert.Equal(t, exitBad, status, row.now)
		assert.Empty(t, stdout)
		assert.Equal(t, row.told, strings.SplitN(stderr, "\n", 2)[0])
	}
	for separator, want := range map[string]string{
		";": "2026-11-25,visit,big_shop,,,,,85.5,1234.5,,,,,", "\t": "2026-11-25,visit,big_shop,,,,,85.5,1234.5,,,,,", ",": "",
	} {
		lines := strings.ReplaceAll("date|kind|subject|minutes|amount\n2026-11-25|visit|big_shop|85,5|1234,5\n", "|", separator)
		require.NoError(t, os.WriteFile("more.csv", []byte(lines), 0o600))
		status, _, stderr := ran(0, nil, "record", "new.csv", "--from", "more.csv")
		if want == "" {
			assert.Equal(t, exitBad, status)
			assert.Contains(t, stderr, "stands in no column")
			assert.NoFileExists(t, "new.csv")
			continue
		}
		require.Equal(t, exitDone, status, stderr)
		assert.Contains(t, page(t, "new.csv"), "\n"+want+"\n")
		require.NoError(t, os.Remove("new.csv"))
	}
}
