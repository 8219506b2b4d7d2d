package ways_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// worked is the study in round figures, which pays 60 an hour and discounts at 10 %, with one
// comparison of ways in oak that is fed at four fifths and wears edges and abrasives twice and
// four times as fast. Source of the examples below: common practice, no source.
func worked(comparison model.Comparison) *model.Study {
	s := studygen.Round()
	comparison.Material = "oak"
	s.Materials[0].FeedFactor, s.Materials[0].EdgeLife, s.Materials[0].AbrasiveLife = 0.8, 0.25, 0.5
	s.Edges = append(s.Edges, model.Edge{Key: "bit", Price: 30, Life: 100, Sharpenings: 1, SharpeningPrice: 8, Errand: 2, ChangeTime: quantity.Minutes(6)})
	s.Abrasives = append(s.Abrasives,
		model.Abrasive{Key: "coarse", Price: 6, Life: 10, ChangeTime: quantity.Minutes(2)},
		model.Abrasive{Key: "fine", Price: 9, Life: 30, ChangeTime: quantity.Minutes(3), DullFeed: 0.2})
	s.Comparisons = []model.Comparison{comparison}
	return s
}

// along is a way along the length with every figure that a way can have.
func along() model.Way {
	return model.Way{
		Edge: "bit", Passes: 2, LifeFactor: 2, Feed: quantity.MetresPerMinute(2), PieceTime: quantity.Minutes(10), Spares: 2,
		ReworkShare: 0.1, ReworkTime: quantity.Minutes(20), ReworkCost: 15, ReworkWait: quantity.Hours(5),
		Price: 110, YearsKept: 1, YearlyUpkeep: 3,
	}
}

// By hand, for 100 m a year in pieces of 5 m. An edge lasts twice 100 m for 30 and a sharpening
// of 10: 0.20 a metre, of which two passes at twice a quarter of the life take 0.80, and
// 2 × 2 ÷ 200 ÷ 0.5 changes. Two passes at 2 m/min and four fifths take 1.25 min. A piece takes
// 10 min, and a tenth of 20 min, 5 h and 15 for its rework. What is bought for 110 and kept a
// year takes 121 back; two edges of 30 in the drawer would earn 6.
func TestAWayAlongTheLengthByHand(t *testing.T) {
	s := worked(model.Comparison{YearlyLength: 100, PieceLength: 5, WaitingRate: 4, Ways: []model.Way{along(), along()}})
	w := ways.Compare(s)[0].Ways[0]
	for _, row := range []struct {
		name      string
		want, got float64
	}{
		{"wear of a metre in plain hardwood", 0.20, w.WearPlain},
		{"life", 0.5, w.Lasts},
		{"slowing", 1, w.Slowing},
		{"changes", 0.04, w.Changes},
		{"running", 1.25, w.Running},
		{"changing", 0.24, w.Change},
		{"setting up", 2, w.Setting},
		{"rework", 0.4, w.Again},
		{"minutes", 3.89, w.Minutes()},
		{"what a rework uses up", 0.3, w.Repair},
		{"hours of waiting", 0.1, w.Wait},
		{"wear in this work", 0.80, w.PerUnit[ways.Wear]},
		{"labour", 3.89, w.PerUnit[ways.Labour]},
		{"energy", 0, w.PerUnit[ways.Energy]},
		{"rework and 0.1 h at 4", 0.7, w.PerUnit[ways.Rework]},
		{"what is kept", 1.30, w.PerUnit[ways.Equipment]},
		{"a unit", 6.69, w.Unit()},
		{"fixed: 121 + 6 + 3", 130, w.Line.Fixed},
		{"and by the unit", 5.39, w.Line.Unit},
		{"a year", 669, w.Yearly},
		{"laid out: 110 + 60 and the first edge", 200, w.Outlay},
		{"running hours", 125.0 / 60, w.Hours},
		{"own hours", 389.0 / 60, w.Own},
		{"days of waiting", 10.0 / 24, w.Waited},
	} {
		assert.InDelta(t, row.want, row.got, 1e-9, row.name)
	}
}

