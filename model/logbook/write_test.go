package logbook_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/logbook"
)

// layouts are ways in which a logbook may be written.
func layouts(t require.TestingT) []logbook.Layout {
	list := []logbook.Layout{logbook.Standard()}
	for _, header := range []string{
		strings.Join(logbook.Columns(), ";") + "\r\n", strings.Join(logbook.Columns(), "\t") + "\n",
		"\ufeffnote;reason;;hours;area;length;amount;minutes;jobs;operation;job;item;subject;kind;date;\r\n",
	} {
		layout, problems := logbook.LayoutOf("log.csv", []byte(header))
		require.Empty(t, problems)
		list = append(list, layout)
	}
	return list
}

// columnsOf are the columns that a kind may have beside date, kind and note.
var columnsOf = map[logbook.Kind][]string{
	logbook.Visit: {"subject", "job", "jobs", "minutes", "amount"}, logbook.Work: {"subject", "job", "operation", "jobs", "minutes", "length", "area"},
	logbook.Use: {"subject", "item", "length", "area", "hours"}, logbook.Sharpen: {"subject", "item", "amount", "length", "area", "hours", "reason"},
	logbook.Replace: {"subject", "item", "amount", "length", "area", "hours", "reason"}, logbook.Buy: {"subject", "item", "jobs", "amount"},
	logbook.Done: {"job", "jobs"}, logbook.Rework: {"job", "operation", "jobs", "minutes"},
}

func TestWhatIsComposedIsWrittenAndReadsBackTheSame(t *testing.T) {
	word := rapid.OneOf(rapid.StringMatching(`[-=+@'"; ,a-z0-9/]{1,12}`), rapid.StringOfN(rapid.Rune(), 1, 20, -1))
	number := rapid.StringMatching(`[1-9][0-9]{0,3}(\.[0-9]{1,5})?`)
	units := map[string]string{"minutes": " h", "hours": " min", "length": " ft", "area": " ft2"}
	composed := 0
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(logbook.Kinds).Draw(t, "kind")
		texts := map[string]string{"date": "2026-11-26", "kind": string(kind), "note": word.Draw(t, "note")}
		for _, name := range columnsOf[kind] {
			switch name {
			case "reason":
				texts[name] = rapid.SampledFrom([]string{"dull", "damage"}).Draw(t, name)
			case "jobs", "minutes", "amount", "length", "area", "hours":
				texts[name] = number.Draw(t, name)
				if rapid.Bool().Draw(t, "unit") {
					texts[name] += units[name]
				}
			default:
				texts[name] = word.Draw(t, name)
			}
		}
		e, problems := logbook.Compose(texts, nil)
		if len(problems) > 0 {
			return // a word of spaces, or one with a control sign
		}
		composed++
		for _, layout := range layouts(t) {
			again(t, layout, e)
		}
	})
	assert.Greater(t, composed, 30)
}

func TestATextThatLooksLikeAFormulaGetsAnApostrophe(t *testing.T) {
	for _, row := range []struct{ text, written string }{
		{"=1+1", "'=1+1"}, {"+5", "'+5"}, {"-x", "'-x"}, {"@name", "'@name"},
		{"'=1+1", "''=1+1"}, {"''", "'''"}, {"'tis", "'tis"}, {"'", "'"}, {"a=b", "a=b"},
	} {
		e, problems := logbook.Compose(map[string]string{"date": "2026-11-26", "kind": "buy", "subject": row.text, "amount": "3"}, nil)
		require.Empty(t, problems)
		line, problems := logbook.Standard().Line(&e)
		require.Empty(t, problems)
		assert.Equal(t, "2026-11-26,buy,"+row.written+",,,,,,3,,,,,\n", string(line))
		again(t, logbook.Standard(), e)
	}
}

func TestATimeThatIsNoDecimalOfItsUnitIsWrittenInAnother(t *testing.T) {
	for text, want := range map[string]string{"2020 min": "2020 min", "90 min": "1.5", "40": "40"} {
		e, problems := logbook.Compose(map[string]string{"date": "2026-11-26", "kind": "use", "subject": "b", "hours": text}, nil)
		require.Empty(t, problems)
		line, problems := logbook.Standard().Line(&e)
		require.Empty(t, problems)
		assert.Equal(t, "2026-11-26,use,b,,,,,,,,,"+want+",,\n", string(line))
		for _, layout := range layouts(t) {
			again(t, layout, e)
		}
	}
}

func TestALogbookWithoutTheColumnIsToldSo(t *testing.T) {
	layout, problems := logbook.LayoutOf("log.csv", []byte("date,kind,job\n"))
	require.Empty(t, problems)
	e, problems := logbook.Compose(map[string]string{"date": "2026-11-26", "kind": "done", "job": "coffee", "note": "x"}, nil)
	require.Empty(t, problems)
	_, problems = layout.Line(&e)
	require.EqualError(t, problems.Err(), "the logbook has no column note; add it to the first line")
}

func TestALineWithoutAnEndIsEndedAsItDeserves(t *testing.T) {
	unix, windows := logbook.Standard(), layouts(t)[1]
	for _, row := range []struct {
		layout     logbook.Layout
		tail, want string
		torn       bool
	}{
		{unix, "", "", false},
		{unix, "2026-11-26,done,,,coffee,,,,,,,,,", "\n", false},
		{windows, "2026-11-26;done;;;coffee;;;;;;;;;", "\r\n", false},
		{windows, "2026-11-26;done;;;coffee;;;;;;;;;\r", "\n", false},
		{unix, "2026-11-26,done,,,cof", logbook.TornMark + "\n", true},
		{unix, `2026-11-26,done,,,coffee,,,,,,,,,"half a no`, logbook.TornMark + "\n", true},
		{windows, "2", logbook.TornMark + "\r\n", true},
	} {
		ending, torn := row.layout.Ending([]byte(row.tail))
		assert.Equal(t, row.want, string(ending), row.tail)
		assert.Equal(t, row.torn, torn, row.tail)
	}
}

// TestNoLineThatWasTornIsTakenForAWholeOne cuts a line everywhere, ends it, and
// adds another: the torn one is refused or says what the whole one said.
func TestNoLineThatWasTornIsTakenForAWholeOne(t *testing.T) {
	const line = `2026-11-26,visit,big_shop,,coffee,,3,85,240.5,,,,,"late, ""rain"" and snow"`
	layout := logbook.Standard()
	whole, told := read(t, string(layout.Header())+line+"\n")
	require.Empty(t, told)
	for cut := 1; cut < len(line); cut++ {
		ending, _ := layout.Ending([]byte(line[:cut]))
		entries, told := read(t, string(layout.Header())+line[:cut]+string(ending)+line+"\n")
		require.Equal(t, whole[0].Note, entries[len(entries)-1].Note, line[:cut])
		if len(told) == 0 {
			require.Len(t, entries, 2, line[:cut])
			entries[0].Note = whole[0].Note // a note is the last cell, and may be shorter
			require.Equal(t, whole[0], entries[0], line[:cut])
		}
	}
}

func TestLinesCanBeAddedToNoLogbookInUTF16(t *testing.T) {
	_, problems := logbook.LayoutOf("log.csv", inUTF16("date,kind\n", false))
	require.EqualError(t, problems.Err(), `log.csv: the logbook is UTF-16, to which no line can be added; save it as "CSV UTF-8" once`)
}
