package futures

import (
	"math/rand/v2"

	"shopstint/capital/decision/alternative"
	"shopstint/model/chance"
	"shopstint/model/work"
)

// figures is how many probabilities a future needs: one for each input, and one
// for the jobs of each type and year.
func (s *scene) figures() int {
	if s.options.Steady {
		return s.inputs.Len()
	}
	return s.inputs.Len() + len(s.study.JobTypes)*s.horizon
}

// scatters tells whether futures differ at all.
func (s *scene) scatters() bool {
	jobs := 0.0
	for i := range s.study.JobTypes {
		jobs += float64(s.study.JobTypes[i].PerYear)
	}
	return s.inputs.Len() > 0 || !s.options.Steady && jobs > 0
}

// desk is where one worker reckons futures: on its own copy of the study.
type desk struct {
	*scene
	*chance.Twin
	plan   *work.Plan
	pricer *alternative.Pricer
	draws  [][]float64 // by figure and future of a block
	pace   alternative.Pace
	costs  []float64 // by choice, of one future
}

func (s *scene) desk() *desk {
	twin := s.inputs.Twin()
	return &desk{
		scene: s, Twin: twin, plan: work.New(twin.Study), pricer: s.sets.Pricer(s.horizon), draws: chance.Block(s.figures()),
		pace: alternative.SteadyPace(twin.Study, s.horizon), costs: make([]float64, len(s.typical)),
	}
}

// shuffle draws the probabilities of a block: a stream of random numbers of its
// own, so that it does not matter who draws it.
func (d *desk) shuffle(block int) {
	rng := rand.New(rand.NewPCG(d.options.Seed, uint64(block)))
	chance.Latin(rng, d.inputs.Copula(), d.draws)
}

// live prices one future of the block; ok is false when some step of the work
// then fits no machine and cannot be priced.
func (d *desk) live(future int) (ok bool) {
	d.bring(future)
	d.pricer.Present(d.Study, d.plan, d.pace, d.costs)
	return !d.plan.Lacks()
}

// bring makes one future of the block that of the desk: its inputs, its work and
// its jobs.
func (d *desk) bring(future int) {
	d.Draw(d.draws, future)
	if d.inputs.Reshape() {
		d.plan = work.New(d.Study)
	} else {
		d.plan.Again(d.Study)
	}
	d.scatter(future)
}

// scatter draws how many jobs come in each year: a Poisson count around the
// jobs of the first year, grown.
//
// Source: by definition, jobs that come independently of each other.
func (d *desk) scatter(future int) {
	d.pace.Steady(d.Study)
	if d.options.Steady {
		return
	}
	at := d.inputs.Len()
	for job := range d.Study.JobTypes {
		first := float64(d.Study.JobTypes[job].PerYear)
		for t, more := range d.pace[job] {
			if first > 0 {
				d.pace[job][t] = chance.Poisson(first*more, d.draws[at][future]) / first
			}
			at++
		}
	}
}
