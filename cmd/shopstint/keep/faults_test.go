package keep_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/afero"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/cmd/shopstint/keep"
	"shopstint/cmd/shopstint/keep/failing"
)

const (
	old  = "date,kind\nwhat was there,\n"
	line = "what is added,\n"
	next = "the whole new content,\nof several lines,\n"
)

// begun makes a folder with a file in it, or with none.
func begun(t *testing.T, there bool) string {
	path := filepath.Join(t.TempDir(), "file.csv")
	if there {
		require.NoError(t, os.WriteFile(path, []byte(old), 0o640))
	}
	return path
}

// holds is what stands in a file; "" for no file.
func holds(t *testing.T, path string) string {
	content, err := os.ReadFile(path)
	if err != nil {
		require.ErrorIs(t, err, fs.ErrNotExist)
	}
	return string(content)
}

// alone asserts that nothing was left beside a file.
func alone(t *testing.T, path string) {
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	for _, entry := range entries {
		assert.Equal(t, filepath.Base(path), entry.Name())
	}
}

// everyStep runs a write on a disk that fails at its first step, then at its
// second, and so on until it has no more. It returns the steps of a write that
// does not fail.
func everyStep(t *testing.T, there, stays bool, write func(disk afero.Fs, path string) error, then func(path string, err error)) []string {
	for at := 1; ; at++ {
		path := begun(t, there)
		disk := failing.New(at)
		disk.Stays = stays
		err := write(disk, path)
		then(path, err)
		if !disk.Failed() {
			require.NoError(t, err)
			return disk.Steps
		}
		if !stays {
			alone(t, path)
		}
	}
}

func replace(disk afero.Fs, path string) error { return keep.Replace(disk, path, []byte(next)) }

func TestAFileIsReplacedAsAWholeWhicheverStepFails(t *testing.T) {
	for _, there := range []bool{true, false} {
		was, want := "", []string{"make", "write", "sync", "close", "rename", "open", "sync", "close"}
		if there {
			was, want = old, []string{"make", "chmod", "write", "sync", "close", "rename", "open", "sync", "close"}
		}
		for _, stays := range []bool{false, true} {
			steps := everyStep(t, there, stays, replace, func(path string, err error) {
				if err == nil {
					assert.Equal(t, next, holds(t, path))
					return
				}
				require.ErrorIs(t, err, failing.Full)
				assert.Equal(t, was, holds(t, path))
			})
			assert.Equal(t, want, steps)
		}
	}
}

func TestALineIsAddedAsAWholeWhicheverStepFails(t *testing.T) {
	add := func(disk afero.Fs, path string) error {
		return keep.Append(disk, path, func(keep.Found) ([]byte, error) { return []byte(line), nil })
	}
	for _, there := range []bool{true, false} {
		was, want := "", []string{"open", "make", "write", "sync", "open", "sync", "close", "close"}
		if there {
			was, want = old, []string{"open", "write", "sync", "close"}
		}
		for _, stays := range []bool{false, true} {
			steps := everyStep(t, there, stays, add, func(path string, err error) {
				now := holds(t, path)
				if err == nil {
					assert.Equal(t, was+line, now)
					return
				}
				require.ErrorIs(t, err, failing.Full)
				if stays { // what cannot be taken back is the beginning of the line, which the next writer is shown
					assert.True(t, strings.HasPrefix(now, was) && strings.HasPrefix(was+line, now), now)
					return
				}
				assert.Equal(t, was, now)
			})
			assert.Equal(t, want, steps)
		}
	}
}

