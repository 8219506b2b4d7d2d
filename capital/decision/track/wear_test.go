package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// Source of the examples below: common practice, no source; sums stand beside them.

// newFor is the end of a blade that was replaced by one for so much.
func newFor(day int, item string, amount float64) logbook.Entry {
	line := end(day, item, logbook.Dull)
	line.Amount, line.Given = quantity.Money(amount), logbook.HasAmount
	return line
}

func bladeOf(t *testing.T, log ...logbook.Entry) track.Wear {
	t.Helper()
	return worn(t, taken(t, studygen.Round(), log), "edges.blade")
}

// A blade that a new one takes the place of has cost its price, though nobody wrote how
// it ended: 50 m, 60 m and what is in use.
func TestABladeThatANewOneTookThePlaceOfHasCostItsPrice(t *testing.T) {
	blade := bladeOf(t, buy(0, "1", 100), use(1, "1", 50), buy(2, "1", 70), use(3, "1", 60), buy(4, "1", 80), use(5, "1", 30))
	assert.InDelta(t, 100+70+30/blade.Belief.Mean*80, blade.Paid, 1e-9)
	assert.InDelta(t, 140, blade.Run, 0)
	assert.InDelta(t, 3, blade.Going, 0)
	assert.Zero(t, blade.Ended)
	assert.InDelta(t, 3, blade.Bought, 0)

	knives := worn(t, taken(t, studygen.Round(), append(sharpened(1, 1000), knives(buy(9, "a", 200)))), "edges.knives")
	assert.InDelta(t, 90+160, knives.Paid, 1e-9, "a sharpening, and all of what the first cost")
}

func TestABladeThatRanHalfAMetreHasCostItsPriceToo(t *testing.T) {
	blade := bladeOf(t, buy(0, "1", 100), use(1, "1", 0.5), buy(2, "1", 70))
	assert.InDelta(t, 100, blade.Paid, 1e-9)
	assert.InDelta(t, 1, blade.Going, 0)
}

func TestStockThatIsBoughtAgainHasCostNothingYet(t *testing.T) {
	blade := bladeOf(t, buy(0, "1", 100), buy(1, "1", 70), use(2, "1", 60), end(3, "1", logbook.Dull))
	assert.InDelta(t, 70, blade.Paid, 1e-9)
	assert.InDelta(t, 85, blade.Price.Value, 1e-9, "the mean of what was paid")
	assert.Zero(t, blade.Going)
}

// Without labels a purchase is stock as long as something is in use: 150 m and 40 m are
// one life.
func TestAPurchaseWithoutALabelDoesNotEndWhatIsInUse(t *testing.T) {
	blade := bladeOf(t, buy(0, "", 100), use(1, "", 150), buy(2, "", 60), use(3, "", 40), end(4, "", logbook.Dull), use(5, "", 210), end(6, "", logbook.Dull))
	require.Len(t, blade.Curve, 2)
	assert.InDelta(t, 190, blade.Curve[0].Run, 0)
	assert.InDelta(t, 210, blade.Curve[1].Run, 0)
	assert.InDelta(t, 100+80, blade.Paid, 1e-9, "the first for its own price, the second for the mean of 100 and 60")
	assert.InDelta(t, 2, blade.Replaced, 0)
	assert.Zero(t, blade.Sharpened)
}

func TestSeveralBoughtAtOnceCostTheirPartEach(t *testing.T) {
	packet := buy(0, "1", 320)
	packet.Jobs = 4
	blade := bladeOf(t, packet, use(1, "1", 150), end(2, "1", logbook.Dull))
	assert.InDelta(t, 80, blade.Paid, 1e-9)
	assert.InDelta(t, 4, blade.Bought, 0)
	assert.InDelta(t, 80, blade.Price.Value, 1e-9)
	assert.False(t, blade.Price.Known, "one purchase tells no scatter")
}

// A blade is replaced by one for 60, and that by one for 90 that nobody has used yet.
func TestTheAmountOfAReplacementIsThePriceOfTheNewOne(t *testing.T) {
	blade := bladeOf(t, buy(0, "1", 100), use(1, "1", 150), newFor(2, "1", 60), use(3, "1", 160), newFor(4, "1", 90))
	assert.InDelta(t, 100+60, blade.Paid, 1e-9)
	assert.InDelta(t, 250.0/3, blade.Price.Value, 1e-9)
	assert.InDelta(t, 3, blade.Bought, 0)
	assert.InDelta(t, 2, blade.Replaced, 0)
}

