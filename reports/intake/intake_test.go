package intake_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/intake"
	"shopstint/model/quantity"
	"shopstint/model/starter"
	"shopstint/model/study"
	"shopstint/model/studygen"
	form "shopstint/reports/intake"
	"shopstint/reports/workbook/recalc"
)

func loaded(t testing.TB, name string, src []byte) (*model.Study, study.Places) {
	t.Helper()
	read, places, problems := study.Load(name, src)
	require.Empty(t, problems)
	return read, places
}

func written(t testing.TB, s *model.Study, places study.Places, short bool) []byte {
	t.Helper()
	var content bytes.Buffer
	require.NoError(t, form.Write(&content, s, places, form.Options{Short: short, Created: newYear}))
	return content.Bytes()
}

var newYear = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)

func formBytes(s *model.Study, places study.Places) ([]byte, error) {
	var content bytes.Buffer
	err := form.Write(&content, s, places, form.Options{Created: newYear})
	return content.Bytes(), err
}

// same fails unless two readings hold the same study: values to the last digit,
// ranges, notes, sources, members in order, given against assumed.
func same(t testing.TB, name string, want, got *model.Study, wantPlaces, gotPlaces study.Places) {
	t.Helper()
	if !assert.ObjectsAreEqual(want, got) {
		require.Equal(t, leaves(want), leaves(got), name)
		require.Equal(t, want.Origins, got.Origins, name)
		require.Fail(t, name+": the studies differ")
	}
	model.Walk(want, func(leaf model.Leaf) {
		_, given := wantPlaces[leaf.Path]
		_, givenToo := gotPlaces[leaf.Path]
		require.Equal(t, given, givenToo, "%s: %s", name, leaf.Path)
	})
}

func leaves(s *model.Study) []string {
	var list []string
	model.Walk(s, func(leaf model.Leaf) { list = append(list, leaf.Path+" = "+fmt.Sprint(leaf.Value.Interface())) })
	return list
}

// roundTrip writes a study as a form and reads it back.
func roundTrip(t testing.TB, name string, src []byte, short bool) {
	t.Helper()
	want, places := loaded(t, name, src)
	book, problems := intake.Load(name+".xlsx", written(t, want, places, short))
	require.Empty(t, problems)
	same(t, name, want, book.Study, places, book.Places)
}

func TestAFormReadsBackAsTheStudyItWasWrittenFrom(t *testing.T) {
	for _, short := range []bool{false, true} {
		roundTrip(t, "demo", demo.Study(), short)
		roundTrip(t, "short", starter.Short(), short)
		roundTrip(t, "long", starter.Long(), short)
	}
	found, err := filepath.Glob("../../testdata/studies/good/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, found)
	for _, path := range found {
		src, err := os.ReadFile(path)
		require.NoError(t, err)
		roundTrip(t, path, src, false)
	}
}

func TestAGeneratedStudyLosesNothingInAForm(t *testing.T) {
	for seed := range uint64(40) {
		src := studygen.YAML(studygen.Study(seed), quantity.System(seed%2))
		roundTrip(t, fmt.Sprintf("seed %d", seed), src, seed%3 == 0)
	}
}

func TestAFormBecomesYAMLAndAFormAgainWithTheSameBytes(t *testing.T) {
	for seed := range uint64(10) {
		read, places := loaded(t, "first.yaml", studygen.YAML(studygen.Study(seed), quantity.System(seed%2)))
		first := written(t, read, places, false)
		book, problems := intake.Load("form.xlsx", first)
		require.Empty(t, problems)
		text, err := study.Write(book.Study, book.Places, "")
		require.NoError(t, err)
		again, placesAgain := loaded(t, "again.yaml", text)
		assert.True(t, bytes.Equal(first, written(t, again, placesAgain, false)), "seed %d", seed)
	}
}

func saved(t testing.TB, content []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "form.xlsx")
	require.NoError(t, os.WriteFile(path, content, 0o600))
	return path
}

func TestEveryPageOfTheFormPrintsWithoutACrampedColumn(t *testing.T) {
	read, places := loaded(t, demo.Name, demo.Study())
	short, shortPlaces := loaded(t, "short.yaml", starter.Short())
	for name, content := range map[string][]byte{"long": written(t, read, places, false), "short": written(t, short, shortPlaces, true)} {
		pdf, pages := recalc.LibreOffice(t).PDF(t, saved(t, content), t.TempDir())
		text := recalc.Text(t, pdf)
		assert.NotContains(t, text, "###", name)
		assert.Contains(t, text, "How to fill it in", name)
		assert.Greater(t, pages, 4, name)
	}
}

// digits is what a spreadsheet program keeps of a number when it saves.
const digits = 1e-14

func TestAFormSavedByTwoProgramsStillReadsTheSame(t *testing.T) {
	office := recalc.LibreOffice(t)
	for name, src := range map[string][]byte{
		"demo": demo.Study(), "short": starter.Short(), "generated": studygen.YAML(studygen.Study(7), quantity.Inch), "metric": studygen.YAML(studygen.Study(12), quantity.Metric),
	} {
		want, places := loaded(t, name, src)
		form := saved(t, written(t, want, places, name == "short"))
		for _, path := range []string{office.Saved(t, form), recalc.GnumericSaved(t, form)} {
			content, err := os.ReadFile(path)
			require.NoError(t, err)
			book, problems := intake.Load(name+".xlsx", content)
			require.Empty(t, problems)
			near(t, name, want, book.Study)
			assert.Equal(t, len(givenIn(want, places)), len(givenIn(book.Study, book.Places)), name)
		}
	}
}

func givenIn(s *model.Study, places study.Places) []string {
	var list []string
	model.Walk(s, func(leaf model.Leaf) {
		if _, given := places[leaf.Path]; given {
			list = append(list, leaf.Path)
		}
	})
	return list
}

// near fails unless two studies are the same but for the last digit of a value.
func near(t testing.TB, name string, want, got *model.Study) {
	t.Helper()
	found := map[string]model.Leaf{}
	model.Walk(got, func(leaf model.Leaf) { found[leaf.Path] = leaf })
	count := 0
	model.Walk(want, func(leaf model.Leaf) {
		count++
		other, ok := found[leaf.Path]
		require.True(t, ok, "%s: %s", name, leaf.Path)
		if _, measured := leaf.Dimension(); !measured {
			assert.Equal(t, leaf.Value.Interface(), other.Value.Interface(), "%s: %s", name, leaf.Path)
			return
		}
		if x := leaf.Number(); x != 0 {
			assert.InEpsilon(t, x, other.Number(), digits, "%s: %s", name, leaf.Path)
		}
		a, b := want.Origins[leaf.Path], got.Origins[leaf.Path]
		assert.InDelta(t, a.Low, b.Low, digits*max(1, a.High), "%s: %s", name, leaf.Path)
		assert.InDelta(t, a.High, b.High, digits*max(1, a.High), "%s: %s", name, leaf.Path)
		a.Low, a.High, b.Low, b.High = 0, 0, 0, 0
		assert.Equal(t, a, b, "%s: %s", name, leaf.Path)
	})
	assert.Len(t, found, count, name)
}
