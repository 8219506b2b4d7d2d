package published_test

import (
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/published"
)

const good = `source: "A. Author, A Title, 2001, page 3"
mark: MEMORY
cases:
  - id: one
    page: "Table 2"
    note: "prints 3"
    inputs: {rate: 0.5, years: 2, flows: [1, 2.5], method: plain}
    want: {sum: 3.5, parts: [1, 2.5], none: []}
    tol: 0.01
  - {id: two, inputs: {rate: 1}, want: {sum: 100}, tol: 0.01, rel: true}
`

// folder is a file system with one method "m" of the given case files.
func folder(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, content := range files {
		out["m/"+name] = &fstest.MapFile{Data: []byte(content)}
	}
	return out
}

func loadOne(t *testing.T, content string) []published.Case {
	t.Helper()
	files, err := published.Load(folder(map[string]string{"a.yaml": content}), "m")
	require.NoError(t, err)
	require.Len(t, files, 1)
	return files[0].Cases
}

func TestLoadReadsSourceMarkAndFigures(t *testing.T) {
	files, err := published.Load(folder(map[string]string{"a.yaml": good}), "m")
	require.NoError(t, err)
	require.Len(t, files, 1)
	file := files[0]
	assert.Equal(t, "m/a.yaml", file.Path)
	assert.Equal(t, "A. Author, A Title, 2001, page 3", file.Source)
	assert.Equal(t, published.Memory, file.Mark)
	require.Len(t, file.Cases, 2)

	first := file.Cases[0]
	assert.Equal(t, "A. Author, A Title, 2001, page 3, Table 2 (from memory)", first.Source)
	assert.Equal(t, "prints 3", first.Note)
	rate, err := first.Number("rate")
	require.NoError(t, err)
	assert.InDelta(t, 0.5, rate, 0)
	years, err := first.Number("years")
	require.NoError(t, err)
	assert.InDelta(t, 2, years, 0)
	flows, err := first.List("flows")
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{1, 2.5}, flows, 0)
	method, err := first.Text("method")
	require.NoError(t, err)
	assert.Equal(t, "plain", method)
}

func TestAnAbsentOrDifferentInputIsAnError(t *testing.T) {
	c := loadOne(t, good)[0]
	_, err := c.Number("rates")
	require.EqualError(t, err, `case one: no input "rates"; there are flows, method, rate, years`)
	_, err = c.Number("method")
	require.EqualError(t, err, `case one: input "method" is text; it would be a number`)
	_, err = c.List("rate")
	require.EqualError(t, err, `case one: input "rate" is a number; it would be a list of numbers`)
	_, err = c.Text("flows")
	require.EqualError(t, err, `case one: input "flows" is a list of numbers; it would be text`)
}

func TestAListHandedOutCannotBeSpoiled(t *testing.T) {
	c := loadOne(t, good)[0]
	flows, err := c.List("flows")
	require.NoError(t, err)
	flows[0] = 99
	again, err := c.List("flows")
	require.NoError(t, err)
	assert.InDelta(t, 1, again[0], 0)
}

func TestCompareShowsTheWholeCaseWhenAFigureIsOff(t *testing.T) {
	c := loadOne(t, good)[0]
	full := map[string][]float64{"sum": {3.505}, "parts": {1, 2.5}, "none": nil, "more": {7}}
	require.NoError(t, c.Compare(full))

	err := c.Compare(map[string][]float64{"sum": {3.52}, "parts": {1, 2.5}, "none": nil})
	require.Error(t, err)
	for _, shown := range []string{"case one", "A. Author", "from memory", "rate=0.5", "flows=[1 2.5]", "want 3.5", "got 3.52", "tolerance 0.01"} {
		assert.ErrorContains(t, err, shown)
	}
}

