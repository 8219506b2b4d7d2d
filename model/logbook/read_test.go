package logbook_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/logbook"
)

// read reads a whole logbook without a study.
func read(t *testing.T, text string) ([]logbook.Entry, []string) {
	t.Helper()
	var entries []logbook.Entry
	problems, err := logbook.Read("log.csv", strings.NewReader(text), nil, func(e logbook.Entry) error { entries = append(entries, e); return nil })
	require.NoError(t, err)
	var told []string
	for _, one := range problems {
		told = append(told, one.Error())
	}
	return entries, told
}

func TestALogbookOfASpreadsheetInAnotherCountryIsRead(t *testing.T) {
	entries, told := read(t, "\ufeffDate;Kind;Subject;Minutes;Amount;Note\r\n2026-11-26;visit;big_shop;85,5;240;\"a \"\"b\"\";c\"\r\n;;;;;\r\n")
	require.Empty(t, told)
	require.Equal(t, []logbook.Entry{{
		Line: 2, Date: "2026-11-26", Kind: logbook.Visit, Subject: "big_shop", Jobs: 1, Minutes: 85.5 * 60, Amount: 240,
		Given: logbook.HasMinutes | logbook.HasAmount, Note: `a "b";c`,
	}}, entries)
}

func TestEachBadLineIsNamedAndTheOthersAreRead(t *testing.T) {
	entries, told := read(t, `date;kind;subject;minutes;amount;note
2026-11-26;visit;big_shop;1,234;240;
2026-11-26;visti;big_shop;85;240;
2026-11-26;visit;big_shop;85;240;"open
2026-11-27;visit;big_shop;85;240;
2026-11-27;visit;b`)
	assert.Equal(t, []string{
		`log.csv:2:27: minutes: "1,234" may be 1234 or 1 and a part; write 1234, or 1,2340 with another decimal`,
		`log.csv:3:12: kind: "visti" is no kind of line; did you mean "visit"?`,
		`log.csv:4:39: a quote is opened and not closed; put the cell in quotes, with each quote in it written twice, and without line breaks`,
		`log.csv:6: the last line has no end: 3 cells where the header has 6; complete it, or take it out`,
	}, told)
	require.Len(t, entries, 1)
	assert.Equal(t, 5, entries[0].Line)
}
