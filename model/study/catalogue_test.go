package study

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/check"
)

// errorCases holds one bad study a file: why it is there, the study, and the
// exact lines it gives. SHOPSTINT_UPDATE=1 writes the lines anew; read what
// changed before keeping it.
const errorCases = "../../testdata/errors"

const (
	leastCases   = 100
	updateByName = "SHOPSTINT_UPDATE"
)

// badStudy is one case of the catalogue.
type badStudy struct {
	name    string // of the file, without its ending
	rule    string // the rule it breaks, "" where the reader refuses it
	archive *txtar.Archive
}

func (b badStudy) source() []byte { return b.archive.Files[0].Data }
func (b badStudy) lines() string  { return string(b.archive.Files[1].Data) }

func badStudies(t testing.TB) []badStudy {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(errorCases, "*.txtar"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), leastCases, "the catalogue has been found")
	list := make([]badStudy, len(files))
	for i, file := range files {
		list[i] = readBadStudy(t, file)
	}
	return list
}

func readBadStudy(t testing.TB, file string) badStudy {
	t.Helper()
	archive, err := txtar.ParseFile(file)
	require.NoError(t, err)
	require.Len(t, archive.Files, 2, file)
	require.Equal(t, "study.yaml", archive.Files[0].Name, file)
	require.Equal(t, "problems", archive.Files[1].Name, file)
	require.NotEmpty(t, strings.TrimSpace(string(archive.Comment)), "%s says why it is there", file)
	bad := badStudy{name: strings.TrimSuffix(filepath.Base(file), ".txtar"), archive: archive}
	if _, rule, ok := strings.Cut(string(archive.Comment), "\nrule: "); ok {
		bad.rule = strings.TrimSpace(rule)
	}
	return bad
}

func TestEveryBadStudyGivesExactlyItsLines(t *testing.T) {
	for _, bad := range badStudies(t) {
		study, _, problems := Load("study.yaml", bad.source())
		assert.True(t, study == nil, bad.name)
		assert.NotEmpty(t, problems, bad.name)
		got := problems.Error() + "\n"
		if os.Getenv(updateByName) == "1" {
			bad.archive.Files[1].Data = []byte(got)
			file := filepath.Join(errorCases, bad.name+".txtar")
			require.NoError(t, os.WriteFile(file, txtar.Format(bad.archive), 0o644))
			continue
		}
		assert.Equal(t, bad.lines(), got, bad.name)
	}
}

// Lines a user can act on: a place, a lower-case clause, what would be right,
// and no word from a library or a language.
func TestEveryLineOfTheCatalogueHasItsShape(t *testing.T) {
	shape := regexp.MustCompile(`^study\.yaml:[1-9][0-9]*:[1-9][0-9]*: [^A-Z].*; .*[^.]$`)
	foreign := regexp.MustCompile(`(?i)unmarshal|decode|\bnil\b|bracket|\bnull\b|panic|struct|scalar|sequence|\bnode\b|token|(?-i:NaN)`)
	for _, bad := range badStudies(t) {
		for _, line := range strings.Split(strings.TrimRight(bad.lines(), "\n"), "\n") {
			assert.Regexp(t, shape, line, bad.name)
			assert.NotRegexp(t, foreign, line, bad.name)
		}
	}
}

func TestEveryRuleHasABadStudyThatBreaksItAndOnlyIt(t *testing.T) {
	cases := map[string]badStudy{}
	for _, bad := range badStudies(t) {
		if bad.rule != "" {
			cases[bad.rule] = bad
			assert.Equal(t, "rule_"+fileName(bad.rule), bad.name)
		}
	}
	require.NotEmpty(t, check.Rules)
	for _, rule := range check.Rules {
		bad, ok := cases[rule.Name]
		if assert.True(t, ok, "no bad study for: %s", rule.Name) {
			assert.Equal(t, []string{rule.Name}, brokenRules(bad), bad.name)
		}
		delete(cases, rule.Name)
	}
	assert.Empty(t, cases, "bad studies for rules that do not exist")
}

func brokenRules(bad badStudy) []string {
	r := newReader("study.yaml")
	study := r.load(bad.source())
	var broken []string
	for _, rule := range check.Rules {
		if len(rule.Check(study)) > 0 {
			broken = append(broken, rule.Name)
		}
	}
	return broken
}

var notInNames = regexp.MustCompile(`[^a-z0-9]+`)

func fileName(rule string) string { return notInNames.ReplaceAllString(strings.ToLower(rule), "_") }

func TestGoodStudiesBreakNoRule(t *testing.T) {
	for _, name := range goodNames {
		study, _ := mustLoad(t, name)
		assert.Empty(t, check.Study(study), name)
	}
}
