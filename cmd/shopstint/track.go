package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/intake"
	"shopstint/model/logbook"
	"shopstint/model/study"
	"shopstint/reports"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
	"shopstint/reports/workbook"
)

const trackHelp = `Holds the logbook against the study: minutes actual against reckoned by machine and operation,
invoices against the shop's tariff and when it changed, how long edges and abrasives last and
what they cost, rework, waiting, jobs a year, and what has drifted since last year; each figure
with the range that the evidence leaves. Then the inputs that the evidence is strong enough to
change. With few events it says so, and the study's own range speaks.

LOG.csv is what shopstint record writes, or a spreadsheet. A bad line is told by its number, and
nothing is tracked; --keep-good goes on without bad lines and says how many there were.

--apply writes the suggested inputs into STUDY, a text and not a workbook: only the lines that
it names change. The study as it was is kept beside it first.

-o writes a workbook of actual against study. With --json it is one JSON object of the shape
shopstint.track/1; the README documents it.`

type trackOptions struct {
	demo     bool
	keepGood bool
	apply    bool
	output   string
}

func newTrack(s *session) *cobra.Command {
	var options trackOptions
	cmd := &cobra.Command{
		Use: "track STUDY LOG.csv|--demo", Short: "hold the logbook against the study", Long: trackHelp,
		RunE: func(cmd *cobra.Command, args []string) error { return s.track(cmd, args, options) },
	}
	cmd.Flags().BoolVar(&options.demo, "demo", false, "track the logbook of the invented demo study")
	cmd.Flags().BoolVar(&options.keepGood, "keep-good", false, "go on without bad lines")
	cmd.Flags().BoolVar(&options.apply, "apply", false, "write the suggested inputs into the study, the old one kept beside it")
	cmd.Flags().StringVarP(&options.output, "output", "o", "", "write actual against study to this .xlsx `FILE`")
	addSettings(cmd, "units", "colour", "number_format", "json")
	return cmd
}

func (s *session) track(cmd *cobra.Command, args []string, options trackOptions) error {
	settings, err := s.settings(cmd)
	if err != nil {
		return err
	}
	from, log, err := trackedFiles(args, options)
	if err != nil {
		return err
	}
	switch flag := cmd.Flags().Lookup("output"); {
	case flag.Changed && options.output == "":
		return usage("-o has no value", "leave it out, or name a .xlsx file")
	case flag.Changed && (sameFile(options.output, from.path) || sameFile(options.output, log)):
		return usage("the workbook would be written over "+options.output, "name another file with -o")
	case flag.Changed:
		if err := fits(options.output, ".xlsx"); err != nil {
			return err
		}
	}
	src, err := s.read(from)
	if err != nil {
		return err
	}
	switch {
	case !options.apply:
	case intake.IsWorkbook(src):
		return usage("the suggestions cannot be written into the workbook "+from.name, "keep the study as a text first: shopstint new --from "+from.name+" study.yaml")
	default:
		if err := writable(from.path); err != nil {
			return err
		}
	}
	book, err := s.parse(from, src)
	if err != nil {
		return err
	}
	settings.apply(book.Study)
	return s.trackLog(book.Study, src, from, log, options, settings)
}

// trackedFiles reads which study and which logbook are meant; the logbook of the demo
// is "".
func trackedFiles(args []string, options trackOptions) (source, string, error) {
	if options.demo {
		if options.apply {
			return source{}, "", usage("--apply and --demo contradict each other", "the demo is not changed: name a study and its logbook")
		}
		from, err := sourceOf(args, true)
		return from, "", err
	}
	switch {
	case len(args) == 1 && args[0] != "":
		return source{}, "", usage("no logbook is named", "name it behind the study, such as: shopstint track "+args[0]+" log.csv")
	case len(args) > 2:
		return source{}, "", usage(`"`+args[2]+`" is a word too many`, "name a study and a logbook")
	case len(args) == 2 && args[1] == "":
		return source{}, "", usage("no logbook is named", "name it behind the study")
	case len(args) == 2 && args[0] == "-" && args[1] == "-":
		return source{}, "", usage("study and logbook cannot both come from standard input", "name one of them as a file")
	}
	from, err := sourceOf(args[:min(1, len(args))], false)
	if err != nil {
		return source{}, "", err
	}
	if from.pipe && options.apply {
		return source{}, "", usage("the suggestions cannot be written into standard input", "name the study as a file")
	}
	return from, args[1], nil
}

