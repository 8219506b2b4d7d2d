package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/cmd/shopstint/keep/failing"
	"shopstint/model/demo"
	"shopstint/model/starter"
)

// writing is a command line that writes a file. Words with a point in them are
// names of files, in the folder that the test works in.
type writing struct {
	command string
	target  string
	adds    bool // to what is there
}

func writings() []writing {
	return []writing{
		{"decide short.yaml -o answer.xlsx", "answer.xlsx", false},
		{"new begun.yaml --force", "begun.yaml", false},
		{"new form.xlsx --short --force", "form.xlsx", false},
		{"new other.xlsx --from short.yaml --force", "other.xlsx", false},
		{"visits dated.yaml -o visits.ics", "visits.ics", false},
		{"track study.yaml log.csv -o track.xlsx", "track.xlsx", false},
		{"track study.yaml log.csv --apply", "study.yaml", false},
		{"record own.csv done --job coffee", "own.csv", true},
		{"record own.csv --from more.csv", "own.csv", true},
	}
}

// inputs are the files that the command lines read.
func inputs() map[string]string {
	files := map[string]string{
		"short.yaml": string(starter.Short()), "dated.yaml": string(demo.Study()),
		"more.csv": "date,kind,job\n2026-11-24,done,coffee\n2026-11-25,done,coffee\n",
	}
	tracked, err := txtar.ParseFile(filepath.Join(scripts, "track_apply.txtar"))
	if err != nil {
		panic(err)
	}
	for _, file := range tracked.Files {
		files[file.Name] = string(file.Data)
	}
	return files
}

// was is what stands in the target of a command before it, when there is one.
func (w writing) was() string {
	switch was, isInput := inputs()[w.target]; {
	case isInput:
		return was
	case w.adds:
		return "date,kind,job\n2026-11-23,done,coffee\n"
	}
	return "what was there"
}

// args are the words of the command line in a folder.
func (w writing) args(folder string) []string {
	words := strings.Fields(w.command)
	for i, word := range words {
		if strings.Contains(word, ".") {
			words[i] = filepath.Join(folder, word)
		}
	}
	return words
}

// prepare fills a folder with what a command reads and, with there, what it
// writes over.
func (w writing) prepare(t *testing.T, folder string, there bool) {
	for name, content := range inputs() {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(content), 0o600))
	}
	if there {
		require.NoError(t, os.WriteFile(filepath.Join(folder, w.target), []byte(w.was()), 0o600))
	}
}

// outcome is what came of a run.
type outcome struct {
	status         int
	stdout, stderr string
	target         string   // what stands in it
	names          []string // in the folder
}

// run runs the command in this process on a disk.
func (w writing) run(t *testing.T, folder string, disk *failing.Disk) outcome {
	var out, complaints bytes.Buffer
	status := run(w.args(folder), world{
		stdin: strings.NewReader(""), stdout: &out, stderr: &complaints, now: theDay, disk: disk,
		configFolder: func() (string, error) { return "", errors.New("no home") },
	})
	told := strings.ReplaceAll(complaints.String(), folder+string(filepath.Separator), "")
	return outcome{status, out.String(), told, w.content(t, folder), namesIn(t, folder)}
}

// content is what stands in the target, "" when there is none.
func (w writing) content(t *testing.T, folder string) string {
	content, err := os.ReadFile(filepath.Join(folder, w.target))
	if err != nil {
		require.ErrorIs(t, err, fs.ErrNotExist)
	}
	return string(content)
}

func namesIn(t *testing.T, folder string) []string {
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	names := make([]string, len(entries))
	for i, entry := range entries {
		names[i] = entry.Name()
	}
	return names
}

// done is what a command writes on a disk without a fault.
func (w writing) done(t *testing.T, there bool) outcome {
	folder := t.TempDir()
	w.prepare(t, folder, there)
	got := w.run(t, folder, failing.New(0))
	require.Equal(t, exitDone, got.status, got.stderr)
	require.NotEqual(t, w.was(), got.target)
	require.NotEmpty(t, got.target)
	return got
}

