package alternative_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
	"shopstint/rental"
)

// Source of the examples below: common practice, no source; sums stand beside them.

// second is the study with a second job type, the first changed.
func second(change func(kind *model.JobType)) *model.Study {
	s := studygen.Round()
	kind := s.JobTypes[0]
	kind.Key = "second"
	kind.Operations = append([]model.Operation{}, kind.Operations...)
	kind.Pieces = append([]model.Piece{}, kind.Pieces...)
	change(&kind)
	s.JobTypes = append(s.JobTypes, kind)
	return s
}

func TestTheLongestPieceIsThatOfAnyJob(t *testing.T) {
	s := second(func(kind *model.JobType) { kind.Pieces[0].Length = 0.8 })
	s.JobTypes[0].Pieces = append([]model.Piece{{Key: "short", Count: 1, Length: 0.3}}, s.JobTypes[0].Pieces...)
	s.JobTypes[0].Pieces[1].Length = 0.6
	assert.InDelta(t, 0.8, float64(alternative.LongestPiece(s)), 0)
	s.JobTypes = s.JobTypes[:1]
	assert.InDelta(t, 0.6, float64(alternative.LongestPiece(s)), 0)
	s.JobTypes[0].Pieces = s.JobTypes[0].Pieces[:1]
	assert.InDelta(t, 0.3, float64(alternative.LongestPiece(s)), 0)
}

func TestThePresentCostOfAJobIsItsLinesTimesTheirFactors(t *testing.T) {
	job := alternative.JobRent{Shop: 1, Travel: 10, Labour: 100, Bench: alternative.BenchUse{Labour: 1000, Wear: 10000}}
	got := job.Present(alternative.Factors{Shop: 2, Travel: 3, Labour: 5, Wear: 7})
	assert.InDelta(t, 1*2+10*3+1100*5+10000*7, got, 1e-9)
}

// A membership of 480 a year that grows by 4 %, and 201 for inductions: three years at 10 %
// and a fourth of the cost spared in tax.
func TestWhatFollowsNoJobIsFixed(t *testing.T) {
	s := studygen.Round()
	s.Growth.Rental, s.Studio.TaxRate = 0.04, 0.25
	rent := alternative.Rent{Fee: 480, Induction: 201}
	assert.InDelta(t, 0.75*(480*(1/1.1+1.04/1.21+1.04*1.04/1.331)+201/1.1), rent.Fixed(s), 1e-9)
	assert.InDelta(t, 0.75/1.1, alternative.FirstYear(s), 1e-12)
}

func TestTheCollectorOfAMachineIsDrawnWithIt(t *testing.T) {
	s := studygen.Round()
	machine := &s.Machines[0]
	machine.Motor, machine.ExtraPower, s.Studio.Volts = 2300, 460, 230
	assert.InDelta(t, 12, alternative.MachineDraw(s, machine), 1e-9, "10 A and 2 A")
	machine.Efficiency = 0.5
	assert.InDelta(t, 22, alternative.MachineDraw(s, machine), 1e-9, "what the collector takes is its input")
}

func TestRulesBetweenMachinesAreByTheirPlaceInTheStudy(t *testing.T) {
	s := studygen.Round()
	third := s.Machines[0]
	third.Key = "third"
	s.Machines = append(s.Machines, third)
	s.Machines[0].Excludes, s.Machines[2].Excludes = []string{"third", "planer_own", "nothing"}, []string{"planer_own"}
	s.Machines[1].Needs = []string{"third", "planer_own"}
	excludes, needs := alternative.Relations(s)
	assert.Equal(t, [][2]int{{0, 2}, {2, 0}}, excludes)
	assert.Equal(t, [][2]int{{1, 2}, {1, 0}}, needs)

	s.Fixtures = []model.Fixture{{Key: "collector"}, {Key: "bench"}, {Key: "hood"}}
	s.Machines[0].Fixtures, s.Machines[1].Fixtures, s.Machines[2].Fixtures = []string{"collector"}, []string{"hood", "collector"}, []string{"collector"}
	assert.Equal(t, []int{0, 1, 2}, alternative.Sharers(s, "collector"))
	assert.Equal(t, []int{1}, alternative.Sharers(s, "hood"))
	assert.Empty(t, alternative.Sharers(s, "bench"))
	assert.True(t, alternative.Shared(s, "collector"))
	assert.False(t, alternative.Shared(s, "hood"))
	assert.False(t, alternative.Shared(s, "bench"))
	assert.Equal(t, []string{"hood"}, alternative.Unshared(s, 1).Fixtures)
	assert.Empty(t, alternative.Unshared(s, 0).Fixtures)
	assert.Equal(t, []string{"hood"}, alternative.PaidBy(s, []bool{true, true, true}, 1))
	assert.Equal(t, []string{"hood", "collector"}, alternative.PaidBy(s, []bool{false, true, true}, 1))
	assert.Equal(t, []string{"collector"}, alternative.PaidBy(s, []bool{true, true, true}, 0))
	assert.Empty(t, alternative.PaidBy(s, []bool{false, true, true}, 2))
}

