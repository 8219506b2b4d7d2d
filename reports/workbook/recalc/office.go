// Package recalc is test support: it has workbooks calculated afresh by two independent programs, LibreOffice and
// gnumeric, and compares what they find with the cached values in the file. It also prints them to PDF and pictures.
//
// The programs are the only proof that a formula says what the engine says. A missing program therefore fails the
// test; it is skipped only when the environment says SHOPSTINT_NO_OFFICE=1.
package recalc

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// noOffice is the variable that allows tests without the office programs.
const noOffice = "SHOPSTINT_NO_OFFICE"

// patience ends a program that hangs. A conversion takes seconds.
const patience = 3 * time.Minute

// profile makes LibreOffice recalculate every file on loading (it would keep stale cached numbers otherwise) and
// skip the graphics self-test of a first start, which takes five seconds.
const profile = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Setup/Product"><prop oor:name="ooSetupLastVersion" oor:op="fuse"><value>99.9</value></prop></item>
</oor:items>
`

// Office is LibreOffice with a profile of its own, so that tests may run side by side.
type Office struct {
	profile string
}

// LibreOffice makes a seeded profile for one test or test file. It fails the test when the program is missing.
func LibreOffice(t testing.TB) *Office {
	t.Helper()
	need(t, "soffice", "libreoffice-calc-nogui fonts-crosextra-carlito fonts-liberation2")
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "user"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "user", "registrymodifications.xcu"), []byte(profile), 0o600))
	return &Office{profile: dir}
}

// Saved has LibreOffice load, calculate and save a file, as a user does, and gives the path of what it saved.
func (o *Office) Saved(t testing.TB, file string) string {
	t.Helper()
	return o.convert(t, "xlsx", []string{file})[0]
}

// PDF prints the file into outDir, under its own name with the ending pdf, and gives the path and the page count.
func (o *Office) PDF(t testing.TB, file, outDir string) (path string, pages int) {
	t.Helper()
	need(t, "pdfinfo", "poppler-utils")
	made := o.convert(t, "pdf", []string{file})[0]
	base := filepath.Base(file)
	path = filepath.Join(outDir, base[:len(base)-len(filepath.Ext(base))]+".pdf")
	copyFile(t, made, path)
	return path, countPages(t, path)
}

// convert has LibreOffice write every file in another format and gives the new paths, in order. Its exit code says
// nothing (0 for a missing or broken file), so that each output must be there.
func (o *Office) convert(t testing.TB, format string, files []string) []string {
	t.Helper()
	require.NotEmpty(t, files, "no file to convert")
	in, out := t.TempDir(), t.TempDir()
	args := []string{"-env:UserInstallation=file://" + o.profile, "--headless", "--convert-to", format, "--outdir", out}
	made := make([]string, len(files))
	for i, file := range files {
		numbered := filepath.Join(in, fmt.Sprintf("%04d.xlsx", i)) // two files of the same name must not meet
		copyFile(t, file, numbered)
		args = append(args, numbered)
		made[i] = filepath.Join(out, fmt.Sprintf("%04d.%s", i, format))
	}
	said := run(t, "soffice", args...)
	for i, file := range made {
		require.FileExists(t, file, "LibreOffice did not convert %s:\n%s", files[i], said)
	}
	return made
}

// need fails the test when a program is missing, or skips it when the environment allows that.
func need(t testing.TB, program, packages string) {
	t.Helper()
	if _, err := exec.LookPath(program); err == nil {
		return
	}
	if os.Getenv(noOffice) == "1" {
		t.Skipf("%s is not installed and %s=1: the workbook is not calculated by it", program, noOffice)
	}
	t.Fatalf("%s is not installed: install the Debian packages %s, or set %s=1 to leave these tests out", program, packages, noOffice)
}

// run gives what a program said on both outputs; a program that cannot be started or hangs fails the test.
func run(t testing.TB, program string, args ...string) string {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.WaitDelay = 5 * time.Second
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s:\n%s", program, said)
	return string(said)
}

func copyFile(t testing.TB, from, to string) {
	t.Helper()
	source, err := os.Open(from)
	require.NoError(t, err)
	defer func() { _ = source.Close() }()
	target, err := os.Create(to)
	require.NoError(t, err)
	_, err = io.Copy(target, source)
	require.NoError(t, err)
	require.NoError(t, target.Close())
}
