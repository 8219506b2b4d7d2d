package intake_test

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/check"
	"shopstint/model/intake"
	"shopstint/model/intake/typed"
	"shopstint/model/problem"
	"shopstint/model/study"
)

// kept are workbooks that the program wrote, as typed text; the tests of their
// writers hold them to be what is written today.
func kept(t testing.TB, pattern string) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join("testdata", "typed", pattern))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	list := make([]string, len(paths))
	for i, path := range paths {
		content, err := os.ReadFile(path)
		require.NoError(t, err)
		list[i] = string(content)
	}
	return list
}

// mostTime is far more than the small inputs of a fuzzer need, on a busy machine too.
const mostTime = 5 * time.Second

// loadSoundly reads a workbook and holds what must be so whatever it is: read or
// refused, and not both; each problem with its place and words; what is read
// passes every rule and is the same once it is written and read again.
func loadSoundly(t require.TestingT, src []byte) *intake.Book {
	start := time.Now()
	book, problems := intake.Load("f.xlsx", src)
	require.Less(t, time.Since(start), mostTime)
	require.Equal(t, len(problems) > 0, book == nil, "%v", problems)
	require.Equal(t, problems.Sorted(), problems)
	for _, p := range problems {
		requirePlaced(t, p)
	}
	if book == nil {
		return nil
	}
	require.Empty(t, check.Study(book.Study))
	text, err := study.Write(book.Study, book.Places, "")
	require.NoError(t, err)
	again, _, problems := study.Load("again.yaml", text)
	require.Empty(t, problems, "%s", text)
	require.Equal(t, values(book.Study), values(again), "%s", text)
	return book
}

var cell = regexp.MustCompile(`^[A-Z]{1,3}[1-9][0-9]*$`)

func requirePlaced(t require.TestingT, p problem.Problem) {
	require.Equal(t, "f.xlsx", p.Place.File, "%+v", p)
	require.True(t, cell.MatchString(p.Place.Cell) || p.Place.Sheet == "" && p.Place.Cell == "", "%+v", p)
	require.NotEmpty(t, p.What)
	require.NotEmpty(t, p.Right, p.What)
	require.Negative(t, strings.IndexFunc(p.Error(), unicode.IsControl), "%q", p.Error())
}

// values are the inputs of a study by their paths.
func values(s *model.Study) map[string]any {
	found := map[string]any{}
	model.Walk(s, func(leaf model.Leaf) { found[leaf.Path] = leaf.Value.Interface() })
	return found
}

// slips are what people and programs do to the cells of the varied workbooks: what
// is there, and what stands there afterwards.
var slips = map[string][][2]string{
	"form": {
		{"price\t3200", "price\t=3000+200"}, {"price\t3200", "price\t#N/A"}, {"price\t3200", "price\t@45785"}, {"price\t3200", "price\t'3\u00a0200"}, {"price\t3200", "price\t"}, {"price\t3200", "price\t1e309"},
		{"price\t3200", "price\t3200 EUR"}, {"price\t3200", "price\t3,200"}, {"price\t3200\t", "price\t3200\tUSD"}, {"2800\t4500", "2800\t"}, {"2800\t4500", "4500\t2800"}, {"%0.7\t'%", "0.7\t"}, {"%0.7", "70"}, {"value_table.2", "value_table.4"},
		{"508\tmm", "20\""}, {"508\tmm", "508\tkg"}, {"508\tmm", "508 mm\tin"}, {"yes", "!TRUE"}, {"2027-03-12", "@46458"}, {"2027-03-12", "@0.5"}, {"2027-03-12", "2027-02-30"}, {"triangular", "normal"},
		{"shopstint.intake/1", "shopstint.intake/9"}, {"[Machines]", "[Machine]"}, {"[Machines]", "[Machines]\n&A4:F6"}, {"which\tinput\tvalue", "which\tinput\tworth"}, {"oak\tdensity", "oak\tdensty"}, {"top / plane\tclass", "\tclass"}, {"mill / planer\tfeed", "mill / / planer\tfeed"},
		{"metric", "inch"}, {"currency\tEUR", "currency\tUSD"}, {"planer20\tclass\tplaner", "planer20\tclass\tplaner\nplaner20\tclass\twide_belt"}, {"planer20\tprice", "Planer 20\tprice"}, {"[Dated jobs]", "[Study]"},
	},
	"decision": {
		{"price\t3200\tEUR", "price\t3333\tEUR"}, {"price\t3200\tEUR", "price\t9000\tEUR"}, {"price\t3200\tEUR", "price\t=3000\tEUR"}, {"price\t3200\tEUR", "price\t#DIV/0!\tEUR"}, {"price\t3200\tEUR", "price\t\tEUR"}, {"price\t3200\tEUR", "price\t3200\tUSD"},
		{"%0.03\tshare", "%0.04\tshare"}, {"%0.03\tshare", "3 %\tshare"}, {"508\tmm", "508.00000000000001\tmm"}, {"8\tm/min\t6\t12", "20\tm/min\t6\t12"}, {"8\tm/min\t6\t12", "8\tm/min\t12\t6"}, {"8\tm/min\t6\t12", "8\tm/min\t6\t=2*6"}, {"triangular", "lognormal"},
		{"takes_resin\tyes", "takes_resin\tno"}, {"takes_resin\tyes", "takes_resin\t!TRUE"}, {"planer router_sled\t", "planer, router_sled\t"}, {"value_table.2\t%0.55", "value_table.2\t%0.9"}, {"2027-03-12", "2027-03-13"}, {"2027-03-12", "@46458"}, {"amps\t60", "amps\t61"},
		{"shopstint.decision/1", "shopstint.decision/2"}, {"value solved for", "solved"}, {"\tgiven\t", "\tGiven\t"}, {"machines.planer20.class", "machines.planer21.class"}, {"'3200\t\t3200", "\t\t3200"}, {"[Inputs]", "[inputs]"}, {"[Inputs]", "[Inputs]\n&A1:M9"},
	},
}

