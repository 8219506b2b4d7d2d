package main

import (
	"errors"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"shopstint/model/problem"
)

const rootHelp = `Rent the bigger shop's machines by the hour, or own them?

shopstint reads a study of your studio (a text or a workbook), reckons both sides machine
by machine, prints a short answer and writes a workbook with live formulas.

  shopstint decide --demo          see it at work, no file needed
  shopstint new study.yaml         begin a study of your own (or: new study.xlsx)
  shopstint decide study.yaml      answer it`

const exitHelp = `Exit status: 0 done, 1 the work failed, 2 bad input or usage.`

// newRoot builds the command tree of one run.
func newRoot(s *session) *cobra.Command {
	root := &cobra.Command{
		Use: "shopstint", Short: "rent machines by the hour, or own them", Long: rootHelp,
		SilenceErrors: true, SilenceUsage: true,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error { return s.root(cmd, args) },
	}
	root.Flags().Bool("version", false, "print the version")
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetHelpFunc(s.help)
	root.SetUsageFunc(func(cmd *cobra.Command) error { s.help(cmd, nil); return nil })
	root.SetFlagErrorFunc(flagProblem)
	root.AddCommand(
		newDecide(s), newBudget(s), newVisits(s), newWear(s), newSpend(s), newRecord(s), newTrack(s),
		newCheck(s), newNew(s), newVersion(s),
	)
	root.SetHelpCommand(newHelp())
	return root
}

// root answers a command line without a known command.
func (s *session) root(cmd *cobra.Command, args []string) error {
	if version, err := cmd.Flags().GetBool("version"); err == nil && version {
		return s.version()
	}
	if len(args) == 0 {
		return cmd.Help()
	}
	return unknownCommand(cmd, args[0])
}

func unknownCommand(root *cobra.Command, word string) error {
	return usage(`unknown command "`+word+`"`, problem.Suggest(word, commandNames(root)))
}

func commandNames(root *cobra.Command) []string {
	var names []string
	for _, command := range root.Commands() {
		names = append(names, command.Name())
	}
	return names
}

// flagProblem puts a flag that cannot be read in our own words.
func flagProblem(cmd *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	var missing *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		return unknownFlag(cmd, unknown)
	case errors.As(err, &missing):
		return usage("--"+missing.GetFlag().Name+" has no value", "write it as --"+missing.GetFlag().Name+" VALUE")
	case errors.As(err, &invalid):
		return usage("--"+invalid.GetFlag().Name+` is "`+invalid.GetValue()+`"`, "write the flag without a value")
	}
	return usage("a flag cannot be read: "+oneLine(err), "shopstint "+cmd.Name()+" --help lists the flags")
}

func unknownFlag(cmd *cobra.Command, unknown *pflag.NotExistError) error {
	name := unknown.GetSpecifiedName()
	if len(name) == 1 {
		return usage("unknown flag -"+name, cmd.CommandPath()+" --help lists the flags")
	}
	var known []string
	cmd.Flags().VisitAll(func(flag *pflag.Flag) { known = append(known, flag.Name) })
	right := cmd.CommandPath() + " --help lists the flags"
	if nearest, ok := problem.Nearest(name, known); ok {
		right = "did you mean --" + nearest + "?"
	}
	return usage("unknown flag --"+name, right)
}
