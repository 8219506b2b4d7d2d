package main

import (
	"io"

	"github.com/spf13/cobra"

	"shopstint/capital/decision/ways"
	"shopstint/model/quantity"
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
run after which a change costs least. Then the study's comparisons: what ways of doing the
same work cost by the finished metre or square metre, labour included, and from how much
work a year on another one is cheaper.

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
	book, _, settings, err := s.opened(cmd, args, demo)
	if err != nil {
		return err
	}
	told := reports.WearOf(book.Study, wear.Of(book.Study, work.New(book.Study)), settings.numbers)
	compared := *book.Study
	if settings.json {
		compared.Units = quantity.Metric.String() // the shape is in metres, whatever is shown
	}
	told.Comparisons = reports.ComparisonsOf(&compared, ways.Compare(&compared), settings.numbers)
	return s.sayAs(settings.json,
		func(page io.Writer) error { return jsonout.WriteWear(page, &told) },
		func(page io.Writer) error { return text.WriteWear(page, &told, text.Options{Width: s.columns}) })
}
