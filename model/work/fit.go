package work

import (
	"math"

	"shopstint/model"
	"shopstint/model/quantity"
)

// Fit holds a machine's refusals of a piece: true where the piece is refused.
type Fit struct {
	TooWide, TooThick, TooShort, TooHeavy, Resin bool
}

// OK tells whether the machine takes the piece.
func (f Fit) OK() bool { return f == Fit{} }

// fit compares a piece with the machine's limits; a limit of zero is none.
func fit(ability *model.Ability, operation *model.Operation, piece *model.Piece, material *model.Material) Fit {
	return Fit{
		TooWide:  over(piece.Width, ability.MaxWidth),
		TooThick: over(cutDepth(ability, operation, piece)/thicknessSides(ability, operation), ability.MaxOpening),
		TooShort: exceeds(float64(ability.LeastLength), float64(piece.Length)),
		TooHeavy: ability.MostMass > 0 && exceeds(float64(PieceMass(piece, material)), float64(ability.MostMass)),
		Resin:    material.Resin && !ability.TakesResin,
	}
}

func over(size, limit quantity.Length) bool {
	return limit > 0 && exceeds(float64(size), float64(limit))
}

// exceeds compares to the nanometre (or microgram), so that 42 in and
// 1066.8 mm are the same width.
func exceeds(size, limit float64) bool { return math.Round((size-limit)*1e9) > 0 }

// PieceMass returns the mass of one piece: length × width × thickness × density.
//
// Source: USDA Forest Products Laboratory, Wood Handbook (FPL-GTR-282), chapter 4, density of wood.
func PieceMass(piece *model.Piece, material *model.Material) quantity.Mass {
	volume := float64(piece.Length) * float64(piece.Width) * float64(piece.Thickness)
	return quantity.Mass(volume * float64(StockDensity(material)))
}

// StockDensity returns a material's density: as given, or from its specific
// gravity and moisture content when a handbook value is given instead.
func StockDensity(material *model.Material) quantity.Density {
	if material.SpecificGravity > 0 {
		return DensityAt(float64(material.SpecificGravity), float64(material.Moisture))
	}
	return material.Density
}

// cutDepth returns how deep a saw or router must go; other machines take the
// piece's thickness through their opening.
func cutDepth(ability *model.Ability, operation *model.Operation, piece *model.Piece) quantity.Length {
	if cuts(ability.Class) && operation.Depth > 0 {
		return operation.Depth
	}
	return piece.Thickness
}

// thicknessSides returns from how many faces a cut may come.
func thicknessSides(ability *model.Ability, operation *model.Operation) quantity.Length {
	if saws(ability.Class) && operation.BothSides {
		return 2
	}
	return 1
}

func saws(class string) bool { return class == model.PanelSaw || class == model.TrackSaw }
func cuts(class string) bool { return saws(class) || class == model.Router }
func feeds(class string) bool {
	return class == model.Planer || class == model.WideBelt
}

// Reasons why a machine refuses a piece.
const (
	Wide         = "wide"
	Thick        = "thick"
	Short        = "short"
	Heavy        = "heavy"
	ResinRefused = "resin"
)

// Refusal is one reason why a machine does not take a piece, with both numbers.
type Refusal struct {
	Row   int     // index in the plan
	What  string  // "wide", "thick", "short", "heavy" or "resin"
	Piece float64 // the piece's size, m or kg (0 for resin)
	Limit float64 // the machine's limit, m or kg (0 for resin)
}

// Refusals lists every refusal in the plan, in row order.
func (p *Plan) Refusals(study *model.Study) []Refusal {
	var list []Refusal
	for i := range p.Rows {
		list = append(list, p.RefusalsOf(study, i)...)
	}
	return list
}

// RefusalsOf lists the refusals of one row; a row that fits has none.
func (p *Plan) RefusalsOf(study *model.Study, index int) []Refusal {
	return refusals(study, index, &p.Rows[index])
}

func refusals(study *model.Study, index int, row *Row) []Refusal {
	if row.Fit.OK() {
		return nil
	}
	_, operation, piece, material := row.Parts(study)
	ability := row.Ability(study)
	depth := cutDepth(ability, operation, piece) / thicknessSides(ability, operation)
	var list []Refusal
	add := func(refused bool, what string, size, limit float64) {
		if refused {
			list = append(list, Refusal{index, what, size, limit})
		}
	}
	add(row.Fit.TooWide, Wide, float64(piece.Width), float64(ability.MaxWidth))
	add(row.Fit.TooThick, Thick, float64(depth), float64(ability.MaxOpening))
	add(row.Fit.TooShort, Short, float64(piece.Length), float64(ability.LeastLength))
	add(row.Fit.TooHeavy, Heavy, float64(PieceMass(piece, material)), float64(ability.MostMass))
	add(row.Fit.Resin, ResinRefused, 0, 0)
	return list
}

// Homeless lists the steps that no tool and no shop machine takes: renting
// them is impossible, so the study cannot be priced. Each entry holds the rows
// of the ways that refuse.
func (p *Plan) Homeless() [][]int {
	var list [][]int
	for first := 0; first < len(p.Rows); {
		end, done := first, false
		var ways []int
		for end < len(p.Rows) && p.Rows[end].Step == p.Rows[first].Step {
			done = done || p.Rows[end].Used
			if p.Rows[end].Site != AtStudio {
				ways = append(ways, end)
			}
			end++
		}
		if !done && len(ways) > 0 {
			list = append(list, ways)
		}
		first = end
	}
	return list
}

// Lacks tells whether some step is Homeless.
func (p *Plan) Lacks() bool {
	step, done, ways := -1, true, false
	for i := range p.Rows {
		row := &p.Rows[i]
		if row.Step != step {
			if ways && !done {
				return true
			}
			step, done, ways = row.Step, false, false
		}
		done, ways = done || row.Used, ways || row.Site != AtStudio
	}
	return ways && !done
}
