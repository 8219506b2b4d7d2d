package booking_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/booking"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/model/work"
	"shopstint/rental"
	"shopstint/rental/visitplan"
)

func demoStudy(t *testing.T) *model.Study {
	t.Helper()
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return s
}

func booked(t *testing.T, s *model.Study, options booking.Options) booking.Plan {
	t.Helper()
	options.Limits = booking.Usual()
	plan, problems, err := booking.Book(s, options)
	require.NoError(t, err)
	require.Empty(t, problems)
	return plan
}

// The demo shows what it is there for: grouping pays, neighbours by due date are
// not the best groups, and one job has one day.
func TestTheDemoShowsWhyVisitsArePlanned(t *testing.T) {
	s := demoStudy(t)
	plan := booked(t, s, booking.Options{})
	assert.Equal(t, plan.Cost, plan.Bound)
	assert.Less(t, plan.Cost, 0.8*plan.Alone)
	assert.Less(t, plan.Cost, 0.95*plan.DueDates)
	require.Len(t, plan.Shops, 1)
	assert.Equal(t, visitplan.Searched, plan.Shops[0].Found.Method)
	neighbours, _, err := booking.Book(s, booking.Options{}) // no pass: the dynamic programme alone
	require.NoError(t, err)
	assert.Greater(t, neighbours.Cost, plan.Cost+5)
	assert.Greater(t, neighbours.Bound, 0.8*plan.Cost, "what a visit and each job cost at least is most of it, before any search")
	tight := 0
	for _, dated := range s.DatedJobs {
		if dated.Ready == dated.Due {
			tight++
		}
	}
	assert.Equal(t, 1, tight)
}

// Every job is visited once, on an open day within its dates; the money is
// rental's and adds up.
func TestEveryPlanKeepsDatesDaysAndMoney(t *testing.T) {
	visits, home, shared := 0, 0, 0
	for seed, s := range studygen.Studies(160) {
		if len(s.DatedJobs) == 0 {
			continue
		}
		s.Studio.Vehicle.BedLength, s.Studio.Vehicle.Payload = 20, 40000
		owned := make([]bool, len(s.Machines))
		for m := range owned {
			owned[m] = (seed+m)%3 == 0
		}
		plan := booked(t, s, booking.Options{Owned: owned})
		counts, total := make([]int, len(s.DatedJobs)), 0.0
		for _, visit := range plan.Visits {
			visits++
			total += visit.Total
			shop := &s.Shops[visit.Shop]
			assert.Contains(t, shop.OpenDays, [...]string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}[quantity.Weekday(visit.Day)])
			assert.Equal(t, visit.Visit.Shop+visit.Travel+visit.Labour, visit.Total)
			if len(visit.Aboard) > 1 {
				shared++
			}
			jobs, named := 0, map[int]bool{}
			for _, aboard := range visit.Aboard {
				assert.False(t, named[aboard.Dated], "a dated job is named once a visit")
				named[aboard.Dated] = true
				dated := &s.DatedJobs[aboard.Dated]
				counts[aboard.Dated] += aboard.Count
				jobs += aboard.Count
				assert.LessOrEqual(t, dated.Ready.Day(), visit.Day)
				assert.LessOrEqual(t, visit.Last, dated.Due.Day())
				assert.Equal(t, visit.Shop, work.ShopOf(s, model.Index(s.JobTypes, dated.JobType)))
			}
			assert.Len(t, visit.Errands, len(visit.Counts))
			told := 0
			for _, count := range visit.Counts {
				assert.Positive(t, count, "only job types that ride along are told")
				told += count
			}
			assert.Equal(t, jobs, told, "dated jobs and errands are the same jobs")
			assert.LessOrEqual(t, visit.Day, visit.Last)
			assert.LessOrEqual(t, visit.BookBy, visit.Day-int(shop.LeadTime))
			if jobs > 1 {
				assert.LessOrEqual(t, float64(visit.Billed), float64(shop.Tariff.Day)*(1+1e-9))
			}
		}
		for i, dated := range s.DatedJobs {
			if slices.Contains(plan.Home, i) {
				home++
				assert.Zero(t, counts[i])
				continue
			}
			assert.Equal(t, dated.Number(), counts[i], "seed %d: %s", seed, dated.Key)
		}
		assert.InDelta(t, total, plan.Cost, 1e-6)
		assert.LessOrEqual(t, plan.Cost, plan.Alone+1e-6)
		assert.LessOrEqual(t, plan.Cost, plan.DueDates+1e-6)
		assert.LessOrEqual(t, plan.Bound, plan.Cost)
	}
	assert.Greater(t, visits, 100)
	assert.Greater(t, home, 5)
	assert.Greater(t, shared, 15)
}

