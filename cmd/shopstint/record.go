package main

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"shopstint/cmd/shopstint/keep"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/reports/text"
)

const recordHelp = `Writes one line into the studio's logbook, a CSV file that spreadsheets open too; the file is
made when it is not there. KIND is what happened:

  visit     --shop; --minutes on its clock and --amount of its invoice, or one of them;
            --jobs aboard, --job when all are of one type
  work      --machine --job --operation --minutes, measured without the set-up; --jobs, --length
            or --area run; --operation setup for a set-up alone, sand/80 for one grit
  use       --edge or --abrasive, --item; --length, --area or --hours put on it
  sharpen   --edge, --item; --reason dull or damage; --amount with the errand
  replace   --edge or --abrasive, --item; --reason dull, damage, spent or lost
  buy       --what, --amount; --item that begins with it, --jobs for how many
  done      --job; --jobs finished
  rework    --job; --operation; --jobs to be done again, --minutes of waiting

--date is today when it is not given. With --study or --demo the keys are checked.

  shopstint record log.csv visit --shop big_shop --minutes 85 --amount 240
  shopstint record log.csv sharpen --edge small_blade --item 2 --reason dull --amount 32

With --from the lines of another CSV file are checked and added, as a spreadsheet saves them;
its first line names the columns: date, kind, subject, and so on. When one of its lines is
bad, or is in the logbook already, nothing is written: --keep-good writes the others, and
--again writes what is there once more. The exit status is 2 when any line was not written.

Several may record into one file at the same time. A line that was confirmed is on the disk.`

type recordOptions struct {
	line     map[string]*string // by flag
	study    string
	demo     bool
	from     string
	keepGood bool
	again    bool
}

// lineFlags are the flags that fill a line, each with the column it fills.
var lineFlags = []struct{ flag, column, about string }{
	{"date", "date", "`DAY` on which it happened, such as 2026-11-26 (today when not given)"},
	{"shop", "subject", "shop that was visited, its `KEY`"},
	{"machine", "subject", "machine or tool that did the work, its `KEY`"},
	{"edge", "subject", "edge that was used, sharpened or replaced, its `KEY`"},
	{"abrasive", "subject", "abrasive that was used or replaced, its `KEY`"},
	{"what", "subject", "what was bought: a `KEY` of the study, or any name"},
	{"item", "item", "which one of several edges or abrasives: a `LABEL` of yours, such as 2"},
	{"job", "job", "job type, its `KEY`"},
	{"operation", "operation", "operation of the job type, its `KEY`"},
	{"jobs", "jobs", "how `MANY` (1 when not given)"},
	{"minutes", "minutes", "`MINUTES`, or a time such as \"1 h 25 min\""},
	{"amount", "amount", "`MONEY` that was paid"},
	{"length", "length", "`METRES`, or a length such as \"130 ft\""},
	{"area", "area", "square metres, or an `AREA` such as \"30 ft2\""},
	{"hours", "hours", "`HOURS` of running, or a time such as \"90 min\""},
	{"reason", "reason", "why a life ended: a `WORD`, dull, damage, spent or lost"},
	{"note", "note", "`TEXT` worth keeping"},
}

// subjectFlags are the flags that name the subject of each kind.
var subjectFlags = map[logbook.Kind][]string{
	logbook.Visit: {"shop"}, logbook.Work: {"machine"}, logbook.Use: {"edge", "abrasive"}, logbook.Sharpen: {"edge"},
	logbook.Replace: {"edge", "abrasive"}, logbook.Buy: {"what"},
}

func newRecord(s *session) *cobra.Command {
	options := recordOptions{line: map[string]*string{}}
	cmd := &cobra.Command{
		Use: "record LOG.csv KIND", Short: "write a line into the logbook", Long: recordHelp,
		RunE: func(cmd *cobra.Command, args []string) error { return s.record(cmd, args, options) },
	}
	cmd.Flags().SortFlags = false
	for _, one := range lineFlags {
		options.line[one.flag] = cmd.Flags().String(one.flag, "", one.about)
	}
	cmd.Flags().StringVar(&options.study, "study", "", "check the keys against this `STUDY`")
	cmd.Flags().BoolVar(&options.demo, "demo", false, "check the keys against the invented demo study")
	cmd.Flags().StringVar(&options.from, "from", "", "add the lines of this CSV `FILE`, - for standard input")
	cmd.Flags().BoolVar(&options.keepGood, "keep-good", false, "with --from: write the good lines when others are bad")
	cmd.Flags().BoolVar(&options.again, "again", false, "with --from: write lines that are there already once more")
	return cmd
}

