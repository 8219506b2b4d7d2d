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

// rowsOf returns the rows of one operation on one site, in the order of grits.
func rowsOf(t *testing.T, s *model.Study, key string, site work.Site) []work.Row {
	t.Helper()
	var rows []work.Row
	for _, row := range work.New(s).Rows {
		if s.JobTypes[row.Job].Operations[row.Operation].Key == key && row.Site == site {
			rows = append(rows, row)
		}
	}
	require.NotEmpty(t, rows, "%s has no row there", key)
	return rows
}

// steps are the operations of the study in round figures, by key.
func step(s *model.Study, key string) *model.Operation {
	i := model.Index(s.JobTypes[0].Operations, key)
	return &s.JobTypes[0].Operations[i]
}

const minutes = 1e-9 // tolerance: last digits only

// Source of the worked examples in this file: common practice, no source; every
// number is worked out beside its row.

func TestOnePlaneOperationWorkedByHand(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Pieces[0] = model.Piece{Key: "board", Count: 2, Length: 2.4, Width: 0.4, Thickness: 0.05}
	row := rowsOf(t, s, "plane", work.AtStudio)[0]

	// 2.4 × 0.4 × 0.05 m × 700 kg/m³ = 33.6 kg: not heavy (over 40 kg), so 0.5 min a pass.
	assert.InDelta(t, 33.6, float64(work.PieceMass(&s.JobTypes[0].Pieces[0], &s.Materials[0])), 1e-9)
	// 2.5 mm ÷ 1 mm = 3 passes, 1 finish pass: 4 a face, 8 on two faces.
	assert.InDelta(t, 8, row.Passes, 0)
	// 2 pieces × 8 passes × (2.4 m ÷ 6 m/min + 0.5 min) = 16 × 0.9 = 14.4 min,
	// 2 pieces turned once, 1 min each: 16.4 min.
	assert.InDelta(t, 16.4, row.Run.Minutes(), minutes)
	// 16 passes of 2.4 m run 38.4 m of knife; 0.4 m wide they are 15.36 m².
	assert.InDelta(t, 38.4, row.Metres, 1e-9)
	assert.InDelta(t, 15.36, row.Area, 1e-9)
	// A set is 160 and three sharpenings of 60 + 20: 400 over four lives of 4000 m, 0.025 a metre.
	assert.InDelta(t, 0.025, work.EdgeCost(&s.Edges[0]), 1e-12)
	assert.InDelta(t, 0.96, row.Wear, 1e-9, "38.4 m × 0.025")
}

func TestOneWideBeltSequenceOfFourGritsWorkedByHand(t *testing.T) {
	s := studygen.Round()
	rows := rowsOf(t, s, "sand", work.AtStudio)
	require.Len(t, rows, 4)
	// The top is 75.6 kg, heavy: 1.5 min a pass. 2.4 m ÷ 5 m/min = 0.48 min.
	for i, want := range []struct {
		grit                          string
		passes, minutes, metres, area float64
	}{
		{"80", 4, 8.92, 9.6, 8.64},  // 0.6 ÷ 0.4 mm = 2 a face, 4: 4 × 1.98 + 1 turn
		{"120", 2, 4.96, 4.8, 4.32}, // 0.3 ÷ 0.4 mm = 1 a face, 2: 2 × 1.98 + 1 turn
		{"150", 2, 4.96, 4.8, 4.32}, // 0.1 mm: 1 a face
		{"180", 2, 4.96, 4.8, 4.32}, // 0.05 mm: 1 a face
	} {
		row := rows[i]
		assert.Equal(t, want.grit, s.JobTypes[0].Operations[row.Operation].Grits[row.Grit].Key)
		assert.InDelta(t, want.passes, row.Passes, 0, want.grit)
		assert.InDelta(t, want.minutes, row.Run.Minutes(), minutes, want.grit)
		assert.InDelta(t, want.metres, row.Metres, 1e-9, want.grit)
		assert.InDelta(t, want.area, row.Area, 1e-9, want.grit)
		// A belt is 80 and lasts 800 m²: 0.10 a square metre.
		assert.InDelta(t, want.area*0.10, row.Wear, 1e-9, want.grit)
		assert.InDelta(t, 6, row.PerVisit.Minutes(), minutes, "changing to grit %s", want.grit)
	}
}

