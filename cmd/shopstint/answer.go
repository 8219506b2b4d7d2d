package main

import (
	"strings"

	"shopstint/capital/decision"
	"shopstint/model"
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
