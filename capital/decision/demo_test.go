package decision_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/studygen"
)

func demoAnswer(t *testing.T) decision.Answer {
	t.Helper()
	return decision.Decide(demoStudy(t))
}

func TestTheDemoHasAClearBuyAClearRentAndOneTooCloseToCall(t *testing.T) {
	answer := demoAnswer(t)
	verdicts := map[single.Verdict]int{}
	for _, machine := range answer.Machines {
		verdicts[machine.Verdict]++
	}
	assert.NotZero(t, verdicts[single.Buy])
	assert.NotZero(t, verdicts[single.KeepRenting])
	assert.NotZero(t, verdicts[single.TooClose])
	find := func(key string) *single.Result {
		return &answer.Machines[model.Index(answer.Study.Machines, key)]
	}
	assert.Greater(t, find("rail_saw").Difference, 3*find("rail_saw").Band, "clearly worth buying")
	assert.Less(t, find("bench_saw").Difference, -3*find("bench_saw").Band, "clearly not worth buying")
}

func TestAPairOfTheDemoAnswersOtherwiseTogetherThanEachAlone(t *testing.T) {
	answer := demoAnswer(t)
	gain := func(keys ...string) float64 {
		owned := make([]bool, len(answer.Study.Machines))
		for _, key := range keys {
			owned[model.Index(answer.Study.Machines, key)] = true
		}
		return answer.Present - alternative.Evaluate(answer.Study, answer.Plan, owned).Present
	}
	planer, sander := gain("planer24"), gain("sander43_used")
	both := gain("planer24", "sander43_used")
	assert.Negative(t, planer, "the planer alone is not worth buying")
	assert.Greater(t, both, sander, "beside the sander it is: the trip itself is saved")
	assert.Greater(t, both, planer+sander)
}

// traps are what owners forget when they compare renting with buying. Each
// has an input, or is named beside the answer as not priced.
var traps = []struct {
	trap      string
	inputs    []string // paths without keys
	notPriced string   // part of a line of NotPriced
}{
	{"own unpaid hours", []string{"shops.drive_time", "shops.waiting", "job_types.loading_time", "studio.labour_rate"}, ""},
	{"second person at both ends", []string{"studio.lift_limit", "studio.helper_rate", "studio.people"}, ""},
	{"minimum block and rounding", []string{"shops.tariff.minimum_block", "shops.tariff.increment", "job_types.jobs_per_visit"}, ""},
	{"the shop's wall clock", []string{"shops.machines.setup", "shops.machines.grit_change", "shops.cleaning"}, ""},
	{"belts glazed by resin", []string{"materials.abrasive_life", "shops.tariff.resin_supplement", "shops.machines.surcharge_per_area", "shops.machines.takes_resin"}, ""},
	{"a planer does not flatten", []string{"job_types.arrives_flat"}, ""},
	{"tops wider than the machine", []string{"machines.max_width", "job_types.operations.fallback"}, ""},
	{"rework needs another visit", []string{"job_types.rework_chance", "job_types.rework_visits"}, "rework waits"},
	{"purchase price is half", []string{"machines.delivery", "machines.rigging", "machines.rigging_out", "machines.wiring", "machines.dust_collection", "machines.compressor", "machines.first_edges", "machines.first_abrasives"}, ""},
	{"converter and demand charge", []string{"machines.converter", "studio.demand_charge", "machines.demand_months"}, ""},
	{"floor with infeed and outfeed", []string{"studio.floor_cost", "studio.end_clearance", "machines.floor_share"}, "displaces"},
	{"heated air", nil, "heated air"},
	{"insurance, property tax, compliance", []string{"machines.insurance", "machines.property_tax", "machines.yearly_other"}, "fire rules"},
	{"own maintenance and breakdown", []string{"machines.care_share", "machines.care_per_month", "machines.upkeep_share"}, "breakdowns"},
	{"resale of the machine yes, of the wiring no", []string{"machines.first_year_value", "machines.fixtures_resale"}, "forced sale"},
	{"capital has a price", []string{"studio.discount_rate"}, ""},
	{"hours from the best month", []string{"job_types.per_year"}, "best month"},
	{"sharpening away", []string{"edges.errand", "machines.first_edges"}, "without knives"},
	{"edges shrink when reground", []string{"edges.sharpenings", "edges.life_lost"}, ""},
	{"the host may close or raise rates", []string{"growth.rental"}, "closing"},
	{"induction and membership before the first job", []string{"shops.tariff.induction_fee", "shops.tariff.induction_time", "shops.tariff.membership_fee"}, ""},
	{"damage clauses", []string{"shops.tariff.damage_allowance"}, ""},
	{"renting out idle time is not free income", []string{"machines.hours_sold", "machines.sold_cost"}, ""},
	{"learning", []string{"machines.learning_share", "machines.training_time"}, ""},
	{"cheap three-phase", []string{"machines.machine_phases", "machines.converter", "studio.phases"}, ""},
}

func TestEveryTrapHasAnInputOrIsNamedAsNotPriced(t *testing.T) {
	known := map[string]bool{}
	answer := demoAnswer(t)
	model.Walk(answer.Study, func(leaf model.Leaf) { known[studygen.Stem(leaf.Path)] = true })
	for _, row := range traps {
		assert.True(t, len(row.inputs) > 0 || row.notPriced != "", row.trap)
		for _, path := range row.inputs {
			assert.Truef(t, known[path], "%s: no input %s", row.trap, path)
		}
		if row.notPriced != "" {
			assert.Truef(t, named(row.notPriced), "%s: not named as not priced", row.trap)
		}
	}
}

func named(words string) bool {
	return slices.ContainsFunc(decision.NotPriced, func(line string) bool { return strings.Contains(line, words) })
}