func TestADiskThatIsFullAfterAnyByteLeavesWhatWasThere(t *testing.T) {
	for _, there := range []bool{true, false} {
		was := strings.Repeat(old, map[bool]int{true: 1}[there])
		for room := range next {
			for _, write := range []func(afero.Fs, string) error{replace, func(disk afero.Fs, path string) error {
				return keep.Append(disk, path, func(keep.Found) ([]byte, error) { return []byte(next), nil })
			}} {
				path, left := begun(t, there), room
				disk := failing.New(0)
				disk.Room = &left
				require.ErrorIs(t, write(disk, path), failing.Full)
				require.Equal(t, was, holds(t, path))
				require.Equal(t, there, exists(path))
				alone(t, path)
			}
		}
	}
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

func TestWhatWasLeftByAProgramThatWasKilledHindersNobody(t *testing.T) {
	path := begun(t, true)
	left := filepath.Join(filepath.Dir(path), ".file.csv.new-1")
	require.NoError(t, os.WriteFile(left, []byte("half of"), 0o600))
	require.NoError(t, replace(afero.NewOsFs(), path))
	assert.Equal(t, next, holds(t, path))
	assert.Equal(t, "half of", holds(t, left), "it may belong to a program at work")
}

func TestPermissionsStay(t *testing.T) {
	path := begun(t, true)
	require.NoError(t, os.Chmod(path, 0o606)) // which no usual mask gives
	was, err := os.Stat(path)
	require.NoError(t, err)
	require.NoError(t, replace(afero.NewOsFs(), path))
	now, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, was.Mode(), now.Mode())
	assert.Equal(t, next, holds(t, path))
}

func TestALinkStaysAndWhatItLeadsToIsReplaced(t *testing.T) {
	path := begun(t, true)
	link := filepath.Join(t.TempDir(), "link.csv")
	if err := os.Symlink(path, link); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	require.NoError(t, replace(afero.NewOsFs(), link))
	assert.Equal(t, next, holds(t, path))
	about, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, about.Mode()&fs.ModeSymlink)
	alone(t, path)
	alone(t, link)
}

func TestWhatNoFileCanBeWrittenToIsRefused(t *testing.T) {
	folder := t.TempDir()
	in := func(name string) string { return filepath.Join(folder, name) }
	require.NoError(t, os.WriteFile(in("protected"), []byte(old), 0o444))
	if err := os.Symlink("nowhere", in("lost")); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	require.NoError(t, os.Symlink("round", in("round")))
	require.NoError(t, os.Symlink("protected", in("to protected")))
	for path, want := range map[string]error{
		folder: keep.ErrNoFile, in("protected"): keep.ErrProtected, in("to protected"): keep.ErrProtected,
		in("lost"): keep.ErrLostLink, in("round"): keep.ErrLostLink,
	} {
		require.ErrorIs(t, replace(afero.NewOsFs(), path), want, path)
		_, err := keep.Target(path)
		require.ErrorIs(t, err, want, path)
		err = keep.Append(afero.NewOsFs(), path, func(keep.Found) ([]byte, error) { return []byte(line), nil })
		require.ErrorIs(t, err, want, path)
	}
	assert.Equal(t, old, holds(t, in("protected")))
	assert.False(t, exists(in("nowhere")))
}

func TestTheLongestNameThatAFileMayHaveIsWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), strings.Repeat("ä", 125)+".csv") // 254 bytes
	require.NoError(t, replace(afero.NewOsFs(), path))
	assert.Equal(t, next, holds(t, path))
	alone(t, path)
}

// TestWhoMadeAFileAndWroteNothingTakesNoLineOfAnotherAway stands for two programs
// that begin one logbook: the second writes between the first one's making it and
// locking it.
func TestWhoMadeAFileAndWroteNothingTakesNoLineOfAnotherAway(t *testing.T) {
	path := begun(t, false)
	err := keep.Append(afterMaking{afero.NewOsFs(), func() {
		require.NoError(t, keep.Append(afero.NewOsFs(), path, func(keep.Found) ([]byte, error) { return []byte(line), nil }))
	}}, path, func(found keep.Found) ([]byte, error) {
		assert.False(t, found.New)
		return nil, fs.ErrInvalid
	})
	require.ErrorIs(t, err, fs.ErrInvalid)
	assert.Equal(t, line, holds(t, path))
}

// afterMaking does something each time that a file was made.
type afterMaking struct {
	afero.Fs
	then func()
}

func (d afterMaking) OpenFile(path string, flag int, permission fs.FileMode) (afero.File, error) {
	file, err := d.Fs.OpenFile(path, flag, permission)
	if err == nil && flag&os.O_CREATE != 0 {
		d.then()
	}
	return file, err
}
