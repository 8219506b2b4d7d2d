package published

import (
	"errors"
	"fmt"
	"io/fs"
)

// Agree works every case of a method out and compares the figures with the
// published ones. workOut returns figures by name and keeps in its inputs what
// it cannot read; what it returns then is not looked at. The error names every
// case that does not agree, whole, with the source's note; it is an error too
// when the cases cannot be loaded or there are none.
func Agree(fsys fs.FS, method string, workOut func(*Inputs) map[string][]float64) error {
	files, err := Load(fsys, method)
	if err != nil {
		return err
	}
	var misses []error
	for _, file := range files {
		for _, c := range file.Cases {
			if err := c.agree(workOut); err != nil {
				misses = append(misses, fmt.Errorf("%s: %w", file.Path, err))
			}
		}
	}
	return errors.Join(misses...)
}

func (c Case) agree(workOut func(*Inputs) map[string][]float64) error {
	in := &Inputs{Case: c}
	got := workOut(in)
	if in.err != nil {
		return in.err
	}
	err := c.Compare(got)
	if err != nil && c.Note != "" {
		return fmt.Errorf("%w (note: %s)", err, c.Note)
	}
	return err
}
