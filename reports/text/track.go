package text

import (
	"fmt"
	"io"
	"strings"

	"shopstint/reports"
)

// WriteTrack writes a logbook beside its study. Also are lines that the caller adds at
// the end: what was written where.
func WriteTrack(w io.Writer, tracked *reports.Tracked, also []string, options Options) error {
	p := newPage(options)
	p.paragraph("", tracked.Title)
	p.paragraph("", sentence(tracked.InWords))
	p.blank()
	p.trackedMinutes(tracked.Machines)
	p.trackedList("Invoices", tracked.Visits)
	p.trackedList("Edges and abrasives", tracked.Wear)
	p.trackedJobs(tracked.Jobs)
	if tracked.Result.Lines > 0 {
		p.marked("Drift", colourOfDay, ": "+strings.Join(tracked.Drift, "; ")+".")
		p.blank()
	}
	p.trackedSuggestions(tracked.Suggestions, tracked.Result.Lines)
	for _, note := range tracked.Notes {
		p.item(sentence(note))
	}
	if len(tracked.Notes) > 0 {
		p.blank()
	}
	p.paragraph("", tracked.Caution)
	for _, said := range also {
		p.blank()
		p.paragraph("", said)
	}
	if _, err := io.WriteString(w, p.String()); err != nil {
		return fmt.Errorf("could not write what the logbook says: %w", err)
	}
	return nil
}

// A table's columns: the label, and the figures behind it, each flush right.
type columns struct {
	label   int
	figures []int
}

var (
	minuteColumns = columns{46, []int{7, 11, 9, 25}}
	jobColumns    = columns{34, []int{6, 21, 7, 22, 8}}
)

func (c columns) wide() int {
	sum := c.label
	for _, one := range c.figures {
		sum += one
	}
	return sum
}

// tabled writes a row of a table, or on a page too narrow for it, or of a row that is
// too wide, an item.
func (p *page) tabled(c columns, label string, heads, figures []string) {
	fits := p.columns >= c.wide() && columnsOf(label) < c.label
	for i := range figures {
		figures[i] = Clean(figures[i])
		fits = fits && columnsOf(figures[i]) < c.figures[i]
	}
	if !fits {
		var said []string
		for i, figure := range figures {
			if figure != "" {
				said = append(said, heads[i]+" "+figure)
			}
		}
		p.hanging("  - ", "    ", strings.TrimSpace(label)+": "+strings.Join(said, "; "))
		return
	}
	line := label + strings.Repeat(" ", c.label-columnsOf(label))
	for i, figure := range figures {
		line += strings.Repeat(" ", c.figures[i]-columnsOf(figure)) + figure
	}
	p.WriteString(strings.TrimRight(line, " ") + "\n")
}

// headed writes the heads of a table, or a line that announces the items.
func (p *page) headed(c columns, label string, heads []string) {
	if p.columns < c.wide() {
		p.marked(label, colourOfDay, ":")
		return
	}
	line := strings.Repeat(" ", c.label-columnsOf(label))
	for i, head := range heads {
		line += strings.Repeat(" ", max(0, c.figures[i]-columnsOf(head))) + head
	}
	p.WriteString(p.coloured(label) + line + "\n")
}

// coloured marks one of our own words.
func (p *page) coloured(word string) string {
	if !p.colour {
		return word
	}
	return "\x1b[" + colourOfDay + "m" + word + "\x1b[0m"
}

func (p *page) trackedMinutes(machines []reports.TrackedMachine) {
	if len(machines) == 0 {
		return
	}
	heads := []string{"lines", "reckoned", "actual", "ratio"}
	p.headed(minuteColumns, "Minutes", heads)
	for i := range machines {
		p.paragraph("", machines[i].Name)
		for _, row := range machines[i].Rows {
			p.tabled(minuteColumns, "  "+Clean(row.Label), heads, []string{row.Lines, row.Predicted, row.Actual, row.Ratio})
		}
		if machines[i].Says != "" {
			p.hanging("  ", "  ", sentence(machines[i].Says))
		}
	}
	p.blank()
}

// trackedList writes a heading and a block of sentences for each thing.
func (p *page) trackedList(heading string, things []reports.TrackedSentences) {
	if len(things) == 0 {
		return
	}
	p.marked(heading, colourOfDay, "")
	for i := range things {
		p.paragraph("", things[i].Name)
		for _, said := range things[i].Says {
			p.hanging("  - ", "    ", sentence(said))
		}
	}
	p.blank()
}

func (p *page) trackedJobs(jobs []reports.TrackedJob) {
	if len(jobs) == 0 {
		return
	}
	heads := []string{"done", "a year", "study", "done again", "study"}
	p.headed(jobColumns, "Jobs", heads)
	for i := range jobs {
		job := &jobs[i]
		p.tabled(jobColumns, "  "+Clean(job.Name), heads, []string{job.Done, job.PerYear, job.Study, job.Share, job.Chance})
		if job.Waiting != "" {
			p.hanging("      ", "      ", "waited "+job.Waiting+" on average before it could go on.")
		}
	}
	p.blank()
}

func (p *page) trackedSuggestions(suggestions []reports.TrackedSuggestion, lines int) {
	switch {
	case lines == 0:
		return
	case len(suggestions) == 0:
		p.paragraph("", "No input is suggested to be changed: the logbook does not speak clearly enough against the study.")
	default:
		p.marked("Suggested inputs", colourOfDay, ":")
		for i := range suggestions {
			p.item(suggestions[i].Path + ": " + sentence(suggestions[i].InWords))
		}
	}
	p.blank()
}
