package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"shopstint/capital/decision/budget"
	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/reports"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
)

const budgetHelp = `Tells what to put into the price of one job before it is started: hours at the bigger shop,
as they run and as they are paid, own hours, the invoice, the way, and all of it together. Each
figure is given as it is expected and as it is enough in 80 and in 95 of 100 such jobs, with
rework, ranges of minutes and the rounding of blocks in it: for the job on a visit of its own,
and for its part of a visit that it shares. Then what it would cost on machines of one's own.

JOB is the key or the name of a job type of the study. STUDY is a YAML file, a form or a
decision workbook (.xlsx), or - for standard input. The same --seed draws the same jobs.

With --json it is one JSON object of the shape shopstint.budget/1; the README documents it.`

type budgetOptions struct {
	demo   bool
	aboard string
}

func newBudget(s *session) *cobra.Command {
	var options budgetOptions
	cmd := &cobra.Command{
		Use: "budget JOB STUDY|--demo", Short: "what to put into one job's price", Long: budgetHelp,
		RunE: func(cmd *cobra.Command, args []string) error { return s.budget(cmd, args, options) },
	}
	cmd.Flags().BoolVar(&options.demo, "demo", false, "take the invented demo study instead of a file")
	cmd.Flags().StringVar(&options.aboard, "aboard", "", "share the visit among `JOBS` such jobs (default: as the study says)")
	addSettings(cmd, "json", "number_format", "seed")
	return cmd
}

func (s *session) budget(cmd *cobra.Command, args []string, options budgetOptions) error {
	if len(args) == 0 || args[0] == "" {
		return usage("no job is named", "name a job type of the study, such as: shopstint budget "+exampleJob+" --demo")
	}
	aboard, err := options.jobs(cmd)
	if err != nil {
		return err
	}
	book, from, settings, err := s.opened(cmd, args[1:], options.demo)
	if err != nil {
		return err
	}
	job, err := jobNamed(book.Study, args[0], from)
	if err != nil {
		return err
	}
	return s.printBudget(cmd.Context(), book.Study, job, budget.Options{Seed: settings.seed, Aboard: aboard}, settings)
}

// exampleJob is a job type of the demo.
const exampleJob = "river_dining"

// mostAboard is how many jobs may share a visit, as in a study.
const mostAboard = 12

// jobs reads how many jobs share the visit; 0 as the study says.
func (o budgetOptions) jobs(cmd *cobra.Command) (int, error) {
	if !cmd.Flags().Changed("aboard") {
		return 0, nil
	}
	jobs, err := strconv.Atoi(o.aboard)
	if err != nil || jobs < 1 || jobs > mostAboard {
		return 0, usage(`--aboard is "`+o.aboard+`"`, "give a whole number of jobs from 1 to "+strconv.Itoa(mostAboard))
	}
	return jobs, nil
}

// jobNamed finds a job type by its key or its name.
func jobNamed(study *model.Study, word string, from source) (int, error) {
	var keys []string
	for i := range study.JobTypes {
		kind := &study.JobTypes[i]
		if kind.Key == word || strings.EqualFold(kind.Name, word) {
			return i, nil
		}
		keys = append(keys, kind.Key)
	}
	return 0, usage(`"`+word+`" is no job type of `+from.name, problem.Suggest(word, keys))
}

func (s *session) printBudget(ctx context.Context, study *model.Study, job int, options budget.Options, settings settings) error {
	ctx, release := signal.NotifyContext(ctx, os.Interrupt)
	defer release()
	stop := s.progress("drawing jobs")
	result, err := budget.Of(ctx, study, job, options)
	stop()
	if err != nil {
		return err
	}
	told := reports.BudgetOf(study, result, options.Seed, settings.numbers)
	return s.sayAs(settings.json,
		func(page io.Writer) error { return jsonout.WriteBudget(page, &told) },
		func(page io.Writer) error { return text.WriteBudget(page, &told, text.Options{Width: s.columns}) })
}
