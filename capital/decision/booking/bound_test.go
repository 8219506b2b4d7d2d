package booking

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
	"shopstint/rental"
	"shopstint/rental/visitplan"
)

// tops is the study in round figures with so many dated tops, as one group.
func tops(jobs int) (*model.Study, *group) {
	s := studygen.Round()
	g := &group{kinds: []alternative.Errand{alternative.ErrandOf(s, work.New(s), make([]bool, len(s.Machines)), 0)}}
	for range jobs {
		g.jobs = append(g.jobs, visitplan.Job{Ready: 1, Due: 30})
	}
	return s, g
}

// By hand, from the study in round figures. Setting up and changing grits take a visit
// 10 + 8 + 4 × 6 = 42 min, and each top 16.2 min on the planer and 23.8 min on the belt:
// 40 min. At 150 an hour of shop and two own people at 60, the 42 min cost 105 + 84; the way
// costs 40 km × 0.5 and two people for an hour: 329 for any visit. A top adds 100 of shop, 80
// of own time, 40 of the time that two people load it for 20 min, and 20 for two helpers
// that do too: 240. Thirty cents are allowed for rounding.
func TestTheBoundIsWhatAnyVisitAndEachJobCostByHand(t *testing.T) {
	s, g := tops(3)
	sought := visitplan.Problem{Jobs: g.jobs}
	bound(s, g, &sought)
	assert.InDelta(t, 329-2*0.30, sought.Floor.Visit, 1e-9)
	for _, job := range sought.Jobs {
		assert.InDelta(t, 240-0.30, job.Linear, 1e-9)
		assert.InDelta(t, 40*60, job.Load, 1e-9)
	}
	assert.InDelta(t, (8*60-42)*60, sought.Capacity, 1e-9, "of the day of eight hours, what is every job's own")
}

// What is fixed in a visit is the least over the kinds, and what the day holds the most.
func TestOfTwoKindsTheBoundTakesTheLeastOfWhatAVisitShares(t *testing.T) {
	s, g := tops(1)
	rough := g.kinds[0]
	rough.Changes = nil // 24 min less, at 2.50 of shop and 2.00 of own time: 108 less
	g.kinds = append(g.kinds, rough)
	g.jobs = append(g.jobs, visitplan.Job{Ready: 1, Due: 30, Kind: 1})
	for range 2 {
		sought := visitplan.Problem{Jobs: g.jobs}
		bound(s, g, &sought)
		assert.InDelta(t, 329-108-0.60, sought.Floor.Visit, 1e-9)
		assert.InDelta(t, (8*60-18)*60, sought.Capacity, 1e-9)
		g.kinds[0], g.kinds[1] = g.kinds[1], g.kinds[0]
	}
}

func TestAFloorIsNeverBelowNothing(t *testing.T) {
	s, g := tops(2)
	s.Studio.LabourRate, s.Studio.HelperRate, s.Studio.Vehicle.Cost, s.Shops[0].Tariff.HourlyRate = 0, 0, 0, 0
	sought := visitplan.Problem{Jobs: g.jobs}
	bound(s, g, &sought)
	assert.Zero(t, sought.Floor.Visit)
	assert.Zero(t, sought.Jobs[0].Linear)
	s.Shops[0].Tariff.Day = quantity.Minutes(30) // less than the 42 min that every visit takes
	bound(s, g, &sought)
	assert.Zero(t, sought.Capacity)
}

// The eased tariff charges every minute at the least rate that any way to buy time comes to:
// 480 for a half day of 4 h are 120 an hour, 880 for a day of 8 h are 110.
func TestAnEasedHourIsAtTheLeastOfAllRates(t *testing.T) {
	for _, row := range []struct {
		name                 string
		half, day            quantity.Money
		clock, planer, other quantity.MoneyPerHour
	}{
		{"no half day and no day", 0, 0, 150, 90, 115},
		{"a half day", 480, 0, 120, 90, 115},
		{"a day", 0, 880, 110, 90, 110},
		{"both", 480, 880, 110, 90, 110},
		{"a half day for one", 1, 0, 0.25, 0.25, 0.25},
		{"a day for one", 0, 1, 0.125, 0.125, 0.125},
	} {
		s := studygen.Round()
		s.Shops[0].Tariff.HalfDayPrice, s.Shops[0].Tariff.DayPrice = row.half, row.day
		s.Shops[0].Machines[1].HourlyRate = 115
		eased := ease(s, 0)
		tariff := &eased.Shops[0].Tariff
		assert.InDelta(t, float64(row.clock), float64(tariff.HourlyRate), 1e-9, row.name)
		assert.InDelta(t, float64(row.planer), float64(eased.Shops[0].Machines[0].HourlyRate), 1e-9, row.name)
		assert.InDelta(t, float64(row.other), float64(eased.Shops[0].Machines[1].HourlyRate), 1e-9, row.name)
		for _, minutes := range []quantity.Duration{0.02, 0.5, 61, 30000} {
			assert.InDelta(t, float64(minutes), float64(rental.Block(tariff, minutes)), 1e-9, "%s: neither a least time nor steps", row.name)
		}
		assert.InDelta(t, 150, float64(s.Shops[0].Tariff.HourlyRate), 0, "the study stays as it is")
		trip := rental.Trip{Shop: &eased.Shops[0], Uses: []rental.Use{{Minutes: 600 * 3600}, {}}, Jobs: 1, JobMass: 5000}
		visit := rental.Price(&eased.Studio, eased.Money, trip, rental.Membership{})
		assert.Equal(t, rental.ByBlock, visit.By, row.name)
		assert.InDelta(t, 1, visit.RoundTrips, 0, "%s: one way there for ten loads of the vehicle", row.name)
	}
}

