package capital_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// level is the same work every year.
func level(years int, hours, ownHours, wear float64) capital.Profile {
	profile := capital.Profile{Longest: 2.4}
	for range years {
		profile.Hours = append(profile.Hours, hours)
		profile.OwnHours = append(profile.OwnHours, ownHours)
		profile.Wear = append(profile.Wear, wear)
	}
	return profile
}

// Three years of a planer for 4000. Source: common practice, no source; every
// number is worked out beside its line.
func TestThreeYearsOfOwningWorkedByHand(t *testing.T) {
	s := studygen.Round()
	s.Studio.TaxRate, s.Growth.Upkeep = 0.25, 0.05
	m := &s.Machines[0]
	m.SalesTax, m.Delivery, m.Rigging, m.RiggingOut, m.Wiring, m.FixturesResale = 0.05, 300, 200, 100, 500, 0.10
	m.Training, m.TrainingTime, m.LearningShare = 100, quantity.Hours(2), 0.10
	m.Insurance, m.CareShare, m.CarePerMonth = 0.02, 0.10, quantity.Minutes(30)
	m.Motor, m.FootprintLength, m.FootprintWidth, m.FloorShare = quantity.Kilowatts(4), 1.4, 1.1, 0.5
	m.Tax.Method, m.Loan = model.TaxStraightLine, model.Loan{Share: 0.5, Months: 24}

	owned := capital.Own(s, m, level(3, 20, 20, 50))
	// (1.4 + 2 × (2.4 + 0.6)) × (1.1 + 2 × 0.9) m × 50 %.
	assert.InDelta(t, 10.73, owned.Area, 1e-9)
	for _, row := range []struct {
		line capital.Line
		want [4]float64
		why  string
	}{
		{capital.Age, [4]float64{0, 1, 2, 3}, "bought today, kept for the three years"},
		{capital.Value, [4]float64{4000, 2800, 2520, 2268}, "70 % after a year, 90 % of that each later year"},
		{capital.Running, [4]float64{0, 20, 20, 20}, "hours of own work"},
		{capital.Price, [4]float64{4000, 0, 0, 0}, ""},
		{capital.SalesTax, [4]float64{200, 0, 0, 0}, "5 % of 4000"},
		{capital.Moving, [4]float64{500, 0, 0, 0}, "300 + 200"},
		{capital.Fixtures, [4]float64{500, 0, 0, 0}, "the circuit"},
		{capital.Start, [4]float64{220, 0, 0, 0}, "100 and 2 h at 60"},
		{capital.Borrowed, [4]float64{-2000, 0, 0, 0}, "half of the price"},
		{capital.Interest, [4]float64{0, 0, 0, 0}, "at 0 %"},
		{capital.Principal, [4]float64{0, 1000, 1000, 0}, "24 payments of 83.33"},
		{capital.Owed, [4]float64{2000, 1000, 0, 0}, ""},
		{capital.Upkeep, [4]float64{0, 160, 168, 176.40}, "4 % of 4000, up 5 % a year"},
		{capital.Insurance, [4]float64{0, 80, 56, 50.40}, "2 % of 4000, 2800 and 2520"},
		{capital.Floor, [4]float64{0, 1073, 1073, 1073}, "10.73 m² × 100"},
		{capital.Energy, [4]float64{0, 8, 8, 8}, "20 h × 4 kW × 50 % × 0.20"},
		{capital.Wear, [4]float64{0, 50, 50, 50}, ""},
		{capital.OwnTime, [4]float64{0, 1200, 1200, 1200}, "20 h at 60"},
		{capital.Care, [4]float64{0, 120, 120, 120}, "10 % of 20 h at 60"},
		{capital.Routine, [4]float64{0, 360, 360, 360}, "12 × 30 min at 60"},
		{capital.Learning, [4]float64{0, 120, 0, 0}, "10 % of 1200, in the first year"},
		{capital.Resale, [4]float64{0, 0, 0, -2268}, ""},
		{capital.RiggingOut, [4]float64{0, 0, 0, 100}, ""},
		{capital.FixturesBack, [4]float64{0, 0, 0, -50}, "10 % of 500"},
		{capital.Deducted, [4]float64{0, 5200.0 / 3, 5200.0 / 3, 5200.0 / 3}, "4000 + 200 + 500 + 500 in three equal parts"},
		{capital.Book, [4]float64{0, 10400.0 / 3, 5200.0 / 3, 0}, ""},
		{capital.Gain, [4]float64{0, 0, 0, 2218}, "2268 + 50 − 100 − 0"},
		// 25 % of: 1733.33 + 3171 + 220; 1733.33 + 3035; 1733.33 + 3037.80 − 2218.
		{capital.Tax, [4]float64{0, -1281.0833, -1192.0833, -638.2833}, "relief"},
		// 3420; 1000 + 3171 − 1281.08; 1000 + 3035 − 1192.08; 3037.80 − 2268 + 100 − 50 − 638.28.
		{capital.Net, [4]float64{3420, 2889.9167, 2842.9167, 181.5167}, "sum"},
		{capital.Discount, [4]float64{1, 1 / 1.1, 1 / 1.21, 1 / 1.331}, "10 %"},
		{capital.Present, [4]float64{3420, 2627.1970, 2349.5179, 136.3762}, ""},
	} {
		for year, want := range row.want {
			assert.InDelta(t, want, owned.Table[row.line][year], 0.00005, "line %d in year %d: %s", row.line, year, row.why)
		}
	}
	assert.InDelta(t, 8533.0910, owned.Present, 0.00005, "3420 + 2627.1970 + 2349.5179 + 136.3762")
}

