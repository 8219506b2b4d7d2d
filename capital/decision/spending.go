package decision

import (
	"context"

	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/joint"
	"shopstint/capital/decision/roadmap"
	"shopstint/capital/decision/spend"
	"shopstint/model"
	"shopstint/model/work"
)

// Owning says which machines a question about spending has owned: those named, or
// those of the roadmap, or, with neither, the cheapest set to own together.
type Owning struct {
	Named   []bool // nil for none named
	Roadmap bool
}

// NoRoadmapError says why there is no roadmap to spend along.
type NoRoadmapError struct{ Why string }

func (e *NoRoadmapError) Error() string { return "there is no roadmap: " + e.Why }

// Spending reckons what a study spends on equipment, and draws that many futures
// of it, none for 0. The error is a *NoRoadmapError, or that of the drawing.
func Spending(ctx context.Context, study *model.Study, owning Owning, options spend.Options, drawn futures.Options) (*spend.Spend, error) {
	plan := work.New(study)
	var owned [][]bool
	switch {
	case owning.Roadmap:
		result := roadmap.Decide(study, plan)
		if result.Why != "" {
			return nil, &NoRoadmapError{result.Why}
		}
		owned = spend.Along(study, result.Best.Stays)
	case owning.Named != nil:
		owned = spend.Always(study, owning.Named)
	default:
		owned = spend.Always(study, joint.Decide(study, plan).Choices[0].Owned)
	}
	found := spend.Of(study, plan, owned, options)
	if drawn.Most == 0 {
		return &found, nil
	}
	return &found, found.Draw(ctx, drawn)
}