// By hand: 40 m² a year at 3 min, two passes of each. Abrasives last half of what they are
// given for; the fine one loses a fifth of its pace by the end, which is an eighth more time in
// the mean, and it is one of two.
func TestAWayOverTheAreaByHand(t *testing.T) {
	over := model.Way{Abrasives: []string{"coarse", "fine"}, Passes: 2, LifeFactor: 1, AreaTime: quantity.AreaTime(180), Spares: 1}
	s := worked(model.Comparison{YearlyArea: 40, Ways: []model.Way{over, {Passes: 1, LifeFactor: 1, AreaTime: quantity.AreaTime(240)}}})
	r := ways.Compare(s)[0]
	w, bare := r.Ways[0], r.Ways[1]
	assert.InDelta(t, 6.0/10+9.0/30, w.WearPlain, 1e-9)
	assert.InDelta(t, 2*0.9/0.5, w.PerUnit[ways.Wear], 1e-9)
	assert.InDelta(t, 2/10.0/0.5+2/30.0/0.5, w.Changes, 1e-9)
	assert.InDelta(t, 2*2/10.0/0.5+3*2/30.0/0.5, w.Change, 1e-9)
	assert.InDelta(t, (1+1.125)/2, w.Slowing, 1e-3)
	assert.InDelta(t, 3*w.Slowing, w.Running, 1e-9)
	assert.InDelta(t, 15, w.Kept.Stock, 1e-9)
	assert.InDelta(t, 30, w.Outlay, 1e-9, "one set at work and one in the drawer")
	assert.InDelta(t, 1, bare.Slowing, 0, "without an abrasive nothing gets dull")
	assert.InDelta(t, 4, bare.Running, 1e-9)
	assert.Zero(t, w.Setting+w.Again+w.Repair+w.Wait, "not told in pieces")

	s.Comparisons[0].Ways[0].Abrasives = []string{"fine"}
	assert.InDelta(t, 1.125, ways.Compare(s)[0].Ways[0].Slowing, 1e-3, "one alone")
}

// By hand, for a planer of 4000 that is kept three years in which 7/10, 9/10 and 9/10 of its
// worth are left: 2268. With a tax of 5 %, 120 of freight, 80 in and 68 out, and 300 of wiring of
// which half comes back. Its upkeep of 160 rises by a tenth a year. On the mean of 4000 and
// 2268 it pays 3 %, 25 for a permit, 100 for each square metre of half of 13.2 m by 2.8 m, 10 for
// each of 2.3 kW in three months, and 5 minutes of care a month.
func TestAMachineThatIsKeptByHand(t *testing.T) {
	one := along()
	one.Machine = "planer_own"
	s := worked(model.Comparison{YearlyLength: 100, PieceLength: 5, Ways: []model.Way{one, along()}})
	s.Studio.DemandCharge = 10
	m := &s.Machines[0]
	m.SalesTax, m.Delivery, m.Rigging, m.RiggingOut, m.Wiring, m.FixturesResale = 0.05, 120, 80, 68, 300, 0.5
	m.UpkeepRise, m.Insurance, m.PropertyTax, m.YearlyOther = 0.1, 0.02, 0.01, 25
	m.FootprintLength, m.FootprintWidth, m.FloorShare = 2, 1, 0.5
	m.Motor, m.DemandMonths, m.CarePerMonth = 2300, 3, quantity.Minutes(5)
	w := ways.Compare(s)[0].Ways[0]
	k := w.Kept
	assert.InDelta(t, 4200+120+80+300, k.Paid, 1e-9)
	assert.InDelta(t, 2268-68+150, k.Back, 1e-9)
	assert.InDelta(t, 3, k.Years, 0)
	assert.InDelta(t, (160+176+193.6)/3, k.Upkeep, 1e-9)
	assert.InDelta(t, 3134*0.03+25+18.48*100+69+60, k.Housing, 1e-9)
	assert.InDelta(t, (4700-2350/1.331)*0.1331/0.331, k.Recovery, 1e-9, "A/P of 10 % and 3 years")
	assert.InDelta(t, k.Recovery+k.Upkeep+k.Housing+6, k.Yearly(), 1e-9)
	assert.InDelta(t, 4700+60+30, w.Outlay, 1e-9)

	// Accumulated: 0.007 of the price times the square of the thousands of hours so far.
	m.Upkeep = model.UpkeepAccumulated
	again := ways.Compare(s)[0].Ways[0]
	assert.InEpsilon(t, 4000*0.007*9*again.Hours*again.Hours/1e6/3, again.Kept.Upkeep, 1e-9)
}

