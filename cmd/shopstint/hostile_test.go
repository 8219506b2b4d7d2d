package main

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/starter"
)

// Bounds of a run on a hostile file: generous on a busy machine, and far below
// what a file without bounds would take. All that is allocated is measured, which
// is more than what is held at any time.
const (
	mostHostileTime = 30 * time.Second
	mostHostileRoom = 1 << 30 // bytes
)

// hostile is a file that means harm, or that something has gone wrong with: how it
// is made, and words of what is told.
type hostile struct {
	content func(t *testing.T) []byte
	says    string
}

func plain(content string) func(*testing.T) []byte {
	return func(*testing.T) []byte { return []byte(content) }
}

// inStudy puts another price into a short study, or adds lines to it.
func inStudy(price, more string) func(*testing.T) []byte {
	return plain(strings.Replace(string(starter.Short()), "price: 4500", "price: "+price, 1) + more)
}

// The files are made when they are asked for: this program is also what the scripts
// run as the command, again and again.
func hostileStudies() map[string]hostile {
	return map[string]hostile{
		"nothing":                        {plain(""), "the file is empty"},
		"lists that open without end":    {plain(strings.Repeat("[", 500_000)), "write key: value"},
		"keys within keys":               {plain(strings.Repeat("{a: ", 500) + strings.Repeat("}", 500)), "within each other"},
		"aliases that grow":              {plain("a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n"), "anchors and aliases are not read"},
		"an alias of itself":             {plain("a: &a [*a]\n"), "anchors and aliases are not read"},
		"a megabyte of aliases":          {plain("a: &a 1\nb: [" + strings.Repeat("*a, ", 200_000) + "*a]\n"), "more problems are not listed"},
		"a key that comes twice":         {inStudy("4500", "currency: USD\n"), `the key "currency" comes twice`},
		"a second document":              {inStudy("4500", strings.Repeat("---\n", 1000)), "a second document begins here"},
		"a tag of another language":      {plain("!!python/object/apply:os.system [id]\n"), "tags are not read"},
		"bytes as a tag":                 {inStudy("4500", "title: !!binary aGVsbG8=\n"), "tags are not read"},
		"a number beyond all numbers":    {inStudy("1e309", ""), "has an exponent beyond 12"},
		"a number of 400 digits":         {inStudy("1"+strings.Repeat("0", 400), ""), "is longer than 100 characters"},
		"a number of twenty nines":       {inStudy(strings.Repeat("9", 20), ""), "give a value from 0 to 100000000"},
		"no number":                      {inStudy(".nan", ""), "is not understood as an amount of money"},
		"a text of a megabyte":           {inStudy("4500", "title: "+strings.Repeat("x", 1_000_000)), "give at most 200"},
		"a million members":              {plain("machines:\n" + strings.Repeat(" m: {}\n", 1_000_000)), "a study has at most 1048576"},
		"a zero within a text":           {inStudy("4500", "title: a\x00b\n"), "U+0000"},
		"another alphabet's bytes":       {inStudy("4500", "title: caf\xe9\n"), "save the file as UTF-8"},
		"a text that turns the terminal": {inStudy("4500", "title: \"a\\e[31m\\u202eb\"\n"), "control character"},
		"more than is taken in":          {func(*testing.T) []byte { return make([]byte, mostRead+1) }, "the file is larger than 64 MB"},
	}
}

// filled is the short study as a form, with one part changed and others added.
func filled(part string, change func(string) string, more ...string) func(t *testing.T) []byte {
	return func(t *testing.T) []byte {
		content, err := formOf("short.yaml", starter.Short(), true)
		require.NoError(t, err)
		archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
		require.NoError(t, err)
		var out bytes.Buffer
		zw := zip.NewWriter(&out)
		write := func(name, text string) {
			w, err := zw.Create(name)
			require.NoError(t, err)
			_, err = io.WriteString(w, text)
			require.NoError(t, err)
		}
		for _, file := range archive.File {
			r, err := file.Open()
			require.NoError(t, err)
			was, err := io.ReadAll(r)
			require.NoError(t, err)
			text := string(was)
			if file.Name == part {
				text = change(text)
				require.NotEqual(t, string(was), text)
			}
			if text != "" || file.Name != part {
				write(file.Name, text)
			}
		}
		for _, name := range more {
			write(name, "harm")
		}
		require.NoError(t, zw.Close())
		return out.Bytes()
	}
}

