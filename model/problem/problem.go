// Package problem holds what is wrong with an input: where, what, and what
// would be right. Readers and checks return lists of problems, so that all of
// them are told at once.
package problem

import (
	"strings"
	"unicode"
)

// Problem is one thing wrong with an input.
type Problem struct {
	Path  string  // in the data, as machines.planer.price; the caller repeats it in What if the place does not say it
	Place Place   // where the value stands
	What  string  // what is wrong, with the value found; lower case, no full stop
	Right string  // what would be right: allowed values, nearest name, or what to do
	Also  []Place // other places that contradict this one
}

// Error is the problem in one line: "place: what; right (also: place)". Parts
// that are empty are left out with their sign.
func (p Problem) Error() string {
	var b strings.Builder
	if place := p.Place.String(); place != "" {
		b.WriteString(place + ": ")
	}
	b.WriteString(p.text())
	if len(p.Also) > 0 {
		b.WriteString(" (also: " + joinPlaces(p.Also) + ")")
	}
	return shown(b.String())
}

// shown is what a stranger wrote, to be looked at and never obeyed: a sign that
// moves a cursor becomes a space.
func shown(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
}

// text is the problem without its places.
func (p Problem) text() string {
	if p.Right == "" {
		return p.What
	}
	return p.What + "; " + p.Right
}

func joinPlaces(places []Place) string {
	texts := make([]string, len(places))
	for i, place := range places {
		texts[i] = place.String()
	}
	return strings.Join(texts, ", ")
}
