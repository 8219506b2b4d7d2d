package rental_test

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/conformance"
	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/rental"
)

const cents = 1e-9 // tolerance: the amounts are posted to the cent, only last digits may differ

// roundTrip is one top of 75.6 kg to the shop in round figures: 40 min on the
// planer and 25 min on the wide belt, which passes 8.64 m².
func roundTrip(s *model.Study) rental.Trip {
	return rental.Trip{
		Shop: &s.Shops[0], Jobs: 1, JobMass: 75.6, Heaviest: 75.6, Loading: quantity.Minutes(20),
		Uses: []rental.Use{{Minutes: quantity.Minutes(40)}, {Minutes: quantity.Minutes(25), Area: 8.64}},
	}
}

// only returns a trip with some minutes on the planer alone.
func only(s *model.Study, minutes float64) rental.Trip {
	trip := roundTrip(s)
	trip.Uses = []rental.Use{{Minutes: quantity.Minutes(minutes)}, {}}
	return trip
}

func priced(s *model.Study, trip rental.Trip) rental.Visit {
	return rental.Price(&s.Studio, s.Money, trip, rental.Membership{})
}

// assertInvoice compares a visit's invoice, line by line, in decimals.
func assertInvoice(t *testing.T, s *model.Study, visit rental.Visit, want [][2]string, total string) {
	t.Helper()
	invoice, err := rental.Bill(visit, s.Money)
	require.NoError(t, err)
	var got [][2]string
	for _, line := range invoice.Lines {
		got = append(got, [2]string{line.Label, line.Amount.StringFixed(2)})
	}
	assert.Equal(t, want, got)
	assert.Equal(t, total, invoice.Total.StringFixed(2))
}

// Source of the worked examples below: common practice, no source; every number
// is worked out beside its line.

func TestOneVisitToTheWholeShopWorkedByHand(t *testing.T) {
	s := studygen.Round()
	shop := &s.Shops[0]
	shop.Cleaning, shop.Waiting, shop.Tolls = quantity.Minutes(6), quantity.Minutes(10), 4
	shop.Machines[0].SurchargePerHour, shop.Machines[1].SurchargePerArea = 12, 0.8
	tariff := &shop.Tariff
	tariff.OperatorRate, tariff.AfterHours, tariff.ResinSupplement = 40, 0.35, 0.25
	tariff.HandlingCharge, tariff.DamageAllowance, tariff.SalesTax = 20, 5, 0.08
	trip := roundTrip(s)
	trip.AfterHours, trip.Resin = true, true
	visit := priced(s, trip)

	assert.InDelta(t, 71, visit.Billed.Minutes(), cents, "40 + 25 + 6 of sweeping")
	assert.InDelta(t, 75, visit.Paid.Minutes(), cents, "30, and 41 more in steps of 15: 3")
	assertInvoice(t, s, visit, [][2]string{
		{"machine time by the block", "187.50"}, // 1.25 h × 150
		{"operator", "47.33"},                   // 71 min ÷ 60 × 40 = 47.333
		{"after-hours supplement", "65.63"},     // 35 % of 187.50 = 65.625
		{"resin supplement", "46.88"},           // 25 % of 187.50 = 46.875
		{"belt and knife surcharge", "14.91"},   // 40 min ÷ 60 × 12 + 8.64 m² × 0.80 = 8 + 6.912
		{"handling charge", "20.00"},            //
		{"sales tax", "30.58"},                  // 8 % of 382.25
	}, "412.83")

	assert.InDelta(t, 20, visit.Vehicle, cents, "2 × 20 km × 0.50")
	assert.InDelta(t, 29, visit.Travel, cents, "20 + 4 of tolls + 5 for damage")
	// 75.6 ÷ 25 kg = 3.02: four people, of whom two are own.
	assert.InDelta(t, 2, visit.Crew, 0)
	assert.InDelta(t, 2, visit.Helpers, 0)
	assert.InDelta(t, 322, visit.OwnTime.Minutes(), cents, "2 people × (2 × 30 + 10 + 20 + 71)")
	assert.InDelta(t, 322, visit.OwnCost, cents, "322 min at 60 an hour")
	assert.InDelta(t, 20, visit.HelperCost, cents, "20 min ÷ 60 × 2 × 30")
	assert.InDelta(t, 783.83, visit.Total, cents, "412.83 + 29 + 342")
}

