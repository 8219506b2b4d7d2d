package spend_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/spend"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// measured is the round study without interest, floor, upkeep and resale, whose job is an
// hour at the planer and then sanding hours at the sander.
func measured(perYear quantity.Count, sanding float64) *model.Study {
	s := studygen.Round()
	s.Studio.DiscountRate, s.Studio.FloorCost, s.Studio.EnergyPrice = 0, 0, 0
	for m := range s.Machines {
		machine := &s.Machines[m]
		machine.UpkeepShare, machine.Resale, machine.ValueTable = 0, model.ResaleTable, make([]quantity.Share, 3)
	}
	s.JobTypes[0].PerYear = perYear
	s.JobTypes[0].Operations = []model.Operation{{Key: "plane", Class: model.Planer, Measured: quantity.Hours(1), SetupPer: model.PerJob}}
	if sanding > 0 {
		s.JobTypes[0].Operations = append(s.JobTypes[0].Operations, model.Operation{Key: "sand", Class: model.WideBelt, Measured: quantity.Hours(sanding), SetupPer: model.PerJob})
	}
	for m := range s.Machines {
		s.Machines[m].Setup = 0
	}
	return s
}

func spent(s *model.Study, owned [][]bool, options spend.Options) spend.Spend {
	return spend.Of(s, work.New(s), owned, options)
}

// The planer of 4,000 runs an hour a job and is worth nothing afterwards.
func TestAMachineHasARateFromTheFirstHourOn(t *testing.T) {
	for perYear, want := range map[quantity.Count][]float64{0: nil, 1: {4000}, 20: {200}} {
		s := measured(perYear, 0)
		s.Studio.Horizon = 1
		got := spent(s, spend.Always(s, []bool{true, false}), spend.Options{})
		var rates []float64
		for _, rate := range got.Rates {
			rates = append(rates, rate.Owning)
		}
		require.Len(t, rates, len(want), "%v jobs", perYear)
		assert.InDeltaSlice(t, want, rates, 1e-9, "%v jobs", perYear)
	}
}

// One machine that is sold and bought again has the rate and the reserve of its first stay.
func TestAMachineBoughtTwiceIsToldOnce(t *testing.T) {
	s := measured(20, 1)
	got := spent(s, [][]bool{{true, false}, {false, true}, {true, false}}, spend.Options{})
	require.Len(t, got.Course.Stays, 3)
	require.Len(t, got.Rates, 2)
	assert.Equal(t, []int{0, 1}, []int{got.Rates[0].Machine, got.Rates[1].Machine})
	require.Len(t, got.Reserves, 2)
}

// collecting is a study of 20 jobs a year whose two machines share a collector for 1,200.
func collecting(sanding float64) *model.Study {
	s := measured(20, sanding)
	s.Fixtures = []model.Fixture{{Key: "collector", Price: 1200}}
	for m := range s.Machines {
		s.Machines[m].Fixtures = []string{"collector"}
	}
	return s
}

// owning is the owning part of the rates of a study's machines, by machine.
func owning(s *model.Study, owned [][]bool) [2]float64 {
	var list [2]float64
	for _, rate := range spent(s, owned, spend.Options{}).Rates {
		list[rate.Machine] = rate.Owning
	}
	return list
}

func TestASharedFixtureIsChargedByTheHoursOfThoseThatShareIt(t *testing.T) {
	planer, sander, none, both := []bool{true, false}, []bool{false, true}, []bool{false, false}, []bool{true, true}
	for _, row := range []struct {
		name  string
		owned [][]bool
		want  [2]float64 // for the collector alone, an hour of each
	}{
		// 400 a year over 20 and 60 hours a year: 5 an hour for either.
		{"both from the first day", [][]bool{both, both, both}, [2]float64{5, 5}},
		{"the sander a year later", [][]bool{planer, both, both}, [2]float64{5, 5}},
		// 1,200 over three years of 20 hours.
		{"the planer alone", [][]bool{planer, planer, planer}, [2]float64{20, 0}},
		// Bought anew after a year without: 1,200 over one year's 20 hours, and over one year's 60.
		{"one after the other with a gap", [][]bool{planer, none, sander}, [2]float64{60, 20}},
		{"the other way round", [][]bool{sander, none, planer}, [2]float64{60, 20}},
		// One collector from one to the other: 400 a year, by 20 and 60 hours.
		{"one after the other", [][]bool{planer, sander, sander}, [2]float64{5, 5}},
		// Twice, 600 a year over 20 hours; the planer's first stay has the first alone.
		{"the planer, and both after a gap", [][]bool{planer, none, both}, [2]float64{60, 15}},
	} {
		with, bare := collecting(3), measured(20, 3)
		without := owning(bare, row.owned)
		for m, rate := range owning(with, row.owned) {
			assert.InDelta(t, row.want[m], rate-without[m], 1e-9, "%s, machine %d", row.name, m)
		}
	}
}

