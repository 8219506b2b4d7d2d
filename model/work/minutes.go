package work

import (
	"math"

	"shopstint/model"
	"shopstint/model/quantity"
)

// Parts returns the nouns a row is about.
func (r Row) Parts(study *model.Study) (*model.JobType, *model.Operation, *model.Piece, *model.Material) {
	kind := &study.JobTypes[r.Job]
	return kind, &kind.Operations[r.Operation], &kind.Pieces[r.Piece], MaterialOf(study, r.Job)
}

// reckon fills in a row's fit, passes, times and wear.
func reckon(study *model.Study, row *Row) {
	kind, operation, piece, material := row.Parts(study)
	ability := row.Ability(study)
	row.Fit = fit(ability, operation, piece, material)
	row.Metres, row.Area, row.PerJob, row.PerVisit = 0, 0, 0, 0
	handling := ability.HandlingPerPass
	if exceeds(float64(PieceMass(piece, material)), float64(study.Studio.HeavyOver)) {
		handling = ability.HandlingHeavy
	}
	switch {
	case operation.Measured > 0:
		row.Passes = 1
		row.Run = operation.Measured * quantity.Duration(piece.Count)
		row.Metres, row.Area = measuredWear(operation, piece)
	case feeds(ability.Class):
		feedThrough(ability, operation, piece, material, handling, row)
	case cuts(ability.Class):
		cutThrough(ability, operation, piece, material, handling, row)
	default:
		overFace(ability, operation, piece, material, handling, row)
	}
	setUp(kind, ability, operation, piece, row)
	row.Wear = wearCost(study, row)
}

// feedThrough is for planers and wide belts: every pass takes the whole length.
// Depth per pass is limited by the machine's setting and by its motor.
//
// Source: common practice, no source: passes = ⌈stock ÷ depth⌉ on each face,
// minutes = passes × (length ÷ feed + handling), turning between the faces.
func feedThrough(ability *model.Ability, operation *model.Operation, piece *model.Piece, material *model.Material, handling quantity.Duration, row *Row) {
	feed := float64(ability.Feed) * float64(material.FeedFactor)
	row.Depth = min(ability.DepthPerPass*quantity.Length(material.DepthFactor), PowerDepth(ability, material, piece.Width))
	perFace := max(1, StepsUp(float64(stockOf(operation, row.Grit)), float64(row.Depth)))
	if row.Grit < 0 {
		perFace += float64(ability.FinishPasses)
	}
	count, faces := float64(piece.Count), float64(operation.Faces)
	row.Passes = perFace * faces
	runs := row.Passes * count
	handled := runs
	if operation.ButtFeed {
		handled = row.Passes
	}
	row.Run = quantity.Duration(runs*float64(piece.Length)/feed) + quantity.Duration(handled)*handling + turning(ability, operation, piece)
	row.Metres = runs * float64(piece.Length)
	row.Area = row.Metres * float64(piece.Width)
}

// PowerDepth returns the deepest pass that the motor allows over a width:
// power ÷ (specific energy × width × feed). Without a motor figure there is no limit.
//
// Source: common practice, no source: specific cutting energy as volume rate.
func PowerDepth(ability *model.Ability, material *model.Material, width quantity.Length) quantity.Length {
	energy := material.PlaningEnergy
	if ability.Class == model.WideBelt {
		energy = material.SandingEnergy
	}
	feed := float64(ability.Feed) * float64(material.FeedFactor)
	if ability.Motor == 0 {
		return quantity.Length(math.Inf(1))
	}
	return quantity.Length(float64(ability.Motor) * float64(ability.PeakLoad) / (float64(energy) * float64(width) * feed))
}

// cutThrough is for saws and routers: each cut goes down in steps; a piece
// thicker than the blade reaches is cut from both faces.
//
// Source: common practice, no source: passes = ⌈depth ÷ step⌉ from each face.
func cutThrough(ability *model.Ability, operation *model.Operation, piece *model.Piece, material *model.Material, handling quantity.Duration, row *Row) {
	depth := float64(cutDepth(ability, operation, piece))
	sides := 1.0
	if saws(ability.Class) && operation.BothSides && over(quantity.Length(depth), ability.MaxOpening) {
		sides = 2
	}
	row.Depth = ability.DepthPerPass
	row.Passes = sides * StepsUp(depth/sides, float64(row.Depth))
	feed := float64(ability.Feed) * float64(material.FeedFactor)
	lines := float64(piece.Count) * float64(operation.Cuts)
	oneCut := quantity.Duration(row.Passes * float64(operation.CutLength) / feed)
	row.Run = quantity.Duration(lines) * (oneCut + handling*quantity.Duration(sides))
	row.Metres = lines * row.Passes * float64(operation.CutLength)
}

