package joint

import (
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint/subset"
	"shopstint/model"
	"shopstint/model/work"
)

// What else keeps a set from being owned, beside Money, Floor and Supply.
const (
	Excluded = "excludes" // two machines of it exclude each other
	Needed   = "needs"    // a machine of it needs one that is not owned
)

// Allowance tells which sets of a study's machines may be owned.
type Allowance struct{ rules []rule }

// rule is one reason with the problem that has no limit but this.
type rule struct {
	because string
	alone   subset.Problem
}

// AllowanceOf finds the limits that Decide keeps: of money, floor and supply,
// and which machines exclude or need each other, all as the study is, with no
// range moved. The plan is the study's work.
//
// Source: as alternative.MachineDraw, SupplyKnown and Relations.
func AllowanceOf(study *model.Study, plan *work.Plan) *Allowance {
	money, floor := builderOf(study, plan, usual).resources()
	excludes, needs := alternative.Relations(study)
	allowance := &Allowance{}
	add := func(because string, limits bool, alone subset.Problem) {
		if limits {
			alone.Items = len(study.Machines)
			allowance.rules = append(allowance.rules, rule{because, alone})
		}
	}
	add(Money, money.Most > 0, subset.Problem{Limits: []subset.Limit{money}})
	add(Floor, floor.Most > 0, subset.Problem{Limits: []subset.Limit{floor}})
	add(Supply, alternative.SupplyKnown(study), subset.Problem{Peak: draws(study)})
	add(Excluded, len(excludes) > 0, subset.Problem{Excludes: excludes})
	add(Needed, len(needs) > 0, subset.Problem{Needs: needs})
	return allowance
}

// Forbids lists what keeps a set, by machine owned, from being owned: Money,
// Floor, Supply, Excluded and Needed; none when it may be owned.
func (a *Allowance) Forbids(owned []bool) []string {
	set := uint64(0)
	for m, has := range owned {
		if has {
			set |= 1 << m
		}
	}
	var because []string
	for i := range a.rules {
		if !a.rules[i].alone.Allows(set) {
			because = append(because, a.rules[i].because)
		}
	}
	return because
}
