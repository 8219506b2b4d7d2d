package recalc

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

var pageCount = regexp.MustCompile(`(?m)^Pages:\s+(\d+)$`)

func countPages(t testing.TB, pdf string) int {
	t.Helper()
	found := pageCount.FindStringSubmatch(run(t, "pdfinfo", pdf))
	require.NotNil(t, found, "%s: no page count", pdf)
	pages, err := strconv.Atoi(found[1])
	require.NoError(t, err)
	return pages
}

// Pages draws every page of a PDF as a PNG of the given dots per inch into outDir and gives the paths in order.
func Pages(t testing.TB, pdf, outDir string, dpi int) []string {
	t.Helper()
	need(t, "pdftoppm", "poppler-utils")
	base := filepath.Base(pdf)
	stem := filepath.Join(outDir, base[:len(base)-len(filepath.Ext(base))])
	run(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-png", pdf, stem)
	pages, err := filepath.Glob(stem + "-*.png")
	require.NoError(t, err)
	require.NotEmpty(t, pages, "%s: no page drawn", pdf)
	slices.Sort(pages)
	return pages
}

// Text gives the words of a PDF, laid out as on the page. A column that is too narrow shows as ###.
func Text(t testing.TB, pdf string) string {
	t.Helper()
	need(t, "pdftotext", "poppler-utils")
	return run(t, "pdftotext", "-layout", pdf, "-")
}
