//go:build !windows

package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"shopstint/cmd/shopstint/keep/failing"
)

// strangeTarget is something that stands where a file is to be written.
type strangeTarget struct {
	name string
	make func(t *testing.T, path string)
	told string // TARGET for its name; "" where it is written
}

func strangeTargets() []strangeTarget {
	return []strangeTarget{
		{"a folder", func(t *testing.T, path string) {
			require.NoError(t, os.Mkdir(path, 0o700))
		}, "TARGET is a folder; name a file in it, such as TARGET/study.EXT"},
		{"a pipe", func(t *testing.T, path string) {
			require.NoError(t, unix.Mkfifo(path, 0o600))
		}, "TARGET is no plain file; name a file"},
		{"a device", func(t *testing.T, path string) {
			require.NoError(t, os.Symlink("/dev/null", path))
		}, "TARGET is no plain file; name a file"},
		{"a lost link", func(t *testing.T, path string) {
			require.NoError(t, os.Symlink("nowhere", path))
		}, "TARGET is a link that leads nowhere; take the link away, or name another file"},
		{"a link to itself", func(t *testing.T, path string) {
			require.NoError(t, os.Symlink(filepath.Base(path), path))
		}, "TARGET is a link that leads nowhere; take the link away, or name another file"},
		{"a protected file", func(t *testing.T, path string) {
			require.NoError(t, os.WriteFile(path, []byte("what was there"), 0o444))
		}, "TARGET is protected against writing; take the protection off, or name another file"},
	}
}

func TestWhatStandsWhereAFileIsToBeWrittenIsToldInOneLineAndStays(t *testing.T) {
	for _, one := range writings() {
		if one.target == "study.yaml" {
			continue // must be a study that can be read: see the next test
		}
		for _, strange := range strangeTargets() {
			folder := t.TempDir()
			one.prepare(t, folder, false)
			path := filepath.Join(folder, one.target)
			strange.make(t, path)
			was, err := os.Lstat(path)
			require.NoError(t, err)
			before := namesIn(t, folder)

			status, stdout, stderr := ran(0, nil, one.args(folder)...)
			assert.Equal(t, exitBad, status, "%s: %s", one.command, strange.name)
			assert.Empty(t, stdout)
			want := strings.NewReplacer("TARGET", path, "EXT", strings.TrimPrefix(filepath.Ext(path), ".")).Replace(strange.told)
			assert.Equal(t, "shopstint: "+want+"\n", stderr, one.command)
			now, err := os.Lstat(path)
			require.NoError(t, err)
			assert.True(t, os.SameFile(was, now) && was.Mode() == now.Mode() && was.Size() == now.Size(), one.command)
			assert.Equal(t, before, namesIn(t, folder))
		}
	}
}

func TestSuggestionsAreNotWrittenOverAProtectedStudy(t *testing.T) {
	one := writing{"track study.yaml log.csv --apply", "study.yaml", false}
	folder := t.TempDir()
	one.prepare(t, folder, true)
	before := namesIn(t, folder)
	require.NoError(t, os.Chmod(filepath.Join(folder, one.target), 0o444))
	got := one.run(t, folder, failing.New(0))
	assert.Equal(t, exitBad, got.status)
	assert.Equal(t, "shopstint: study.yaml is protected against writing; take the protection off, or name another file\n", got.stderr)
	assert.Equal(t, one.was(), got.target)
	assert.Equal(t, before, got.names)
}

func TestALinkStaysAndWhatItLeadsToIsWritten(t *testing.T) {
	for _, one := range writings() {
		want := one.done(t, true)
		folder, elsewhere := t.TempDir(), t.TempDir()
		one.prepare(t, folder, true)
		link, real := filepath.Join(folder, one.target), filepath.Join(elsewhere, "real")
		require.NoError(t, os.Rename(link, real))
		require.NoError(t, os.Symlink(real, link))
		held, err := os.OpenFile(real, os.O_RDWR, 0) // by another program, which hinders nobody here
		require.NoError(t, err)

		got := one.run(t, folder, failing.New(0))
		require.NoError(t, held.Close())
		assert.Equal(t, exitDone, got.status, got.stderr)
		about, err := os.Lstat(link)
		require.NoError(t, err)
		assert.NotZero(t, about.Mode()&fs.ModeSymlink, one.command)
		content, err := os.ReadFile(real)
		require.NoError(t, err)
		assert.Equal(t, want.target, string(content), one.command)
		assert.Len(t, namesIn(t, elsewhere), 1)
	}
}

