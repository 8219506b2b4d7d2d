package main

import (
	"bytes"
	"time"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/reports/workbook"
)

// writeWorkbook writes the decision workbook whole. Its date is the first day
// of the study, so that the same study gives the same bytes on any day.
func writeWorkbook(path string, answer *decision.Answer) error {
	var content bytes.Buffer
	if err := workbook.Write(&content, answer, workbook.Options{Created: firstDay(answer.Study)}); err != nil {
		return err
	}
	return publish(path, content.Bytes())
}

// firstDay is the first day of a study, the date of what is written about it.
func firstDay(study *model.Study) time.Time {
	return time.Date(int(study.StartYear), time.January, 1, 0, 0, 0, 0, time.UTC)
}
