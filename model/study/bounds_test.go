package study

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// many writes n members of a list, each on its own line.
func many(n int, indent, member string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "%s"+member+"\n", indent, i+1)
	}
	return b.String()
}

func TestListsEndAtTheirBounds(t *testing.T) {
	short := string(goodStudy(t, "short.yaml"))
	rows := []struct {
		list   string
		most   int
		before string // text of the short study in front of which the members go
		head   string
		indent string
		member string
	}{
		{"machines", 40, "job_types:", "", "  ", "m%d: {class: planer, price: 100}"},
		{"shops", 10, "machines:\n  planer20", "", "  ", "s%d: {distance: 5 km, machines: {p: {class: planer}}}"},
		{"shops.mill.machines", 40, "machines:\n  planer20", "", "      ", "m%d: {class: planer}"},
		{"job_types", 200, "", "", "  ", "j%d: {per_year: 1, operations: {plane: {class: planer}}}"},
		{"job_types.table_top.operations", 30, "", "", "      ", "o%d: {class: planer}"},
		{"job_types.table_top.pieces", 12, "    operations:", "    pieces:\n", "      ", "p%d: {length: 2 m, width: 100 mm, thickness: 40 mm}"},
		{"tools", 40, "machines:\n  planer20", "tools:\n", "  ", "t%d: {class: planer}"},
		{"materials", 100, "job_types:", "materials:\n", "  ", "m%d: {density: 700 kg/m3}"},
	}
	for _, row := range rows {
		has := 1
		if row.head != "" {
			has = 0
		}
		study := func(n int) string {
			text := row.head + many(n-has, row.indent, row.member)
			at := strings.Index(short, row.before)
			require.GreaterOrEqual(t, at, 0, row.list)
			if row.before == "" {
				at = len(short)
			}
			return strings.Replace(short[:at]+text+short[at:], "    per_year: 24", "    per_year: 24"+materialFor(row.list), 1)
		}
		_, _, problems := Load("s", []byte(study(row.most)))
		assert.Empty(t, problems.Error(), row.list)
		_, _, problems = Load("s", []byte(study(row.most+1)))
		require.Len(t, problems, 1, row.list)
		assert.Contains(t, problems.Error(), fmt.Sprintf("%s has %d members; give at most %d", row.list, row.most+1, row.most))
	}
}

func materialFor(list string) string {
	if list == "materials" {
		return "\n    material: m1"
	}
	return ""
}

func TestGritsEndAtTheirBound(t *testing.T) {
	study := func(n int) []byte {
		var grits []string
		for i := range n {
			grits = append(grits, fmt.Sprintf("%d: 0.01 mm", 40+20*i))
		}
		text := strings.Replace(string(goodStudy(t, "short.yaml")), "plane: {class: planer}", "plane: {class: planer, grits: {"+strings.Join(grits, ", ")+"}}", 1)
		return []byte(text)
	}
	_, _, problems := Load("s", study(12))
	assert.Empty(t, problems.Error())
	_, _, problems = Load("s", study(13))
	require.Len(t, problems, 1)
	assert.Contains(t, problems.Error(), "grits has 13 members; give at most 12")
}

func TestTablesEndAtTheirBound(t *testing.T) {
	study := func(n int) []byte {
		row := strings.TrimSuffix(strings.Repeat("50 %, ", n), ", ")
		return []byte(strings.Replace(string(goodStudy(t, "short.yaml")), "price: 3200", "price: 3200, resale: table, value_table: ["+row+"]", 1))
	}
	_, _, problems := Load("s", study(60))
	assert.Empty(t, problems.Error())
	_, _, problems = Load("s", study(61))
	require.Len(t, problems, 1)
	assert.Contains(t, problems.Error(), "value_table has 61 rows; give at most 60")
}

func TestValuesAtTheirLimitsAreTakenAndBeyondRefused(t *testing.T) {
	rows := []struct {
		text string
		ok   bool
	}{
		{"sales_tax: 50 %", true}, {"sales_tax: 50.01 %", false}, {"sales_tax: 0 %", true}, {"sales_tax: -0.01 %", false},
		{"years_kept: 1 year", true}, {"years_kept: 30 years", true}, {"years_kept: 0 years", false}, {"years_kept: 31 years", false},
		{"peak_load: 0 %", false}, {"peak_load: 0.01 %", true}, {"peak_load: 100 %", true},
		{"max_width: 5 m", true}, {"max_width: 5000 mm", true}, {"max_width: 5001 mm", false},
		{"knives: 2.5", false}, {"knives: 2", true},
	}
	for _, row := range rows {
		src := strings.Replace(string(goodStudy(t, "short.yaml")), "price: 3200", "price: 3200, "+row.text, 1)
		_, _, problems := Load("s", []byte(src))
		assert.Equal(t, row.ok, len(problems) == 0, "%s: %s", row.text, problems.Error())
	}
}

// The parser gives up far behind a slip; the line told is where the slip is.
func TestSlipsInTheSyntaxAreToldWhereTheyAre(t *testing.T) {
	workshop := strings.SplitAfter(string(goodStudy(t, "workshop.yaml")), "\n")
	slips := []struct{ name, old, slip string }{
		{"quote", ": ", ": \""},
		{"tab", "  ", "\t"},
		{"brace", ": ", ": {"},
		{"reserved", ": ", ": @"},
	}
	tried := 0
	for _, slip := range slips {
		for i, line := range workshop {
			if i < 3 || i > len(workshop)-3 || !strings.Contains(line, slip.old) {
				continue
			}
			lines := append([]string{}, workshop...)
			lines[i] = strings.Replace(line, slip.old, slip.slip, 1)
			_, _, problems := Load("s", []byte(strings.Join(lines, "")))
			require.Len(t, problems, 1, "%s in line %d", slip.name, i+1)
			assert.Equal(t, i+1, problems[0].Place.Line, "%s: %s", slip.name, problems.Error())
			tried++
		}
	}
	require.Greater(t, tried, 100)
}

func TestLargeFilesWithASlipAreReadInGoodTime(t *testing.T) {
	src := string(goodStudy(t, "short.yaml")) + strings.Repeat("# a remark\n", 90_000) + "title: \"open\n"
	_, _, problems := Load("s", []byte(src))
	require.Len(t, problems, 1)
	assert.LessOrEqual(t, problems[0].Place.Line, strings.Count(src, "\n")+1)
}
