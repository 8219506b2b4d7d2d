package single

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

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
	// Switch is the value, between Value and the nearer end that turns the
	// answer, at which the difference changes sign; Switches is false where
	// neither end turns it. It is found to a thousandth of that distance.
	Switch   float64
	Switches bool

	whole bool // the input is a whole number
}

// Size is the distance between the two ends' answers.
func (s Swing) Size() float64 {
	if s.AtHigh > s.AtLow {
		return s.AtHigh - s.AtLow
	}
	return s.AtLow - s.AtHigh
}

// Rank is Size to nine digits: swings of one rank differ by the rounding of float64 alone,
// which must not put one before the other.
func (s Swing) Rank() float64 {
	size := s.Size()
	if size == 0 || math.IsInf(size, 0) {
		return size
	}
	scale := math.Pow10(8 - int(math.Floor(math.Log10(size))))
	return math.Round(size*scale) / scale
}

// moving is the least part of the larger side that an input moves: less is what sums in
// another order differ by.
const moving = 1e-11

// settle puts an end that moves nothing back to the answer as it is, and two ends that
// answer the same to one answer.
func (s *Swing) settle(difference, side float64) {
	for _, end := range [...]*float64{&s.AtLow, &s.AtHigh} {
		if math.Abs(*end-difference) <= moving*side {
			*end = difference
		}
	}
	if s.Size() <= moving*side {
		s.AtHigh = s.AtLow
	}
}

// Flips tells whether the answer has the other sign at one end.
func (s Swing) Flips(difference float64) bool {
	return s.AtLow*difference < 0 || s.AtHigh*difference < 0
}

// turningEnd returns the end at which the answer has the other sign; of two,
// the one nearer to the value.
func (s Swing) turningEnd(difference float64) (value, at float64, turns bool) {
	low, high := s.AtLow*difference < 0, s.AtHigh*difference < 0
	nearHigh := math.Abs(s.High-s.Value) < math.Abs(s.Low-s.Value)
	switch {
	case high && (nearHigh || !low):
		return s.High, s.AtHigh, true
	case low:
		return s.Low, s.AtLow, true
	}
	return 0, 0, false
}

// Swings moves every input that has a range to both ends and returns, by
// machine, the swings in the order of the study, with the switching value of
// each that can turn the answer. The work is spread over the processors; the
// result does not depend on how many there are.
//
// Source: common practice, no source: one-at-a-time sensitivity, switching values.
func Swings(study *model.Study) [][]Swing {
	inputs := ranged(study)
	now := Differences(study)
	swings := make([][]Swing, len(study.Machines))
	for m := range swings {
		swings[m] = slices.Clone(inputs)
	}
	share(study, len(inputs), func(mover *mover, i int) {
		low, high := mover.at(inputs[i].Path, inputs[i].Low), mover.at(inputs[i].Path, inputs[i].High)
		for m := range swings {
			swings[m][i].AtLow, swings[m][i].AtHigh = low[m], high[m]
			swings[m][i].findSwitch(mover, m, now[m])
		}
	})
	return swings
}

// findSwitch looks for the switching value of one input on machine m.
func (s *Swing) findSwitch(mover *mover, m int, now float64) {
	end, atEnd, turns := s.turningEnd(now)
	if !turns {
		return
	}
	s.Switches = true
	s.Switch = turningPoint(func(x float64) float64 { return mover.on(m, s.Path, x) }, s.Value, end, now, atEnd)
	switch {
	case s.whole && end > s.Value:
		s.Switch = math.Ceil(s.Switch)
	case s.whole:
		s.Switch = math.Floor(s.Switch)
	}
}

// turningPoint narrows a change of sign between a and b down to a thousandth
// of their distance. It follows the chord and halves by turns, since the
// difference may be a straight line or a staircase.
func turningPoint(difference func(float64) float64, a, b, atA, atB float64) float64 {
	near := 1e-3 * math.Abs(b-a)
	for turn := 0; math.Abs(b-a) > near; turn++ {
		x := (a + b) / 2
		if turn%2 == 0 {
			x = (a*atB - b*atA) / (atB - atA)
			x = math.Min(math.Max(x, math.Min(a, b)+near/2), math.Max(a, b)-near/2)
		}
		if atX := difference(x); atX*atA > 0 {
			a, atA = x, atX
		} else {
			b, atB = x, atX
		}
	}
	return (a + b) / 2
}

// ranged lists the inputs that have a range.
func ranged(study *model.Study) []Swing {
	var list []Swing
	model.Walk(study, func(leaf model.Leaf) {
		origin, ok := study.Origins[leaf.Path]
		if _, measured := leaf.Dimension(); !ok || !origin.HasRange || !measured || origin.Low == origin.High || leaf.Has("aside") {
			return
		}
		list = append(list, Swing{Path: leaf.Path, Assumed: origin.Assumed, Value: leaf.Number(), Low: origin.Low, High: origin.High, whole: leaf.Has("whole")})
	})
	return list
}

// mover moves inputs of its own copy of a study, one at a time.
type mover struct {
	fields map[string]model.Leaf
	before *scene
}

func newMover(study *model.Study) *mover {
	twin := study.Clone()
	mover := &mover{fields: leaves(twin), before: sceneOf(twin)}
	mover.before.spare = work.New(twin)
	return mover
}

// at returns the difference of every machine with one input moved.
func (v *mover) at(path string, value float64) []float64 {
	defer v.move(path, value)()
	return v.before.moved(path)
}

// on returns the difference of machine m with one input moved.
func (v *mover) on(m int, path string, value float64) float64 {
	defer v.move(path, value)()
	return v.before.movedOne(path, m)
}

// move sets an input and returns what puts it back.
func (v *mover) move(path string, value float64) (back func()) {
	leaf := v.fields[path]
	was := leaf.Number()
	leaf.SetNumber(value)
	return func() { leaf.SetNumber(was) }
}

// share has every processor do its part of n pieces of work, each with a mover
// of its own. Pieces must not touch one another's results.
func share(study *model.Study, n int, do func(mover *mover, i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wait.Go(func() {
			mover := newMover(study)
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(mover, i)
			}
		})
	}
	wait.Wait()
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
