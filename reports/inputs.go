package reports

import (
	"slices"
	"strings"

	"shopstint/capital/decision"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/quantity"
)

// inputs knows every input of a study by its path.
type inputs struct {
	dimension map[string]quantity.Dimension
	about     map[string]string
	name      map[string]string // of a member, by the member's path
}

func inputsOf(study *model.Study) inputs {
	known := inputs{map[string]quantity.Dimension{}, map[string]string{}, map[string]string{}}
	model.Walk(study, func(leaf model.Leaf) {
		known.about[leaf.Path] = leaf.Tag.Get("about")
		if dim, ok := leaf.Dimension(); ok {
			known.dimension[leaf.Path] = dim
		}
		if member, ok := strings.CutSuffix(leaf.Path, ".name"); ok {
			known.name[member] = leaf.Value.String()
		}
	})
	return known
}

// label says a path in the study's own names: "big shop, planer: feed".
func (known inputs) label(path string) string {
	names, rest := known.named(path)
	rest = strings.TrimPrefix(rest, "studio.")
	rest = strings.ReplaceAll(strings.ReplaceAll(rest, ".", ", "), "_", " ")
	switch {
	case len(names) == 0:
		return rest
	case rest == "":
		return strings.Join(names, ", ")
	}
	return strings.Join(names, ", ") + ": " + rest
}

// named returns the names along a path and what is left behind the last.
func (known inputs) named(path string) (names []string, rest string) {
	parts := strings.Split(path, ".")
	left := 0
	for i := range parts {
		if name := known.name[strings.Join(parts[:i+1], ".")]; name != "" {
			names, left = append(names, name), i+1
		}
	}
	return names, strings.Join(parts[left:], ".")
}

// assumed words an assumption.
func (w wording) assumed(assumption decision.Assumption) Assumed {
	swing := assumption.Swing
	dim := w.inputs.dimension[assumption.Path]
	shown := func(si float64) float64 { return quantity.Shown(dim, si, w.system) }
	machine := &w.study.Machines[assumption.Machine]
	said := Assumed{
		Path: assumption.Path, Label: w.inputs.label(assumption.Path), About: w.inputs.about[assumption.Path],
		Unit: w.unit(dim), Value: shown(swing.Value), Low: shown(swing.Low), High: shown(swing.High),
		Machine: machine.Key, AtLow: swing.AtLow, AtHigh: swing.AtHigh, Flips: assumption.Flips,
	}
	said.InWords = said.Label + ", assumed " + w.measure(dim, swing.Value) +
		" (" + w.span(dim, swing.Low, swing.High) + "), moves " +
		machine.Name + " by " + w.amount(swing.Size()) + " over the horizon"
	if said.Flips {
		said.InWords += " and can turn its answer"
	}
	return said
}

// turningInputs lists the inputs that turn the answer within their range, the
// smallest change first.
func (w wording) turningInputs(result *single.Result) []Flip {
	var list []Flip
	for _, swing := range result.Swings {
		if !swing.Switches {
			continue
		}
		dim := w.inputs.dimension[swing.Path]
		side := " over "
		if swing.Switch < swing.Value {
			side = " under "
		}
		list = append(list, Flip{
			What: swing.Path, Unit: w.unit(dim), Now: quantity.Shown(dim, swing.Value, w.system), At: quantity.Shown(dim, swing.Switch, w.system),
			InWords: w.inputs.label(swing.Path) + side + w.measure(dim, swing.Switch) + " (now " + w.measure(dim, swing.Value) + ")",
		})
	}
	slices.SortStableFunc(list, nearer)
	return list
}

// note names what a note is about, unless its text begins with that name.
func (w wording) note(note decision.Note) Note {
	names, _ := w.inputs.named(note.Path)
	said := Note{Path: note.Path, Text: note.Text}
	if about := strings.Join(names, ", "); about != "" && !strings.HasPrefix(note.Text, about) {
		said.About = about
	}
	return said
}
