package quantity_test

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/quantity"
)

func TestDatesAreReadAsISO8601WritesThem(t *testing.T) {
	for _, row := range []struct{ text, says string }{
		{"2026-03-14", ""}, {" 2028-02-29 ", ""}, {"1990-01-01", ""}, {"2027-03-14T00:00:00Z", ""}, {"2027-03-14 00:00:00", ""}, {"2230-12-31", ""}, {"2231-01-01", "lies far off"},
		{"2026-02-30", "is no day of the calendar"}, {"2027-02-29", "is no day of the calendar"}, {"2026-13-01", "is no day of the calendar"},
		{"2026-3-14", "is no date"}, {"14.3.2026", "is no date"}, {"20260314", "is no date"}, {"2026-03-14T08:00:00Z", "is no date"},
		{"", "is no date"}, {"next week", "is no date"}, {"2026-W11-6", "is no date"},
		{"1989-12-31", "lies far off"}, {"9999-12-31", "lies far off"},
	} {
		date, err := quantity.ParseDate(row.text)
		if row.says == "" {
			require.NoError(t, err)
			assert.Equal(t, date, quantity.DateOf(date.Day()))
			continue
		}
		var slip *quantity.ParseError
		require.True(t, errors.As(err, &slip), row.text)
		assert.Contains(t, slip.What, row.says)
		assert.NotEmpty(t, slip.Right)
	}
}

// Days and dates lead to each other and to the weekdays of the standard library.
func TestDaysAreCountedFromTheFirstOf1970(t *testing.T) {
	assert.Equal(t, 0, quantity.Date("1970-01-01").Day())
	assert.Equal(t, 20526, quantity.Date("2026-03-14").Day()) // Source: date -d 2026-03-14 +%s ÷ 86400
	assert.Equal(t, time.Saturday, quantity.Weekday(20526))
	rapid.Check(t, func(t *rapid.T) {
		day := rapid.IntRange(-200000, 200000).Draw(t, "day")
		assert.Equal(t, day, quantity.DateOf(day).Day())
		assert.Equal(t, time.Unix(int64(day)*86400, 0).UTC().Weekday(), quantity.Weekday(day))
	})
}
