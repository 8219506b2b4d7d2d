package workbook_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/reports/workbook/recalc"
)

// sized is the demo with so many machines and job types: fewer, or its own
// again under other keys.
func sized(t testing.TB, machines, jobs int) *model.Study {
	t.Helper()
	s := demoStudy(t)
	origins := map[string]model.Origin{}
	for path, origin := range s.Origins {
		origins[path] = origin
	}
	again := func(list, key string, n int) string {
		fresh := key + "_" + strconv.Itoa(n)
		for path, origin := range s.Origins {
			if rest, ok := strings.CutPrefix(path, list+"."+key+"."); ok {
				origins[list+"."+fresh+"."+rest] = origin
			}
		}
		return fresh
	}
	for n := len(s.Machines); n < machines; n++ {
		one := s.Clone().Machines[n%6]
		one.Key = again("machines", one.Key, n)
		s.Machines = append(s.Machines, one)
	}
	for n := len(s.JobTypes); n < jobs; n++ {
		one := s.Clone().JobTypes[n%8]
		one.Key = again("job_types", one.Key, n)
		s.JobTypes = append(s.JobTypes, one)
	}
	s.Machines, s.JobTypes, s.Origins = s.Machines[:machines], s.JobTypes[:jobs], origins
	return s
}

// printed prints a workbook and gives the words of each page.
func printed(t testing.TB, file string) (pdf string, pages []string) {
	t.Helper()
	pdf, count := recalc.LibreOffice(t).PDF(t, file, t.TempDir())
	pages = strings.Split(strings.TrimSuffix(recalc.Text(t, pdf), "\f"), "\f")
	require.Len(t, pages, count, file)
	return pdf, pages
}

// starting finds the pages that begin with some words.
func starting(pages []string, words string) (found []int) {
	for i, page := range pages {
		if strings.HasPrefix(strings.TrimSpace(page), words) {
			found = append(found, i)
		}
	}
	return found
}

func TestEveryPagePrintsWithoutACrampedColumn(t *testing.T) {
	small, drawn := sized(t, 1, 2), studygen.Study(3)
	demos, answer, _ := whole(t)
	for name, book := range map[string]struct {
		file, title string
		most        int
	}{
		"the demo with everything":      {demos, answer.Study.Title, 120},
		"one machine and two job types": {saved(t, "small.xlsx", small), small.Title, 66},
		"generated":                     {saved(t, "drawn.xlsx", drawn), drawn.Title, 120},
	} {
		_, pages := printed(t, book.file)
		assert.LessOrEqual(t, len(pages), book.most, name)
		for i, page := range pages {
			assert.NotContains(t, page, "###", "%s, page %d", name, i+1)
		}
		assert.Equal(t, []int{0}, starting(pages, book.title), "%s: the answer is the first page and no other", name)
		assert.Len(t, starting(pages, "What if"), 1, "%s: sensitivity is one page", name)
		assert.Len(t, starting(pages, "Checks"), 1, "%s: checks are one page", name)
	}
}

func TestTheWidestStudyPrintsWithoutACrampedColumn(t *testing.T) {
	if os.Getenv("SHOPSTINT_WIDE") == "" {
		t.Skip("takes minutes: set SHOPSTINT_WIDE=1")
	}
	s, begun := sized(t, 15, 60), time.Now()
	content := written(t, s)
	t.Logf("15 machines and 60 job types: %.1f s to decide and write %.1f MB", time.Since(begun).Seconds(), float64(len(content))/1e6)
	_, pages := printed(t, kept(t, "wide.xlsx", content))
	t.Logf("%d pages", len(pages))
	assert.Len(t, starting(pages, "What if"), 1)
	for i, page := range pages {
		assert.NotContains(t, page, "###", "page %d", i+1)
	}
}

// pictures are the pages that the README shows, by file and first words.
var pictures = map[string]string{"answer": "wide tops", "owning": "Owning, year by year", "break-even": "Break-even", "sensitivity": "What if"}

func TestThePicturesOfTheReadmeAreDrawn(t *testing.T) {
	if os.Getenv("SHOPSTINT_PICTURES") == "" {
		for name := range pictures {
			assert.FileExists(t, filepath.Join("pictures", name+".png"), "draw it with SHOPSTINT_PICTURES=1")
		}
		return
	}
	pdf, pages := printed(t, saved(t, "demo.xlsx", demoStudy(t)))
	drawn := recalc.Pages(t, pdf, t.TempDir(), 90)
	require.NoError(t, os.MkdirAll("pictures", 0o755))
	for name, words := range pictures {
		found := starting(pages, words)
		require.NotEmpty(t, found, name)
		content, err := os.ReadFile(drawn[found[0]])
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join("pictures", name+".png"), content, 0o644))
	}
}
