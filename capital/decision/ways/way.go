package ways

import (
	"shopstint/model"
	"shopstint/model/wear"
	"shopstint/model/wear/change"
	"shopstint/model/work"
)

// Part is one part of what a way costs.
type Part int

// The parts in the order in which they are shown.
const (
	Wear      Part = iota // edges and abrasives
	Labour                // own time: running, changing, setting up, rework, care
	Energy                // of a machine that is bought
	Rework                // what a rework uses up, and waiting where it is priced
	Equipment             // what has to be bought and kept, and what lies in the drawer
	Parts                 // number of parts
)

// Way is what one way of a comparison costs. A unit is a finished metre or
// square metre; money is before tax, at the prices of the first year.
type Way struct {
	WearPlain float64 // money a unit and pass in plain hardwood, all abrasives together
	Lasts     float64 // life in this work and material, against plain hardwood
	Slowing   float64 // how much longer the runs take, over a life, than with a fresh edge
	Changes   float64 // edges or abrasives changed a unit

	Running float64 // min a unit at the machine
	Change  float64 // min a unit of changing edges and abrasives
	Setting float64 // min a unit of setting up and handling
	Again   float64 // min a unit of rework, as expected

	Care   float64 // own hours of care each running hour
	Power  float64 // money for energy each running hour
	Repair float64 // money a unit that a rework uses up, as expected
	Wait   float64 // h a unit that pieces wait for a rework, as expected

	Kept Kept // what is bought and kept
	Line Line // all of it: fixed and by the unit

	PerUnit [Parts]float64 // money a unit at the study's amount; all parts add up to what it costs
	Hours   float64        // running hours a year at that amount
	Own     float64        // own hours a year
	Waited  float64        // days a year that pieces wait
	Yearly  float64        // money a year
	Outlay  float64        // money laid out before the first unit
}

// Minutes returns the own time of a unit in minutes.
func (w *Way) Minutes() float64 { return w.Running*(1+w.Care) + w.Change + w.Setting + w.Again }

// Unit returns what a finished unit costs at the study's amount.
func (w *Way) Unit() float64 {
	sum := 0.0
	for _, part := range w.PerUnit {
		sum += part
	}
	return sum
}

// wayOf prices one way at the study's amount, whose hours decide how a machine
// that is bought falls in value.
func wayOf(study *model.Study, comparison *model.Comparison, given *model.Way) Way {
	w := Way{Slowing: 1}
	material, _ := model.Find(study.Materials, comparison.Material)
	if comparison.ByArea() {
		w.Lasts = float64(given.LifeFactor) * float64(material.AbrasiveLife)
		w.overArea(study, given)
	} else {
		w.Lasts = float64(given.LifeFactor) * float64(material.EdgeLife)
		w.alongLength(study, &material, given)
	}
	w.byPiece(comparison, given)
	amount := comparison.Amount()
	w.Hours = amount * w.Running / 60
	w.buy(study, comparison, given)
	w.addUp(study, comparison, given)
	w.Own = amount * w.Minutes() / 60
	w.Waited = amount * w.Wait / 24
	return w
}

// alongLength is the wear and the time of an edge that runs along the length.
//
// Source: common practice, no source: minutes = length ÷ feed × passes.
func (w *Way) alongLength(study *model.Study, material *model.Material, given *model.Way) {
	passes := float64(given.Passes)
	if edge, ok := model.Find(study.Edges, given.Edge); ok {
		span := work.SpanOf(&edge)
		w.WearPlain = work.EdgeCost(&edge)
		w.Slowing = Slowing(float64(edge.DullFeed), float64(edge.SuddenShare))
		w.Changes = passes * (1 + span.Sharpened) / span.Run / w.Lasts
		w.Change = w.Changes * edge.ChangeTime.Minutes()
	}
	if given.Feed > 0 {
		w.Running = passes / (given.Feed.MetresPerMinute() * float64(material.FeedFactor)) * w.Slowing
	}
}

// overArea is the wear and the time of abrasives that pass over the area, one
// after the other. The time is for all of them, so that how much each slows it
// down is taken in equal shares.
//
// Source: common practice, no source: minutes = area × time for each area.
func (w *Way) overArea(study *model.Study, given *model.Way) {
	longer := 0.0
	for _, key := range given.Abrasives {
		abrasive, _ := model.Find(study.Abrasives, key)
		changes := float64(given.Passes) / work.AbrasiveRun(&abrasive) / w.Lasts
		w.WearPlain += work.AbrasiveCost(&abrasive)
		w.Changes += changes
		w.Change += changes * abrasive.ChangeTime.Minutes()
		longer += Slowing(float64(abrasive.DullFeed), float64(abrasive.SuddenShare)) / float64(len(given.Abrasives))
	}
	if len(given.Abrasives) > 0 {
		w.Slowing = longer
	}
	w.Running = float64(given.AreaTime) / 60 * w.Slowing
}

// Slowing returns how much longer a run takes in the mean over a life than with
// a fresh edge. The time of each unit rises evenly, to what it is when a share of
// the feed is lost; where a share of lives ends sooner, by damage, less is run dull.
//
// Source: common practice, no source; the mean age by change.Rate.
func Slowing(lost, sudden float64) float64 {
	meanAge := change.Rate(change.Costs{Rise: 1}, change.Sudden(wear.Rate(sudden, 1)), 1)
	return 1 + lost/(1-lost)*meanAge
}

// byPiece spreads what is counted by the piece over its units.
func (w *Way) byPiece(comparison *model.Comparison, given *model.Way) {
	piece := comparison.Piece()
	if piece == 0 {
		return
	}
	chance := float64(given.ReworkShare)
	w.Setting = given.PieceTime.Minutes() / piece
	w.Again = chance * given.ReworkTime.Minutes() / piece
	w.Wait = chance * given.ReworkWait.Hours() / piece
	w.Repair = chance * float64(given.ReworkCost) / piece
}

// addUp prices the parts and puts them into a line.
func (w *Way) addUp(study *model.Study, comparison *model.Comparison, given *model.Way) {
	w.PerUnit = [Parts]float64{
		Wear:   w.WearPlain * float64(given.Passes) / w.Lasts,
		Labour: w.Minutes() / 60 * float64(study.Studio.LabourRate),
		Energy: w.Running / 60 * w.Power,
		Rework: w.Repair + w.Wait*float64(comparison.WaitingRate),
	}
	w.Line = Line{Fixed: w.Kept.Yearly(), Unit: w.Unit()}
	w.PerUnit[Equipment] = w.Line.Fixed / comparison.Amount()
	w.Yearly = w.Line.Yearly(comparison.Amount())
}