// machines is the part of the form with the sheet of machines.
const machines = "xl/worksheets/sheet4.xml"

// price puts another cell in the place of the price of the machine.
func price(cell string) func(string) string {
	return func(sheet string) string {
		return regexp.MustCompile(`(<c r="C\d+")[^>]*><v>4500</v></c>`).ReplaceAllString(sheet, "$1 "+cell+"</c>")
	}
}

// behind adds rows to a sheet.
func behind(rows string) func(string) string {
	return func(sheet string) string { return strings.Replace(sheet, "</sheetData>", rows+"</sheetData>", 1) }
}

func whole(text string) func(string) string { return func(string) string { return text } }

func same(text string) string { return text }

func hostileWorkbooks() map[string]hostile {
	return map[string]hostile{
		"a sheet that unpacks to zeros": {filled(machines, whole(strings.Repeat("0", 80<<20))), "unpacks to far more than a study needs"},
		"a cell of seventeen megabytes": {filled(machines, price(`t="str"><v>`+strings.Repeat("9", 17<<20)+"</v>")), "unpacks to far more than a study needs"},
		"a cell of a megabyte":          {filled(machines, price(`t="str"><v>`+strings.Repeat("9", 1<<20)+"</v>")), "is longer than 100 characters"},
		"a million cells":               {filled(machines, behind("<row>"+strings.Repeat("<c><v>1</v></c>", 1_000_000)+"</row>")), "far more cells than a study needs"},
		"thousands of sheets": {filled("xl/workbook.xml", func(s string) string {
			return strings.Replace(s, "</sheets>", strings.Repeat(`<sheet name="x"/>`, 5000)+"</sheets>", 1)
		}), "at most 60 are read"},
		"a nest of elements": {filled(machines, whole(strings.Repeat("<a>", 1_000_000))), "damaged or cut off"},
		"an entity": {filled(machines, func(s string) string {
			return `<!DOCTYPE w [<!ENTITY a "&a;&a;">]>` + behind(`<row r="900"><c t="str"><v>&a;</v></c></row>`)(s)
		}), "damaged or cut off"},
		"merged cells over the inputs": {filled(machines, func(s string) string {
			return strings.Replace(s, "</sheetData>", `</sheetData><mergeCells><mergeCell ref="A5:F12"/></mergeCells>`, 1)
		}), "are merged; unmerge them"},
		"an error value":                     {filled(machines, price(`t="e"><v>#N/A</v>`)), "is the error #N/A"},
		"a formula with its value":           {filled(machines, price(`><f>4000+500</f><v>4500</v>`)), "is a formula; type the value itself"},
		"a formula without":                  {filled(machines, price(`><f>4000+500</f>`)), "is a formula; type the value itself"},
		"a number beyond all numbers":        {filled(machines, price(`><v>1e309</v>`)), "is the error 1e309"},
		"a number as text with thin spaces":  {filled(machines, price("t=\"str\"><v>4\u202f500\u00a0</v>")), "4\u202f500"},
		"a sheet that is hidden":             {filled("xl/workbook.xml", func(s string) string { return strings.Replace(s, `name="Machines"`, `name="Secret" state="hidden"`, 1) }), `unknown sheet "Secret"`},
		"a row below nought":                 {filled(machines, behind(`<row r="-5"><c r="A-5"><v>1</v></c></row>`)), "which cannot be"},
		"a row beyond every sheet":           {filled(machines, behind(`<row r="1048577"><c r="XFE1048577"><v>1</v></c></row>`)), "beyond the part of the sheet that is read"},
		"one part twice":                     {filled("", same, machines), "holds one of its parts twice"},
		"a part that is not there":           {filled(machines, whole("")), "damaged or cut off"},
		"a sheet that is elsewhere":          {filled("xl/_rels/workbook.xml.rels", func(s string) string { return strings.ReplaceAll(s, "worksheets/sheet4.xml", "../../../../dev/zero") }), "damaged or cut off"},
		"a password":                         {plain("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 4096)), "has a password, or is in the format of before 2007"},
		"half a file":                        {func(t *testing.T) []byte { all := filled("", same)(t); return all[:len(all)/2] }, "damaged or cut off"},
		"another program's format":           {plain("PK\x05\x06" + strings.Repeat("\x00", 18)), "a workbook that is saved as .xlsx"},
		"a text with the name of a workbook": {plain("which,input,value\n"), "write keys with their values"},
	}
}

func hostileLogbooks() map[string]hostile {
	return map[string]hostile{
		"nothing":                    {plain(""), "the logbook is empty"},
		"a million columns":          {plain("date,kind" + strings.Repeat(",x", 1_000_000) + "\n"), "it names the columns"},
		"a thousand columns":         {plain("date,kind" + strings.Repeat(",", 1000) + "\n"), "more than 64 columns"},
		"a line of many megabytes":   {plain("date,kind,job\n" + strings.Repeat("x", 50<<20)), "longer than 16384 bytes"},
		"quotes that are not closed": {plain("date,kind,job\n" + strings.Repeat("2026-11-26,done,\"top\n", 1000)), "900 more problems are not listed"},
		"a million bad lines":        {plain("date,kind,job\n" + strings.Repeat("x\n", 1_000_000)), "more problems are not listed"},
		"a zero within a line":       {plain("date,kind,job\n2026-11-26,done,\x00\n"), "the line is no text"},
		"another alphabet's bytes":   {plain("date,kind,job\n2026-11-26,done,caf\xe9\n"), `save the file as "CSV UTF-8"`},
		"a workbook":                 {filled("", same), "this is a workbook"},
	}
}

func hostileSettings() map[string]hostile {
	return map[string]hostile{
		"a list without end":     {plain("units: " + strings.Repeat("[", 60_000)), "this is not a settings file"},
		"aliases that grow":      {plain("a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n"), "unknown setting"},
		"an alias of itself":     {plain("units: &a [*a]\n"), "this is not a settings file"},
		"more than is taken in":  {plain(strings.Repeat("# x\n", 1<<20)), "larger than 64 KB"},
		"a second document":      {plain("units: inch\n---\nunits: metric\n"), "a second document begins here"},
		"a key twice":            {plain("units: inch\nunits: metric\n"), "this is not a settings file"},
		"a number too large":     {plain("seed: 1e309\n"), "give a whole number from 0 to"},
		"a zero within":          {plain("units: a\x00\n"), "this is not a settings file"},
		"bytes that are no text": {plain("units: \xe9\n"), "this is not a settings file"},
	}
}

func TestHostileFilesAreRefusedByEveryCommandInBoundedTimeAndRoom(t *testing.T) {
	short := filepath.Join(t.TempDir(), "short.yaml")
	require.NoError(t, os.WriteFile(short, starter.Short(), 0o600))
	for _, kind := range []struct {
		name     string
		file     string
		rows     map[string]hostile
		commands [][]string // FILE stands for the file
	}{
		{"a study of", "study.yaml", hostileStudies(), [][]string{{"check", "FILE"}, {"decide", "FILE"}}},
		{"a workbook of", "study.xlsx", hostileWorkbooks(), [][]string{{"decide", "FILE"}}},
		{"a logbook of", "log.csv", hostileLogbooks(), [][]string{{"track", short, "FILE"}, {"record", "new.csv", "--from", "FILE"}}},
		{"settings of", "settings.yaml", hostileSettings(), [][]string{{"check", "--demo", "--settings", "FILE"}}},
	} {
		for _, name := range slices.Sorted(maps.Keys(kind.rows)) {
			row := kind.rows[name]
			t.Run(kind.name+" "+name, func(t *testing.T) {
				folder := t.TempDir()
				t.Chdir(folder)
				require.NoError(t, os.WriteFile(kind.file, row.content(t), 0o600))
				for _, command := range kind.commands {
					requireRefused(t, slices.Replace(slices.Clone(command), slices.Index(command, "FILE"), slices.Index(command, "FILE")+1, kind.file), row.says)
				}
				left, err := os.ReadDir(folder)
				require.NoError(t, err)
				assert.Len(t, left, 1, "an output was written: %v", left)
			})
		}
	}
}

// foreign are words of libraries and of the language, which no message may use.
var foreign = regexp.MustCompile(`(?i)\b(xml|zip|unmarshal|decode|nil|panic|goroutine|runtime error|EOF)\b`)

// requireRefused runs a command on a hostile file.
func requireRefused(t *testing.T, command []string, says string) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	start := time.Now()
	status, stdout, stderr := ran(0, nil, command...)
	took := time.Since(start)
	runtime.ReadMemStats(&after)
	what := fmt.Sprint(command)
	assert.Equal(t, exitBad, status, what)
	assert.Empty(t, stdout, what)
	assert.Contains(t, stderr, says, what)
	assert.NotRegexp(t, foreign, stderr, what)
	assert.LessOrEqual(t, strings.Count(stderr, "\n"), mostTold+2, what)
	assert.Less(t, took, mostHostileTime, what)
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(mostHostileRoom), what)
	t.Logf("%s: %v, %d MB allocated", what, took.Round(time.Millisecond), (after.TotalAlloc-before.TotalAlloc)>>20)
}

