package conformance_test

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"

	"shopstint/capital/decision/conformance"
	"shopstint/model/published"
)

// listed is one number of the list that the project began with.
type listed struct {
	Number  int      `yaml:"number"`
	Title   string   `yaml:"title"`
	Held    []string `yaml:"held"`
	Without string   `yaml:"without"`
}

// numbersListed is how many numbers the list has, the last of them 75.
const numbersListed = 57

func list(t *testing.T) []listed {
	t.Helper()
	content, err := os.Open("../../../testdata/published.yaml")
	require.NoError(t, err)
	defer func() { _ = content.Close() }()
	decoder := yaml.NewDecoder(content)
	decoder.KnownFields(true)
	var entries []listed
	require.NoError(t, decoder.Decode(&entries))
	return entries
}

// places are all cases, run or left out, as METHOD/ID and under METHOD/FILE.
func places(t *testing.T) (byPlace map[string][]published.Case, run int) {
	t.Helper()
	files, err := conformance.Files(conformance.Cases(t))
	require.NoError(t, err)
	byPlace = map[string][]published.Case{}
	for _, file := range files {
		run += len(file.Cases)
		all := slices.Concat(file.Cases, file.LeftOut)
		byPlace[file.Path] = all
		for _, one := range all {
			byPlace[path.Join(conformance.MethodOf(file), one.ID)] = []published.Case{one}
		}
	}
	return byPlace, run
}

func TestEveryNumberOfTheListStandsAsDataAndTwentyCasesAreBeyondIt(t *testing.T) {
	byPlace, run := places(t)
	entries := list(t)
	require.Len(t, entries, numbersListed)
	assert.Equal(t, 75, entries[len(entries)-1].Number)
	before, listedToRun := 0, map[string]bool{}
	for _, entry := range entries {
		assert.Greater(t, entry.Number, before, "numbers rise")
		before = entry.Number
		assert.NotEmpty(t, entry.Title, entry.Number)
		assert.NotEmpty(t, entry.Held, "number %d is held by a case, if only by one that is left out with its reason", entry.Number)
		for _, place := range entry.Held {
			require.NotEmpty(t, byPlace[place], "number %d: no case or file %s", entry.Number, place)
			method, _, _ := strings.Cut(place, "/")
			for _, one := range byPlace[place] {
				id := method + "/" + one.ID
				assert.False(t, listedToRun[id], "%s is held by two numbers", id)
				listedToRun[id] = one.Why == ""
			}
		}
	}
	beyond := run
	for _, runs := range listedToRun {
		if runs {
			beyond--
		}
	}
	t.Logf("%d numbers, %d cases that are run, %d of them beyond the list", len(entries), run, beyond)
	assert.GreaterOrEqual(t, beyond, 20)
	assert.GreaterOrEqual(t, run, 200)
}

func TestEveryPackageWithPublishedCasesHoldsThemInItsOwnTests(t *testing.T) {
	seen := map[string]bool{}
	for _, room := range conformance.Rooms() {
		require.False(t, seen[room.Package], "%s has two rooms", room.Package)
		seen[room.Package] = true
		tests, err := filepath.Glob(filepath.Join("../../..", room.Package, "*_test.go"))
		require.NoError(t, err)
		assert.True(t, slices.ContainsFunc(tests, func(name string) bool {
			content, err := os.ReadFile(name)
			require.NoError(t, err)
			return strings.Contains(string(content), `conformance.Hold(t, "`+room.Package+`")`)
		}), "no test of %s holds its published cases", room.Package)
	}
}

const two = `source: "A. Author, A Title, 2001"
mark: READ
cases:
  - {id: first, inputs: {method: capital recovery, rate: 0, years: 4}, want: {factor: 0.25}, tol: 0.01}
  - {id: other, left_out: nothing here does it, inputs: {x: 1}, want: {y: 1}, tol: 0}
`

// folders is a file system with the cases of every method, one of them changed.
func folders(t *testing.T, method, file, content string) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(conformance.Cases(t), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || path.Dir(name) == method {
			return err
		}
		content, err := fs.ReadFile(conformance.Cases(t), name)
		out[name] = &fstest.MapFile{Data: content}
		return err
	}))
	if file != "" {
		out[method+"/"+file] = &fstest.MapFile{Data: []byte(content)}
	}
	return out
}

func TestTheEngineHasToKnowEveryFolderAndEveryFolderTheEngine(t *testing.T) {
	_, err := conformance.Engine(folders(t, "machinerate", "a.yaml", two))
	require.NoError(t, err)
	_, err = conformance.Engine(folders(t, "machinerate", "a.yaml", strings.ReplaceAll(two, "0.25", "0.27")))
	require.ErrorContains(t, err, "capital/timevalue")
	require.ErrorContains(t, err, "case first")
	_, err = conformance.Engine(folders(t, "machinerate", "", ""))
	require.ErrorContains(t, err, "machinerate")
	_, err = conformance.Engine(folders(t, "sewing", "a.yaml", two))
	require.ErrorContains(t, err, "testdata/published/sewing: 1 cases to work out, and a package that does so: false")
	onlyLeftOut := strings.ReplaceAll(two, "{id: first,", "{id: first, left_out: nor this,")
	_, err = conformance.Engine(folders(t, "sewing", "a.yaml", onlyLeftOut))
	require.NoError(t, err, "what is left out needs nobody")
	_, err = conformance.Engine(folders(t, "machinerate", "a.yaml", onlyLeftOut))
	require.ErrorContains(t, err, "machinerate: 0 cases to work out, and a package that does so: true")
}

func TestTheTableShowsSourcesAndWhatIsLeftOut(t *testing.T) {
	file := published.File{
		Path: "machinerate/a.yaml", Source: "A. Author, A Title, 2001", Mark: published.Read, Cases: make([]published.Case, 1),
		LeftOut: []published.Case{{ID: "other", Why: "nothing here does it", Source: "A. Author"}},
	}
	again := published.File{Path: "loan/a.yaml", Source: file.Source, Mark: published.Read, Cases: make([]published.Case, 2)}
	engine := map[string]published.Tally{file.Path: {Cases: 1, Figures: 4, Off: 0.02}, again.Path: {Cases: 2, Figures: 3}}
	shown := conformance.Table([]published.File{file, again}, engine, map[string]published.Tally{file.Path: {Cases: 1, Figures: 1}})
	assert.Regexp(t, `(?m)^ *3 +7 +2e-02 +1 +1 +0  as published +A\. Author, A Title, 2001$`, shown)
	assert.Regexp(t, `(?m)^ *3 +7 +2e-02 +1 +1 +0 +all$`, shown)
	assert.Contains(t, shown, "left out: machinerate/other: nothing here does it; A. Author\n")
	assert.Contains(t, conformance.Table([]published.File{file}, engine, nil), "not run")
}

// failing notes that a check failed and lets the test go on.
type failing struct {
	testing.TB
	failed bool
}

func (f *failing) Error(...any)          { f.failed = true }
func (f *failing) Fatalf(string, ...any) { f.failed = true; panic(f) }

func TestAPackageWithoutARoomHoldsNothing(t *testing.T) {
	inner := &failing{TB: t}
	assert.PanicsWithValue(t, inner, func() { conformance.Hold(inner, "model/sewing") })
	assert.True(t, inner.failed)
}