func TestASharedFixtureIsChargedToAMachineOfOneHour(t *testing.T) {
	s := collecting(0)
	s.JobTypes[0].PerYear, s.Studio.Horizon = 1, 1
	got := spent(s, spend.Always(s, []bool{true, false}), spend.Options{})
	require.Len(t, got.Rates, 1)
	assert.InDelta(t, 4000+1200, got.Rates[0].Owning, 1e-9)
}

// A collector with a fifth of its price back and 10 m² of floor at 6 a year costs
// 1200 − 240 + 3 × 60 = 1,140 over 60 hours, and is set aside for until it is sold.
func TestWhatASharedFixtureBringsBackAndItsFloorAreInTheRate(t *testing.T) {
	s := collecting(0)
	s.Studio.FloorCost = 6
	s.Fixtures[0].Resale, s.Fixtures[0].Area = 0.2, 10
	bare := s.Clone()
	bare.Machines[0].Fixtures, bare.Machines[1].Fixtures = nil, nil
	owned := [][]bool{{true, false}, {true, false}, {true, false}}
	assert.InDelta(t, 1140.0/60, owning(s, owned)[0]-owning(bare, owned)[0], 1e-9)
	got := spent(s, owned, spend.Options{})
	require.Len(t, got.Reserves, 2)
	collector := got.Reserves[1]
	assert.Equal(t, spend.Reserve{Machine: 0, Fixture: 0, Years: 3, Price: 1200, Fetched: collector.Fetched, Monthly: collector.Monthly}, collector)
	assert.InDelta(t, 240, collector.Fetched, 1e-9)
	assert.InDelta(t, 960.0/36, collector.Monthly, 1e-9)
}

// lending lends 1,800 without interest over 18 months: 100 a month.
func lending(s *model.Study) *model.Study {
	s.Machines[0].Loan = model.Loan{Share: 0.45, Months: 18}
	return s
}

func repaid(s *model.Study, owned [][]bool, year int) (list [12]float64) {
	got := spent(s, owned, spend.Options{ByMonth: year})
	for m := range list {
		list[m] = got.Months[m].Cash[spend.Repaid]
	}
	return list
}

func TestALoanIsPaidMonthByMonthAndTheRestInTheDecemberOfTheSale(t *testing.T) {
	has, none := []bool{true, false}, []bool{false, false}
	months := func(from, to int, amount float64) (list [12]float64) {
		for m := from; m < to; m++ {
			list[m] = amount
		}
		return list
	}
	rest := months(0, 12, 100)
	rest[11] += 600
	for _, row := range []struct {
		name  string
		owned [][]bool
		year  int
		want  [12]float64
	}{
		{"its first year", [][]bool{has, has, has}, 0, months(0, 12, 100)},
		{"its second year", [][]bool{has, has, has}, 1, months(0, 6, 100)},
		{"after the last payment", [][]bool{has, has, has}, 2, months(0, 0, 0)},
		{"bought in the second year", [][]bool{none, has, has}, 1, months(0, 12, 100)},
		{"bought in the second year, a year later", [][]bool{none, has, has}, 2, months(0, 6, 100)},
		{"before it is bought", [][]bool{none, has, has}, 0, months(0, 0, 0)},
		{"sold after a year", [][]bool{has, none, none}, 0, rest},
	} {
		got := repaid(lending(measured(20, 0)), row.owned, row.year)
		assert.InDeltaSlice(t, row.want[:], got[:], 1e-9, row.name)
	}
}

func TestALoanIsBorrowedOnceAndPaidBackInAll(t *testing.T) {
	has, none := []bool{true, false}, []bool{false, false}
	loan := spent(lending(measured(20, 0)), [][]bool{has, none, has}, spend.Options{})
	for y, want := range [][2]float64{{-1800, 1800}, {0, 0}, {-1800, 1800}} {
		assert.InDelta(t, want[0], loan.Years[y].Cash[spend.Borrowed], 1e-9, "year %d", y)
		assert.InDelta(t, want[1], loan.Years[y].Cash[spend.Repaid], 1e-9, "year %d: twelve payments, and the rest with the sale", y)
	}
}

