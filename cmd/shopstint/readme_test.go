package main

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/starter"
	"shopstint/model/study"
)

const (
	house  = "../.."
	readme = house + "/README.md"
)

// fence is one block between fences. An example has its name in a comment on
// the line above.
type fence struct{ name, kind, body string }

var fenced = regexp.MustCompile("(?ms)^(?:<!-- example ([a-z-]+) -->\n)?```([a-z]+)\n(.*?)^```$")

func fences(t *testing.T) []fence {
	t.Helper()
	var list []fence
	for _, found := range fenced.FindAllStringSubmatch(page(t, readme), -1) {
		list = append(list, fence{found[1], found[2], found[3]})
	}
	require.Greater(t, len(list), 10)
	return list
}

func page(t *testing.T, path string) string {
	t.Helper()
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(content)
}

// printed are the examples that the program itself can write: what it prints,
// the study it begins with, and the shapes in its own comments.
func printed(t *testing.T) map[string]string {
	t.Helper()
	wanted := map[string]string{
		"json-decide":   commented(t, "jsonout.go"),
		"json-check":    commented(t, "checked.go"),
		"json-again":    commented(t, "again.go"),
		"json-visits":   commented(t, "visits.go"),
		"json-problems": commented(t, "problems.go"),
		"json-futures":  commented(t, "futures.go"),
		"json-budget":   commented(t, "budget.go"),
		"json-track":    commented(t, "track.go"),
		"json-spend":    commented(t, "spend.go"),
		"json-wear":     commented(t, "wear.go"),
		"short-study":   string(starter.Short()),
	}
	guide := page(t, readme)
	unitless := bytes.Replace(starter.Short(), []byte("distance: 15 mi"), []byte("distance: 15   "), 1)
	t.Run("answers", func(t *testing.T) {
		t.Chdir(t.TempDir())
		wanted["answer"] = excerpt(t, answered(t, demo.Study(), exitDone))
		wanted["short-answer"] = strings.Join(paragraphs(answered(t, starter.Short(), exitDone))[:2], "\n")
		wanted["problem"] = answered(t, unitless, exitBad)
		wanted["futures"] = paragraphAbout(t, "futures were drawn", "decide", "--demo", "--no-workbook", "--futures", "20000")
		wanted["track"] = trackExcerpt(t)
		wanted["logbook"] = recorded(t, guide)
		wanted["spend"] = spent(t)
		wanted["budget"] = paragraphAbout(t, "", "budget", "coffee", "--demo", "--aboard", "2")
		wanted["wear"] = paragraphAbout(t, "until spent", "wear", "--demo") + "…\n\n" + paragraphAbout(t, "hand-held router:", "wear", "--demo")
	})
	return wanted
}

// spent is what the page of spending begins with, and all behind its tables.
func spent(t *testing.T) string {
	t.Helper()
	all := paragraphs(paragraphAbout(t, "", "spend", "--demo", "--today", "2026-03-02"))
	behind := slices.IndexFunc(all, func(p string) bool { return strings.HasPrefix(p, "What happens to machines:") })
	require.Greater(t, behind, 3)
	shown := append(all[:2:2], "…\n")
	return strings.Join(append(shown, all[behind:]...), "\n")
}

// answered answers a study and returns what was said.
func answered(t *testing.T, src []byte, want int) string {
	t.Helper()
	require.NoError(t, os.WriteFile("study.yaml", src, 0o600))
	status, stdout, stderr := ran(0, nil, "decide", "study.yaml")
	require.Equal(t, want, status, stderr)
	return stdout + stderr
}

// paragraphAbout runs a command and returns the paragraph of its answer that has
// some words, or all of it.
func paragraphAbout(t *testing.T, words string, command ...string) string {
	t.Helper()
	status, stdout, stderr := ran(0, nil, command...)
	require.Equal(t, exitDone, status, stderr)
	if words == "" {
		return stdout
	}
	all := paragraphs(stdout)
	at := slices.IndexFunc(all, func(p string) bool { return strings.Contains(p, words) })
	require.GreaterOrEqual(t, at, 0)
	return all[at]
}

