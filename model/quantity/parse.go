package quantity

import (
	"math"
	"strings"
	"unicode/utf8"
)

const (
	longestText = 100 // runes
	// Beyond these a value is a slip of the pen in any unit, and Format could
	// not write it in the space that Parse reads.
	largest  = 1e30
	smallest = 1e-30
)

// Parse reads text as a quantity of dimension d.
//
// It gives the value in the unit of d's type (SI for physics, per the unit in
// the name for money rates) and the three capital letters of a currency code
// if one was written with money, else "". Whether that code exists is for
// package money to say. Negative values are read: limits are checked elsewhere.
//
// Every error is a *ParseError that tells what would be right.
//
// Source: units by NIST SP 811, 2008, appendix B.8; the ways of writing are
// common practice, no source.
func Parse(d Dimension, text string) (si float64, currency string, err error) {
	if !d.known() {
		return 0, "", &ParseError{Text: text, What: d.String() + " does not exist", Right: "use one of the Dim constants"}
	}
	si, currency, f := read(d, text)
	if f.kind != noFault {
		return 0, "", f.explain(d, text)
	}
	return si, currency, nil
}

// read is Parse without the words: it is also how a wrong kind is recognised.
func read(d Dimension, text string) (float64, string, fault) {
	if utf8.RuneCountInString(text) > longestText {
		return 0, "", fault{kind: longText}
	}
	s := plainText(text)
	if s == "" {
		return 0, "", fault{kind: noText}
	}
	if strings.Contains(s, ",") {
		return 0, "", fault{kind: comma}
	}
	si, currency, f := readKind(d, s)
	if f.kind != noFault {
		return 0, "", f
	}
	if !inRange(si) {
		return 0, "", fault{kind: outOfRange}
	}
	return si + 0, currency, fault{} // + 0 turns -0 into 0
}

func readKind(d Dimension, s string) (float64, string, fault) {
	if d.IsMoney() {
		return readMoney(d, s)
	}
	sign, s := readSign(s)
	if d.isSum() {
		si, f := readSum(d, s)
		return sign * si, "", f
	}
	si, f := readOne(d, s)
	return sign * si, "", f
}

// readOne reads a number and one unit, which may hold digits: 12 m2.
func readOne(d Dimension, s string) (float64, fault) {
	v, rest, f := readNumber(s, true)
	if f.kind != noFault {
		return 0, f
	}
	name := unitText(rest)
	if name == "" {
		if d.isBare() {
			return v, fault{}
		}
		return 0, fault{kind: noUnit}
	}
	unit, ok := unitSets[d][name]
	if !ok {
		return 0, fault{kind: wrongUnit, detail: name}
	}
	return unit.toSI(v), fault{}
}

// readSum reads parts in falling units: 8' 6 1/2", 1 h 30 min.
func readSum(d Dimension, s string) (float64, fault) {
	total, above := 0.0, math.Inf(1)
	for first := true; ; first = false {
		v, rest, f := readNumber(s, true)
		if f.kind != noFault {
			return 0, f
		}
		name, after := cutUnit(rest)
		if name == "" && after == "" && first {
			return 0, fault{kind: noUnit}
		}
		unit, ok := unitSets[d][name]
		if !ok {
			return 0, fault{kind: wrongUnit, detail: name}
		}
		part := unit.toSI(v)
		if part >= above {
			return 0, fault{kind: wrongOrder, detail: strings.TrimSpace(s[:len(s)-len(after)])}
		}
		total, above = total+part, unit.size()
		if after == "" {
			return total, fault{}
		}
		s = nextPart(after)
	}
}

// cutUnit splits the unit of one part from the parts that follow.
func cutUnit(s string) (name, rest string) {
	s = strings.TrimLeft(s, " ")
	end := strings.IndexAny(s, " -0123456789")
	if end < 0 {
		return s, ""
	}
	return s[:end], s[end:]
}

// nextPart steps over the space, or the hyphen of 8'-6", in front of a part.
func nextPart(s string) string {
	if s[0] == ' ' || s[0] == '-' {
		return s[1:]
	}
	return s
}

func readSign(s string) (float64, string) {
	switch s[0] {
	case '-':
		return -1, s[1:]
	case '+':
		return 1, s[1:]
	}
	return 1, s
}

func inRange(si float64) bool {
	size := math.Abs(si)
	return size == 0 || (size >= smallest && size <= largest)
}
