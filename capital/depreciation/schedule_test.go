package depreciation_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/depreciation"
)

// tester is what both a test and a property offer.
type tester interface {
	require.TestingT
	Helper()
}

// rounding bounds what adding up a whole life of shares may lose.
const rounding = 1e-12

// assertSchedule asserts what holds of every method: no share below 0, never
// below salvage on the way, and in the end whole: 1 - salvage.
func assertSchedule(t tester, shares []float64, salvage float64) {
	t.Helper()
	assertWithin(t, shares, salvage)
	require.InDeltaf(t, 1-salvage, sum(shares), rounding, "total of %v", shares)
}

// assertWithin asserts the same but for the whole.
func assertWithin(t tester, shares []float64, salvage float64) {
	t.Helper()
	require.NotEmpty(t, shares)
	book := 1.0
	for year, share := range shares {
		require.GreaterOrEqualf(t, share, 0.0, "year %d of %v", year+1, shares)
		book -= share
		require.GreaterOrEqualf(t, book, salvage-rounding, "book value after year %d of %v", year+1, shares)
	}
}

func sum(shares []float64) float64 {
	total := 0.0
	for _, share := range shares {
		total += share
	}
	return total
}

func drawLifeAndSalvage(t *rapid.T) (int, float64) {
	life := rapid.IntRange(1, 40).Draw(t, "life")
	salvage := rapid.OneOf(rapid.Just(0.0), rapid.Just(1.0), rapid.Float64Range(0, 1)).Draw(t, "salvage")
	return life, salvage
}

func TestStraightLineIsASchedule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		life, salvage := drawLifeAndSalvage(t)
		assertSchedule(t, depreciation.StraightLine(life, salvage), salvage)
	})
}

func TestStraightLineHalfYearIsASchedule(t *testing.T) {
	for life := 1; life <= 40; life++ {
		shares := depreciation.StraightLineHalfYear(life)
		require.Len(t, shares, life+1)
		assertSchedule(t, shares, 0)
		assert.InDelta(t, shares[0], shares[life], rounding)
	}
}

func TestSumOfYearsIsASchedule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		life, salvage := drawLifeAndSalvage(t)
		assertSchedule(t, depreciation.SumOfYears(life, salvage), salvage)
	})
}

func TestDecliningBalanceIsASchedule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		life, salvage := drawLifeAndSalvage(t)
		factor := rapid.Float64Range(0.1, 5).Draw(t, "factor")
		assertSchedule(t, depreciation.DecliningBalance(life, salvage, factor), salvage)
	})
}

func TestDecliningBalanceWithoutSwitchStaysAboveSalvage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		life, salvage := drawLifeAndSalvage(t)
		factor := rapid.Float64Range(0.1, 5).Draw(t, "factor")
		slow := depreciation.DecliningBalanceNoSwitch(life, salvage, factor)
		assertWithin(t, slow, salvage)
		require.LessOrEqual(t, sum(slow), sum(depreciation.DecliningBalance(life, salvage, factor))+rounding)
	})
}

func TestDecliningBalanceWithFactorOneAndNoSalvageIsStraightLine(t *testing.T) {
	for life := 1; life <= 30; life++ {
		assert.InDeltaSlice(t, depreciation.StraightLine(life, 0), depreciation.DecliningBalance(life, 0, 1), rounding)
	}
}

func TestUnitsOfProductionIsAScheduleOnceAllUnitsAreDone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, salvage := drawLifeAndSalvage(t)
		units := rapid.SliceOfN(rapid.Float64Range(0, 1000), 1, 30).Draw(t, "units")
		units = append(units, 1)
		done := sum(units)
		assertSchedule(t, depreciation.UnitsOfProduction(units, done, salvage), salvage)
		assertSchedule(t, depreciation.UnitsOfProduction(units, done/2, salvage), salvage)
		assertWithin(t, depreciation.UnitsOfProduction(units, done*2, salvage), salvage)
		rest := depreciation.UnitsOfProduction(units, done*2, salvage)
		require.InDelta(t, (1-salvage)/2, sum(rest), 1e-9, "half the units leave half undeducted")
	})
}

func TestEveryPrintedTableIsASchedule(t *testing.T) {
	for _, class := range []int{3, 5, 7, 10, 15, 20} {
		shares, err := depreciation.HalfYear(class)
		require.NoError(t, err)
		require.Len(t, shares, class+1)
		assertSchedule(t, shares, 0)
	}
	for _, class := range []int{3, 5, 7} {
		for quarter := 1; quarter <= 4; quarter++ {
			shares, err := depreciation.MidQuarter(class, quarter)
			require.NoError(t, err)
			require.Len(t, shares, class+1)
			assertSchedule(t, shares, 0)
		}
	}
}

