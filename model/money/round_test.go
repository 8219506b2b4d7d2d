package money_test

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/money"
)

var codes = []string{"JPY", "USD", "KWD", "CLF"}

// onPaper is the rule itself, with no regard to speed.
func onPaper(x float64, places int) decimal.Decimal {
	return decimal.NewFromFloat(x).Round(8).Round(int32(places))
}

func TestRoundTakesHalvesAwayFromZero(t *testing.T) {
	for _, row := range []struct {
		code    string
		x, want float64
		source  string
	}{
		{"USD", 2.675, 2.68, "ROUND in three worksheet programs, measured"},
		{"USD", 1.005, 1.01, "ROUND in three worksheet programs, measured"},
		{"USD", 0.285, 0.29, "ROUND in three worksheet programs, measured"},
		{"JPY", -2.5, -3, "ROUND in three worksheet programs, measured"},
		{"JPY", 2.5, 3, "rule"},
		{"JPY", 0.5, 1, "rule"},
		{"JPY", 0.49999999, 0, "rule"},
		{"JPY", 0.499999999, 1, "inner guard at eight decimals"},
		{"USD", 1.00499999, 1, "rule"},
		{"USD", 1.004999999, 1.01, "inner guard at eight decimals"},
		{"USD", -1.004999999, -1.01, "inner guard at eight decimals"},
		{"USD", 1.0049999949, 1, "just outside the guard: rounds to 1.00499999"},
		{"KWD", 1.0005, 1.001, "rule"},
		{"KWD", 1.2344, 1.234, "rule"},
		{"CLF", 1.00005, 1.0001, "rule"},
		{"USD", 999999999999.995, 1e12, "rule, at the limit of the fast way"},
		{"USD", 1e15 + 0.25, 1e15 + 0.25, "rule, beyond the limit"},
		{"USD", 1e300, 1e300, "rule, far beyond the limit"},
		{"USD", 1.1 * 1.1 * 75, 90.75, "noise is taken off"},
		{"USD", 0, 0, "rule"},
	} {
		got := currencyOf(t, row.code).Round(row.x)
		assert.InDelta(t, row.want, got, 0, "%s %v, %s", row.code, row.x, row.source)
	}
}

func TestRoundNeverGivesNegativeZero(t *testing.T) {
	for _, x := range []float64{-0.001, math.Copysign(0, -1), -1e-300, -0.0049} {
		assert.False(t, math.Signbit(currencyOf(t, "USD").Round(x)), "%v", x)
	}
}

func TestRoundLeavesWhatIsNoNumber(t *testing.T) {
	usd := currencyOf(t, "USD")
	assert.True(t, math.IsNaN(usd.Round(math.NaN())))
	assert.True(t, math.IsInf(usd.Round(math.Inf(1)), 1))
	assert.True(t, math.IsInf(usd.Round(math.Inf(-1)), -1))
}

// amounts draws what hurts: random sizes, exact halves, halves that miss by a
// few last bits, and halves that miss by about the guard.
func amounts(places int) *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		if rapid.Bool().Draw(t, "anything") {
			return rapid.Float64Range(-1, 1).Draw(t, "mantissa") * math.Pow(10, rapid.Float64Range(-10, 14).Draw(t, "exponent"))
		}
		limit := int64(math.Pow(10, rapid.Float64Range(0, 15).Draw(t, "digits")))
		half := (float64(rapid.Int64Range(-limit, limit).Draw(t, "minor")) + 0.5) / math.Pow10(places)
		for range rapid.IntRange(0, 3).Draw(t, "bits") {
			half = math.Nextafter(half, 0)
		}
		miss := rapid.SampledFrom([]float64{0, 4e-9, 4.9999e-9, 5e-9, 5.0001e-9, 6e-9, 1e-8, 2e-8}).Draw(t, "miss")
		return half + rapid.SampledFrom([]float64{-1, 1}).Draw(t, "side")*miss
	})
}

func TestRoundEqualsDecimalRounding(t *testing.T) {
	for _, code := range codes {
		c := currencyOf(t, code)
		t.Run(code, rapid.MakeCheck(func(t *rapid.T) {
			x := amounts(c.Places()).Draw(t, "x")
			want := onPaper(x, c.Places())
			require.Equal(t, want.InexactFloat64(), c.Round(x), "%v", x)
			got, err := c.Post(x)
			require.NoError(t, err)
			require.True(t, want.Equal(got), "%v posted as %s, want %s", x, got, want)
			require.Equal(t, c.Round(x), money.Float(got), "%v", x)
		}))
	}
}

func TestRoundingTwiceChangesNothing(t *testing.T) {
	for _, code := range codes {
		c := currencyOf(t, code)
		t.Run(code, rapid.MakeCheck(func(t *rapid.T) {
			once := c.Round(amounts(c.Places()).Draw(t, "x"))
			require.Equal(t, once, c.Round(once))
		}))
	}
}

func TestRoundIsOddAndNeverFallsWhenTheAmountRises(t *testing.T) {
	usd := currencyOf(t, "USD")
	rapid.Check(t, func(t *rapid.T) {
		x, y := amounts(2).Draw(t, "x"), amounts(2).Draw(t, "y")
		require.Equal(t, -usd.Round(x), usd.Round(-x))
		require.LessOrEqual(t, usd.Round(min(x, y)), usd.Round(max(x, y)))
	})
}

func TestPostRefusesWhatIsNoNumber(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := currencyOf(t, "USD").Post(x)
		require.ErrorIs(t, err, money.ErrNotFinite)
		_, err = money.Exact(x)
		require.ErrorIs(t, err, money.ErrNotFinite)
	}
}

func TestExactReadsBackAsTheSameFloat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64().Draw(t, "x")
		d, err := money.Exact(x)
		require.NoError(t, err)
		require.Equal(t, x+0, money.Float(d))
	})
}

func TestRoundDecimalTakesHalvesAwayFromZero(t *testing.T) {
	usd := currencyOf(t, "USD")
	for text, want := range map[string]string{"1.005": "1.01", "-1.005": "-1.01", "1.00499999999": "1", "1.004999999": "1"} {
		got := usd.RoundDecimal(decimal.RequireFromString(text))
		assert.True(t, decimal.RequireFromString(want).Equal(got), "%s gave %s", text, got)
	}
}

func BenchmarkRound(b *testing.B) {
	usd := currencyOf(b, "USD")
	x := 0.0
	for b.Loop() {
		x += 12.3456
		_ = usd.Round(x)
	}
}

func BenchmarkPost(b *testing.B) {
	usd := currencyOf(b, "USD")
	for b.Loop() {
		_, _ = usd.Post(1234.5678)
	}
}
