package jsonout

import (
	"io"

	"shopstint/reports"
)

// solvedAgain is what an edited decision workbook says beside its new answer.
type solvedAgain struct {
	Edited   []edited `json:"edited"`
	Moved    []moved  `json:"moved"`
	Together setMoved `json:"together"`
}

type setMoved struct {
	Was       []string `json:"was"`
	Now       []string `json:"now"`
	WasSaving *float64 `json:"was_saving_annual"`
	NowSaving *float64 `json:"now_saving_annual"`
	Says      string   `json:"says"`
}

type edited struct {
	Path  string `json:"path"`
	Label string `json:"label"`
	Was   string `json:"was"`
	Now   string `json:"now"`
}

type moved struct {
	Key        string   `json:"key"`
	Was        string   `json:"was"`
	Now        string   `json:"now"`
	WasAnnual  *float64 `json:"was_annual"`
	NowAnnual  *float64 `json:"now_annual"`
	Difference string   `json:"says"`
}

// WriteAgain writes the summary of a decision workbook that was solved again: the
// shape of Write, with at its end
//
//	"solved_again": {
//	  "edited": [{"path", "label", "was", "now"}],        values as in a study
//	  "moved": [{"key", "was", "now", "was_annual", "now_annual", "says"}],
//	                                                      verdicts, and equal amounts a year; positive favours buying
//	  "together": {"was": [key], "now": [key], "was_saving_annual", "now_saving_annual", "says"}
//	}
func WriteAgain(w io.Writer, summary *reports.Summary, again *reports.Again, workbook string) error {
	document := documentOf(summary, workbook)
	set := &again.Together
	together := setMoved{append([]string{}, set.Was...), append([]string{}, set.Now...), number(set.WasSaving), number(set.NowSaving), set.InWords}
	document.SolvedAgain = &solvedAgain{each(again.Edits, editedOf), each(again.Moves, movedOf), together}
	return write(w, document)
}

func editedOf(e *reports.Edit) edited { return edited{e.Path, e.Label, e.Was, e.Now} }

func movedOf(m *reports.Move) moved {
	return moved{m.Key, verdict(m.WasVerdict), verdict(m.Verdict), number(m.WasAnnual), number(m.Annual), m.InWords}
}
