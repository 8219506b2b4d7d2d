package text

import (
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/decision/single"
	"shopstint/reports"
)

var colours = regexp.MustCompile("\x1b\\[[0-9;]*m")

// anyText is what a stranger may have written into a study.
func anyText() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.String(),
		rapid.StringMatching(`[a-z]{0,300}`),
		rapid.SampledFrom([]string{"", "=1+1", "\x1b[31mred", "a\nb", "広い板の機械 幅広", "e\u0301e\u0301", "\u202eevil", "a\u00a0b"}),
	)
}

func anySummary() *rapid.Generator[*reports.Summary] {
	machine := rapid.Custom(func(t *rapid.T) reports.Machine {
		s := anyText()
		return reports.Machine{
			Name: s.Draw(t, "name"), Verdict: single.Verdict(rapid.IntRange(0, 2).Draw(t, "verdict")),
			Reason: s.Draw(t, "reason"), Difference: s.Draw(t, "difference"), Cash: s.Draw(t, "cash"), Work: s.Draw(t, "work"), Turns: s.Draw(t, "turns"),
		}
	})
	note := rapid.Custom(func(t *rapid.T) reports.Note {
		return reports.Note{About: anyText().Draw(t, "about"), Text: anyText().Draw(t, "text")}
	})
	together := rapid.Custom(func(t *rapid.T) reports.Joint {
		s := anyText()
		return reports.Joint{
			Verdict: s.Draw(t, "own"), Saving: s.Draw(t, "saving"), Next: s.Draw(t, "next"), Proof: s.Draw(t, "proof"),
			Limits: rapid.SliceOfN(s, 0, 3).Draw(t, "limits"), Obvious: rapid.Bool().Draw(t, "obvious"),
		}
	})
	return rapid.Custom(func(t *rapid.T) *reports.Summary {
		return &reports.Summary{
			Title: anyText().Draw(t, "title"), RentingInWords: anyText().Draw(t, "renting"), Joint: together.Draw(t, "together"),
			Machines: rapid.SliceOfN(machine, 0, 4).Draw(t, "machines"), AssumedCount: rapid.IntRange(0, 3).Draw(t, "assumed"),
			AssumedInWords: anyText().Draw(t, "assumed in words"), Notes: rapid.SliceOfN(note, 0, 9).Draw(t, "notes"),
			NotPriced: rapid.SliceOfN(anyText(), 0, 5).Draw(t, "not priced"),
		}
	})
}

func written(t require.TestingT, summary *reports.Summary, options Options) string {
	var b strings.Builder
	require.NoError(t, Write(&b, summary, options))
	return b.String()
}

func TestNoLineIsWiderThanAskedForWhateverTheNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		options := Options{
			Width: rapid.IntRange(0, 200).Draw(t, "width"), Colour: rapid.Bool().Draw(t, "colour"),
			Workbook: anyText().Draw(t, "workbook"),
		}
		most := options.Width
		if most == 0 || most > Width {
			most = Width
		}
		page := written(t, anySummary().Draw(t, "summary"), options)
		for line := range strings.Lines(page) {
			require.LessOrEqual(t, columnsOf(strings.TrimSuffix(colours.ReplaceAllString(line, ""), "\n")), max(most, narrowest), line)
		}
	})
}

func TestNothingInAStudyCommandsTheTerminal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		page := written(t, anySummary().Draw(t, "summary"), Options{Workbook: anyText().Draw(t, "workbook")})
		for _, r := range page {
			require.False(t, r != '\n' && unicode.IsControl(r) || unicode.Is(unicode.Cf, r), "%q", r)
		}
	})
}

func TestColourOnlyRepeatsTheWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		summary := anySummary().Draw(t, "summary")
		plain, coloured := written(t, summary, Options{}), written(t, summary, Options{Colour: true})
		require.NotContains(t, plain, "\x1b")
		require.Equal(t, plain, colours.ReplaceAllString(coloured, ""))
		if len(summary.Machines) > 0 {
			require.Contains(t, coloured, "\x1b[")
		}
	})
}

