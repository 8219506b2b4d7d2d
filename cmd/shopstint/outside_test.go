package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/cmd/shopstint/keep/failing"
)

// TestNothingOutsideMovesAnAnswerOrAWorkbook runs the program as a process of its
// own in surroundings that differ, and wants the same bytes.
func TestNothingOutsideMovesAnAnswerOrAWorkbook(t *testing.T) {
	one := writing{"decide short.yaml -o answer.xlsx", "answer.xlsx", false}
	folder := t.TempDir()
	one.prepare(t, folder, false)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "settings"), nil, 0o600))
	answer := func(environ ...string) (stdout, workbook string) {
		command := exec.Command("shopstint", one.args(folder)...) // without an input
		command.Env = environ
		var complaints bytes.Buffer
		command.Stderr = &complaints
		out, err := command.Output()
		require.NoError(t, err, "%v: %s", environ, complaints.String())
		assert.Empty(t, complaints.String())
		return string(out), one.content(t, folder)
	}
	stdout, workbook := answer("HOME="+folder, "XDG_CONFIG_HOME="+folder)
	require.Contains(t, stdout, "own planer")
	for _, environ := range [][]string{
		{"HOME=", "LC_ALL=de_DE.UTF-8", "LANG=de_DE.UTF-8", "TZ=Asia/Kathmandu", "TERM=dumb"},
		{"HOME=/nowhere/at/all", "LC_ALL=tr_TR.UTF-8", "TZ=America/St_Johns", "TERM=", "COLUMNS=7"},
		{"XDG_CONFIG_HOME=" + folder + "/settings", "LANG=nonsense", "TZ=Nowhere/Land", "COLUMNS=-1"},
		{"XDG_CONFIG_HOME=relative", "HOME=" + folder, "TZ=", "COLUMNS=many"},
		{"COLUMNS=100000"},
	} {
		told, written := answer(environ...)
		assert.Equal(t, stdout, told, environ)
		assert.True(t, workbook == written, environ)
	}
}

// TestNoAnswerAsksTheClock fails when a command that writes no date of today looks
// at the clock.
func TestNoAnswerAsksTheClock(t *testing.T) {
	folder := t.TempDir()
	for _, command := range []string{
		"decide short.yaml -o answer.xlsx --futures 64", "new begun.yaml", "new form.xlsx", "visits dated.yaml -o visits.ics", "track study.yaml log.csv -o track.xlsx",
		"check short.yaml", "budget top study.yaml", "wear study.yaml", "spend study.yaml --futures 64", "record own.csv --from more.csv",
		"record own.csv done --job coffee --date 2026-11-26", "version",
	} {
		one := writing{command: command, target: "short.yaml"}
		one.prepare(t, folder, false)
		var complaints bytes.Buffer
		status := run(one.args(folder), world{
			stdin: strings.NewReader(""), stdout: &bytes.Buffer{}, stderr: &complaints, disk: failing.New(0),
			now:          func() time.Time { panic(command + " asked for the time") },
			configFolder: func() (string, error) { return "", errors.New("no home") },
		})
		assert.Equal(t, exitDone, status, complaints.String())
	}
}

func TestALineIsDatedByTheClockOnlyWhenThatCanBe(t *testing.T) {
	for _, row := range []struct {
		now  time.Time
		want string // the date, or what is told
	}{
		{time.Date(1970, time.January, 1, 0, 0, 0, 0, time.UTC), "by the clock of this machine today is 1970-01-01; set it right, or give the day with --date"},
		{time.Date(2263, time.May, 1, 0, 0, 0, 0, time.UTC), "by the clock of this machine today is 2263-05-01; set it right, or give the day with --date"},
		{time.Date(12026, time.May, 1, 0, 0, 0, 0, time.UTC), "by the clock of this machine today is 12026-05-01; set it right, or give the day with --date"},
		{time.Date(2026, time.May, 1, 23, 0, 0, 0, time.FixedZone("far west", -12*60*60)), "2026-05-01"},
		{time.Date(2026, time.May, 1, 1, 0, 0, 0, time.FixedZone("far east", 14*60*60)), "2026-05-01"},
		{time.Date(2024, time.February, 29, 12, 0, 0, 0, time.UTC), "2024-02-29"},
	} {
		path := filepath.Join(t.TempDir(), "log.csv")
		var complaints bytes.Buffer
		status := run([]string{"record", path, "done", "--job", "coffee"}, world{
			stdin: strings.NewReader(""), stdout: &bytes.Buffer{}, stderr: &complaints, disk: failing.New(0),
			now: func() time.Time { return row.now }, configFolder: func() (string, error) { return "", errors.New("no home") },
		})
		if status == exitDone {
			assert.Contains(t, page(t, path), "\n"+row.want+",done,,,coffee,")
			continue
		}
		assert.Equal(t, exitBad, status)
		assert.Equal(t, "shopstint: "+row.want+"\n", complaints.String())
		assert.NoFileExists(t, path)
	}
}

func TestATerminalOfAnyWidthIsWrittenTo(t *testing.T) {
	for _, command := range []string{
		"decide --demo --no-workbook", "budget river_dining --demo", "visits --demo", "wear --demo", "spend --demo --futures 0", "track --demo", "check --demo", "help",
	} {
		_, widest, _ := ran(100_000, []string{"NO_COLOR=1"}, strings.Fields(command)...)
		for _, columns := range []int{1, 10} {
			status, stdout, stderr := ran(columns, []string{"NO_COLOR=1"}, strings.Fields(command)...)
			require.Equal(t, exitDone, status, stderr)
			assert.Greater(t, len(lettersOf(stdout)), len(lettersOf(widest))/2, "%s at %d columns", command, columns)
		}
		for line := range strings.Lines(widest) {
			assert.LessOrEqual(t, len([]rune(line)), 120, "a page is not stretched: %s", command)
		}
	}
}

func lettersOf(text string) string { return strings.Join(strings.Fields(text), "") }

// TestWhoStopsReadingEndsTheProgramQuietly has a process write to a pipe whose
// reader has gone.
func TestWhoStopsReadingEndsTheProgramQuietly(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("pipes tell it otherwise there")
	}
	for _, command := range []string{"--help", "--version", "help decide", "version", "wear --demo", "wear --demo --json"} {
		reader, writer, err := os.Pipe()
		require.NoError(t, err)
		require.NoError(t, reader.Close())
		var complaints bytes.Buffer
		process := exec.Command("shopstint", strings.Fields(command)...)
		process.Stdout, process.Stderr = writer, &complaints
		require.Error(t, process.Run(), command)
		assert.Equal(t, -1, process.ProcessState.ExitCode(), "%s ends by the signal for a broken pipe", command)
		assert.Empty(t, complaints.String(), command)
		require.NoError(t, writer.Close())
	}
}

// TestTheHelpThatComesEarlyTellsOfAnOutputThatIsFull is for what is answered before
// the commands are set up.
func TestTheHelpThatComesEarlyTellsOfAnOutputThatIsFull(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("there is no device that is always full: ", err)
	}
	defer full.Close()
	for _, flag := range []string{"--help", "--version"} {
		var complaints bytes.Buffer
		process := exec.Command("shopstint", flag)
		process.Stdout, process.Stderr = full, &complaints
		require.Error(t, process.Run())
		assert.Equal(t, exitFailed, process.ProcessState.ExitCode())
		assert.Equal(t, "shopstint: could not write to standard output: no space left on device\n", complaints.String())
	}
}