// Where a half day or a day costs little, no hour is worth more than its part of it:
// the bound must know, also where the price is below one unit of money.
func TestTheBoundKnowsADayThatCostsHardlyMoreThanAnHour(t *testing.T) {
	for _, day := range []quantity.Money{0.9, 90} {
		for _, half := range []quantity.Money{0, 0.9, 90} {
			s := demoStudy(t)
			tariff := &s.Shops[0].Tariff
			tariff.HourlyRate, tariff.HalfDayPrice, tariff.DayPrice = quantity.MoneyPerHour(day), min(half, day), day
			plan := booked(t, s, booking.Options{})
			assert.Equal(t, plan.Cost, plan.Bound)
			tariff.DayPrice = 0
			if half > 0 {
				booked(t, s, booking.Options{})
			}
		}
	}
}

// A second way to the least money: every way to part the jobs, each part priced
// as a trip of its own.
func TestNoOtherGroupingOfAStudysJobsIsCheaper(t *testing.T) {
	compared := 0
	for _, s := range studygen.Studies(120) {
		s.Studio.Vehicle.BedLength, s.Studio.Vehicle.Payload = 20, 40000
		jobs := 0
		for i := range s.DatedJobs {
			jobs += s.DatedJobs[i].Number()
		}
		if jobs < 2 || jobs > 7 {
			continue
		}
		plan := booked(t, s, booking.Options{})
		assert.InDelta(t, leastOf(s), plan.Cost, 1e-6)
		assert.InDelta(t, plan.Cost, plan.Bound, 1e-6)
		compared++
	}
	assert.Greater(t, compared, 10)
}

func leastOf(s *model.Study) float64 {
	at, owned := work.New(s), make([]bool, len(s.Machines))
	members := alternative.RentOf(s, at, owned).Members
	var list []int
	for i := range s.DatedJobs {
		for range s.DatedJobs[i].Number() {
			list = append(list, i)
		}
	}
	price := func(group []int) float64 {
		var errands []alternative.Errand
		var counts []int
		first, last, shop := math.MinInt, math.MaxInt, -1
		for _, i := range group {
			dated := &s.DatedJobs[list[i]]
			job := model.Index(s.JobTypes, dated.JobType)
			if shop >= 0 && shop != work.ShopOf(s, job) {
				return math.Inf(1)
			}
			shop, first, last = work.ShopOf(s, job), max(first, dated.Ready.Day()), min(last, dated.Due.Day())
			k := slices.IndexFunc(errands, func(e alternative.Errand) bool { return e.Job == job })
			if k < 0 {
				k = len(errands)
				errands, counts = append(errands, alternative.ErrandOf(s, at, owned, job)), append(counts, 0)
			}
			counts[k]++
		}
		closed := true
		for day := first; day <= last && closed; day++ {
			closed = !slices.Contains(s.Shops[shop].OpenDays, [...]string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}[quantity.Weekday(day)])
		}
		visit := rental.Price(&s.Studio, s.Money, alternative.Together(s, shop, errands, counts), members[shop])
		if closed || len(group) > 1 && float64(visit.Billed) > float64(s.Shops[shop].Tariff.Day)*(1+1e-12) {
			return math.Inf(1)
		}
		return visit.Total
	}
	return leastPartition(len(list), price)
}

