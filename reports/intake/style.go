package intake

import "shopstint/reports/workbook/grid"

// The palette: fern for structure, blue for cells to fill in, apricot for those
// that must be, grey for cells without a use. The form is not to be mistaken for
// the decision workbook.
const (
	fern    = "2F5D50"
	mint    = "DDEBE4"
	blue    = "DCEBF7"
	pale    = "F1F7FC"
	apricot = "FBE0C4"
	ash     = "EDEDED"
	grey    = "77797C"
	white   = "FFFFFF"
)

const asPercent = `0.0#%`

var (
	plain     = grid.Style{VAlign: grid.VAlignTop}
	title     = grid.Style{Bold: true, Size: 16, FontColor: fern}
	lead      = grid.Style{Italic: true, FontColor: grey}
	header    = grid.Style{Bold: true, FontColor: white, Fill: fern, Wrap: true, VAlign: grid.VAlignCenter}
	section   = grid.Style{Bold: true, FontColor: fern, Fill: mint}
	fill      = grid.Style{Fill: blue, Border: grid.BorderBox, Align: grid.AlignRight, VAlign: grid.VAlignTop}
	needed    = grid.Style{Fill: apricot, Border: grid.BorderBox, Align: grid.AlignRight, VAlign: grid.VAlignTop}
	unitStyle = grid.Style{Fill: pale, Border: grid.BorderBox, VAlign: grid.VAlignTop}
	remark    = grid.Style{Fill: pale, Border: grid.BorderBox, Wrap: true, VAlign: grid.VAlignTop}
	unused    = grid.Style{Fill: ash}
	faint     = grid.Style{FontColor: grey, Italic: true, VAlign: grid.VAlignTop}
	about     = grid.Style{FontColor: grey, Wrap: true, VAlign: grid.VAlignTop}
	body      = grid.Style{Wrap: true, VAlign: grid.VAlignTop}
)
