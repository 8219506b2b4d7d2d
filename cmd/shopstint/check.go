package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"shopstint/model"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
)

const checkHelp = `Checks a study and tells every problem at once, each with its place (line and column, or
sheet and cell), what is wrong and what would be right. Writes nothing. STUDY is a YAML file,
a form or a decision workbook (.xlsx), or - for standard input.`

func newCheck(s *session) *cobra.Command {
	isDemo := false
	cmd := &cobra.Command{
		Use: "check STUDY|--demo", Short: "tell every problem of a study", Long: checkHelp,
		RunE: func(cmd *cobra.Command, args []string) error { return s.check(cmd, args, isDemo) },
	}
	cmd.Flags().BoolVar(&isDemo, "demo", false, "check the invented demo study instead of a file")
	addSettings(cmd, "json")
	return cmd
}

func (s *session) check(cmd *cobra.Command, args []string, isDemo bool) error {
	book, from, settings, err := s.opened(cmd, args, isDemo)
	if err != nil {
		return err
	}
	checked := contents(from, book.Study)
	if settings.json {
		var page strings.Builder
		if err := checked.Write(&page); err != nil {
			return err
		}
		return s.say(page.String())
	}
	line := fmt.Sprintf("%s: ok: %s, %s, %s; %d inputs given, %d assumed", from.name, counted(checked.Shops, "shop"),
		counted(checked.Machines, "candidate machine"), counted(checked.JobTypes, "job type"), checked.Given, checked.Assumed)
	return s.say(strings.Join(text.Wrap(line, text.Width), "\n") + "\n")
}

// contents counts what a study holds.
func contents(from source, study *model.Study) jsonout.Checked {
	checked := jsonout.Checked{Study: from.name, Shops: len(study.Shops), Machines: len(study.Machines), JobTypes: len(study.JobTypes)}
	model.Walk(study, func(leaf model.Leaf) {
		if study.Origins[leaf.Path].Assumed {
			checked.Assumed++
		} else {
			checked.Given++
		}
	})
	return checked
}
