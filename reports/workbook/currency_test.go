package workbook_test

import (
	"archive/zip"
	"bytes"
	"io"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/money"
	"shopstint/model/studygen"
)

// parts are the parts of a workbook by name.
func parts(t *testing.T, content []byte) map[string]string {
	t.Helper()
	file, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	require.NoError(t, err)
	found := map[string]string{}
	for _, part := range file.File {
		in, err := part.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(in)
		require.NoError(t, err)
		require.NoError(t, in.Close())
		found[part.Name] = string(text)
	}
	return found
}

func TestAWorkbookRoundsAndShowsAmountsAsItsCurrencyDoes(t *testing.T) {
	posts := regexp.MustCompile(`ROUND\(ROUND\([^"]*?,8\),(\d)\)`)
	for code, want := range map[string]string{"JPY": `#,##0;[Red]-#,##0;`, "EUR": `#,##0.00;[Red]-#,##0.00;`, "KWD": `#,##0.000;[Red]-#,##0.000;`} {
		s := studygen.Study(1)
		s.Currency = code
		var err error
		s.Money, err = money.ParseCurrency(code)
		require.NoError(t, err)
		all := parts(t, written(t, s))
		styles := all["xl/styles.xml"]
		assert.Contains(t, styles, want, code)
		assert.Equal(t, code == "EUR", strings.Contains(styles, `#,##0.00;[Red]`), "%s has two decimals", code)
		assert.Equal(t, code == "KWD", strings.Contains(styles, `#,##0.000;[Red]`), "%s has three decimals", code)
		rounded := map[string]bool{}
		for _, name := range slices.Sorted(maps.Keys(all)) {
			for _, found := range posts.FindAllStringSubmatch(all[name], -1) {
				rounded[found[1]] = true
			}
		}
		assert.Equal(t, map[string]bool{strconv.Itoa(s.Money.Places()): true}, rounded, "decimals to which %s is posted", code)
	}
}