func TestOneCutFromBothSidesWorkedByHand(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Pieces[0].Thickness = quantity.Millimetres(80)
	row := rowsOf(t, s, "cut", work.AtBench)[0]
	// 80 mm is over the blade's 54 mm: 40 mm from each side, 2 steps of 20 mm, 4 passes.
	assert.True(t, row.Fit.OK())
	assert.InDelta(t, 4, row.Passes, 0)
	// 3 cuts × (4 × 2.4 m ÷ 1 m/min + 2 × 8 min for the rail) = 3 × 25.6 min.
	assert.InDelta(t, 76.8, row.Run.Minutes(), minutes)
	assert.InDelta(t, 28.8, row.Metres, 1e-9, "3 × 4 × 2.4 m of blade")
	// A blade is 80 for 200 m: 0.40 a metre.
	assert.InDelta(t, 11.52, row.Wear, 1e-9, "28.8 × 0.40")

	step(s, "cut").BothSides = false
	assert.True(t, rowsOf(t, s, "cut", work.AtBench)[0].Fit.TooThick, "from one side it does not reach through")
}

func TestOneRoutedEdgeWorkedByHand(t *testing.T) {
	s := studygen.Round()
	row := rowsOf(t, s, "edge", work.AtBench)[0]
	// 50 mm in steps of 12 mm: 4.17, so 5 times around; 5 × 6.6 m ÷ 1.2 m/min + 2 min = 29.5 min.
	assert.InDelta(t, 5, row.Passes, 0)
	assert.InDelta(t, 29.5, row.Run.Minutes(), minutes)

	step(s, "edge").Depth = quantity.Millimetres(12)
	row = rowsOf(t, s, "edge", work.AtBench)[0]
	assert.InDelta(t, 1, row.Passes, 0, "12 mm deep is one step")
	assert.InDelta(t, 7.5, row.Run.Minutes(), minutes, "6.6 ÷ 1.2 + 2")
}

func TestOneFaceSandedByHandWorkedByHand(t *testing.T) {
	s := studygen.Round()
	sand := step(s, "sand")
	sand.Class, sand.Fallback, sand.Grits = model.Orbital, "", sand.Grits[1:2]
	row := rowsOf(t, s, "sand", work.AtBench)[0]
	// 2 faces × 2.4 × 0.9 m = 4.32 m² × 10 min/m² = 43.2 min, turned once, 3 min.
	assert.InDelta(t, 46.2, row.Run.Minutes(), minutes)
	assert.InDelta(t, 4.32, row.Area, 1e-9)
	// A disc is 0.60 and lasts 1.2 m²: 0.50 a square metre.
	assert.InDelta(t, 2.16, row.Wear, 1e-9)

	sand.Faces = 1
	assert.InDelta(t, 21.6, rowsOf(t, s, "sand", work.AtBench)[0].Run.Minutes(), minutes, "one face: no turn")
}

func TestMeasuredMinutesStandInPlaceOfTheGeometry(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Pieces[0].Count = 3
	step(s, "plane").Measured = quantity.Minutes(12)
	for _, site := range []work.Site{work.AtStudio, work.AtShop, work.AtBench} {
		assert.InDelta(t, 36, rowsOf(t, s, "plane", site)[0].Run.Minutes(), minutes, "3 pieces × 12 min, on any machine")
	}
	assert.InDelta(t, 14.4, rowsOf(t, s, "plane", work.AtStudio)[0].Metres, 1e-9, "wear of one pass: 3 × 2 faces × 2.4 m")
	step(s, "sand").Measured = quantity.Minutes(5)
	assert.Len(t, rowsOf(t, s, "sand", work.AtStudio), 1, "a measured time holds for all grits together")
}

// The facts of the trade below. Source: common practice, no source.

func TestASlabTooThickForAUsualSawTakesThreeToFourPassesAndOneWithALargeSaw(t *testing.T) {
	for _, row := range []struct {
		saw                      string
		opening, step, thickness float64 // mm
		passes                   float64
		why                      string
	}{
		{"usual, rail guided", 75, 20, 60, 3, "60 ÷ 20"},
		{"usual, rail guided", 75, 20, 75, 4, "75 ÷ 20 = 3.75"},
		{"small, from both faces", 54, 20, 75, 4, "37.5 ÷ 20 = 1.9, from two faces"},
		{"small, in deep steps", 54, 30, 75, 4, "37.5 ÷ 30 = 1.25, from two faces"},
		{"large, full depth", 100, 100, 60, 1, "60 ÷ 100"},
		{"large, full depth", 100, 100, 90, 1, "90 ÷ 100"},
	} {
		s := studygen.Round()
		s.Tools[0].MaxOpening, s.Tools[0].DepthPerPass = quantity.Millimetres(row.opening), quantity.Millimetres(row.step)
		s.JobTypes[0].Pieces[0].Thickness = quantity.Millimetres(row.thickness)
		cut := rowsOf(t, s, "cut", work.AtBench)[0]
		assert.True(t, cut.Fit.OK(), row.saw)
		assert.InDelta(t, row.passes, cut.Passes, 0, "%s, %v mm: %s", row.saw, row.thickness, row.why)
	}
}

