package logbook_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/logbook"
	"shopstint/model/quantity"
)

// lineProblems are what is wrong with lines under the standard header, with the
// demo study.
func lineProblems(t *testing.T, lines ...string) []string {
	t.Helper()
	text := string(logbook.Standard().Header()) + strings.Join(lines, "\n") + "\n"
	problems, err := logbook.Read("l", strings.NewReader(text), loadDemo(t), func(logbook.Entry) error { return nil })
	require.NoError(t, err)
	var told []string
	for _, one := range problems {
		told = append(told, one.Error())
	}
	return told
}

func TestEachKindSaysWhatItNeedsAndWhatItCannotHave(t *testing.T) {
	for _, row := range []struct{ line, want string }{
		{"2026-11-26,visit,,,,,,85,,,,,,", "l:2:18: subject: a visit line needs the shop; write its key"},
		{"2026-11-26,visit,big_shop,,,,,,,,,,,", "l:2:31: minutes: a visit line needs minutes or amount; write one of them"},
		{"2026-11-26,visit,big_shop,,,,,85,,4,,,,", `l:2:35: length: "4" stands where a visit line has nothing; leave it out, or put it into the note`},
		{"2026-11-26,work,sander43,,coffee,,,5,,,,,,", "l:2:34: operation: a work line needs its operation; write the key of the operation, one grit of it as sand/80"},
		{"2026-11-26,work,sander43,,,sand,,5,,,,,,", "l:2:27: job: a work line needs its job type; write its key; only the operation setup goes without"},
		{"2026-11-26,work,sander43,,,setup,,5,,,,,,", ""},
		{"2026-11-26,work,sander43,,coffee,sand,,,,,,,,", "l:2:40: minutes: a work line needs its minutes; write minutes, such as 85, or 1 h 25 min"},
		{"2026-11-26,use,small_blade,2,,,,,,,,,,", "l:2:35: length: a use line needs length, area or hours; write one of them"},
		{"2026-11-26,sharpen,belt80,1,,,,,9,,,,dull,", `l:2:20: subject: "belt80" is not an edge of the study; one of knives20, knives24, small_blade, rail_blade, panel_blade, flush_bit, spiral_bit, straight_bit, sled_inserts, assumed_planer_edge, assumed_panel_saw_edge`},
		{"2026-11-26,sharpen,flush_bit,1,,,,,9,,,,lost,", `l:2:41: reason: "lost" is no reason for a sharpen line; one of dull, damage`},
		{"2026-11-26,replace,belt80,1,,,,,,,,,,", "l:2:37: reason: a replace line needs its reason; write one of dull, damage, spent, lost"},
		{"2026-11-26,replace,belt80,1,,,,,,,,,lost,", ""},
		{"2026-11-26,buy,a broom,,,,,,,,,,,", "l:2:29: amount: a buy line needs its amount; write what was paid, such as 240; 0 for a gift"},
		{"2026-11-26,buy,a broom,,,,,,0,,,,,", ""},
		{"2026-11-26,done,,,cofee,,,,,,,,,", `l:2:19: job: "cofee" is not a job type of the study; did you mean "coffee"?`},
		{"2026-11-26,done,,,,,,,,,,,,", "l:2:19: job: a done line needs its job type; write the key of the job type"},
		{"2026-11-26,rework,,,coffee,ease/80,,,,,,,,", `l:2:28: operation: "ease/80" is not an operation of coffee; one of plane, sand, sand/80, sand/120, sand/150, trim, ease, finish, finish/180, finish/220`},
		{"2026-11-26,rework,,,coffee,setup,,,,,,,,", `l:2:28: operation: "setup" is not an operation of coffee; one of plane, sand, sand/80, sand/120, sand/150, trim, ease, finish, finish/180, finish/220`},
		{"26.11.2026,done,,,coffee,,,,,,,,,", `l:2:1: date: "26.11.2026" is no date; write year-month-day, such as 2027-03-14; in other orders day and month may be mistaken`},
		{",done,,,coffee,,,,,,,,,", "l:2:1: date: a line needs its date; write year, month and day, such as 2027-03-14"},
		{"2026-11-26,,,,coffee,,,,,,,,,", "l:2:12: kind: a line needs its kind; one of visit, work, use, sharpen, replace, buy, done, rework"},
		{"2026-11-26,done,,,coffee,,0,,,,,,,", `l:2:27: jobs: "0" is no job at all; leave it out for one job`},
		{"2026-11-26,visit,big_shop,,,,,85,240 EUR,,,,,", `l:2:34: amount: "240 EUR" is not in the money of the study; give the amount in USD`},
		{"2026-11-26,visit,big_shop,,,,,9999999,,,,,,", `l:2:31: minutes: "9999999" is too much to be meant; give at most 1000000`},
		{`2026-11-26,done,,,coffee,,,,,,,,,5" slab`, `l:2:35: a quote stands within a cell; put the cell in quotes, with each quote in it written twice, and without line breaks`},
		{"2026-11-26,done,,,coffee,,,,,,,,,x,y", `l:2:36: "y" stands in no column; the header has no name for it; put cells with a comma in quotes`},
		{"2026-11-26,done,,,coffee", ""},
	} {
		told := lineProblems(t, row.line)
		if row.want == "" {
			assert.Empty(t, told, row.line)
			continue
		}
		assert.Equal(t, []string{row.want}, told, row.line)
	}
}

