package text

import (
	"fmt"
	"io"

	"shopstint/reports"
)

// WriteAgain writes what was edited in a decision workbook and how each answer
// moved; the new answer follows it.
func WriteAgain(w io.Writer, again *reports.Again, options Options) error {
	p := newPage(options)
	end := "."
	if len(again.Edits) > 0 {
		end = ":"
	}
	p.paragraph("", capital(again.InWords)+end)
	for i := range again.Edits {
		p.item(capital(again.Edits[i].InWords))
	}
	if len(again.Edits) > 0 {
		p.paragraph("", "How the answers moved:")
		for i := range again.Moves {
			p.item(capital(again.Moves[i].InWords))
		}
		p.item(capital(again.Together.InWords))
	}
	p.blank()
	if _, err := io.WriteString(w, p.String()); err != nil {
		return fmt.Errorf("could not write the answer: %w", err)
	}
	return nil
}
