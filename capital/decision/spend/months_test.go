package spend

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model/quantity"
)

func TestAMonthOnIsTheSameDayOrTheLastOfAShorterMonth(t *testing.T) {
	for _, row := range []struct {
		day    quantity.Date
		months int
		want   quantity.Date
	}{
		{"2026-01-15", 1, "2026-02-15"}, {"2026-01-15", 12, "2027-01-15"}, {"2026-11-30", 3, "2027-02-28"}, {"2026-12-31", 1, "2027-01-31"},
		{"2026-01-31", 1, "2026-02-28"}, {"2026-01-31", 2, "2026-03-31"}, {"2026-01-29", 1, "2026-02-28"}, {"2028-01-31", 1, "2028-02-29"},
		{"2026-08-31", 1, "2026-09-30"}, {"2028-02-29", 12, "2029-02-28"}, {"2026-02-28", 1, "2026-03-28"},
	} {
		assert.Equal(t, row.want, quantity.DateOf(monthsOn(row.day.Day(), row.months)), "%s and %d months", row.day, row.months)
	}
}
