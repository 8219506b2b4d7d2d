package grid

import (
	"fmt"
	"strings"
	"unicode"
)

const maxNameLength = 255

// checkNames refuses what the file format or one of the office programs does not take as a name.
func (b *Book) checkNames(sheets map[string]*Sheet) error {
	seen := map[string]string{}
	for _, n := range b.Names {
		if err := checkName(n.Name); err != nil {
			return err
		}
		key := strings.ToLower(n.Name)
		if first, twice := seen[key]; twice {
			return fmt.Errorf("name %q: already given as %q; upper and lower case are the same name", n.Name, first)
		}
		seen[key] = n.Name
		if err := checkNameRef(n, sheets); err != nil {
			return fmt.Errorf("name %q: %w", n.Name, err)
		}
	}
	return nil
}

func checkName(name string) error {
	switch {
	case name == "" || len(name) > maxNameLength:
		return fmt.Errorf("name %q: must have 1 to %d characters", name, maxNameLength)
	case !nameCharacters(name):
		return fmt.Errorf("name %q: must be letters, digits, _ and . and begin with a letter or _", name)
	case strings.EqualFold(name, "TRUE") || strings.EqualFold(name, "FALSE"):
		return fmt.Errorf("name %q: is a logical value; choose another", name)
	case looksLikeCell(name):
		return fmt.Errorf("name %q: reads as a cell such as AB12; add an underline or more letters", name)
	case looksLikeRowColumn(name):
		return fmt.Errorf("name %q: reads as a row or column such as R1C1; add more letters", name)
	case strings.HasPrefix(strings.ToLower(name), "_xlnm"):
		return fmt.Errorf("name %q: is reserved by the file format; choose another", name)
	}
	return nil
}

func nameCharacters(name string) bool {
	for i, r := range name {
		inner := unicode.IsDigit(r) || r == '.'
		if r != '_' && !unicode.IsLetter(r) && (!inner || i == 0) {
			return false
		}
	}
	return true
}

// looksLikeCell is wider than any one program's sheet: one to three letters, then digits only.
func looksLikeCell(name string) bool {
	digits := strings.TrimLeft(strings.ToUpper(name), "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	letters := len(name) - len(digits)
	return letters >= 1 && letters <= 3 && digits != "" && allDigits(digits)
}

// looksLikeRowColumn finds R, C, R1, C1, RC and R1C1 in either case.
func looksLikeRowColumn(name string) bool {
	upper := strings.ToUpper(name)
	rest, row := strings.CutPrefix(upper, "R")
	before, column, both := strings.Cut(rest, "C")
	switch {
	case row && both:
		return allDigits(before) && allDigits(column)
	case row:
		return allDigits(rest)
	}
	column, isColumn := strings.CutPrefix(upper, "C")
	return isColumn && allDigits(column)
}

func allDigits(text string) bool {
	return strings.Trim(text, "0123456789") == ""
}

// checkNameRef demands a formula text, and a sheet of the book when the name stands for a cell or a range.
func checkNameRef(n Name, sheets map[string]*Sheet) error {
	if err := checkFormula(n.Ref); err != nil {
		return err
	}
	if n.Ref == "" {
		return fmt.Errorf(`refers to nothing; give a place such as 'Inputs'!$B$4`)
	}
	if len(n.Comment) > maxNameLength {
		return fmt.Errorf("comment has %d bytes; at most %d fit", len(n.Comment), maxNameLength)
	}
	if !strings.HasPrefix(n.Ref, "'") {
		return nil
	}
	return checkPlace(n.Ref, sheets)
}

// checkPlace demands that a reference such as 'Inputs'!$B$4:$B$9 lies on a sheet of the book.
func checkPlace(ref string, sheets map[string]*Sheet) error {
	sheet, rest, ok := splitSheet(ref)
	if _, isBlock := parseBlock(rest); !ok || !isBlock {
		return fmt.Errorf("reference %q: must be a place such as 'Inputs'!$B$4:$B$9", ref)
	}
	if sheets[strings.ToLower(sheet)] == nil {
		return fmt.Errorf("reference %q: the book has no sheet %q", ref, sheet)
	}
	return nil
}
