package studygen

import (
	"fmt"
	"slices"

	"shopstint/model"
	"shopstint/model/quantity"
)

func (d *dice) jobType(number int) model.JobType {
	s := d.study
	kind := model.JobType{
		Key: fmt.Sprintf("job%d", number), Name: d.name(),
		Shop: pick(d, s.Shops...).Key, Material: pick(d, s.Materials...).Key,
		JobsPerVisit: quantity.Count(d.between(1, 4)),
	}
	kind.PerYear = pick(d, 0, quantity.Count(d.between(1, 60)), quantity.Count(d.between(1, 60)), quantity.Count(d.plain(quantity.DimCount, 30*d.rng.Float64())))
	for i := range d.between(1, 3) {
		kind.Pieces = append(kind.Pieces, d.piece(i))
	}
	classes := d.workable(kind.Shop)
	for i := range d.between(1, 6) {
		kind.Operations = append(kind.Operations, d.operation(i, pick(d, classes...), kind.Pieces))
	}
	return kind
}

// datedJob is an order of the study's first quarter, with two weeks or more for it.
func (d *dice) datedJob(number int) model.DatedJob {
	ready := quantity.Date(fmt.Sprintf("%d-01-01", int(d.study.StartYear))).Day() + d.between(0, 90)
	return model.DatedJob{
		Key: fmt.Sprintf("order%d", number), Name: d.name(), JobType: pick(d, d.study.JobTypes...).Key,
		Ready: quantity.DateOf(ready), Due: quantity.DateOf(ready + d.between(14, 40)), Count: quantity.Count(pick(d, 1, 1, 1, d.between(1, 4))),
	}
}

// workable lists the classes of which a job may ask: what its shop has and, with
// a bench, all hand-held work and what a candidate takes over.
func (d *dice) workable(shopKey string) []string {
	var classes []string
	if d.bench {
		classes = slices.Clone(handHeld)
	}
	shop, _ := model.Find(d.study.Shops, shopKey)
	for i := range shop.Machines {
		classes = append(classes, shop.Machines[i].Class)
	}
	for i := range d.study.Machines {
		if d.bench {
			classes = append(classes, d.study.Machines[i].Does...)
		}
	}
	return classes
}

func (d *dice) piece(number int) model.Piece {
	length := func(low, high string) quantity.Length {
		return quantity.Length(d.within(quantity.DimLength, low, high))
	}
	return model.Piece{
		Key: fmt.Sprintf("piece%d", number), Count: quantity.Count(d.between(1, 6)),
		Length: length("200 mm", "3500 mm"), Width: length("80 mm", "1200 mm"), Thickness: length("22 mm", "110 mm"),
	}
}

func (d *dice) operation(number int, class string, pieces []model.Piece) model.Operation {
	operation := model.Operation{
		Key: fmt.Sprintf("step%d", number), Name: d.name(), Class: class,
		Faces: quantity.Count(d.between(1, 2)), SetupPer: pick(d, model.PerVisit, model.PerJob, model.PerPiece),
		BothSides: d.chance(0.6), ButtFeed: d.chance(0.4), Repeat: d.chance(0.5),
	}
	if d.chance(0.4) {
		operation.Piece = pick(d, pieces...).Key
	}
	operation.Fallback = d.fallback(class)
	if class == model.Other || d.chance(0.15) {
		operation.Measured = quantity.Duration(d.within(quantity.DimDuration, "2 min", "60 min"))
	}
	d.geometry(&operation)
	return operation
}

// fallback is the hand-held way of the same work, where the studio owns it.
func (d *dice) fallback(class string) string {
	way := wayOf(class)
	if way != class && slices.ContainsFunc(d.study.Tools, func(tool model.Tool) bool { return tool.Class == way }) {
		return way
	}
	return ""
}

// wayOf is the hand-held class that does the work of a class.
func wayOf(class string) string {
	switch class {
	case model.Planer:
		return model.RouterSled
	case model.WideBelt:
		return model.Orbital
	case model.PanelSaw:
		return model.TrackSaw
	}
	return class
}

// geometry is what the minutes of a class come from. Measured work has it as
// well, now and then: it then only wears the edge.
func (d *dice) geometry(operation *model.Operation) {
	if operation.Class == model.Other || operation.Measured > 0 && d.chance(0.5) {
		return
	}
	switch operation.Class {
	case model.Planer, model.RouterSled:
		operation.Stock = quantity.Length(d.within(quantity.DimLength, "0.3 mm", "8 mm"))
	case model.WideBelt, model.Orbital:
		for _, grit := range some(d, 0.6, grits...) {
			operation.Grits = append(operation.Grits, model.Grit{Key: grit, Stock: quantity.Length(d.within(quantity.DimLength, "0.01 mm", "0.9 mm"))})
		}
		if len(operation.Grits) == 0 {
			operation.Grits = []model.Grit{{Key: "120", Stock: quantity.Length(d.plain(quantity.DimLength, 0.0001))}}
		}
	default:
		operation.CutLength = quantity.Length(d.within(quantity.DimLength, "200 mm", "8 m"))
		operation.Cuts = quantity.Count(d.between(1, 6))
		if d.chance(0.4) {
			operation.Depth = quantity.Length(d.within(quantity.DimLength, "5 mm", "60 mm"))
		}
	}
}