// An annuity at half a percent a month: 1800 × 0.005/(1 − 1.005^−18) = 104.82.
func TestALoanWithInterestIsPaidInEqualMonths(t *testing.T) {
	has := []bool{true, false}
	dear := lending(measured(20, 0))
	dear.Machines[0].Loan.APR = 0.06
	paid := repaid(dear, [][]bool{has, has, has}, 1)
	amount := 1800 * 0.005 / (1 - math.Pow(1.005, -18))
	assert.InDelta(t, 104.82, amount, 0.005)
	for m := range paid {
		want := 0.0
		if m < 6 {
			want = amount
		}
		assert.InDelta(t, want, paid[m], 1e-9, "month %d", m)
	}
}

// A loan of 1 in four payments.
func TestEvenALoanOfOneIsPaidBack(t *testing.T) {
	has := []bool{true, false}
	s := measured(20, 0)
	s.Machines[0].Loan = model.Loan{Share: quantity.Share(1.0 / 4000), Months: 4}
	want, got := [12]float64{0.25, 0.25, 0.25, 0.25}, repaid(s, [][]bool{has, has, has}, 0)
	assert.InDeltaSlice(t, want[:], got[:], 1e-9)
}

// dueAt lists what the first year runs of each edge and abrasive at a site of a shop.
func dueAt(got *spend.Spend, site work.Site, shop int) (years []float64) {
	for _, due := range got.Due {
		if due.Site == site && due.Shop == shop {
			years = append(years, due.Year)
		}
	}
	return years
}

// 2.5 mm off each of two faces in passes of 1 mm and one to finish: 4 passes a face of
// 2.4 m, 19.2 m a job.
func TestWhatIsWornAtTheShopIsToldShopByShop(t *testing.T) {
	const year = 20 * 19.2
	s := studygen.Round()
	s.JobTypes[0].Operations = s.JobTypes[0].Operations[:1]
	s.Shops[0].Machines[0].Consumables = "own"
	runs := func(want float64, got *spend.Spend, site work.Site, shop int, message string) {
		t.Helper()
		years := dueAt(got, site, shop)
		require.Len(t, years, 1, message)
		assert.InDelta(t, want, years[0], 1e-9, message)
	}
	one := spent(s, spend.Always(s, []bool{false, false}), spend.Options{})
	runs(year, &one, work.AtShop, 0, "one shop")

	second := s.Shops[0]
	second.Key = "other"
	s.Shops = append(s.Shops, second)
	kind := s.JobTypes[0]
	kind.Key, kind.Shop, kind.PerYear = "elsewhere", "other", 10
	s.JobTypes = append(s.JobTypes, kind)
	two := spent(s, spend.Always(s, []bool{false, false}), spend.Options{})
	runs(year, &two, work.AtShop, 0, "20 jobs here")
	runs(year/2, &two, work.AtShop, 1, "10 jobs there")
	own := spent(s, spend.Always(s, []bool{true, false}), spend.Options{})
	runs(1.5*year, &own, work.AtStudio, 0, "at the studio's planer all 30")
	assert.Empty(t, dueAt(&own, work.AtStudio, 1))
}

// Stock in which a belt lasts half as long, or with every fourth job done twice.
func TestHarderStockAndReworksRunMoreOfABelt(t *testing.T) {
	belt := func(change func(*model.Study)) float64 {
		got := ofRound(t, change, spend.Options{})
		return dueOf(t, &got, "", "belt80", work.AtStudio).Year
	}
	assert.InDelta(t, 172.8, belt(nil), 1e-9)
	assert.InDelta(t, 2*172.8, belt(func(s *model.Study) { s.Materials[0].AbrasiveLife = 0.5 }), 1e-9)
	assert.InDelta(t, 1.25*172.8, belt(func(s *model.Study) { s.JobTypes[0].ReworkChance = 0.25 }), 1e-9, "sanding is repeated")
	assert.InDelta(t, 0.5*172.8, belt(func(s *model.Study) { s.JobTypes[0].PerYear = 10 }), 1e-9)
}
