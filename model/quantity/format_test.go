package quantity_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/quantity"
)

var systems = []quantity.System{quantity.Metric, quantity.Inch}

func TestFormatWritesWhatThatShopWrites(t *testing.T) {
	for _, row := range []struct {
		d    quantity.Dimension
		si   float64
		s    quantity.System
		want string
	}{
		{quantity.DimLength, 0.045, quantity.Metric, "45 mm"},
		{quantity.DimLength, 0.04445, quantity.Inch, "1.75 in"},
		{quantity.DimLength, 0, quantity.Metric, "0 mm"},
		{quantity.DimLength, math.Copysign(0, -1), quantity.Metric, "0 mm"},
		{quantity.DimLength, -0.0127, quantity.Inch, "-0.5 in"},
		{quantity.DimLength, 1.0 / 3, quantity.Metric, "333.3333333333333 mm"},
		{quantity.DimDistance, 1609.344, quantity.Inch, "1 mi"},
		{quantity.DimDuration, 5400, quantity.Inch, "90 min"},
		{quantity.DimSpeed, 0.1, quantity.Metric, "6 m/min"},
		{quantity.DimPower, 7500, quantity.Inch, "7.5 kW"},
		{quantity.DimDensity, 650, quantity.Metric, "650 kg/m³"},
		{quantity.DimShare, 0.12, quantity.Metric, "12 %"},
		{quantity.DimShare, 0.07, quantity.Metric, "7 %"},
		{quantity.DimShare, 0.005, quantity.Metric, "0.5 %"},
		{quantity.DimYears, 1, quantity.Metric, "1 year"},
		{quantity.DimYears, 0.5, quantity.Metric, "0.5 years"},
		{quantity.DimCount, 1e6, quantity.Metric, "1000000"},
		{quantity.DimMoney, 22000.5, quantity.Metric, "22000.5"},
		{quantity.DimMoneyPerHour, 75, quantity.Metric, "75 per h"},
		{quantity.DimMoneyPerKilometre, 0.70 / 1.609344, quantity.Inch, "0.7 per mi"},
		{quantity.DimMoneyPerSquareMetreYear, 151, quantity.Metric, "151 per m² per year"},
		{quantity.DimMoneyPerKilowattMonth, 10, quantity.Inch, "10 per kW per month"},
	} {
		assert.Equal(t, row.want, quantity.Format(row.d, row.si, row.s), "%s %v", row.d, row.si)
	}
}

func TestDisplaySizesAreTheStandardsSizes(t *testing.T) {
	for _, row := range []struct {
		d      quantity.Dimension
		s      quantity.System
		symbol string
		size   float64 // NIST SP 811, 2008, appendix B.8
	}{
		{quantity.DimLength, quantity.Metric, "mm", 0.001},
		{quantity.DimLength, quantity.Inch, "in", 0.0254},
		{quantity.DimDistance, quantity.Metric, "km", 1000},
		{quantity.DimDistance, quantity.Inch, "mi", 1609.344},
		{quantity.DimArea, quantity.Inch, "ft²", 0.09290304},
		{quantity.DimMass, quantity.Inch, "lb", 0.45359237},
		{quantity.DimDensity, quantity.Inch, "lb/ft³", 16.01846337396014},
		{quantity.DimDuration, quantity.Metric, "min", 60},
		{quantity.DimSpeed, quantity.Metric, "m/min", 1.0 / 60},
		{quantity.DimSpeed, quantity.Inch, "ft/min", 0.00508},
		{quantity.DimPower, quantity.Metric, "kW", 1000},
		{quantity.DimAirFlow, quantity.Metric, "m³/h", 1.0 / 3600},
		{quantity.DimAirFlow, quantity.Inch, "ft³/min", 4.719474432e-4},
		{quantity.DimVoltage, quantity.Inch, "V", 1},
		{quantity.DimCurrent, quantity.Inch, "A", 1},
		{quantity.DimRotation, quantity.Metric, "rpm", 1.0 / 60},
		{quantity.DimSpecificEnergy, quantity.Inch, "MJ/m³", 1e6},
		{quantity.DimAreaTime, quantity.Metric, "min/m²", 60},
		{quantity.DimAreaTime, quantity.Inch, "min/ft²", 60 / 0.09290304},
		{quantity.DimYears, quantity.Metric, "years", 1},
		{quantity.DimShare, quantity.Metric, "%", 0.01},
		{quantity.DimCount, quantity.Metric, "", 1},
		{quantity.DimMoney, quantity.Inch, "", 1},
		{quantity.DimMoneyPerHour, quantity.Inch, "per h", 1},
		{quantity.DimMoneyPerKilometre, quantity.Metric, "per km", 1},
		{quantity.DimMoneyPerKilometre, quantity.Inch, "per mi", 1 / 1.609344},
		{quantity.DimMoneyPerMetre, quantity.Inch, "per ft", 1 / 0.3048},
		{quantity.DimMoneyPerSquareMetre, quantity.Inch, "per ft²", 1 / 0.09290304},
		{quantity.DimMoneyPerSquareMetreYear, quantity.Inch, "per ft² per year", 1 / 0.09290304},
		{quantity.DimMoneyPerKilowattHour, quantity.Inch, "per kWh", 1},
		{quantity.DimMoneyPerKilowattMonth, quantity.Inch, "per kW per month", 1},
		{quantity.DimMoneyPerMonth, quantity.Inch, "per month", 1},
		{quantity.Dimension(0), quantity.Metric, "", 1},
	} {
		got := quantity.Display(row.d, row.s)
		assert.Equal(t, row.symbol, got.Symbol, "%s", row.d)
		assert.InEpsilon(t, row.size, got.Size, 1e-15, "%s %s", row.d, row.symbol)
	}
}

