package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTextsAndNumbersAreReadUpToTheirLongest(t *testing.T) {
	padded := func(length int) string { return "1" + strings.Repeat(" ", length-2) + "m" }
	_, _, f := read(DimLength, padded(longestText))
	assert.Equal(t, noFault, f.kind)
	_, _, f = read(DimLength, padded(longestText+1))
	assert.Equal(t, longText, f.kind)
	_, rest, f := readNumber(strings.Repeat("0", longestNumber-1)+"7 m", true)
	assert.Equal(t, noFault, f.kind)
	assert.Equal(t, " m", rest)
	_, _, f = readNumber(strings.Repeat("0", longestNumber)+"7 m", true)
	assert.Equal(t, longNumber, f.kind)
	_, _, _, ok := splitFraction("3/" + strings.Repeat("0", longestNumber-2) + "4")
	assert.True(t, ok, "digits on both sides of the stroke count")
	_, _, _, ok = splitFraction("3/" + strings.Repeat("0", longestNumber-1) + "4")
	assert.False(t, ok)
	long := strings.Repeat("x", longestText)
	assert.Equal(t, `"`+long+`"`, quote(long))
	assert.Equal(t, `"`+long[:40]+`…"`, quote(long+"x"))
}

func TestLettersAreTheTwentySixOfBothKinds(t *testing.T) {
	for c := range 256 {
		assert.Equal(t, strings.ContainsRune("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ", rune(c)), isLetter(byte(c)), "%q", rune(c))
	}
}

func TestACodeIsThreeCapitalsThatStandAlone(t *testing.T) {
	for text, want := range map[string][2]string{
		"ZAR 5": {"ZAR", "5"}, "AZN5": {"AZN", "5"}, "ABC": {"ABC", ""}, "AB": {"", "AB"}, "ABCD 5": {"", "ABCD 5"},
		"A[C 5": {"", "A[C 5"}, "@BC 5": {"", "@BC 5"}, "ABCz 5": {"", "ABCz 5"},
	} {
		code, rest := cutCode(text)
		assert.Equal(t, want, [2]string{code, rest}, text)
	}
}

func TestAUnitEndsWhereANumberBegins(t *testing.T) {
	for text, want := range map[string][2]string{"ft 6 in": {"ft", " 6 in"}, "ft-6": {"ft", "-6"}, "in": {"in", ""}, "5 m": {"", "5 m"}, "-3": {"", "-3"}} {
		name, rest := cutUnit(text)
		assert.Equal(t, want, [2]string{name, rest}, text)
	}
}

func TestTheSecondPartIsNamedThatIsLargerThanTheFirst(t *testing.T) {
	_, _, f := read(DimLength, "2 in 3 ft 4 in")
	assert.Equal(t, wrongOrder, f.kind)
	assert.Equal(t, "3 ft", f.detail)
}

func TestAnAmountPerHalfHourIsNoFraction(t *testing.T) {
	perHour, _, f := read(DimMoneyPerHour, "75/30 min")
	assert.Equal(t, noFault, f.kind)
	assert.InDelta(t, 150, perHour, 1e-9)
}

func TestOneDigitThatCountsIsOne(t *testing.T) {
	assert.InDelta(t, 100, Rounded(123, 1), 0)
	assert.InDelta(t, 120, Rounded(123, 2), 0)
}
