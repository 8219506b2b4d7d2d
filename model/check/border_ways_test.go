package check

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// compares has the study compare two bits that run along a line, and belts with
// discs over an area.
func compares(s *model.Study) {
	s.Comparisons = []model.Comparison{
		{Key: "trim", YearlyLength: 100, Ways: []model.Way{{Key: "straight", Edge: "blade", Feed: 0.05}, {Key: "spiral", Edge: "knives", Feed: 0.05}}},
		{Key: "smooth", YearlyArea: 100, Ways: []model.Way{{Key: "belts", Abrasives: []string{"belt80"}, AreaTime: 60}, {Key: "discs", Abrasives: []string{"disc80"}, AreaTime: 60}}},
	}
}

func trim(s *model.Study) *model.Comparison   { return &s.Comparisons[0] }
func smooth(s *model.Study) *model.Comparison { return &s.Comparisons[1] }

// among changes a study that compares.
func among(change func(*model.Study)) func(*model.Study) {
	return func(s *model.Study) { compares(s); change(s) }
}

func TestAStudyThatComparesHoldsEveryRule(t *testing.T) {
	study := studygen.Round()
	compares(study)
	assert.Empty(t, Study(study))
}

func TestAComparisonCountsItsWorkOnce(t *testing.T) {
	judge(t, "a comparison counts its work by length or by area", []border{
		{"once each", compares, nowhere},
		{"little", among(func(s *model.Study) { trim(s).YearlyLength, smooth(s).YearlyArea = 0.5, 0.5 }), nowhere},
		{"twice", among(func(s *model.Study) { trim(s).YearlyArea, smooth(s).YearlyLength = 0.5, 0.5 }), at("comparisons.trim.yearly_area", "comparisons.smooth.yearly_area")},
		{"not at all", among(func(s *model.Study) { trim(s).YearlyLength = 0 }), at("comparisons.trim")},
		{"and the piece the same", among(func(s *model.Study) { trim(s).PieceLength, smooth(s).PieceArea = 0.5, 0.5 }), nowhere},
		{"and the piece otherwise", among(func(s *model.Study) { trim(s).PieceArea, smooth(s).PieceLength = 0.5, 0.5 }),
			at("comparisons.trim.piece_area", "comparisons.smooth.piece_length")},
	})
	judge(t, "a comparison has several ways", []border{
		{"two", compares, nowhere},
		{"one", among(func(s *model.Study) { trim(s).Ways = trim(s).Ways[:1] }), at("comparisons.trim.ways")},
	})
}

func TestAWayRunsWhatItsWorkIsCountedBy(t *testing.T) {
	wrong := among(func(s *model.Study) {
		trim(s).Ways[0].Abrasives, trim(s).Ways[1].AreaTime = []string{"belt80"}, 0.5
		smooth(s).Ways[0].Edge, smooth(s).Ways[1].Feed = "blade", 0.5
	})
	judge(t, "a way runs what its work is counted by", []border{
		{"it", compares, nowhere},
		{"the other", wrong, at("comparisons.trim.ways.straight.abrasives", "comparisons.trim.ways.spiral.area_time",
			"comparisons.smooth.ways.belts.edge", "comparisons.smooth.ways.discs.feed")},
		{"paces that are assumed", func(s *model.Study) {
			wrong(s)
			trim(s).Ways[0].Abrasives, smooth(s).Ways[0].Edge = nil, ""
			assume(s, "comparisons.trim.ways.spiral.area_time", "comparisons.smooth.ways.discs.feed")
		}, nowhere},
		{"not counted: another rule tells", func(s *model.Study) { wrong(s); trim(s).YearlyLength, smooth(s).YearlyArea = 0, 0 }, nowhere},
		{"counted twice: another rule tells", func(s *model.Study) { wrong(s); trim(s).YearlyArea, smooth(s).YearlyLength = 0.5, 0.5 }, nowhere},
	})
	still := among(func(s *model.Study) { trim(s).Ways[0].Feed, smooth(s).Ways[1].AreaTime = 0, 0 })
	study := studygen.Round()
	still(study)
	assert.Equal(t, "comparisons.trim.ways.straight.feed is 0 m/min, and the way takes no time for a piece either", waysHaveAPace(study)[0].What)
	judge(t, "a way that runs something has a pace", []border{
		{"slow", among(func(s *model.Study) { trim(s).Ways[0].Feed, smooth(s).Ways[1].AreaTime = 1e-6, 0.5 }), nowhere},
		{"none", still, at("comparisons.trim.ways.straight.feed", "comparisons.smooth.ways.discs.area_time")},
		{"by the piece", func(s *model.Study) { still(s); trim(s).Ways[0].PieceTime, smooth(s).Ways[1].PieceTime = 0.5, 0.5 }, nowhere},
		{"runs nothing", func(s *model.Study) { still(s); trim(s).Ways[0].Edge, smooth(s).Ways[1].Abrasives = "", nil }, nowhere},
		{"runs what is not counted: another rule tells", func(s *model.Study) {
			still(s)
			trim(s).Ways[0].Edge, trim(s).Ways[0].Abrasives = "", []string{"belt80"}
			smooth(s).Ways[1].Abrasives, smooth(s).Ways[1].Edge = nil, "blade"
		}, nowhere},
	})
}