func (s *session) record(cmd *cobra.Command, args []string, options recordOptions) error {
	if len(args) == 0 || args[0] == "" {
		return usage("no logbook is named", "name it, such as: shopstint record log.csv visit --shop big_shop --minutes 85")
	}
	if err := plainUse(cmd, args, options); err != nil {
		return err
	}
	if err := fits(args[0], ".csv"); err != nil {
		return err
	}
	study, err := s.checkedAgainst(options)
	if err != nil {
		return err
	}
	if cmd.Flags().Changed("from") {
		return s.recordFrom(args[0], study, options)
	}
	texts, err := s.texts(cmd, args, options)
	if err != nil {
		return err
	}
	entry, problems := logbook.Compose(texts, study)
	if len(problems) > 0 {
		return ofFlags(problems, logbook.Kind(texts["kind"]))
	}
	torn, err := s.keepLines(args[0], func(layout logbook.Layout, _ bool) ([]byte, error) { return lineOf(args[0], layout, &entry) })
	if err != nil {
		return err
	}
	words := "Wrote into " + args[0] + ": " + entry.String() + "."
	if study == nil {
		words += " The keys were not checked: --study STUDY does that."
	}
	return s.say(paragraph(words) + torn)
}

// plainUse tells what does not go together on the command line.
func plainUse(cmd *cobra.Command, args []string, options recordOptions) error {
	from := cmd.Flags().Changed("from")
	for _, one := range lineFlags {
		switch changed := cmd.Flags().Changed(one.flag); {
		case changed && from:
			return usage("--from and --"+one.flag+" contradict each other", "write one line, or those of a file")
		case changed && strings.TrimSpace(*options.line[one.flag]) == "":
			return usage("--"+one.flag+" has no value", "leave it out, or give one")
		}
	}
	switch {
	case from && options.from == "":
		return usage("--from has no value", "write it as --from FILE.csv")
	case from && len(args) > 1:
		return usage(`--from and "`+args[1]+`" contradict each other`, "the file says itself of what kind its lines are")
	case !from && (options.keepGood || options.again):
		return usage("--keep-good and --again go with --from", "leave them out for a single line")
	case from && sameFile(options.from, args[0]):
		return usage("the logbook "+args[0]+" would be added to itself", "name another file")
	case !from && len(args) == 1:
		return usage("no kind of line is named", "one of "+strings.Join(kindNames(), ", "))
	case len(args) > 2:
		return usage(`"`+args[2]+`" is a word too many`, "give what belongs to the line by flags, with texts in quotes: --note \"burnt edge\"")
	case cmd.Flags().Changed("study") && options.study == "":
		return usage("--study has no value", "write it as --study STUDY")
	}
	return nil
}

func kindNames() []string {
	names := make([]string, len(logbook.Kinds))
	for i, kind := range logbook.Kinds {
		names[i] = string(kind)
	}
	return names
}

// checkedAgainst is the study whose keys are checked, nil for none.
func (s *session) checkedAgainst(options recordOptions) (*model.Study, error) {
	if options.study == "" && !options.demo {
		return nil, nil
	}
	var args []string
	if options.study != "" {
		args = append(args, options.study)
	}
	from, err := sourceOf(args, options.demo)
	if err != nil {
		return nil, err
	}
	book, err := s.load(from)
	if err != nil {
		return nil, err
	}
	return book.Study, nil
}

