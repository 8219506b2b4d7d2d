package sensitivity_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/sensitivity"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

const studies = 25

// settings prepares the cases of every machine of a study.
func settings(study *model.Study) (list []*sensitivity.Setting, plan *work.Plan, rented alternative.Rent) {
	plan = work.New(study)
	rented = alternative.RentOf(study, plan, make([]bool, len(study.Machines)))
	for m := range study.Machines {
		beside := alternative.RentOf(study, plan, only(study, m))
		list = append(list, sensitivity.New(study, plan, &rented, &beside, m))
	}
	return list, plan, rented
}

func only(study *model.Study, m int) []bool {
	owned := make([]bool, len(study.Machines))
	owned[m] = true
	return owned
}

func close(t *testing.T, want, got float64, message string, args ...any) {
	t.Helper()
	assert.InDeltaf(t, want, got, 1e-9*max(1, want, -want), message, args...)
}

func TestThePlannedCaseIsTheSingleDecision(t *testing.T) {
	for seed := range uint64(studies) {
		study := studygen.Study(seed)
		list, plan, rented := settings(study)
		for m, setting := range list {
			want, got := single.Decide(study, plan, &rented, m), setting.Reckon(setting.Planned)
			close(t, want.Saved, got.Saved, "seed %d machine %d saved", seed, m)
			close(t, want.Owning, got.Owning, "seed %d machine %d owning", seed, m)
			close(t, want.Annual, got.Annual, "seed %d machine %d a year", seed, m)
			assert.Equal(t, want.Verdict, got.Verdict, "seed %d machine %d", seed, m)
		}
	}
}

// moved is a study with one lever moved, by another way than the package's own:
// through the input's path, or field by field.
func moved(t *testing.T, study *model.Study, m int, l sensitivity.Lever, value float64) *model.Study {
	t.Helper()
	twin := study.Clone()
	shop := study.Shops[sensitivity.ShopOf(study, work.New(study), m)].Key
	path, key, hits := l.Path(study.Machines[m].Key, shop), "machines."+study.Machines[m].Key+".", 0
	endings := map[sensitivity.Lever][]string{
		sensitivity.Work:         {"per_year"},
		sensitivity.Rates:        {"hourly_rate", "half_day_price", "day_price"},
		sensitivity.Upkeep:       {"upkeep_share", "repair_factor"},
		sensitivity.Installation: {"delivery", "rigging", "wiring", "converter", "dust_collection", "compressor"},
	}[l]
	ofMachine := l == sensitivity.Upkeep || l == sensitivity.Installation
	model.Walk(twin, func(leaf model.Leaf) {
		if leaf.Path == path {
			leaf.SetNumber(value)
			hits++
		}
		for _, ending := range endings {
			if leaf.Key() == ending && (!ofMachine || leaf.Path == key+ending) {
				leaf.SetNumber(leaf.Number() * value)
				hits++
			}
		}
	})
	require.NotZero(t, hits, l.Label())
	return twin
}

// difference is the answer of one machine, from nothing but the study.
func difference(study *model.Study, m int) float64 {
	plan := work.New(study)
	rented := alternative.RentOf(study, plan, make([]bool, len(study.Machines)))
	return single.Decide(study, plan, &rented, m).Difference
}

func TestACaseIsTheEnginesAnswerToTheStudyWithThatInputChanged(t *testing.T) {
	compared := 0
	for seed := range uint64(studies) {
		study := studygen.Study(seed)
		if takesMembers(study) { // there the case keeps what was planned
			continue
		}
		list, _, _ := settings(study)
		for m, setting := range list {
			for l := range sensitivity.Levers {
				if l == sensitivity.Resale || l == sensitivity.Consumables {
					continue // tested below
				}
				c := setting.Planned
				c[l] *= 1.25
				if l == sensitivity.YearsKept {
					c[l] = float64(int(c[l])%int(study.Studio.Horizon) + 1)
				}
				close(t, difference(moved(t, study, m, l, c[l]), m), setting.Reckon(c).Difference, "seed %d machine %d %s", seed, m, l.Label())
				compared++
			}
			close(t, difference(study, m), setting.Reckon(setting.Planned).Difference, "seed %d machine %d: back to the plan", seed, m)
		}
	}
	assert.Greater(t, compared, 200)
}

