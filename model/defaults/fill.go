package defaults

import (
	"reflect"
	"strings"

	"shopstint/model"
	"shopstint/model/quantity"
)

// ForeignMoney is the note on an assumed amount of money in a study that does
// not reckon in US dollars: the number is then little more than a placeholder.
const ForeignMoney = "reckoned in US dollars; give your own"

// AtLimit is the note on a reckoned value that went beyond the input's limits.
const AtLimit = "held at the limit of this input"

const dollars = "USD"

// Fill gives every input that the study leaves out its assumed value, and marks
// it as assumed, with range and source, in study.Origins. given tells by path
// what the study says itself; nothing of that is touched.
//
// Lists get the members that the method needs: a material, a piece for a job
// without one, grits for a sanding step, edges and abrasives that machines run.
// It never fails: what is wrong in a study is for the checks to say.
func Fill(study *model.Study, given func(path string) bool) {
	f := filling{study: study, given: given, entries: map[string][]*reading{}}
	if study.Origins == nil {
		study.Origins = map[string]model.Origin{}
	}
	for _, entry := range Entries() {
		f.entries[entry.Path] = append(f.entries[entry.Path], &reading{Entry: entry})
	}
	f.addMembers()
	f.parts = subjects(study)
	model.Walk(study, f.assume)
	model.Walk(study, f.derive)
}

// filling is one run of Fill.
type filling struct {
	study   *model.Study
	given   func(path string) bool
	entries map[string][]*reading
	parts   map[string]subject
}

// reading is an entry whose numbers are read when they are first asked for.
type reading struct {
	Entry
	read               bool
	typical, low, high float64
}

func (r *reading) numbers(dim quantity.Dimension) (typical, low, high float64) {
	if !r.read {
		r.typical, r.low, r.high = amount(dim, r.Typical), amount(dim, r.Low), amount(dim, r.High)
		r.read = true
	}
	return r.typical, r.low, r.high
}

// amount reads a value of the embedded list, whose test holds that all can be read.
func amount(dim quantity.Dimension, text string) float64 {
	x, _, _ := quantity.Parse(dim, text)
	return x
}

// assume gives a leaf the value of the first entry that fits it.
func (f *filling) assume(leaf model.Leaf) {
	if f.settled(leaf.Path) {
		return
	}
	part, rest := f.partOf(leaf.Path)
	if entry, ok := f.find(part, rest); ok {
		f.set(leaf, entry, 1)
	}
}

// settled tells whether a leaf has its value: from the study or already assumed.
func (f *filling) settled(path string) bool {
	if f.given(path) {
		return true
	}
	_, known := f.study.Origins[path]
	return known
}

// partOf finds the part of the study that a path is about, and the path below it.
func (f *filling) partOf(path string) (part subject, rest string) {
	for above := path; above != ""; {
		above = above[:max(0, strings.LastIndexByte(above, '.'))]
		if part, ok := f.parts[above]; ok {
			return part, strings.TrimPrefix(path[len(above):], ".")
		}
	}
	return subject{}, path
}

func (f *filling) find(part subject, rest string) (*reading, bool) {
	column := rest
	if strings.HasPrefix(rest, "value_table.") {
		column = "value_table" // its rows are bands of one entry
	}
	for _, at := range []string{part.at, part.like} {
		for _, entry := range f.entries[below(at, column)] {
			if part.fits(&entry.Entry, rest) {
				return entry, true
			}
		}
	}
	return nil, false
}

func below(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// set writes an entry's value, times a number for values reckoned by the piece
// or the kilometre, and notes where it came from.
func (f *filling) set(leaf model.Leaf, entry *reading, times float64) {
	origin := model.Origin{Assumed: true, Source: entry.Source}
	dim, measured := leaf.Dimension()
	if !measured {
		setWord(leaf.Value, entry.Typical)
		f.study.Origins[leaf.Path] = origin
		return
	}
	typical, low, high := entry.numbers(dim)
	leaf.SetNumber(typical * times)
	if entry.Low != "" {
		origin.HasRange, origin.Low, origin.High = true, low*times, high*times
	}
	if dim.IsMoney() && f.study.Currency != dollars && (typical != 0 || origin.HasRange) {
		origin.Note = ForeignMoney
	}
	f.study.Origins[leaf.Path] = origin
}

func setWord(value reflect.Value, word string) {
	switch value.Kind() {
	case reflect.Bool:
		value.SetBool(word == "yes")
	case reflect.String:
		value.SetString(word)
	case reflect.Slice:
		value.Set(reflect.ValueOf(strings.Fields(word)))
	}
}