func TestCompareRefusesMissingAndSurplusFigures(t *testing.T) {
	c := loadOne(t, good)[0]
	wrong := map[string]map[string][]float64{
		"sum: want [3.5], got nothing":                      {"parts": {1, 2.5}, "none": nil},
		"parts: want [1 2.5], got [1]: 1 figures instead":   {"sum": {3.5}, "parts": {1}, "none": nil},
		"none: want [], got [4]: 1 figures instead of 0":    {"sum": {3.5}, "parts": {1, 2.5}, "none": {4}},
		"sum: want [3.5], got [3.5 3.5]: 2 figures instead": {"sum": {3.5, 3.5}, "parts": {1, 2.5}, "none": nil},
	}
	for message, got := range wrong {
		assert.ErrorContains(t, c.Compare(got), message)
	}
}

func TestARelativeToleranceIsAShareOfTheWantedFigure(t *testing.T) {
	c := loadOne(t, good)[1]
	require.NoError(t, c.Compare(map[string][]float64{"sum": {100.9}}))
	require.ErrorContains(t, c.Compare(map[string][]float64{"sum": {101.1}}), "0.01 of the wanted figure")
}

func TestLoadRefusesWhatIsNotWhole(t *testing.T) {
	begin := "source: S\nmark: READ\ncases:\n"
	rows := []struct {
		name, content, message string
	}{
		{"no source", "mark: READ\ncases: [{id: a, inputs: {x: 1}, want: {y: 1}, tol: 0}]", "no source"},
		{"blank source", "source: ' '\nmark: READ\ncases: [{id: a, inputs: {x: 1}, want: {y: 1}, tol: 0}]", "no source"},
		{"no mark", "source: S\ncases: [{id: a, inputs: {x: 1}, want: {y: 1}, tol: 0}]", `mark ""; it would be READ`},
		{"other mark", "source: S\nmark: SEEN\ncases: [{id: a, inputs: {x: 1}, want: {y: 1}, tol: 0}]", `mark "SEEN"`},
		{"no case", "source: S\nmark: READ\ncases: []", "no case"},
		{"empty file", "", "EOF"},
		{"unknown key", begin + "  - {id: a, inputs: {x: 1}, want: {y: 1}, tol: 0, skip: true}", "skip"},
		{"unknown key above", "author: S\n" + begin + "  - {id: a, inputs: {x: 1}, want: {y: 1}, tol: 0}", "author"},
		{"no id", begin + "  - {inputs: {x: 1}, want: {y: 1}, tol: 0}", "no id"},
		{"no inputs", begin + "  - {id: a, want: {y: 1}, tol: 0}", "no inputs"},
		{"nothing wanted", begin + "  - {id: a, inputs: {x: 1}, tol: 0}", "nothing wanted"},
		{"no tolerance", begin + "  - {id: a, inputs: {x: 1}, want: {y: 1}}", "no tol"},
		{"negative tolerance", begin + "  - {id: a, inputs: {x: 1}, want: {y: 1}, tol: -1}", "tol -1"},
		{"endless tolerance", begin + "  - {id: a, inputs: {x: 1}, want: {y: 1}, tol: .inf}", "tol +Inf"},
		{"tolerance not a number", begin + "  - {id: a, inputs: {x: 1}, want: {y: 1}, tol: .nan}", "tol NaN"},
		{"empty input", begin + "  - {id: a, inputs: {x: }, want: {y: 1}, tol: 0}", `input "x" is empty`},
		{"truth as input", begin + "  - {id: a, inputs: {x: true}, want: {y: 1}, tol: 0}", "no figure"},
		{"not finite", begin + "  - {id: a, inputs: {x: .nan}, want: {y: 1}, tol: 0}", "no figure"},
		{"text in a list", begin + "  - {id: a, inputs: {x: [1, b]}, want: {y: 1}, tol: 0}", "no figure"},
		{"text wanted", begin + "  - {id: a, inputs: {x: 1}, want: {y: one}, tol: 0}", `wanted "y" is not a figure`},
		{"same input twice", begin + "  - {id: a, inputs: {x: 1, x: 2}, want: {y: 1}, tol: 0}", "already defined"},
		{"two parts", begin + "  - {id: a, inputs: {x: 1}, want: {y: 1}, tol: 0}\n---\nsource: T\n", "goes on"},
		{"same id twice", begin + "  - {id: a, inputs: {x: 1}, want: {y: 1}, tol: 0}\n  - {id: a, inputs: {x: 1}, want: {y: 1}, tol: 0}", `case id "a" is also in m/a.yaml`},
	}
	for _, row := range rows {
		_, err := published.Load(folder(map[string]string{"a.yaml": row.content}), "m")
		require.Errorf(t, err, row.name)
		assert.ErrorContainsf(t, err, row.message, row.name)
	}
}