// texts are the cells of the line by column.
func (s *session) texts(cmd *cobra.Command, args []string, options recordOptions) (map[string]string, error) {
	word := strings.ToLower(args[1])
	kind := logbook.Kind(word)
	texts := map[string]string{"kind": word}
	if !cmd.Flags().Changed("date") {
		today, err := s.today()
		if err != nil {
			return nil, err
		}
		texts["date"] = today
	}
	named, isKind := "", slices.Contains(logbook.Kinds, kind)
	for _, one := range lineFlags {
		switch {
		case !cmd.Flags().Changed(one.flag):
			continue
		case one.column != "subject" || !isKind:
		case !slices.Contains(subjectFlags[kind], one.flag):
			return nil, usage("a "+word+" line has no --"+one.flag, wanted(kind))
		case named != "":
			return nil, usage("--"+named+" and --"+one.flag+" contradict each other", "leave one of them out")
		default:
			named = one.flag
		}
		texts[one.column] = *options.line[one.flag]
	}
	return texts, nil
}

// today is the day by the clock, which may have lost the time.
func (s *session) today() (string, error) {
	today := s.now().Format(time.DateOnly)
	if _, err := quantity.ParseDate(today); err != nil {
		return "", usage("by the clock of this machine today is "+today, "set it right, or give the day with --date")
	}
	return today, nil
}

func wanted(kind logbook.Kind) string {
	if flags := subjectFlags[kind]; len(flags) > 0 {
		return "name what it is about with --" + strings.Join(flags, " or --")
	}
	return "leave it out; the job type says what it is about"
}

// ofFlags puts the flag that is to blame in front of each problem.
func ofFlags(problems problem.List, kind logbook.Kind) problem.List {
	for i, one := range problems {
		switch flags := subjectFlags[kind]; {
		case one.Path == "kind":
		case one.Path == "subject" && len(flags) > 0:
			problems[i].What = "--" + strings.Join(flags, " or --") + ": " + one.What
		default:
			problems[i].What = "--" + one.Path + ": " + one.What
		}
	}
	return problems
}

// keepLines adds to a logbook what compose makes in its layout; isNew is whether
// it begins with that. It returns what is to be told of a line whose end was
// lost before.
func (s *session) keepLines(path string, compose func(layout logbook.Layout, isNew bool) ([]byte, error)) (torn string, err error) {
	err = keep.Append(s.disk, path, func(found keep.Found) ([]byte, error) {
		layout := logbook.Standard()
		begin, isNew := begunHeader(layout.Header(), found)
		if !isNew {
			var problems problem.List
			if layout, problems = logbook.LayoutOf(path, found.First); len(problems) > 0 {
				return nil, problems
			}
			var lost bool
			begin, lost = layout.Ending(found.Tail)
			torn = ofTail(string(found.Tail), lost)
		}
		lines, err := compose(layout, isNew)
		if err != nil || len(lines) == 0 {
			return nil, err
		}
		return append(begin, lines...), nil
	})
	var problems problem.List
	if errors.As(err, &problems) {
		return torn, err
	}
	return torn, unwritten(path, err)
}

// begunHeader is what is missing of the header in a logbook that has no line yet:
// all of it in a new one, its end where a program was killed that began one.
func begunHeader(header []byte, found keep.Found) (rest []byte, isNew bool) {
	if len(found.Tail) < len(found.First) {
		return nil, false
	}
	return bytes.CutPrefix(header, found.First)
}

// mostTail is how much of a line without an end is shown, in characters.
const mostTail = 60

// ofTail tells of a line before the new one that had no line break.
func ofTail(tail string, lost bool) string {
	if letters := []rune(tail); len(letters) > mostTail {
		tail = string(letters[:mostTail]) + "…"
	}
	switch {
	case tail == "":
		return ""
	case lost:
		return paragraph(`The line before it had lost its end and was marked with "` + strings.TrimSpace(logbook.TornMark) + `": complete it and take the mark out, or take the line out: ` + tail)
	}
	return paragraph("The line before it had no line break and got one; see whether it is whole: " + tail)
}

// lineOf writes an entry in the layout of a logbook.
func lineOf(path string, layout logbook.Layout, entry *logbook.Entry) ([]byte, error) {
	line, problems := layout.Line(entry)
	for i := range problems {
		problems[i].Place.File = path
	}
	return line, problems.Err()
}

func paragraph(words string) string {
	return strings.Join(text.Wrap(text.Clean(words), text.Width), "\n") + "\n"
}
