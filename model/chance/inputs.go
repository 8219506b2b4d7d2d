package chance

import (
	"math"
	"reflect"
	"strings"

	"shopstint/model"
)

// Inputs are the inputs of a study that futures draw, in the order of the study.
type Inputs struct {
	study    *model.Study
	list     []input
	copula   *Copula
	reshapes bool
}

type input struct {
	path  string
	whole bool
	from  Distribution
}

// InputError says which input of a study cannot be drawn, and why. A study that
// was checked has none.
type InputError struct {
	Path string
	Err  error
}

func (e *InputError) Error() string { return e.Path + ": " + e.Err.Error() }
func (e *InputError) Unwrap() error { return e.Err }

// InputsOf finds what a study leaves to chance, and how it goes together.
//
// Source: common practice, no source.
func InputsOf(study *model.Study) (*Inputs, error) {
	in, tables, places := &Inputs{study: study}, NewTables(), map[string]int{}
	var wrong error
	model.Walk(study, func(leaf model.Leaf) {
		is, ok := Ranged(study, leaf)
		if !ok || wrong != nil {
			return
		}
		from, err := tables.Of(is)
		if err != nil {
			wrong = &InputError{leaf.Path, err}
			return
		}
		places[leaf.Path] = len(in.list)
		in.list = append(in.list, input{leaf.Path, leaf.Has("whole"), from})
		in.reshapes = in.reshapes || strings.HasSuffix(leaf.Path, ".measured") && is.Low == 0
	})
	if wrong != nil {
		return nil, wrong
	}
	return in, in.tie(places)
}

// tie makes correlated inputs go together.
func (in *Inputs) tie(places map[string]int) (err error) {
	var list []Correlation
	for _, one := range in.study.Correlations {
		a, knownA := places[one.A]
		b, knownB := places[one.B]
		if knownA && knownB {
			list = append(list, Correlation{a, b, float64(one.Rho)})
		}
	}
	if in.copula, err = NewCopula(list); err != nil {
		return &InputError{"correlations", err}
	}
	return nil
}

// Len is how many inputs are drawn.
func (in *Inputs) Len() int { return len(in.list) }

// Path is the path of the input with that index.
func (in *Inputs) Path(i int) string { return in.list[i].path }

// Copula is how the inputs go together, for Latin.
func (in *Inputs) Copula() *Copula { return in.copula }

// Reshape tells whether a draw may change which steps the work has: a measured
// time of zero stands for the geometry.
func (in *Inputs) Reshape() bool { return in.reshapes }

// Twin is a copy of a study whose inputs are drawn again and again.
type Twin struct {
	Study  *model.Study
	inputs *Inputs
	fields []reflect.Value
}

// Twin returns a copy to be drawn.
func (in *Inputs) Twin() *Twin {
	twin := &Twin{Study: in.study.Clone(), inputs: in}
	at := 0
	model.Walk(twin.Study, func(leaf model.Leaf) {
		if at < len(in.list) && leaf.Path == in.list[at].path {
			twin.fields = append(twin.fields, leaf.Value)
			at++
		}
	})
	return twin
}

// Draw sets the inputs to one future of a block of probabilities, whose first
// figures are those of the inputs. Whole inputs are rounded.
//
// Source: by definition, by inversion of the distributions.
func (t *Twin) Draw(block [][]float64, future int) {
	for i := range t.inputs.list {
		x := t.inputs.list[i].from.Quantile(block[i][future])
		if t.inputs.list[i].whole {
			x = math.Round(x)
		}
		t.fields[i].SetFloat(x)
	}
}

// Block returns room for a block of as many figures.
func Block(figures int) [][]float64 {
	block, cells := make([][]float64, figures), make([]float64, figures*PerBlock)
	for i := range block {
		block[i] = cells[i*PerBlock : (i+1)*PerBlock]
	}
	return block
}