// recorded is the logbook that the README's own commands make.
func recorded(t *testing.T, guide string) string {
	t.Helper()
	count := 0
	for _, command := range recordLine.FindAllStringSubmatch(guide, -1) {
		status, _, stderr := ran(0, nil, strings.Fields(command[1])...)
		require.Equal(t, exitDone, status, stderr)
		count++
	}
	require.Greater(t, count, 3)
	return page(t, "log.csv")
}

var recordLine = regexp.MustCompile(`(?m)^shopstint (record log\.csv .*)$`)

func paragraphs(text string) []string {
	list := strings.Split(text, "\n\n")
	for i := range list {
		list[i] = strings.TrimSuffix(list[i], "\n") + "\n"
	}
	return list
}

// trackExcerpt is what the page of the demo's logbook says of a few things, in its order.
func trackExcerpt(t *testing.T) string {
	t.Helper()
	kept := []string{}
	for _, paragraph := range paragraphs(paragraphAbout(t, "", "track", "--demo")) {
		lines := strings.SplitAfter(paragraph, "\n")
		switch {
		case strings.HasPrefix(paragraph, "Minutes"), strings.HasPrefix(paragraph, "Suggested"):
			paragraph = strings.Join(lines[:min(14, len(lines))], "") + "…\n"
		case strings.HasPrefix(paragraph, "Edges"):
			paragraph = strings.Join(lines[:min(6, len(lines))], "") + "…\n"
		case !strings.HasPrefix(paragraph, "Invoices"):
			continue
		}
		kept = append(kept, paragraph)
	}
	require.Len(t, kept, 4)
	return strings.Join(kept, "\n")
}

// excerpt is the beginning of an answer, with one machine of each verdict, and
// what it says of the first assumption.
func excerpt(t *testing.T, answer string) string {
	t.Helper()
	all := paragraphs(answer)
	at := slices.IndexFunc(all, func(p string) bool { return strings.Contains(p, "inputs were assumed") })
	require.Greater(t, at, 3)
	assumed := strings.SplitAfterN(all[at], "\n- ", 3)
	require.Len(t, assumed, 3)
	shown, verdicts := all[:1:1], map[string]bool{}
	road := slices.IndexFunc(all, func(p string) bool { return strings.HasPrefix(p, "Roadmap: ") })
	require.Greater(t, road, 1)
	for _, machine := range all[1:road] {
		if verdict, _, _ := strings.Cut(machine, ":"); !verdicts[verdict] {
			verdicts[verdict] = true
			shown = append(shown, machine)
		}
	}
	shown = append(shown, "…\n", all[road], strings.TrimSuffix(assumed[0]+assumed[1], "- ")+"…\n")
	return strings.Join(shown, "\n")
}

// commented is the block in the comments of a file that documents a shape.
func commented(t *testing.T, name string) string {
	t.Helper()
	var block strings.Builder
	for line := range strings.Lines(page(t, filepath.Join(house, "reports/jsonout", name))) {
		if text, ok := strings.CutPrefix(line, "//\t"); ok {
			block.WriteString(text)
		}
	}
	require.NotEmpty(t, block.String())
	return block.String()
}

// TestTheReadmeShowsWhatTheProgramPrints compares every printed example;
// SHOPSTINT_UPDATE=1 writes those that differ into the README.
func TestTheReadmeShowsWhatTheProgramPrints(t *testing.T) {
	shown, text := fences(t), page(t, readme)
	for name, want := range printed(t) {
		at := slices.IndexFunc(shown, func(f fence) bool { return f.name == name })
		if !assert.GreaterOrEqual(t, at, 0, "the README has no example %s", name) {
			continue
		}
		if os.Getenv(variableUpdate) != "1" {
			assert.Equal(t, want, shown[at].body, name)
			continue
		}
		begin := "<!-- example " + name + " -->\n```" + shown[at].kind + "\n"
		text = strings.Replace(text, begin+shown[at].body, begin+want, 1)
	}
	if os.Getenv(variableUpdate) == "1" {
		require.NoError(t, os.WriteFile(readme, []byte(text), 0o600))
	}
}

