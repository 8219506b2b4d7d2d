package reports

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/decision"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/quantity"
)

func worded(t require.TestingT, currency string, numbers Numbers) wording {
	parsed, err := money.ParseCurrency(currency)
	require.NoError(t, err)
	study := &model.Study{Currency: currency, Units: "inch", Money: parsed, Studio: model.Studio{Horizon: 10, CloseCall: 0.05}}
	return wordingOf(&decision.Answer{Study: study}, numbers)
}

func TestAmountsAreWrittenAsFarAsTheyMatter(t *testing.T) {
	for _, row := range []struct {
		currency string
		numbers  Numbers
		x        float64
		want     string
	}{
		{"USD", Grouped, 22088.449, "22,088"},
		{"USD", Grouped, 22088.5, "22,089"},
		{"USD", Plain, 22088.449, "22088"},
		{"USD", Grouped, 99.994, "99.99"},
		{"USD", Grouped, -1234567.8, "-1,234,568"},
		{"USD", Grouped, math.Copysign(0, -1), "0.00"},
		{"JPY", Grouped, 99.6, "100"},
		{"JPY", Grouped, 1234.6, "1,235"},
		{"USD", Grouped, math.NaN(), "n/a"},
	} {
		assert.Equal(t, row.want, worded(t, row.currency, row.numbers).amount(row.x))
	}
}

func TestARateKeepsThreeDigitsInEveryCurrency(t *testing.T) {
	for _, row := range []struct {
		currency string
		x        float64
		want     string
	}{
		{"USD", 9.876, "9.88"}, {"USD", 85, "85.00"}, {"JPY", 12.44, "12.4"}, {"JPY", 9000, "9,000"}, {"JPY", 85.26, "85.3"},
		{"KWD", 0.1234, "0.123"}, {"KWD", 25.3, "25.300"},
	} {
		assert.Equal(t, row.want+" per h", worded(t, row.currency, Grouped).measure(quantity.DimMoneyPerHour, row.x), row.currency)
	}
}

func TestQuantitiesAreRoundedForReading(t *testing.T) {
	for _, row := range []struct {
		dim  quantity.Dimension
		si   float64
		want string
	}{
		{quantity.DimLength, 0.0254 * 1.75, "1.75 in"},
		{quantity.DimMass, 23, "50.7 lb"},
		{quantity.DimCount, 79.80957, "79.8"},
		{quantity.DimCount, 1234.5, "1,235"},
		{quantity.DimShare, 0.07, "7 %"},
		{quantity.DimYears, 1, "1 year"},
		{quantity.DimYears, 10, "10 years"},
		{quantity.DimMoney, 4300, "4,300"},
		{quantity.DimMoneyPerHour, 150, "150.00 per h"},
		{quantity.DimMoneyPerKilowattHour, 0.135, "0.135 per kWh"},
		{quantity.DimMoneyPerKilowattMonth, 0, "0 per kW per month"},
	} {
		assert.Equal(t, row.want, worded(t, "USD", Grouped).measure(row.dim, row.si))
	}
	assert.Equal(t, "0 to 25.00 per kW per month", worded(t, "USD", Grouped).span(quantity.DimMoneyPerKilowattMonth, 0, 25))
}

func TestAWrittenNumberIsNearWhatItWasAndHasNoExponent(t *testing.T) {
	w := worded(t, "USD", Grouped)
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e12, 1e12).Draw(t, "x")
		text := w.number(x)
		require.NotContains(t, text, "e")
		back, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64)
		require.NoError(t, err)
		require.InDelta(t, x, back, math.Max(0.5, math.Abs(x)*0.005)) // three digits, or whole from a thousand on
		for _, group := range strings.Split(text, ",")[1:] {
			require.Len(t, group, 3)
		}
	})
}

func TestReturnsAreAllSaidOrSaidToBeNone(t *testing.T) {
	for _, row := range []struct {
		rates []float64
		want  string
	}{
		{nil, "no rate of return"},
		{[]float64{-0.0658}, "returns -6.6 % a year"},
		{[]float64{0.05, 0.30}, "several rates of return (5.0 % and 30.0 %), so go by the amounts"},
		{[]float64{0, 0.05, 0.30}, "several rates of return (0.0 %, 5.0 % and 30.0 %), so go by the amounts"},
	} {
		assert.Equal(t, row.want, returns(row.rates))
	}
}