func TestVisitsAreFilledWithWholeJobs(t *testing.T) {
	for _, row := range []struct {
		jobs   float64
		batch  int
		full   float64
		aboard int
		share  float64
	}{
		{0, 1, 0, 0, 0}, {7.25, 1, 7, 0, 0.25}, {25, 3, 8, 1, 0}, {24, 3, 8, 0, 0}, {26.5, 3, 8, 2, 0.5}, {0.4, 4, 0, 0, 0.4}, {3.75, 4, 0, 3, 0.75},
		{0.1 + 0.2, 1, 0, 0, 0.3}, {2.9999999999, 3, 1, 0, 0}, {4.9999999999, 3, 1, 2, 0},
	} {
		full, aboard, share := alternative.Fill(row.jobs, row.batch)
		assert.InDelta(t, row.full, full, 0, "%v by %d", row.jobs, row.batch)
		assert.Equal(t, row.aboard, aboard, "%v by %d", row.jobs, row.batch)
		assert.InDelta(t, row.share, share, 1e-9, "%v by %d", row.jobs, row.batch)
	}
}

// 20 tops a year take the planer 26.2 min each and 0.48 of knives; the second type comes
// 40 times, growing by a tenth. Two people lift a top of 75.6 kg with a hired hand.
func TestAProfileAddsTheJobsByTheirOwnPace(t *testing.T) {
	s := second(func(kind *model.JobType) { kind.PerYear, kind.Growth = 40, 0.10 })
	uses := alternative.UsesOf(s, work.New(s), []bool{true, false}, 0)
	require.Len(t, uses, 2)
	profile := alternative.ProfileOf(s, uses, 3)
	for year, growth := range []float64{1, 1.1, 1.21} {
		jobs := 20 + 40*growth
		assert.InDelta(t, jobs*26.2/60, profile.Hours[year], 1e-9)
		assert.InDelta(t, 2*jobs*26.2/60, profile.OwnHours[year], 1e-9)
		assert.InDelta(t, jobs*0.48, profile.Wear[year], 1e-9)
		assert.Zero(t, profile.Abrasives[year])
	}
	assert.InDelta(t, 2.4, float64(profile.Longest), 0)
	sander := alternative.ProfileOf(s, alternative.UsesOf(s, work.New(s), []bool{false, true}, 1), 3)
	// Belts for 80 pass 800 m²: 21.6 m² a job.
	for year, growth := range []float64{1, 1.1, 1.21} {
		assert.InDelta(t, (20+40*growth)*2.16, sander.Abrasives[year], 1e-9)
		assert.InDelta(t, (20+40*growth)*2.16, sander.Wear[year], 1e-9)
	}
}

func TestOnePersonWorksAtAHandHeldMachine(t *testing.T) {
	s := studygen.Round()
	saw := s.Machines[0]
	saw.Key, saw.Ability, saw.Does = "saw_own", s.Tools[0].Ability, []string{model.TrackSaw}
	s.Machines = append(s.Machines, saw)
	uses := alternative.UsesOf(s, work.New(s), []bool{false, false, true}, 2)
	require.Len(t, uses, 1)
	assert.InDelta(t, 1, uses[0].Crew, 0)
	assert.InDelta(t, 45.6+5, uses[0].PerJob.Minutes(), 1e-9, "with its set-up")
}

// Of a top the planer has 8 × (0.4 + 1.5) and 1 min for turning, the belt 10 × (0.48 + 1.5)
// and 4 × 1; it changes to four grits, 6 min each, and passes 10 × 2.16 m².
func TestAnErrandIsWhatAJobDoesAtItsShop(t *testing.T) {
	s := studygen.Round()
	plan := work.New(s)
	errand := alternative.ErrandOf(s, plan, []bool{false, false}, 0)
	assert.Equal(t, []int{0}, errand.Pieces)
	for q, want := range []float64{16.2, 23.8} {
		assert.InDelta(t, want, errand.Each[q].Minutes(), 1e-9)
		assert.InDelta(t, 0, errand.Once[q].Minutes(), 1e-9)
	}
	assert.InDelta(t, 21.6, errand.Area[1], 1e-9)
	require.Len(t, errand.Changes, 4)
	for i, grit := range []string{"80", "120", "150", "180"} {
		assert.Equal(t, grit, errand.Changes[i].Grit)
		assert.Equal(t, 1, errand.Changes[i].Machine)
		assert.InDelta(t, 6, errand.Changes[i].Minutes.Minutes(), 1e-9)
	}
	beside := alternative.ErrandOf(s, plan, []bool{true, true}, 0)
	assert.Empty(t, beside.Pieces)
	assert.Empty(t, beside.Changes)
	assert.Equal(t, make([]quantity.Duration, 2), beside.Each)
}