// addSlips begins with the kept workbooks of a kind, as they are and with each slip.
func addSlips(f *testing.F, kind string) {
	for _, text := range kept(f, kind+"_*.txt") {
		f.Add(text)
	}
	varied := kept(f, kind+"_varied.txt")[0]
	for _, slip := range slips[kind] {
		changed := strings.Replace(varied, slip[0], slip[1], 1)
		require.NotEqual(f, varied, changed, "%q", slip[0])
		f.Add(changed)
	}
}

func FuzzAnyFormIsReadOrRefused(f *testing.F) {
	for _, text := range kept(f, "form_*.txt") {
		require.NotNil(f, loadSoundly(f, typed.Workbook(text)))
	}
	addSlips(f, "form")
	f.Fuzz(func(t *testing.T, text string) {
		if book := loadSoundly(t, typed.Workbook(text)); book != nil && book.Solved == nil {
			require.Empty(t, book.Edits)
		}
	})
}

// FuzzAnyDecisionWorkbookIsReadAgainOrRefused: besides, an edit changes something,
// and without one a study is what was solved for.
func FuzzAnyDecisionWorkbookIsReadAgainOrRefused(f *testing.F) {
	for _, text := range kept(f, "decision_*.txt") {
		book := loadSoundly(f, typed.Workbook(text))
		require.NotNil(f, book)
		require.NotNil(f, book.Solved)
		require.Empty(f, book.Edits)
	}
	addSlips(f, "decision")
	f.Fuzz(func(t *testing.T, text string) {
		book := loadSoundly(t, typed.Workbook(text))
		if book == nil || book.Solved == nil {
			return
		}
		require.Empty(t, check.Study(book.Solved))
		for _, edit := range book.Edits {
			require.NotEqual(t, edit.Was, edit.Now, edit.Path)
			require.True(t, cell.MatchString(edit.Place.Cell), "%+v", edit)
		}
		if len(book.Edits) == 0 {
			require.Equal(t, values(book.Solved), values(book.Study))
		}
	})
}

// FuzzAnyFileIsReadOrRefused takes the parts of a packed file, as -- NAME -- and what is in
// it; without any it takes the file as it stands.
func FuzzAnyFileIsReadOrRefused(f *testing.F) {
	for _, text := range kept(f, "*_short.txt") {
		packed := typed.Workbook(text)
		require.NotNil(f, loadSoundly(f, packed))
		f.Add(packed)
		parts := unpacked(f, packed)
		require.NotNil(f, loadSoundly(f, repacked(parts)))
		f.Add(parts)
	}
	for _, text := range []string{"PK\x03\x04", "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "currency: EUR"} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, src []byte) { loadSoundly(t, repacked(src)) })
}

// unpacked lists the parts of a workbook.
func unpacked(t testing.TB, src []byte) []byte {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(src), int64(len(src)))
	require.NoError(t, err)
	var parts txtar.Archive
	for _, file := range archive.File {
		r, err := file.Open()
		require.NoError(t, err)
		content, err := io.ReadAll(r)
		require.NoError(t, err)
		parts.Files = append(parts.Files, txtar.File{Name: file.Name, Data: content})
	}
	return txtar.Format(&parts)
}

// repacked packs listed parts; what lists none is left as it is.
func repacked(src []byte) []byte {
	if bytes.Contains(src, []byte("-- --")) {
		return src // the reader of archives panics at a marker without a name
	}
	parts := txtar.Parse(src).Files
	if len(parts) == 0 {
		return src
	}
	var out bytes.Buffer
	zw := zip.NewWriter(&out)
	for _, part := range parts {
		w, err := zw.CreateHeader(&zip.FileHeader{Name: part.Name, Method: zip.Store})
		if err != nil {
			return src // a name too long for a packed file
		}
		if _, err := w.Write(part.Data); err != nil {
			return src
		}
	}
	if err := zw.Close(); err != nil {
		return src
	}
	return out.Bytes()
}
