package published

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"math"
	"path"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"
)

// Mark says how far a source was seen.
type Mark string

// The marks. Inputs and results of Read come from the publisher, of ReadCopy
// from a copy; of ReadIn only the inputs were seen, the result was worked
// out; Memory was recalled, worked out anew, and not seen.
const (
	Read     Mark = "READ"
	ReadCopy Mark = "READ-COPY"
	ReadIn   Mark = "READ-IN"
	Memory   Mark = "MEMORY"
)

// Words returns what a printed source says of its mark; false for a mark that is none.
func (m Mark) Words() (string, bool) {
	switch m {
	case Read:
		return "as published", true
	case ReadCopy:
		return "as reprinted", true
	case ReadIn:
		return "inputs as printed, result worked out", true
	case Memory:
		return "from memory", true
	}
	return "", false
}

// written is a case file as it stands on disk.
type written struct {
	Source string        `yaml:"source"`
	Mark   Mark          `yaml:"mark"`
	Cases  []writtenCase `yaml:"cases"`
}

type writtenCase struct {
	ID     string           `yaml:"id"`
	Page   string           `yaml:"page"`
	Note   string           `yaml:"note"`
	Inputs map[string]Value `yaml:"inputs"`
	Want   map[string]Value `yaml:"want"`
	Tol    *float64         `yaml:"tol"`
	Rel    bool             `yaml:"rel"`
	Why    *string          `yaml:"left_out"`
}

// Load reads every case file of a method, <method>/<source>.yaml, in the
// order of their names. It returns an error when the folder is missing, holds
// no case or anything but case files, when a file has a key it should not
// have or lacks one it needs, and when two cases of the method share an id.
func Load(fsys fs.FS, method string) ([]File, error) {
	entries, err := fs.ReadDir(fsys, method)
	if err != nil {
		return nil, fmt.Errorf("published cases for %s: %w", method, err)
	}
	var files []File
	seen := map[string]string{}
	for _, entry := range entries {
		file, err := read(fsys, path.Join(method, entry.Name()))
		if err != nil {
			return nil, err
		}
		if err := claimIDs(seen, file); err != nil {
			return nil, err
		}
		files = append(files, file)
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("published cases for %s: the folder holds no case; it would hold at least one file with one", method)
	}
	return files, nil
}

func claimIDs(seen map[string]string, file File) error {
	for _, c := range slices.Concat(file.Cases, file.LeftOut) {
		if other, taken := seen[c.ID]; taken {
			return fmt.Errorf("%s: case id %q is also in %s; each would be used once", file.Path, c.ID, other)
		}
		seen[c.ID] = file.Path
	}
	return nil
}

func read(fsys fs.FS, name string) (File, error) {
	if path.Ext(name) != ".yaml" {
		return File{}, fmt.Errorf("%s: not a case file; its name would end in .yaml", name)
	}
	content, err := fs.ReadFile(fsys, name)
	if err != nil {
		return File{}, fmt.Errorf("published cases: %w", err)
	}
	return parse(name, content)
}

func parse(name string, content []byte) (File, error) {
	decoder := yaml.NewDecoder(bytes.NewReader(content))
	decoder.KnownFields(true)
	var w written
	if err := decoder.Decode(&w); err != nil {
		return File{}, fmt.Errorf("%s: %w", name, err)
	}
	if err := decoder.Decode(new(yaml.Node)); !errors.Is(err, io.EOF) {
		return File{}, fmt.Errorf("%s: goes on after its first part; a file would hold one source", name)
	}
	return w.file(name)
}

func (w written) file(name string) (File, error) {
	words, known := w.Mark.Words()
	switch {
	case strings.TrimSpace(w.Source) == "":
		return File{}, fmt.Errorf("%s: no source; it would name author, title, year and page", name)
	case !known:
		return File{}, fmt.Errorf("%s: mark %q; it would be %s, %s, %s or %s", name, w.Mark, Read, ReadCopy, ReadIn, Memory)
	case len(w.Cases) == 0:
		return File{}, fmt.Errorf("%s: no case; there would be at least one", name)
	}
	file := File{Path: name, Source: w.Source, Mark: w.Mark}
	for i, wc := range w.Cases {
		if err := wc.complete(); err != nil {
			return File{}, fmt.Errorf("%s: case %d %q: %w", name, i+1, wc.ID, err)
		}
		if c := wc.withSource(w.Source, words); c.Why == "" {
			file.Cases = append(file.Cases, c)
		} else {
			file.LeftOut = append(file.LeftOut, c)
		}
	}
	return file, nil
}

func (wc writtenCase) complete() error {
	switch {
	case strings.TrimSpace(wc.ID) == "":
		return errors.New("no id; each case would have its own")
	case len(wc.Inputs) == 0:
		return errors.New("no inputs; there would be at least one")
	case len(wc.Want) == 0:
		return errors.New("nothing wanted; there would be at least one figure")
	case wc.Why != nil && strings.TrimSpace(*wc.Why) == "":
		return errors.New("left out without a reason; left_out would say why nothing here works it out")
	case wc.Tol == nil:
		return errors.New("no tol; it would be the greatest difference allowed")
	case !(*wc.Tol >= 0 && *wc.Tol <= math.MaxFloat64):
		return fmt.Errorf("tol %v; it would be finite and not below 0", *wc.Tol)
	}
	return wc.figures()
}

// figures refuses what stands empty or cannot be compared.
func (wc writtenCase) figures() error {
	for _, name := range slices.Sorted(maps.Keys(wc.Inputs)) {
		if wc.Inputs[name].kind == "" {
			return fmt.Errorf("input %q is empty; it would be a figure", name)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(wc.Want)) {
		if kind := wc.Want[name].kind; kind != oneNumber && kind != listOfNumbers {
			return fmt.Errorf("wanted %q is not a figure; it would be a number or a list of numbers", name)
		}
	}
	return nil
}

func (wc writtenCase) withSource(source, words string) Case {
	if wc.Page != "" {
		source += ", " + wc.Page
	}
	why := ""
	if wc.Why != nil {
		why = strings.TrimSpace(*wc.Why)
	}
	return Case{
		ID: wc.ID, Source: source + " (" + words + ")", Note: wc.Note, Why: why,
		Inputs: wc.Inputs, Want: wc.Want, Tol: *wc.Tol, Rel: wc.Rel,
	}
}
