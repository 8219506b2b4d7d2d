package main

import (
	"bytes"
	"time"

	"shopstint/capital/decision"
	"shopstint/reports/workbook"
)

// writeWorkbook writes the decision workbook whole. Its date is the first day
// of the study, so that the same study gives the same bytes on any day.
func writeWorkbook(path string, answer *decision.Answer) error {
	var content bytes.Buffer
	created := time.Date(int(answer.Study.StartYear), time.January, 1, 0, 0, 0, 0, time.UTC)
	if err := workbook.Write(&content, answer, workbook.Options{Created: created}); err != nil {
		return err
	}
	return publish(path, content.Bytes())
}
