// Package published reads published check values: worked examples with their
// source, inputs, results and tolerance. It serves tests only.
package published

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
)

// File is one source's cases for one method.
type File struct {
	Path    string // inside the file system it was read from
	Source  string // author, title, year, page
	Mark    Mark
	Cases   []Case
	LeftOut []Case // kept as data with the reason why nothing here works them out
}

// Case is one worked example.
type Case struct {
	ID     string
	Source string // the file's source with what its mark says, and the page
	Note   string // where source and arithmetic disagree: both figures
	Why    string // why it is left out; empty where it is not
	Inputs map[string]Value
	Want   map[string]Value
	Tol    float64 // absolute, or a share of each wanted number if Rel
	Rel    bool
}

// Number returns an input that is one number, or an error when there is none
// of that name or it is something else.
func (c Case) Number(name string) (float64, error) {
	value, err := c.input(name, oneNumber)
	return value.number, err
}

// List returns an input that is a list of numbers, or an error when there is
// none of that name or it is something else.
func (c Case) List(name string) ([]float64, error) {
	value, err := c.input(name, listOfNumbers)
	return slices.Clone(value.list), err
}

// Text returns an input that is text, or an error when there is none of that
// name or it is something else.
func (c Case) Text(name string) (string, error) {
	value, err := c.input(name, text)
	return value.text, err
}

func (c Case) input(name string, kind kind) (Value, error) {
	value, ok := c.Inputs[name]
	if !ok {
		return Value{}, fmt.Errorf("case %s: no input %q; there are %s", c.ID, name, names(c.Inputs))
	}
	if value.kind != kind {
		return Value{}, fmt.Errorf("case %s: input %q is %s; it would be %s", c.ID, name, value.kind, kind)
	}
	return value, nil
}

// Compare returns an error with the whole case in it unless every wanted
// figure stands in got, in the same length and within the tolerance. One
// number is a list of one. Figures in got that are not wanted are let pass.
func (c Case) Compare(got map[string][]float64) error {
	var misses []error
	for _, name := range slices.Sorted(maps.Keys(c.Want)) {
		if err := c.compareOne(name, got); err != nil {
			misses = append(misses, err)
		}
	}
	if len(misses) == 0 {
		return nil
	}
	return fmt.Errorf("%s: %w", c, errors.Join(misses...))
}

func (c Case) compareOne(name string, got map[string][]float64) error {
	want := c.Want[name].numbers()
	have, ok := got[name]
	if !ok {
		return fmt.Errorf("%s: want %v, got nothing", name, want)
	}
	if len(have) != len(want) {
		return fmt.Errorf("%s: want %v, got %v: %d figures instead of %d", name, want, have, len(have), len(want))
	}
	for i := range want {
		if !c.near(want[i], have[i]) {
			return fmt.Errorf("%s[%d]: want %v, got %v, off by %g, tolerance %s",
				name, i, want[i], have[i], have[i]-want[i], c.tolerance())
		}
	}
	return nil
}

// near is false when got is not a number.
func (c Case) near(want, got float64) bool {
	allowed := c.Tol
	if c.Rel {
		allowed *= math.Abs(want)
	}
	return math.Abs(got-want) <= allowed
}

func (c Case) tolerance() string {
	if c.Rel {
		return fmt.Sprintf("%g of the wanted figure", c.Tol)
	}
	return fmt.Sprintf("%g", c.Tol)
}

// String gives the id, source and inputs on one line.
func (c Case) String() string {
	inputs := make([]string, 0, len(c.Inputs))
	for _, name := range slices.Sorted(maps.Keys(c.Inputs)) {
		inputs = append(inputs, fmt.Sprintf("%s=%v", name, c.Inputs[name]))
	}
	return fmt.Sprintf("case %s [%s] %s", c.ID, c.Source, strings.Join(inputs, " "))
}

func names(values map[string]Value) string {
	if len(values) == 0 {
		return "none"
	}
	return strings.Join(slices.Sorted(maps.Keys(values)), ", ")
}
