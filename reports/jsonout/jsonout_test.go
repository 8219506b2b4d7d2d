package jsonout_test

import (
	"encoding/json"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/decision/single"
	"shopstint/model/problem"
	"shopstint/reports"
	"shopstint/reports/jsonout"
)

func written(t require.TestingT, summary *reports.Summary, workbook string) string {
	var b strings.Builder
	require.NoError(t, jsonout.Write(&b, summary, workbook))
	return b.String()
}

func TestTheShapeIsWhatIsDocumented(t *testing.T) {
	summary := &reports.Summary{
		Title: "t <&>", Currency: "USD", Units: "inch", StartYear: 2026, Horizon: 10, RentedAnnual: 1.5, RentedPresent: 2,
		Machines: []reports.Machine{{
			Key: "k", Name: "n", Verdict: single.TooClose, Reason: "r", Returns: []float64{0.1},
			PerHour: reports.Figure{Value: 3, Known: true}, Life: reports.Life{Years: 4, Annual: 5},
			BreakEvens: []reports.BreakEven{{In: "price", Unit: "USD", Now: 1, Crossings: []float64{2}, To: 4}},
			Crossings:  []reports.Flip{{What: "price", Unit: "USD", Now: 1, At: 2, InWords: "w"}},
		}},
		Assumed: []reports.Assumed{{Path: "p", Label: "l", About: "a", Unit: "min", Value: 2, Low: 1, High: 3, Machine: "k", Flips: true}}, AssumedCount: 7,
		Notes: []reports.Note{{Path: "p", About: "a", Text: "x"}}, NotPriced: []string{"q"}, Cautions: []string{"c"},
		Joint: reports.Joint{
			Verdict: "own n", Saving: "s", Limits: []string{"h"},
			Best:   reports.Set{Machines: []string{"k"}, CostAnnual: 8, SavingPresent: 9, Cash: 10, Area: 11, Amps: 12},
			Others: []reports.Set{{OverAnnual: 13, Close: true}}, Ranked: true, Gap: reports.Figure{Value: 0, Known: true},
			Held:   []reports.Held{{On: "floor", Path: "studio.floor_free", Unit: "ft²", Most: 14, Used: 15, Known: true, Binds: true, More: reports.Figure{Value: 16, Known: true}, GainAnnual: 17, Machines: []string{"k"}}},
			Worths: []reports.Worth{{Key: "k", Alone: 18, InBest: 19, After: []float64{0}}}, Draw: 12, Free: 20, Limited: true,
		},
		Roadmap: reports.Roadmap{
			Budget: 9, Annual: 1, Present: 2, SavedAnnual: 3, SavedPresent: 4, WaitingDearer: 5, Gap: 6, Loose: true,
			Years:    []reports.RoadmapYear{{Year: 2027, Buy: []string{"k"}, Sell: []string{"m"}, Spent: 7, Fetched: 8}},
			RunnerUp: []string{"k"}, RunnerUpYear: 2028, RunnerUpDearer: reports.Figure{Value: 10, Known: true},
		},
	}
	var compact strings.Builder
	for line := range strings.Lines(written(t, summary, "w.xlsx")) {
		compact.WriteString(strings.TrimSpace(line))
	}
	assert.Equal(t, `{"shape": "shopstint.decide/1","title": "t <&>","currency": "USD","units": "inch","start_year": 2026,"horizon_years": 10,`+
		`"renting_everything": {"annual": 1.5,"present": 2},`+
		`"machines": [{"key": "k","name": "n","verdict": "too_close_to_call","reason": "r","difference": {"annual": 0,"present": 0},"close_call": 0,`+
		`"saved": {"annual": 0,"present": 0},"owning": {"annual": 0,"present": 0},"cash_needed": 0,"jobs_a_year": 0,"hours_a_year": 0,`+
		`"cost_per_hour": 3,"cost_per_job": null,"payback_years": {"simple": null,"discounted": null},"rates_of_return": [0.1],`+
		`"economic_life": {"years": 4,"annual_cost": 5,"still_falling": false},`+
		`"break_evens": [{"in": "price","unit": "USD","now": 1,"crossings": [2],"from": 0,"to": 4}],`+
		`"turned_by": {"break_evens": [{"what": "price","unit": "USD","now": 1,"at": 2,"says": "w"}],"inputs": []}}],`+
		`"assumed": {"count": 7,"first": [{"path": "p","label": "l","about": "a","unit": "min","value": 2,"low": 1,"high": 3,"machine": "k","present_at_low": 0,"present_at_high": 0,"flips": true}]},`+
		`"notes": [{"path": "p","text": "x"}],"not_priced": ["q"],"cautions": ["c"],"workbook": "w.xlsx",`+
		`"joint": {"best": {"machines": ["k"],"cost": {"annual": 8,"present": 0},"saving": {"annual": 0,"present": 9},"over_best": {"annual": 0,"present": 0},`+
		`"too_close_to_best": false,"cash_needed": 10,"floor_m2": 11,"amps": 12},`+
		`"next_best": [{"machines": [],"cost": {"annual": 0,"present": 0},"saving": {"annual": 0,"present": 0},"over_best": {"annual": 13,"present": 0},`+
		`"too_close_to_best": true,"cash_needed": 0,"floor_m2": 0,"amps": 0}],`+
		`"best_single": {"machines": [],"cost": {"annual": 0,"present": 0},"saving": {"annual": 0,"present": 0},"over_best": {"annual": 0,"present": 0},`+
		`"too_close_to_best": false,"cash_needed": 0,"floor_m2": 0,"amps": 0},"gap": 0,"next_best_proven": true,`+
		`"limits": [{"on": "floor","path": "studio.floor_free","unit": "ft²","most": 14,"used": 15,"binds": true,"more": 16,"gain": {"annual": 17,"present": 0},"machines": ["k"]}],`+
		`"worth": [{"key": "k","alone": 18,"in_best": 19,"after": [0]}],"supply": {"draw_amps": 12,"free_amps": 20,"limits": true},`+
		`"says": ["own n","s","h"]},`+
		`"roadmap": {"why_not": null,"yearly_budget": 9,"cost": {"annual": 1,"present": 2},"saved": {"annual": 3,"present": 4},`+
		`"years": [{"year": 2027,"buy": ["k"],"replace": [],"sell": ["m"],"spent": 7,"fetched": 8}],`+
		`"runner_up": {"buy": ["k"],"year": 2028,"dearer": 10},"waiting_a_year": 5,"gap": 6,"approximated": true}}`, compact.String())
}

