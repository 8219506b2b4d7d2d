package chance

import (
	"math"

	"shopstint/model"
	"shopstint/model/quantity"
)

// Ranged tells whether futures draw an input, and from what: it has a range, the
// owner does not decide it, and answers hang on it.
func Ranged(study *model.Study, leaf model.Leaf) (Range, bool) {
	origin := study.Origins[leaf.Path]
	dim, measured := leaf.Dimension()
	if !measured || !origin.HasRange || origin.Low == origin.High || leaf.Has("fixed") || leaf.Has("chosen") || leaf.Has("aside") {
		return Range{}, false
	}
	least := limit(dim, leaf.Tag.Get("least")+leaf.Tag.Get("above"), -1)
	most := limit(dim, leaf.Tag.Get("most"), 1)
	return Range{leaf.Number(), origin.Low, origin.High, origin.Shape, least, most}, true
}

// limit reads a limit of an input's tag; a rate of zero is written as a bare 0,
// and no limit is infinity on the given side.
func limit(dim quantity.Dimension, text string, side int) float64 {
	if text == "0" {
		return 0
	}
	x, _, err := quantity.Parse(dim, text)
	if err != nil {
		return math.Inf(side)
	}
	return x
}
