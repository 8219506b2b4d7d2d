package main

import "github.com/spf13/cobra"

const decideHelp = `Answers a study: for each machine, buy it or keep renting, and why.

Writes the decision workbook as NAME-decision.xlsx beside the study, in the output folder
when there is one, or where -o says, and prints the short answer. STUDY is a YAML file, or -
for standard input. With --json the answer is one JSON object of the shape
shopstint.decide/1, and problems are one of the shape shopstint.problems/1 on standard
error; the README documents both.

Settings come from defaults, then the settings file (--settings, SHOPSTINT_SETTINGS, or
shopstint/settings.yaml in your configuration folder), then SHOPSTINT_... variables, then
flags. In the file and the environment they are called output_folder, units, colour,
number_format, discount_rate, close_call, json.`

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
	path, err := workbookPath(from, options, settings)
	if err != nil {
		return err
	}
	study, err := s.load(from)
	if err != nil {
		return err
	}
	settings.apply(study)
	answer, err := s.answer(study, path)
	if err != nil {
		return err
	}
	return s.print(answer, path, settings)
}

// workbookPath is where the workbook goes, "" for nowhere.
func workbookPath(from source, options decideOptions, settings settings) (string, error) {
	switch {
	case options.noWorkbook && options.output != "":
		return "", usage("-o and --no-workbook contradict each other", "leave one of them out")
	case options.noWorkbook:
		return "", nil
	}
	return outputPath(from, options.output, settings.outputFolder)
}
