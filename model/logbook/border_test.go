package logbook_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/logbook"
)

func TestAnEntryIsToldInOneLine(t *testing.T) {
	header := string(logbook.Standard().Header())
	for line, want := range map[string]string{
		"2026-11-26,work,sander43,,coffee,sand,,85,,,,,,slow": "2026-11-26 work sander43, job coffee, operation sand, minutes 85, note slow",
		"2026-11-26,done,,,coffee,,3,,,,,,,":                  "2026-11-26 done, job coffee, jobs 3",
		"2026-11-26,replace,belt80,old,,,,,9,,,,lost,":        "2026-11-26 replace belt80, item old, amount 9, reason lost",
	} {
		var told []string
		problems, err := logbook.Read("l", strings.NewReader(header+line+"\n"), loadDemo(t), func(e logbook.Entry) error {
			told = append(told, e.String())
			return nil
		})
		require.NoError(t, err)
		require.Empty(t, problems, line)
		assert.Equal(t, []string{want}, told)
	}
}

func TestTheFirstLineSaysHowLinesEnd(t *testing.T) {
	for ending, windows := range map[string]bool{"\n": false, "\r\n": true} {
		header := strings.TrimSpace(string(logbook.Standard().Header())) + ending
		reader := logbook.NewReader("l", strings.NewReader(header), loadDemo(t))
		problems, err := reader.Each(func(logbook.Entry) error { return nil })
		require.NoError(t, err)
		require.Empty(t, problems)
		assert.Equal(t, windows, reader.Layout().Windows)
	}
	_, problems := logbook.LayoutOf("l", []byte("\x00"))
	require.Len(t, problems, 1)
	assert.Equal(t, "l:1:1: the line is no text", problems[0].Place.String()+": "+problems[0].What)
}

// Where cells are parted by semicolons, a spreadsheet program takes a comma for the
// point of a decimal.
func TestADecimalHasTheSignOfItsFile(t *testing.T) {
	list := layouts(t)
	for i, want := range []string{"85.5", "85,5", "85.5"} { // commas, semicolons, tabs
		line, problems := list[i].Line(&logbook.Entry{Date: "2026-11-26", Kind: logbook.Buy, Subject: "a broom", Amount: 85.5, Given: logbook.HasAmount})
		require.Empty(t, problems)
		assert.Contains(t, string(line), want)
	}
}

func TestTheNumbersOfALineAreReadInTheirUnits(t *testing.T) {
	line := "2026-11-26,work,sander43,,coffee,sand,3,85,,12,4,,,"
	problems, err := logbook.Read("l", strings.NewReader(string(logbook.Standard().Header())+line+"\n"), loadDemo(t), func(e logbook.Entry) error {
		assert.InDelta(t, 3, e.Jobs, 0)
		assert.InDelta(t, 85*60, float64(e.Minutes), 0)
		return nil
	})
	require.NoError(t, err)
	require.Empty(t, problems)
}

func TestEveryMeasureIsReadInSI(t *testing.T) {
	for _, row := range []struct {
		title, text string
		of          func(logbook.Entry) float64
		want        float64
	}{
		{"minutes", "3", func(e logbook.Entry) float64 { return float64(e.Minutes) }, 180},
		{"amount", "3", func(e logbook.Entry) float64 { return float64(e.Amount) }, 3},
		{"length", "3", func(e logbook.Entry) float64 { return float64(e.Length) }, 3},
		{"area", "3", func(e logbook.Entry) float64 { return float64(e.Area) }, 3},
		{"hours", "3", func(e logbook.Entry) float64 { return float64(e.Hours) }, 10800},
	} {
		kind := "use"
		if row.title == "amount" {
			kind = "buy"
		} else if row.title == "minutes" {
			kind = "visit"
		}
		entries, told := read(t, "date,kind,subject,"+row.title+"\n2026-11-26,"+kind+",s,"+row.text+"\n")
		require.Empty(t, told, row.title)
		require.Len(t, entries, 1, row.title)
		assert.InDelta(t, row.want, row.of(entries[0]), 0, row.title)
	}
}

func TestTheFirstLineIsReadUpToItsLongestLength(t *testing.T) {
	for more, want := range map[int]string{0: "is no column of a logbook", 1: "the first line is not that of a logbook"} {
		for _, ending := range []string{"", "\n", "\r\n"} {
			header := "date,kind," + strings.Repeat("x", logbook.MostLine-len("date,kind,")+more)
			_, problems := logbook.LayoutOf("l", []byte("\ufeff"+header+ending))
			require.Len(t, problems, 1)
			assert.Contains(t, problems[0].What, want, "%d more, %q", more, ending)
		}
	}
}

