package capital_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// Source of the worked examples below: common practice, no source; every number is
// worked out beside its line.

func TestALoanAtInterestWorkedByHand(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.Loan = model.Loan{Share: 0.5, APR: 0.12, Months: 24}
	owned := capital.Own(s, m, level(3, 20, 20, 50))
	// 2000 at 1 % a month over 24 months are 94.1469 a month. After twelve of them
	// 94.1469 × (1 − 1.01^-12) ÷ 1 % = 1059.6312 is owed; the year's interest is
	// 12 × 94.1469 − (2000 − 1059.6312).
	assert.InDeltaSlice(t, []float64{2000, 1059.6312, 0, 0}, owned.Table[capital.Owed], 5e-5)
	assert.InDeltaSlice(t, []float64{0, 940.3688, 1059.6312, 0}, owned.Table[capital.Principal], 5e-5)
	assert.InDeltaSlice(t, []float64{0, 189.3945, 70.1322, 0}, owned.Table[capital.Interest], 5e-5)

	m.YearsKept = 1 // what is still owed is paid back from the sale
	owned = capital.Own(s, m, level(3, 20, 20, 50))
	assert.InDeltaSlice(t, []float64{0, 2000, 2000, 2000}, owned.Table[capital.Principal], 5e-5)
}

// grown is a study in which every price rises at another rate.
func grown() *model.Study {
	s := studygen.Round()
	s.Growth = model.Growth{Machines: 0.01, Consumables: 0.02, Labour: 0.03, Energy: 0.04, Upkeep: 0.05, Floor: 0.06, Rental: 0.07}
	return s
}

func TestAMachineBoughtLaterIsPaidAtThePricesOfThen(t *testing.T) {
	s := grown()
	s.Studio.Horizon = 4
	s.Fixtures = []model.Fixture{{Key: "hood", Name: "hood", Price: 1000, Resale: 0.25, Area: 2}}
	m := &s.Machines[0]
	m.SalesTax, m.Delivery, m.Rigging, m.Wiring, m.FixturesResale, m.Fixtures = 0.05, 300, 200, 500, 0.10, []string{"hood"}
	m.Training, m.TrainingTime, m.FirstEdges, m.FirstAbrasives = 100, quantity.Hours(2), 3, 40
	m.Edge = "knives" // at 160
	owned := capital.OwnBetween(s, m, level(4, 20, 20, 50), 2, 4)
	machines, consumables, labour := math.Pow(1.01, 2), math.Pow(1.02, 2), math.Pow(1.03, 2)
	assert.InDelta(t, 4000*machines, owned.Table[capital.Price][2], 1e-9)
	assert.InDelta(t, 200*machines, owned.Table[capital.SalesTax][2], 1e-9)
	assert.InDelta(t, 500*machines, owned.Table[capital.Moving][2], 1e-9)
	assert.InDelta(t, 1500*machines, owned.Table[capital.Fixtures][2], 1e-9, "the circuit and the hood")
	assert.InDelta(t, 100*machines+120*labour+(3*160+40)*consumables, owned.Table[capital.Start][2], 1e-9)
	assert.InDelta(t, 120*labour, capital.LearningTime(s, m, 2), 1e-9)
	assert.InDelta(t, -(50+250)*machines, owned.Table[capital.FixturesBack][4], 1e-9, "10 % of the circuit and 25 % of the hood")
	for line := range capital.Lines {
		if line != capital.Discount {
			assert.Zero(t, owned.Table[line][0], "line %d today", line)
			assert.Zero(t, owned.Table[line][1], "line %d in the first year", line)
		}
	}
}

func TestFixturesTakeTheirFloorBesideTheMachine(t *testing.T) {
	s := studygen.Round()
	s.Fixtures = []model.Fixture{{Key: "hood", Area: 2}, {Key: "tank", Area: 0.5}, {Key: "idle", Area: 9}}
	m := &s.Machines[0]
	m.FootprintLength, m.FootprintWidth, m.FloorShare, m.Fixtures = 1.4, 1.1, 0.5, []string{"hood", "tank"}
	assert.InDelta(t, 10.73+2.5, capital.FloorArea(s, m, 2.4), 1e-9, "(1.4 + 2 × 3) × (1.1 + 2 × 0.9) × 50 % and 2.5")
}

