package main

import (
	"bytes"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/spf13/afero"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/demo"
	"shopstint/model/logbook"
)

func TestALineIsDatedTodayWhenItDoesNotSay(t *testing.T) {
	t.Chdir(t.TempDir())
	status, _, stderr := ran(0, nil, "record", "log.csv", "done", "--job", "coffee", "--demo")
	require.Equal(t, exitDone, status, stderr)
	assert.Contains(t, page(t, "log.csv"), "\n"+theDay().Format("2006-01-02")+",done,,,coffee,")
}

func TestTodayIsTheDayByTheClockOnTheWall(t *testing.T) {
	t.Chdir(t.TempDir())
	for zone, want := range map[int]string{14: "2026-11-27", 0: "2026-11-26", -4: "2026-11-26"} {
		now := func() time.Time { return theDay().In(time.FixedZone("", zone*60*60)) } // half past eleven at night in UTC
		var complaints bytes.Buffer
		status := run([]string{"record", "log.csv", "done", "--job", "coffee"}, world{stdin: strings.NewReader(""), stdout: io.Discard, stderr: &complaints, now: now, disk: afero.NewOsFs(),
			configFolder: func() (string, error) { return t.TempDir(), nil }})
		require.Equal(t, exitDone, status, complaints.String())
		assert.Equal(t, want, page(t, "log.csv")[strings.LastIndex(strings.TrimSpace(page(t, "log.csv")), "\n")+1:][:len(want)])
		require.NoError(t, os.Remove("log.csv"))
	}
}

func TestTheHelpOfRecordNamesEveryKind(t *testing.T) {
	for _, kind := range logbook.Kinds {
		assert.Contains(t, recordHelp, "\n  "+string(kind)+" ")
	}
}

func TestTheDemosLogbookIsAddedOnceAndWhatIsThereIsNamed(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("demo-log.csv", demo.Log(), 0o600))
	status, stdout, stderr := ran(0, nil, "record", "log.csv", "--from", "demo-log.csv", "--demo")
	require.Equal(t, exitDone, status, stderr)
	assert.Contains(t, stdout, "Wrote into log.csv: 385 lines of demo-log.csv")
	assert.Equal(t, string(demo.Log()), page(t, "log.csv"))

	status, _, stderr = ran(0, nil, "record", "log.csv", "--from", "demo-log.csv", "--demo")
	require.Equal(t, exitBad, status)
	told := strings.Split(strings.TrimSuffix(stderr, "\n"), "\n")
	require.Len(t, told, mostDoubles+2)
	assert.Equal(t, "demo-log.csv:2: the same line is in log.csv already; leave it out, or write it once more with --again", told[0])
	assert.Equal(t, "demo-log.csv:386: this and 374 more lines before it are in log.csv too; leave it out, or write it once more with --again", told[mostDoubles])
	assert.Equal(t, string(demo.Log()), page(t, "log.csv"))
}

func TestALogbookWithBadLinesIsStillRecordedInto(t *testing.T) {
	t.Chdir(t.TempDir())
	const begun = "date,kind,job\nyesterday,done,coffee\n2026-11-25,done,coffee\n"
	require.NoError(t, os.WriteFile("log.csv", []byte(begun), 0o600))
	require.NoError(t, os.WriteFile("more.csv", []byte("kind;date;job\ndone;2026-11-26;coffee\n"), 0o600))
	status, _, stderr := ran(0, nil, "record", "log.csv", "--from", "more.csv")
	require.Equal(t, exitDone, status, stderr)
	assert.Equal(t, begun+"2026-11-26,done,coffee\n", page(t, "log.csv"))
}