func TestEveryExampleOfTheReadmeIsRunOrCompared(t *testing.T) {
	known := []string{
		"answer", "short-study", "short-answer", "problem", "json-decide", "json-check", "json-again", "json-visits", "json-problems",
		"dated", "json-futures", "json-budget", "json-spend", "json-track", "json-wear", "futures", "budget", "spend", "wear", "track",
		"logbook", "ranges", "geometry", "correlations", "together", "ways", "settings",
	}
	for _, f := range fences(t) {
		assert.True(t, f.kind == "sh" && f.name == "" || slices.Contains(known, f.name), "nobody runs this: %s", f.body)
	}
	assert.Equal(t, len(fences(t)), strings.Count(page(t, readme), "\n```")/2, "a fence that is not read")
}

func TestTheCommandsOfTheReadmeWork(t *testing.T) {
	list := fences(t)
	root, err := filepath.Abs(house)
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	count := 0
	for _, f := range list {
		if f.kind != "sh" {
			continue
		}
		for line := range strings.Lines(f.body) {
			works(t, root, strings.Fields(line))
			count++
		}
	}
	assert.Greater(t, count, 8)
	for _, made := range []string{"demo-decision.xlsx", "study.yaml", "study-decision.xlsx", "answer.xlsx", "visits.ics"} {
		assert.FileExists(t, made)
	}
}

// works runs one command of the README; the tests themselves only have to be there.
func works(t *testing.T, root string, words []string) {
	t.Helper()
	switch {
	case words[0] == "shopstint":
		words = words[1:]
	case slices.Equal(words[:min(3, len(words))], []string{"go", "run", "./cmd/shopstint"}):
		words = words[3:]
	default:
		require.Equal(t, []string{"bash", ".ci/run"}, words)
		about, err := os.Stat(filepath.Join(root, ".ci", "run"))
		require.NoError(t, err)
		assert.NotZero(t, about.Mode()&0o100, ".ci/run cannot be run")
		return
	}
	status, stdout, stderr := ran(0, nil, words...)
	assert.Equal(t, exitDone, status, "%v: %s", words, stderr)
	assert.NotEmpty(t, stdout, "%v", words)
}

// TestThePartsOfStudiesInTheReadmeFitTheShortOne lays each part over the short
// study, which must stay without a problem and keep every input of the part.
func TestThePartsOfStudiesInTheReadmeFitTheShortOne(t *testing.T) {
	count := 0
	for _, f := range fences(t) {
		if !slices.Contains([]string{"ranges", "geometry", "correlations", "together", "dated", "ways"}, f.name) {
			continue
		}
		count++
		var whole, part map[string]any
		require.NoError(t, yaml.Unmarshal(starter.Short(), &whole))
		require.NoError(t, yaml.Unmarshal([]byte(f.body), &part))
		src, err := yaml.Marshal(laidOver(whole, part))
		require.NoError(t, err)
		loaded, _, problems := study.Load("README", src)
		require.Empty(t, problems, f.name)
		if f.name == "ranges" {
			assert.Equal(t, model.Origin{HasRange: true, Low: 4000, High: 5200, Note: "two quotes", Source: "sellers"}, loaded.Origins["machines.own_planer.price"])
		}
		if f.name == "correlations" {
			assert.Equal(t, model.ShapeTriangular, loaded.Origins["studio.labour_rate"].Shape)
			assert.Equal(t, []model.Correlation{{Key: "prices", A: "growth.rental", B: "growth.labour", Rho: 0.7}}, loaded.Correlations)
		}
	}
	assert.Equal(t, 6, count)
}

