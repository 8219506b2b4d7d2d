package work_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// Source of the worked examples in this file: common practice, no source; every
// number is worked out beside its row.

func TestPiecesOfAJobShareASetUpAndAGritChange(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Pieces = append(s.JobTypes[0].Pieces, model.Piece{Key: "leaf", Count: 2, Length: 0.6, Width: 0.9, Thickness: 0.05})
	step(s, "sand").Setup, step(s, "plane").Setup, step(s, "plane").SetupPer = quantity.Minutes(8), quantity.Minutes(9), model.PerVisit
	for _, row := range rowsOf(t, s, "sand", work.AtStudio) {
		assert.InDelta(t, 3, row.PerVisit.Minutes(), minutes, "half of 6 minutes for the grit")
		assert.InDelta(t, 4, row.PerJob.Minutes(), minutes, "half of 8")
	}
	for _, row := range rowsOf(t, s, "plane", work.AtStudio) {
		assert.InDelta(t, 4.5, row.PerVisit.Minutes(), minutes)
		assert.Zero(t, row.PerJob)
	}
	step(s, "sand").Piece = "leaf"
	rows := rowsOf(t, s, "sand", work.AtStudio)
	require.Len(t, rows, 4, "of that piece only")
	assert.InDelta(t, 6, rows[0].PerVisit.Minutes(), minutes, "nobody shares it")
	assert.InDelta(t, 8, rows[0].PerJob.Minutes(), minutes)
}

func TestOneFaceFlattenedOnASledWorkedByHand(t *testing.T) {
	s := studygen.Round()
	row := rowsOf(t, s, "plane", work.AtBench)[0]
	// 2.5 ÷ 3 mm is one pass; 2 faces of 2.16 m² at 25 min/m² and a turn of 10 min.
	assert.InDelta(t, 1, row.Passes, 0)
	assert.InDelta(t, 4.32, row.Area, 1e-9)
	assert.InDelta(t, 118, row.Run.Minutes(), minutes)
	assert.InDelta(t, 108, row.Metres, 1e-9, "4.32 m² in strips of 40 mm")
	assert.InDelta(t, 108, row.Rubbing(s).Minutes(), minutes, "what dullness slows")
	s.Materials[0].DepthFactor, s.Tools[2].Stride = 0.8, 0
	row = rowsOf(t, s, "plane", work.AtBench)[0]
	assert.InDelta(t, 2, row.Passes, 0, "2.5 ÷ 2.4 mm")
	assert.Zero(t, row.Metres, "no edge runs")
	s.Tools[2].DepthPerPass = 0
	assert.InDelta(t, 1, rowsOf(t, s, "plane", work.AtBench)[0].Passes, 0, "without a depth it goes over once")
}

func TestWhatDullnessSlowsIsTheTimeUnderTheEdge(t *testing.T) {
	s := studygen.Round()
	s.Materials[0].FeedFactor = 0.5
	assert.InDelta(t, 8*2.4/3, rowsOf(t, s, "plane", work.AtStudio)[0].Rubbing(s).Minutes(), minutes, "8 passes at half of 6 m/min")
	assert.InDelta(t, 5*6.6/0.6, rowsOf(t, s, "edge", work.AtBench)[0].Rubbing(s).Minutes(), minutes)
	step(s, "plane").Measured = quantity.Minutes(12)
	row := rowsOf(t, s, "plane", work.AtStudio)[0]
	assert.InDelta(t, 12, row.Rubbing(s).Minutes(), minutes, "all of a measured time")
	assert.InDelta(t, 4.32, row.Area, 1e-9, "two faces once")
	step(s, "cut").Measured = quantity.Minutes(9)
	row = rowsOf(t, s, "cut", work.AtBench)[0]
	assert.InDelta(t, 7.2, row.Metres, 1e-9, "3 cuts of 2.4 m once")
	assert.Zero(t, row.Area)
}

func TestABeltsMotorLimitsItsDepthByTheWorkOfSanding(t *testing.T) {
	s := studygen.Round()
	s.Machines[1].Motor = quantity.Kilowatts(7.5)
	// 7500 W × 75 % ÷ (250 MJ/m³ × 0.9 m × 5/60 m/s) = 0.3 mm, under the setting of 0.4.
	row := rowsOf(t, s, "sand", work.AtStudio)[0]
	assert.InDelta(t, 0.0003, float64(row.Depth), 1e-12)
	assert.InDelta(t, 4, row.Passes, 0, "0.6 ÷ 0.3 mm on two faces")
}

func TestALiftOfMoreThanOnePersonsLimitIsShared(t *testing.T) {
	for mass, persons := range map[quantity.Mass]float64{0: 1, 10: 1, 25: 1, 25.1: 2, 50: 2, 75.6: 4} {
		assert.InDelta(t, persons, work.Persons(mass, 25), 0, "%v kg", mass)
	}
}