// Two tops and three of a second type, which is planed only, is resin-filled and after
// hours: 5 × 16.2 + 10 for the planer, 2 × 23.8 + 24 + 8 for the belt.
func TestAVisitTogetherAddsItsJobsUp(t *testing.T) {
	s := second(func(kind *model.JobType) {
		kind.Operations, kind.AfterHours, kind.Material, kind.LoadingTime = kind.Operations[:1], true, "filled", quantity.Minutes(7)
		kind.Pieces[0].Count = 2
	})
	filled := s.Materials[0]
	filled.Key, filled.Resin = "filled", true
	s.Materials = append(s.Materials, filled)
	plan, owned := work.New(s), []bool{false, false}
	errands := []alternative.Errand{alternative.ErrandOf(s, plan, owned, 0), alternative.ErrandOf(s, plan, owned, 1)}
	trip := alternative.Together(s, 0, errands, []int{2, 3})
	assert.InDelta(t, 2*16.2+3*2*16.2+10, trip.Uses[0].Minutes.Minutes(), 1e-9)
	assert.InDelta(t, 2*23.8+24+8, trip.Uses[1].Minutes.Minutes(), 1e-9)
	assert.InDelta(t, 2*21.6, trip.Uses[1].Area, 1e-9)
	assert.InDelta(t, 2*75.6+3*2*75.6, float64(trip.JobMass), 1e-9)
	assert.InDelta(t, 75.6, float64(trip.Heaviest), 1e-9)
	assert.InDelta(t, 2*20+3*7, trip.Loading.Minutes(), 1e-9)
	assert.InDelta(t, 1, trip.Jobs, 0)
	assert.True(t, trip.Resin)
	assert.True(t, trip.AfterHours)
	tops := alternative.Together(s, 0, errands, []int{2, 0})
	assert.False(t, tops.Resin)
	assert.False(t, tops.AfterHours)
	assert.InDelta(t, 2*75.6, float64(tops.JobMass), 1e-9)
	others := alternative.Together(s, 0, errands, []int{0, 1})
	assert.Zero(t, others.Uses[1].Minutes, "the belt stands still, and is not set up")
	assert.InDelta(t, 2*16.2+10, others.Uses[0].Minutes.Minutes(), 1e-9)
}

func TestOneJobTypeAloneIsPricedAsAmongAll(t *testing.T) {
	s := second(func(kind *model.JobType) { kind.PerYear = 7 })
	plan := work.New(s)
	for _, owned := range [][]bool{{false, false}, {true, false}, {false, true}, {true, true}} {
		all := alternative.RentOf(s, plan, owned)
		assert.Equal(t, all.Jobs[1], alternative.JobRentOf(s, plan, owned, 1, rental.Membership{}))
		jobs := []alternative.JobRent{alternative.JobRentOf(s, plan, owned, 0, rental.Membership{}), alternative.JobRentOf(s, plan, owned, 1, rental.Membership{})}
		assert.Equal(t, all, alternative.RentFrom(s, plan, owned, jobs))
		like := alternative.RentLike(s, plan, &all, owned, []bool{false, true})
		assert.Equal(t, all.Jobs[1], like.Jobs[1])
		assert.Equal(t, alternative.JobRent{Job: 0}, like.Jobs[0])
		before := s.JobTypes[1].PerYear
		s.JobTypes[1].PerYear = 11
		again := alternative.RentAgain(s, plan, &all, owned, 1)
		assert.Equal(t, alternative.RentOf(s, plan, owned), again)
		s.JobTypes[1].PerYear = before
	}
}

func TestAYearIsTheSumOfItsLinesAndNotOfTheirParts(t *testing.T) {
	year := alternative.Year{
		Shop: 1, Travel: 20, Labour: 300, BenchLabour: 4e3, BenchWear: 5e4, Fee: 6e5, Induction: 7e6,
		Helpers: 8e7, BenchAbrasives: 9e8, InductionOwn: 1e10,
	}
	assert.InDelta(t, 7_654_321, year.Sum(), 1e-6)
}

// Own planers for two years of three: in the last the shop's planer has to be learned, at
// 54 with its tax, a tenth more a year, and two hours at 60, a twentieth more.
func TestAnInductionOfALaterYearIsParted(t *testing.T) {
	s := studygen.Round()
	s.Growth.Rental, s.Growth.Labour = 0.10, 0.05
	tariff := &s.Shops[0].Tariff
	tariff.InductionFee, tariff.InductionTime, tariff.SalesTax = 50, quantity.Hours(2), 0.08
	s.Shops[0].Machines[0].Inducted, s.Shops[0].Machines[1].Inducted = false, false
	has, none := []bool{true, false}, []bool{false, false}
	got := alternative.EvaluateCourse(s, work.New(s), [][]bool{has, has, none})
	for year, want := range [][2]float64{{54 + 120, 120}, {0, 0}, {54*1.21 + 120*1.1025, 120 * 1.1025}} {
		assert.InDelta(t, want[0], got.Rented[year].Induction, 1e-9, "year %d", year)
		assert.InDelta(t, want[1], got.Rented[year].InductionOwn, 1e-9, "year %d", year)
	}
}
