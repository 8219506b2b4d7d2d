package main

import (
	"strings"

	"github.com/spf13/cobra"

	"shopstint/model/wear"
	"shopstint/model/work"
	"shopstint/reports"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
)

const wearHelp = `Tells what every edge and abrasive of a study costs by the metre run or the square metre
passed, from new to spent: how often it can be sharpened and what ends that, its number or its
size; how far it runs until it is dull, and what sudden damage takes of that; what a metre
costs in each material. Then a year of it on each machine: new ones and sharpenings, the
spare sets that keep work from waiting, own time for changes and lost to dullness, and the
run after which a change costs least.

STUDY is a YAML file, a form or a decision workbook (.xlsx), or - for standard input.

With --json it is one JSON object of the shape shopstint.wear/1; the README documents it.`

func newWear(s *session) *cobra.Command {
	demo := false
	cmd := &cobra.Command{
		Use: "wear STUDY|--demo", Short: "what edges and abrasives cost", Long: wearHelp,
		RunE: func(cmd *cobra.Command, args []string) error { return s.wear(cmd, args, demo) },
	}
	cmd.Flags().BoolVar(&demo, "demo", false, "take the invented demo study instead of a file")
	addSettings(cmd, "units", "json", "number_format")
	return cmd
}

func (s *session) wear(cmd *cobra.Command, args []string, demo bool) error {
	settings, err := s.settings(cmd)
	if err != nil {
		return err
	}
	from, err := sourceOf(args, demo)
	if err != nil {
		return err
	}
	book, err := s.load(from)
	if err != nil {
		return err
	}
	settings.apply(book.Study)
	told := reports.WearOf(book.Study, wear.Of(book.Study, work.New(book.Study)), settings.numbers)
	var page strings.Builder
	if settings.json {
		err = jsonout.WriteWear(&page, &told)
	} else {
		err = text.WriteWear(&page, &told, text.Options{Width: s.columns})
	}
	if err != nil {
		return err
	}
	return s.say(page.String())
}
