package grid

import (
	"fmt"
	"strings"
	"sync"
)

// The limits of the file format; excelize cuts or accepts what goes beyond some of them without a word.
const (
	maxSheetName = 31
	maxFormula   = 8191
	maxText      = 32767
	maxInt       = 1 << 53
	maxWidth     = 255
	maxHeight    = 409
	maxListText  = 255
)

// check refuses a book that could not be written as it stands. It gives the first fault with its place.
func (b *Book) check() error {
	sheets := map[string]*Sheet{}
	for _, s := range b.Sheets {
		if err := checkSheetName(s.Name, sheets); err != nil {
			return err
		}
		sheets[strings.ToLower(s.Name)] = s
	}
	if len(sheets) == 0 {
		return fmt.Errorf("the book has no sheet; it needs at least one")
	}
	if err := b.checkSheets(sheets); err != nil {
		return err
	}
	for _, text := range []string{b.Title, b.Subject, b.Author} {
		if err := checkText(text); err != nil {
			return fmt.Errorf("title, subject or author: %w", err)
		}
	}
	return b.checkNames(sheets)
}

// checkSheets checks every sheet on its own and gives the fault of the first one that has any.
func (b *Book) checkSheets(sheets map[string]*Sheet) error {
	faults := make([]error, len(b.Sheets))
	var wait sync.WaitGroup
	for i, s := range b.Sheets {
		wait.Go(func() { faults[i] = s.check(sheets) })
	}
	wait.Wait()
	for i, fault := range faults {
		if fault != nil {
			return fmt.Errorf("sheet %q: %w", b.Sheets[i].Name, fault)
		}
	}
	return nil
}

func checkSheetName(name string, taken map[string]*Sheet) error {
	switch other := taken[strings.ToLower(name)]; {
	case other != nil:
		return fmt.Errorf("sheet %q: the name is taken by sheet %q; upper and lower case are the same name", name, other.Name)
	case name == "" || utf16Length(name) > maxSheetName:
		return fmt.Errorf("sheet %q: the name must have 1 to %d characters", name, maxSheetName)
	case strings.ContainsAny(name, `:\/?*[]'!`):
		return fmt.Errorf(`sheet %q: the name must not hold : \ / ? * [ ] ' ! (the file format forbids them)`, name)
	case strings.EqualFold(name, "History"):
		return fmt.Errorf("sheet %q: the name is reserved by the file format; choose another", name)
	case checkText(name) != nil:
		return fmt.Errorf("sheet %q: %w", name, checkText(name))
	}
	return nil
}

func (s *Sheet) check(sheets map[string]*Sheet) error {
	if err := s.checkView(); err != nil {
		return err
	}
	if err := s.checkCells(); err != nil {
		return err
	}
	for _, v := range s.Validations {
		if err := v.check(sheets); err != nil {
			return fmt.Errorf("validation %s: %w", v.Range, err)
		}
	}
	for _, c := range s.Conditions {
		if err := c.check(); err != nil {
			return fmt.Errorf("condition %s: %w", c.Range, err)
		}
	}
	if err := checkLinks(s.Links, sheets); err != nil {
		return err
	}
	for _, c := range s.Charts {
		if err := c.check(sheets); err != nil {
			return fmt.Errorf("chart %q: %w", c.Title, err)
		}
	}
	return nil
}

func (s *Sheet) checkView() error {
	for i, width := range s.Columns {
		if !(width >= 0 && width <= maxWidth) {
			return fmt.Errorf("column %s: width %v is not from 0 to %d characters", ColumnName(i+1), width, maxWidth)
		}
	}
	for row, height := range s.Heights {
		if row < 1 || row > maxRows || !(height > 0 && height <= maxHeight) {
			return fmt.Errorf("row %d: height %v; rows run from 1 to %d, heights to %d points", row, height, maxRows, maxHeight)
		}
	}
	if s.Zoom != 0 && (s.Zoom < 10 || s.Zoom > 400) {
		return fmt.Errorf("zoom %d is not from 10 to 400 percent", s.Zoom)
	}
	if _, ok := parseCell(s.Freeze); s.Freeze != "" && !ok {
		return fmt.Errorf("freeze %q is not a cell such as B3", s.Freeze)
	}
	if err := checkColor(s.TabColor); err != nil {
		return err
	}
	return s.Print.check()
}

