package defaults

import (
	"slices"
	"strconv"

	"shopstint/model"
	"shopstint/model/quantity"
)

// Keys of members that are assumed because a study names none.
const (
	assumedMaterial = "hardwood"
	assumedPiece    = "piece"
	assumedPrefix   = "assumed_"
)

// tableYears is how far an assumed table of values reaches.
const tableYears = 10

// addMembers gives lists the members that the method needs, and fills in which
// member is meant where a study does not say.
func (f *filling) addMembers() {
	f.addMaterial()
	for i := range f.study.Shops {
		f.basis(&f.study.Shops[i])
	}
	for i := range f.study.JobTypes {
		f.completeJob(&f.study.JobTypes[i])
	}
	for i := range f.study.Comparisons {
		one := &f.study.Comparisons[i]
		f.choose("comparisons."+one.Key+".material", &one.Material, f.study.Materials[0].Key, "the first material of the study")
	}
	for i := range f.study.Machines {
		machine := &f.study.Machines[i]
		if machine.Resale == model.ResaleTable && len(machine.ValueTable) == 0 {
			machine.ValueTable = make([]quantity.Share, tableYears)
		}
	}
	f.addEdges()
	f.addAbrasives()
}

func (f *filling) addMaterial() {
	if len(f.study.Materials) == 0 {
		f.study.Materials = []model.Material{{Key: assumedMaterial}}
	}
}

// basis is one clock a machine where only machines have a rate.
func (f *filling) basis(shop *model.Shop) {
	path := "shops." + shop.Key
	if f.given(path+".tariff.basis") || f.given(path+".tariff.hourly_rate") {
		return
	}
	for _, machine := range shop.Machines {
		if f.given(path + ".machines." + machine.Key + ".hourly_rate") {
			f.choose(path+".tariff.basis", &shop.Tariff.Basis, model.PerMachine, "its machines have rates of their own")
			return
		}
	}
}

// choose fills in a word unless the study gives it.
func (f *filling) choose(path string, field *string, word, source string) {
	if f.settled(path) {
		return
	}
	*field = word
	f.study.Origins[path] = model.Origin{Assumed: true, Source: source}
}

func (f *filling) completeJob(job *model.JobType) {
	path := "job_types." + job.Key
	if len(f.study.Shops) > 0 {
		f.choose(path+".shop", &job.Shop, f.study.Shops[0].Key, "the first shop of the study")
	}
	f.choose(path+".material", &job.Material, f.study.Materials[0].Key, "the first material of the study")
	if len(job.Pieces) == 0 {
		job.Pieces = []model.Piece{{Key: assumedPiece}}
	}
	for i := range job.Operations {
		operation := &job.Operations[i]
		step := path + ".operations." + operation.Key
		f.chooseFallback(step+".fallback", operation)
		addGrits(operation)
	}
}

// chooseFallback takes the hand-held way of the same work, where the studio owns it.
func (f *filling) chooseFallback(path string, operation *model.Operation) {
	if way := handHeld(operation.Class); way != "" && f.owns(way) {
		f.choose(path, &operation.Fallback, way, "the studio's own tool for the same work")
		return
	}
	f.choose(path, &operation.Fallback, "", "no own tool for the same work")
}

func handHeld(class string) string {
	switch class {
	case model.Planer:
		return model.RouterSled
	case model.WideBelt:
		return model.Orbital
	case model.PanelSaw:
		return model.TrackSaw
	}
	return ""
}

func (f *filling) owns(class string) bool {
	return slices.ContainsFunc(f.study.Tools, func(tool model.Tool) bool { return tool.Class == class })
}

// addGrits gives a sanding step its usual sequence. A step with measured minutes
// needs none.
func addGrits(operation *model.Operation) {
	if len(operation.Grits) > 0 || operation.Measured > 0 {
		return
	}
	var sequence []string
	switch operation.Class {
	case model.WideBelt:
		sequence = []string{"80", "120", "150", "180"}
	case model.Orbital:
		sequence = []string{"120", "150", "180"}
	}
	for _, grit := range sequence {
		operation.Grits = append(operation.Grits, model.Grit{Key: grit})
	}
}

// placed is what one machine can do, with its path.
type placed struct {
	*model.Ability
	path string
}

// abilities lists hired machines, own tools and candidates.
func abilities(study *model.Study) []placed {
	var list []placed
	for i := range study.Shops {
		shop := &study.Shops[i]
		for j := range shop.Machines {
			machine := &shop.Machines[j]
			list = append(list, placed{&machine.Ability, "shops." + shop.Key + ".machines." + machine.Key})
		}
	}
	for i := range study.Tools {
		list = append(list, placed{&study.Tools[i].Ability, "tools." + study.Tools[i].Key})
	}
	for i := range study.Machines {
		list = append(list, placed{&study.Machines[i].Ability, "machines." + study.Machines[i].Key})
	}
	return list
}

// addEdges gives every cutting machine that names no edge an assumed one, the
// same for all machines of a class.
func (f *filling) addEdges() {
	for _, ability := range abilities(f.study) {
		path := ability.path + ".edge"
		if f.settled(path) || !runsEdge(ability.Class) {
			continue
		}
		key := assumedPrefix + ability.Class + "_edge"
		f.choose(path, &ability.Edge, key, "an assumed edge for this class")
		if model.Index(f.study.Edges, key) < 0 {
			f.study.Edges = append(f.study.Edges, model.Edge{Key: key})
		}
	}
}

func runsEdge(class string) bool {
	switch class {
	case model.Planer, model.PanelSaw, model.TrackSaw, model.Router, model.RouterSled:
		return true
	}
	return false
}

func sands(class string) bool { return class == model.WideBelt || class == model.Orbital }

// addAbrasives gives every grit of every class that may sand it an abrasive.
func (f *filling) addAbrasives() {
	known := map[string]bool{}
	for _, abrasive := range f.study.Abrasives {
		known[abrasive.Key] = true
		if !abrasive.OnlyCompared {
			known[abrasiveKey(abrasive.Class, int(abrasive.Grit))] = true
		}
	}
	for i := range f.study.JobTypes {
		for _, operation := range f.study.JobTypes[i].Operations {
			for _, class := range f.sanders(&operation) {
				f.addGritsOf(class, operation.Grits, known)
			}
		}
	}
}

// addGritsOf adds the abrasives of a class that are not known yet. A key that is
// no grit number is reported by the checks.
func (f *filling) addGritsOf(class string, grits []model.Grit, known map[string]bool) {
	for _, grit := range grits {
		number, err := strconv.Atoi(grit.Key)
		key := abrasiveKey(class, number)
		if err != nil || known[key] {
			continue
		}
		known[key] = true
		f.study.Abrasives = append(f.study.Abrasives, model.Abrasive{Key: key, Class: class, Grit: quantity.Count(number)})
		origin := model.Origin{Assumed: true, Source: "a grit that a step asks for"}
		f.study.Origins["abrasives."+key+".class"] = origin
		f.study.Origins["abrasives."+key+".grit"] = origin
	}
}

func abrasiveKey(class string, grit int) string {
	return assumedPrefix + class + "_" + strconv.Itoa(grit)
}

// sanders lists the classes of machine that may do an operation by grits.
func (f *filling) sanders(operation *model.Operation) []string {
	classes := []string{operation.Class, operation.Fallback}
	for _, machine := range f.study.Machines {
		if slices.Contains(machine.Does, operation.Class) {
			classes = append(classes, machine.Class)
		}
	}
	return slices.DeleteFunc(classes, func(class string) bool { return !sands(class) })
}