func TestAMachineIsReplacedAtItsYearsKept(t *testing.T) {
	s := studygen.Round()
	s.Studio.Horizon, s.Growth.Machines = 5, 0.10
	m := &s.Machines[0]
	m.YearsKept, m.Wiring, m.FixturesResale = 2, 500, 0.10
	m.Delivery, m.RiggingOut = 100, 50
	owned := capital.Own(s, m, level(5, 20, 20, 50))
	assert.Equal(t, []float64{0, 1, 2, 1, 2, 1}, owned.Table[capital.Age])
	// Bought at 4000, replaced at 4000 × 1.1² and × 1.1⁴.
	assert.InDeltaSlice(t, []float64{4000, 0, 4840, 0, 5856.4, 0}, owned.Table[capital.Price], 1e-9)
	assert.InDeltaSlice(t, []float64{100, 0, 121, 0, 146.41, 0}, owned.Table[capital.Moving], 1e-9)
	// 70 % × 90 % of the price after two years, 70 % after one at the horizon.
	assert.InDeltaSlice(t, []float64{0, 0, -2520, 0, -3049.2, -4099.48}, owned.Table[capital.Resale], 1e-9)
	assert.InDeltaSlice(t, []float64{0, 0, 50, 0, 50, 50}, owned.Table[capital.RiggingOut], 1e-9)
	// The circuit is paid once and left once.
	assert.InDeltaSlice(t, []float64{500, 0, 0, 0, 0, 0}, owned.Table[capital.Fixtures], 1e-9)
	assert.InDeltaSlice(t, []float64{0, 0, 0, 0, 0, -50}, owned.Table[capital.FixturesBack], 1e-9)
}

func TestAMachineThatIsPutAwayTakesNoFloor(t *testing.T) {
	s := studygen.Round()
	s.Machines[0].FootprintWidth, s.Machines[0].FloorShare = 1, 1
	assert.Zero(t, capital.FloorArea(s, &s.Machines[0], 2.4))
}

func TestAccumulatedUpkeepFollowsTheHoursOfTheWholeLife(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.Upkeep, m.RepairFactor, m.RepairPower, m.Hours = model.UpkeepAccumulated, 0.1, 2, quantity.Hours(1000)
	hours := []float64{500, 500, 500}
	// 4000 × 0.1 × ((1.5)² − 1²), then (2² − 1.5²), then (2.5² − 2²).
	assert.InDelta(t, 500, capital.Repair(m, hours, 1, 1), 1e-9)
	assert.InDelta(t, 700, capital.Repair(m, hours, 2, 2), 1e-9)
	assert.InDelta(t, 900, capital.Repair(m, hours, 3, 3), 1e-9)
	assert.InDelta(t, 500, capital.Repair(m, hours, 3, 1), 1e-9, "a replacement begins where the first one did")
}

func TestTheValueOfAUsedMachineIsMeasuredFromItsAgeWhenBought(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.Age = 5
	assert.InDelta(t, 1, capital.ValueShare(m, 0, 0), 0)
	assert.InDelta(t, 0.9, capital.ValueShare(m, 1, 0), 1e-12, "past the first year it keeps 90 % a year")
	assert.InDelta(t, 0.81, capital.ValueShare(m, 2, 0), 1e-12)
	m.Age = 0.5 // 85 % at half a year, 70 % × 90 %^0.5 a year later
	assert.InDelta(t, 0.7*0.9486833/0.85, capital.ValueShare(m, 1, 0), 1e-6)
	m.Resale, m.ValueTable = model.ResaleTable, []quantity.Share{0.8, 0.5}
	assert.InDelta(t, 0.5, capital.ValueShare(m, 7, 0), 0, "the last row holds on")
}

func TestTheCostOfTheYearsKeptWorkedByHand(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.SalesTax, m.Delivery, m.Rigging, m.RiggingOut = 0.05, 300, 200, 100
	m.Wiring, m.Training, m.LearningShare = 500, 100, 0.5 // stay when it is replaced, or are behind
	m.HoursSold, m.SoldRate = quantity.Hours(100), 50     // come with any machine
	life := capital.EconomicLife(s, m, level(3, 20, 20, 0))
	// 4 % of 4000 and 20 h at 60.
	assert.InDeltaSlice(t, []float64{1360, 1360, 1360}, life.Operating, 1e-9)
	assert.InDeltaSlice(t, []float64{2700, 2420, 2168}, life.Value, 1e-9, "less 100 to move it out")
	// 4700 paid. One year: 4700 × 1.1 − 2700 + 1360. Two: 4700 × 0.576190 − 2420 × 0.476190 + 1360.
	// Three: 4700 × 0.402115 − 2168 × 0.302115 + 1360.
	assert.InDeltaSlice(t, []float64{3830, 2915.714, 2594.955}, life.Annual, 0.001)
	assert.Equal(t, 3, life.Best)
}

// Of a machine bought half a year old that has lost nothing yet and then half of its
// value each year, a half is left after a year and a half; one that was worth nothing
// when it was bought fetches nothing.
func TestAUsedMachinesValueIsAShareOfWhatItWasWorthWhenBought(t *testing.T) {
	used := model.Machine{Age: 0.5, FirstYearValue: 1, YearlyValue: 0.5}
	assert.InDelta(t, 0.5, capital.ValueShare(&used, 1.5, 100), 1e-12)
	used.Age, used.FirstYearValue = 1, 0.8
	assert.InDelta(t, 0.25, capital.ValueShare(&used, 2, 100), 1e-12, "0.8 × 0.25 of 0.8")
	used.YearlyValue, used.Age = 0, 3
	assert.Zero(t, capital.ValueShare(&used, 2, 100))
}