func (p Print) check() error {
	if _, ok := parseBlock(p.Area); p.Area != "" && !ok {
		return fmt.Errorf("print area %q is not a range such as A1:F60", p.Area)
	}
	if p.FitWide < 0 || p.FitTall < 0 || p.TitleRows < 0 || p.Paper < 0 {
		return fmt.Errorf("print: pages, title rows and paper must not be negative")
	}
	for _, row := range p.Breaks {
		if row < 2 || row > maxRows {
			return fmt.Errorf("print: a page cannot begin with row %d", row)
		}
	}
	if len(p.Footer) > maxListText {
		return fmt.Errorf("footer has %d bytes; at most %d fit", len(p.Footer), maxListText)
	}
	return checkText(p.Footer)
}

func (v Validation) check(sheets map[string]*Sheet) error {
	if !blocks(v.Range) {
		return fmt.Errorf("must be ranges such as B4:B9, with spaces between them")
	}
	kinds := 0
	for _, given := range []bool{len(v.List) > 0, v.ListRef != "", v.Min != nil || v.Max != nil, v.Formula != ""} {
		if given {
			kinds++
		}
	}
	if kinds != 1 {
		return fmt.Errorf("must have exactly one of a list, a list's place, limits, and a formula")
	}
	for _, limit := range []*float64{v.Min, v.Max} {
		if limit != nil && !finite(*limit) {
			return fmt.Errorf("limit %v is not a finite number; leave it out", *limit)
		}
	}
	if v.ListRef != "" {
		return checkPlace(v.ListRef, sheets)
	}
	if utf16Length(v.Formula) > maxListText {
		return fmt.Errorf("formula has more than %d characters", maxListText)
	}
	if err := checkFormula(v.Formula); err != nil {
		return err
	}
	return v.checkTexts()
}

func (v Validation) checkTexts() error {
	for _, entry := range v.List {
		if entry == "" || strings.ContainsAny(entry, ",\n\r") || strings.TrimSpace(entry) != entry || entry[0] == '=' {
			return fmt.Errorf("entry %q: must be a text without commas, line breaks, outer blanks or a leading =", entry)
		}
	}
	joined := strings.Join(v.List, ",")
	if utf16Length(joined) > maxListText {
		return fmt.Errorf("list has more than %d characters; put it in cells and give their place", maxListText)
	}
	if utf16Length(v.Title) > 32 || utf16Length(v.Message) > maxListText {
		return fmt.Errorf("title and message may have 32 and %d characters", maxListText)
	}
	return checkText(joined + v.Title + v.Message)
}

func (c Condition) check() error {
	if _, ok := parseBlock(c.Range); !ok {
		return fmt.Errorf("must be a range such as B4:B9")
	}
	if c.Formula == "" {
		return fmt.Errorf("must have a formula")
	}
	if err := checkFormula(c.Formula); err != nil {
		return err
	}
	return c.Style.check()
}

func checkLinks(links []Link, sheets map[string]*Sheet) error {
	seen := map[string]bool{}
	for _, l := range links {
		if _, ok := parseCell(l.Cell); !ok || seen[l.Cell] {
			return fmt.Errorf("link %q: must be a cell such as B3, with one link only", l.Cell)
		}
		seen[l.Cell] = true
		if err := checkPlace(l.Target, sheets); err != nil {
			return fmt.Errorf("link %s: %w", l.Cell, err)
		}
		if err := checkText(l.Tooltip); err != nil {
			return fmt.Errorf("link %s: %w", l.Cell, err)
		}
	}
	return nil
}

// blocks tells whether a text is one or more ranges with single spaces between them.
func blocks(text string) bool {
	for _, block := range strings.Split(text, " ") {
		if _, ok := parseBlock(block); !ok {
			return false
		}
	}
	return true
}
