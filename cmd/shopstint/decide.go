package main

import (
	"github.com/spf13/cobra"

	"shopstint/model/intake"
)

const decideHelp = `Answers a study: for each machine, buy it or keep renting, and why.

Writes the decision workbook as NAME-decision.xlsx beside the study, in the output folder
when there is one, or where -o says, and prints the short answer. STUDY is a YAML file, a
form that was filled in (.xlsx, see: shopstint new), or - for standard input.

STUDY may also be a decision workbook whose inputs were edited: it is solved again. A fresh
workbook is written beside it as NAME-again.xlsx, under a name that is free; it is written
over the edited one only when -o says so. The answer then begins with the inputs that were
edited and how each machine's answer moved.

With --futures N the inputs that have a range and the jobs of each year are drawn again and
again, until the sampling error is small or N futures are drawn: how often is each choice the
cheapest, by how much, and what would it be worth to know more. The demo takes about a second
for ten thousand. The same --seed draws the same futures.

With --json the answer is one JSON object of the shape shopstint.decide/1, and problems are
one of the shape shopstint.problems/1 on standard error; the README documents both.

Settings come from defaults, then the settings file (--settings, SHOPSTINT_SETTINGS, or
shopstint/settings.yaml in your configuration folder), then SHOPSTINT_... variables, then
flags. In the file and the environment they are called output_folder, units, colour,
number_format, discount_rate, close_call, json, seed, futures.`

type decideOptions struct {
	demo       bool
	output     string
	noWorkbook bool
}

func newDecide(s *session) *cobra.Command {
	var options decideOptions
	cmd := &cobra.Command{
		Use: "decide STUDY|--demo", Short: "answer a study and write its workbook", Long: decideHelp,
		RunE: func(cmd *cobra.Command, args []string) error { return s.decide(cmd, args, options) },
	}
	cmd.Flags().BoolVar(&options.demo, "demo", false, "answer the invented demo study instead of a file")
	cmd.Flags().StringVarP(&options.output, "output", "o", "", "write the workbook to this .xlsx `FILE`")
	cmd.Flags().BoolVar(&options.noWorkbook, "no-workbook", false, "print the answer only")
	addSettings(cmd)
	return cmd
}

func (s *session) decide(cmd *cobra.Command, args []string, options decideOptions) error {
	if cmd.Flags().Changed("output") && options.output == "" {
		return usage("-o has no value", "write it as -o FILE.xlsx")
	}
	settings, err := s.settings(cmd)
	if err != nil {
		return err
	}
	from, err := sourceOf(args, options.demo)
	if err != nil {
		return err
	}
	if err := options.fit(); err != nil {
		return err
	}
	book, err := s.load(from)
	if err != nil {
		return err
	}
	path, err := options.path(from, book, settings)
	if err != nil {
		return err
	}
	settings.apply(book.Study)
	answer, err := s.answer(cmd.Context(), book.Study, path, settings)
	if err != nil {
		return err
	}
	if book.Solved == nil {
		return s.print(answer, path, settings)
	}
	settings.apply(book.Solved)
	return s.printAgain(book, answer, path, settings)
}

// fit refuses, before anything is read, an output that cannot be.
func (o decideOptions) fit() error {
	switch {
	case o.noWorkbook && o.output != "":
		return usage("-o and --no-workbook contradict each other", "leave one of them out")
	case o.output != "":
		return fits(o.output, ".xlsx")
	}
	return nil
}

// path is where the workbook goes, "" for nowhere.
func (o decideOptions) path(from source, book *intake.Book, settings settings) (string, error) {
	switch {
	case o.noWorkbook:
		return "", nil
	case book.Solved != nil && o.output == "":
		return againPath(from, settings.outputFolder)
	case book.Solved != nil:
		return o.output, nil
	}
	return outputPath(from, o.output, settings.outputFolder)
}
