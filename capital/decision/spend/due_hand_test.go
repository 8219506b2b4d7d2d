package spend_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/spend"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// belted is the round study with 20 jobs a year, or others, and a life of the first belt.
func belted(perYear quantity.Count, life quantity.Area) *model.Study {
	s := studygen.Round()
	s.JobTypes[0].PerYear = perYear
	s.Abrasives[model.Index(s.Abrasives, "belt80")].Life = life
	return s
}

func beltOf(t *testing.T, s *model.Study, options spend.Options) spend.Due {
	t.Helper()
	got := spent(s, spend.Always(s, []bool{true, true}), options)
	return dueOf(t, &got, "", "belt80", work.AtStudio)
}

// 8.64 m² a job. One job in twenty years runs 0.432 m² a year and falls due in none.
func TestABeltThatHardlyRunsIsStillFollowed(t *testing.T) {
	belt := beltOf(t, belted(0.05, 800), spend.Options{})
	assert.InDelta(t, 0.432, belt.Year, 1e-9)
	assert.Empty(t, belt.Days)
	assert.Equal(t, quantity.Date(""), belt.Renew)
}

// 1.44 m² a month, of a life that is a shade shorter: due on the last day of each.
func TestABeltSpentEveryMonthFallsDueInEach(t *testing.T) {
	belt := beltOf(t, belted(2, 1.4399), spend.Options{})
	require.Len(t, belt.Days, 12)
	assert.Equal(t, 12, belt.Renewals)
	for m, day := range belt.Days {
		last := time.Date(2026, time.Month(m+2), 0, 0, 0, 0, 0, time.UTC)
		assert.Equal(t, spend.DueDay{On: quantity.Date(last.Format(time.DateOnly)), Renew: true}, day)
		assert.Equal(t, spend.DueMonth{Renewals: 1}, belt.Months[m], "month %d", m)
	}
}

// 172.8 m² a year are 40 times 4.32: 24 days of them are listed.
func TestNoMoreThanMostDaysAreListed(t *testing.T) {
	belt := beltOf(t, belted(20, 4.3199), spend.Options{})
	assert.Equal(t, 40, belt.Renewals)
	assert.Len(t, belt.Days, spend.MostDays)
	assert.Equal(t, 24, spend.MostDays)
}

// Knives of 480 m run 384 m a year: dull after a year and a quarter. A belt that lasts
// half a year comes before them, and what outlasts the study comes last.
func TestWhatFallsDueFirstStandsFirst(t *testing.T) {
	s := belted(20, 86.4)
	s.Edges[0].Life, s.Edges[0].Sharpenings = 480, 0
	s.Edges[1].Life = 1e6
	got := spent(s, spend.Always(s, []bool{true, true}), spend.Options{})
	var dates []quantity.Date
	for _, due := range got.Due {
		if due.Sharpen != "" {
			dates = append(dates, due.Sharpen)
		} else {
			dates = append(dates, due.Renew)
		}
	}
	require.Greater(t, len(dates), 4)
	assert.Equal(t, []quantity.Date{"2026-07-01", "2027-04-01", ""}, dates[:3])
	for _, date := range dates[2:] {
		assert.Equal(t, quantity.Date(""), date)
	}
}

// Sharpened it is due when it is dull, though it is spent much later.
func TestAnEdgeIsDueWhenItIsDull(t *testing.T) {
	s := belted(20, 86.4)
	s.Edges[0].Life, s.Edges[0].Sharpenings = 96, 9 // a quarter of the year's 384 m
	got := spent(s, spend.Always(s, []bool{true, true}), spend.Options{})
	assert.Equal(t, quantity.Date("2026-04-01"), got.Due[0].Sharpen)
	assert.Equal(t, quantity.Date("2028-07-01"), got.Due[0].Renew, "ten lives of 96 m: two and a half years")
	assert.Equal(t, 4, got.Due[0].Sharpenings)
	assert.Equal(t, 0, got.Due[0].Renewals)
}