// overFace is for machines moved over the face: sander by hand, router sled.
//
// Source: common practice, no source: minutes = area × time for each area × passes.
func overFace(ability *model.Ability, operation *model.Operation, piece *model.Piece, material *model.Material, handling quantity.Duration, row *Row) {
	row.Passes = 1
	if row.Depth = ability.DepthPerPass * quantity.Length(material.DepthFactor); row.Depth > 0 {
		row.Passes = max(1, StepsUp(float64(stockOf(operation, row.Grit)), float64(row.Depth)))
	}
	count, faces := float64(piece.Count), float64(operation.Faces)
	row.Area = count * faces * row.Passes * float64(piece.Length) * float64(piece.Width)
	if ability.Stride > 0 {
		row.Metres = row.Area / float64(ability.Stride)
	}
	row.Run = quantity.Duration(row.Area*float64(ability.AreaTime)) + quantity.Duration(count)*handling + turning(ability, operation, piece)
}

// Rubbing returns the part of the running time in which the edge cuts or the
// abrasive rubs, for all the pieces of one job: what takes longer when it is dull.
// All of a time that was measured counts.
func (r Row) Rubbing(study *model.Study) quantity.Duration {
	_, operation, _, material := r.Parts(study)
	switch ability := r.Ability(study); {
	case operation.Measured > 0:
		return r.Run
	case feeds(ability.Class) || cuts(ability.Class):
		return quantity.Duration(r.Metres / (float64(ability.Feed) * float64(material.FeedFactor)))
	default:
		return quantity.Duration(r.Area * float64(ability.AreaTime))
	}
}

func turning(ability *model.Ability, operation *model.Operation, piece *model.Piece) quantity.Duration {
	return quantity.Duration(float64(piece.Count)*(float64(operation.Faces)-1)) * ability.Turning
}

// measuredWear keeps the wear of an operation whose minutes were measured:
// one pass over its faces, or its cuts once.
func measuredWear(operation *model.Operation, piece *model.Piece) (metres, area float64) {
	count := float64(piece.Count)
	if operation.Cuts > 0 {
		return count * float64(operation.Cuts) * float64(operation.CutLength), 0
	}
	metres = count * float64(operation.Faces) * float64(piece.Length)
	return metres, metres * float64(piece.Width)
}

// setUp splits the set-up of a step into the part counted once a visit and the
// part that every job brings along. What serves several pieces of a job at once
// is shared between them.
func setUp(kind *model.JobType, ability *model.Ability, operation *model.Operation, piece *model.Piece, row *Row) {
	shared := quantity.Duration(Sharing(kind, operation))
	if row.Grit >= 0 {
		row.PerVisit = ability.GritChange / shared
	}
	switch operation.SetupPer {
	case model.PerVisit:
		row.PerVisit += operation.Setup / shared
	case model.PerPiece:
		row.PerJob = operation.Setup * quantity.Duration(piece.Count)
	default:
		row.PerJob = operation.Setup / shared
	}
}

// Sharing returns how many sizes of piece share an operation's set-up.
func Sharing(kind *model.JobType, operation *model.Operation) int {
	if operation.Piece != "" {
		return 1
	}
	return len(kind.Pieces)
}

// stockOf returns what a step takes off each face.
func stockOf(operation *model.Operation, grit int) quantity.Length {
	if grit >= 0 {
		return operation.Grits[grit].Stock
	}
	return operation.Stock
}

// StepsUp returns how many steps cover the amount, rounded up, with the inner
// rounding that keeps float dust from adding a step.
func StepsUp(amount, step float64) float64 {
	return math.Ceil(math.Round(amount/step*1e6) / 1e6)
}