func laidOver(whole, part map[string]any) map[string]any {
	for key, value := range part {
		under, both := whole[key].(map[string]any)
		over, is := value.(map[string]any)
		if both && is {
			value = laidOver(under, over)
		}
		whole[key] = value
	}
	return whole
}

func TestTheSettingsOfTheReadmeAreTheOnesThereAre(t *testing.T) {
	text := page(t, readme)
	for _, one := range catalogue() {
		assert.Contains(t, text, "| `"+one.key+"` | `"+one.variable()+"` | `--"+one.flag()+"` |")
	}
	list := fences(t)
	at := slices.IndexFunc(list, func(f fence) bool { return f.name == "settings" })
	require.GreaterOrEqual(t, at, 0)
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("settings.yaml", []byte(list[at].body), 0o600))
	status, stdout, stderr := ran(0, nil, "decide", "--demo", "--no-workbook", "--json", "--settings", "settings.yaml")
	require.Equal(t, exitDone, status, stderr)
	assert.Contains(t, stdout, `"units": "metric"`)
}

func TestEveryUnitOfTheReadmeIsRead(t *testing.T) {
	loaded, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	text, quoted, seen := page(t, readme), regexp.MustCompile("`([^`]+)`"), map[quantity.Dimension]bool{}
	model.Walk(loaded, func(leaf model.Leaf) {
		dim, measured := leaf.Dimension()
		if !measured || seen[dim] {
			return
		}
		seen[dim] = true
		_, row, found := strings.Cut(text, "\n| "+dim.Name()+" | ")
		if !assert.True(t, found, "the README has no line for %s", dim.Name()) {
			return
		}
		row, _, _ = strings.Cut(row, "\n")
		examples := quoted.FindAllStringSubmatch(row, -1)
		assert.NotEmpty(t, examples, dim.Name())
		for _, example := range examples {
			_, _, err := quantity.Parse(dim, example[1])
			var wrong *quantity.ParseError
			assert.False(t, errors.As(err, &wrong), "%s: %v", example[1], wrong)
		}
	})
	assert.Greater(t, len(seen), 15)
}

func TestTheReadmeListsTheSheetsInTheirOrder(t *testing.T) {
	text := page(t, readme)
	t.Chdir(t.TempDir())
	status, _, stderr := ran(0, nil, "decide", "--demo", "--futures", "64", "-o", "book.xlsx")
	require.Equal(t, exitDone, status, stderr)
	var listed []string
	for _, found := range regexp.MustCompile(`(?m)^\| \*\*([^*]+)\*\* \|`).FindAllStringSubmatch(text, -1) {
		listed = append(listed, found[1])
	}
	assert.Equal(t, sheetNames(t, "book.xlsx"), listed)
}

func sheetNames(t *testing.T, path string) []string {
	t.Helper()
	book, err := zip.OpenReader(path)
	require.NoError(t, err)
	defer book.Close()
	part, err := book.Open("xl/workbook.xml")
	require.NoError(t, err)
	var content struct {
		Sheets []struct {
			Name string `xml:"name,attr"`
		} `xml:"sheets>sheet"`
	}
	require.NoError(t, xml.NewDecoder(part).Decode(&content))
	var names []string
	for _, sheet := range content.Sheets {
		names = append(names, sheet.Name)
	}
	require.NotEmpty(t, names)
	return names
}

// What follows holds DEVELOPERS.md to the house it describes.

func TestEveryPackageHasItsLineOnTheMap(t *testing.T) {
	text := page(t, house+"/DEVELOPERS.md")
	for _, p := range packages(t) {
		assert.Contains(t, text, "\n| `"+p.name()+"` | ", "DEVELOPERS.md has no line for it")
	}
}
