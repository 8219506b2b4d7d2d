package quantity

import (
	"strings"
	"time"
)

// Date is a calendar date as ISO 8601 writes it, 2027-03-14. The empty Date is
// none. It is text, so that it is read, shown and written back as the very same.
type Date string

// dateForm is ISO 8601's extended form of a date.
const dateForm = "2006-01-02"

// DateExample is what a right date looks like.
const DateExample = "2027-03-14"

// The years that a date may have: those of a study's first year, and its work.
const (
	firstYear = 1990
	lastYear  = 2230
)

// ParseDate reads a date, also one at midnight as programs write it,
// 2027-03-14T00:00:00Z; years run from 1990 to 2230. Every error is a *ParseError
// that tells what would be right.
//
// Source: ISO 8601-1:2019, 5.2.2.1, calendar dates in the extended form.
func ParseDate(text string) (Date, error) {
	bare := strings.TrimSpace(text)
	for _, midnight := range [...]string{"T00:00:00Z", "T00:00:00", " 00:00:00"} {
		bare = strings.TrimSuffix(bare, midnight)
	}
	day, err := time.Parse(dateForm, bare)
	switch {
	case err == nil && day.Year() >= firstYear && day.Year() <= lastYear:
		return Date(bare), nil
	case err == nil:
		return "", &ParseError{Text: text, What: quote(text) + " lies far off", Right: "give a date from 1990 to 2230"}
	case isDateForm(bare):
		return "", &ParseError{Text: text, What: quote(text) + " is no day of the calendar", Right: "look the month up; write it as " + DateExample}
	}
	return "", &ParseError{Text: text, What: quote(text) + " is no date", Right: "write year, month and day, such as " + DateExample}
}

// isDateForm tells whether a text has the digits of a date in their places.
func isDateForm(text string) bool {
	if len(text) != len(dateForm) {
		return false
	}
	for i, sign := range []byte(text) {
		if dash := dateForm[i] == '-'; dash != (sign == '-') || !dash && !isDigit(sign) {
			return false
		}
	}
	return true
}

// Day counts the date's days from 1970-01-01, which is day 0. A text that is no
// date counts as that day; readers let none pass.
//
// Source: proleptic Gregorian calendar, ISO 8601-1:2019, 4.2.1.
func (d Date) Day() int {
	day, err := time.Parse(dateForm, string(d))
	if err != nil {
		return 0
	}
	return int(day.Unix() / secondsOfDay)
}

const secondsOfDay = 24 * 60 * 60

// DateOf is the date of a day counted from 1970-01-01.
func DateOf(day int) Date { return Date(time.Unix(int64(day)*secondsOfDay, 0).UTC().Format(dateForm)) }

// Weekday is the day of the week of a day counted from 1970-01-01, which was a
// Thursday.
func Weekday(day int) time.Weekday { return time.Weekday(((day+int(time.Thursday))%7 + 7) % 7) }
