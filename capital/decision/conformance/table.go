package conformance

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"text/tabwriter"

	"shopstint/model/published"
)

// Engine works every case out in every room that has its method, and counts by
// file: a figure that more than one room works out counts once, with the larger
// difference. The error names every case that does not agree, a folder of cases
// that no room works out, and one that holds none for a room.
func Engine(cases fs.FS) (map[string]published.Tally, error) {
	files, err := Files(cases)
	if err != nil {
		return nil, err
	}
	counted, known := map[string]published.Tally{}, map[string]bool{}
	var misses []error
	for _, room := range Rooms() {
		tallies, err := room.hold(cases)
		misses = append(misses, err)
		for name, tally := range tallies {
			tally.Off = max(tally.Off, counted[name].Off)
			counted[name], known[path.Dir(name)] = tally, true
		}
	}
	alive := map[string]int{}
	for _, file := range files {
		alive[MethodOf(file)] += len(file.Cases)
	}
	for _, method := range slices.Sorted(maps.Keys(alive)) {
		if count := alive[method]; known[method] != (count > 0) {
			misses = append(misses, fmt.Errorf("testdata/published/%s: %d cases to work out, and a package that does so: %t", method, count, known[method]))
		}
	}
	return counted, errors.Join(misses...)
}

// source is what a table has a row for.
type source struct {
	name string
	mark published.Mark
}

// Table shows by source how many cases and figures agree and how far they are off
// at most, through the engine and through the workbook; nil for a workbook that was
// not recalculated. Below stands what is left out, and why.
func Table(files []published.File, engine, workbook map[string]published.Tally) string {
	var order []source
	var all, sheet published.Tally
	byEngine, bySheet := map[source]published.Tally{}, map[source]published.Tally{}
	for _, file := range files {
		one := source{file.Source, file.Mark}
		if _, seen := byEngine[one]; !seen && len(file.Cases) > 0 {
			order = append(order, one)
		}
		if len(file.Cases) > 0 {
			byEngine[one] = byEngine[one].Add(engine[file.Path])
			bySheet[one] = bySheet[one].Add(workbook[file.Path])
		}
		all, sheet = all.Add(engine[file.Path]), sheet.Add(workbook[file.Path])
	}
	slices.SortFunc(order, func(a, b source) int { return strings.Compare(a.name+string(a.mark), b.name+string(b.mark)) })
	var out strings.Builder
	w := tabwriter.NewWriter(&out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "cases\tfigures\toff by\tcases in the workbook\tfigures\toff by\t"+beside("seen", "source"))
	row := func(engine, sheet published.Tally, seen, name string) {
		carried := fmt.Sprintf("%d\t%d\t%s", sheet.Cases, sheet.Figures, off(sheet))
		if workbook == nil {
			carried = "not run\t\t"
		}
		fmt.Fprintf(w, "%d\t%d\t%s\t%s\t%s\n", engine.Cases, engine.Figures, off(engine), carried, beside(seen, name))
	}
	for _, one := range order {
		seen, _ := one.mark.Words()
		row(byEngine[one], bySheet[one], seen, one.name)
	}
	row(all, sheet, "", "all")
	_ = w.Flush() // into a text, which takes everything
	return out.String() + leftOut(files)
}

// beside puts how a source was seen before its name, flush left.
func beside(seen, name string) string { return fmt.Sprintf("  %-37s%s", seen, name) }

// off is the largest difference of a tally.
func off(t published.Tally) string {
	switch {
	case t.Figures == 0:
		return "–"
	case t.Off == 0:
		return "0"
	}
	return fmt.Sprintf("%.0e", t.Off)
}

// leftOut lists the cases that nothing works out.
func leftOut(files []published.File) string {
	var out strings.Builder
	for _, file := range files {
		for _, one := range file.LeftOut {
			fmt.Fprintf(&out, "left out: %s/%s: %s; %s\n", MethodOf(file), one.ID, one.Why, one.Source)
		}
	}
	return out.String()
}
