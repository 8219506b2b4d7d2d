package quantity

import (
	"fmt"
	"strings"
)

// ParseError tells why a text is not the quantity asked for.
type ParseError struct {
	Text  string // as given
	What  string // what is wrong, with the text quoted
	Right string // what would be right
}

// Error is what is wrong and what would be right, in one line.
func (e *ParseError) Error() string { return e.What + "; " + e.Right }

type faultKind int

const (
	noFault faultKind = iota
	noText
	longText
	comma
	noNumber
	longNumber
	wideExponent
	zeroDivisor
	noUnit
	wrongUnit
	wrongTail // behind an amount of money stands neither a code nor a "per"
	wrongOrder
	outOfRange
)

// fault is an error before it has words: cheap to make and to throw away.
type fault struct {
	kind   faultKind
	detail string
}

func (f fault) explain(d Dimension, text string) *ParseError {
	what, right := f.words(d, text)
	return &ParseError{Text: text, What: what, Right: right}
}

func (f fault) words(d Dimension, text string) (what, right string) {
	q, write := quote(text), "write "+d.Example()
	switch f.kind {
	case noText:
		return "the value is empty", write
	case longText:
		return fmt.Sprintf("%s is longer than %d characters", q, longestText), write
	case comma:
		return q + " has a comma", "use a point for decimals and nothing between thousands, such as " + d.firstExample()
	case longNumber:
		return fmt.Sprintf("%s has a number longer than %d characters", q, longestNumber), write
	case wideExponent:
		return fmt.Sprintf("%s has an exponent beyond %d", q, largestExponent), "write the digits out, such as " + d.firstExample()
	case zeroDivisor:
		return fmt.Sprintf("%s divides by zero in %s", q, quote(f.detail)), write
	case noUnit:
		return q + " has no unit", write
	case wrongOrder:
		return fmt.Sprintf("%s has the part %s out of order", q, quote(f.detail)), "each part must be less than one of the unit before it, such as " + sumExample(d)
	case outOfRange:
		return fmt.Sprintf("%s is too large or too small to be meant", q), write
	}
	return notUnderstood(f, d, text)
}

func sumExample(d Dimension) string {
	switch d {
	case DimLength:
		return "8 ft 6 in"
	case DimYears:
		return "1 year 6 months"
	}
	return "1 h 30 min"
}

// notUnderstood looks for the slip behind a text with a wrong unit or none of
// the shapes that are read.
func notUnderstood(f fault, d Dimension, text string) (what, right string) {
	q := quote(text)
	if d.IsMoney() && strings.ContainsAny(text, "$€£¥") {
		return q + " has a currency sign", "leave it out or write a three-letter code, such as " + d.firstExample()
	}
	if f.kind == wrongTail && isLowerCode(f.detail) {
		return fmt.Sprintf("%s has %s where a currency code may stand", q, quote(f.detail)),
			"write the code in three capitals, as " + strings.ToUpper(f.detail)
	}
	if isDays(f.detail) && (d == DimDuration || d == DimMoneyPerHour) {
		return q + " counts days, and a working day has no fixed length", "use hours or minutes, such as " + d.firstExample()
	}
	if known, ok := unitSets[d].otherCase(f.detail); ok && f.detail != "" {
		return fmt.Sprintf("%s has the unit %s in other letters", q, quote(f.detail)), fmt.Sprintf("write it as %s", quote(known))
	}
	if other, ok := otherKind(d, text); ok {
		return q + " is " + other.described().noun, d.described().noun + " is needed, such as " + d.firstExample()
	}
	return q + " is not understood as " + d.described().noun, "write " + d.Example()
}

// otherKind is the first dimension that can read what d could not.
func otherKind(d Dimension, text string) (Dimension, bool) {
	for _, other := range Dimensions() {
		if other == d {
			continue
		}
		if _, _, f := read(other, text); f.kind == noFault {
			return other, true
		}
	}
	return 0, false
}

func isLowerCode(s string) bool {
	if len(s) != codeLength {
		return false
	}
	_, rest := cutCode(strings.ToUpper(s))
	return rest == "" && s != strings.ToUpper(s)
}

func isDays(name string) bool {
	switch strings.ToLower(name) {
	case "d", "day", "days", "week", "weeks":
		return true
	}
	return false
}
