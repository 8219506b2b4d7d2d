package text

import (
	"fmt"
	"io"

	"shopstint/reports"
)

// WriteVisits writes planned visits as a page to hang up; calendar is the path of
// the calendar file, "" for none.
func WriteVisits(w io.Writer, plan *reports.VisitPlan, calendar string, options Options) error {
	p := newPage(options)
	p.paragraph("", plan.Title)
	for _, said := range []string{plan.CostInWords, plan.SavedInWords, plan.HomeInWords} {
		if said != "" {
			p.paragraph("", sentence(said))
		}
	}
	for _, said := range plan.ProofsInWords {
		p.paragraph("", sentence(said))
	}
	p.blank()
	for i := range plan.Visits {
		p.visit(&plan.Visits[i])
	}
	p.paragraph("", plan.Caution)
	if calendar != "" {
		p.blank()
		p.paragraph("", "Calendar: "+calendar)
	}
	if _, err := io.WriteString(w, p.String()); err != nil {
		return fmt.Errorf("could not write the visits: %w", err)
	}
	return nil
}

// visit writes one block, the day first.
func (p *page) visit(visit *reports.PlannedVisit) {
	p.marked(visit.Weekday+" "+visit.Date, colourOfDay, ", "+visit.ShopName+": "+visit.Deadline)
	for i := range visit.Jobs {
		p.hanging("  - ", "    ", visit.Jobs[i].InWords)
	}
	for _, said := range []string{visit.Clock, visit.Money, visit.BringInWords, visit.Lifting} {
		p.paragraph("  ", sentence(said))
	}
	p.blank()
}

// colourOfDay is bold.
const colourOfDay = "1"