func TestAFileThatCannotBeIsToldInOneLine(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "file"), nil, 0o600))
	long := strings.Repeat("n", 300)
	for _, one := range writings() {
		if one.target == "study.yaml" {
			continue // is read before it is written
		}
		for _, row := range []struct {
			at, told string
			status   int
		}{
			{"nowhere/", "there is no folder FOLDER/nowhere; make it first, or name another", exitBad},
			{"file/", "FOLDER/file is no folder; name a file in a folder", exitBad},
			{"file/in/", "FOLDER/file/in is no folder; name a file in a folder", exitBad},
			{long, "could not write FOLDER/" + long + one.target + ": file name too long", exitFailed},
		} {
			inputs := t.TempDir()
			one.prepare(t, inputs, false)
			args := one.args(inputs)
			for i, word := range args {
				if word == filepath.Join(inputs, one.target) {
					args[i] = folder + "/" + row.at + one.target
				}
			}
			status, stdout, stderr := ran(0, nil, args...)
			assert.Equal(t, row.status, status, stderr)
			assert.Empty(t, stdout)
			assert.Equal(t, "shopstint: "+strings.ReplaceAll(row.told, "FOLDER", folder)+"\n", stderr, one.command)
			assert.Len(t, namesIn(t, folder), 1)
		}
	}
}

func TestNoFileIsWrittenOverWhatItIsMadeFrom(t *testing.T) {
	files := inputs()
	t.Chdir(t.TempDir())
	for name, content := range files {
		require.NoError(t, os.WriteFile(name, []byte(content), 0o600))
	}
	require.NoError(t, os.Mkdir("sub", 0o700))
	status, _, stderr := ran(0, nil, "new", "form.xlsx", "--short")
	require.Equal(t, exitDone, status, stderr)
	require.NoError(t, os.Rename("dated.yaml", "dated.ics"))
	for _, row := range []struct{ input, command, told string }{
		{"form.xlsx", "decide form.xlsx -o SAME", "the workbook would be written over the study form.xlsx; name another file with -o"},
		{"form.xlsx", "track form.xlsx log.csv -o SAME", "the workbook would be written over SAME; name another file with -o"},
		{"dated.ics", "visits dated.ics -o SAME", "the calendar would be written over the study dated.ics; name another file with -o"},
		{"short.yaml", "new SAME --from short.yaml --force", "the study short.yaml would be written over itself; name another file"},
		{"more.csv", "record SAME --from more.csv", "the logbook SAME would be added to itself; name another file"},
	} {
		was := page(t, row.input)
		hard, link := "hard"+filepath.Ext(row.input), "link"+filepath.Ext(row.input)
		require.NoError(t, os.Link(row.input, hard))
		require.NoError(t, os.Symlink(row.input, link))
		for _, same := range []string{row.input, "./" + row.input, "sub/../" + row.input, hard, link} {
			before := namesIn(t, ".")
			status, stdout, stderr := ran(0, nil, strings.Fields(strings.ReplaceAll(row.command, "SAME", same))...)
			assert.Equal(t, exitBad, status, row.command)
			assert.Empty(t, stdout)
			assert.Equal(t, "shopstint: "+strings.ReplaceAll(row.told, "SAME", same)+"\n", stderr)
			assert.Equal(t, was, page(t, row.input))
			assert.Equal(t, before, namesIn(t, "."))
		}
		require.NoError(t, os.Remove(hard))
		require.NoError(t, os.Remove(link))
	}
}