func TestASuggestedPriceCountsEveryOneThatWasPaidFor(t *testing.T) {
	var log []logbook.Entry
	for life := range 4 {
		log = append(log, use(2*life, "1", 200), newFor(2*life+1, "1", 119+float64(life%2)*2))
	}
	packet := buy(8, "1", 240)
	packet.Jobs = 2
	r := taken(t, studygen.Round(), append(log, packet))
	found, ok := suggestion(r, "edges.blade.price")
	require.True(t, ok, "120 each, where the study has 80")
	assert.Equal(t, 6, found.Count, "four in place of old ones, and two in a packet")
	assert.InDelta(t, 120, found.New, 1e-9)
	assert.Equal(t, track.OfPurchases, found.Ground)
}

func TestASuggestedSharpeningCountsTheOnesWhoseCostWasWritten(t *testing.T) {
	log := sharpened(7, 0)
	for i := 2; i < 6; i += 2 {
		log[i].Given, log[i].Amount = 0, 0
	}
	log[6].Amount = 91
	r := taken(t, studygen.Round(), log)
	found, ok := suggestion(r, "edges.knives.sharpening_price")
	require.True(t, ok)
	assert.Equal(t, 5, found.Count, "of seven, two have no amount")
	assert.InDelta(t, 7, worn(t, r, "edges.knives").Sharpened, 0)
	assert.InDelta(t, 90.2-20, found.New, 1e-9, "the mean of 91 and four at 90, without the errand")
}

func TestALineInAnotherMeasureIsLeftOutOnce(t *testing.T) {
	other := end(3, "2", logbook.Dull)
	other.Area, other.Given = 3, logbook.HasArea
	inUse := use(4, "1", 0)
	inUse.Hours, inUse.Given = 3600, logbook.HasHours
	r := taken(t, studygen.Round(), []logbook.Entry{buy(0, "1", 80), use(1, "1", 50), other, inUse})
	assert.Equal(t, []track.LeftOut{{Lines: 2, Why: "its run is in another measure than the lines before it"}}, r.LeftOut)
	assert.InDelta(t, 50, r.Wear[0].Run, 0)
	assert.Zero(t, r.Wear[0].Ended)
	assert.InDelta(t, 1, r.Wear[0].Going, 0)
}

func TestARunIsCountedInTheFirstMeasureThatTheLineHas(t *testing.T) {
	line := use(1, "1", 50)
	line.Area, line.Hours, line.Given = 3, 3600, logbook.HasLength|logbook.HasArea|logbook.HasHours
	assert.InDelta(t, 50, bladeOf(t, line).Run, 0)
	line.Given = logbook.HasArea | logbook.HasHours
	assert.InDelta(t, 3, bladeOf(t, line).Run, 0)
	line.Given = logbook.HasHours
	assert.InDelta(t, 3600, bladeOf(t, line).Run, 0)
}

// The run on the line that ends a life counts where no use was written, and where one was
// it does not count twice.
func TestTheRunOnTheLastLineIsNotCountedBesideTheUse(t *testing.T) {
	last := end(2, "1", logbook.Dull)
	last.Length, last.Given = 210, logbook.HasLength
	blade := bladeOf(t, buy(0, "1", 80), use(1, "1", 190), last)
	assert.InDelta(t, 190, blade.Run, 0)
	require.Len(t, blade.Curve, 1)
	assert.InDelta(t, 190, blade.Curve[0].Run, 0)
}

func TestALineBehindAnyLaterDateIsCounted(t *testing.T) {
	left := taken(t, studygen.Round(), []logbook.Entry{done(5), done(3), done(4), done(5)}).LeftOut
	require.Len(t, left, 1)
	assert.Equal(t, 2, left[0].Lines, "the third of the month and the fourth stand behind the fifth")
}

func TestOneLineBehindALaterDateIsTold(t *testing.T) {
	left := taken(t, studygen.Round(), []logbook.Entry{done(5), done(3), done(5)}).LeftOut
	require.Len(t, left, 1)
	assert.Equal(t, 1, left[0].Lines)
}

func TestAnAbrasiveIsNotSharpened(t *testing.T) {
	line := logbook.Entry{Date: on(0), Kind: logbook.Sharpen, Subject: "disc80", Jobs: 1, Reason: logbook.Dull}
	r := taken(t, studygen.Round(), []logbook.Entry{line})
	assert.Equal(t, []track.LeftOut{{Lines: 1, Why: "the study has no such edge or abrasive, or it is none to be sharpened"}}, r.LeftOut)
	assert.Empty(t, r.Wear)
}