func takesMembers(study *model.Study) bool {
	for s := range study.Shops {
		if study.Shops[s].Tariff.MembershipFee > 0 {
			return true
		}
	}
	return false
}

func TestResaleAndConsumablesMoveTheAnswerInProportion(t *testing.T) {
	moves := 0
	for seed := range uint64(studies) {
		list, _, _ := settings(studygen.Study(seed))
		for m, setting := range list {
			for _, l := range []sensitivity.Lever{sensitivity.Resale, sensitivity.Consumables} {
				at := func(times float64) float64 {
					c := setting.Planned
					c[l] = times
					return setting.Reckon(c).Difference
				}
				one := at(1.2) - at(1)
				assert.InDelta(t, one, at(1)-at(0.8), 1e-6, "seed %d machine %d %s", seed, m, l.Label())
				if one != 0 {
					moves++
				}
			}
		}
	}
	assert.Greater(t, moves, studies)
}

func TestAMembershipThatWasPlannedIsKeptInEveryCase(t *testing.T) {
	kept := 0
	for seed := range uint64(200) {
		study := studygen.Study(seed)
		list, _, rented := settings(study)
		for s := range rented.Members {
			if !rented.Members[s].Joined {
				continue
			}
			c := list[0].Planned
			c[sensitivity.Work] = 0.01 // so little work that nobody would join
			assert.Equal(t, rented.Fee, list[0].Reckon(c).Rented.Fee, "seed %d", seed)
			kept++
		}
	}
	assert.NotZero(t, kept, "no generated study takes a membership")
}

func TestTheLinesOfWhatIsSavedAddUpToItAndAreTwoSidesApart(t *testing.T) {
	bench := 0
	for seed := range uint64(studies) {
		study := studygen.Study(seed)
		list, plan, rented := settings(study)
		for m, setting := range list {
			got := setting.Reckon(setting.Planned)
			close(t, got.Saved, got.PresentOf(float64(study.Studio.TaxRate), alternative.Year.Sum), "seed %d machine %d", seed, m)
			beside := alternative.RentOf(study, plan, only(study, m))
			with, without := beside.Years(study), rented.Years(study)
			for year, saved := range got.Years {
				close(t, without[year].Shop-with[year].Shop, saved.Shop, "seed %d machine %d shop", seed, m)
				close(t, without[year].Travel-with[year].Travel, saved.Travel, "seed %d machine %d travel", seed, m)
				close(t, without[year].Labour-with[year].Labour, saved.Labour, "seed %d machine %d labour", seed, m)
				close(t, without[year].BenchLabour-with[year].BenchLabour, saved.BenchLabour, "seed %d machine %d bench", seed, m)
				close(t, without[year].BenchWear-with[year].BenchWear, saved.BenchWear, "seed %d machine %d wear", seed, m)
				close(t, without[year].Fee-with[year].Fee, saved.Fee, "seed %d machine %d fee", seed, m)
				close(t, without[year].Induction-with[year].Induction, saved.Induction, "seed %d machine %d induction", seed, m)
				if with[year].BenchLabour > 0 {
					bench++
				}
			}
		}
	}
	assert.Positive(t, bench)
}

func TestWhatTheTaxMethodHasTakenAddsUpFromEachPurchaseOn(t *testing.T) {
	study := studygen.Round()
	study.Studio.Horizon = 5
	study.Machines[0].YearsKept = 3
	study.Machines[0].Tax = model.Depreciation{Method: model.TaxStraightLine, Life: 4}
	deducts(t, []float64{0, 0.25, 0.50, 0.75, 0.25, 0.50}, study) // replaced after the third year
}
