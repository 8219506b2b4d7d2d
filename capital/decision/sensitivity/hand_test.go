package sensitivity_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision/sensitivity"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// A lever is an input of the study, or is said as times what is planned.
func TestALeverIsAnInputOrTimesWhatIsPlanned(t *testing.T) {
	times := map[sensitivity.Lever]bool{
		sensitivity.Work: true, sensitivity.Rates: true, sensitivity.Resale: true, sensitivity.Upkeep: true,
		sensitivity.Installation: true, sensitivity.Consumables: true,
	}
	known := map[string]bool{}
	model.Walk(studygen.Round(), func(leaf model.Leaf) { known[leaf.Path] = true })
	for l := range sensitivity.Levers {
		assert.Equal(t, times[l], l.Times(), l.Label())
		assert.Equal(t, !times[l], known[l.Path("planer_own", "mill")], "%s: %s", l.Label(), l.Path("planer_own", "mill"))
	}
}

// A planer of 4,000 fetches 4000 × 0.7 × 0.9² = 2,268 after its three years, which is
// 1,703.98 today at 10 %: so much for every time the resale is had more.
func TestTheResaleIsHadAsManyTimesAsTheCaseSays(t *testing.T) {
	list, _, _ := settings(studygen.Round())
	at := func(times float64) float64 {
		c := list[0].Planned
		require.InDelta(t, 1, c[sensitivity.Resale], 0)
		c[sensitivity.Resale] = times
		return list[0].Reckon(c).Difference
	}
	for _, times := range []float64{0, 0.5, 1.5, 2, 3} {
		assert.InDelta(t, (times-1)*2268/1.331, at(times)-at(1), 1e-9, "%v times", times)
	}
}

// deducts compares what the tax method has taken of the first machine, year by year.
func deducts(t *testing.T, want []float64, s *model.Study) {
	t.Helper()
	list, _, _ := settings(s)
	got := list[0].Reckon(list[0].Planned).Deducted
	require.Len(t, got, len(want))
	assert.InDeltaSlice(t, want, got, 1e-9)
}

// Shorter than its life the deduction ends with the sale; longer, it ends by itself.
func TestTheTaxMethodTakesNoMoreThanAll(t *testing.T) {
	s := studygen.Round()
	s.Studio.Horizon, s.Machines[0].YearsKept = 5, 5
	s.Machines[0].Tax = model.Depreciation{Method: model.TaxStraightLine, Life: 2}
	deducts(t, []float64{0, 0.5, 1, 1, 1, 1}, s)
	s.Machines[0].YearsKept = 1 // a new one each year
	deducts(t, []float64{0, 0.5, 0.5, 0.5, 0.5, 0.5}, s)
}

// A life of four first years' hours, with twice the work each year: 1/4 and 2/4 of the
// first machine, then 4/4 of the second.
func TestUnitsOfProductionFollowTheHoursOfTheYearsAtWork(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Growth = 1
	s.Machines[0].YearsKept = 2
	list, _, _ := settings(s)
	hours := list[0].Reckon(list[0].Planned).Owner.Table[capital.Running]
	s.Machines[0].LifeHours = quantity.Hours(4 * hours[1])
	s.Machines[0].Tax = model.Depreciation{Method: model.TaxUnitsOfProduction, Life: 3}
	deducts(t, []float64{0, 0.25, 0.75, 1}, s)
}

// The shop of a machine is that of the first job type which it can change.
func TestAMachinesShopIsThatOfTheFirstJobItCanTake(t *testing.T) {
	s := studygen.Round()
	other := s.Shops[0]
	other.Key = "other"
	s.Shops = append(s.Shops, other)
	there := s.JobTypes[0]
	there.Key, there.Shop = "there", "other"
	sawn := s.JobTypes[0]
	sawn.Key, sawn.Operations = "sawn", sawn.Operations[2:] // on the own saw and router
	for _, row := range []struct {
		name string
		jobs []model.JobType
		want int
	}{
		{"here first", []model.JobType{s.JobTypes[0], there}, 0},
		{"there first", []model.JobType{there, s.JobTypes[0]}, 1},
		{"nothing for it here", []model.JobType{sawn, there}, 1},
		{"nothing for it at all", []model.JobType{sawn}, 0},
	} {
		s.JobTypes = row.jobs
		assert.Equal(t, row.want, sensitivity.ShopOf(s, work.New(s), 0), row.name)
	}
}
