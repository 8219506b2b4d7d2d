package main

import (
	"context"
	"errors"
	"io"
	"os"
	"os/signal"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"shopstint/capital/decision"
	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/spend"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/reports"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
)

const spendHelp = `Tells what equipment will cost: every year of the study and the months of one of them, by
category, as money that leaves the account and as cost, with the ends of both in the futures.
Then what falls due: machines to replace and loans that end, sharpenings, belts and knives by
their dates; what to set aside each month for what comes next; and what an hour of a machine of
your own is worth charging to a job.

It is reckoned as if the cheapest set of machines to own together were bought at the start of
the study; with --owning KEY,KEY for those machines (none: rent everything), with --roadmap as
the roadmap buys and sells. Due dates count from --today, or from the first day of the study,
on which every edge and abrasive is taken for fresh.

The ranges come from futures, the same that decide draws with the same --seed: 512, or as many
as --futures says, rounded up to a multiple of 64; 0 for none.

With --json it is one JSON object of the shape shopstint.spend/1; the README documents it.`

type spendOptions struct {
	demo    bool
	roadmap bool
	owning  string
	today   string
	year    string
	savings string
}

func newSpend(s *session) *cobra.Command {
	var options spendOptions
	cmd := &cobra.Command{
		Use: "spend STUDY|--demo", Short: "what equipment will cost, by year and month", Long: spendHelp,
		RunE: func(cmd *cobra.Command, args []string) error { return s.spend(cmd, args, options) },
	}
	cmd.Flags().BoolVar(&options.demo, "demo", false, "take the invented demo study instead of a file")
	cmd.Flags().BoolVar(&options.roadmap, "roadmap", false, "buy and sell machines as the roadmap does")
	cmd.Flags().StringVar(&options.owning, "owning", "", "own these machines from the start: `KEY,KEY`, or none")
	cmd.Flags().StringVar(&options.today, "today", "", "count due dates from this `DATE`, such as 2027-03-01")
	cmd.Flags().StringVar(&options.year, "year", "", "show the months of this `YEAR` of the study (default: the first)")
	cmd.Flags().StringVar(&options.savings, "savings-rate", "", "yearly interest `RATE` on what is set aside (default: the study's discount rate)")
	addSettings(cmd, "discount_rate", "units", "number_format", "json", "seed", "futures")
	cmd.Flags().Lookup("futures").Usage = "draw this `NUMBER` of futures for the ranges (default: 512); 0 for none"
	return cmd
}

func (s *session) spend(cmd *cobra.Command, args []string, options spendOptions) error {
	if err := valued(cmd, "owning", "today", "year", "savings-rate"); err != nil {
		return err
	}
	if options.roadmap && options.owning != "" {
		return usage("--roadmap and --owning are two choices of machines", "leave one of them out")
	}
	book, _, settings, err := s.opened(cmd, args, options.demo)
	if err != nil {
		return err
	}
	asked, owning, err := options.read(book.Study)
	if err != nil {
		return err
	}
	return s.printSpending(cmd.Context(), book.Study, owning, asked, options.choice(), settings)
}

func (o spendOptions) choice() string {
	switch {
	case o.roadmap:
		return reports.ChoiceRoadmap
	case o.owning != "":
		return reports.ChoiceOwning
	}
	return reports.ChoiceTogether
}

// read turns what was written into what is asked of a study.
func (o spendOptions) read(study *model.Study) (spend.Options, decision.Owning, error) {
	asked := spend.Options{Savings: study.Studio.DiscountRate}
	which := decision.Owning{Roadmap: o.roadmap}
	var err error
	if which.Named, err = o.named(study); err != nil {
		return asked, which, err
	}
	if asked.Today, err = o.day(study); err != nil {
		return asked, which, err
	}
	if asked.ByMonth, err = o.yearOf(study); err != nil {
		return asked, which, err
	}
	savings, right := shareWithin(o.savings, pathDiscountRate)
	if right != "" {
		return asked, which, usage(`--savings-rate is "`+o.savings+`"`, right)
	}
	if savings != nil {
		asked.Savings = quantity.Share(*savings)
	}
	return asked, which, nil
}

// rentAll is the word of --owning for no machine.
const rentAll = "none"

func (o spendOptions) named(study *model.Study) ([]bool, error) {
	if strings.TrimSpace(o.owning) == rentAll {
		return make([]bool, len(study.Machines)), nil
	}
	return owning(study, o.owning)
}

// day reads --today, which must lie within the study.
func (o spendOptions) day(study *model.Study) (quantity.Date, error) {
	today, err := dayOf(o.today)
	if err != nil || today == "" {
		return today, err
	}
	if first, last := spend.Span(study); today.Day() < first.Day() || today.Day() > last.Day() {
		return "", usage("--today: "+string(today)+" is not in the years of the study", "give a day from "+string(first)+" to "+string(last))
	}
	return today, nil
}

// yearOf reads --year as a year of the study, 0 for the first.
func (o spendOptions) yearOf(study *model.Study) (int, error) {
	if o.year == "" {
		return 0, nil
	}
	first, last := spend.Years(study)
	year, err := strconv.Atoi(o.year)
	if err != nil || year < first || year > last {
		return 0, usage(`--year is "`+o.year+`"`, "give a year from "+strconv.Itoa(first)+" to "+strconv.Itoa(last))
	}
	return year - first, nil
}

func (s *session) printSpending(ctx context.Context, study *model.Study, owning decision.Owning, asked spend.Options, choice string, settings settings) error {
	ctx, release := signal.NotifyContext(ctx, os.Interrupt)
	defer release()
	most := spend.Usual
	if settings.futuresSaid {
		most = settings.futures
	}
	stop := s.progress("reckoning what is spent")
	found, err := decision.Spending(ctx, study, owning, asked, futures.Options{Seed: settings.seed, Most: most})
	stop()
	var none *decision.NoRoadmapError
	if errors.As(err, &none) {
		return usage("--roadmap: "+none.Error()+" can be changed by more machines than can be weighed set by set", "name machines with --owning")
	}
	if err != nil {
		return err
	}
	said := reports.SpendingOf(found, choice, settings.numbers)
	return s.sayAs(settings.json,
		func(page io.Writer) error { return jsonout.WriteSpending(page, &said) },
		func(page io.Writer) error { return text.WriteSpending(page, &said, text.Options{Width: s.columns}) })
}
