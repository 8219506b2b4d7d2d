// Package futures draws many futures of a study and prices every choice in each
// of them: which choice is likely to be cheapest, by how much, what it costs to
// be wrong, and what it would be worth to know an input better. The futures are
// the same for every choice, so that luck favours none of them.
//
// A future draws every input that has a range from it and lets the number of
// jobs of each type and year scatter around what was drawn. What the owner
// decides, such as the years a machine is kept, is not drawn.
package futures

import (
	"context"
	"errors"
	"fmt"
	"math"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/work"
)

// Seed is the seed of whoever names none, so that runs repeat.
const Seed = 20260101

// Options are what the caller decides about a run.
type Options struct {
	Seed    uint64
	Most    int      // futures at most; rounded up to whole blocks
	Workers int      // blocks drawn side by side; the result does not depend on it
	Steady  bool     // jobs a year are as drawn and do not scatter
	Sets    [][]bool // sets by candidate owned, the first of them renting everything; none for Choices
	// Progress, if any, is told after each round how many futures are drawn.
	Progress func(drawn int)
}

// ErrInterrupted is behind the error of a run that was ended from outside.
var ErrInterrupted = errors.New("the futures were interrupted")

// allSets is up to how many candidates every set of them is a choice.
const allSets = 8

// Choices lists the sets of a study, allowed or not: renting everything, each
// candidate alone, and up to 8 candidates then all their other sets, in the order
// of binary numbers.
func Choices(study *model.Study) [][]bool {
	n := len(study.Machines)
	list := [][]bool{make([]bool, n)}
	for m := range n {
		list = append(list, only(n, m))
	}
	if n > allSets {
		return list
	}
	for set := range 1 << n {
		if set&(set-1) == 0 {
			continue // none, or one alone
		}
		owned := make([]bool, n)
		for m := range owned {
			owned[m] = set>>m&1 == 1
		}
		list = append(list, owned)
	}
	return list
}

func only(n, m int) []bool {
	owned := make([]bool, n)
	owned[m] = true
	return owned
}

// LeftOut is a set that is no choice, and what keeps it from being owned: reasons
// of package joint.
type LeftOut struct {
	Owned   []bool
	Because []string
}

// allowed parts sets into those that the study lets be owned and the others.
func allowed(study *model.Study, plan *work.Plan, sets [][]bool) (choices [][]bool, left []LeftOut) {
	allowance := joint.AllowanceOf(study, plan)
	for _, owned := range sets {
		if because := allowance.Forbids(owned); len(because) > 0 {
			left = append(left, LeftOut{owned, because})
			continue
		}
		choices = append(choices, owned)
	}
	return choices, left
}

// Draw draws futures until the sampling error is small against what is too
// close to call, or until there are as many as allowed, which the result then
// says. Sets that the limits of the study do not let be owned are no choice. The
// error is ErrInterrupted when the context ends, or says which correlations or
// ranges cannot be; a checked study has none of those.
//
// Source: common random numbers and batch means, as in A. M. Law, Simulation
// Modeling and Analysis.
func Draw(ctx context.Context, study *model.Study, options Options) (*Result, error) {
	if len(options.Sets) == 0 {
		options.Sets = Choices(study)
	}
	var left []LeftOut
	options.Sets, left = allowed(study, work.New(study), options.Sets)
	scene, err := sceneOf(study, options)
	if err != nil {
		return nil, err
	}
	if !scene.scatters() {
		options.Most = 1 // nothing is drawn: one future says all
	}
	sample := newSample(scene)
	for upto := firstRound; ; upto += max(upto/2, 1) {
		blocks := min(upto, blocksFor(options.Most))
		if err := sample.extend(ctx, blocks, max(1, options.Workers)); err != nil {
			return nil, err
		}
		if options.Progress != nil {
			options.Progress(sample.futures())
		}
		met := !scene.scatters() || sample.precise()
		if met || blocks == blocksFor(options.Most) {
			result := sample.result(met)
			result.Left = left
			return result, nil
		}
	}
}

// firstRound is how many blocks are drawn before the error is looked at: enough
// for a standard deviation between blocks that is itself within a fifth or so.
const firstRound = 16

func blocksFor(most int) int { return max(1, (most+chance.PerBlock-1)/chance.PerBlock) }

// scene is what all futures share.
type scene struct {
	study   *model.Study
	options Options
	inputs  *chance.Inputs
	sets    *alternative.Sets
	horizon int
	typical []float64 // cost of each choice in the study as it is
	bands   []float64 // by choice: a difference to renting under this is too close to call
}

func sceneOf(study *model.Study, options Options) (*scene, error) {
	s := &scene{study: study, options: options, horizon: int(study.Studio.Horizon)}
	var err error
	if s.inputs, err = chance.InputsOf(study); err != nil {
		return nil, fmt.Errorf("could not draw futures: %w", err)
	}
	plan := work.New(study)
	s.sets = alternative.SetsOf(study, plan, options.Sets)
	s.typical = make([]float64, len(options.Sets))
	s.sets.Pricer(s.horizon).Present(study, plan, alternative.SteadyPace(study, s.horizon), s.typical)
	s.judge(plan)
	return s, nil
}

// judge finds for each choice what is too close to call, as it is for a single
// machine: a share of the dearer of what is saved and what owning costs.
func (s *scene) judge(plan *work.Plan) {
	s.bands = make([]float64, len(s.typical))
	for c, owned := range s.options.Sets {
		rent := alternative.RentOf(s.study, plan, owned)
		beside := rent.Present(s.study)
		saved, owning := s.typical[0]-beside, s.typical[c]-beside
		s.bands[c] = float64(s.study.Studio.CloseCall) * math.Max(math.Abs(saved), math.Abs(owning))
	}
}
