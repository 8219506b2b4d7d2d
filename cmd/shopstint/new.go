package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"shopstint/model/demo"
	"shopstint/model/intake"
	"shopstint/model/starter"
	"shopstint/model/study"
	form "shopstint/reports/intake"
	"shopstint/reports/text"
)

const newStudyHelp = `Writes a study to begin with: as FILE.yaml a commented text, as FILE.xlsx a form to fill in
with drop-downs, units and what each input means. It has every section; with --short it is
some fifteen lines, enough for a first answer, and all else is assumed.

With --from it writes the study of another file instead: a text as a form, or a form, or a
decision workbook with what was edited in it, as a text. Values, ranges, notes and sources are
kept, comments are not; with --short a form has only the inputs that are given.`

type newOptions struct {
	short, force bool
	from         string
}

func newNew(s *session) *cobra.Command {
	var options newOptions
	cmd := &cobra.Command{
		Use: "new FILE.yaml|FILE.xlsx", Short: "write a study to begin with, as a text or a form", Long: newStudyHelp,
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("from") && options.from == "" {
				return usage("--from has no value", "write it as --from FILE")
			}
			return s.start(args, options)
		},
	}
	cmd.Flags().BoolVar(&options.short, "short", false, "fifteen lines instead of all sections")
	cmd.Flags().BoolVar(&options.force, "force", false, "write over a file that is there")
	cmd.Flags().StringVar(&options.from, "from", "", "write the study of this `FILE`, in the other form")
	return cmd
}

func (s *session) start(args []string, options newOptions) error {
	switch {
	case len(args) == 0, len(args) == 1 && args[0] == "":
		return usage("no file is named", "name the study to write, such as: shopstint new study.yaml")
	case len(args) > 1:
		return usage(`"`+args[0]+`" and "`+args[1]+`" are two files`, "name one")
	}
	path := args[0]
	if err := fits(path, ".yaml", ".yml", ".xlsx"); err != nil {
		return err
	}
	if sameFile(options.from, path) {
		return usage("the study "+options.from+" would be written over itself", "name another file")
	}
	if _, err := os.Lstat(path); err == nil && !options.force {
		return usage(path+" is there already", "name another file, or write over it with --force")
	}
	content, err := s.begun(path, options)
	if err != nil {
		return err
	}
	if err := s.publish(path, content); err != nil {
		return err
	}
	next := "Its numbers are invented: put your own in place of every one, then run"
	if options.from != "" {
		next = "Answer it with"
	}
	return s.say(text.Clean("Wrote "+path+". "+next+": shopstint decide "+path) + "\n")
}

// begun is what a new study holds.
func (s *session) begun(path string, options newOptions) ([]byte, error) {
	isForm := strings.EqualFold(filepath.Ext(path), ".xlsx")
	switch {
	case options.from != "":
		return s.converted(isForm, options)
	case isForm && options.short:
		return formOf("short.yaml", starter.Short(), true)
	case isForm:
		return formOf(demo.Name, demo.Study(), false)
	case options.short:
		return starter.Short(), nil
	}
	return starter.Long(), nil
}

// converted is the study of another file in the form asked for.
func (s *session) converted(isForm bool, options newOptions) ([]byte, error) {
	if options.short && !isForm {
		return nil, usage("--short and --from a file that is written as a text contradict each other", "leave --short out: a text has only what is given")
	}
	from, err := sourceOf([]string{options.from}, false)
	if err != nil {
		return nil, err
	}
	book, err := s.load(from)
	if err != nil {
		return nil, err
	}
	if isForm {
		return written(book, options.short)
	}
	return study.Write(book.Study, book.Places, "# Written from "+text.Clean(filepath.Base(from.name))+". What is left out is assumed, and marked so in the answer.")
}

// formOf is a study of the program's own as a form.
func formOf(name string, src []byte, short bool) ([]byte, error) {
	read, places, problems := study.Load(name, src)
	if len(problems) > 0 {
		return nil, problems
	}
	return written(&intake.Book{Study: read, Places: places}, short)
}

func written(book *intake.Book, short bool) ([]byte, error) {
	var content bytes.Buffer
	err := form.Write(&content, book.Study, book.Places, form.Options{Short: short, Created: firstDay(book.Study)})
	return content.Bytes(), err
}