func TestWhatIsCountedByThePieceHasASizeOfPiece(t *testing.T) {
	pieces := among(func(s *model.Study) { trim(s).Ways[0].PieceTime, smooth(s).Ways[1].ReworkShare = 0.5, 0.5 })
	judge(t, "what is counted by the piece has a size of piece", []border{
		{"nothing is", compares, nowhere},
		{"none", pieces, at("comparisons.trim.ways.straight.piece_time", "comparisons.smooth.ways.discs.rework_share")},
		{"little", func(s *model.Study) { pieces(s); trim(s).PieceLength, smooth(s).PieceArea = 0.5, 0.5 }, nowhere},
		{"the other size", func(s *model.Study) { pieces(s); trim(s).PieceArea, smooth(s).PieceLength = 0.5, 0.5 },
			at("comparisons.trim.ways.straight.piece_time", "comparisons.smooth.ways.discs.rework_share")},
		{"no work: another rule tells", func(s *model.Study) { pieces(s); trim(s).YearlyLength, smooth(s).YearlyArea = 0, 0 }, nowhere},
	})
	study := studygen.Round()
	pieces(study)
	assert.Equal(t, "give piece_length in comparisons.trim", piecesHaveSize(study)[0].Right)
	assert.Equal(t, "give piece_area in comparisons.smooth", piecesHaveSize(study)[1].Right)
}

func TestAWayIsBoughtOnce(t *testing.T) {
	twice := among(func(s *model.Study) {
		trim(s).Ways[1].Machine, trim(s).Ways[1].Price, trim(s).Ways[1].YearlyUpkeep = "belt_own", 0.5, 0.5
		smooth(s).Ways[0].Machine, smooth(s).Ways[0].Resale = "belt_own", 0.5
	})
	judge(t, "a way has a machine or a price of its own", []border{
		{"a price", among(func(s *model.Study) { trim(s).Ways[1].Price = 10 }), nowhere},
		{"a machine", among(func(s *model.Study) { trim(s).Ways[1].Machine = "belt_own" }), nowhere},
		{"both", twice, at("comparisons.trim.ways.spiral.price", "comparisons.trim.ways.spiral.yearly_upkeep", "comparisons.smooth.ways.belts.resale")},
		{"figures that are assumed", func(s *model.Study) {
			twice(s)
			assume(s, "comparisons.trim.ways.spiral.price", "comparisons.trim.ways.spiral.yearly_upkeep", "comparisons.smooth.ways.belts.resale")
		}, nowhere},
	})
}

// from gives an input a range.
func from(s *model.Study, path string, low, high float64, shape string) {
	s.Origins[path] = model.Origin{HasRange: true, Low: low, High: high, Shape: shape}
}

