package grid

import (
	"fmt"
	"slices"
)

func (c Chart) check(sheets map[string]*Sheet) error {
	if _, ok := parseCell(c.Cell); !ok {
		return fmt.Errorf("corner %q is not a cell such as B3", c.Cell)
	}
	if c.Kind < Scatter || c.Kind > Line {
		return fmt.Errorf("kind %d is unknown", c.Kind)
	}
	if c.Width < 1 || c.Height < 1 || c.Width > 10000 || c.Height > 10000 {
		return fmt.Errorf("size %d by %d: must be 1 to 10000 pixels each way", c.Width, c.Height)
	}
	if len(c.Series) == 0 {
		return fmt.Errorf("has no series; it needs at least one")
	}
	if c.combined() && (c.Kind != Column && c.Kind != ColumnStacked || !slices.ContainsFunc(c.Series, func(s Series) bool { return !s.Over })) {
		return fmt.Errorf("has lines over columns; it needs columns under them")
	}
	for i, s := range c.Series {
		if err := s.check(c.Kind, sheets); err != nil {
			return fmt.Errorf("series %d: %w", i+1, err)
		}
	}
	for _, a := range []Axis{c.X, c.Y} {
		if err := a.check(); err != nil {
			return fmt.Errorf("axis %q: %w", a.Title, err)
		}
	}
	return checkText(c.Title + c.AltText)
}

func (s Series) check(kind ChartKind, sheets map[string]*Sheet) error {
	if (s.Name == "") == (s.NameRef == "") {
		return fmt.Errorf("must have a name or the place of one, not both")
	}
	if s.Color == "" || checkColor(s.Color) != nil {
		return fmt.Errorf("colour %q: must be six hexadecimal digits such as 35506B", s.Color)
	}
	if !(s.Width >= 0 && s.Width <= 100) || s.MarkerSize != 0 && (s.MarkerSize < 2 || s.MarkerSize > 72) {
		return fmt.Errorf("line width %v or marker size %d: must be 0 to 100 and 2 to 72 points", s.Width, s.MarkerSize)
	}
	if s.Categories == "" && kind == Scatter {
		return fmt.Errorf("must have the place of its x values")
	}
	for _, ref := range []string{s.NameRef, s.Categories} {
		if ref == "" {
			continue
		}
		if err := checkPlace(ref, sheets); err != nil {
			return err
		}
	}
	if err := checkPlace(s.Values, sheets); err != nil {
		return err
	}
	return checkText(s.Name)
}

func (a Axis) check() error {
	for _, limit := range []*float64{a.Min, a.Max} {
		if limit != nil && !finite(*limit) {
			return fmt.Errorf("limit %v is not a finite number; leave it out", *limit)
		}
	}
	if a.Min != nil && a.Max != nil && *a.Min >= *a.Max {
		return fmt.Errorf("runs from %v to %v; the lower limit must come first", *a.Min, *a.Max)
	}
	if !(a.MajorUnit >= 0) || !finite(a.MajorUnit) {
		return fmt.Errorf("unit %v must be a positive number, or 0 for automatic", a.MajorUnit)
	}
	return checkText(a.Title + a.Format)
}