func TestOneVisitWithAClockForEachMachineWorkedByHand(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.Basis = model.PerMachine
	s.Shops[0].Cleaning = quantity.Minutes(6)
	visit := priced(s, roundTrip(s))
	// Planer 40 + 6 = 46 min: 30 + 2 × 15 = 60 at 90 an hour; belt 25 + 6 = 31 min: 45 at 60 an hour.
	assert.InDelta(t, 105, visit.Paid.Minutes(), cents)
	assert.InDelta(t, 77, visit.Billed.Minutes(), cents)
	assertInvoice(t, s, visit, [][2]string{{"machine time by the block", "135.00"}}, "135.00")
}

func TestHalfDaysAndDaysAreBoughtWhereTheyAreCheaper(t *testing.T) {
	for _, row := range []struct {
		minutes float64
		by      string
		want    float64
		why     string
	}{
		{100, rental.ByBlock, 262.5, "105 min: 1.75 h × 150, against 280"},
		{150, rental.ByHalfDay, 280, "150 min by the block are 375"},
		{250, rental.ByHalfDay, 317.5, "280 and 10 min more: one step of 15, 37.50"},
		{400, rental.ByDay, 480, "280 and 165 min more are 692.50"},
		{480, rental.ByDay, 480, "exactly a day"},
		{500, rental.ByDay, 555, "480 and 20 min more: two steps, 75"},
		{620, rental.ByHalfDay, 760, "480 + 280, against 480 and 150 min more, 855"},
		{700, rental.ByHalfDay, 760, "480 + 280, against 480 and 225 min more, or 960 for two days"},
		{900, rental.ByDay, 960, "two days, against 480 + 280 and 180 min more"},
	} {
		s := studygen.Round()
		s.Shops[0].Tariff.HalfDayPrice, s.Shops[0].Tariff.DayPrice = 280, 480
		visit := priced(s, only(s, row.minutes))
		assert.Equal(t, row.by, visit.By, "%v min", row.minutes)
		assert.InDelta(t, row.want, visit.MachineTime, cents, "%v min: %s", row.minutes, row.why)

		small, tariff := studygen.Round(), &s.Shops[0].Tariff
		small.Money = inCLF(t)
		small.Shops[0].Tariff.HourlyRate = tariff.HourlyRate / 1000
		small.Shops[0].Tariff.HalfDayPrice, small.Shops[0].Tariff.DayPrice = tariff.HalfDayPrice/1000, tariff.DayPrice/1000
		visit = priced(small, only(small, row.minutes))
		assert.Equal(t, row.by, visit.By, "%v min at prices below one", row.minutes)
		assert.InDelta(t, row.want/1000, visit.MachineTime, cents, "%v min at prices below one", row.minutes)
	}
}

// inCLF is a currency of large units, posted to four places.
func inCLF(t *testing.T) money.Currency {
	t.Helper()
	currency, err := money.ParseCurrency("CLF")
	require.NoError(t, err)
	return currency
}

func TestTimeBeyondAHalfDayIsChargedAtTheRateOfTheDearestMachineInUse(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.Basis = model.PerMachine
	s.Shops[0].Tariff.HalfDayPrice, s.Shops[0].Tariff.DayPrice = 280, 800
	both := roundTrip(s)
	both.Uses = []rental.Use{{Minutes: quantity.Minutes(60)}, {Minutes: quantity.Minutes(210)}}
	// 270 min are a half day and 30 min more at 90 an hour: 280 + 45. By the block, 90 + 210 would be less.
	assert.InDelta(t, 325, priced(s, both).WithHalfDay, cents)
	assert.InDelta(t, 300, priced(s, both).MachineTime, cents)
	belt := roundTrip(s)
	belt.Uses = []rental.Use{{}, {Minutes: quantity.Minutes(270)}}
	// 30 min more at the belt's 60 an hour, since the planer stands: 280 + 30; by the block 270.
	assert.InDelta(t, 310, priced(s, belt).WithHalfDay, cents)
	assert.InDelta(t, 270, priced(s, belt).MachineTime, cents)
}

func TestAMachineLeftAloneIsNotCleaned(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.Basis = model.PerMachine
	s.Shops[0].Cleaning = quantity.Minutes(6)
	visit := priced(s, only(s, 40))
	assert.InDelta(t, 46, visit.Billed.Minutes(), cents)
	assert.InDelta(t, 60, visit.Paid.Minutes(), cents, "46 min: 30 + 2 × 15")
}

func TestTheShortestCutTakesTheMinimumBlockAndTheCleaning(t *testing.T) {
	for _, basis := range []string{model.WholeShop, model.PerMachine} {
		s := studygen.Round()
		s.Shops[0].Tariff.Basis = basis
		assert.InDelta(t, 30, priced(s, only(s, 0.01)).Paid.Minutes(), cents, basis)
		s.Shops[0].Cleaning = quantity.Minutes(6)
		assert.InDelta(t, 6.01, priced(s, only(s, 0.01)).Billed.Minutes(), cents, basis)
	}
}

