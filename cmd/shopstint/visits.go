package main

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"shopstint/capital/decision/booking"
	"shopstint/model"
	"shopstint/model/intake"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/reports"
	"shopstint/reports/calendar"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
)

const visitsHelp = `Plans the visits to the shop for a study's dated jobs: which jobs ride together, and when,
so that money is least and no due date is missed. The page says for each visit what it costs,
what to bring and by when to book it, what grouping saves, and whether the plan is proven best.

A visit falls on a day on which the shop is open, on or after the day on which all its jobs
are ready. With --today no visit is planned before that day and the shop's lead time.

With --owning the named machines stand in the studio, and only what is then still rented is
planned. -o writes the visits as a calendar file as well (.ics, RFC 5545): events from eight
by the wall's clock until you are back. With --json the plan is one JSON object of the shape
shopstint.visits/1.`

type visitsOptions struct {
	demo   bool
	output string
	today  string
	owning string
}

func newVisits(s *session) *cobra.Command {
	var options visitsOptions
	cmd := &cobra.Command{
		Use: "visits STUDY|--demo", Short: "plan the visits for dated jobs", Long: visitsHelp,
		RunE: func(cmd *cobra.Command, args []string) error { return s.visits(cmd, args, options) },
	}
	cmd.Flags().BoolVar(&options.demo, "demo", false, "plan the visits of the invented demo study")
	cmd.Flags().StringVarP(&options.output, "output", "o", "", "write the visits to this .ics `FILE`")
	cmd.Flags().StringVar(&options.today, "today", "", "plan no visit before this `DATE` and the lead time, such as 2027-03-01")
	cmd.Flags().StringVar(&options.owning, "owning", "", "plan what is still rented beside these machines: `KEY,KEY`")
	addSettings(cmd, "units", "colour", "number_format", "json")
	return cmd
}

func (s *session) visits(cmd *cobra.Command, args []string, options visitsOptions) error {
	if err := valued(cmd, "output", "today", "owning"); err != nil {
		return err
	}
	if options.output != "" {
		if err := fits(options.output, ".ics"); err != nil {
			return err
		}
	}
	today, err := dayOf(options.today)
	if err != nil {
		return err
	}
	book, from, settings, err := s.opened(cmd, args, options.demo)
	if err != nil {
		return err
	}
	if sameFile(options.output, from.path) {
		return usage("the calendar would be written over the study "+from.path, "name another file with -o")
	}
	owned, err := owning(book.Study, options.owning)
	if err != nil {
		return err
	}
	plan, err := s.plan(from, book, booking.Options{Today: today, Owned: owned, Limits: booking.Usual()})
	if err != nil {
		return err
	}
	return s.printVisits(plan, options.output, settings)
}

// valued refuses flags that were given without a value.
func valued(cmd *cobra.Command, names ...string) error {
	for _, name := range names {
		if flag := cmd.Flags().Lookup(name); flag.Changed && flag.Value.String() == "" {
			return usage("--"+name+" has no value", "leave it out, or give one")
		}
	}
	return nil
}

// dayOf reads the day of --today, "" without.
func dayOf(text string) (quantity.Date, error) {
	if text == "" {
		return "", nil
	}
	date, err := quantity.ParseDate(text)
	var slip *quantity.ParseError
	if errors.As(err, &slip) {
		return "", usage("--today: "+slip.What, slip.Right)
	}
	return date, err
}

// owning reads the keys of --owning, nil without.
func owning(study *model.Study, list string) ([]bool, error) {
	if list == "" {
		return nil, nil
	}
	owned := make([]bool, len(study.Machines))
	known := make([]string, len(study.Machines))
	for m := range study.Machines {
		known[m] = study.Machines[m].Key
	}
	for key := range strings.SplitSeq(list, ",") {
		key = strings.TrimSpace(key)
		at := model.Index(study.Machines, key)
		if at < 0 {
			return nil, usage(`--owning names "`+key+`", which is no machine of the study`, problem.Suggest(key, known))
		}
		owned[at] = true
	}
	return owned, nil
}

// plan books the visits; what the dates contradict is told at its place.
func (s *session) plan(from source, book *intake.Book, options booking.Options) (*booking.Plan, error) {
	defer s.progress("planning the visits")()
	plan, problems, err := booking.Book(book.Study, options)
	for i := range problems {
		place, ok := book.Places.At(problems[i].Path)
		if !ok {
			place = problem.Place{File: from.name}
		}
		problems[i].Place = place
	}
	if len(problems) > 0 {
		return nil, problems.Sorted()
	}
	return &plan, err
}

// printVisits writes the calendar file and then the page or its JSON.
func (s *session) printVisits(plan *booking.Plan, output string, settings settings) error {
	said := reports.PlanVisits(plan, settings.numbers)
	if output != "" {
		var content bytes.Buffer
		if err := calendar.Write(&content, &said, stampOf(plan)); err != nil {
			return err
		}
		if err := s.publish(output, content.Bytes()); err != nil {
			return err
		}
	}
	return s.sayAs(settings.json,
		func(page io.Writer) error { return jsonout.WriteVisits(page, &said, output) },
		func(page io.Writer) error {
			return text.WriteVisits(page, &said, output, text.Options{Width: s.columns, Colour: s.coloured(settings)})
		})
}

// stampOf dates the calendar: today, when it is said, or the first day of the
// study, so that the same plan gives the same bytes.
func stampOf(plan *booking.Plan) time.Time {
	if plan.Today != "" {
		return time.Unix(0, 0).UTC().AddDate(0, 0, plan.Today.Day())
	}
	return firstDay(plan.Study)
}
