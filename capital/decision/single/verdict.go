package single

import (
	"math"

	"shopstint/model"
)

// Verdict is what the answer says about one machine.
type Verdict int

// The three answers. Too close to call is one of them.
const (
	KeepRenting Verdict = iota
	TooClose
	Buy
)

// String returns the verdict in words.
func (v Verdict) String() string {
	return [...]string{"keep renting", "too close to call", "buy"}[v]
}

// Judge compares what is saved with what owning costs, both at present worth,
// and returns the verdict and the band in which it is open. A difference smaller
// than the study's close-call share of the dearer side is too close to call.
func Judge(study *model.Study, saved, owning float64) (Verdict, float64) {
	band := float64(study.Studio.CloseCall) * math.Max(math.Abs(saved), math.Abs(owning))
	switch difference := saved - owning; {
	case math.Abs(difference) <= band:
		return TooClose, band
	case difference > 0:
		return Buy, band
	default:
		return KeepRenting, band
	}
}
