package logbook

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"

	"shopstint/model"
	"shopstint/model/problem"
)

// Bounds of what is read. What is beyond is a problem of the logbook.
const (
	MostLine     = 16 << 10 // bytes of one line
	MostBytes    = 1 << 30  // bytes of a logbook
	MostProblems = 100      // problems that are listed; more are counted
)

// TornMark ends a line whose rest was lost when a machine stopped while it was
// written: whoever writes behind such a line puts it there (see Layout.Ending), so
// that half a number is not taken for a whole one.
const TornMark = " …torn off"

// Read streams the entries of a CSV file in memory that does not grow with it,
// and calls each for every good line in the order of the file. Bad lines go to
// the list, by line and column, with what is wrong and what would be right;
// MostProblems of them, and then how many more there are. With a study its keys
// and its currency are checked too.
//
// The header line tells the order of the columns and what stands between them.
// The file may be UTF-8, or UTF-16 that begins with a byte order mark.
//
// The error is one of reading, or the one of each, with which it ends.
//
// Source: Y. Shafranovich, Common Format and MIME Type for CSV Files, RFC 4180,
// 2005; a cell here holds no line break.
func Read(name string, in io.Reader, study *model.Study, each func(Entry) error) (problem.List, error) {
	return NewReader(name, in, study).Each(each)
}

// Reader reads one logbook once.
type Reader struct {
	name     string
	lines    *bufio.Reader
	known    *keys
	layout   Layout
	splitter *csv.Reader
	feed     feed

	line     int   // the one that was read last
	split    int   // cells of it
	bytes    int64 // read so far
	ended    bool  // the last line had a line break
	problems problem.List
	bad      int // lines with problems
	unlisted int
}

// NewReader begins to read a logbook; a nil study knows all keys.
func NewReader(name string, in io.Reader, study *model.Study) *Reader {
	plain := transform.NewReader(in, unicode.BOMOverride(transform.Nop))
	return &Reader{name: name, lines: bufio.NewReaderSize(plain, MostLine), known: keysOf(study)}
}

// Layout is how the lines are written; known once Each has called or returned.
func (r *Reader) Layout() Layout { return r.layout }

// Bad is how many lines have been found wrong.
func (r *Reader) Bad() int { return r.bad }

// Each is Read, on what the reader was made for.
func (r *Reader) Each(each func(Entry) error) (problem.List, error) {
	if err := r.header(); err != nil || r.bad > 0 {
		return r.listed(), err
	}
	var line cells
	var faults []fault
	for {
		text, err := r.next()
		if errors.Is(err, io.EOF) {
			return r.listed(), nil
		}
		if err != nil {
			return r.listed(), fmt.Errorf("could not read %s: %w", r.name, err)
		}
		if blank(text, r.layout.Separator) || !r.cut(text, &line) {
			continue
		}
		var entry Entry
		if entry, faults = compose(&line, r.layout, r.known, faults[:0]); len(faults) > 0 {
			r.tell(text, faults)
			continue
		}
		entry.Line = r.line
		if err := each(entry); err != nil {
			return r.listed(), err
		}
	}
}

// header reads the first line.
func (r *Reader) header() error {
	text, err := r.next()
	if err != nil && !errors.Is(err, io.EOF) {
		return fmt.Errorf("could not read %s: %w", r.name, err)
	}
	if r.bad > 0 {
		return nil
	}
	if errors.Is(err, io.EOF) {
		r.line = 1
		r.refuse(0, "the logbook is empty", "its first line names the columns, such as "+standardTitles())
		return nil
	}
	layout, problems := parseLayout(r.name, string(text))
	if len(problems) > 0 {
		r.bad++
		r.problems = problems
		return nil
	}
	r.layout = layout
	r.layout.Windows = r.feed.windows
	r.splitter = csv.NewReader(&r.feed)
	r.splitter.Comma = rune(layout.Separator)
	r.splitter.FieldsPerRecord = -1
	r.splitter.ReuseRecord = true
	return nil
}

// next is the next line that can be one, without its line break. A logbook that
// is too large ends at its bound, in the midst of a line too.
func (r *Reader) next() ([]byte, error) {
	for {
		text, err := r.lines.ReadSlice('\n')
		r.bytes += int64(len(text))
		if len(text) == 0 || err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, bufio.ErrBufferFull) {
			return nil, err
		}
		r.line++
		if r.bytes > MostBytes {
			r.refuse(0, "the logbook is larger than "+strconv.Itoa(MostBytes>>20)+" MB", "begin a new one each year")
			return nil, io.EOF
		}
		if errors.Is(err, bufio.ErrBufferFull) {
			right := "shorten its note; a quote that is not closed may be the cause"
			if r.line == 1 {
				right = "it names the columns, such as " + standardTitles()
			}
			r.refuse(0, "the line is longer than "+strconv.Itoa(MostLine)+" bytes", right)
			if err := r.skip(); err != nil {
				return nil, err
			}
			continue
		}
		r.ended = err == nil
		text = bytes.TrimSuffix(text, []byte("\n"))
		bare := bytes.TrimSuffix(text, []byte("\r"))
		r.feed.windows = len(bare) < len(text)
		if at := strange(bare); at >= 0 && !bytes.HasSuffix(bare, []byte(TornMark)) {
			r.refuseStrange(bare, at)
			if r.line > 1 {
				continue
			}
		}
		return bare, nil
	}
}

