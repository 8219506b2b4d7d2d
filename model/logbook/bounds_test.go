package logbook_test

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/logbook"
	"shopstint/model/study"
)

// long is a logbook of many lines that is never held as a whole.
type long struct {
	lines, next int
	rest        []byte
}

// Read makes lines as they are asked for.
func (l *long) Read(p []byte) (int, error) {
	if len(l.rest) == 0 {
		if l.next > l.lines {
			return 0, io.EOF
		}
		l.rest = logbook.Standard().Header()
		if l.next > 0 {
			l.rest = fmt.Appendf(nil, "2026-%02d-%02d,visit,big_shop,,coffee,,%d,%d.5,%d.25,,,,,line %d of it\n", l.next%12+1, l.next%28+1, l.next%3+1, l.next%300, l.next%900, l.next)
		}
		l.next++
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}

func inUse() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// TestManyLinesTakeNoMoreMemoryThanAThousand measures what is held at the
// thousandth and at the last line; SHOPSTINT_LINES says how many there are.
func TestManyLinesTakeNoMoreMemoryThanAThousand(t *testing.T) {
	lines := 60_000
	if wanted, err := strconv.Atoi(os.Getenv("SHOPSTINT_LINES")); err == nil {
		lines = wanted
	}
	var early, late uint64
	count := 0
	problems, err := logbook.Read("log.csv", &long{lines: lines}, loadDemo(t), func(logbook.Entry) error {
		switch count++; count {
		case 1000:
			early = inUse()
		case lines:
			late = inUse()
		}
		return nil
	})
	require.NoError(t, err)
	require.Empty(t, problems)
	require.Equal(t, lines, count)
	assert.Less(t, int64(late)-int64(early), int64(256<<10), "%d bytes at first, %d at last", early, late)
	t.Logf("%d lines; %d bytes in use at the thousandth, %d at the last", lines, early, late)
}

func loadDemo(t testing.TB) *model.Study {
	t.Helper()
	loaded, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return loaded
}

func TestOfManyProblemsTheRestIsCounted(t *testing.T) {
	_, told := read(t, "date,kind,job\n"+strings.Repeat("2026-11-26,dune,x\n", 130))
	require.Len(t, told, logbook.MostProblems+1)
	assert.Equal(t, "log.csv:131: 30 more problems are not listed; mend these first", told[logbook.MostProblems])
}

func TestALineThatIsTooLongHarmsNoOther(t *testing.T) {
	entries, told := read(t, "date,kind,job,note\n2026-11-26,done,a,"+strings.Repeat("x", 5*logbook.MostLine)+"\n2026-11-26,done,b,\n2026-11-26,done,c,"+strings.Repeat("y", 1001)+"\n")
	assert.Equal(t, []string{
		"log.csv:2: the line is longer than 16384 bytes; shorten its note; a quote that is not closed may be the cause",
		`log.csv:4:19: note: "` + strings.Repeat("y", 40) + `…" is longer than 1000 characters; shorten it`,
	}, told)
	require.Len(t, entries, 1)
	assert.Equal(t, "b", entries[0].Job)
}

// zeros is a file without end, of one line without end.
type zeros struct{}

// Read gives nothing but zeros.
func (zeros) Read(p []byte) (int, error) {
	clear(p)
	return len(p), nil
}

func TestALogbookWithoutEndEndsAtItsBound(t *testing.T) {
	for begin, want := range map[string][]string{
		"":                                   {"log.csv:1: the line is longer than 16384 bytes; it names the columns, such as " + strings.Join(logbook.Columns(), ","), "log.csv:2: the logbook is larger than 1024 MB; begin a new one each year"},
		"date,kind,job\n2026-11-26,done,a\n": {"log.csv:3: the line is longer than 16384 bytes; shorten its note; a quote that is not closed may be the cause", "log.csv:4: the logbook is larger than 1024 MB; begin a new one each year"},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		problems, err := logbook.Read("log.csv", io.MultiReader(strings.NewReader(begin), zeros{}), nil, func(logbook.Entry) error { return nil })
		runtime.ReadMemStats(&after)
		require.NoError(t, err)
		var told []string
		for _, p := range problems {
			told = append(told, p.Error())
		}
		assert.Equal(t, want, told)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4<<20))
	}
}

func TestALogbookIsReadUpToItsLargestSize(t *testing.T) {
	const begin, end = "date,kind,job\n", "\n2026-11-26,done,a"
	for more, want := range map[int64]int{0: 1, 1: 0} {
		long := io.LimitReader(zeros{}, logbook.MostBytes-int64(len(begin)+len(end))+more)
		found := 0
		problems, err := logbook.Read("log.csv", io.MultiReader(strings.NewReader(begin), long, strings.NewReader(end)), nil, func(logbook.Entry) error { found++; return nil })
		require.NoError(t, err)
		assert.Equal(t, want, found, "with %d bytes more than the most", more)
		assert.Len(t, problems, 2-want, "the line of zeros, and the bound where it is passed")
	}
}

func TestAnErrorOfTheFileAndOneOfTheCallerEndTheReading(t *testing.T) {
	stop := fmt.Errorf("enough")
	calls := 0
	_, err := logbook.Read("log.csv", &long{lines: 10}, nil, func(logbook.Entry) error { calls++; return stop })
	require.ErrorIs(t, err, stop)
	assert.Equal(t, 1, calls)
	broken := io.MultiReader(strings.NewReader("date,kind,job\n2026-11-26,done,x\n"), failing{})
	_, err = logbook.Read("log.csv", broken, nil, func(logbook.Entry) error { return nil })
	require.EqualError(t, err, "could not read log.csv: the disk has gone")
}

type failing struct{}

// Read fails.
func (failing) Read([]byte) (int, error) { return 0, fmt.Errorf("the disk has gone") }

func lines(b *testing.B, n int) []byte {
	b.Helper()
	content, err := io.ReadAll(&long{lines: n})
	require.NoError(b, err)
	return content
}

// BenchmarkReadYears reads the 5,000 lines of some ten years, keys checked.
func BenchmarkReadYears(b *testing.B) { benchmarkRead(b, 5000) }

// BenchmarkReadMillion reads a million lines, keys checked.
func BenchmarkReadMillion(b *testing.B) { benchmarkRead(b, 1_000_000) }

func benchmarkRead(b *testing.B, n int) {
	content, loaded := lines(b, n), loadDemo(b)
	b.ReportAllocs()
	b.SetBytes(int64(len(content)))
	for b.Loop() {
		count := 0
		problems, err := logbook.Read("log.csv", bytes.NewReader(content), loaded, func(logbook.Entry) error { count++; return nil })
		if err != nil || len(problems) > 0 || count != n {
			b.Fatal(err, problems, count)
		}
	}
}