// A motor of 2.3 kW at half load and 0.20 a kilowatt-hour costs 0.23 an hour of running.
func TestTheEnergyAndTheCareOfAMachineGoWithItsRunning(t *testing.T) {
	one := along()
	one.Machine = "planer_own"
	s := worked(model.Comparison{YearlyLength: 100, PieceLength: 5, Ways: []model.Way{one, along()}})
	s.Machines[0].Motor, s.Machines[0].CareShare = 2300, 0.5
	w := ways.Compare(s)[0].Ways[0]
	assert.InDelta(t, 0.23, w.Power, 1e-9)
	assert.InDelta(t, 1.25/60*0.23, w.PerUnit[ways.Energy], 1e-9)
	assert.InDelta(t, 1.25*1.5+0.24+2+0.4, w.Minutes(), 1e-9)
	assert.InDelta(t, 0.3, w.PerUnit[ways.Rework], 1e-9, "waiting has no price here")
}

// priced is a way that costs so much a year for 10 m, nothing of it fixed: its time is all by
// the piece of a metre, at one money a minute.
func priced(yearly float64) model.Way {
	return model.Way{Passes: 1, LifeFactor: 1, PieceTime: quantity.Minutes(yearly / 10), YearsKept: 1}
}

func TestTheTwoBestAreFoundInAnyOrderAndTheEarlierOfEquals(t *testing.T) {
	for _, row := range []struct {
		yearly     []float64
		best, next int
		saving     float64
		near       bool
	}{
		{[]float64{100, 200, 300}, 0, 1, 100, false},
		{[]float64{200, 100, 300}, 1, 0, 100, false},
		{[]float64{300, 200, 100}, 2, 1, 100, false},
		{[]float64{100, 300, 200}, 0, 2, 100, false},
		{[]float64{200, 300, 100}, 2, 0, 100, false},
		{[]float64{100, 100, 100}, 0, 1, 0, true},
		{[]float64{200, 100, 100}, 1, 2, 0, true},
		{[]float64{100, 200, 200}, 0, 1, 100, false},
		{[]float64{191, 200}, 0, 1, 9, true}, // 5 % of 200 are 10
		{[]float64{189, 200}, 0, 1, 11, false},
		{[]float64{0, 0}, 0, 1, 0, true},
	} {
		comparison := model.Comparison{YearlyLength: 10, PieceLength: 1}
		for _, yearly := range row.yearly {
			comparison.Ways = append(comparison.Ways, priced(yearly))
		}
		r := ways.Compare(worked(comparison))[0]
		for i, yearly := range row.yearly {
			require.InDelta(t, yearly, r.Ways[i].Yearly, 1e-9)
		}
		assert.Equal(t, []int{row.best, row.next}, []int{r.Best, r.Next}, "%v", row.yearly)
		assert.InDelta(t, row.saving, r.Saving(), 1e-9, "%v", row.yearly)
		assert.Equal(t, row.near, r.Close, "%v", row.yearly)
	}
}

