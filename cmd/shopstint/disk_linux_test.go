package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"shopstint/cmd/shopstint/keep/failing"
)

// mounted mounts a small disk of its own for a test. Only root may, and not in
// every container.
func mounted(t *testing.T) string {
	folder := t.TempDir()
	if err := unix.Mount("shopstint-test", folder, "tmpfs", 0, "size=4m"); err != nil {
		t.Skip("no disk can be mounted here, so that none is filled; as root it can: ", err)
	}
	t.Cleanup(func() { require.NoError(t, unix.Unmount(folder, unix.MNT_DETACH)) })
	return folder
}

// fill writes to a disk until nothing more has room.
func fill(t *testing.T, folder string) {
	file, err := os.Create(filepath.Join(folder, "filler"))
	require.NoError(t, err)
	for err == nil {
		_, err = file.Write(make([]byte, 4096))
	}
	require.ErrorIs(t, err, unix.ENOSPC)
	require.NoError(t, file.Close())
}

// TestADiskThatIsFullOrReadOnlyLosesNothing uses a real disk.
func TestADiskThatIsFullOrReadOnlyLosesNothing(t *testing.T) {
	for _, row := range []struct {
		fault func(t *testing.T, folder string)
		told  string
	}{
		{fill, "no space left on device"},
		{func(t *testing.T, folder string) {
			require.NoError(t, unix.Mount("", folder, "", unix.MS_REMOUNT|unix.MS_RDONLY, ""))
		}, "read-only file system"},
	} {
		folder := mounted(t)
		for _, one := range writings() {
			one.prepare(t, folder, true)
		}
		// A page of the disk has room for a line behind a logbook; none is left in this one.
		own := filepath.Join(folder, "own.csv")
		padded := page(t, own)
		padded += strings.Repeat("2026-11-23,done,coffee\n", (4096-len(padded))/23-1)
		padded += "2026-11-23,done," + strings.Repeat("c", 4096-len(padded)-17) + "\n"
		require.NoError(t, os.WriteFile(own, []byte(padded), 0o600))
		row.fault(t, folder)
		before := namesIn(t, folder)
		for _, one := range writings() {
			was := page(t, filepath.Join(folder, one.target))
			got := one.run(t, folder, failing.New(0))
			assert.Equal(t, exitFailed, got.status, one.command)
			assert.Empty(t, got.stdout)
			assert.Regexp(t, `\Ashopstint: could not write [a-z]+(\.before-[0-9-]+)?\.[a-z]+: `+row.told+`\n\z`, got.stderr)
			assert.Equal(t, was, got.target)
			assert.Equal(t, before, got.names)
		}
		first := writing{"record first.csv done --job coffee", "first.csv", true}
		got := first.run(t, folder, failing.New(0))
		assert.Equal(t, exitFailed, got.status)
		assert.Equal(t, "shopstint: could not write first.csv: "+row.told+"\n", got.stderr)
		assert.Equal(t, before, got.names)
	}
}

// TestNothingIsWrittenToAnOutputThatIsFull gives every command the device that is
// always full for its standard output.
func TestNothingIsWrittenToAnOutputThatIsFull(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("there is no device that is always full: ", err)
	}
	defer full.Close()
	folder := t.TempDir()
	for _, command := range []string{
		"help", "help decide", "decide --help", "version", "check short.yaml", "budget top study.yaml", "wear study.yaml", "spend study.yaml --futures 0",
		"visits dated.yaml", "track study.yaml log.csv", "record own.csv done --job coffee", "new begun.yaml --force", "decide short.yaml -o answer.xlsx",
	} {
		one := writing{command: command, target: "short.yaml"}
		one.prepare(t, folder, false)
		var complaints strings.Builder
		status := run(one.args(folder), world{
			stdin: strings.NewReader(""), stdout: full, stderr: &complaints, now: theDay, disk: failing.New(0),
			configFolder: func() (string, error) { return "", errors.New("no home") },
		})
		assert.Equal(t, exitFailed, status, command)
		assert.Equal(t, "shopstint: could not write to standard output: no space left on device\n", complaints.String(), command)
	}
	assert.FileExists(t, filepath.Join(folder, "answer.xlsx"), "what is a file was written before")
}
