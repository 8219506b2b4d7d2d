// Package workbook writes the decision workbook: every figure that a formula
// can carry is a live formula, and every formula cell also holds the engine's
// own value, so that a reader that does not calculate shows the right number.
// Each sheet is one file here; a formula stands beside the Go value it mirrors.
package workbook

import (
	"errors"
	"fmt"
	"io"
	"sync"
	"time"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// Options are what the caller decides about the file.
type Options struct {
	Created time.Time        // written into the file's properties
	Visits  *Visits          // planned for dated jobs; nil without
	Budgets []reports.Budget // of each job type, where futures were asked for; nil without
}

// Visits is a plan of visits, or why there is none.
type Visits struct {
	Plan *reports.VisitPlan
	Why  string
}

// Sheet names, in reading order.
const (
	sheetAnswer      = "Answer"
	sheetInputs      = "Inputs"
	sheetWear        = "Wear costs"
	sheetTimes       = "Job times"
	sheetVisits      = "Visits"
	sheetInvoice     = "Invoice"
	sheetRenting     = "Renting"
	sheetOwning      = "Owning"
	sheetLife        = "Economic life"
	sheetBreakEven   = "Break-even"
	sheetSensitivity = "Sensitivity"
	sheetCases       = "Cases"
	sheetFacts       = "Case facts"
	sheetRanges      = "Ranges"
	sheetTogether    = "Together"
	sheetRoadmap     = "Roadmap"
	sheetYears       = "Yearly spend"
	sheetMonths      = "Monthly spend"
	sheetDue         = "Replacements"
	sheetPlanned     = "Visit plan"
	sheetFutures     = "Futures"
	sheetPrices      = "Job prices"
	sheetWays        = "Ways"
	sheetChecks      = "Checks"
	sheetNotes       = "Notes"
)

// Write writes the decision workbook of an answer. The same answer gives the
// same bytes.
func Write(w io.Writer, answer *decision.Answer, options Options) error {
	b, err := build(answer, options)
	if err != nil {
		return fmt.Errorf("could not lay out the workbook: %w", err)
	}
	if err := b.out.Write(w); err != nil {
		return fmt.Errorf("could not write the workbook: %w", err)
	}
	return nil
}

// book is a workbook in the making: the sheets so far and where things stand
// in them, for the sheets that come later.
type book struct {
	out    *grid.Book
	answer *decision.Answer
	study  *model.Study
	system quantity.System
	said   reports.Summary
	reach  [][]bool // whether a machine can change what a job type rents
	round  string   // number of decimal places of the currency

	places        map[string]string     // where each input stands, by path
	inputRows     map[string]int        // its row on the input sheet
	leaves        map[string]model.Leaf // the inputs, by path
	lastInput     int                   // last row of the input sheet
	numericInputs float64               // inputs that are numbers
	names         map[string]string     // defined names of the inputs that formulas use, by path
	taken         map[string]bool       // defined names in use
	wear          wearPlaces
	times         timesPlaces
	visits        visitPlaces
	rent          rentPlaces
	own           []ownPlaces
	curves        []curvePlaces
	facts         factPlaces
	cases         casePlaces
	tornado       *grid.Sheet // filled once the cases are reckoned
	checks        []check

	aside sync.WaitGroup // sheets that no formula waits for are filled beside the others
	rules map[string]int // validations of the input sheet, by what they ask
	ruled map[string]int // how many cells each has

	faults  []error  // what could not be posted
	missing []string // inputs asked for that do not exist: a mistake in this package
}

func build(answer *decision.Answer, options Options) (*book, error) {
	system, err := quantity.ParseSystem(answer.Study.Units)
	if err != nil {
		return nil, err
	}
	b := &book{
		answer: answer, study: answer.Study, system: system, said: reports.Summarize(answer), reach: reaches(answer),
		round:  fmt.Sprint(answer.Study.Money.Places()),
		places: map[string]string{}, inputRows: map[string]int{}, leaves: map[string]model.Leaf{}, names: map[string]string{}, taken: map[string]bool{},
		rules: map[string]int{}, ruled: map[string]int{},
		out: &grid.Book{
			Title: answer.Study.Title, Subject: "Rent by the hour or own: break-even workbook",
			Author: "shopstint", Created: options.Created,
		},
	}
	sheets := map[string]*grid.Sheet{}
	for _, name := range []string{
		sheetAnswer, sheetInputs, sheetWear, sheetTimes, sheetVisits, sheetInvoice, sheetRenting,
		sheetOwning, sheetLife, sheetBreakEven, sheetSensitivity, sheetCases, sheetFacts, sheetRanges, sheetTogether, sheetRoadmap,
		sheetYears, sheetMonths, sheetDue, sheetPlanned, sheetFutures, sheetPrices, sheetWays, sheetChecks, sheetNotes,
	} {
		if b.wanted(name, options) {
			sheets[name] = b.out.Add(name)
		}
	}
	b.placeRenting()
	b.name(edited, grid.SheetRef(sheetChecks, editedRow, checkHolds), "how many inputs differ from those that were solved for")
	b.aside.Go(func() { b.ranges(sheets[sheetRanges]) })
	b.aside.Go(func() { b.notes(sheets[sheetNotes]) })
	b.aside.Go(func() { b.together(sheets[sheetTogether]) })
	b.aside.Go(func() { b.roadmap(sheets[sheetRoadmap]) })
	b.aside.Go(func() { b.spending(sheets[sheetYears], sheets[sheetMonths], sheets[sheetDue]) })
	if options.Visits != nil {
		b.aside.Go(func() { b.planned(sheets[sheetPlanned], options.Visits) })
	}
	if len(options.Budgets) > 0 {
		b.aside.Go(func() { b.jobPrices(sheets[sheetPrices], options.Budgets) })
	}
	if b.said.Futures != nil {
		b.aside.Go(func() { b.futures(sheets[sheetFutures]) })
	}
	for _, fill := range [...]struct {
		name string
		fill func(*grid.Sheet)
	}{
		{sheetInputs, b.inputs}, {sheetWear, b.wearCosts}, {sheetTimes, b.jobTimes}, {sheetWear, b.wearYear}, {sheetVisits, b.visitSheet},
		{sheetInvoice, b.invoice}, {sheetRenting, b.renting}, {sheetOwning, b.owning}, {sheetLife, b.economicLife},
		{sheetBreakEven, b.breakEven}, {sheetFacts, b.caseFacts}, {sheetSensitivity, b.sensitivitySheet}, {sheetCases, b.caseSheet}, {sheetWays, b.waySheet}, {sheetChecks, b.checkSheet}, {sheetAnswer, b.answerSheet},
	} {
		if sheet := sheets[fill.name]; sheet != nil {
			fill.fill(sheet)
		}
	}
	for name, sheet := range sheets {
		if name != sheetAnswer {
			sheet.Links = append(sheet.Links, grid.Link{Cell: "A1", Target: "'" + sheetAnswer + "'!A1", Tooltip: "back to the answer"})
		}
	}
	b.aside.Wait()
	inPlaces(b.out.Sheets, b.study.Money.Places())
	if len(b.faults) > 0 {
		return nil, errors.Join(b.faults...)
	}
	if len(b.missing) > 0 {
		return nil, fmt.Errorf("inputs without a cell: %v", b.missing)
	}
	return b, nil
}

// wanted tells whether a sheet was asked for: some are only where the study or
// a flag gives them something to show.
func (b *book) wanted(sheet string, options Options) bool {
	switch sheet {
	case sheetFutures:
		return b.said.Futures != nil
	case sheetPlanned:
		return options.Visits != nil
	case sheetPrices:
		return len(options.Budgets) > 0
	case sheetWays:
		return len(b.answer.Comparisons) > 0
	}
	return true
}
