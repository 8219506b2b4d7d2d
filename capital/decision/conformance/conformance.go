// Package conformance holds the program to published check values: for every
// method it says how a package of the engine works a published case out. The
// cases stand as data in testdata/published; one test runs all of them, and each
// package's own tests run those of that package, so that a changed constant is
// noticed where it stands. It serves tests only.
package conformance

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"testing"

	"shopstint/model/published"
)

// worked are figures by name.
type worked = map[string][]float64

// Room is a package of the engine with the methods that it works out, by the
// folder of their cases.
type Room struct {
	Package string
	Methods map[string]published.WorkOut
}

// Rooms are all packages that work published cases out. A method may be worked
// out by more than one of them; every one has to agree.
func Rooms() []Room {
	return slices.Concat(modelRooms(), rentalRooms(), capitalRooms(), decisionRooms())
}

// Hold fails the test unless a package agrees with every published case of its
// methods. A package without a room is a failure too.
func Hold(t testing.TB, name string) {
	t.Helper()
	cases, at := Cases(t), slices.IndexFunc(Rooms(), func(room Room) bool { return room.Package == name })
	if at < 0 {
		t.Fatalf("package %s has no room with published cases", name)
	}
	if _, err := Rooms()[at].hold(cases); err != nil {
		t.Error(err)
	}
}

// hold works every case of the room's methods out and counts by file.
func (r Room) hold(cases fs.FS) (map[string]published.Tally, error) {
	counted := map[string]published.Tally{}
	var misses []error
	for _, method := range slices.Sorted(maps.Keys(r.Methods)) {
		workOut := r.Methods[method]
		files, err := published.Load(cases, method)
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			tally, err := file.Agree(workOut)
			if err != nil {
				misses = append(misses, fmt.Errorf("%s: %w", r.Package, err))
			}
			counted[file.Path] = tally
		}
	}
	return counted, errors.Join(misses...)
}

// Cases is the folder of published cases: the tests of a package run in its own
// folder, somewhere below the one that has go.mod.
func Cases(t testing.TB) fs.FS {
	t.Helper()
	for above := "."; len(above) < 100; above = filepath.Join(above, "..") {
		if _, err := os.Stat(filepath.Join(above, "go.mod")); err == nil {
			return os.DirFS(filepath.Join(above, "testdata", "published"))
		}
	}
	t.Fatal("no folder above has go.mod, and with it the published cases")
	return nil
}

// Files are all files of published cases, method by method.
func Files(cases fs.FS) ([]published.File, error) {
	folders, err := fs.ReadDir(cases, ".")
	if err != nil {
		return nil, err
	}
	var all []published.File
	for _, folder := range folders {
		files, err := published.Load(cases, folder.Name())
		if err != nil {
			return nil, err
		}
		all = append(all, files...)
	}
	return all, nil
}

// MethodOf is the method whose cases a file holds.
func MethodOf(file published.File) string { return path.Dir(file.Path) }
