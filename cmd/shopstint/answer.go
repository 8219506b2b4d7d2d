package main

import (
	"strings"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/model/intake"
	"shopstint/reports"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
)

// answer decides and writes the workbook.
func (s *session) answer(study *model.Study, path string) (*decision.Answer, error) {
	defer s.progress("reckoning")()
	answer := decision.Decide(study)
	if path == "" {
		return &answer, nil
	}
	return &answer, writeWorkbook(path, &answer)
}

// printAgain writes what was edited, how the answers moved, and the answer.
func (s *session) printAgain(book *intake.Book, answer *decision.Answer, path string, settings settings) error {
	before := decision.Decide(book.Solved)
	edits := make([]reports.Edit, len(book.Edits))
	for i, edit := range book.Edits {
		edits[i] = reports.Edit{Path: edit.Path, Was: edit.Was, Now: edit.Now}
	}
	again := reports.Compare(&before, answer, edits, settings.numbers)
	var page strings.Builder
	if settings.json {
		summary := reports.SummarizeIn(answer, settings.numbers)
		if err := jsonout.WriteAgain(&page, &summary, &again, path); err != nil {
			return err
		}
		return s.say(page.String())
	}
	if err := text.WriteAgain(&page, &again, text.Options{Width: s.columns, Workbook: path}); err != nil {
		return err
	}
	if err := s.say(page.String()); err != nil {
		return err
	}
	return s.print(answer, path, settings)
}

// print writes the short answer or its JSON.
func (s *session) print(answer *decision.Answer, path string, settings settings) error {
	var page strings.Builder
	summary := reports.SummarizeIn(answer, settings.numbers)
	var err error
	if settings.json {
		err = jsonout.Write(&page, &summary, path)
	} else {
		err = text.Write(&page, &summary, text.Options{Width: s.columns, Colour: s.coloured(settings), Workbook: path})
	}
	if err != nil {
		return err
	}
	return s.say(page.String())
}
