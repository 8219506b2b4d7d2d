package track_test

import (
	"bytes"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/logbook"
)

// many reads as a logbook of so many lines: the demo's, over and over, a day later and
// with fresh labels each time, so that what is read is never held.
type many struct {
	lines [][]byte // without the date
	left  int
	at    int
	day   int
	rest  []byte
}

func newMany(lines int) *many {
	all := bytes.Split(bytes.TrimSpace(demo.Log()), []byte("\n"))
	m := &many{left: lines, rest: append(bytes.Clone(all[0]), '\n')}
	for _, line := range all[1:] {
		m.lines = append(m.lines, line[len("2025-12-01"):])
	}
	return m
}

// Read hands out the lines.
func (m *many) Read(p []byte) (int, error) {
	if len(m.rest) == 0 {
		if m.left == 0 {
			return 0, io.EOF
		}
		m.left--
		// 240 days of each of thirty years, so that days and months stay as many.
		m.rest = append(fmt.Appendf(m.rest[:0], "%d-%02d-%02d%s", 2000+m.day/240%30, 1+m.day/20%12, 1+m.day%20, m.lines[m.at]), '\n')
		if m.at++; m.at == len(m.lines) {
			m.at, m.day = 0, m.day+1
		}
	}
	n := copy(p, m.rest)
	m.rest = m.rest[n:]
	return n, nil
}

// trackedMany tracks so many lines and returns how much memory is held at the end.
func trackedMany(t testing.TB, loaded *model.Study, lines int) (uint64, *track.Result) {
	t.Helper()
	tracker := track.New(loaded)
	problems, err := logbook.Read("log.csv", newMany(lines), loaded, tracker.Add)
	require.NoError(t, err)
	require.Empty(t, problems)
	var memory runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&memory)
	held := memory.HeapAlloc
	r := tracker.Result()
	require.Equal(t, lines, r.Lines)
	return held, r
}

func TestMemoryDoesNotGrowWithTheLines(t *testing.T) {
	loaded := demoStudy(t)
	few, _ := trackedMany(t, loaded, 60_000)
	lots, r := trackedMany(t, loaded, 240_000)
	require.Less(t, lots, few+2<<20, "%d kB for 60,000 lines, %d for four times as many", few>>10, lots>>10)
	for _, w := range r.Wear {
		require.Less(t, len(w.Curve), 20_000)
	}
	t.Logf("%d kB, %d kB", few>>10, lots>>10)
}

// BenchmarkTrack tracks logbooks of several sizes, read from text.
func BenchmarkTrack(b *testing.B) {
	loaded := demoStudy(b)
	for _, lines := range []int{5_000, 1_000_000} {
		b.Run(strings.ReplaceAll(fmt.Sprint(lines), "000000", "M"), func(b *testing.B) {
			for range b.N {
				held, _ := trackedMany(b, loaded, lines)
				b.ReportMetric(float64(held)/(1<<20), "MB-held")
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(lines), "ns/line")
		})
	}
}