func TestAllThatIsWrongWithALineIsTold(t *testing.T) {
	assert.Equal(t, []string{
		`l:2:1: date: "2026-02-30" is no day of the calendar; look the month up; write it as 2027-03-14`,
		`l:2:18: subject: "bigshop" is not a shop of the study; did you mean "big_shop"?`,
		`l:2:30: minutes: "85 mm" is a length; a duration is needed, such as 90 min`,
	}, lineProblems(t, "2026-02-30,visit,bigshop,,,,,85 mm,,,,,,"))
}

func TestTheFirstLineIsHeldToTheColumns(t *testing.T) {
	titles := strings.Join(logbook.Columns(), ",")
	for _, row := range []struct{ header, want string }{
		{"", "log.csv:1: the logbook is empty; its first line names the columns, such as " + titles},
		{"\n", "log.csv:1: the first line is empty; it names the columns, such as " + titles},
		{"a,b\n", "log.csv:1: the first line is not that of a logbook; it names the columns, such as " + titles},
		{"date,kind,jop\n", `log.csv:1: "jop" is no column of a logbook; did you mean "job"?`},
		{"date,kind,job,Job\n", "log.csv:1: the columns 3 and 4 are both job; take one of them out"},
		{"date,job\n", "log.csv:1: there is no column kind; the first line names the columns, such as " + titles},
		{"date,\"kind\n", "log.csv:1: the first line cannot be read: a quote is opened and not closed; it names the columns, such as " + titles},
	} {
		_, told := read(t, row.header+"2026-11-26,done,x\n"[:min(18, 18*len(row.header))])
		assert.Equal(t, []string{row.want}, told, row.header)
	}
}

func TestFilesThatAreNoTextSayHowToSaveThem(t *testing.T) {
	for _, row := range []struct{ text, want string }{
		{"date,kind,job,note\n2026-11-26,done,x,Fr\xe4se\n", `log.csv:2:21: a letter is not written as UTF-8; save the file as "CSV UTF-8"`},
		{"d\x00a\x00t\x00e\x00", `log.csv:1:2: the line is no text; save the file as "CSV UTF-8"`},
		{"date,kind,job\r2026-11-26,done,x\r", "log.csv:1:14: a line break stands within the line; save the file as CSV with the line breaks of Windows or Unix, and cells without any"},
		{"date,kind,job\n2026-11-26,done,\x1b[31m\n", "log.csv:2:17: a control sign stands in the line; take it out"},
		{"date,kind,job\n\x1b2026-11-26,done,a\n", "log.csv:2:1: a control sign stands in the line; take it out"},
	} {
		_, told := read(t, row.text)
		assert.Equal(t, []string{row.want}, told, row.text)
	}
}