func TestAMembershipTakesItsShareOffMachineTime(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.MemberDiscount, s.Shops[0].Tariff.AfterHours, s.Shops[0].Tariff.SalesTax = 0.10, 0.35, 0.08
	trip := roundTrip(s)
	trip.AfterHours = true
	visit := rental.Price(&s.Studio, s.Money, trip, rental.Membership{Joined: true, Included: 0.25})
	// 65 min are 75 paid: 187.50. A quarter is included, 10 % off the rest: 1 − 0.9 × 0.75 = 32.5 % saved.
	assertInvoice(t, s, visit, [][2]string{
		{"machine time by the block", "187.50"},
		{"member's reduction", "-60.94"},    // 60.9375
		{"after-hours supplement", "44.30"}, // 35 % of 126.56 = 44.296
		{"sales tax", "13.67"},              // 8 % of 170.86 = 13.6688
	}, "184.53")
	assert.Zero(t, rental.MemberSaving(&s.Shops[0].Tariff, rental.Membership{Included: 0.25}), "not joined")
}

func TestALoadBeyondThePayloadTakesMoreRoundTrips(t *testing.T) {
	s := studygen.Round()
	trip := roundTrip(s)
	trip.Jobs = 7 // 7 × 75.6 = 529.2 kg on 500
	visit := priced(s, trip)
	assert.InDelta(t, 2, visit.RoundTrips, 0)
	assert.InDelta(t, 40, visit.Vehicle, cents, "2 × 2 × 20 km × 0.50")
	assert.InDelta(t, 650, visit.OwnTime.Minutes(), cents, "2 people × (4 × 30 + 7 × 20 + 65)")
}

func TestNobodyDrivesForNothing(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Cleaning, s.Shops[0].Tariff.HandlingCharge = quantity.Minutes(6), 20
	visit := priced(s, only(s, 0))
	assert.Zero(t, visit.Billed)
	assert.Zero(t, visit.RoundTrips)
	assert.Zero(t, visit.Shop)
	assert.Zero(t, visit.Travel)
	assert.Zero(t, visit.Labour)
	assert.Zero(t, visit.Total)
	invoice, err := rental.Bill(visit, s.Money)
	require.NoError(t, err)
	assert.Empty(t, invoice.Lines)
	assert.True(t, invoice.Total.Equal(decimal.Zero))
}

// The facts of the trade below. Source: common practice, no source.

func TestARoomAt75ForAMinimumOfHalfAnHourInQuartersOfAnHour(t *testing.T) {
	rate, _, err := quantity.Parse(quantity.DimMoneyPerHour, "75 per 30 min")
	require.NoError(t, err)
	for _, row := range []struct{ minutes, paid, price float64 }{
		{10, 30, 75}, {30, 30, 75}, {31, 45, 112.50}, {35, 45, 112.50}, {45, 45, 112.50}, {46, 60, 150},
	} {
		s := studygen.Round()
		s.Shops[0].Tariff.HourlyRate = quantity.MoneyPerHour(rate)
		visit := priced(s, only(s, row.minutes))
		assert.InDelta(t, row.paid, visit.Paid.Minutes(), cents, "%v min", row.minutes)
		assert.InDelta(t, row.price, visit.MachineTime, cents, "%v min", row.minutes)
	}
}

func TestRoundingComesOnceAVisitNotOnTheYear(t *testing.T) {
	s := studygen.Round()
	one := priced(s, only(s, 35)).MachineTime
	all := priced(s, only(s, 350)).MachineTime
	assert.InDelta(t, 1125, 10*one, cents, "ten visits of 35 min are ten times 45 paid minutes")
	assert.InDelta(t, 900, all, cents, "350 min at once are 360")
}

func TestAHeavyPieceTakesMoreHands(t *testing.T) {
	s := studygen.Round()
	for _, row := range []struct{ mass, crew, helpers float64 }{{20, 1, 0}, {25, 1, 0}, {26, 2, 0}, {50, 2, 0}, {51, 2, 1}, {150, 2, 4}} {
		crew, helpers := rental.Hands(&s.Studio, quantity.Mass(row.mass))
		assert.InDelta(t, row.crew, crew, 0, "%v kg", row.mass)
		assert.InDelta(t, row.helpers, helpers, 0, "%v kg", row.mass)
	}
}

func TestUnitCostsAgreeWithPublishedCases(t *testing.T) { conformance.Hold(t, "rental") }
