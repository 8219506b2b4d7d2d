package study

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAFileIsTakenUpToOneMebibyte(t *testing.T) {
	text, f := plain(bytes.Repeat([]byte("#"), 1_048_576))
	require.Nil(t, f)
	assert.Len(t, text, 1_048_576)
	_, f = plain(bytes.Repeat([]byte("#"), 1_048_577))
	assert.Equal(t, &fault{1, 1, "the file has 1048577 bytes", "a study has at most 1048576"}, f)
}

func TestTheFirstStrangeSignIsToldWhereItStands(t *testing.T) {
	for text, want := range map[string]*fault{
		"currency: EUR\n\tü “q” \u00a0\ufffd": nil, // a tab, letters of any kind, and the sign for a lost letter
		"\x00":        {1, 1, "the file ends in 1 zero bytes, as after a loss of power", "take them out, and see whether the end of the study is there"},
		"\x00\x00":    {1, 1, "the file ends in 2 zero bytes, as after a loss of power", "take them out, and see whether the end of the study is there"},
		"aé\tb\x01":   {1, 5, "the control character U+0001 stands here", "a study is plain text; take it out"},
		"a\n\nbc\x7f": {3, 3, "the control character U+007F stands here", "a study is plain text; take it out"},
		"a\n\u2028b":  {2, 1, "the control character U+2028 stands here", "a study is plain text; take it out"},
		"a\u2029b":    {1, 2, "the control character U+2029 stands here", "a study is plain text; take it out"},
		"ab\ufeffc":   {1, 3, "the control character U+FEFF stands here", "a study is plain text; take it out"},
		"ab\rc":       {1, 3, "a line break of neither Windows nor Unix stands here", "save the file with the line breaks of one of them"},
		"é\xe9":       {1, 2, "the byte 0xe9 is not UTF-8 text", "save the file as UTF-8"},
		"ab\x00c":     {1, 3, "the control character U+0000 stands here", "a study is plain text; take it out"},
	} {
		_, f := plain([]byte(text))
		assert.Equal(t, want, f, "%q", text)
	}
}

func TestATextIsQuotedAsItIsWrittenUpToSixtyLetters(t *testing.T) {
	letters := strings.Repeat("ü", 60)
	for text, want := range map[string]string{
		"":                    `""`,
		`5/8" or 'so'`:        `"5/8" or 'so'"`,
		letters:               `"` + letters + `"`,
		letters + "x":         `"` + letters + `…"`,
		"a\tb":                `"a\tb"`,
		"a\u202eb":            `"a\u202eb"`,
		letters[2:] + "\nxyz": `"` + letters[2:] + `\n…"`,
	} {
		assert.Equal(t, want, quoted(text), "%q", text)
	}
}

func TestATextHasAtMostTwoHundredLettersOnOneLine(t *testing.T) {
	for text, want := range map[string][2]string{
		"":                             {},
		strings.Repeat("ü", 200):       {},
		strings.Repeat("ü", 201):       {"has 201 characters", "give at most 200"},
		"one\ntwo":                     {"runs over several lines", "give one line of plain text"},
		"a\tb":                         {"has the control character U+0009", "give one line of plain text"},
		"a\u202eb":                     {"has the control character U+202E", "give one line of plain text"},
		"a\u2066b":                     {"has the control character U+2066", "give one line of plain text"},
		"\u2028 is no control of ours": {},
	} {
		what, right := TextFault(text)
		assert.Equal(t, want, [2]string{what, right}, "%q", text)
	}
}

func TestTwoBytesAreEnoughToTellUTF16(t *testing.T) {
	for text, want := range map[string]bool{"": false, "a": false, "\x00": false, "a\x00": true, "\x00a": true, "ab": false, "\x00\x00": false, "ab\x00": false, "\xff\xfe": true, "\xfe\xff": true} {
		assert.Equal(t, want, isWide([]byte(text)), "%q", text)
	}
}

// Files up to 64 KiB are searched for the broken line; of larger ones the parser's
// own line is told, which for a bad indentation is where the mapping around it begins.
func TestTheBrokenLineIsLookedForInFilesUpToSixtyFourKibibytes(t *testing.T) {
	const begin = "# five lines\na: 1\nb:\n  c: 1\n d: 2\n"
	for size, line := range map[int]int{65_536: 5, 65_537: 2} {
		text := begin + strings.Repeat("#", size-len(begin)-1) + "\n"
		require.Len(t, text, size)
		_, err := parse(text)
		require.Error(t, err)
		assert.Equal(t, line, syntaxFault(text, err).line, "%d bytes: %v", size, err)
	}
}