// A disc costs 0.60 in the study; of the one in use, its part of the life.
func TestAnAbrasiveCostsThePriceOfTheStudyWhereNoneWasBought(t *testing.T) {
	disc := worn(t, taken(t, studygen.Round(), over("disc80", logbook.HasArea,
		use(0, "", 1), end(1, "", logbook.Dull), use(2, "", 1.3), end(3, "", logbook.Dull), use(4, "", 0.5))), "abrasives.disc80")
	assert.InDelta(t, 2*0.60+0.5/disc.Belief.Mean*0.60, disc.Paid, 1e-9)
	assert.InDelta(t, 0.60/1.2, disc.StudyCost, 1e-12)
	assert.InDelta(t, 2.8, disc.Run, 1e-12)
	assert.Equal(t, track.ByArea, disc.Measure)
	assert.InDelta(t, 1, disc.Ended, 0)
	assert.InDelta(t, 1, disc.LeftOut, 0)
	assert.InDelta(t, 2, disc.Replaced, 0)
	assert.Zero(t, disc.Price)
	assert.Zero(t, disc.Sharpening)
}

// A line that names its job counts by that job's wood, whatever the mix: of 60 and 60 m
// on the wood of half the life, and 60 m in plain hardwood, 300 m.
func TestARunWithItsJobCountsByThatJobsWood(t *testing.T) {
	s := mixed(60, func(kind *model.JobType) { only(kind, "cut", "edge") })
	top, other, none := use(1, "1", 60), use(2, "1", 60), use(3, "1", 60)
	top.Job, other.Job, none.Job = "top", "other", "top"
	blade := worn(t, taken(t, s, []logbook.Entry{buy(0, "1", 80), top, other, none, end(4, "1", logbook.Dull)}), "edges.blade")
	require.Len(t, blade.Curve, 1)
	assert.InDelta(t, 60+120+60, blade.Curve[0].Run, 1e-9)
	assert.InDelta(t, 80.0/200*240/180, blade.StudyCost, 1e-12, "0.40 a metre in plain hardwood, 240 m for the 180")
	mixed := worn(t, taken(t, s, []logbook.Entry{buy(0, "1", 80), use(1, "1", 60), end(4, "1", logbook.Dull)}), "edges.blade")
	assert.InDelta(t, 60*(1+3/0.5)/4, mixed.Curve[0].Run, 1e-9)
}

// Three sharpenings are four lives, and the fourth ends with the knives: 90 for each, and
// the 160 by quarters. Spent before, they have cost what is left.
func TestKnivesAreUsedUpByTheirLives(t *testing.T) {
	log := sharpened(3, 2500)
	log = append(log, knives(end(20, "a", logbook.Spent)), knives(use(21, "a", 900)))
	w := worn(t, taken(t, studygen.Round(), log), "edges.knives")
	assert.InDelta(t, 3*90+160+900/w.Belief.Mean*(160.0/4+90), w.Paid, 1e-9, "the new ones cost what the old ones did")
	assert.InDelta(t, 3, w.Sharpened, 0)
	assert.InDelta(t, 3, w.Priced, 0)
	assert.InDelta(t, 1, w.Replaced, 0)
	assert.InDelta(t, 4, w.Ended, 0)
	assert.InDelta(t, 3*3000+2500+900, w.Run, 0)
}

func TestWhatEndedWithoutARunHasNoPartInWhatEndsCost(t *testing.T) {
	var log []logbook.Entry
	for life := range 4 {
		log = append(log, buy(3*life, "1", 80), use(3*life+1, "1", 200), end(3*life+2, "1", logbook.Dull))
	}
	cost := bladeOf(t, log...).Cost
	idle := bladeOf(t, append(log, buy(12, "1", 900), end(13, "1", logbook.Dull))...).Cost
	require.True(t, cost.Known)
	assert.Equal(t, cost, idle)
}

func TestADiscCostsItsOwnPriceThoughItIsUnderOne(t *testing.T) {
	disc := worn(t, taken(t, studygen.Round(), over("disc80", logbook.HasArea,
		buy(0, "1", 0.50), buy(0, "2", 0.90), use(1, "1", 1), end(2, "1", logbook.Dull))), "abrasives.disc80")
	assert.InDelta(t, 0.50, disc.Paid, 1e-12)
	assert.InDelta(t, 0.70, disc.Price.Value, 1e-12)
}