// What a workbook brings along beside its cells is neither run nor fetched nor written.
func TestWhatAWorkbookBringsAlongIsLeftAlone(t *testing.T) {
	for name, content := range map[string]func(*testing.T) []byte{
		"macros":                         filled("", same, "xl/vbaProject.bin"),
		"links to other files":           filled("", same, "xl/externalLinks/externalLink1.xml"),
		"names that lead out of it":      filled("", same, "../../harm", "/tmp/../harm"),
		"a workbook within":              filled("", same, "xl/embeddings/inner.xlsx"),
		"a document type from elsewhere": filled(machines, func(s string) string { return strings.Replace(s, "?>", `?><!DOCTYPE w SYSTEM "file:///dev/zero">`, 1) }),
	} {
		t.Run(name, func(t *testing.T) {
			above := t.TempDir()
			folder := filepath.Join(above, "a", "b")
			require.NoError(t, os.MkdirAll(folder, 0o700))
			t.Chdir(folder)
			require.NoError(t, os.WriteFile("study.xlsx", content(t), 0o600))
			status, _, stderr := ran(0, nil, "check", "study.xlsx")
			assert.Equal(t, exitDone, status, stderr)
			var found []string
			require.NoError(t, filepath.WalkDir(above, func(path string, entry os.DirEntry, err error) error {
				if err == nil && !entry.IsDir() {
					found = append(found, filepath.Base(path))
				}
				return err
			}))
			assert.Equal(t, []string{"study.xlsx"}, found)
		})
	}
}

func TestWhatIsNoFileIsRefused(t *testing.T) {
	folder := t.TempDir()
	short := filepath.Join(t.TempDir(), "short.yaml")
	require.NoError(t, os.WriteFile(short, starter.Short(), 0o600))
	for _, row := range []struct {
		says    string
		command []string
	}{
		{"this is a folder; name the study in it", []string{"check", folder}},
		{"this is a folder; name the logbook in it", []string{"track", short, folder}},
		{"this is a folder; name another with --settings", []string{"check", "--demo", "--settings", folder}},
		{"this is a folder; name the CSV file in it", []string{"record", filepath.Join(folder, "new.csv"), "--from", folder}},
	} {
		requireRefused(t, row.command, row.says)
	}
}
