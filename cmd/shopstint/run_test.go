package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/spf13/afero"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/defaults"
	"shopstint/model/demo"
)

// ran runs one command line in a made-up world.
func ran(columns int, environ []string, args ...string) (status int, stdout, stderr string) {
	var out, complaints bytes.Buffer
	status = run(args, world{
		stdin: strings.NewReader(""), stdout: &out, stderr: &complaints, environ: environ, columns: columns, now: theDay, disk: afero.NewOsFs(),
		configFolder: func() (string, error) { return "", errors.New("no home") },
	})
	return status, out.String(), complaints.String()
}

// theDay is the day on which runs of tests fall.
func theDay() time.Time { return time.Date(2026, time.November, 26, 23, 30, 0, 0, time.UTC) }

func TestColourIsForTerminalsThatWantIt(t *testing.T) {
	for _, row := range []struct {
		name    string
		columns int
		environ []string
		flag    string
		want    bool
	}{
		{"a terminal", 80, nil, "auto", true},
		{"a pipe", 0, nil, "auto", false},
		{"a terminal with NO_COLOR", 80, []string{"NO_COLOR=1"}, "auto", false},
		{"an empty NO_COLOR is none", 80, []string{"NO_COLOR="}, "auto", true},
		{"a dumb terminal", 80, []string{"TERM=dumb"}, "auto", false},
		{"a terminal told never", 80, nil, "never", false},
		{"a pipe told always", 0, nil, "always", true},
	} {
		status, stdout, stderr := ran(row.columns, row.environ, "decide", "--demo", "--no-workbook", "--colour", row.flag)
		require.Equal(t, exitDone, status, stderr)
		assert.Equal(t, row.want, strings.Contains(stdout, "\x1b["), row.name)
	}
}

func TestTheAnswerFitsANarrowTerminal(t *testing.T) {
	status, stdout, stderr := ran(60, []string{"NO_COLOR=1"}, "decide", "--demo", "--no-workbook")
	require.Equal(t, exitDone, status, stderr)
	for line := range strings.Lines(stdout) {
		assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 60)
	}
}

func TestANameCannotCommandTheTerminal(t *testing.T) {
	status, stdout, stderr := ran(80, nil, "decide", "no\x1b[31m\nsuch.yaml")
	assert.Equal(t, exitBad, status)
	assert.Empty(t, stdout)
	assert.NotContains(t, stderr, "\x1b")
	assert.Equal(t, 1, strings.Count(stderr, "\n"))
}

func TestOfAVariableGivenTwiceTheLastCounts(t *testing.T) {
	status, _, stderr := ran(0, []string{"SHOPSTINT_UNITS=cubits", "SHOPSTINT_UNITS=inch"}, "check", "--demo")
	assert.Equal(t, exitDone, status, stderr)
}

func TestEverySettingHasItsFlagAndItsVariable(t *testing.T) {
	decide := newDecide(&session{})
	for _, one := range catalogue() {
		assert.NotNil(t, decide.Flags().Lookup(one.flag()), one.key)
		assert.Contains(t, decideHelp, one.key)
		assert.Equal(t, variablePrefix+strings.ToUpper(one.key), one.variable())
	}
}

func TestRatesReplaceOnlyWhatTheStudyDoesNotSay(t *testing.T) {
	rate := 0.15
	told := settings{discountRate: &rate}
	for _, given := range []bool{false, true} {
		study := &model.Study{Origins: map[string]model.Origin{}}
		study.Studio.DiscountRate = 0.08
		defaults.Fill(study, func(path string) bool { return given && path == pathDiscountRate })
		told.apply(study)
		if given {
			assert.InDelta(t, 0.08, float64(study.Studio.DiscountRate), 0)
			continue
		}
		assert.InDelta(t, rate, float64(study.Studio.DiscountRate), 0)
		origin := study.Origins[pathDiscountRate]
		assert.True(t, origin.Assumed)
		assert.Equal(t, "settings", origin.Source)
		assert.True(t, !origin.HasRange || origin.Low <= rate && rate <= origin.High)
	}
}

func TestSettingsKeepTheLimitsOfTheStudysOwnInputs(t *testing.T) {
	for _, row := range []struct {
		text, path string
		ok         bool
	}{
		{"60 %", pathDiscountRate, true}, {"0", pathDiscountRate, true}, {"60.1 %", pathDiscountRate, false},
		{"-1 %", pathDiscountRate, false}, {"eight", pathDiscountRate, false}, {"100 %", pathCloseCall, true}, {"101 %", pathCloseCall, false},
	} {
		share, right := shareWithin(row.text, row.path)
		assert.Equal(t, row.ok, right == "", row.text)
		assert.Equal(t, row.ok, share != nil, row.text)
	}
}

func TestAFailedWriteLeavesWhatWasThereAndNothingElse(t *testing.T) {
	folder := t.TempDir()
	target := filepath.Join(folder, "old.xlsx")
	require.NoError(t, os.Mkdir(target, 0o755)) // a folder cannot be replaced by a file
	require.NoError(t, os.WriteFile(filepath.Join(target, "inside"), []byte("old"), 0o600))
	s := &session{world: world{disk: afero.NewOsFs()}}
	require.Error(t, s.publish(target, []byte("new")))
	left, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, left, 1)
	inside, err := os.ReadFile(filepath.Join(target, "inside"))
	require.NoError(t, err)
	assert.Equal(t, "old", string(inside))
}

func TestProgressIsToldOnlyToWhoeverWatchesAndWaits(t *testing.T) {
	for _, watched := range []bool{false, true} {
		synctest.Test(t, func(t *testing.T) { // its clock jumps, so nothing waits
			var told bytes.Buffer
			s := &session{world: world{stderr: &told, watched: watched}}
			s.progress("reckoning")()
			assert.Empty(t, told.String(), "the work was done at once")
			stop := s.progress("reckoning")
			time.Sleep(2 * patience)
			stop()
			assert.Equal(t, watched, told.String() == "reckoning …\n", told.String())
		})
	}
}

func TestWhoeverWatchesSeesTheWrongLineWithAMark(t *testing.T) {
	wrong := strings.Replace(string(demo.Study()), "energy_price: 0.14 per kWh", "energy_price: cheap", 1)
	for _, watched := range []bool{false, true} {
		var stdout, stderr bytes.Buffer
		status := run([]string{"check", "-"}, world{
			stdin: strings.NewReader(wrong), stdout: &stdout, stderr: &stderr, watched: watched,
			configFolder: func() (string, error) { return t.TempDir(), nil },
		})
		assert.Equal(t, exitBad, status)
		assert.Equal(t, watched, strings.Contains(stderr.String(), "\n      energy_price: cheap\n                    ^\n"), stderr.String())
	}
}

func TestOnlyProblemsAreStatusTwo(t *testing.T) {
	for _, row := range []struct {
		err  error
		want int
	}{
		{nil, exitDone},
		{errors.New("disk on fire"), exitFailed},
		{usage("what", "right"), exitBad},
		{inFile("a.yaml", "what", "right"), exitBad},
	} {
		var complaints bytes.Buffer
		s := &session{world: world{stderr: &complaints}}
		assert.Equal(t, row.want, s.report(row.err))
		assert.Equal(t, row.err == nil, complaints.Len() == 0)
	}
}