// A value that runs over lines makes every beginning that ends within it unreadable.
func TestASlipBehindATextOverLinesIsToldWhereItIs(t *testing.T) {
	over := func(lines int) string { return `a: "x` + "\n" + strings.Repeat("x\n", lines-2) + `y"` + "\n" }
	for lines, want := range map[int]int{2: 3, 3: 4, 20: 21, 21: 22, 22: 1} {
		text := over(lines) + "b: @\n"
		_, err := parse(text)
		require.Error(t, err)
		assert.Equal(t, want, syntaxFault(text, err).line, "a text over %d lines: %v", lines, err)
	}
}

// Of a large file the line told is the one that the message speaks of, whatever the
// parser counts from.
func TestASlipInALargeFileIsToldAtALineOfItsKind(t *testing.T) {
	const remarks = 33_000
	above := strings.Repeat("#\n", remarks)
	for slip, want := range map[string]int{
		"a: 1\nb: [1\nc: 2\n":    2, // where the list opens
		"a: 1\nb: {x: 1\nc: 2\n": 2,
		"a: 1\n- b\n":            1, // where the mapping begins that the list does not fit
		"a: 1\nb\nc: 3\n":        2,
		"a: 1\nb: @\n":           2,
		"a: 1\nb: \"\\q\"\n":     2,
	} {
		_, _, problems := Load("s", []byte(above+slip))
		require.Len(t, problems, 1, slip)
		assert.Equal(t, want, problems[0].Place.Line-remarks, "%s: %s", slip, problems.Error())
	}
}

func TestAParserThatNamesNoLineMeansTheFirst(t *testing.T) {
	for said, want := range map[string]int{"yaml: line 7: trouble": 7, "yaml: line 0: trouble": 1, "unknown trouble": 1, "line 99999999999999999999": 1} {
		assert.Equal(t, want, reportedLine(errors.New(said)), said)
	}
	assert.Equal(t, 3, syntaxFault("a\nb\n"+strings.Repeat("#", 70_000), errors.New("line 9: trouble")).line, "no line beyond the last")
}

// Each text over lines costs a round of the search, of which there are ten.
func TestTheSearchForASlipGoesBehindTenTextsOverLines(t *testing.T) {
	over := `a: "x` + "\n" + strings.Repeat("x\n", 19) + `y"` + "\n" // 21 lines
	for texts, want := range map[int]int{9: 9*21 + 1, 10: 211, 11: 211} {
		for remarks := range 40 { // until no beginning that is tried first ends between two texts
			text := strings.Repeat(over, texts) + "b: @\n" + strings.Repeat("#\n", remarks)
			lines := strings.SplitAfter(text, "\n")
			if between(lines, texts*21) {
				continue
			}
			assert.Equal(t, want, brokenLine(lines), "%d texts", texts)
			break
		}
	}
}

// between tells whether the search by halves comes upon a readable beginning.
func between(lines []string, most int) bool {
	for good := 0; good < most; good += 21 {
		if boundary(lines, good) != good {
			return true
		}
	}
	return false
}

func TestABrokenLineIsDescribedByWhatItLooksLike(t *testing.T) {
	for _, row := range []struct {
		line, complaint string
		column          int
		what            string
	}{
		{"  \ta: 1\n", "unknown anchor", 3, "a tab stands in the indentation"},
		{"   a: *b\n", "unknown anchor 'b' referenced", 4, "an alias stands on this line"},
		{"a: @\n", "found character that cannot start any token", 1, "a value begins with a sign that YAML keeps for itself (@ ` % or a tab)"},
		{"a: 'it's\n", "did not find expected key", 1, "this line does not fit the lines before it"},
		{"a: it's\n", "did not find expected key", 1, "a quote opened on this line is not closed, or text follows it"},
		{"a: 5\"\n", "did not find expected key", 1, "a quote opened on this line is not closed, or text follows it"},
		{"a: \"b\" c\n", "found unexpected end of stream", 1, "a quote opened on this line is not closed, or text follows it"},
		{"a: \"b\" \"c\"\n", "did not find expected key", 1, "this line does not fit the lines before it"},
		{"a: 'b' 'c'\n", "did not find expected key", 1, "this line does not fit the lines before it"},
		{"a: \"b\" \"\n", "did not find expected key", 1, "a quote opened on this line is not closed, or text follows it"},
		{"a: 'b' '\n", "did not find expected key", 1, "a quote opened on this line is not closed, or text follows it"},
		{"a: 'b\n", "did not find expected key", 1, "a quote opened on this line is not closed, or text follows it"},
		{" abc\n", "could not find expected ':'", 2, "a key without a colon"},
		{"a: [1, 2\n", "did not find expected ',' or ']'", 1, "a list or mapping opened on this line with [ or { is not closed, or lacks a comma"},
	} {
		f := describe(row.line, 7, row.complaint)
		assert.Equal(t, [2]int{7, row.column}, [2]int{f.line, f.column}, row.line)
		assert.Equal(t, row.what, f.what, row.line)
	}
}
