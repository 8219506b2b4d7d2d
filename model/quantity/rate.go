package quantity

import "strings"

const codeLength = 3

// readMoney reads an amount or a rate, with a currency code before or behind
// the amount: "USD 75 per 30 min", "0.135/kWh".
func readMoney(d Dimension, s string) (float64, string, fault) {
	code, s := cutCode(s)
	if s == "" {
		return 0, "", fault{kind: noNumber}
	}
	sign, s := readSign(s)
	v, rest, f := readNumber(s, false)
	if f.kind != noFault {
		return 0, "", f
	}
	if code == "" {
		code, rest = cutCode(strings.TrimLeft(rest, " "))
	}
	size, f := readPer(d, unitText(rest))
	return sign * size(v), code, f
}

// readPer reads what a rate is per, and gives the conversion of the amount.
func readPer(d Dimension, per string) (func(float64) float64, fault) {
	same := func(v float64) float64 { return v }
	if d.isBare() && per == "" {
		return same, fault{}
	}
	if per == "" {
		return same, fault{kind: noUnit}
	}
	name, isRate := strings.CutPrefix(per, "/")
	if !isRate {
		return same, fault{kind: wrongTail, detail: per}
	}
	n, name, f := readMultiple(name)
	if f.kind != noFault {
		return same, f
	}
	unit, ok := unitSets[d][name]
	if !ok {
		return same, fault{kind: wrongUnit, detail: name}
	}
	return func(v float64) float64 { return unit.toSI(v) / n }, fault{}
}

// readMultiple reads the 30 of "per 30 min"; without a number it is 1.
func readMultiple(s string) (float64, string, fault) {
	if s == "" || !isDigit(s[0]) {
		return 1, s, fault{}
	}
	n, rest, f := readNumber(s, true)
	if f.kind != noFault {
		return 1, s, f
	}
	if n == 0 {
		return 1, s, fault{kind: zeroDivisor, detail: "per " + s}
	}
	return n, strings.TrimLeft(rest, " "), fault{}
}

// cutCode takes three capitals that stand alone from the front of s.
func cutCode(s string) (code, rest string) {
	if len(s) < codeLength {
		return "", s
	}
	for i := range codeLength {
		if s[i] < 'A' || s[i] > 'Z' {
			return "", s
		}
	}
	if len(s) > codeLength && isLetter(s[codeLength]) {
		return "", s
	}
	return s[:codeLength], strings.TrimLeft(s[codeLength:], " ")
}

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }
