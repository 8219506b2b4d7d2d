package grid

import (
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

func (s *Sheet) checkCells() error {
	var before place
	var style Style
	for _, c := range s.ordered() {
		at := place{c.Row, c.Col}
		if !at.inside() {
			return fmt.Errorf("row %d column %d: outside the sheet of %d rows and %d columns", c.Row, c.Col, maxRows, maxColumns)
		}
		if at == before {
			return fmt.Errorf("cell %s: given twice", Ref(c.Row, c.Col))
		}
		before = at
		if err := c.check(); err != nil {
			return fmt.Errorf("cell %s: %w", Ref(c.Row, c.Col), err)
		}
		if c.Style == style {
			continue
		}
		style = c.Style
		if err := style.check(); err != nil {
			return fmt.Errorf("cell %s: %w", Ref(c.Row, c.Col), err)
		}
	}
	return nil
}

func (c *Cell) check() error {
	if err := checkText(c.Note); err != nil {
		return fmt.Errorf("note: %w", err)
	}
	if err := checkFormula(c.Formula); err != nil {
		return err
	}
	switch v := c.Value.(type) {
	case nil, bool:
	case string:
		return checkText(v)
	case int:
		if v > maxInt || v < -maxInt {
			return fmt.Errorf("value %d: beyond 2^53 a number loses digits; write it as text", v)
		}
	case float64:
		if !c.live() && !finite(v) {
			return fmt.Errorf("value %v: a constant must be a finite number", v)
		}
	default:
		return fmt.Errorf("value of type %T: must be float64, int, string, bool or nil", v)
	}
	return nil
}

func checkFormula(formula string) error {
	if formula == "" || len(formula) <= maxFormula && formula[0] != '=' && plainText(formula) {
		return nil
	}
	if strings.HasPrefix(formula, "=") {
		return fmt.Errorf("formula %.40q: must be given without its leading =", formula)
	}
	if n := utf16Length(formula); n > maxFormula {
		return fmt.Errorf("formula of %d characters: at most %d fit; split it over cells", n, maxFormula)
	}
	return checkText(formula)
}

func (s Style) check() error {
	if s.Size != 0 && !(s.Size >= 1 && s.Size <= maxHeight) {
		return fmt.Errorf("font size %v is not from 1 to %d points", s.Size, maxHeight)
	}
	if s.Indent < 0 || s.Indent > 15 {
		return fmt.Errorf("indent %d is not from 0 to 15", s.Indent)
	}
	if err := checkColor(s.Fill); err != nil {
		return err
	}
	if len(s.NumberFormat) > maxListText {
		return fmt.Errorf("number format of %d bytes: at most %d fit", len(s.NumberFormat), maxListText)
	}
	if err := checkText(s.NumberFormat); err != nil {
		return err
	}
	return checkColor(s.FontColor)
}

func checkColor(color string) error {
	if color == "" {
		return nil
	}
	if len(color) != 6 || strings.Trim(color, "0123456789ABCDEFabcdef") != "" {
		return fmt.Errorf("colour %q: must be six hexadecimal digits such as 35506B", color)
	}
	return nil
}

// checkText refuses what a cell cannot hold: too long a text, broken UTF-8, control characters.
func checkText(text string) error {
	if len(text) <= maxText && plainText(text) {
		return nil
	}
	if n := utf16Length(text); n > maxText {
		return fmt.Errorf("text of %d characters: at most %d fit in a cell", n, maxText)
	}
	if !utf8.ValidString(text) {
		return fmt.Errorf("text %.40q: is not valid UTF-8", text)
	}
	for _, r := range text {
		if r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == '\uFFFE' || r == '\uFFFF' {
			return fmt.Errorf("text %.40q: holds the control character %U, which a workbook cannot hold", text, r)
		}
	}
	return nil
}

// plainText tells whether a text is of nothing but printable ASCII, as most are.
func plainText(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// utf16Length counts characters as the file format does. Broken UTF-8 reads as U+FFFD and counts as one.
func utf16Length(text string) int {
	n := 0
	for _, r := range text {
		n += utf16.RuneLen(r)
	}
	return n
}
