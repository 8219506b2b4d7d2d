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
	require.Equal(t, "f.xlsx", p.Place.File)
	require.True(t, cell.MatchString(p.Place.Cell) || p.Place.Sheet == "" && p.Place.Cell == "", "%+v", p)
	require.NotEmpty(t, p.What)
	require.NotEmpty(t, p.Right, p.What)
	require.Negative(t, strings.IndexFunc(p.What+p.Right, unicode.IsControl), "%q", p.Error())
}

// values are the inputs of a study by their paths.
func values(s *model.Study) map[string]any {
	found := map[string]any{}
	model.Walk(s, func(leaf model.Leaf) { found[leaf.Path] = leaf.Value.Interface() })
	return found
}

func FuzzAnyFormIsReadOrRefused(f *testing.F) {
	for _, text := range kept(f, "form_*.txt") {
		require.NotNil(f, loadSoundly(f, typed.Workbook(text)))
		f.Add(text)
	}
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
		f.Add(text)
	}
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