func TestEveryKeyIsInTheDocComment(t *testing.T) {
	source, err := os.ReadFile("jsonout.go")
	require.NoError(t, err)
	comment, _, _ := strings.Cut(string(source), "\npackage ")
	var shape []byte
	for _, name := range []string{"shape.go", "joint.go", "roadmap.go"} {
		part, err := os.ReadFile(name)
		require.NoError(t, err)
		shape = append(shape, part...)
	}
	keys := regexp.MustCompile(`json:"(\w+)"`).FindAllStringSubmatch(string(shape), -1)
	require.NotEmpty(t, keys)
	for _, key := range keys {
		assert.Contains(t, comment, `"`+key[1]+`"`)
	}
}

func TestThereIsNoNumberThatIsNone(t *testing.T) {
	bad := rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1), 1, 1e308})
	rapid.Check(t, func(t *rapid.T) {
		summary := &reports.Summary{
			RentedAnnual: bad.Draw(t, "annual"), Horizon: bad.Draw(t, "horizon"),
			Machines: []reports.Machine{{
				OwningAnnual: bad.Draw(t, "owning"), PerHour: reports.Figure{Value: bad.Draw(t, "hour"), Known: true},
				Returns: []float64{bad.Draw(t, "return")}, Life: reports.Life{Annual: bad.Draw(t, "life")},
				BreakEvens: []reports.BreakEven{{Now: bad.Draw(t, "now"), Crossings: []float64{bad.Draw(t, "crossing")}}},
			}},
		}
		out := written(t, summary, "")
		require.True(t, json.Valid([]byte(out)), out)
		require.NotContains(t, out, "-0,")
		if math.IsNaN(summary.RentedAnnual) {
			require.Contains(t, out, `"annual": null`)
		}
	})
}

func TestEmptyListsAreListsAndNoWorkbookIsNull(t *testing.T) {
	out := written(t, &reports.Summary{}, "")
	for _, key := range []string{"machines", "first", "notes", "not_priced", "cautions"} {
		assert.Contains(t, out, `"`+key+`": []`)
	}
	assert.Contains(t, out, `"workbook": null`)
	assert.Contains(t, out, `"years": []`)
	assert.Contains(t, out, `"runner_up": null`)
	assert.Contains(t, out, `"yearly_budget": null`)
	assert.Contains(t, written(t, &reports.Summary{Roadmap: reports.Roadmap{Why: "w"}}, ""), `"why_not": "w"`)
}

func TestProblemsKeepTheirPlaces(t *testing.T) {
	var b strings.Builder
	require.NoError(t, jsonout.Problems(&b, problem.List{{
		Path: "a.b", Place: problem.Place{File: "s.yaml", Line: 3, Column: 7}, What: "w", Right: "r", Also: []problem.Place{{File: "s.yaml", Line: 9, Column: 1}},
	}}))
	assert.JSONEq(t, `{"shape": "shopstint.problems/1", "problems": [{"file": "s.yaml", "line": 3, "column": 7, "path": "a.b",
		"what": "w", "right": "r", "also": [{"file": "s.yaml", "line": 9, "column": 1}]}]}`, b.String())
}

func TestCountsOfACheckedStudyHaveTheirShape(t *testing.T) {
	var b strings.Builder
	require.NoError(t, jsonout.Checked{Study: "s.yaml", Shops: 1, Machines: 2, JobTypes: 3, Given: 4, Assumed: 5}.Write(&b))
	assert.JSONEq(t, `{"shape": "shopstint.check/1", "study": "s.yaml", "shops": 1, "machines": 2, "job_types": 3, "given": 4, "assumed": 5}`, b.String())
}