func TestPaybackIsWordedInEveryCase(t *testing.T) {
	for _, row := range []struct {
		payback single.Payback
		want    string
	}{
		{single.Payback{}, "not back within 10 years"},
		{single.Payback{SimpleOK: true, DiscountedOK: true}, "never out of pocket"},
		{single.Payback{Simple: 8.04, SimpleOK: true}, "back in 8.0 years, but not with interest"},
		{single.Payback{Simple: 5.82, Discounted: 7.82, SimpleOK: true, DiscountedOK: true}, "back in 5.8 years (7.8 with interest)"},
	} {
		got := worded(t, "USD", Grouped).payback(&single.Result{Payback: row.payback})
		assert.Equal(t, row.want, got.InWords)
	}
}

func TestTheReasonFitsTheVerdict(t *testing.T) {
	for _, row := range []struct {
		name   string
		result single.Result
		want   string
	}{
		{"buy", single.Result{Jobs: 9, Verdict: single.Buy, OwningAnnual: 4120, SavedAnnual: 6870},
			"owning costs 4,120 a year and saves 6,870 of visits"},
		{"rent", single.Result{Jobs: 9, Verdict: single.KeepRenting, OwningAnnual: 4120, SavedAnnual: 870},
			"owning would cost 4,120 a year and save only 870 of visits"},
		{"close", single.Result{Jobs: 9, Verdict: single.TooClose, OwningAnnual: 4120, SavedAnnual: 4100},
			"owning costs 4,120 a year and saves 4,100 of visits, closer than 5 % of the dearer side"},
		{"idle", single.Result{Verdict: single.KeepRenting, OwningAnnual: 4120},
			"it takes none of the work in this study, so owning it saves nothing"},
		{"dearer visits", single.Result{Jobs: 9, Verdict: single.KeepRenting, OwningAnnual: 4120, SavedAnnual: -3},
			"owning would cost 4,120 a year and save no visits"},
		{"earning", single.Result{Jobs: 9, Verdict: single.Buy, OwningAnnual: -500, SavedAnnual: 200},
			"owning earns 500 a year and saves 200 of visits"},
	} {
		assert.Equal(t, row.want, worded(t, "USD", Grouped).reason(&row.result), row.name)
	}
}

func TestACrossingSaysOnWhichSideTheAnswerIsTheOther(t *testing.T) {
	for _, row := range []struct {
		found single.BreakEven
		at    float64
		want  string
	}{
		{single.BreakEven{In: single.InJobs, Dimension: quantity.DimCount, Now: 60}, 79.81, "more than 79.8 jobs a year"},
		{single.BreakEven{In: single.InJobs, Dimension: quantity.DimCount, Now: 60}, 1, "fewer than 1 job a year"},
		{single.BreakEven{In: single.InKept, Dimension: quantity.DimYears, Now: 10}, 3, "kept less than 3 years"},
		{single.BreakEven{In: single.InKept, Dimension: quantity.DimYears, Now: 2}, 5, "kept 5 years or longer"},
		{single.BreakEven{In: single.InRate, Dimension: quantity.DimMoneyPerHour, Now: 150}, 130.62, "a shop rate under 130.62 per h"},
		{single.BreakEven{In: single.InPrice, Dimension: quantity.DimMoney, Now: 4300}, 9000, "a price over 9,000"},
		{single.BreakEven{In: single.InDistance, Dimension: quantity.DimDistance, Now: 22530.8}, 121336, "a shop farther than 75.4 mi"},
	} {
		assert.Equal(t, row.want, worded(t, "USD", Grouped).past(&row.found, row.at))
	}
}

func TestPathsAreSaidInTheNamesOfTheStudy(t *testing.T) {
	study := &model.Study{
		Shops:    []model.Shop{{Key: "big", Name: "the big shop", Machines: []model.HiredMachine{{Key: "planer", Name: "36-in planer"}}}},
		Machines: []model.Machine{{Key: "own"}},
	}
	known := inputsOf(study)
	for _, row := range [][2]string{
		{"shops.big.machines.planer.feed", "the big shop, 36-in planer: feed"},
		{"shops.big.tariff.minimum_block", "the big shop: tariff, minimum block"},
		{"studio.labour_rate", "labour rate"},
		{"growth.rental", "growth, rental"},
		{"machines.own.price", "machines, own, price"},
		{"shops.big", "the big shop"},
	} {
		assert.Equal(t, row[1], known.label(row[0]))
	}
}

func TestANoteNamesItsSubjectOnce(t *testing.T) {
	w := worded(t, "USD", Grouped)
	w.inputs.name["machines.own"] = "own planer"
	assert.Equal(t, Note{"machines.own", "own planer", "is loud"}, w.note(decision.Note{Path: "machines.own", Text: "is loud"}))
	assert.Equal(t, Note{"machines.own", "", "own planer is loud"}, w.note(decision.Note{Path: "machines.own", Text: "own planer is loud"}))
	assert.Equal(t, Note{"currency", "", "dollars"}, w.note(decision.Note{Path: "currency", Text: "dollars"}))
}