// trackLog reads the logbook, compares, and writes what was asked for.
func (s *session) trackLog(of *model.Study, src []byte, from source, log string, options trackOptions, settings settings) error {
	result, bad, err := s.tracked(of, log, options.keepGood)
	if err != nil {
		return err
	}
	written := map[string]string{}
	if !intake.IsWorkbook(src) {
		written = study.Written(src, reports.TrackedPaths(result))
	}
	told := reports.Track(result, written, bad, settings.numbers)
	var also []string
	if options.output != "" {
		if err := s.trackWorkbook(&told, options.output); err != nil {
			return err
		}
		also = append(also, "Workbook: "+options.output)
	}
	var applied *jsonout.TrackApplied
	if options.apply {
		words, where, err := s.applySuggestions(&told, src, from)
		if err != nil {
			return err
		}
		also, applied = append(also, words...), where
	}
	return s.sayAs(settings.json,
		func(page io.Writer) error { return jsonout.WriteTrack(page, &told, options.output, applied) },
		func(page io.Writer) error {
			return text.WriteTrack(page, &told, also, text.Options{Width: s.columns, Colour: s.coloured(settings)})
		})
}

// tracked streams a logbook into a comparison; bad is how many lines were left out.
func (s *session) tracked(of *model.Study, log string, keepGood bool) (result *track.Result, bad int, err error) {
	name, lines, err := s.logbook(log)
	if err != nil {
		return nil, 0, err
	}
	defer lines.Close()
	stop := s.progress("reading the logbook")
	defer stop()
	tracker, reader := track.New(of), logbook.NewReader(name, lines, of)
	problems, err := reader.Each(tracker.Add)
	if err != nil {
		return nil, 0, fmt.Errorf("%w", plainCause(err))
	}
	result = tracker.Result()
	if len(problems) > 0 && (!keepGood || result.Lines == 0) {
		return nil, 0, problems
	}
	return result, reader.Bad(), nil
}

// logbook opens a logbook: the demo's, standard input or a file.
func (s *session) logbook(log string) (name string, lines io.ReadCloser, err error) {
	switch log {
	case "":
		return demo.LogName, io.NopCloser(bytes.NewReader(demo.Log())), nil
	case "-":
		return noWorkbook("standard input", io.NopCloser(s.stdin))
	}
	file, err := os.Open(log)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil, inFile(log, "there is no such file", "name a logbook, or begin one with: shopstint record "+log+" KIND")
	}
	if err != nil {
		return "", nil, fmt.Errorf("could not read %s: %w", log, plainCause(err))
	}
	if about, err := file.Stat(); err == nil && about.IsDir() {
		return "", nil, errors.Join(inFile(log, "this is a folder", "name the logbook in it"), file.Close())
	}
	return noWorkbook(log, file)
}

// noWorkbook hands on a logbook unless its first bytes are those of a workbook.
func noWorkbook(name string, file io.ReadCloser) (string, io.ReadCloser, error) {
	lines := bufio.NewReader(file)
	if begin, _ := lines.Peek(firstBytes); intake.IsWorkbook(begin) { // what cannot be read is told by who reads it all
		return "", nil, errors.Join(inFile(name, "this is a workbook", `save its sheet as "CSV UTF-8", and name that`), file.Close())
	}
	return name, struct {
		io.Reader
		io.Closer
	}{lines, file}, nil
}

// firstBytes is how much of a file tells whether it is a workbook.
const firstBytes = 8

// suggested are the suggestions as changes of a study.
func suggested(told *reports.Tracked) []study.Change {
	changes := make([]study.Change, len(told.Suggestions))
	for i, one := range told.Suggestions {
		changes[i] = study.Change{Path: one.Path, Value: one.New, Low: one.Low, High: one.High, Source: track.SourceMark + string(told.Result.Last) + ": " + one.Because}
	}
	return changes
}

// trackWorkbook writes actual against study as a workbook. Its date is the first day
// of the study, so that the same logbook gives the same bytes on any day.
func (s *session) trackWorkbook(told *reports.Tracked, path string) error {
	var content bytes.Buffer
	if err := workbook.WriteTrack(&content, told, firstDay(told.Result.Study)); err != nil {
		return err
	}
	return s.publish(path, content.Bytes())
}
