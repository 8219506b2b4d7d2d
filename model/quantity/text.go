package quantity

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// plainText turns the many ways of typing the same sign into one: any space is
// one space, ² is 2, ″ is ", ½ is 1/2. Ends are trimmed.
func plainText(text string) string {
	var b strings.Builder
	b.Grow(len(text))
	space := false
	for _, r := range text {
		if unicode.IsSpace(r) {
			space = true
			continue
		}
		if space && b.Len() > 0 {
			b.WriteByte(' ')
		}
		space = false
		writePlain(&b, r)
	}
	return b.String()
}

func writePlain(b *strings.Builder, r rune) {
	if r < utf8.RuneSelf {
		b.WriteByte(byte(r))
		return
	}
	if fraction := vulgarFraction(r); fraction != "" {
		if s := b.String(); s != "" && isDigit(s[len(s)-1]) {
			b.WriteByte(' ')
		}
		b.WriteString(fraction)
		return
	}
	b.WriteRune(plainRune(r))
}

func plainRune(r rune) rune {
	switch r {
	case '²':
		return '2'
	case '³':
		return '3'
	case '″', '”', '“':
		return '"'
	case '′', '’', '‘':
		return '\''
	case '−', '‐', '‑', '–':
		return '-'
	case '⁄', '∕':
		return '/'
	}
	return r
}

func vulgarFraction(r rune) string {
	switch r {
	case '½':
		return "1/2"
	case '¼':
		return "1/4"
	case '¾':
		return "3/4"
	case '⅛':
		return "1/8"
	case '⅜':
		return "3/8"
	case '⅝':
		return "5/8"
	case '⅞':
		return "7/8"
	case '⅓':
		return "1/3"
	case '⅔':
		return "2/3"
	}
	return ""
}

// unitText is a unit as unitSets spells it: "per" is a stroke, and no space
// stands beside a stroke.
func unitText(s string) string {
	if strings.Contains(s, "per ") {
		s = strings.ReplaceAll(" "+s, " per ", "/")
		s = strings.ReplaceAll(s, "/per ", "/")
	}
	s = strings.ReplaceAll(s, " /", "/")
	s = strings.ReplaceAll(s, "/ ", "/")
	return strings.Trim(s, " ")
}

// quote shows text as the user wrote it; only what would spoil a terminal or a
// log line is escaped, and only what is too long is cut.
func quote(text string) string {
	const shown = 40
	if runes := []rune(text); len(runes) > longestText {
		text = string(runes[:shown]) + "…"
	}
	for _, r := range text {
		if r == utf8.RuneError || !unicode.IsGraphic(r) {
			return strconv.Quote(text)
		}
	}
	return `"` + text + `"`
}
