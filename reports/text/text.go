// Package text writes a summary for people at a terminal. Rules: no line is
// wider than asked for; what comes out of a study is shown, never obeyed, so
// control characters are taken out; colour only repeats what the words say.
package text

import (
	"fmt"
	"io"
	"unicode"
	"unicode/utf8"

	"shopstint/capital/decision/single"
	"shopstint/reports"
)

// Width is the widest line of any output.
const Width = 100

// Options are what the caller decides about the page.
type Options struct {
	Width    int // columns; 0 and more than Width are Width
	Colour   bool
	Workbook string // where the workbook went; "" for nowhere
}

// mostNotes is how many notes are shown; the page says how many more there are.
const mostNotes = 6

// mostNotPriced is how many points are shown of what is not priced.
const mostNotPriced = 3

// Write writes the short answer.
func Write(w io.Writer, summary *reports.Summary, options Options) error {
	p := newPage(options)
	p.head(summary)
	p.joint(&summary.Joint)
	for i := range summary.Machines {
		p.machine(&summary.Machines[i])
	}
	p.roadmap(&summary.Roadmap)
	p.futures(summary.Futures)
	p.assumed(summary)
	p.notes(summary.Notes)
	p.notPriced(summary.NotPriced)
	p.paragraph("", reports.Caution)
	p.blank()
	p.workbook(options.Workbook)
	if _, err := io.WriteString(w, p.String()); err != nil {
		return fmt.Errorf("could not write the answer: %w", err)
	}
	return nil
}

func (p *page) head(summary *reports.Summary) {
	p.paragraph("", summary.Title)
	p.paragraph("", sentence(summary.RentingInWords))
	p.paragraph("", sentence(capital(summary.RentingParts)))
	p.blank()
}

// joint writes what to own together, in front of one machine at a time.
func (p *page) joint(joint *reports.Joint) {
	if joint.Obvious || joint.Verdict == "" {
		return
	}
	p.marked("Together", "1", ": "+joint.Verdict)
	for _, said := range append([]string{joint.Saving, joint.Next, joint.Proof}, joint.Limits...) {
		if said != "" {
			p.paragraph("  ", sentence(said))
		}
	}
	p.blank()
	p.paragraph("", "Each machine by itself, all else rented:")
	p.blank()
}

// machine writes one block, the verdict first.
func (p *page) machine(machine *reports.Machine) {
	p.marked(capital(machine.Verdict.String()), colourOf(machine.Verdict), ": "+machine.Name)
	for _, said := range []string{machine.Reason + ": " + machine.Difference, machine.Cash, machine.Work, machine.Turns} {
		if said != "" {
			p.paragraph("  ", sentence(said))
		}
	}
	p.blank()
}

// roadmap writes what to buy in which year.
func (p *page) roadmap(roadmap *reports.Roadmap) {
	p.paragraph("", sentence(roadmap.InWords))
	for _, said := range []string{roadmap.YearsInWords, roadmap.Next} {
		if said != "" {
			p.paragraph("  ", sentence(said))
		}
	}
	p.blank()
}

func (p *page) assumed(summary *reports.Summary) {
	if summary.AssumedCount == 0 {
		return
	}
	end := "."
	if len(summary.Assumed) > 0 {
		end = ":"
	}
	p.paragraph("", capital(summary.AssumedInWords)+end)
	for i := range summary.Assumed {
		p.item(sentence(summary.Assumed[i].InWords) + " Write it at " + summary.Assumed[i].Path)
	}
	p.blank()
}

// notes puts what is about the same thing on one item.
func (p *page) notes(notes []reports.Note) {
	groups := grouped(notes)
	if len(groups) == 0 {
		return
	}
	p.paragraph("", "Look at:")
	p.items(groups, mostNotes)
}

// items lists the first of the points and says how many more there are.
func (p *page) items(points []string, most int) {
	for _, point := range points[:min(most, len(points))] {
		p.item(point)
	}
	if more := len(points) - most; more > 0 {
		p.item(fmt.Sprintf("%d more %s", more, p.elsewhere))
	}
	p.blank()
}

func grouped(notes []reports.Note) []string {
	var groups []string
	at := map[string]int{}
	for _, note := range notes {
		seen, known := at[note.About]
		switch {
		case note.About == "":
			groups = append(groups, note.Text)
		case known:
			groups[seen] += "; " + note.Text
		default:
			at[note.About] = len(groups)
			groups = append(groups, note.About+": "+note.Text)
		}
	}
	return groups
}

func (p *page) notPriced(points []string) {
	if len(points) == 0 {
		return
	}
	p.paragraph("", "Not priced:")
	p.items(points, mostNotPriced)
}

func (p *page) workbook(path string) {
	if path == "" {
		p.paragraph("", "No workbook was written.")
		return
	}
	p.paragraph("", "Workbook: "+path)
}

// colourOf is the colour of a verdict: green to buy, yellow when too close.
func colourOf(verdict single.Verdict) string {
	switch verdict {
	case single.Buy:
		return "1;32"
	case single.TooClose:
		return "1;33"
	default:
		return "1"
	}
}

// sentence gives a clause its capital and its full stop.
func sentence(clause string) string { return capital(clause) + "." }

func capital(clause string) string {
	first, size := utf8.DecodeRuneInString(clause)
	return string(unicode.ToUpper(first)) + clause[size:]
}
