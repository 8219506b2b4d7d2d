// Package calendar writes planned visits as iCalendar, for any calendar program.
//
// Source: B. Desruisseaux (ed.), Internet Calendaring and Scheduling Core Object
// Specification (iCalendar), RFC 5545, 2009.
package calendar

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"shopstint/reports"
	"shopstint/reports/text"
)

// leaving is when a visit is entered to begin: the shop's hours are not known.
//
// Source: common practice, no source.
const leaving = 8 * time.Hour

// The two forms of a time: by the clock on the wall, wherever that is, and UTC.
const (
	floating = "20060102T150405"
	utc      = "20060102T150405Z"
)

// Write writes an event for every visit, from leaving the studio at eight by the
// wall's clock to being back. Stamp is when the plan was made; the same plan and
// stamp give the same bytes, and a visit of the same jobs keeps its identity when
// it moves to another day.
func Write(w io.Writer, plan *reports.VisitPlan, stamp time.Time) error {
	calendar := ics.NewCalendarFor("shopstint")
	calendar.SetProductId("-//shopstint//visits 1//EN")
	calendar.SetVersion("2.0")
	same := map[string]int{}
	for i := range plan.Visits {
		who := who(plan, &plan.Visits[i])
		same[who]++ // parts of one job on two visits are two events
		if err := add(calendar, plan, &plan.Visits[i], identity(who, same[who]), stamp); err != nil {
			return err
		}
	}
	if err := calendar.SerializeTo(w, ics.WithNewLine("\r\n")); err != nil {
		return fmt.Errorf("could not write the calendar: %w", err)
	}
	return nil
}

func add(calendar *ics.Calendar, plan *reports.VisitPlan, visit *reports.PlannedVisit, id string, stamp time.Time) error {
	day, err := time.Parse(time.DateOnly, visit.Date)
	if err != nil {
		return fmt.Errorf("could not read the day of a visit: %w", err)
	}
	start := day.Add(leaving)
	event := calendar.AddEvent(id)
	event.SetProperty(ics.ComponentPropertyDtstamp, stamp.UTC().Format(utc))
	event.SetProperty(ics.ComponentPropertyDtStart, start.Format(floating))
	event.SetProperty(ics.ComponentPropertyDtEnd, start.Add(time.Duration(visit.Away*float64(time.Minute)).Round(time.Minute)).Format(floating))
	event.SetSummary(text.Clean(visit.ShopName + ": " + strings.Join(names(visit), ", ")))
	event.SetLocation(text.Clean(visit.ShopName))
	event.SetDescription(strings.Join(description(plan, visit), "\n"))
	return nil
}

// who says which shop a visit goes to and which jobs ride along.
func who(plan *reports.VisitPlan, visit *reports.PlannedVisit) string {
	parts := []string{plan.Title, visit.Shop}
	for i := range visit.Jobs {
		parts = append(parts, fmt.Sprintf("%s×%d", visit.Jobs[i].Key, visit.Jobs[i].Count))
	}
	return strings.Join(parts, "\x00")
}

// identity names a visit by its shop and jobs and not by its day, so that a
// calendar program moves the event when the day moves.
//
// Source: RFC 7986, 2016, section 5.3: a UID tells nothing of the machine.
func identity(who string, number int) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\x00%d", who, number))
	return hex.EncodeToString(sum[:16]) + "@visits.shopstint.invalid"
}

func names(visit *reports.PlannedVisit) []string {
	list := make([]string, len(visit.Jobs))
	for i := range visit.Jobs {
		list[i] = visit.Jobs[i].Name
	}
	return list
}

func description(plan *reports.VisitPlan, visit *reports.PlannedVisit) []string {
	var lines []string
	for i := range visit.Jobs {
		lines = append(lines, visit.Jobs[i].InWords)
	}
	lines = append(lines, visit.Deadline, visit.Clock, visit.Money+" "+plan.Currency, visit.BringInWords, visit.Lifting, plan.Caution)
	for i := range lines {
		lines[i] = text.Clean(lines[i])
	}
	return lines
}
