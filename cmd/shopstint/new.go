package main

import (
	"os"

	"github.com/spf13/cobra"

	"shopstint/model/starter"
	"shopstint/reports/text"
)

const newStudyHelp = `Writes a commented study to begin with: every section, with what each input means, its
unit and its usual range. With --short it is some fifteen lines, enough for a first answer;
all else is assumed.`

type newOptions struct{ short, force bool }

func newNew(s *session) *cobra.Command {
	var options newOptions
	cmd := &cobra.Command{
		Use: "new FILE.yaml", Short: "write a commented study to begin with", Long: newStudyHelp,
		RunE: func(_ *cobra.Command, args []string) error { return s.start(args, options) },
	}
	cmd.Flags().BoolVar(&options.short, "short", false, "fifteen lines instead of all sections")
	cmd.Flags().BoolVar(&options.force, "force", false, "write over a file that is there")
	return cmd
}

func (s *session) start(args []string, options newOptions) error {
	switch {
	case len(args) == 0:
		return usage("no file is named", "name the study to write, such as: shopstint new study.yaml")
	case len(args) > 1:
		return usage(`"`+args[0]+`" and "`+args[1]+`" are two files`, "name one")
	}
	path := args[0]
	if err := fits(path, ".yaml", ".yml"); err != nil {
		return err
	}
	if _, err := os.Lstat(path); err == nil && !options.force {
		return usage(path+" is there already", "name another file, or write over it with --force")
	}
	content := starter.Long()
	if options.short {
		content = starter.Short()
	}
	if err := publish(path, content); err != nil {
		return err
	}
	return s.say(text.Clean("Wrote "+path+". Put your own numbers in, then run: shopstint decide "+path) + "\n")
}
