package published

import (
	"errors"
	"fmt"
	"math"
)

// WorkOut gives the figures of a case by name. It keeps in the inputs what it
// cannot read; what it returns then is not looked at.
type WorkOut = func(*Inputs) map[string][]float64

// Tally counts what was held against published figures. Off is the largest
// difference, as a share of the largest wanted figure of the same name, so that a
// list of shares that ends at nothing has one measure.
type Tally struct {
	Cases, Figures int
	Off            float64
}

// Add puts two tallies together.
func (t Tally) Add(other Tally) Tally {
	return Tally{t.Cases + other.Cases, t.Figures + other.Figures, max(t.Off, other.Off)}
}

// Agree works every case of the file out and compares the figures with the
// published ones. The error names every case that does not agree, whole, with
// the source's note. Cases that are left out are not looked at.
func (f File) Agree(workOut WorkOut) (Tally, error) {
	var total Tally
	var misses []error
	for _, c := range f.Cases {
		tally, err := c.agree(workOut)
		if err != nil {
			misses = append(misses, fmt.Errorf("%s: %w", f.Path, err))
		}
		total = total.Add(tally)
	}
	return total, errors.Join(misses...)
}

func (c Case) agree(workOut WorkOut) (Tally, error) {
	in := &Inputs{Case: c}
	got := workOut(in)
	if in.err != nil {
		return Tally{}, in.err
	}
	return c.Hold(got)
}

// Hold is Compare, with the note in the error and a count of what was compared.
func (c Case) Hold(got map[string][]float64) (Tally, error) {
	err := c.Compare(got)
	if err != nil && c.Note != "" {
		err = fmt.Errorf("%w (note: %s)", err, c.Note)
	}
	tally := Tally{Cases: 1}
	for name, value := range c.Want {
		want := value.numbers()
		tally.Figures += len(want)
		tally.Off = max(tally.Off, apart(want, got[name]))
	}
	return tally, err
}

// apart is the largest difference of two lists as a share of the largest wanted
// figure, or as it is where that is nothing.
func apart(want, got []float64) float64 {
	largest, most := 0.0, 0.0
	for i := range min(len(want), len(got)) {
		largest, most = max(largest, math.Abs(want[i])), max(most, math.Abs(got[i]-want[i]))
	}
	if largest == 0 {
		return most
	}
	return most / largest
}

// Only is the case with no more than the wanted figures of the given names.
func (c Case) Only(names map[string][]float64) Case {
	want := map[string]Value{}
	for name, value := range c.Want {
		if _, ok := names[name]; ok {
			want[name] = value
		}
	}
	c.Want = want
	return c
}