func TestALoanOfAMachineBoughtLaterEndsWithItsPaymentsOrItsSale(t *testing.T) {
	has, none := []bool{true, false}, []bool{false, false}
	for _, row := range []struct {
		owned  [][]bool
		months quantity.Count
		want   quantity.Date
	}{
		{[][]bool{none, has, has}, 18, "2028-06-30"},
		{[][]bool{none, has, has}, 24, "2028-12-31"},
		{[][]bool{none, has, has}, 30, "2028-12-31"},
		{[][]bool{none, has, none}, 18, "2027-12-31"},
		{[][]bool{has, has, none}, 30, "2027-12-31"},
	} {
		s := studygen.Round()
		s.Machines[0].Loan = model.Loan{Share: 0.5, APR: 0.06, Months: row.months}
		var ends []quantity.Date
		for _, event := range spent(s, row.owned, spend.Options{}).Events {
			if event.What == spend.PaidBack {
				ends = append(ends, event.On)
			}
		}
		assert.Equal(t, []quantity.Date{row.want}, ends, "%v months", row.months)
	}
}

// The second machine is bought first.
func TestEventsOfSeveralMachinesStandByTheirDays(t *testing.T) {
	s := floored(true)
	s.Machines[0].YearsKept, s.Machines[0].TrainingTime = 1, quantity.Hours(10)
	got := spent(s, [][]bool{{false, true}, {true, true}, {true, false}}, spend.Options{})
	type told struct {
		on      quantity.Date
		machine int
		fixture int
		what    string
		amount  float64
	}
	var list []told
	for _, event := range got.Events {
		list = append(list, told{event.On, event.Machine, event.Fixture, event.What, event.Amount})
	}
	assert.Equal(t, []told{
		{"2026-01-01", 1, -1, spend.Bought, 9000},
		{"2026-01-01", 1, 0, spend.Bought, 1200},
		{"2027-01-01", 0, -1, spend.Bought, 4000}, // ten hours of learning are not paid
		{"2027-12-31", 1, -1, spend.Parted, -9000 * 0.7 * 0.9},
		{"2028-01-01", 0, -1, spend.Replaced, 4000}, // what is traded in is not set against it,
	}, list)
}

// What is paid for a fixture later is set aside for as long as it stays.
func TestAFixtureBoughtLaterIsSetAsideForFromThen(t *testing.T) {
	s := studygen.Round()
	s.Machines[0].Wiring, s.Machines[0].FixturesResale = 720, 0.5
	got := spent(s, [][]bool{{false, false}, {true, false}, {true, false}}, spend.Options{})
	require.Len(t, got.Reserves, 2)
	assert.Equal(t, 3, got.Reserves[0].Years, "as long as the machine is kept")
	assert.Equal(t, spend.Reserve{Machine: 0, Fixture: -1, Own: true, Years: 2, Price: 720, Fetched: 360, Monthly: got.Reserves[1].Monthly}, got.Reserves[1])
	assert.InDelta(t, 15, got.Reserves[1].Monthly, 1e-9, "360 over 24 months")
}

// All of the year's work comes in March, and the belt is spent by its last face: due on
// the first of April, and not when work goes on the next year.
func TestABeltIsDueOnTheDayAfterTheLastFace(t *testing.T) {
	of := func(life quantity.Area) spend.Due {
		s := belted(20, life)
		for _, month := range []string{"2026-03", "2027-03", "2028-03"} {
			datedIn(s, month, 20)
		}
		return beltOf(t, s, spend.Options{})
	}
	belt := of(quantity.Area(of(800).Year))
	assert.InDelta(t, 172.8, belt.Year, 1e-9)
	assert.Equal(t, []spend.DueDay{{On: "2026-04-01", Renew: true}}, belt.Days)
	assert.Equal(t, [12]spend.DueMonth{2: {Renewals: 1}}, belt.Months)
}

// What a machine that was sold has worn falls due no more.
func TestWhatIsNoLongerRunIsNotFollowed(t *testing.T) {
	first := [][]bool{{true, true}, {false, false}, {false, false}}
	count := func(today quantity.Date) (studio, others int) {
		for _, due := range spent(studygen.Round(), first, spend.Options{Today: today}).Due {
			if due.Site == work.AtStudio {
				studio++
			} else {
				others++
			}
		}
		return studio, others
	}
	studio, others := count("2026-12-31")
	assert.Equal(t, 5, studio, "the knives and four belts have a day left")
	assert.Positive(t, others)
	studio, others = count("2027-01-01")
	assert.Zero(t, studio)
	assert.Positive(t, others)
}