func TestEveryDimensionIsShownInAUnitItsParserKnows(t *testing.T) {
	for _, d := range quantity.Dimensions() {
		for _, s := range systems {
			unit := quantity.Display(d, s)
			require.Positive(t, unit.Size, "%s %s", d, s)
			got, _, err := quantity.Parse(d, "3 "+unit.Symbol)
			if unit.Symbol == "" {
				got, _, err = quantity.Parse(d, "3")
			}
			require.NoError(t, err, "%s %s", d, s)
			assert.InEpsilon(t, 3*unit.Size, got, 1e-15, "%s %s", d, s)
		}
	}
}

func TestWhatIsFormattedIsReadBackTheSame(t *testing.T) {
	for _, d := range quantity.Dimensions() {
		for _, s := range systems {
			t.Run(d.Name()+" "+s.String(), rapid.MakeCheck(func(t *rapid.T) {
				si := rapid.Float64Range(-1, 1).Draw(t, "mantissa") * math.Pow(10, rapid.Float64Range(-12, 12).Draw(t, "exponent"))
				if math.Abs(si) < 1e-25 {
					si = 0
				}
				requireSameAgain(t, d, si, s)
			}))
		}
	}
}

func TestShownIsTheNumberThatFormatWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(quantity.Dimensions()).Draw(t, "dimension")
		s := rapid.SampledFrom(systems).Draw(t, "system")
		si := rapid.Float64Range(-1e9, 1e9).Draw(t, "si")
		unit := quantity.Display(d, s)
		assert.InDelta(t, si, quantity.Shown(d, si, s)*unit.Size, math.Abs(si)*1e-15+1e-300)
	})
}

func TestAValueWrittenInWholeMillimetresIsShownInWholeMillimetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.IntRange(0, 100_000).Draw(t, "mm")
		assert.InDelta(t, float64(mm), quantity.Shown(quantity.DimLength, float64(quantity.Millimetres(float64(mm))), quantity.Metric), 0)
	})
}

func TestFormatOfWhatNoOneCanMeanIsRefusedByParse(t *testing.T) {
	for _, si := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, 1e-100} {
		for _, d := range quantity.Dimensions() {
			_, _, err := quantity.Parse(d, quantity.Format(d, si, quantity.Inch))
			assert.Error(t, err, "%s %v", d, si)
		}
	}
}

// testingT is what both testing.T and rapid.T offer.
type testingT interface {
	require.TestingT
	Helper()
}

func requireSameAgain(t testingT, d quantity.Dimension, si float64, s quantity.System) {
	t.Helper()
	text := quantity.Format(d, si, s)
	again, currency, err := quantity.Parse(d, text)
	require.NoError(t, err, "%s %v in %s: %q", d, si, s, text)
	require.InDelta(t, si, again, math.Abs(si)*1e-12, "%s in %s: %q", d, s, text)
	require.Empty(t, currency)
}

func BenchmarkFormat(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		quantity.Format(quantity.DimLength, 0.04445, quantity.Inch)
	}
}

func TestBriefWritesFourDigitsInPlainDecimals(t *testing.T) {
	for _, row := range []struct {
		d      quantity.Dimension
		si     float64
		system quantity.System
		want   string
	}{
		{quantity.DimLength, 12.3456, quantity.Metric, "12350 mm"},
		{quantity.DimLength, 1.0668, quantity.Inch, "42 in"},
		{quantity.DimMass, 23, quantity.Inch, "50.71 lb"},
		{quantity.DimCount, 3, quantity.Metric, "3"},
	} {
		assert.Equal(t, row.want, quantity.Brief(row.d, row.si, row.system))
	}
}

// Sixteen digits that someone wrote are shown as they were written, not with the
// seventeenth that turning them into a share brought along.
func TestSixteenDigitsAreShownAsTheyWereWritten(t *testing.T) {
	for i := range int64(400) {
		written := strconv.FormatFloat(float64(1_234_567_890_123_456+i*7_919_000_003)/1e14, 'f', -1, 64)
		si, _, err := quantity.Parse(quantity.DimShare, written+" %")
		require.NoError(t, err)
		assert.Equal(t, written, strconv.FormatFloat(quantity.Shown(quantity.DimShare, si, quantity.Metric), 'f', -1, 64))
	}
}
