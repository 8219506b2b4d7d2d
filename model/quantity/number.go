package quantity

import "strconv"

const (
	longestNumber   = 60 // characters; Format never writes more
	largestExponent = 12
)

// readNumber reads the unsigned number at the front of s and returns what is
// behind it. With fractions, 5/8, 1 3/4 and 1-3/4 are numbers too.
func readNumber(s string, fractions bool) (float64, string, fault) {
	end := scanDecimal(s)
	if end == 0 {
		return 0, s, fault{kind: noNumber}
	}
	if end > longestNumber {
		return 0, s, fault{kind: longNumber}
	}
	if fractions && scanDigits(s) == end {
		if v, rest, f, found := readFraction(s, end); found {
			return v, rest, f
		}
	}
	if exponentTooLarge(s[:end]) {
		return 0, s, fault{kind: wideExponent}
	}
	v, err := strconv.ParseFloat(s[:end], 64)
	if err != nil {
		return 0, s, fault{kind: noNumber}
	}
	return v, s[end:], fault{}
}

// readFraction reads s as a fraction or a mixed number whose first digits end
// at end; found is false when s is neither.
func readFraction(s string, end int) (v float64, rest string, f fault, found bool) {
	if upper, lower, after, ok := splitFraction(s); ok {
		v, f := divide(0, upper, lower)
		return v, after, f, true
	}
	if end >= len(s) || (s[end] != ' ' && s[end] != '-') {
		return 0, s, fault{}, false
	}
	upper, lower, after, ok := splitFraction(s[end+1:])
	if !ok {
		return 0, s, fault{}, false
	}
	whole, err := strconv.ParseFloat(s[:end], 64)
	if err != nil {
		return 0, s, fault{kind: noNumber}, true
	}
	v, f = divide(whole, upper, lower)
	return v, after, f, true
}

// splitFraction takes digits, a stroke and digits from the front of s.
func splitFraction(s string) (upper, lower, rest string, ok bool) {
	a := scanDigits(s)
	if a == 0 || a >= len(s) || s[a] != '/' {
		return "", "", s, false
	}
	b := scanDigits(s[a+1:])
	if b == 0 || a+b > longestNumber {
		return "", "", s, false
	}
	return s[:a], s[a+1 : a+1+b], s[a+1+b:], true
}

func divide(whole float64, upper, lower string) (float64, fault) {
	n, errN := strconv.ParseFloat(upper, 64)
	d, errD := strconv.ParseFloat(lower, 64)
	if errN != nil || errD != nil {
		return 0, fault{kind: noNumber}
	}
	if d == 0 {
		return 0, fault{kind: zeroDivisor, detail: upper + "/" + lower}
	}
	// One division of whole numbers: 1 3/4 is then exactly what 1.75 is.
	return (float64(whole*d) + n) / d, fault{}
}

// scanDecimal is the length of digits, point, digits and exponent at the front
// of s; 0 when there is no digit.
func scanDecimal(s string) int {
	end := scanDigits(s)
	if end < len(s) && s[end] == '.' {
		if n := scanDigits(s[end+1:]); n > 0 {
			end += 1 + n
		}
	}
	if end == 0 {
		return 0
	}
	return end + scanExponent(s[end:])
}

func scanExponent(s string) int {
	if len(s) < 2 || (s[0] != 'e' && s[0] != 'E') {
		return 0
	}
	start := 1
	if s[1] == '+' || s[1] == '-' {
		start = 2
	}
	n := scanDigits(s[start:])
	if n == 0 {
		return 0
	}
	return start + n
}

func scanDigits(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// exponentTooLarge looks for a slip such as 1e40: no one means it.
func exponentTooLarge(number string) bool {
	for i := range len(number) {
		if number[i] == 'e' || number[i] == 'E' {
			exp, err := strconv.Atoi(number[i+1:])
			return err != nil || exp > largestExponent || exp < -largestExponent
		}
	}
	return false
}
