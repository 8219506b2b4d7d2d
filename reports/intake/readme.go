package intake

import (
	layout "shopstint/model/intake"
	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// readMe writes the first page: how to fill the form in, its colours, and where
// a reader of the answer can be hurt.
func (b *book) readMe(s *grid.Sheet) {
	p := page{Sheet: s}
	s.Columns = []float64{22, 100}
	s.TabColor = fern
	s.Print = grid.Print{FitWide: 1, FitTall: 1, Footer: "&L&A&C&P of &N"}
	s.Heights = map[int]float64{}
	p.text(1, 1, "Rent the machines by the hour, or own them?", title)
	p.text(2, 1, "Fill this form in, save it, and run: shopstint decide FILE.xlsx", lead)
	p.text(3, 1, "form", faint)
	p.text(3, 2, layout.FormMark, faint)
	row := 5
	for _, part := range [...]struct {
		heading string
		lines   []line
	}{{"How to fill it in", b.howTo()}, {"Colours", colours()}, {"Sheets", sheets()}, {"Cautions", cautions()}} {
		p.text(row, 1, part.heading, section)
		p.text(row, 2, "", section)
		row++
		for _, one := range part.lines {
			p.text(row, 1, one.left, one.style)
			p.text(row, 2, one.right, body)
			s.Heights[row] = lineHeight * float64(linesOf(one.right, 1.1*s.Columns[1]))
			row++
		}
		row++
	}
}

// line is one row of the first page.
type line struct {
	left  string
	style grid.Style
	right string
}

func (b *book) howTo() []line {
	return []line{
		{"value", plain, "Type a number and choose its unit beside it, or type both in one cell: 8 ft 6 in, 1 3/4 in, 15 hp. What you type counts before the unit beside it. Shares are shown as percentages. Money is a bare number in the currency of the sheet Study."},
		{"", plain, "Type a fraction with a stroke in front ('5/8) or as 0.625: a spreadsheet program makes a date of it otherwise. A formula is not read; type what it comes to."},
		{"left empty", plain, "An empty value is assumed from trade practice and marked as assumed in the answer; so is a row that is not there. The grey column says what was assumed when this form was written: for rows that you copy, or after another class or size, the answer and its sheet Inputs say what is."},
		{"low, high", plain, "Give both where a figure is not certain, in the unit of the value, or neither. The answer then says what the range could turn."},
		{"note, source", plain, "Whatever you want to remember, and who says so."},
		{"which", plain, "Your own short key for a machine, a shop, an edge …: small letters, digits and _. What stands within another is written behind a stroke: big_shop / planer36, dining / top, dining / sand / 80."},
		{"one more", plain, "To add a machine, copy all its rows to below and change the key in the first column. To drop one, delete its rows. The order of rows is the order of the answer; green rows are headings only."},
		{"", plain, "Leave the headings and the names of inputs and sheets as they are. Columns of your own may stand behind the last one. Cells must not be merged."},
		{"problems", plain, "shopstint check FILE.xlsx names every problem by sheet and cell, all at once. As text instead: shopstint new --from FILE.xlsx FILE.yaml"},
	}
}

func colours() []line {
	return []line{
		{"must be given", left(needed), "There is no fair assumption for it."},
		{"may be given", left(fill), "Empty means: assume."},
		{"range, unit, remarks", unitStyle, "Beside a value."},
		{"not used", unused, "Leave it empty."},
	}
}

func left(style grid.Style) grid.Style {
	style.Align = grid.AlignLeft
	return style
}

func sheets() []line {
	return []line{
		{layout.StudySheet, plain, "Currency, units, your studio, how prices grow."},
		{"Shops", plain, "The bigger shops: distance, what they charge, the machines that they let."},
		{"Tools, Machines", plain, "What you own and keep; what you could buy."},
		{"Edges, Abrasives", plain, "Blades, knives, bits, belts and discs, with their life in plain hardwood."},
		{"Fixtures", plain, "What several machines share and is paid for once: a dust collector, a compressor, a circuit. Leave it empty when each has its own."},
		{"Materials, Jobs", plain, "What you work in; each kind of order with its pieces and steps, and how many a year."},
		{"Dated jobs", plain, "Orders with the days between which the shop must have machined them, for: shopstint visits."},
	}
}

func cautions() []line {
	var lines []line
	for _, caution := range reports.Cautions() {
		lines = append(lines, line{"", plain, caution})
	}
	return lines
}
