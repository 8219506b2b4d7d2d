package check

import (
	"fmt"
	"strings"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// Fits asks that every piece fits some own tool or machine of the shop that
// could do each operation on it: otherwise renting has no price. It reckons the
// work, so the study must hold every other rule.
func Fits(study *model.Study) []problem.Problem {
	plan := work.New(study)
	var problems []problem.Problem
	for _, step := range plan.Homeless() {
		row := &plan.Rows[step[0]]
		kind, operation, piece, _ := row.Parts(study)
		path := "job_types." + kind.Key + ".operations." + operation.Key
		problems = append(problems, problem.Problem{
			Path:  path,
			What:  fmt.Sprintf("%s: piece %s fits nothing that could do it: %s", path, piece.Key, refusalsOf(study, plan, step)),
			Right: "name a fallback operation's class, or a machine or tool that takes it",
		})
	}
	return onceEach(problems)
}

// refusalsOf tells why each way of a step refuses the piece, with both numbers.
func refusalsOf(study *model.Study, plan *work.Plan, rows []int) string {
	var reasons []string
	for _, index := range rows {
		row := &plan.Rows[index]
		for _, refusal := range plan.RefusalsOf(study, index) {
			reasons = append(reasons, wayOf(study, row)+" "+reasonOf(study, refusal))
		}
	}
	return strings.Join(reasons, ", ")
}

func wayOf(study *model.Study, row *work.Row) string {
	if row.Site == work.AtShop {
		return study.Shops[work.ShopOf(study, row.Job)].Machines[row.Machine].Key
	}
	return study.Tools[row.Machine].Key
}

func reasonOf(study *model.Study, refusal work.Refusal) string {
	if refusal.What == work.ResinRefused {
		return "refuses resin"
	}
	dim, over := quantity.DimLength, "takes up to"
	switch refusal.What {
	case work.Heavy:
		dim = quantity.DimMass
	case work.Short:
		over = "needs at least"
	}
	return fmt.Sprintf("%s %s and it is %s", over, sized(study, dim, refusal.Limit), sized(study, dim, refusal.Piece))
}

// sized writes a quantity in the study's units, to four digits.
func sized(study *model.Study, dim quantity.Dimension, si float64) string {
	system, err := quantity.ParseSystem(study.Units)
	if err != nil {
		system = quantity.Metric // cannot be: the words of units are checked when read
	}
	return quantity.Brief(dim, si, system)
}

// onceEach drops what the grits of one operation would say again.
func onceEach(problems []problem.Problem) []problem.Problem {
	seen := map[string]bool{}
	var kept []problem.Problem
	for _, found := range problems {
		if !seen[found.What] {
			seen[found.What] = true
			kept = append(kept, found)
		}
	}
	return kept
}
