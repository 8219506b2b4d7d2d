package defaults

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"shopstint/model"
)

// subject is a part of the study with all that its assumed values depend on.
// The functions take the rest of the path below it, such as "feed".
type subject struct {
	at    string               // path of its entries: "shops.machines"
	like  string               // a second path where its entries may stand, or ""
	class string               // of its machine, or ""
	when  func(string) string  // the word that holds for it
	size  func(string) float64 // what bands are measured in
}

func (s subject) fits(entry *Entry, rest string) bool {
	if len(entry.Classes) > 0 && !slices.Contains(entry.Classes, s.class) {
		return false
	}
	if entry.When != "" && (s.when == nil || entry.When != s.when(rest)) {
		return false
	}
	size := math.Inf(1)
	if s.size != nil {
		size = s.size(rest)
	}
	if math.IsInf(size, 1) {
		return math.IsInf(entry.Till, 1)
	}
	return size >= entry.From && size < entry.Till
}

// subjects lists the parts of a study by their path. The study is itself the
// part with the empty path. Lists must not grow afterwards.
func subjects(study *model.Study) map[string]subject {
	parts := map[string]subject{"": {}}
	machines := abilities(study)
	for i := range study.Shops {
		addShop(parts, &study.Shops[i])
	}
	for i := range study.Tools {
		tool := &study.Tools[i]
		parts["tools."+tool.Key] = subject{at: "tools", like: "any_machine", class: tool.Class, size: widthOf(&tool.Ability)}
	}
	for i := range study.Machines {
		parts["machines."+study.Machines[i].Key] = candidate(study, &study.Machines[i])
	}
	for i := range study.Fixtures {
		parts["fixtures."+study.Fixtures[i].Key] = subject{at: "fixtures"}
	}
	for i := range study.Edges {
		parts["edges."+study.Edges[i].Key] = edge(machines, study.Edges[i].Key)
	}
	for i := range study.Abrasives {
		parts["abrasives."+study.Abrasives[i].Key] = abrasive(machines, &study.Abrasives[i])
	}
	for i := range study.Materials {
		material := &study.Materials[i]
		parts["materials."+material.Key] = subject{at: "materials", when: resin(material)}
	}
	for i := range study.JobTypes {
		addJob(parts, study, &study.JobTypes[i])
	}
	for i := range study.Comparisons {
		addComparison(parts, study, &study.Comparisons[i])
	}
	return parts
}

func addShop(parts map[string]subject, shop *model.Shop) {
	path := "shops." + shop.Key
	basis := func(string) string { return shop.Tariff.Basis }
	parts[path] = subject{at: "shops", when: basis}
	for i := range shop.Machines {
		machine := &shop.Machines[i]
		parts[path+".machines."+machine.Key] = subject{
			at: "shops.machines", like: "any_machine", class: machine.Class, when: basis, size: widthOf(&machine.Ability),
		}
	}
}

// candidate goes by its condition, its tax by the currency, its phases by the motor.
func candidate(study *model.Study, machine *model.Machine) subject {
	width := widthOf(&machine.Ability)
	return subject{
		at: "machines", like: "any_machine", class: machine.Class,
		when: func(rest string) string {
			if !strings.HasPrefix(rest, "tax.") {
				return machine.Condition
			}
			if study.Currency == dollars {
				return "dollars"
			}
			return "other_money"
		},
		size: func(rest string) float64 {
			if rest == "machine_phases" {
				return machine.Motor.Kilowatts()
			}
			if row, ok := strings.CutPrefix(rest, "value_table."); ok {
				return number(row)
			}
			return width(rest)
		},
	}
}

// widthOf measures a machine by the widest piece it takes, in mm; without a
// limit it is endlessly wide.
func widthOf(ability *model.Ability) func(string) float64 {
	return func(string) float64 {
		if ability.MaxWidth <= 0 {
			return math.Inf(1)
		}
		return ability.MaxWidth.Millimetres()
	}
}

// edge goes by the widest machine that runs it.
func edge(machines []placed, key string) subject {
	part := subject{at: "edges"}
	widest := 0.0
	for _, machine := range machines {
		width := widthOf(machine.Ability)("")
		if machine.Edge != key || (part.class != "" && width <= widest) {
			continue
		}
		part.class, part.size, widest = machine.Class, widthOf(machine.Ability), width
	}
	return part
}

// abrasive has its price by the widest machine of its class, its life by its grit.
func abrasive(machines []placed, one *model.Abrasive) subject {
	return subject{at: "abrasives", class: one.Class, size: func(rest string) float64 {
		if rest != "price" {
			return float64(one.Grit)
		}
		widest := 0.0
		for _, machine := range machines {
			if machine.Class == one.Class {
				widest = max(widest, widthOf(machine.Ability)(""))
			}
		}
		return widest
	}}
}

func resin(material *model.Material) func(string) string {
	return func(string) string {
		if material.Resin {
			return "resin"
		}
		return ""
	}
}

func addJob(parts map[string]subject, study *model.Study, job *model.JobType) {
	path := "job_types." + job.Key
	part := subject{at: "job_types"}
	if i := model.Index(study.Materials, job.Material); i >= 0 {
		part.when = resin(&study.Materials[i])
	}
	parts[path] = part
	for i := range job.Pieces {
		parts[path+".pieces."+job.Pieces[i].Key] = subject{at: "job_types.pieces"}
	}
	for i := range job.Operations {
		operation := &job.Operations[i]
		step := path + ".operations." + operation.Key
		parts[step] = subject{at: "job_types.operations", class: operation.Class}
		for _, grit := range operation.Grits {
			parts[step+".grits."+grit.Key] = subject{
				at: "job_types.operations.grits", class: operation.Class,
				size: func(string) float64 { return number(grit.Key) },
			}
		}
	}
}

// number reads a grit or a row; a text that is none is 0, and checked elsewhere.
func number(text string) float64 {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return float64(n)
}
