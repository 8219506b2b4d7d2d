package workbook

import (
	"strings"

	"shopstint/reports/workbook/grid"
)

// The palette: slate for structure, straw for cells to edit, moss and rust for
// the two sides of the question. Chosen to stay apart in print and for
// colour-blind readers.
const (
	slate = "2F4858"
	mist  = "E8EDF0"
	straw = "FFF6D6"
	moss  = "4C7A5A"
	rust  = "B4562F"
	sky   = "5B8DB8"
	sand  = "D9C7A3"
	grey  = "6B7780"
	white = "FFFFFF"
)

// Number formats. Those of inPlaces are written here with the two decimals that most
// currencies have.
const (
	asMoney   = `#,##0.00;[Red]-#,##0.00;"–"`
	asMoney0  = `#,##0;[Red]-#,##0;"–"`
	asNumber  = `#,##0.0;-#,##0.0;"–"`
	asFine    = `#,##0.000;-#,##0.000;"–"`
	asCount   = `#,##0;-#,##0;"–"`
	asPercent = `0.0#%`
	asFlag    = `0;-0;"·"`
	asFactor  = `0.0000`
	asOffered = `[>=1E+90]"not offered";#,##0.00`
	asAxis    = `#,##0.00`
	asGeneral = `General`
)

// inPlaces shows amounts with the decimals of their currency, in cells and along charts,
// once all sheets are filled.
func inPlaces(sheets []*grid.Sheet, places int) {
	decimals := ""
	if places > 0 {
		decimals = "." + strings.Repeat("0", places)
	}
	format := func(as *string) {
		switch *as {
		case asMoney, asOffered, asAxis:
			*as = strings.ReplaceAll(*as, ".00", decimals)
		}
	}
	for _, sheet := range sheets {
		for _, placed := range sheet.Cells {
			format(&placed.Style.NumberFormat)
		}
		for i := range sheet.Charts {
			format(&sheet.Charts[i].Y.Format)
		}
	}
}

var (
	plain   = grid.Style{}
	title   = grid.Style{Bold: true, Size: 16, FontColor: slate}
	lead    = grid.Style{Italic: true, FontColor: grey}
	header  = grid.Style{Bold: true, FontColor: white, Fill: slate, Wrap: true, VAlign: grid.VAlignCenter}
	section = grid.Style{Bold: true, FontColor: slate, Fill: mist}
	text    = grid.Style{VAlign: grid.VAlignTop}
	wrapped = grid.Style{Wrap: true, VAlign: grid.VAlignTop}
	// Beside figures, which stand at the foot of their row.
	wrappedLow = grid.Style{Wrap: true}
	faint      = grid.Style{FontColor: grey, Italic: true}
	linked     = grid.Style{FontColor: sky, Underline: true}
	editable   = grid.Style{Fill: straw, Unlocked: true, Border: grid.BorderBox}
	locked     = grid.Style{FontColor: grey, Border: grid.BorderBox}
)

// numbers is a plain cell with a number format.
func numbers(format string) grid.Style { return grid.Style{NumberFormat: format} }

// memo is a line that is shown but not added up.
func memo(format string) grid.Style {
	return grid.Style{NumberFormat: format, Italic: true, FontColor: grey}
}

// total is a line that adds others up.
func total(format string) grid.Style {
	return grid.Style{NumberFormat: format, Bold: true, Border: grid.BorderTotal}
}
