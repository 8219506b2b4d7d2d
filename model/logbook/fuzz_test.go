package logbook_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/logbook"
)

// inUTF16 writes a text as some spreadsheets save it.
func inUTF16(text string, big bool) []byte {
	var out []byte
	for _, unit := range utf16.Encode([]rune("\ufeff" + text)) {
		if big {
			out = append(out, byte(unit>>8), byte(unit))
		} else {
			out = append(out, byte(unit), byte(unit>>8))
		}
	}
	return out
}

// hostile are logbooks that have been, or might be, trouble.
func hostile() [][]byte {
	begun := string(demo.Log()[:3000])
	list := [][]byte{inUTF16(begun, false), inUTF16(begun, true), inUTF16("date;kind;job\r\n2026-11-26;done;x\r\n", false)[:41]}
	for _, text := range []string{
		begun, strings.ReplaceAll(begun, "\n", "\r\n"), strings.ReplaceAll(begun, ",", ";"), strings.ReplaceAll(begun, ",", "\t"),
		"", "\n", "\ufeff", "date", "date,kind", "date,kind\n", "\"date\",\"kind\",\"job\",note\n2026-11-26,done,x,\"a \"\"b\"\", c\"\n",
		"date;kind;subject;minutes;amount\n2026-11-26;visit;s;1.234;1,2340\n2026-11-26;visit;s;1 h 30,5 min;0,125\n",
		"date,kind,subject,amount,note\n2026-11-26,buy,'=1+1,3,'''x\n2026-11-26,buy,=1+1,3,''\n",
		"date,kind,job\n2026-11-26,done,\"open\n2026-11-26,done,x \u2026torn off\n2026-11-26,do",
		"date,kind,job,,\n2026-11-26,done,x,,\n2026-11-26,done,x,,y\n2026-11-26,done,x,,,,,\n",
		"kind,date,job,job\n", "date,kind,jop\n", "date\x00kind", "date,kind,job\n2026-11-26,done,\xff\n2026-11-26,done,a\x01\n2026-11-26,done,a\rb\n",
		"date,kind,subject,length,area,hours\n2026-11-26,use,b,40 ft,30 ft\u00b2,1e-12 h\n2026-11-26,use,b,1 3/4 in,0.1,00000000000000000000.5\n",
		"date,kind,job,jobs\n2026-11-26,done,x,0.1\n2026-11-26,done,x,1e30\n2026-11-26,done,x,1/3\n2026-11-26,done,x,-0\n",
		"date,kind,job\n" + strings.Repeat("x", logbook.MostLine) + "\n2026-11-26,done,x\n" + strings.Repeat("y", 3*logbook.MostLine),
	} {
		list = append(list, []byte(text))
	}
	return list
}

// FuzzAnyLogbookIsReadOrRefused: nothing panics; what is accepted is written
// and reads back the same; every problem has a line of the file. It reads with the
// keys of the demo, as track and record --from do, or without.
func FuzzAnyLogbookIsReadOrRefused(f *testing.F) {
	for _, seed := range hostile() {
		f.Add(seed, false)
		f.Add(seed, true)
	}
	loaded := loadDemo(f)
	f.Fuzz(func(t *testing.T, content []byte, known bool) {
		start := time.Now()
		of := map[bool]*model.Study{true: loaded}[known]
		reader := logbook.NewReader("log.csv", bytes.NewReader(content), of)
		last := 1
		lines := max(1, bytes.Count(content, []byte("\n"))+1)
		var all, fitting []logbook.Entry // fitting have no cell for which the file lacks a column
		problems, err := reader.Each(func(e logbook.Entry) error {
			require.Greater(t, e.Line, last)
			require.LessOrEqual(t, e.Line, lines)
			last = e.Line
			all = append(all, e)
			if line, missing := reader.Layout().Line(&e); len(missing) == 0 {
				require.Equal(t, byte('\n'), line[len(line)-1])
				fitting = append(fitting, e)
			}
			return nil
		})
		again(t, logbook.Standard(), all...)
		if len(fitting) > 0 {
			again(t, reader.Layout(), fitting...)
		}
		require.NoError(t, err)
		require.Less(t, time.Since(start), 5*time.Second)
		require.Equal(t, len(problems) > 0, reader.Bad() > 0)
		for _, one := range problems {
			require.Equal(t, "log.csv", one.Place.File)
			require.True(t, one.Place.Line >= 1 && one.Place.Line <= lines, "%v in %d lines", one, lines)
			require.NotEmpty(t, one.What)
			require.NotEmpty(t, one.Right)
		}
	})
}

// again writes entries and holds them to read back the same.
func again(t require.TestingT, layout logbook.Layout, entries ...logbook.Entry) {
	text := layout.Header()
	want := slices.Clone(entries)
	for i := range want {
		line, problems := layout.Line(&want[i])
		require.Empty(t, problems)
		require.Less(t, len(line), logbook.MostLine)
		text = append(text, line...)
		want[i].Line = i + 2
	}
	var got []logbook.Entry
	problems, err := logbook.Read("again.csv", bytes.NewReader(text), nil, func(e logbook.Entry) error { got = append(got, e); return nil })
	require.NoError(t, err)
	require.Empty(t, problems, "%s", text)
	require.Equal(t, want, got, "%s", text)
}
