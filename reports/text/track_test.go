package text

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/decision/track"
	"shopstint/reports"
)

func TestNoLineOfATrackedPageIsWiderThanAskedForWhateverTheNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := func(name string) string { return anyText().Draw(t, name) }
		told := &reports.Tracked{
			Title: word("title"), InWords: word("head"), Result: &track.Result{Lines: 1}, Caution: word("caution"),
			Machines: []reports.TrackedMachine{{Name: word("machine"), Says: word("says"), Rows: []reports.TrackedRow{{Label: word("row"), Lines: "1", Predicted: word("predicted"), Actual: "2", Ratio: word("ratio")}}}},
			Visits:   []reports.TrackedSentences{{Name: word("shop"), Says: []string{word("visits")}}},
			Wear:     []reports.TrackedSentences{{Name: word("edge"), Says: []string{word("life")}}},
			Jobs:     []reports.TrackedJob{{Name: word("job"), Done: "3", PerYear: word("year"), Study: "4", Share: word("share"), Chance: "5 %", Waiting: word("waiting")}},
			Drift:    []string{word("drift")}, Suggestions: []reports.TrackedSuggestion{{Path: word("path"), InWords: word("suggestion")}}, Notes: []string{word("note")},
		}
		width := rapid.IntRange(0, 200).Draw(t, "width")
		var b strings.Builder
		require.NoError(t, WriteTrack(&b, told, []string{word("also")}, Options{Width: width, Colour: rapid.Bool().Draw(t, "colour")}))
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