func TestEveryCommandLeavesTheOldFileOrTheNewOneWhicheverStepFails(t *testing.T) {
	for _, one := range writings() {
		t.Run(one.command, func(t *testing.T) {
			t.Parallel()
			want := one.done(t, true)
			failed := 0
			for at := 1; ; at++ {
				folder, disk := t.TempDir(), failing.New(at)
				one.prepare(t, folder, true)
				before := namesIn(t, folder)
				got := one.run(t, folder, disk)
				if got.status == exitDone {
					assert.Equal(t, want.target, got.target)
					if !disk.Failed() {
						break
					}
					continue
				}
				failed++
				assert.Equal(t, exitFailed, got.status)
				assert.Empty(t, got.stdout)
				assert.Regexp(t, `\Ashopstint: could not write [a-z]+(\.before-[0-9-]+)?\.[a-z]+: no space left on device\n\z`, got.stderr)
				assert.Equal(t, before, got.names)
				assert.Equal(t, one.was(), got.target, disk.Steps[at-1])
			}
			assert.GreaterOrEqual(t, failed, 3)
		})
	}
}

// stopAt is the step at which the command of that name kills itself.
const stopAt = "STOP_AT"

// stopped is the program on a disk on which it is killed at a step.
func stopped() {
	at, err := strconv.Atoi(os.Getenv(stopAt))
	if err != nil {
		os.Exit(3)
	}
	disk := failing.New(at)
	disk.Stop = failing.Kill
	os.Exit(run(os.Args[1:], world{
		stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, now: theDay, disk: disk,
		configFolder: func() (string, error) { return "", errors.New("no home") },
	}))
}

// TestEveryCommandThatIsKilledLeavesTheOldFileOrTheNewOne kills a process at each
// of its steps on the disk, and runs the command again.
func TestEveryCommandThatIsKilledLeavesTheOldFileOrTheNewOne(t *testing.T) {
	for _, one := range writings() {
		t.Run(one.command, func(t *testing.T) { t.Parallel(); one.killedAtEveryStep(t, true) })
		if one.adds {
			t.Run(one.command+", the first line", func(t *testing.T) { t.Parallel(); one.killedAtEveryStep(t, false) })
		}
	}
}

func (w writing) killedAtEveryStep(t *testing.T, there bool) {
	want, was := w.done(t, there), ""
	if there {
		was = w.was()
	}
	for at := 1; ; at++ {
		folder := t.TempDir()
		w.prepare(t, folder, there)
		command := exec.Command("shopstint-stopped", w.args(folder)...)
		command.Env = append(os.Environ(), stopAt+"="+strconv.Itoa(at))
		if err := command.Run(); err == nil {
			assert.Greater(t, at, 4)
			return
		}
		require.Equal(t, -1, command.ProcessState.ExitCode(), "it was to be killed")
		now := w.content(t, folder)
		if w.adds {
			assert.True(t, strings.HasPrefix(now, was) && strings.HasPrefix(want.target, now), now)
		} else {
			assert.Contains(t, []string{was, want.target}, now)
		}
		w.again(t, folder, want.target, now)
	}
}

// again runs a command that was killed before.
func (w writing) again(t *testing.T, folder, want, now string) {
	got := w.run(t, folder, failing.New(0))
	if strings.Contains(now, "\n2026-11-24,done,") { // the first line to be added is there, though nobody was told
		assert.Equal(t, exitBad, got.status)
		assert.Contains(t, got.stderr, "more.csv:2: the same line is in own.csv already")
		w.command += " --keep-good"
		got = w.run(t, folder, failing.New(0))
		assert.Contains(t, got.target, "\n2026-11-25,done,")
		return
	}
	assert.Equal(t, exitDone, got.status, got.stderr)
	if !w.adds {
		assert.Equal(t, want, got.target)
		return
	}
	line := want[strings.LastIndex(strings.TrimSuffix(want, "\n"), "\n"):]
	assert.True(t, strings.HasPrefix(got.target, now) && strings.HasSuffix(got.target, line), got.target)
}
