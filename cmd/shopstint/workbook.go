package main

import (
	"bytes"
	"sync"
	"time"

	"shopstint/capital/decision"
	"shopstint/capital/decision/booking"
	"shopstint/model"
	"shopstint/reports"
	"shopstint/reports/workbook"
)

// writeWorkbook writes the decision workbook whole. Its date is the first day
// of the study, so that the same study gives the same bytes on any day.
func (s *session) writeWorkbook(path string, answer *decision.Answer, options workbook.Options) error {
	var content bytes.Buffer
	options.Created = firstDay(answer.Study)
	if err := workbook.Write(&content, answer, options); err != nil {
		return err
	}
	return s.publish(path, content.Bytes())
}

// plannedVisits plans the dated jobs for their sheet, nil where a study has none.
// Dates that do not go together are a problem of the plan and not of the answer.
func plannedVisits(study *model.Study, settings settings) (*workbook.Visits, error) {
	if len(study.DatedJobs) == 0 {
		return nil, nil
	}
	plan, problems, err := booking.Book(study, booking.Options{Limits: booking.Brief()})
	if err != nil {
		return nil, err
	}
	if len(problems) > 0 {
		return &workbook.Visits{Why: problems[0].Path + ": " + problems[0].What}, nil
	}
	said := reports.PlanVisits(&plan, settings.numbers)
	return &workbook.Visits{Plan: &said}, nil
}

// plannedAside plans the visits beside other work.
type plannedAside struct {
	work   sync.WaitGroup
	visits *workbook.Visits
	err    error
}

func (p *plannedAside) start(study *model.Study, settings settings) {
	p.work.Go(func() { p.visits, p.err = plannedVisits(study, settings) })
}

// wait returns what was planned, nothing where nothing was started.
func (p *plannedAside) wait() (*workbook.Visits, error) {
	p.work.Wait()
	return p.visits, p.err
}

// firstDay is the first day of a study, the date of what is written about it.
func firstDay(study *model.Study) time.Time {
	return time.Date(int(study.StartYear), time.January, 1, 0, 0, 0, 0, time.UTC)
}
