package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Like writes si in the way in which another value of the dimension is written: in its
// unit, rounded to so many digits that count, 84 per 30 min where 75 per 30 min
// stands. False where that text is not one number with its unit behind it.
//
// Source: common practice, no source.
func Like(d Dimension, text string, si float64, digits int) (string, bool) {
	old, _, _ := Parse(d, text) // nought where it says nothing, and then what is written cannot be read
	plain := plainText(text)
	end := 0
	for end < len(plain) && (isDigit(plain[end]) || plain[end] == '.') {
		end++
	}
	number, err := strconv.ParseFloat(plain[:end], 64)
	if err != nil || number == 0 {
		return "", false
	}
	rounded := Rounded(si/old*number, digits)
	fresh := strconv.FormatFloat(rounded, 'f', -1, 64) + plain[end:]
	// A value in parts, such as 8 ft 6 in, is not moved by its first number alone.
	read, _, err := Parse(d, fresh)
	if want := rounded / number * old; err != nil || math.Abs(read-want) > 1e-9*math.Abs(want) {
		return "", false
	}
	return strings.TrimSpace(fresh), true
}

// Rounded rounds to so many digits that count.
//
// Source: common practice, no source.
func Rounded(x float64, digits int) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', max(0, digits-1), 64), 64)
	if err != nil {
		return x
	}
	return rounded
}