func TestFinishingBothFacesCostsBothAndTheTurnBetween(t *testing.T) {
	for _, key := range []string{"plane", "sand"} {
		one, both := studygen.Round(), studygen.Round()
		step(one, key).Faces = 1
		for i, row := range rowsOf(t, both, key, work.AtStudio) {
			turn := row.Ability(both).Turning.Minutes()
			single := rowsOf(t, one, key, work.AtStudio)[i].Run.Minutes()
			assert.Positive(t, turn)
			assert.InDelta(t, 2*single+turn, row.Run.Minutes(), minutes, key)
		}
	}
}

func TestAQuarterInchOfLowSpotPlanedOutGrowsThePassesByStockOverDepth(t *testing.T) {
	const lowSpot = 6.35 // mm
	s := studygen.Round()
	s.Machines[0].DepthPerPass, s.Machines[0].FinishPasses = quantity.Millimetres(0.8), 0
	step(s, "plane").Faces = 1
	step(s, "plane").Stock = quantity.Millimetres(0.8)
	assert.InDelta(t, 1, rowsOf(t, s, "plane", work.AtStudio)[0].Passes, 0, "a light cut")
	step(s, "plane").Stock = quantity.Millimetres(0.8 + lowSpot)
	row := rowsOf(t, s, "plane", work.AtStudio)[0]
	assert.InDelta(t, 9, row.Passes, 0, "7.15 ÷ 0.8 = 8.9: eight passes more")
	assert.InDelta(t, 9*(0.4+1.5), row.Run.Minutes(), minutes, "each 2.4 m ÷ 6 m/min and 1.5 min of handling")
}

func TestAMotorTooSmallForTheWidthTakesLessInEachPass(t *testing.T) {
	s := studygen.Round()
	s.Machines[0].Motor = quantity.Kilowatts(2.2)
	row := rowsOf(t, s, "plane", work.AtStudio)[0]
	// 2200 W × 75 % ÷ (55 MJ/m³ × 0.9 m × 0.1 m/s) = 0.333 mm; 2.5 ÷ 0.333 = 7.5, so 8 and 1 finish pass a face.
	assert.InDelta(t, 0.0003333, float64(row.Depth), 1e-7)
	assert.InDelta(t, 18, row.Passes, 0)
}

func TestResinAndHardStockSlowTheFeedAndWearTheEdge(t *testing.T) {
	s := studygen.Round()
	s.Materials[0].FeedFactor, s.Materials[0].DepthFactor, s.Materials[0].EdgeLife = 0.8, 0.5, 0.4
	row := rowsOf(t, s, "plane", work.AtStudio)[0]
	// 1 mm × 50 % = 0.5 mm: 5 passes and 1 finish pass a face, 12; 12 × (2.4 ÷ 4.8 + 1.5) + 1 turn.
	assert.InDelta(t, 12, row.Passes, 0)
	assert.InDelta(t, 25, row.Run.Minutes(), minutes)
	assert.InDelta(t, 1.8, row.Wear, 1e-9, "28.8 m × 0.025 ÷ 40 %")
}

func TestSetUpIsCountedByVisitJobOrPiece(t *testing.T) {
	for _, row := range []struct {
		per             string
		perJob, perTrip float64
	}{{model.PerJob, 5, 0}, {model.PerPiece, 15, 0}, {model.PerVisit, 0, 5}} {
		s := studygen.Round()
		s.JobTypes[0].Pieces[0].Count = 3
		step(s, "cut").Setup, step(s, "cut").SetupPer = quantity.Minutes(5), row.per
		cut := rowsOf(t, s, "cut", work.AtBench)[0]
		assert.InDelta(t, row.perJob, cut.PerJob.Minutes(), minutes, row.per)
		assert.InDelta(t, row.perTrip, cut.PerVisit.Minutes(), minutes, row.per)
		assert.InDelta(t, (cut.Run + cut.PerJob).Minutes(), cut.Minutes().Minutes(), minutes, row.per)
	}
}