func leastPartition(n int, price func([]int) float64) float64 {
	least := math.Inf(1)
	var part func(i int, groups [][]int)
	part = func(i int, groups [][]int) {
		if i == n {
			total := 0.0
			for _, group := range groups {
				total += price(group)
			}
			least = min(least, total)
			return
		}
		for g := range groups {
			groups[g] = append(groups[g], i)
			part(i+1, groups)
			groups[g] = groups[g][:len(groups[g])-1]
		}
		part(i+1, append(slices.Clone(groups), []int{i}))
	}
	part(0, nil)
	return least
}

// One consoles job on a weekend's dates, by hand: Saturday the 6th to Monday the 8th of
// March 2027 leaves the Monday, and three days before is the Friday.
func TestClosedDaysAndLeadTime(t *testing.T) {
	s := demoStudy(t)
	s.DatedJobs = []model.DatedJob{{Key: "one", JobType: "consoles", Ready: "2027-03-06", Due: "2027-03-08", Count: 1}}
	plan := booked(t, s, booking.Options{})
	require.Len(t, plan.Visits, 1)
	assert.Equal(t, quantity.Date("2027-03-08"), quantity.DateOf(plan.Visits[0].Day))
	assert.Equal(t, quantity.Date("2027-03-05"), quantity.DateOf(plan.Visits[0].BookBy))
	assert.Equal(t, plan.Visits, booked(t, s, booking.Options{Today: "2027-03-05"}).Visits)

	s.DatedJobs[0].Due = "2027-03-14" // a Sunday
	open := booked(t, s, booking.Options{}).Visits[0]
	assert.Equal(t, quantity.Date("2027-03-12"), quantity.DateOf(open.Last), "no closed day would do")

	s.DatedJobs[0].Due = "2027-03-31"
	late := booked(t, s, booking.Options{Today: "2027-03-10"})
	assert.Equal(t, quantity.Date("2027-03-15"), quantity.DateOf(late.Visits[0].Day), "Saturday the 13th is the first day, and closed")
}

func TestWhatTheDatesOrTheVehicleContradictIsNamed(t *testing.T) {
	for _, c := range []struct {
		name, path, says string
		change           func(*model.Study)
		today            quantity.Date
	}{
		{"no dated jobs", "dated_jobs", "the study has no dated jobs", func(s *model.Study) { s.DatedJobs = nil }, ""},
		{"closed on all its days", "dated_jobs.fair.due", "big_shop is not open on any day from 2027-04-03 on", func(s *model.Study) {
			s.DatedJobs[model.Index(s.DatedJobs, "fair")].Ready, s.DatedJobs[model.Index(s.DatedJobs, "fair")].Due = "2027-04-03", "2027-04-04"
		}, ""},
		{"too late to book", "dated_jobs.orr.due", "the first day that can still be booked is 2027-03-11 (today 2027-03-08, lead time 3 days)", func(*model.Study) {}, "2027-03-08"},
		{"bookable on closed days only", "dated_jobs.orr.due", "big_shop is not open on any day from 2027-03-13 on till then", func(s *model.Study) {
			s.DatedJobs[model.Index(s.DatedJobs, "orr")].Due, s.DatedJobs[model.Index(s.DatedJobs, "lee")].Due = "2027-03-14", "2027-03-19"
		}, "2027-03-10"},
		{"bookable on the last day only, and closed then", "dated_jobs.orr.due", "big_shop is not open on any day from 2027-03-13 on till then", func(s *model.Study) {
			s.DatedJobs[model.Index(s.DatedJobs, "orr")].Due, s.DatedJobs[model.Index(s.DatedJobs, "lee")].Due = "2027-03-13", "2027-03-19"
		}, "2027-03-10"},
		{"longer than the bed", "job_types.bar_top.pieces.slab.length", "is 120 in long, and the vehicle takes 118 in", func(s *model.Study) { s.Studio.Vehicle.BedLength = quantity.Length(118 * 0.0254) }, ""},
		{"heavier than the payload", "job_types.river_dining.pieces.top.length", "weighs 287.7 lb, and the vehicle takes 275.6 lb", func(s *model.Study) { s.Studio.Vehicle.Payload = 125 }, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := demoStudy(t)
			c.change(s)
			_, problems, err := booking.Book(s, booking.Options{Today: c.today, Limits: booking.Usual()})
			require.NoError(t, err)
			require.NotEmpty(t, problems)
			said := ""
			for _, one := range problems {
				if one.Path == c.path {
					said = one.What
					assert.NotEmpty(t, one.Right)
				}
			}
			assert.Contains(t, said, c.says)
		})
	}
}

