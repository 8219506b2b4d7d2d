package single

import (
	"reflect"
	"slices"
	"strings"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/work"
)

// scene is a study with what all its single decisions share.
type scene struct {
	study   *model.Study
	plan    *work.Plan
	spare   *work.Plan // for studies with an input moved
	rented  alternative.Rent
	present float64 // of everything rented

	rents       []alternative.Rent // beside each machine
	differences []float64
	owners      []alternative.Ownership
	saved       []float64
}

// Differences returns the present difference of every machine of a study:
// what owning it alone saves, less what it costs.
func Differences(study *model.Study) []float64 { return sceneOf(study).differences }

func sceneOf(study *model.Study) *scene { return sceneOn(study, work.New(study)) }

func sceneOn(study *model.Study, plan *work.Plan) *scene {
	s := rentedScene(study, plan)
	for m := range study.Machines {
		s.add(m)
	}
	return s
}

func rentedScene(study *model.Study, plan *work.Plan) *scene {
	s := &scene{study: study, plan: plan}
	s.rented = alternative.RentOf(study, plan, make([]bool, len(study.Machines)))
	s.present = s.rented.Present(study)
	return s
}

func (s *scene) add(m int) {
	rent := s.beside(m)
	saved, owner := s.present-rent.Present(s.study), alternative.OwnerOf(s.study, s.plan, only(s.study, m), m)
	s.rents = append(s.rents, rent)
	s.saved = append(s.saved, saved)
	s.owners = append(s.owners, owner)
	s.differences = append(s.differences, saved-owner.Present)
}

// savedBy is the present worth of the renting that owning machine m saves.
func (s *scene) savedBy(m int) float64 {
	rent := s.beside(m)
	return s.present - rent.Present(s.study)
}

// beside is what is still rented beside machine m.
func (s *scene) beside(m int) alternative.Rent {
	return alternative.RentBeside(s.study, s.plan, &s.rented, only(s.study, m))
}

// moved returns the differences after the study's input at path was changed,
// reckoning again only what that input can reach: a candidate's own inputs
// touch no other candidate, and those that say what it costs do not touch the
// work.
func (s *scene) moved(path string) []float64 {
	parts := strings.Split(path, ".")
	switch {
	case parts[len(parts)-1] == "measured": // other steps: grit by grit, or all at once
		return sceneOf(s.study).differences
	case parts[0] == "job_types":
		out := make([]float64, len(s.study.Machines))
		after := s.afterJob(parts[1])
		for m := range out {
			out[m] = after(m)
		}
		return out
	case parts[0] != "machines":
		s.spare.Again(s.study)
		return sceneOn(s.study, s.spare).differences
	}
	m := model.Index(s.study.Machines, parts[1])
	out := slices.Clone(s.differences)
	if slices.Contains(abilityKeys, parts[2]) {
		out[m] = s.reworked(m)
		return out
	}
	owned := capital.Own(s.study, &s.study.Machines[m], s.owners[m].Profile)
	out[m] = s.saved[m] - owned.Present
	return out
}

// movedOne is moved for one machine alone.
func (s *scene) movedOne(path string, m int) float64 {
	switch parts := strings.Split(path, "."); {
	case parts[0] == "machines", parts[len(parts)-1] == "measured":
		return s.moved(path)[m]
	case parts[0] == "job_types":
		return s.afterJob(parts[1])(m)
	}
	s.spare.Again(s.study)
	return rentedScene(s.study, s.spare).alone(m)
}

// afterJob gives the difference of a machine after one job type has changed:
// the others are rented as before.
func (s *scene) afterJob(key string) func(m int) float64 {
	job := model.Index(s.study.JobTypes, key)
	s.spare.Again(s.study)
	rented := alternative.RentAgain(s.study, s.spare, &s.rented, make([]bool, len(s.study.Machines)), job)
	present := rented.Present(s.study)
	return func(m int) float64 {
		owned := only(s.study, m)
		rent := alternative.RentAgain(s.study, s.spare, &s.rents[m], owned, job)
		return present - rent.Present(s.study) - alternative.OwnerOf(s.study, s.spare, owned, m).Present
	}
}

// reworked reckons machine m again on a fresh plan; everything rented costs
// what it did, since no candidate is at work there.
func (s *scene) reworked(m int) float64 {
	s.spare.Again(s.study)
	fresh := &scene{study: s.study, plan: s.spare, rented: s.rented, present: s.present}
	return fresh.alone(m)
}

// alone is the difference of one machine.
func (s *scene) alone(m int) float64 {
	return s.savedBy(m) - alternative.OwnerOf(s.study, s.plan, only(s.study, m), m).Present
}

// abilityKeys are the inputs of a machine that decide its work.
var abilityKeys = keysOf(reflect.TypeFor[model.Ability]())

func keysOf(kind reflect.Type) []string {
	keys := make([]string, kind.NumField())
	for i := range keys {
		keys[i] = kind.Field(i).Tag.Get("key")
	}
	return keys
}