// partYear works a table out from its rule: declining balance by factor on
// what is left, the first year counted for firstYear of a year, the straight
// line over the time that remains where that is more, the rest in the year
// after the class ends.
func partYear(class int, factor, firstYear float64) []float64 {
	shares := make([]float64, class+1)
	book, left, counted := 1.0, float64(class), firstYear
	for i := range shares {
		share := math.Max(book*factor/float64(class), book/math.Max(left, 1)) * counted
		shares[i] = math.Min(share, book)
		book -= shares[i]
		left -= counted
		counted = 1
	}
	shares[class] += book
	return shares
}

func halfYearExact(class int) []float64 {
	factor := 2.0
	if class >= 15 {
		factor = 1.5
	}
	return partYear(class, factor, 0.5)
}

func midQuarterExact(class, quarter int) []float64 {
	return partYear(class, 2, (4.5-float64(quarter))/4)
}

func TestPrintedTablesFollowTheirRule(t *testing.T) {
	// 0.015 percentage points: the table prints 17.85 for 17.857 and rounds
	// its last years so that the row adds up to 100.
	const printing = 0.015 / 100
	for _, class := range []int{3, 5, 7, 10, 15, 20} {
		shares, err := depreciation.HalfYear(class)
		require.NoError(t, err)
		assert.InDeltaSlicef(t, halfYearExact(class), shares, printing, "half-year, class %d", class)
	}
	for _, class := range []int{3, 5, 7} {
		for quarter := 1; quarter <= 4; quarter++ {
			shares, err := depreciation.MidQuarter(class, quarter)
			require.NoError(t, err)
			assert.InDeltaSlicef(t, midQuarterExact(class, quarter), shares, printing, "mid-quarter, class %d, quarter %d", class, quarter)
		}
	}
}

func TestATableOnceHandedOutCannotBeSpoiled(t *testing.T) {
	shares, err := depreciation.MidQuarter(7, 1)
	require.NoError(t, err)
	shares[0] = 99
	again, err := depreciation.MidQuarter(7, 1)
	require.NoError(t, err)
	assert.InDelta(t, 0.25, again[0], rounding)
}

func TestTablesThatDoNotExistAreErrors(t *testing.T) {
	_, err := depreciation.HalfYear(4)
	require.EqualError(t, err, "half-year table: no class of 4 years; there are 3, 5, 7, 10, 15 and 20")
	_, err = depreciation.MidQuarter(10, 1)
	require.EqualError(t, err, "mid-quarter table: no class of 10 years; there are 3, 5 and 7")
	_, err = depreciation.MidQuarter(7, 5)
	require.EqualError(t, err, "mid-quarter table: no quarter 5; there are 1, 2, 3 and 4")
}

func TestSchedulesThatAreNotDefinedAreNil(t *testing.T) {
	for _, salvage := range []float64{-0.1, 1.1, math.NaN(), math.Inf(1)} {
		assert.Nil(t, depreciation.StraightLine(5, salvage))
		assert.Nil(t, depreciation.SumOfYears(5, salvage))
		assert.Nil(t, depreciation.DecliningBalance(5, salvage, 2))
		assert.Nil(t, depreciation.UnitsOfProduction([]float64{1}, 5, salvage))
	}
	for _, life := range []int{0, -3} {
		assert.Nil(t, depreciation.StraightLine(life, 0))
		assert.Nil(t, depreciation.StraightLineHalfYear(life))
		assert.Nil(t, depreciation.SumOfYears(life, 0))
		assert.Nil(t, depreciation.DecliningBalanceNoSwitch(life, 0, 2))
	}
	for _, factor := range []float64{0, -1, math.NaN()} {
		assert.Nil(t, depreciation.DecliningBalance(5, 0, factor))
	}
	assert.Nil(t, depreciation.UnitsOfProduction([]float64{1}, 0, 0))
	assert.Nil(t, depreciation.UnitsOfProduction([]float64{1, -1}, 5, 0))
}

func TestTheYearOfSaleCountsByItsConvention(t *testing.T) {
	// US Internal Revenue Service, Publication 946, chapter 4 (from memory).
	rows := []struct {
		convention depreciation.Convention
		quarter    int
		want       float64
	}{
		{depreciation.FullYear, 0, 1},
		{depreciation.HalfYearly, 0, 0.5},
		{depreciation.MidQuarterly, 1, 0.125},
		{depreciation.MidQuarterly, 2, 0.375},
		{depreciation.MidQuarterly, 3, 0.625},
		{depreciation.MidQuarterly, 4, 0.875},
	}
	for _, row := range rows {
		got, err := depreciation.DisposalShare(row.convention, row.quarter)
		require.NoError(t, err)
		assert.InDeltaf(t, row.want, got, rounding, "%s, quarter %d", row.convention, row.quarter)
	}
	_, err := depreciation.DisposalShare(depreciation.MidQuarterly, 0)
	require.EqualError(t, err, "mid-quarter sale: no quarter 0; there are 1, 2, 3 and 4")
	_, err = depreciation.DisposalShare("monthly", 1)
	require.EqualError(t, err, `year of sale: no convention "monthly"; there are "full year", "half-year" and "mid-quarter"`)
}