func TestWrappingLosesNothing(t *testing.T) {
	squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
	rapid.Check(t, func(t *rapid.T) {
		text := anyText().Draw(t, "text")
		columns := rapid.IntRange(2, 120).Draw(t, "columns")
		lines := Wrap(text, columns)
		require.NotEmpty(t, lines)
		require.Equal(t, squeeze(Clean(text)), squeeze(strings.Join(lines, "")))
		for _, line := range lines {
			require.LessOrEqual(t, columnsOf(line), columns)
		}
	})
}

func TestWideLettersTakeTwoColumns(t *testing.T) {
	for _, row := range []struct {
		text string
		want int
	}{{"planer", 6}, {"", 0}, {"幅広", 4}, {"e\u0301", 1}, {"½", 1}} {
		assert.Equal(t, row.want, columnsOf(row.text), row.text)
	}
}

func TestWhatIsLeftOutIsCounted(t *testing.T) {
	var notes []reports.Note
	for _, subject := range strings.Split("a b c d e f g h", " ") {
		notes = append(notes, reports.Note{About: subject, Text: "is loud"}, reports.Note{About: subject, Text: "is heavy"})
	}
	summary := &reports.Summary{Notes: notes, NotPriced: []string{"one", "two", "three", "four"}}
	page := written(t, summary, Options{Workbook: "x.xlsx"})
	assert.Contains(t, page, "- f: is loud; is heavy\n- 2 more in the workbook\n")
	assert.NotContains(t, page, "g: ")
	assert.Contains(t, page, "- three\n- 1 more in the workbook\n")
	assert.Contains(t, page, "Workbook: x.xlsx\n")

	page = written(t, summary, Options{})
	assert.Contains(t, page, "- three\n- 1 more with --json\n")
	assert.Contains(t, page, "No workbook was written.\n")
}

func TestABlockBeginsWithTheVerdict(t *testing.T) {
	machine := reports.Machine{Name: "wide planer", Verdict: single.TooClose, Reason: "owning costs 2 a year", Difference: "1 a year better", Cash: "cash needed 3", Turns: "would turn with a price over 9"}
	page := written(t, &reports.Summary{Machines: []reports.Machine{machine}}, Options{})
	assert.Contains(t, page, "\nToo close to call: wide planer\n  Owning costs 2 a year: 1 a year better.\n  Cash needed 3.\n  Would turn with a price over 9.\n\n")
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, assert.AnError }

func TestAFullDiskIsTold(t *testing.T) {
	assert.ErrorIs(t, Write(full{}, &reports.Summary{}, Options{}), assert.AnError)
}

func TestAnExcerptMarksTheLetterAndFitsTheColumns(t *testing.T) {
	assert.Equal(t, "    b: 12\n       ^\n", Excerpt([]byte("a: 1\r\nb: 12\r\n"), 2, 4, 0))
	assert.Equal(t, "    広い: x\n          ^\n", Excerpt([]byte("広い: x"), 1, 5, 0))
	for _, nowhere := range [][2]int{{0, 1}, {3, 1}, {1, 0}, {1, 9}} {
		assert.Empty(t, Excerpt([]byte("a: 1\nb"), nowhere[0], nowhere[1], 0))
	}
	rapid.Check(t, func(t *rapid.T) {
		line := rapid.StringMatching(`[a-z :]{0,300}[x-z]`).Draw(t, "line")
		letter := rapid.IntRange(1, len(line)).Draw(t, "letter")
		columns := rapid.IntRange(20, 120).Draw(t, "columns")
		shown, mark, _ := strings.Cut(strings.TrimSuffix(Excerpt([]byte(line), 1, letter, columns), "\n"), "\n")
		require.LessOrEqual(t, len(shown), columns)
		require.Equal(t, line[letter-1], shown[len(mark)-1])
	})
}
