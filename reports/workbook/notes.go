package workbook

import (
	"strings"

	"shopstint/reports/workbook/grid"
)

// notes is the last sheet: what to look at in this study, the methods and
// where they come from, and the cautions.
func (b *book) notes(s *grid.Sheet) {
	p, said := page{s}, &b.said
	s.Columns = []float64{46, 110}
	s.Protected, s.TabColor = true, grey
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Notes, methods and sources", title)
	at := 3
	heading := func(words string) {
		p.text(at, 1, words, section)
		p.text(at, 2, "", section)
		at++
	}
	line := func(left, right string) {
		p.text(at, 1, left, wrapped)
		p.text(at, 2, right, wrapped)
		p.high(at, max(p.lines(left, 0), p.lines(right, 1)))
		at++
	}
	heading("To look at in this study")
	for _, note := range said.Notes {
		line(note.Path, strings.TrimPrefix(note.About+": "+note.Text, ": "))
	}
	at++
	heading("Colours")
	for _, entry := range palette {
		p.text(at, 1, entry.sample, entry.style)
		p.text(at, 2, entry.meaning, text)
		at++
	}
	at++
	heading("Methods")
	for _, method := range methods {
		line(method[0], method[1])
	}
	at++
	heading("Not priced")
	for _, words := range said.NotPriced {
		line("", words)
	}
	at++
	heading("Cautions")
	for _, words := range said.Cautions {
		line("", words)
	}
}

// palette is the legend of the colours.
var palette = [...]struct {
	sample  string
	style   grid.Style
	meaning string
}{
	{"straw", editable, "may be changed; every live figure follows"},
	{"grey with a frame", locked, "an input that decides the shape of the sheets: change it in the study"},
	{"grey, slanted", memo(asGeneral), "shown for reading, not added up"},
	{"bold under a line", total(asGeneral), "adds up what stands above it"},
	{"-1,234", grid.Style{FontColor: "FF0000"}, "a negative amount"},
	{"buy", grid.Style{Fill: "D8E8DC", FontColor: moss, Bold: true}, "owning is better"},
	{"keep renting", grid.Style{Fill: "DCE7F1", FontColor: "2F5F8A", Bold: true}, "renting is better"},
	{"too close to call", grid.Style{Fill: "F2E8D2", FontColor: "7A5B1E", Bold: true}, "neither is better by enough"},
	{"rust on a tint", grid.Style{Fill: "F4D9CE", FontColor: rust, Bold: true}, "a check fails, or what was solved no longer belongs to the inputs"},
	{"a sheet's title", title, "a click on it leads back to the answer"},
}

// methods says how the figures come about and who says so.
var methods = [...][2]string{
	{"Job times", "Passes = stock on a face ÷ depth of a pass, rounded up, on each face; minutes = passes × (length ÷ feed + handling) and the turn between faces. The depth is what the machine, the material and the motor allow. Common practice, no source."},
	{"Refusals", "A piece too wide, too thick, too short or too heavy, or with resin where it is refused, goes to the next way that takes it: own tool, the shop's machine, the fallback. A saw may cut from both faces."},
	{"Set-up", "Machine set-up and grit changes once a visit or session; an operation's own set-up by visit, job or piece, shared by the sizes of piece it covers."},
	{"Visits", "Minimum block, then increments rounded up, once a visit and never on the year's total; the cheapest of block, half day and day. Each line is rounded to the smallest unit of the currency, halves away from zero. Common practice, no source."},
	{"Jobs on visits", "Whole jobs fill whole visits and the last visit takes the rest; a broken number of jobs is the average of the two whole numbers beside it. Growth of the work adds visits that are filled as in the first year."},
	{"Memberships", "Taken where it pays on the first year's visits, for the whole year; included hours are spread evenly over the months."},
	{"Own time", "Every own hour counts at the labour rate: driving, waiting, loading, at the machines. People who must ride along follow from the heaviest piece and the limit of one person's lift (NIOSH, Applications Manual for the Revised NIOSH Lifting Equation, 1994: 23 kg at best)."},
	{"Edges and abrasives", "A new edge and its sharpenings over all the metres they give, each life shortened by the damage that comes at random (mean of an exponential life cut off when dull); an abrasive's price over the area it passes in the same way; a material's factor shortens either."},
	{"Spare sets", "The number of sets away for sharpening is a Poisson number (Palm 1938; Feeney and Sherbrooke 1966); fewer than one change in twenty waits."},
	{"When to change an edge", "Age replacement (Barlow and Hunter 1960) with an operating cost that rises with use (Jardine and Tsang): the run at which the next metre costs as much as the mean one, changes and the time that dullness takes included."},
	{"Owning", "After-tax cash flow by year as in C. S. Park, Contemporary Engineering Economics; cost lines as in ASABE EP496; accumulated repair and remaining value as in ASABE D497."},
	{"Tax depreciation", "Straight line, declining balance with switch, sum of years' digits, units of production; US percentage tables and conventions: IRS Publication 946. Ask a tax adviser which one applies."},
	{"Time value", "End-of-year amounts discounted at the study's rate; equal yearly amount = present × r ÷ (1 − (1 + r)^−n). Every rate of return is looked for; there may be none or several."},
	{"Economic life", "The number of years kept at which the equal yearly cost is least over all lives (L. Blank and A. Tarquin, Engineering Economy)."},
	{"The answer", "A difference under the close-call share of the dearer side is too close to call. Each machine is judged alone, the rest of the work rented: one trip that serves several machines is not saved by owning one of them."},
	{"Ranges", "One input at a time is moved to the low and the high end of its range, all else as in the study; inputs are ranked by how far that moves the answer."},
	{"Cases", "A row of the sheet Cases is the whole reckoning of one machine for the inputs in that row; memberships, jobs aboard and minutes stay as planned. Sensitivity reads its figures from there."},
	{"Spending", "The lines of renting and owning, sorted. Cost spreads a purchase with its loan and its sale by capital recovery (C. S. Park, annual equivalent worth); what is set aside is a sinking fund, deposit = future × r ÷ ((1 + r)^n − 1), by the month; an hour of a machine is owning and running over its hours, both discounted (as in ASABE EP496)."},
	{"Knife marks", "Head speed × knives ÷ feed; 20 to the inch or more for a finish cut (FDM, Knife marks per inch)."},
	{"Motor current", "P = √3·V·I·PF·η for three phases (US Department of Energy, Determining Electric Motor Load and Efficiency). A planning figure: the nameplate and an electrician decide."},
}
