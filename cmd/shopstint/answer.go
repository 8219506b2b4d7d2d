package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"runtime"
	"strings"

	"shopstint/capital/decision"
	"shopstint/capital/decision/budget"
	"shopstint/capital/decision/futures"
	"shopstint/model"
	"shopstint/model/intake"
	"shopstint/reports"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
	"shopstint/reports/workbook"
)

// answer decides, draws futures where they are asked for, and writes the workbook.
func (s *session) answer(ctx context.Context, study *model.Study, path string, settings settings) (*decision.Answer, error) {
	stop := s.progress("reckoning")
	var visits plannedAside
	if path != "" {
		visits.start(study, settings)
	}
	answer := decision.Decide(study)
	planned, err := visits.wait()
	stop()
	if err != nil {
		return nil, err
	}
	options := workbook.Options{Visits: planned}
	if settings.futures > 0 {
		if err := s.drawFutures(ctx, &answer, settings); err != nil {
			return nil, err
		}
		if options.Budgets, err = s.budgets(ctx, study, path, settings); err != nil {
			return nil, err
		}
	}
	if path == "" {
		return &answer, nil
	}
	defer s.progress("writing the workbook")()
	return &answer, s.writeWorkbook(path, &answer, options)
}

// drawFutures adds futures to an answer; Ctrl-C ends it.
func (s *session) drawFutures(ctx context.Context, answer *decision.Answer, settings settings) error {
	ctx, release := signal.NotifyContext(ctx, os.Interrupt)
	defer release()
	return answer.Draw(ctx, futures.Options{
		Seed: settings.seed, Most: settings.futures, Workers: runtime.GOMAXPROCS(0), Progress: s.counting("futures drawn"),
	})
}

// budgets draws jobs of every type for their sheet; none without a workbook.
func (s *session) budgets(ctx context.Context, study *model.Study, path string, settings settings) ([]reports.Budget, error) {
	if path == "" {
		return nil, nil
	}
	ctx, release := signal.NotifyContext(ctx, os.Interrupt)
	defer release()
	defer s.progress("drawing jobs")()
	list := make([]reports.Budget, len(study.JobTypes))
	for job := range list {
		result, err := budget.Of(ctx, study, job, budget.Options{Seed: settings.seed})
		if err != nil {
			return nil, err
		}
		list[job] = reports.BudgetOf(study, result, settings.seed, settings.numbers)
	}
	return list, nil
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
	summary := reports.SummarizeIn(answer, settings.numbers)
	return s.sayAs(settings.json,
		func(page io.Writer) error { return jsonout.Write(page, &summary, path) },
		func(page io.Writer) error {
			return text.Write(page, &summary, text.Options{Width: s.columns, Colour: s.coloured(settings), Workbook: path})
		})
}