func TestIDsAreUniqueAcrossTheFilesOfAMethod(t *testing.T) {
	_, err := published.Load(folder(map[string]string{"a.yaml": good, "b.yaml": good}), "m")
	require.ErrorContains(t, err, `m/b.yaml: case id "one" is also in m/a.yaml`)
}

func TestAFolderWithoutACaseIsAnError(t *testing.T) {
	_, err := published.Load(fstest.MapFS{}, "m")
	require.ErrorContains(t, err, "published cases for m")
	_, err = published.Load(fstest.MapFS{"m": &fstest.MapFile{Mode: os.ModeDir}}, "m")
	require.ErrorContains(t, err, "holds no case")
	_, err = published.Load(folder(map[string]string{"a.yml": good}), "m")
	require.ErrorContains(t, err, "not a case file")
	_, err = published.Load(folder(map[string]string{"deeper.yaml/a.yaml": good}), "m")
	require.Error(t, err)
}

func TestACaseThatIsLeftOutIsDataWithItsReason(t *testing.T) {
	const content = `source: S
mark: READ
cases:
  - {id: one, inputs: {x: 1}, want: {y: 1}, tol: 0}
  - {id: two, left_out: " no method counts days ", inputs: {x: 1}, want: {y: 1}, tol: 0}
`
	files, err := published.Load(folder(map[string]string{"a.yaml": content}), "m")
	require.NoError(t, err)
	require.Len(t, files[0].Cases, 1)
	require.Len(t, files[0].LeftOut, 1)
	assert.Equal(t, "one", files[0].Cases[0].ID)
	assert.Equal(t, "two", files[0].LeftOut[0].ID)
	assert.Equal(t, "no method counts days", files[0].LeftOut[0].Why)
	_, err = published.Load(folder(map[string]string{"a.yaml": strings.ReplaceAll(content, "id: two", "id: one")}), "m")
	require.ErrorContains(t, err, `case id "one" is also in m/a.yaml`)
	_, err = published.Load(folder(map[string]string{"a.yaml": strings.ReplaceAll(content, " no method counts days ", " ")}), "m")
	require.ErrorContains(t, err, "left out without a reason")
}

func FuzzLoad(f *testing.F) {
	f.Add(good)
	f.Add("source: S\nmark: READ\ncases: [{id: a, inputs: {x: &a [1]}, want: {y: *a}, tol: 0}]")
	f.Add("source: S\nmark: READ\ncases: [{id: a, left_out: why, inputs: {x: 1}, want: {y: 1}, tol: 0}]")
	f.Add(strings.Repeat("[", 100))
	f.Fuzz(func(t *testing.T, content string) {
		files, err := published.Load(folder(map[string]string{"a.yaml": content}), "m")
		if err != nil {
			return
		}
		require.Len(t, files, 1)
		all := slices.Concat(files[0].Cases, files[0].LeftOut)
		require.NotEmpty(t, all)
		for _, c := range all {
			require.NotEmpty(t, c.ID)
			require.NotEmpty(t, c.Source)
			require.NotEmpty(t, c.String())
			require.Error(t, c.Compare(nil), "an answer without figures must not pass")
		}
	})
}

func TestEveryMarkHasItsWords(t *testing.T) {
	for mark, want := range map[published.Mark]string{
		published.Read: "as published", published.ReadCopy: "as reprinted", published.ReadIn: "inputs as printed, result worked out",
	} {
		words, ok := mark.Words()
		assert.True(t, ok, mark)
		assert.Equal(t, want, words)
	}
	_, ok := published.Mark("GUESSED").Words()
	assert.False(t, ok)
}
