package studygen

import (
	"fmt"
	"slices"
	"strconv"

	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/quantity"
)

var (
	currencies = []string{"USD", "EUR", "JPY", "KWD", "GBP"}
	grits      = []string{"60", "80", "100", "120", "150", "180", "220"}

	overFaces  = []string{model.Planer, model.WideBelt, model.RouterSled, model.Orbital}
	alongCuts  = []string{model.PanelSaw, model.TrackSaw, model.Router}
	handHeld   = []string{model.TrackSaw, model.Router, model.RouterSled, model.Orbital, model.Other}
	edgeRunner = []string{model.Planer, model.PanelSaw, model.TrackSaw, model.Router, model.RouterSled}
)

// awkward names look like something else to a reader that is careless.
var awkward = []string{`=1+1`, `- a dash`, `yes`, `12`, `"quoted": and # marked`, `ash & résine, 2 ½ in`, `a: b`, `{brace}`}

// members makes the lists of the study with their keys, classes and references,
// and everything that other inputs hang on.
func (d *dice) members() {
	s := d.study
	s.Currency = pick(d, currencies...)
	s.Money, _ = money.ParseCurrency(s.Currency) // all of them are known: a test reads every one
	d.system = pick(d, quantity.Metric, quantity.Inch)
	s.Units = d.system.String()
	s.StartYear = quantity.Count(d.between(2020, 2035))
	s.Studio.Phases = pick[quantity.Count](d, 1, 3)
	s.Studio.Horizon = quantity.Years(d.between(1, 15))
	for _, class := range edgeRunner {
		s.Edges = append(s.Edges, model.Edge{Key: "edge_" + class, Name: d.name()})
	}
	for _, class := range []string{model.WideBelt, model.Orbital} {
		for _, grit := range grits {
			number, _ := strconv.Atoi(grit)
			s.Abrasives = append(s.Abrasives, model.Abrasive{Key: class + grit, Class: class, Grit: quantity.Count(number)})
		}
	}
	for i := range d.between(1, 3) {
		s.Materials = append(s.Materials, model.Material{Key: fmt.Sprintf("stock%d", i), Name: d.name(), Resin: d.chance(0.4)})
	}
	for i := range d.between(1, 2) {
		s.Shops = append(s.Shops, d.shop(i))
	}
	for _, class := range some(d, 0.6, handHeld...) {
		if d.bench {
			s.Tools = append(s.Tools, d.tool(class))
		}
	}
	for i := range d.between(1, 6) {
		s.Machines = append(s.Machines, d.machine(i))
	}
	d.shared()
	for i := range d.between(1, 8) {
		s.JobTypes = append(s.JobTypes, d.jobType(i))
	}
	if d.chance(0.6) {
		for i := range d.between(1, 12) {
			s.DatedJobs = append(s.DatedJobs, d.datedJob(i))
		}
	}
}

func (d *dice) name() string {
	if d.chance(0.1) {
		return pick(d, awkward...)
	}
	return pick(d, "wide", "old", "first", "north") + " " + pick(d, "one", "pair", "set")
}

func (d *dice) shop(number int) model.Shop {
	shop := model.Shop{Key: fmt.Sprintf("shop%d", number), Name: d.name(), Distance: quantity.Distance(d.within(quantity.DimDistance, "2 km", "80 km"))}
	shop.Tariff.Basis = pick(d, model.WholeShop, model.PerMachine)
	classes := some(d, 0.6, model.Classes...)
	if len(classes) == 0 {
		classes = []string{model.Planer}
	}
	if d.chance(0.3) {
		classes = append(classes, pick(d, classes...)) // two of a class, the second wider or not
	}
	for i, class := range classes {
		shop.Machines = append(shop.Machines, model.HiredMachine{Key: fmt.Sprintf("%s_%d", class, i), Name: d.name(), Ability: d.ability(class)})
	}
	return shop
}

func (d *dice) ability(class string) model.Ability {
	ability := model.Ability{Class: class}
	if slices.Contains(edgeRunner, class) {
		ability.Edge = "edge_" + class
	}
	return ability
}

func (d *dice) tool(class string) model.Tool {
	return model.Tool{Key: "own_" + class, Name: d.name(), Ability: d.ability(class)}
}

func (d *dice) machine(number int) model.Machine {
	class := pick(d, model.Classes...)
	machine := model.Machine{Key: fmt.Sprintf("candidate%d", number), Name: d.name(), Condition: pick(d, "new", "used"), Ability: d.ability(class)}
	machine.Does = d.does(class)
	machine.Price = quantity.Money(d.within(quantity.DimMoney, "300", "30000"))
	machine.Resale = pick(d, model.ResaleDeclining, model.ResaleTable, model.ResaleRemainingValue)
	if machine.Resale == model.ResaleTable && d.chance(0.8) {
		share := 1.0
		for range d.between(1, 12) {
			share -= share * float64(d.between(0, 30)) / 100
			machine.ValueTable = append(machine.ValueTable, quantity.Share(d.plain(quantity.DimShare, share)))
		}
	}
	machine.Tax.Method = pick(d, model.TaxNone, model.TaxStraightLine, model.TaxDecliningBalance, model.TaxSumOfYears,
		model.TaxUnitsOfProduction, model.TaxHalfYear, model.TaxMidQuarter)
	switch machine.Tax.Method {
	case model.TaxHalfYear:
		machine.Tax.Life = pick[quantity.Years](d, 3, 5, 7, 10, 15, 20)
	case model.TaxMidQuarter:
		machine.Tax.Life = pick[quantity.Years](d, 3, 5, 7)
	default:
		machine.Tax.Life = quantity.Years(d.between(1, 15))
	}
	return machine
}

// does lists the classes of work a machine takes over: its own and, now and
// then, more of the same kind.
func (d *dice) does(class string) []string {
	kind := []string{}
	switch {
	case slices.Contains(overFaces, class):
		kind = overFaces
	case slices.Contains(alongCuts, class):
		kind = alongCuts
	}
	list := []string{class}
	for _, more := range append(some(d, 0.25, kind...), some(d, 0.1, model.Other)...) {
		if more != class {
			list = append(list, more)
		}
	}
	return list
}

// shared gives some studies fixtures, and some machines relations: each excludes
// or needs machines before it, so that none is asked for what cannot be.
func (d *dice) shared() {
	s := d.study
	for i := range d.between(0, 2) {
		price := quantity.Money(d.within(quantity.DimMoney, "200", "9000"))
		s.Fixtures = append(s.Fixtures, model.Fixture{Key: fmt.Sprintf("fixture%d", i), Name: d.name(), Price: price})
	}
	for i := range s.Machines {
		machine := &s.Machines[i]
		for _, fixture := range s.Fixtures {
			if d.chance(0.4) {
				machine.Fixtures = append(machine.Fixtures, fixture.Key)
			}
		}
		for _, other := range s.Machines[:i] {
			switch related := d.rng.Float64(); {
			case related < 0.08:
				machine.Excludes = append(machine.Excludes, other.Key)
			case related < 0.12 && len(other.Excludes) == 0 && len(machine.Excludes) == 0:
				machine.Needs = append(machine.Needs, other.Key)
			}
		}
	}
}
