package workbook_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/model/demo"
	"shopstint/model/logbook"
	"shopstint/reports"
	"shopstint/reports/workbook"
	"shopstint/reports/workbook/recalc"
)

// trackedBook is the workbook of the demo's logbook, of so many of its lines.
func trackedBook(t *testing.T, lines int) []byte {
	t.Helper()
	study := demoStudy(t)
	tracker := track.New(study)
	log := demo.Log()
	if all := bytes.SplitAfter(log, []byte("\n")); lines < len(all) {
		log = bytes.Join(all[:1+lines], nil)
	}
	problems, err := logbook.Read(demo.LogName, bytes.NewReader(log), study, tracker.Add)
	require.NoError(t, err)
	require.Empty(t, problems)
	told := reports.Track(tracker.Result(), nil, 0, reports.Grouped)
	var out bytes.Buffer
	require.NoError(t, workbook.WriteTrack(&out, &told, time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC)))
	return out.Bytes()
}

func TestActualAgainstStudyIsTheSameBytesEveryTime(t *testing.T) {
	assert.Equal(t, trackedBook(t, 1000), trackedBook(t, 1000))
}

func TestAnEmptyLogbookAndOneOfAFewLinesMakeAWorkbookToo(t *testing.T) {
	for _, lines := range []int{0, 1, 5, 20} {
		assert.NotEmpty(t, trackedBook(t, lines))
	}
}

func TestActualAgainstStudyRecalculatesToItself(t *testing.T) {
	file := kept(t, "track.xlsx", trackedBook(t, 1000))
	cached, formulas := recalc.Cached(t, file)
	office := recalc.LibreOffice(t)
	tally := recalc.Compare(t, cached, formulas, office.Recalculate(t, file)[0], 1e-9)
	assert.Greater(t, tally.Numbers, 150)
	pdf, pages := office.PDF(t, file, t.TempDir())
	assert.LessOrEqual(t, pages, 12)
	assert.NotContains(t, recalc.Text(t, pdf), "###", "a column is too narrow")
	assert.True(t, strings.Contains(recalc.Text(t, pdf), "How long it lasted"))
}
