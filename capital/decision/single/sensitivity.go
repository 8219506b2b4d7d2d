package single

import (
	"runtime"
	"sync"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/work"
)

// Swing is how far one input moves a machine's answer between the ends of its
// range, all else as in the study.
type Swing struct {
	Path             string
	Assumed          bool
	Value, Low, High float64 // the input
	AtLow, AtHigh    float64 // Difference with the input there
}

// Size is the distance between the two ends' answers.
func (s Swing) Size() float64 {
	if s.AtHigh > s.AtLow {
		return s.AtHigh - s.AtLow
	}
	return s.AtLow - s.AtHigh
}

// Flips tells whether the answer has the other sign at one end.
func (s Swing) Flips(difference float64) bool {
	return s.AtLow*difference < 0 || s.AtHigh*difference < 0
}

// end is one input moved to one end of its range.
type end struct {
	path  string
	value float64
}

// Swings moves every input that has a range to both ends and returns, by
// machine, the swings in the order of the study. The work is spread over the
// processors; the result does not depend on how many there are.
//
// Source: common practice, no source: one-at-a-time sensitivity.
func Swings(study *model.Study) [][]Swing {
	inputs := ranged(study)
	ends := make([]end, 0, 2*len(inputs))
	for _, input := range inputs {
		ends = append(ends, end{input.Path, input.Low}, end{input.Path, input.High})
	}
	differences := movedAll(study, ends)
	swings := make([][]Swing, len(study.Machines))
	for m := range swings {
		swings[m] = make([]Swing, len(inputs))
		for i, input := range inputs {
			input.AtLow, input.AtHigh = differences[2*i][m], differences[2*i+1][m]
			swings[m][i] = input
		}
	}
	return swings
}

// ranged lists the inputs that have a range.
func ranged(study *model.Study) []Swing {
	var list []Swing
	model.Walk(study, func(leaf model.Leaf) {
		origin, ok := study.Origins[leaf.Path]
		if _, measured := leaf.Dimension(); !ok || !origin.HasRange || !measured || origin.Low == origin.High {
			return
		}
		list = append(list, Swing{Path: leaf.Path, Assumed: origin.Assumed, Value: leaf.Number(), Low: origin.Low, High: origin.High})
	})
	return list
}

// movedAll returns, for each end, the difference of every machine.
func movedAll(study *model.Study, ends []end) [][]float64 {
	out := make([][]float64, len(ends))
	workers := min(runtime.GOMAXPROCS(0), max(1, len(ends)))
	var wait sync.WaitGroup
	for w := range workers {
		wait.Go(func() {
			twin := study.Clone()
			fields, before := leaves(twin), sceneOf(twin)
			before.spare = work.New(twin)
			for i := w; i < len(ends); i += workers {
				leaf := fields[ends[i].path]
				was := leaf.Number()
				leaf.SetNumber(ends[i].value)
				out[i] = before.moved(ends[i].path)
				leaf.SetNumber(was)
			}
		})
	}
	wait.Wait()
	return out
}

func leaves(study *model.Study) map[string]model.Leaf {
	found := map[string]model.Leaf{}
	model.Walk(study, func(leaf model.Leaf) { found[leaf.Path] = leaf })
	return found
}

// ownPresent is the present cost of owning a machine on the result's work.
func ownPresent(study *model.Study, machine *model.Machine, result *Result) float64 {
	owned := capital.Own(study, machine, result.Owner.Profile)
	return owned.Present
}
