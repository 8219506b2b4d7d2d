package studygen

import (
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// settle mends what inputs that were drawn apart contradict.
func (d *dice) settle() {
	for i := range d.study.Shops {
		d.settleTariff("shops."+d.study.Shops[i].Key+".tariff", &d.study.Shops[i].Tariff)
	}
	d.settleAbilities()
	for i := range d.study.Machines {
		d.settleMachine("machines."+d.study.Machines[i].Key, &d.study.Machines[i])
	}
	for i := range d.study.Materials {
		d.settleMaterial("materials."+d.study.Materials[i].Key, &d.study.Materials[i])
	}
	for i := range d.study.JobTypes {
		kind := &d.study.JobTypes[i]
		if path := "job_types." + kind.Key + ".rework_chance"; d.given[path] && !kind.Repeats() && kind.ReworkVisits == 0 {
			give(d, path, &kind.ReworkChance, 0)
		}
	}
}

// settleAbilities lets heavy pieces take no less handling than light ones.
func (d *dice) settleAbilities() {
	settle := func(path string, ability *model.Ability) {
		if ability.HandlingHeavy < ability.HandlingPerPass {
			give(d, path+".handling_heavy", &ability.HandlingHeavy, ability.HandlingPerPass)
		}
	}
	for i := range d.study.Shops {
		shop := &d.study.Shops[i]
		for m := range shop.Machines {
			settle("shops."+shop.Key+".machines."+shop.Machines[m].Key, &shop.Machines[m].Ability)
		}
	}
	for i := range d.study.Tools {
		settle("tools."+d.study.Tools[i].Key, &d.study.Tools[i].Ability)
	}
	for i := range d.study.Machines {
		settle("machines."+d.study.Machines[i].Key, &d.study.Machines[i].Ability)
	}
}

// give sets an input, which then counts as said and has no range.
func give[T any](d *dice, path string, field *T, value T) {
	*field = value
	d.given[path] = true
	delete(d.ranges, path)
}

func (d *dice) leaveOut(path string) {
	delete(d.given, path)
	delete(d.ranges, path)
}

func (d *dice) settleTariff(path string, tariff *model.Tariff) {
	if tariff.DayPrice > 0 && tariff.HalfDayPrice > tariff.DayPrice {
		give(d, path+".half_day_price", &tariff.HalfDayPrice, tariff.DayPrice)
	}
	if tariff.MembershipFee == 0 {
		d.leaveOut(path + ".membership_time")
		d.leaveOut(path + ".member_discount")
	}
	for _, key := range []string{".minimum_block", ".half_day", ".day"} {
		delete(d.ranges, path+key) // an end of a range could be longer than the day
	}
}

func (d *dice) settleMachine(path string, m *model.Machine) {
	if m.Condition == "new" {
		d.leaveOut(path + ".age")
		d.leaveOut(path + ".hours")
	}
	if d.given[path+".hours"] && m.LifeHours < 2*m.Hours {
		life := quantity.Duration(d.plain(quantity.DimDuration, 2*float64(m.Hours)))
		give(d, path+".life_hours", &m.LifeHours, life)
	}
	if d.given[path+".machine_phases"] {
		give(d, path+".machine_phases", &m.MachinePhases, pick[quantity.Count](d, 1, 3))
	}
}

// settleMaterial gives a density or a specific gravity, never both.
func (d *dice) settleMaterial(path string, material *model.Material) {
	if d.given[path+".specific_gravity"] && material.SpecificGravity > 0 {
		d.leaveOut(path + ".density")
	}
}

// house gives every step that nothing takes a hand-held tool that does, and
// opens that tool until it takes the piece.
func (d *dice) house() {
	for j := range d.study.JobTypes {
		kind := &d.study.JobTypes[j]
		for o := range kind.Operations {
			if operation := &kind.Operations[o]; !d.offered(kind, operation.Class) && operation.Fallback == "" {
				d.open(wayOf(operation.Class))
			}
		}
	}
	d.fallBack()
	plan := work.New(d.study)
	for _, ways := range plan.Homeless() {
		i := ways[0]
		_, operation, _, _ := plan.Rows[i].Parts(d.study)
		d.open(wayOf(operation.Class))
	}
	d.fallBack()
}

// offered tells whether the job's shop or an own tool does a class.
func (d *dice) offered(kind *model.JobType, class string) bool {
	shop, _ := model.Find(d.study.Shops, kind.Shop)
	for i := range shop.Machines {
		if shop.Machines[i].Class == class {
			return true
		}
	}
	return model.Index(d.study.Tools, "own_"+class) >= 0
}

// open makes an own tool of a class that takes every piece.
func (d *dice) open(class string) {
	i := model.Index(d.study.Tools, "own_"+class)
	if i < 0 {
		i = len(d.study.Tools)
		d.study.Tools = append(d.study.Tools, d.tool(class))
		for _, key := range []string{".name", ".class", ".edge"} {
			d.given["tools.own_"+class+key] = true
		}
	}
	tool, path := &d.study.Tools[i], "tools.own_"+class
	give(d, path+".max_width", &tool.MaxWidth, 0)
	give(d, path+".max_opening", &tool.MaxOpening, 0)
	give(d, path+".least_length", &tool.LeastLength, 0)
	give(d, path+".most_mass", &tool.MostMass, 0)
	give(d, path+".takes_resin", &tool.TakesResin, true)
}

// fallBack lets work fall back on an own tool for it, as a study does that does
// not say otherwise.
func (d *dice) fallBack() {
	for j := range d.study.JobTypes {
		kind := &d.study.JobTypes[j]
		for o := range kind.Operations {
			operation := &kind.Operations[o]
			if operation.Fallback = d.fallback(operation.Class); operation.Fallback != "" {
				d.given["job_types."+kind.Key+".operations."+operation.Key+".fallback"] = true
			}
		}
	}
}