func TestPiecesFedEndToEndAreHandledOnceAPass(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Pieces[0].Count = 4
	step(s, "plane").ButtFeed = true
	row := rowsOf(t, s, "plane", work.AtStudio)[0]
	// 4 pieces × 8 passes × 0.4 min, 8 × 1.5 min of handling, 4 turns.
	assert.InDelta(t, 12.8+12+4, row.Run.Minutes(), minutes)
}

func TestAMachineRefusesWhatDoesNotFitAndTheNextWayTakesIt(t *testing.T) {
	for _, row := range []struct {
		what   string
		change func(*model.Study)
		fit    work.Fit
	}{
		{work.Wide, func(s *model.Study) { s.JobTypes[0].Pieces[0].Width = 1.0001 }, work.Fit{TooWide: true}},
		{work.Thick, func(s *model.Study) { s.JobTypes[0].Pieces[0].Thickness = 0.2001 }, work.Fit{TooThick: true}},
		{work.Short, func(s *model.Study) { s.JobTypes[0].Pieces[0].Length = 0.2999 }, work.Fit{TooShort: true}},
		{work.Heavy, func(s *model.Study) { s.Shops[0].Machines[0].MostMass = 75 }, work.Fit{TooHeavy: true}},
		{work.ResinRefused, func(s *model.Study) { s.Materials[0].Resin, s.Shops[0].Machines[0].TakesResin = true, false }, work.Fit{Resin: true}},
	} {
		s := studygen.Round()
		row.change(s)
		hired := rowsOf(t, s, "plane", work.AtShop)[0]
		assert.Equal(t, row.fit, hired.Fit, row.what)
		assert.False(t, hired.Used, row.what)
		assert.True(t, rowsOf(t, s, "plane", work.AtBench)[0].Used, "the sled takes it: %s", row.what)
		plan := work.New(s)
		var said []string
		for _, refusal := range plan.Refusals(s) {
			if plan.Rows[refusal.Row].Site == work.AtShop && plan.Rows[refusal.Row].Operation == 0 {
				said = append(said, refusal.What)
			}
		}
		assert.Equal(t, []string{row.what}, said)
	}
}

func TestAPieceExactlyAsWideAsTheMachineFitsInEitherUnit(t *testing.T) {
	s := studygen.Round()
	inches, _, err := quantity.Parse(quantity.DimLength, "42 in")
	require.NoError(t, err)
	millimetres, _, err := quantity.Parse(quantity.DimLength, "1066.8 mm")
	require.NoError(t, err)
	for _, size := range [][2]float64{{inches, millimetres}, {millimetres, inches}} {
		s.Machines[0].MaxWidth, s.JobTypes[0].Pieces[0].Width = quantity.Length(size[0]), quantity.Length(size[1])
		assert.True(t, rowsOf(t, s, "plane", work.AtStudio)[0].Fit.OK())
	}
}

func TestAPieceExactlyAsHeavyAsLightPiecesMayBeIsLightInEitherUnit(t *testing.T) {
	for _, text := range []string{"40 kg", "88.18490487395103 lb", "39.9999999999999 kg"} {
		limit, _, err := quantity.Parse(quantity.DimMass, text)
		require.NoError(t, err)
		s := studygen.Round()
		s.Studio.HeavyOver = quantity.Mass(limit)
		s.JobTypes[0].Pieces[0] = model.Piece{Key: "board", Count: 1, Length: 2, Width: 0.4, Thickness: 1.0 / 14}
		row := rowsOf(t, s, "plane", work.AtStudio)[0]
		assert.InDelta(t, row.Passes*(2.0/6+0.5)+1, row.Run.Minutes(), minutes, text)
	}
}

func TestAStepThatNothingRentedTakesIsHomeless(t *testing.T) {
	s := studygen.Round()
	assert.Empty(t, work.New(s).Homeless())
	s.JobTypes[0].Pieces[0].Width = 2
	step(s, "plane").Fallback = ""
	plan := work.New(s)
	homeless := plan.Homeless()
	require.Len(t, homeless, 1)
	assert.Equal(t, work.AtShop, plan.Rows[homeless[0][0]].Site)
	assert.True(t, plan.Rows[homeless[0][0]].Fit.TooWide)
}
