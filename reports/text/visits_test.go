package text

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/reports"
)

func TestNoLineOfAPageOfVisitsIsWiderThanAskedForWhateverTheNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := func(name string) string { return anyText().Draw(t, name) }
		plan := &reports.VisitPlan{
			Title: word("title"), CostInWords: word("cost"), SavedInWords: word("saved"), HomeInWords: word("home"), Caution: word("caution"), ProofsInWords: []string{word("proof")},
			Visits: []reports.PlannedVisit{{
				Weekday: "Mon", Date: "2027-03-08", ShopName: word("shop"), Deadline: word("deadline"), Clock: word("clock"), Money: word("money"),
				BringInWords: word("bring"), Lifting: word("lifting"), Jobs: []reports.VisitJob{{InWords: word("job")}},
			}},
		}
		width := rapid.IntRange(0, 200).Draw(t, "width")
		var b strings.Builder
		require.NoError(t, WriteVisits(&b, plan, word("calendar"), Options{Width: width, Colour: rapid.Bool().Draw(t, "colour")}))
		most := width
		if most <= 0 || most > Width {
			most = Width
		}
		for line := range strings.SplitSeq(b.String(), "\n") {
			assert.LessOrEqual(t, columnsOf(colours.ReplaceAllString(line, "")), max(most, narrowest))
		}
		assert.NotContains(t, colours.ReplaceAllString(b.String(), ""), "\x1b")
	})
}
