package keep

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/spf13/afero"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A process of this test that is started with these appends lines of its own.
const (
	helperPath  = "KEEP_HELPER_PATH"
	helperName  = "KEEP_HELPER_NAME"
	helperCount = "KEEP_HELPER_COUNT"
)

func TestMain(m *testing.M) {
	if path := os.Getenv(helperPath); path != "" {
		os.Exit(help(path))
	}
	os.Exit(m.Run())
}

// help appends numbered lines one by one, and says so after each.
func help(path string) int {
	count, err := strconv.Atoi(os.Getenv(helperCount))
	if err != nil {
		return 2
	}
	for n := range count {
		line := fmt.Sprintf("%s,%d,%s\n", os.Getenv(helperName), n, strings.Repeat("x", n%200))
		if err := Append(real, path, mended(line)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		fmt.Println(n)
	}
	return 0
}

// real is the disk that tests run on.
var real = afero.NewOsFs()

// mended ends a line that has no end before it writes its own.
func mended(line string) func(Found) ([]byte, error) {
	return func(found Found) ([]byte, error) {
		if len(found.Tail) > 0 {
			line = "TORN\n" + line
		}
		return []byte(line), nil
	}
}

func helper(path, name string, count int) *exec.Cmd {
	command := exec.Command(os.Args[0])
	command.Env = append(os.Environ(), helperPath+"="+path, helperName+"="+name, helperCount+"="+strconv.Itoa(count))
	command.Stderr = os.Stderr
	return command
}

// linesOf counts the lines of a file by their first two cells, and holds each to
// be as it was written.
func linesOf(t *testing.T, path string) map[string]int {
	t.Helper()
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	seen := map[string]int{}
	for line := range strings.Lines(string(content)) {
		name, rest, _ := strings.Cut(strings.TrimSuffix(line, "\n"), ",")
		number, filler, _ := strings.Cut(rest, ",")
		n, err := strconv.Atoi(number)
		if !strings.HasSuffix(line, "\n") || strings.HasSuffix(line, "TORN\n") {
			continue // half a line that was never said to be written
		}
		require.NoError(t, err, line)
		require.Equal(t, strings.Repeat("x", n%200), filler)
		seen[name+","+number]++
	}
	return seen
}

func TestTwoProgramsThatRecordTenThousandLinesLoseNone(t *testing.T) {
	const each = 5000
	path := filepath.Join(t.TempDir(), "log.csv")
	first, second := helper(path, "a", each), helper(path, "b", each)
	require.NoError(t, first.Start())
	require.NoError(t, second.Start())
	require.NoError(t, first.Wait())
	require.NoError(t, second.Wait())
	seen := linesOf(t, path)
	require.Len(t, seen, 2*each)
	for line, times := range seen {
		require.Equal(t, 1, times, line)
	}
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, 2*each, strings.Count(string(content), "\n"))
}

// TestAProgramThatIsKilledLosesNothingItSaidWasWritten kills with the signal
// that no program can catch, at a moment that differs each time.
func TestAProgramThatIsKilledLosesNothingItSaidWasWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	rng := rand.New(rand.NewPCG(1, 2))
	said := map[string]bool{}
	for run := range 40 {
		name := "run" + strconv.Itoa(run)
		command := helper(path, name, 1_000_000)
		out, err := command.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, command.Start())
		lines := bufio.NewScanner(out)
		for left := rng.IntN(60); lines.Scan(); left-- {
			said[name+","+lines.Text()] = true
			if left == 0 {
				require.NoError(t, command.Process.Kill())
			}
		}
		require.Error(t, command.Wait())
		seen := linesOf(t, path)
		for line := range said {
			require.Equal(t, 1, seen[line], line)
		}
		require.LessOrEqual(t, len(seen), len(said)+run+1, "one line more each time: written and not yet said")
	}
	require.Greater(t, len(said), 400)
}

func TestALineWithoutAnEndIsShownAndNotGluedTo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	require.NoError(t, os.WriteFile(path, []byte("first\nhalf a li"), 0o600))
	var found Found
	require.NoError(t, Append(real, path, func(f Found) ([]byte, error) { found = f; return []byte("\nwhole\n"), nil }))
	assert.Equal(t, Found{First: []byte("first\n"), Tail: []byte("half a li")}, found)
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "first\nhalf a li\nwhole\n", string(content))
}

func TestOnlyAsMuchAsIsBoundedIsLookedAt(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	require.NoError(t, os.WriteFile(path, []byte(strings.Repeat("y", 3*MostLine)), 0o600))
	require.NoError(t, Append(real, path, func(f Found) ([]byte, error) {
		assert.Len(t, f.First, MostLine)
		assert.Len(t, f.Tail, MostLine)
		return nil, nil
	}))
}

func TestAFileThatNothingIsWrittenToIsNotMade(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	refused := errors.New("no")
	require.ErrorIs(t, Append(real, path, func(f Found) ([]byte, error) { assert.True(t, f.New); return nil, refused }), refused)
	assert.NoFileExists(t, path)
}

func TestFoldersAndDevicesAreRefused(t *testing.T) {
	lines := func(Found) ([]byte, error) { return []byte("x\n"), nil }
	require.Error(t, Append(real, t.TempDir(), lines))
	require.Error(t, Append(real, filepath.Join(t.TempDir(), "none", "log.csv"), lines))
	if _, err := os.Stat("/dev/null"); err == nil {
		require.ErrorIs(t, Append(real, "/dev/null", lines), ErrNoFile)
	}
}

// TestWhoWaitedForAFileThatWasReplacedWritesToTheNewOne stands for an editor
// that saves by renaming.
func TestWhoWaitedForAFileThatWasReplacedWritesToTheNewOne(t *testing.T) {
	folder := t.TempDir()
	path, other := filepath.Join(folder, "log.csv"), filepath.Join(folder, "new.csv")
	require.NoError(t, os.WriteFile(path, []byte("old\n"), 0o600))
	require.NoError(t, os.WriteFile(other, []byte("new\n"), 0o600))
	held, err := os.OpenFile(path, os.O_RDWR, 0)
	require.NoError(t, err)
	defer held.Close()
	require.NoError(t, lock(held))
	done := make(chan error)
	go func() { done <- Append(real, path, func(Found) ([]byte, error) { return []byte("line\n"), nil }) }()
	require.NoError(t, os.Rename(other, path))
	unlock(held)
	require.NoError(t, <-done)
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "new\nline\n", string(content))
	old, err := io.ReadAll(held)
	require.NoError(t, err)
	assert.Equal(t, "old\n", string(old))
}