// No visit that can be costs less than its floor, or holds more than the capacity.
func TestNoVisitOfAStudyIsBelowItsFloorOrBeyondItsCapacity(t *testing.T) {
	for _, change := range []func(*model.Tariff){
		func(*model.Tariff) {},
		func(tariff *model.Tariff) { tariff.HalfDayPrice, tariff.DayPrice = 480, 880 },
		func(tariff *model.Tariff) { tariff.MinimumBlock, tariff.Increment = 0, 1 },
		func(tariff *model.Tariff) {
			tariff.SalesTax, tariff.ResinSupplement, tariff.OperatorRate = 0.07, 0.5, 20
		},
		func(tariff *model.Tariff) { tariff.Basis = model.PerMachine },
	} {
		s, g := tops(1)
		s.Shops[0].Cleaning = quantity.Minutes(6)
		change(&s.Shops[0].Tariff)
		rough := g.kinds[0]
		rough.Changes = nil
		g.kinds, g.jobs = append(g.kinds, rough), append(g.jobs, visitplan.Job{Ready: 1, Due: 30, Kind: 1})
		sought, at := visitplan.Problem{Jobs: g.jobs}, newPrice(s, g)
		bound(s, g, &sought)
		held := 0
		for first := range 12 {
			for second := range 12 - first {
				contents, least, load := uint64(0), sought.Floor.Visit, 0.0
				for kind, count := range []int{first, second} {
					for range count {
						contents = at.Add(contents, kind)
						least, load = least+sought.Jobs[kind].Linear, load+sought.Jobs[kind].Load
					}
				}
				if cost := at.Of(contents); first+second > 1 && !math.IsInf(cost, 1) {
					held++
					assert.LessOrEqual(t, least, cost, "%d and %d", first, second)
					assert.LessOrEqual(t, load, sought.Capacity*(1+1e-9), "%d and %d", first, second)
				}
			}
		}
		require.Greater(t, held, 20)
	}
}

// By hand: with no minimum and by the second, eleven tops fill 82 + 10 × 40 = 482 min.
func TestTwoJobsOrMoreThatTheDayDoesNotHoldAreNoVisit(t *testing.T) {
	s, g := tops(1)
	s.Shops[0].Tariff.MinimumBlock, s.Shops[0].Tariff.Increment, s.Studio.Vehicle.Payload = 0, 1, 5000
	at := newPrice(s, g)
	assert.Zero(t, at.Of(0), "an empty visit")
	contents := uint64(0)
	for jobs := 1; jobs <= 12; jobs++ {
		contents = at.Add(contents, 0)
		if jobs > 10 {
			assert.True(t, math.IsInf(at.Of(contents), 1), "%d", jobs)
			continue
		}
		assert.InDelta(t, 329+240*float64(jobs), at.Of(contents), 1e-9, "%d", jobs)
	}
	s.Shops[0].Tariff.Day = quantity.Minutes(122)
	exact := newPrice(s, g)
	two := exact.Add(exact.Add(0, 0), 0)
	assert.InDelta(t, 809, exact.Of(two), 1e-9, "a day that two tops just fill")
	s.Shops[0].Tariff.Day = quantity.Minutes(121)
	less := newPrice(s, g)
	assert.True(t, math.IsInf(less.Of(less.Add(less.Add(0, 0), 0)), 1), "a minute less")
	s.Shops[0].Tariff.Day = quantity.Minutes(60)
	short := newPrice(s, g)
	assert.InDelta(t, 569, short.Of(short.Add(0, 0)), 1e-9, "one job alone is a visit, however long")
}

func TestTheSameJobsInAnyOrderAreOneContents(t *testing.T) {
	_, g := tops(1)
	g.kinds = append(g.kinds, g.kinds[0], g.kinds[0])
	at := newPrice(studygen.Round(), g)
	add := func(kinds ...int) uint64 {
		contents := uint64(0)
		for _, kind := range kinds {
			contents = at.Add(contents, kind)
		}
		return contents
	}
	for _, other := range [][]int{{0, 1, 1, 2}, {2, 1, 0, 1}, {1, 2, 1, 0}, {1, 1, 2, 0}} {
		assert.Equal(t, add(2, 1, 1, 0), add(other...), "%v", other)
	}
	assert.NotEqual(t, add(0, 1), add(0, 2))
	assert.NotEqual(t, add(0, 1), add(0, 1, 1))
	assert.NotEqual(t, add(0), add(1))
}

func TestOnlyWhatIsMoreThanTheLastDigitIsBeyondALimit(t *testing.T) {
	tenth, fifth := 0.1, 0.2 // a sum of constants would be exact
	for _, row := range []struct {
		size, limit float64
		want        bool
	}{{0.3, tenth + fifth, false}, {tenth + fifth, 0.3, false}, {2, 3, false}, {3 + 0.4e-9, 3, false}, {3 + 1e-9, 3, true}, {3.5, 3, true}} {
		assert.Equal(t, row.want, beyond(row.size, row.limit), "%v of %v", row.size, row.limit)
	}
}
