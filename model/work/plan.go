// Package work turns geometry into machine minutes: passes by depth, width and
// face, grit by grit, with handling and set-up, on every machine that could do
// a step. It also says which pieces a machine refuses, and what the work wears.
package work

import (
	"slices"

	"shopstint/model"
	"shopstint/model/quantity"
)

// Site says whose machine does a step.
type Site int

// The three places where a step can be done.
const (
	AtShop   Site = iota // on a hired machine, during a visit
	AtBench              // on a tool the studio owns already
	AtStudio             // on a candidate, once it is owned
)

// Row is one step (an operation on a piece, at one grit) on one machine that
// could do it. Money is in the study's currency, times are for all the pieces
// of one job unless said otherwise.
type Row struct {
	Job, Operation, Piece int               // indexes in the study
	Grit                  int               // index in the operation's grits, -1 without
	Step                  int               // rows with the same step are alternatives of each other
	Site                  Site              //
	Machine               int               // index in the shop's machines, the tools or the candidates
	Fit                   Fit               // the machine's refusals
	Used                  bool              // whether this row does the step when everything is rented
	Depth                 quantity.Length   // taken in one pass, after material and power
	Passes                float64           // over one piece
	Run                   quantity.Duration // machine running and handling
	PerJob                quantity.Duration // set-up counted by the job or the piece
	PerVisit              quantity.Duration // set-up and grit changes, once a visit or session
	Metres                float64           // run by the edge
	Area                  float64           // m² passed by the abrasive
	Wear                  float64           // cost of edge and abrasive, where the studio pays it
}

// Minutes returns what one more job adds to a visit or a session.
func (r Row) Minutes() quantity.Duration { return r.Run + r.PerJob }

// TimesDone is how often a job does a step at the studio, reworks included.
func TimesDone(kind *model.JobType, row *Row) float64 {
	if kind.Operations[row.Operation].Repeat {
		return 1 + float64(kind.ReworkChance)
	}
	return 1
}

// Plan is the work of a whole study on every machine that could do it.
type Plan struct {
	Rows  []Row
	Steps int
	Jobs  []Span // rows of each job type
}

// Span is a range of rows: First included, End excluded.
type Span struct{ First, End int }

// Of returns the rows of one job type.
func (p *Plan) Of(job int) []Row { return p.Rows[p.Jobs[job].First:p.Jobs[job].End] }

// New reckons the work of a study. Rows come in the order of job types,
// operations, pieces, grits and, within a step, candidates first and then the
// rented or own ways in the order of preference.
func New(study *model.Study) *Plan {
	plan := &Plan{Jobs: make([]Span, len(study.JobTypes))}
	for job := range study.JobTypes {
		first := len(plan.Rows)
		plan.addJob(study, job)
		plan.Jobs[job] = Span{first, len(plan.Rows)}
	}
	return plan
}

func (p *Plan) addJob(study *model.Study, job int) {
	kind := &study.JobTypes[job]
	for o := range kind.Operations {
		operation := &kind.Operations[o]
		for piece := range kind.Pieces {
			if operation.Piece != "" && operation.Piece != kind.Pieces[piece].Key {
				continue
			}
			if len(operation.Grits) == 0 || operation.Measured > 0 {
				p.addStep(study, Row{Job: job, Operation: o, Piece: piece, Grit: -1})
				continue
			}
			for grit := range operation.Grits {
				p.addStep(study, Row{Job: job, Operation: o, Piece: piece, Grit: grit})
			}
		}
	}
}

// addStep adds a row for every machine that could do the step and marks the
// first rented or own way that takes the piece.
func (p *Plan) addStep(study *model.Study, step Row) {
	step.Step = p.Steps
	p.Steps++
	operation := &study.JobTypes[step.Job].Operations[step.Operation]
	for m := range study.Machines {
		if slices.Contains(study.Machines[m].Does, operation.Class) {
			p.addRow(study, step, AtStudio, m)
		}
	}
	first := len(p.Rows)
	p.addWays(study, step, operation.Class)
	if operation.Fallback != "" {
		p.addWays(study, step, operation.Fallback)
	}
	p.use(first, len(p.Rows))
}

// use marks the first of a step's rented or own ways that takes the piece.
func (p *Plan) use(first, end int) {
	done := false
	for i := first; i < end; i++ {
		row := &p.Rows[i]
		row.Used = !done && row.Fit.OK()
		done = done || row.Used
	}
}

// Again reckons the rows anew for a study of the same shape whose sizes,
// speeds, limits or prices have changed.
func (p *Plan) Again(study *model.Study) {
	for i := range p.Rows {
		reckon(study, &p.Rows[i])
	}
	for first := 0; first < len(p.Rows); {
		end := first
		for end < len(p.Rows) && p.Rows[end].Step == p.Rows[first].Step {
			end++
		}
		ways := first
		for ways < end && p.Rows[ways].Site == AtStudio {
			ways++
		}
		p.use(ways, end)
		first = end
	}
}

// addWays adds the own tools of a class, then the shop's machines of it: a
// studio uses its own tool where the piece fits.
func (p *Plan) addWays(study *model.Study, step Row, class string) {
	for t := range study.Tools {
		if study.Tools[t].Class == class {
			p.addRow(study, step, AtBench, t)
		}
	}
	shop := &study.Shops[ShopOf(study, step.Job)]
	for m := range shop.Machines {
		if shop.Machines[m].Class == class {
			p.addRow(study, step, AtShop, m)
		}
	}
}

func (p *Plan) addRow(study *model.Study, row Row, site Site, machine int) {
	row.Site, row.Machine = site, machine
	reckon(study, &row)
	p.Rows = append(p.Rows, row)
}

// ShopOf returns the index of the shop to which a job type's rented work goes.
func ShopOf(study *model.Study, job int) int {
	return max(0, model.Index(study.Shops, study.JobTypes[job].Shop))
}

// MaterialOf returns what a job type is made of: the study's first material
// where it does not say.
func MaterialOf(study *model.Study, job int) *model.Material {
	return &study.Materials[max(0, model.Index(study.Materials, study.JobTypes[job].Material))]
}

// Ability returns what the row's machine can do.
func (r Row) Ability(study *model.Study) *model.Ability {
	switch r.Site {
	case AtShop:
		return &study.Shops[ShopOf(study, r.Job)].Machines[r.Machine].Ability
	case AtBench:
		return &study.Tools[r.Machine].Ability
	default:
		return &study.Machines[r.Machine].Ability
	}
}

// MachinePath returns the path in the study of a machine; the shop counts AtShop only.
func MachinePath(study *model.Study, site Site, shop, machine int) string {
	switch site {
	case AtShop:
		return "shops." + study.Shops[shop].Key + ".machines." + study.Shops[shop].Machines[machine].Key
	case AtBench:
		return "tools." + study.Tools[machine].Key
	default:
		return "machines." + study.Machines[machine].Key
	}
}