// Two shops, each visited on two days, alternately: the 2nd, 9th, 16th and 23rd of March 2026.
func TestVisitsStandInTheOrderOfTheirDaysWhateverTheShop(t *testing.T) {
	s := studygen.Round()
	other := s.Shops[0]
	other.Key = "other_mill"
	s.Shops = append(s.Shops, other)
	top := s.JobTypes[0]
	top.Key, top.Shop = "other_top", other.Key
	s.JobTypes = append(s.JobTypes, top)
	dated := func(key, kind string, day quantity.Date) {
		s.DatedJobs = append(s.DatedJobs, model.DatedJob{Key: key, JobType: kind, Ready: day, Due: day, Count: 1})
	}
	dated("second", "top", "2026-03-09")
	dated("fourth", "top", "2026-03-23")
	dated("first", "other_top", "2026-03-02")
	dated("third", "other_top", "2026-03-16")
	plan := booked(t, s, booking.Options{})
	var told []string
	for _, visit := range plan.Visits {
		told = append(told, s.DatedJobs[visit.Aboard[0].Dated].Key)
	}
	assert.Equal(t, []string{"first", "second", "third", "fourth"}, told)
	assert.Equal(t, 4, plan.Jobs)
	assert.Equal(t, 4, plan.DueVisits)
}

func TestADatedJobThatCountsSeveralIsNamedOnceInAVisit(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.Day = quantity.Hours(20)
	s.DatedJobs = []model.DatedJob{
		{Key: "pair", JobType: "top", Ready: "2026-03-02", Due: "2026-03-02", Count: 2},
		{Key: "one", JobType: "top", Ready: "2026-03-02", Due: "2026-03-02", Count: 1},
		{Key: "three", JobType: "top", Ready: "2026-03-02", Due: "2026-03-02", Count: 3},
	}
	plan := booked(t, s, booking.Options{})
	require.Len(t, plan.Visits, 1)
	visit := plan.Visits[0]
	assert.Equal(t, []booking.Aboard{{Dated: 0, Count: 2}, {Dated: 1, Count: 1}, {Dated: 2, Count: 3}}, visit.Aboard)
	assert.Equal(t, []int{6}, visit.Counts)
	require.Len(t, visit.Errands, 1)
	assert.InDelta(t, 6*75.6, float64(visit.Load), 1e-9, "2.4 × 0.9 × 0.05 m of oak at 700 weigh 75.6 kg")
	assert.InDelta(t, 75.6, float64(visit.Heaviest), 1e-9)
	assert.Equal(t, 6, plan.Jobs)
	assert.Equal(t, 1, plan.DueVisits)
}

// Without a membership a further job makes no visit cheaper, and the solver may rely on it:
// who rides along for nothing within a block of four hours is never left behind, which leaves
// fewer groups to look at than the same plan asks for with prices that promise nothing.
func TestThatAFurtherJobMakesNoVisitCheaperSparesGroups(t *testing.T) {
	s := studygen.Round()
	s.Studio.LabourRate, s.Studio.HelperRate, s.Shops[0].Tariff.MinimumBlock = 0, 0, quantity.Hours(4)
	first := quantity.Date("2026-03-02").Day()
	for i := range 12 {
		s.DatedJobs = append(s.DatedJobs, model.DatedJob{
			Key: string(rune('a' + i)), JobType: "top", Ready: quantity.DateOf(first + 7*i), Due: quantity.DateOf(first + 7*i + 18 + 7*(i%3)), Count: 1,
		})
	}
	plan := booked(t, s, booking.Options{})
	assert.Equal(t, plan.Cost, plan.Bound)
	assert.Less(t, plan.Shops[0].Found.Nodes, 25, "12, and 38 without the promise")
}
