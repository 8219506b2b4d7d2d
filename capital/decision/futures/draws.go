package futures

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/work"
)

// input is one input that futures draw.
type input struct {
	path  string
	whole bool
	from  chance.Distribution
}

// findInputs lists what is drawn, in the order of the study.
func (s *scene) findInputs() error {
	tables, places := chance.NewTables(), map[string]int{}
	var wrong error
	model.Walk(s.study, func(leaf model.Leaf) {
		is, ok := chance.Ranged(s.study, leaf)
		if !ok || wrong != nil {
			return
		}
		from, err := tables.Of(is)
		if err != nil {
			wrong = &InputError{leaf.Path, err}
			return
		}
		places[leaf.Path] = len(s.inputs)
		s.inputs = append(s.inputs, input{leaf.Path, leaf.Has("whole"), from})
		s.reshape = s.reshape || strings.HasSuffix(leaf.Path, ".measured") && is.Low == 0
	})
	if wrong != nil {
		return wrong
	}
	return s.tie(places)
}

// tie makes correlated inputs go together.
func (s *scene) tie(places map[string]int) error {
	var list []chance.Correlation
	for _, one := range s.study.Correlations {
		a, knownA := places[one.A]
		b, knownB := places[one.B]
		if knownA && knownB {
			list = append(list, chance.Correlation{A: a, B: b, Rho: float64(one.Rho)})
		}
	}
	copula, err := chance.NewCopula(list)
	if err != nil {
		return &InputError{"correlations", err}
	}
	s.copula = copula
	return nil
}

// InputError says of which input of the study a future cannot be drawn.
type InputError struct {
	Path string
	Err  error
}

func (e *InputError) Error() string { return e.Path + ": " + e.Err.Error() }
func (e *InputError) Unwrap() error { return e.Err }

// figures is how many probabilities a future needs: one for each input, and one
// for the jobs of each type and year.
func (s *scene) figures() int {
	if s.options.Steady {
		return len(s.inputs)
	}
	return len(s.inputs) + len(s.study.JobTypes)*s.horizon
}

// scatters tells whether futures differ at all.
func (s *scene) scatters() bool {
	if len(s.inputs) > 0 {
		return true
	}
	jobs := 0.0
	for i := range s.study.JobTypes {
		jobs += float64(s.study.JobTypes[i].PerYear)
	}
	return !s.options.Steady && jobs > 0
}

// desk is where one worker reckons futures: its own copy of the study.
type desk struct {
	*scene
	twin   *model.Study
	fields []reflect.Value // of the inputs
	plan   *work.Plan
	pricer *alternative.Pricer
	draws  [][]float64 // by figure and future of a block
	pace   alternative.Pace
	costs  []float64 // by choice, of one future
}

func (s *scene) desk() *desk {
	d := &desk{scene: s, twin: s.study.Clone(), pricer: s.sets.Pricer(s.horizon), costs: make([]float64, len(s.typical))}
	drawn := map[string]bool{}
	for i := range s.inputs {
		drawn[s.inputs[i].path] = true
	}
	model.Walk(d.twin, func(leaf model.Leaf) {
		if drawn[leaf.Path] {
			d.fields = append(d.fields, leaf.Value)
		}
	})
	d.plan = work.New(d.twin)
	d.pace = alternative.SteadyPace(d.twin, d.horizon)
	d.draws = make([][]float64, s.figures())
	cells := make([]float64, s.figures()*perBlock)
	for i := range d.draws {
		d.draws[i] = cells[i*perBlock : (i+1)*perBlock]
	}
	return d
}

// shuffle draws the probabilities of a block: a stream of random numbers of its
// own, so that it does not matter who draws it.
func (d *desk) shuffle(block int) {
	rng := rand.New(rand.NewPCG(d.options.Seed, uint64(block)))
	chance.Latin(rng, d.copula, d.draws)
}

// live puts one future of the block into the twin; ok is false when some step
// of the work then fits no machine and cannot be priced.
func (d *desk) live(future int) (ok bool) {
	for i := range d.inputs {
		x := d.inputs[i].from.Quantile(d.draws[i][future])
		if d.inputs[i].whole {
			x = math.Round(x)
		}
		d.fields[i].SetFloat(x)
	}
	if d.reshape {
		d.plan = work.New(d.twin)
	} else {
		d.plan.Again(d.twin)
	}
	d.scatter(future)
	d.pricer.Present(d.twin, d.plan, d.pace, d.costs)
	return !d.plan.Lacks()
}

// scatter draws how many jobs come in each year: a Poisson count around the
// jobs of the first year, grown.
//
// Source: by definition, jobs that come independently of each other.
func (d *desk) scatter(future int) {
	d.pace.Steady(d.twin)
	if d.options.Steady {
		return
	}
	at := len(d.inputs)
	for job := range d.twin.JobTypes {
		first := float64(d.twin.JobTypes[job].PerYear)
		for t, more := range d.pace[job] {
			if first > 0 {
				d.pace[job][t] = chance.Poisson(first*more, d.draws[at][future]) / first
			}
			at++
		}
	}
}