func TestARangeIsWhatItsShapeAsksFor(t *testing.T) {
	labour := func(low, high float64, shape string) func(*model.Study) { // around 60
		return func(s *model.Study) { from(s, "studio.labour_rate", low, high, shape) }
	}
	judge(t, "a range is what its shape asks for", []border{
		{"in the middle", labour(50, 70, model.ShapeNormal), nowhere},
		{"a little off: 1 of 20", labour(51, 71, model.ShapeNormal), nowhere},
		{"off: 1.1 of 20", labour(51.1, 71.1, model.ShapeNormal), at("studio.labour_rate")},
		{"from zero", labour(0, 130, model.ShapeLognormal), at("studio.labour_rate")},
		{"no range", labour(70, 70, model.ShapeNormal), nowhere},
		{"no shape", labour(50, 90, ""), nowhere},
		{"no number", func(s *model.Study) { from(s, "title", 1, 3, model.ShapeNormal) }, nowhere},
	})
	right := func(low, high float64, shape string) string {
		study := studygen.Round()
		labour(low, high, shape)(study)
		return rangesFitTheirShape(study)[0].Right
	}
	assert.Equal(t, "give a low above zero, or another shape", right(0, 130, model.ShapeLognormal))
	assert.Equal(t, "give the value 8 per h, or another shape", right(0.5, 128, model.ShapeLognormal), "above zero: the root of a half × 128")
	assert.Equal(t, "give the value 80 per h, or another shape", right(50, 110, model.ShapeNormal))
	assert.Equal(t, "give the value 80 per h, or another shape", right(40, 160, model.ShapeLognormal), "the root of 40 × 160")
}

func TestCorrelationsTieTwoInputsThatAreDrawn(t *testing.T) {
	tie := func(more ...model.Correlation) func(*model.Study) {
		return func(s *model.Study) {
			for _, path := range []string{"studio.helper_rate", "studio.labour_rate", "studio.floor_cost"} {
				from(s, path, 10, 120, "")
			}
			from(s, "studio.close_call", 0, 0.1, "")
			s.Correlations = more
		}
	}
	one := func(key, a, b string, rho float64) model.Correlation {
		return model.Correlation{Key: key, A: "studio." + a, B: "studio." + b, Rho: quantity.Count(rho)}
	}
	judge(t, "a correlation ties inputs that are drawn from ranges", []border{
		{"drawn", tie(one("x", "helper_rate", "labour_rate", 0.5)), nowhere},
		{"decided", tie(one("x", "helper_rate", "close_call", 0.5)), at("correlations.x.b")},
		{"misspelt", tie(one("x", "helper_rte", "labour_rate", 0.5)), at("correlations.x.a")},
		{"missing: the reader tells", tie(model.Correlation{Key: "x", A: "studio.helper_rate"}), nowhere},
	})
	judge(t, "a correlation ties two inputs and no other ties them", []border{
		{"two pairs", tie(one("x", "helper_rate", "labour_rate", 0.5), one("y", "helper_rate", "floor_cost", 0.5)), nowhere},
		{"one input", tie(one("x", "helper_rate", "helper_rate", 0.5)), at("correlations.x.b")},
		{"turned round", tie(one("x", "helper_rate", "labour_rate", 0.5), one("y", "labour_rate", "helper_rate", 0.5)), at("correlations.y")},
	})
	circle := func(last float64) []model.Correlation {
		return []model.Correlation{one("x", "helper_rate", "labour_rate", 0.9), one("y", "labour_rate", "floor_cost", 0.9), one("z", "floor_cost", "helper_rate", last)}
	}
	judge(t, "correlations can all hold together", []border{
		// 0.9 and 0.9 leave a third no less than 0.9² − (1 − 0.9²) = 0.62.
		{"hardly", tie(circle(0.621)...), nowhere},
		{"not", tie(circle(0.619)...), at("correlations.z.rho")},
		{"with what is not drawn: another rule tells", tie(append([]model.Correlation{one("w", "close_call", "floor_cost", 0.5)}, circle(0.619)...)...), nowhere},
		{"the other end is not drawn", tie(append([]model.Correlation{one("w", "floor_cost", "close_call", 0.5)}, circle(0.619)...)...), nowhere},
		{"with itself: another rule tells", tie(append(circle(0.619), one("w", "helper_rate", "helper_rate", 0.5))...), nowhere},
		{"a pair that stands alone comes after", tie(append(circle(0.619), one("w", "helper_rate", "labour_rate", 0.9))...), at("correlations.z.rho")},
	})
	study := studygen.Round()
	tie(circle(0.619)...)(study)
	assert.Contains(t, correlationsAgree(study)[0].What, "cannot hold together with the others that tie studio.floor_cost")
}