// Letters are counted, not bytes.
func TestWordsHaveAHundredLettersAndNotesAThousand(t *testing.T) {
	for _, row := range []struct {
		word, note int
		want       string
	}{
		{100, 1000, ""},
		{101, 1000, " is longer than 100 characters; shorten it"},
		{100, 1001, " is longer than 1000 characters; shorten it"},
	} {
		told := lineProblems(t, "2026-11-26,buy,"+strings.Repeat("ü", row.word)+",,,,,,9,,,,,"+strings.Repeat("ü", row.note))
		if row.want == "" {
			assert.Empty(t, told)
			continue
		}
		require.Len(t, told, 1)
		assert.True(t, strings.HasSuffix(told[0], row.want), told[0])
	}
}

func TestANumberIsTakenUpToTheMostThatCanBeMeant(t *testing.T) {
	for _, row := range []struct{ most, over, want string }{
		{"2026-11-26,done,,,coffee,,10000,,,,,,,", "2026-11-26,done,,,coffee,,10001,,,,,,,", `l:2:27: jobs: "10001" is too much to be meant; give at most 10000`},
		{"2026-11-26,work,sander43,,coffee,sand,,1000000,,,,,,", "2026-11-26,work,sander43,,coffee,sand,,1000001,,,,,,", `l:2:40: minutes: "1000001" is too much to be meant; give at most 1000000`},
		{"2026-11-26,buy,a broom,,,,,,100000000,,,,,", "2026-11-26,buy,a broom,,,,,,100000001,,,,,", `l:2:29: amount: "100000001" is too much to be meant; give at most 100000000`},
		{"2026-11-26,use,small_blade,2,,,,,,1000000000,,,,", "2026-11-26,use,small_blade,2,,,,,,1000000001,,,,", `l:2:35: length: "1000000001" is too much to be meant; give at most 1000000000`},
		{"2026-11-26,use,belt80,2,,,,,,,1000000,,,", "2026-11-26,use,belt80,2,,,,,,,1000001,,,", `l:2:31: area: "1000001" is too much to be meant; give at most 1000000`},
		{"2026-11-26,use,small_blade,2,,,,,,,,200000,,", "2026-11-26,use,small_blade,2,,,,,,,,200001,,", `l:2:37: hours: "200001" is too much to be meant; give at most 200000`},
		{"2026-11-26,buy,a broom,,,,,,0,,,,,", "2026-11-26,buy,a broom,,,,,,-0.01,,,,,", `l:2:29: amount: "-0.01" is negative; leave the minus out`},
	} {
		assert.Empty(t, lineProblems(t, row.most))
		assert.Equal(t, []string{row.want}, lineProblems(t, row.over))
	}
}

func TestThreeDigitsBehindAtMostThreeMayBeThousands(t *testing.T) {
	for text, want := range map[string]string{
		"1234,567": "", "0,567": "", "12,3456": "", "12,34": "",
		"1,234":   `"1,234" may be 1234 or 1 and a part; write 1234, or 1,2340 with another decimal`,
		"123,456": `"123,456" may be 123456 or 123 and a part; write 123456, or 123,4560 with another decimal`,
		"9.000":   `"9.000" may be 9000 or 9 and a part; write 9000, or 9.0000 with another decimal`,
		"1,2,3":   `"1,2,3" has more than one comma or point; write one in front of the decimals, and nothing between thousands`,
	} {
		_, told := read(t, "date;kind;subject;amount\n2026-11-26;buy;broom;"+text+"\n")
		if want == "" {
			assert.Empty(t, told, text)
			continue
		}
		require.Len(t, told, 1, text)
		assert.Contains(t, told[0], want)
	}
}

// Lines are added with the line breaks that the first line has.
func TestLinesAreAddedWithTheLineBreaksOfTheFirst(t *testing.T) {
	header := strings.TrimRight(string(logbook.Standard().Header()), "\r\n")
	for end, windows := range map[string]bool{"\n": false, "\r\n": true} {
		layout, problems := logbook.LayoutOf("log.csv", []byte(header+end))
		require.Empty(t, problems)
		assert.Equal(t, windows, layout.Windows, "%q", end)
	}
}