// By hand: what is bought for 300 spares 20 of 50 a metre, and asks 40 of upkeep a year where the
// other asks 10. At 10 m a year it saves 200 − 30: the 300 are back after 300 ÷ 170 years.
func TestWhatIsLaidOutComesBackFromWhatAYearSavesBeforeRecovery(t *testing.T) {
	for _, price := range []quantity.Money{300, 0.5} {
		dear, cheap := priced(300), priced(500)
		dear.Price, dear.YearlyUpkeep, cheap.YearlyUpkeep = price, 40, 10
		for _, order := range [][]model.Way{{dear, cheap}, {cheap, dear}} {
			s := worked(model.Comparison{YearlyLength: 10, PieceLength: 1, Ways: order})
			pair := ways.Compare(s)[0].Pairs[0]
			assert.Equal(t, price, order[pair.Dearer].Price)
			assert.InDelta(t, float64(price), pair.More, 1e-9)
			assert.True(t, pair.Repaid)
			assert.InDelta(t, 10*float64(price)/170, pair.RepayAt, 1e-9)
		}
	}
	little, hardly := priced(499.5), priced(500)
	little.Price = 3
	pair := ways.Compare(worked(model.Comparison{YearlyLength: 10, PieceLength: 1, Ways: []model.Way{little, hardly}}))[0].Pairs[0]
	assert.InDelta(t, 10*3/0.5, pair.RepayAt, 1e-6, "half a unit of money a year")
}

// The housing of a machine, here its insurance, counts as its upkeep does, on either side. The
// belt sander is the dearer of the two machines.
func TestHousingIsTakenFromWhatAMachineSaves(t *testing.T) {
	dear, cheap := priced(3000), priced(5000)
	dear.Machine, cheap.Machine = "belt_own", "planer_own"
	for _, order := range [][]model.Way{{dear, cheap}, {cheap, dear}} {
		s := worked(model.Comparison{YearlyLength: 10, PieceLength: 1, Ways: order})
		s.Machines[0].Insurance, s.Machines[1].Insurance = 0.02, 0.03
		r := ways.Compare(s)[0]
		pair := r.Pairs[0]
		assert.Equal(t, dear.Machine, order[pair.Dearer].Machine)
		sander, planer := r.Ways[pair.Dearer].Kept, r.Ways[1-pair.Dearer].Kept
		require.Positive(t, planer.Housing)
		require.Greater(t, sander.Housing, planer.Housing)
		saved := 2000 - (sander.Housing - planer.Housing) - (sander.Upkeep - planer.Upkeep)
		assert.InDelta(t, 10*(sander.Paid-planer.Paid)/saved, pair.RepayAt, 1e-9)
	}
}

func TestWhatSavesNothingIsNeverRepaid(t *testing.T) {
	for _, upkeep := range []quantity.Money{100, 120} {
		dear, cheap := priced(400), priced(500)
		dear.Price, dear.YearlyUpkeep = 300, upkeep
		pair := ways.Compare(worked(model.Comparison{YearlyLength: 10, PieceLength: 1, Ways: []model.Way{dear, cheap}}))[0].Pairs[0]
		assert.Equal(t, 0, pair.Dearer)
		assert.False(t, pair.Repaid)
		assert.Zero(t, pair.RepayAt)
	}
}

// Fixed costs of 110 and 5 a metre against 20 a metre cross at 110 ÷ 15 m; a metre of the first runs
// 0.625 min: one pass at 2 m/min and four fifths.
func TestABreakEvenIsToldInHoursOfTheWayThatIsCheaperAbove(t *testing.T) {
	bought, hand := priced(5*10-6.25), priced(200)
	bought.Price, bought.Feed = 100, quantity.MetresPerMinute(2)
	for _, order := range [][]model.Way{{bought, hand}, {hand, bought}} {
		pair := ways.Compare(worked(model.Comparison{YearlyLength: 10, PieceLength: 1, Ways: order}))[0].Pairs[0]
		require.Equal(t, ways.Crossing, pair.Outcome)
		assert.InDelta(t, 110.0/15, pair.At, 1e-9)
		assert.Equal(t, bought.Price, order[pair.Above].Price)
		assert.Zero(t, order[pair.Below].Price)
		assert.InDelta(t, 110.0/15*0.625/60, pair.Hours, 1e-9)
	}
}
