package text

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/reports"
)

// anySpending is a page with any words, any number of periods and any figures.
func anySpending() *rapid.Generator[*reports.Spending] {
	return rapid.Custom(func(t *rapid.T) *reports.Spending {
		words := func(label string) string { return anyText().Draw(t, label) }
		figure := rapid.StringMatching(`-?[0-9,]{1,14}`)
		table := func(periods int) reports.SpendTable {
			table := reports.SpendTable{Heading: "by year"}
			for range periods {
				table.Periods = append(table.Periods, "2026")
			}
			for range rapid.IntRange(1, 4).Draw(t, "lines") {
				line := reports.SpendLine{Label: "rental: invoices and fees", Empty: rapid.Bool().Draw(t, "empty")}
				for range periods {
					line.InWords = append(line.InWords, figure.Draw(t, "figure"))
				}
				table.Lines = append(table.Lines, line)
			}
			return table
		}
		return &reports.Spending{
			Title: words("title"), Currency: "USD", ChoiceInWords: words("choice"), Years: table(rapid.IntRange(1, 30).Draw(t, "years")), Months: table(12),
			Events: []reports.SpendEvent{{InWords: words("event")}}, Due: []reports.DueItem{{InWords: words("due")}},
			Reserves: []reports.Reserve{{InWords: words("reserve")}}, ReservedInWords: words("reserved"), Rates: []reports.HourRate{{InWords: words("rate")}},
			Notes: []string{words("note")}, Caution: reports.TaxCaution,
		}
	})
}

func TestNoLineOfAPageOfSpendingIsWiderThanAskedForWhateverTheNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		said := anySpending().Draw(t, "spending")
		width := rapid.IntRange(20, Width).Draw(t, "width")
		var out strings.Builder
		require.NoError(t, WriteSpending(&out, said, Options{Width: width}))
		for line := range strings.Lines(out.String()) {
			require.LessOrEqual(t, columnsOf(strings.TrimSuffix(line, "\n")), width, "%q", line)
		}
	})
}

// Blocks are as even as they can be, and lines without an amount are left out.
func TestATableOverTimeIsPartedIntoEvenBlocks(t *testing.T) {
	line := func(label string, empty bool) reports.SpendLine {
		one := reports.SpendLine{Label: label, Empty: empty}
		for range 10 {
			one.InWords = append(one.InWords, "1,000")
		}
		return one
	}
	table := reports.SpendTable{Heading: "by year", Lines: []reports.SpendLine{line("rental", false), line("energy", true)}}
	for _, year := range strings.Fields("2026 2027 2028 2029 2030 2031 2032 2033 2034 2035") {
		table.Periods = append(table.Periods, year)
	}
	p := newPage(Options{})
	p.spendTable(&table, "USD")
	assert.Equal(t, "By year, USD                      2026    2027    2028    2029    2030\n"+
		"  rental                         1,000   1,000   1,000   1,000   1,000\n\n"+
		"By year, USD                      2031    2032    2033    2034    2035\n"+
		"  rental                         1,000   1,000   1,000   1,000   1,000\n\n", p.String())
	p = newPage(Options{Width: 40})
	table.Periods, table.Lines[0].InWords = table.Periods[:2], table.Lines[0].InWords[:2]
	p.spendTable(&table, "USD")
	assert.Equal(t, "By year, USD:\n- rental: 2026 1,000; 2027 1,000\n\n", p.String())
}

func TestAFullDiskIsToldOfSpendingToo(t *testing.T) {
	assert.ErrorContains(t, WriteSpending(full{}, &reports.Spending{}, Options{}), "could not write the spending")
}