func TestUTF16ReadsAsUTF8Does(t *testing.T) {
	const text = "date\tkind\tsubject\tamount\tnote\r\n2026-11-26\tbuy\tFräse\t38,5\t–\r\n"
	plain, told := read(t, text)
	require.Empty(t, told)
	require.Len(t, plain, 1)
	assert.Equal(t, quantity.Money(38.5), plain[0].Amount)
	for _, big := range []bool{false, true} {
		wide, told := read(t, string(inUTF16(text, big)))
		require.Empty(t, told)
		assert.Equal(t, plain, wide)
	}
}

func TestNumbersAreReadOrRefusedAndNeverGuessed(t *testing.T) {
	for _, row := range []struct {
		separator, text string
		want            float64 // in minutes, -1 for none
	}{
		{",", "85", 85}, {",", "85.5", 85.5}, {",", `"85,5"`, -1}, {",", "1.234", 1.234}, {",", `"1,234"`, -1}, {",", "1 h 30 min", 90},
		{";", "85,5", 85.5}, {";", "85.5", 85.5}, {";", "1,234", -1}, {";", "1.234", -1}, {";", "0,125", 0.125}, {";", ",5", 0.5}, {";", "1,2340", 1.234},
		{";", "1234,567", 1234.567}, {";", "1.234,5", -1}, {";", "1,234.5", -1}, {";", "1,5 h", 90}, {";", "1 234", -1}, {"\t", "85,5", 85.5},
		{"\t", "12.345", -1}, {",", "1e2", 100}, {",", "85m", -1}, {",", "", -1}, {",", ".5", 0.5}, {",", "5.", -1}, {",", "Inf", -1}, {",", "NaN", -1}, {",", "0x10", -1},
	} {
		titles := strings.Join([]string{"date", "kind", "subject", "minutes"}, row.separator)
		entries, told := read(t, titles+"\n"+strings.Join([]string{"2026-11-26", "visit", "s", row.text}, row.separator)+"\n")
		if row.want < 0 {
			assert.Len(t, told, 1, row.text)
			continue
		}
		require.Empty(t, told, row.text)
		assert.InDelta(t, row.want*60, float64(entries[0].Minutes), 1e-9, row.text)
	}
}

func TestALifeMayBeWrittenInAnyUnitOfLength(t *testing.T) {
	for text, want := range map[string]float64{"40": 40, "40 ft": 12.192, "1.2 km": 1200, "8 ft 6 in": 2.5908} {
		e, problems := logbook.Compose(map[string]string{"date": "2026-11-26", "kind": "use", "subject": "b", "length": text}, nil)
		require.Empty(t, problems, text)
		assert.InDelta(t, want, float64(e.Length), 1e-9, text)
	}
}

func TestANameThatIsNoColumnIsAProblem(t *testing.T) {
	_, problems := logbook.Compose(map[string]string{"date": "2026-11-26", "kind": "done", "job": "x", "colour": "red"}, nil)
	require.EqualError(t, problems.Err(), "there is no such column; one of "+strings.Join(logbook.Columns(), ", "))
}

func TestTheLayoutSaysHowTheFileIsWritten(t *testing.T) {
	for header, want := range map[string]string{
		"date,kind\n": "commas between columns, decimals with a point",
		"date;kind\n": "semicolons between columns, decimals with a comma or a point",
	} {
		reader := logbook.NewReader("log.csv", bytes.NewReader([]byte(header)), nil)
		_, err := reader.Each(func(logbook.Entry) error { return nil })
		require.NoError(t, err)
		assert.Equal(t, want, reader.Layout().String())
	}
}