func TestAStepIsDoneAgainAsOftenAsItIsReworked(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].ReworkChance = 0.25
	assert.InDelta(t, 1.25, work.TimesDone(&s.JobTypes[0], &work.Row{Operation: 1}), 0)
	assert.InDelta(t, 1, work.TimesDone(&s.JobTypes[0], &work.Row{Operation: 0}), 0)
}

func TestAMeasuredTimeCountsHoweverShortItIs(t *testing.T) {
	s := studygen.Round()
	step(s, "plane").Measured, step(s, "sand").Measured = 0.5, 0.5
	row := rowsOf(t, s, "plane", work.AtStudio)[0]
	assert.InDelta(t, 0.5, float64(row.Run), 0)
	assert.InDelta(t, 0.5, float64(row.Rubbing(s)), 0)
	assert.Len(t, rowsOf(t, s, "sand", work.AtStudio), 1)
}

func TestASlowMaterialSlowsACutThatOneSideReaches(t *testing.T) {
	s := studygen.Round()
	s.Materials[0].FeedFactor = 0.5
	row := rowsOf(t, s, "cut", work.AtBench)[0]
	// 50 mm in steps of 20: 3 passes from one side; 3 cuts × (3 × 2.4 m ÷ 0.5 m/min + 8 min).
	assert.InDelta(t, 3, row.Passes, 0)
	assert.InDelta(t, 67.2, row.Run.Minutes(), minutes)
	s = studygen.Round()
	s.Tools[1].MaxOpening, step(s, "edge").BothSides = quantity.Millimetres(30), true
	assert.InDelta(t, 5, rowsOf(t, s, "edge", work.AtBench)[0].Passes, 0, "a router goes in from one side")
}

func TestFinishPassesAreNoneOfAGrit(t *testing.T) {
	s := studygen.Round()
	s.Machines[1].FinishPasses = 1
	for i, passes := range []float64{4, 2, 2, 2} {
		assert.InDelta(t, passes, rowsOf(t, s, "sand", work.AtStudio)[i].Passes, 0)
	}
}

func TestWearCostsWhoPaysForIt(t *testing.T) {
	s := studygen.Round()
	assert.Zero(t, rowsOf(t, s, "plane", work.AtShop)[0].Wear, "the shop's rate pays")
	s.Materials[0].AbrasiveLife = 0.25
	assert.InDelta(t, 4*8.64*0.10, rowsOf(t, s, "sand", work.AtStudio)[0].Wear, 1e-9)
}

// Source: Waters et al., Applications Manual for the Revised NIOSH Lifting Equation,
// table 4: asymmetric multipliers 1.00 at 0°, 0.71 at 90° and 0.57 at 135° (from memory).
func TestALiftToTheSideIsLess(t *testing.T) {
	for degrees, multiplier := range map[float64]float64{0: 1, 90: 0.71, 135: 0.57} {
		assert.InDelta(t, 23*multiplier, float64(work.LiftingLimit(0.25, 0.75, 0.25, degrees, 1, 1)), 0.12, "%v degrees", degrees)
	}
}

func TestSizesAreComparedToTheNanometre(t *testing.T) {
	for over, wide := range map[float64]bool{-1: false, 0: false, 0.4e-9: false, 0.6e-9: true, 1e-6: true} {
		s := studygen.Round()
		s.JobTypes[0].Pieces[0].Width = s.Machines[0].MaxWidth + quantity.Length(over)
		assert.Equal(t, wide, rowsOf(t, s, "plane", work.AtStudio)[0].Fit.TooWide, "%v m over", over)
	}
	s := studygen.Round()
	s.Machines[0].MostMass = 0.5
	assert.True(t, rowsOf(t, s, "plane", work.AtStudio)[0].Fit.TooHeavy, "half a kilogram is a limit")
}

func TestASlowFeedLetsAMotorTakeMore(t *testing.T) {
	s := studygen.Round()
	s.Machines[0].Motor, s.Materials[0].FeedFactor = quantity.Kilowatts(2.2), 0.5
	// Twice the 0.333 mm of the full feed.
	assert.InDelta(t, 0.0006667, float64(rowsOf(t, s, "plane", work.AtStudio)[0].Depth), 1e-7)
}

func TestSeveralPiecesOnASledAreHandledEach(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Pieces[0].Count, s.Tools[2].HandlingPerPass, s.Tools[2].HandlingHeavy = 3, quantity.Minutes(4), quantity.Minutes(5)
	row := rowsOf(t, s, "plane", work.AtBench)[0]
	assert.InDelta(t, 3*4.32, row.Area, 1e-9)
	assert.InDelta(t, 3*(108+10+5), row.Run.Minutes(), minutes)
	step(s, "edge").Measured = quantity.Minutes(5)
	assert.InDelta(t, 3*6.6, rowsOf(t, s, "edge", work.AtBench)[0].Metres, 1e-9, "one cut around each")
}

func TestOfAVerySmallShareHalfIsLost(t *testing.T) {
	for _, share := range []float64{1e-12, 1e-8, 5e-7, 9.9e-7} {
		assert.InDelta(t, share/2, 1-work.Kept(share), 1e-12)
	}
}