// skip passes over the rest of a line, as far as the logbook is read.
func (r *Reader) skip() error {
	for {
		text, err := r.lines.ReadSlice('\n')
		r.bytes += int64(len(text))
		switch {
		case !errors.Is(err, bufio.ErrBufferFull):
			return err
		case r.bytes > MostBytes:
			return nil
		}
	}
}

// strange is where a line has what is no text, -1 when it has not: bytes that
// are no UTF-8 and control signs other than a tab.
func strange(line []byte) int {
	plain := true
	for i, c := range line {
		if c < ' ' && c != '\t' || c == 0x7f {
			return i
		}
		plain = plain && c < utf8.RuneSelf
	}
	if plain || utf8.Valid(line) {
		return -1
	}
	at := 0
	for at < len(line) {
		letter, size := utf8.DecodeRune(line[at:])
		if letter == utf8.RuneError && size <= 1 {
			break
		}
		at += size
	}
	return at
}

func (r *Reader) refuseStrange(line []byte, at int) {
	what, right := strangeness(line[at])
	r.refuse(utf8.RuneCount(line[:at])+1, what, right)
}

// strangeness says what a byte is that stands in no text.
func strangeness(c byte) (what, right string) {
	switch {
	case c == 0:
		return "the line is no text", `save the file as "CSV UTF-8"`
	case c == '\r':
		return "a line break stands within the line", "save the file as CSV with the line breaks of Windows or Unix, and cells without any"
	case c >= utf8.RuneSelf:
		return "a letter is not written as UTF-8", `save the file as "CSV UTF-8"`
	}
	return "a control sign stands in the line", "take it out"
}

// blank tells whether a line has no cell with anything in it.
func blank(line []byte, separator byte) bool {
	for _, c := range line {
		if c != separator && c != ' ' && c != '\t' {
			return false
		}
	}
	return true
}

// feed hands the CSV reader of the library one line, and then an end: so a
// quote that is not closed ends with its line and swallows no other.
type feed struct {
	line    []byte
	windows bool
}

// Read hands out what is left of the line.
func (f *feed) Read(p []byte) (int, error) {
	if len(f.line) == 0 {
		return 0, io.EOF
	}
	n := copy(p, f.line)
	f.line = f.line[n:]
	return n, nil
}

// cut cuts a line into its cells; false when it cannot, which is then told.
func (r *Reader) cut(text []byte, line *cells) bool {
	if bytes.HasSuffix(text, []byte(TornMark)) {
		r.refuse(0, "the end of this line was lost when a machine stopped", "complete the line and take the mark out, or take the line out")
		return false
	}
	r.feed.line = text
	record, err := r.splitter.Read()
	r.split = len(record)
	var broken *csv.ParseError
	switch {
	case errors.As(err, &broken):
		r.refuse(runesBefore(string(text), broken.Column), quoting(broken.Err), `put the cell in quotes, with each quote in it written twice, and without line breaks`)
		return false
	case err != nil:
		r.refuse(0, "the line cannot be read: "+err.Error(), "write it as a line of a CSV file")
		return false
	case len(record) < len(r.layout.columns) && !r.ended:
		r.refuse(0, "the last line has no end: "+strconv.Itoa(len(record))+" cells where the header has "+strconv.Itoa(len(r.layout.columns)), "complete it, or take it out")
		return false
	}
	return r.place(text, record, line)
}

// place puts cells where their columns are.
func (r *Reader) place(text []byte, record []string, line *cells) bool {
	*line = cells{}
	for i, cell := range record {
		cell = strings.TrimSpace(cell)
		switch {
		case cell == "":
		case i >= len(r.layout.columns) || r.layout.columns[i] == columnCount:
			_, at := r.splitter.FieldPos(i)
			r.refuse(runesBefore(string(text), at), quoted(cell)+" stands in no column", "the header has no name for it; put cells with a "+separatorName(r.layout.Separator)+" in quotes")
			return false
		default:
			line[r.layout.columns[i]] = unguarded(cell)
		}
	}
	return true
}

func separatorName(sign byte) string {
	switch sign {
	case ';':
		return "semicolon"
	case '\t':
		return "tab"
	}
	return "comma"
}

// tell lists the faults of a line with the columns in which they are.
func (r *Reader) tell(text []byte, faults []fault) {
	slices.SortStableFunc(faults, func(a, b fault) int { return int(a.column) - int(b.column) })
	for i, f := range faults {
		at := 0
		if where := slices.Index(r.layout.columns, f.column); where >= 0 && where < r.split {
			_, at = r.splitter.FieldPos(where)
			at = runesBefore(string(text), at)
		}
		r.add(at, f.column.String()+": "+f.what, f.right)
		if i == 0 {
			r.bad++
		}
	}
}

// refuse lists what is wrong with a line as a whole.
func (r *Reader) refuse(column int, what, right string) {
	r.bad++
	r.add(column, what, right)
}

func (r *Reader) add(column int, what, right string) {
	if len(r.problems) >= MostProblems {
		r.unlisted++
		return
	}
	r.problems = append(r.problems, problem.Problem{Place: problem.Place{File: r.name, Line: r.line, Column: column}, What: what, Right: right})
}

// listed is the list with what it does not hold.
func (r *Reader) listed() problem.List {
	if r.unlisted == 0 {
		return r.problems
	}
	return append(slices.Clone(r.problems), problem.Problem{
		Place: problem.Place{File: r.name, Line: r.line}, What: strconv.Itoa(r.unlisted) + " more problems are not listed", Right: "mend these first",
	})
}