func TestTheThirdYearsRunningCostsWorkedByHand(t *testing.T) {
	s := grown()
	s.Studio.DemandCharge = 3
	m := &s.Machines[0]
	m.UpkeepRise, m.Age, m.Insurance, m.PropertyTax, m.YearlyOther = 0.10, 2, 0.02, 0.01, 100
	m.Motor, m.ExtraPower, m.DemandMonths = quantity.Kilowatts(4), quantity.Kilowatts(1), 6
	m.CareShare, m.CarePerMonth, m.LearningShare = 0.10, quantity.Minutes(30), 0.10
	m.HoursSold, m.SoldRate, m.SoldCost = quantity.Hours(100), 50, 0.20
	profile := level(3, 20, 30, 50)
	year := capital.Year{T: 3, Age: 3, Before: 2520, Area: 10}
	costs := capital.RunningCosts(s, m, profile, year)
	for line, want := range map[capital.Line]float64{
		capital.Upkeep:    160 * math.Pow(1.10, 4) * 1.05 * 1.05, // 4 % of 4000, in its fifth year
		capital.Insurance: 75.6,                                  // 3 % of 2520
		capital.Other:     100 * 1.05 * 1.05,
		capital.Floor:     10 * 100 * 1.06 * 1.06,
		capital.Energy:    20 * 3 * 0.20 * 1.04 * 1.04,    // 4 kW at 50 %, and 1 kW beside it
		capital.Demand:    5 * 3 * 6 * 1.04 * 1.04,        // at full load
		capital.Wear:      50 * 1.02 * 1.02,               //
		capital.OwnTime:   30 * 60 * 1.03 * 1.03,          //
		capital.Care:      20 * 0.10 * 60 * 1.03 * 1.03,   //
		capital.Routine:   12 * 0.5 * 60 * 1.03 * 1.03,    //
		capital.Sold:      -100 * 50 * 0.80 * 1.07 * 1.07, //
		capital.Learning:  0,
	} {
		assert.InDelta(t, want, costs[line], 1e-9, "line %d", line)
	}
	work := costs[capital.Energy] + costs[capital.Wear] + costs[capital.OwnTime] + costs[capital.Care]
	assert.InDelta(t, work, capital.WorkCosts(s, m, profile, 3), 1e-9)
	year.New = true
	assert.InDelta(t, 0.10*costs[capital.OwnTime], capital.RunningCosts(s, m, profile, year)[capital.Learning], 1e-9)
}

// What Replacing tells about one machine of a chain is what the chain pays there.
func TestReplacingIsWhatTheChainOfMachinesPays(t *testing.T) {
	replaced := 0
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		m.YearsKept = quantity.Years(1 + seed%3)
		owned := capital.Own(s, m, profile)
		turns := owned.Turns()
		for i, turn := range turns[:len(turns)-1] {
			replaced++
			assert.Equal(t, turn.To, turns[i+1].From)
			paid, fetched := capital.Replacing(s, m, profile.Hours[0], turn.From, turn.To-turn.From)
			at := func(line capital.Line) float64 { return owned.Table[line][turn.To] }
			dust := studygen.Dust(float64(m.Price))
			assert.InDelta(t, at(capital.Price)+at(capital.SalesTax)+at(capital.Moving), paid, dust, "seed %d %s", seed, m.Key)
			assert.InDelta(t, -at(capital.Resale)-at(capital.RiggingOut), fetched, dust, "seed %d %s", seed, m.Key)
		}
		assert.Equal(t, int(s.Studio.Horizon), turns[len(turns)-1].To)
	})
	assert.Greater(t, replaced, 100)
}

// Source: IRS Publication 946, as of SaleYearShare: a sale at the end of a year is in
// its fourth quarter, of which the middle is 7/8 through.
func TestTheYearOfSaleIsDeductedToTheMiddleOfItsLastQuarter(t *testing.T) {
	for method, want := range map[string]float64{model.TaxMidQuarter: 0.875, model.TaxHalfYear: 0.5, model.TaxStraightLine: 1, model.TaxSumOfYears: 1} {
		assert.InDelta(t, want, capital.SaleYearShare(&model.Depreciation{Method: method}), 1e-12, method)
	}
}

// Source: US Internal Revenue Service, Publication 946, Table A-1, three years: 33.33,
// 44.45, 14.81 and 7.41 %; a sale before the last year takes half of its year's.
func TestTheYearOfSaleIsHalvedUnlessTheTableEndsInIt(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.Tax = model.Depreciation{Method: model.TaxHalfYear, Life: 3}
	for years, want := range map[int][]float64{
		2: {0, 0.3333, 0.22225}, 3: {0, 0.3333, 0.4445, 0.07405}, 4: {0, 0.3333, 0.4445, 0.1481, 0.0741}, 5: {0, 0.3333, 0.4445, 0.1481, 0.0741, 0},
	} {
		s.Studio.Horizon, m.YearsKept = quantity.Years(years), quantity.Years(years)
		owned := capital.Own(s, m, level(years, 20, 20, 50))
		assert.InDeltaSlice(t, want, owned.Table[capital.TaxShare], 1e-9, "%d years", years)
	}
	// Half is written off at once, the rest by the table.
	m.Tax.FirstYear = 0.5
	s.Studio.Horizon, m.YearsKept = 4, 4
	owned := capital.Own(s, m, level(4, 20, 20, 50))
	assert.InDeltaSlice(t, []float64{0, 0.5 + 0.3333/2, 0.4445 / 2, 0.1481 / 2, 0.0741 / 2}, owned.Table[capital.TaxShare], 1e-9)
}

func TestASmallMachineTakesFloorToo(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.FootprintLength, m.FootprintWidth, m.FloorShare = 0.4, 0.2, 1
	assert.InDelta(t, (0.4+2*(2.4+0.6))*(0.2+2*0.9), capital.FloorArea(s, m, 2.4), 1e-9)
}