func TestADueEdgeIsFoundAgainAndAnAbrasiveIsNone(t *testing.T) {
	s := studygen.Round()
	got := spent(s, spend.Always(s, []bool{true, true}), spend.Options{})
	knives, blade, belt := dueOf(t, &got, "knives", "", work.AtStudio), dueOf(t, &got, "blade", "", work.AtBench), dueOf(t, &got, "", "belt80", work.AtStudio)
	assert.Same(t, &s.Edges[0], knives.EdgeOf(s))
	assert.Same(t, &s.Edges[1], blade.EdgeOf(s))
	assert.Nil(t, belt.EdgeOf(s))
}

func TestASharedFixtureIsSoldWithTheLastThatNeedsIt(t *testing.T) {
	s := floored(true)
	got := spent(s, [][]bool{{true, false}, {false, true}, {false, false}}, spend.Options{})
	var events []spend.Event
	for _, event := range got.Events {
		if event.Fixture >= 0 {
			events = append(events, event)
		}
	}
	assert.Equal(t, []spend.Event{
		{On: "2026-01-01", Machine: 0, Fixture: 0, What: spend.Bought, Amount: 1200},
		{On: "2027-12-31", Machine: 0, Fixture: 0, What: spend.Parted, Amount: -240},
	}, events)
}

// Prices fall by 10 % a year: 720 of wiring that comes back whole is 524.88 three years on.
func TestNothingIsSetAsideForWhatBringsMoreThanTheNextCosts(t *testing.T) {
	got := ofRound(t, func(s *model.Study) {
		s.Growth.Machines, s.Machines[0].Wiring, s.Machines[0].FixturesResale = -0.10, 720, 1
	}, spend.Options{})
	require.True(t, got.Reserves[1].Own)
	assert.InDelta(t, 524.88, got.Reserves[1].Price, 1e-9)
	assert.InDelta(t, 720, got.Reserves[1].Fetched, 1e-9)
	assert.Zero(t, got.Reserves[1].Monthly)
}

func TestAnEdgeThatIsSharpenedOnceHasADayForIt(t *testing.T) {
	got := ofRound(t, func(s *model.Study) { s.Edges[0].Life, s.Edges[0].Sharpenings = 96, 1 }, spend.Options{})
	knives := dueOf(t, &got, "knives", "", work.AtStudio)
	assert.Equal(t, []quantity.Date{"2026-04-01", "2026-07-01"}, []quantity.Date{knives.Sharpen, knives.Renew}, "96 and 192 m of 384 a year")
	assert.Equal(t, []int{2, 2}, []int{knives.Sharpenings, knives.Renewals})
}

// Twice the jobs a year later.
func TestWhatIsRunGrowsWithTheJobs(t *testing.T) {
	s := belted(20, 800)
	s.JobTypes[0].Growth = 1
	assert.InDelta(t, 172.8, beltOf(t, s, spend.Options{}).Year, 1e-9)
	assert.InDelta(t, 345.6, beltOf(t, s, spend.Options{Today: "2027-01-01"}).Year, 1e-9)
}

// Savings at 10 % a year, a month at a time, come to 1.331 after three.
func TestSavingsEarnTheirInterestMonthByMonth(t *testing.T) {
	got := ofRound(t, func(*model.Study) {}, spend.Options{Savings: 0.10})
	month := math.Pow(1.10, 1.0/12) - 1
	assert.InDelta(t, 4000*(1-0.7*0.81)*month/(1.331-1), got.Reserves[0].Monthly, 1e-9)
}

func TestEvenAFixtureForAPennyIsSetAsideFor(t *testing.T) {
	for wiring, want := range map[quantity.Money]int{0: 2, 0.01: 3, 1: 3, 720: 3} {
		got := ofRound(t, func(s *model.Study) { s.Machines[0].Wiring = wiring }, spend.Options{})
		assert.Len(t, got.Reserves, want, "%v", wiring)
	}
}
