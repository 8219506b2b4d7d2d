package intake

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model/intake/cells"
)

func TestACellIsADateAsItWasTypedOrAsTheProgramMadeItOne(t *testing.T) {
	for _, row := range []struct {
		cell      cells.Cell
		since1904 bool
		want      string
		ok        bool
	}{
		{cells.Cell{Kind: cells.Text, Text: " 2027-03-12 "}, false, "2027-03-12", true},
		{cells.Cell{Kind: cells.Number, Number: 46458, Text: "46458", Date: true}, false, "2027-03-12", true},
		{cells.Cell{Kind: cells.Number, Number: 44996, Text: "44996", Date: true}, true, "2027-03-12", true}, // 1,462 days less
		{cells.Cell{Kind: cells.Number, Text: "2027-03-12T00:00:00Z", Date: true}, false, "2027-03-12", true},
		{cells.Cell{Kind: cells.Number, Text: "2027-03-12T08:30:00Z", Date: true}, false, "", false},
		{cells.Cell{Kind: cells.Number, Number: 46458.5, Text: "46458.5", Date: true}, false, "", false},
		{cells.Cell{Kind: cells.Number, Number: 0.5, Text: "0.5", Date: true}, false, "", false},
		{cells.Cell{Kind: cells.Number, Number: 1e12, Text: "1E12", Date: true}, false, "", false},
	} {
		got, ok := dateOf(row.cell, row.since1904)
		assert.Equal(t, row.ok, ok, row.cell.Text)
		assert.Equal(t, row.want, got, row.cell.Text)
	}
}
