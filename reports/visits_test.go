package reports_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/booking"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/study"
	"shopstint/rental/visitplan"
	"shopstint/reports"
)

func planned(t *testing.T, change func(*model.Study), limits visitplan.Limits) reports.VisitPlan {
	t.Helper()
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	change(s)
	plan, wrong, err := booking.Book(s, booking.Options{Limits: limits})
	require.NoError(t, err)
	require.Empty(t, wrong)
	return reports.PlanVisits(&plan, reports.Plain)
}

func TestAPlanSaysHowSureItIs(t *testing.T) {
	sure := planned(t, func(*model.Study) {}, booking.Usual())
	assert.Equal(t, []string{"the shop across the valley: proven best; no other grouping that keeps the dates costs less"}, sure.ProofsInWords)
	assert.Zero(t, sure.Gap)
	assert.Equal(t, reports.MethodSearched, sure.Shops[0].Method)

	cut := planned(t, func(*model.Study) {}, visitplan.Limits{})
	assert.Contains(t, cut.ProofsInWords[0], "the best that was found; no grouping costs less than ")
	assert.Greater(t, cut.Gap, 0.0)
	assert.Greater(t, cut.Cost, sure.Cost)
	assert.LessOrEqual(t, cut.Bound, sure.Cost)
	assert.Equal(t, reports.MethodBestFound, cut.Shops[0].Method)

	alike := planned(t, func(s *model.Study) {
		for i := range s.DatedJobs {
			s.DatedJobs[i].JobType, s.DatedJobs[i].Count = "consoles", 1
			s.DatedJobs[i].Due = s.DatedJobs[i].Ready
		}
	}, visitplan.Limits{})
	assert.Contains(t, alike.ProofsInWords[0], "proven best; its jobs are alike")
	assert.Equal(t, reports.MethodConsecutive, alike.Shops[0].Method)
}

// The parts of a job that ride on two visits, the shop's blocks, what the studio's
// own edges and belts are, and round trips of a load that is too heavy for one.
func TestAVisitSaysWhatToBring(t *testing.T) {
	said := planned(t, func(s *model.Study) {
		s.DatedJobs = []model.DatedJob{{Key: "hall", JobType: "benches", Ready: "2027-03-01", Due: "2027-03-31", Count: 3}}
		s.Shops[0].Machines[0].Consumables, s.Shops[0].Machines[0].Edge = "own", "knives24"
		s.Shops[0].Machines[1].Consumables = "own"
		s.Studio.Vehicle.Payload = 250
		s.Shops[0].Tariff.DayPrice, s.Shops[0].Tariff.HalfDayPrice = 0, 0
	}, booking.Usual())
	require.Len(t, said.Visits, 2)
	both := said.Visits[0]
	if both.Jobs[0].Count == 1 {
		both = said.Visits[1]
	}
	assert.Equal(t, "hall: 2 of 3 × set of four benches, due 2027-03-31", both.Jobs[0].InWords)
	assert.Equal(t, []string{
		"set of four benches (8 × seats 62 × 15 × 2.12 in, 16 × legs 18 × 14 × 2.12 in)",
		"grit 80 for the 43-in wide-belt sander", "grit 120 for the 43-in wide-belt sander", "grit 150 for the 43-in wide-belt sander",
		"three straight knives, 24 in",
	}, both.Bring)
	assert.Equal(t, "block", both.By)
	assert.Contains(t, both.Clock, "min on the shop's clock, paid as 480 min; ")
	assert.Equal(t, 2.0, both.RoundTrips)
	assert.Contains(t, both.BringInWords, " lb in all, on 2 round trips")
	assert.InDelta(t, both.Total, both.Invoice+both.Travel+both.Labour, 1e-9)
}
