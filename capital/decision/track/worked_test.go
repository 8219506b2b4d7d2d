package track_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
	"shopstint/rental"
)

// on is a day counted from the first of 2026.
func on(day int) quantity.Date { return quantity.DateOf(quantity.Date("2026-01-01").Day() + day) }

func use(day int, item string, metres float64) logbook.Entry {
	return logbook.Entry{Date: on(day), Kind: logbook.Use, Subject: "blade", Item: item, Jobs: 1, Length: quantity.Distance(metres), Given: logbook.HasLength}
}

func end(day int, item, reason string) logbook.Entry {
	return logbook.Entry{Date: on(day), Kind: logbook.Replace, Subject: "blade", Item: item, Jobs: 1, Reason: reason}
}

func buy(day int, item string, amount float64) logbook.Entry {
	return logbook.Entry{Date: on(day), Kind: logbook.Buy, Subject: "blade", Item: item, Jobs: 1, Amount: quantity.Money(amount), Given: logbook.HasAmount}
}

// Source of the worked examples below: common practice, no source; every number is
// worked out beside its line.
func TestLivesAndTheirCostWorkedByHand(t *testing.T) {
	r := taken(t, studygen.Round(), []logbook.Entry{
		buy(0, "1", 80), use(1, "1", 150), use(2, "1", 70), end(3, "1", logbook.Dull), // 220 m
		buy(3, "2", 80), use(4, "2", 180), end(5, "2", logbook.Damage), // 180 m
		buy(5, "3", 80), use(6, "3", 200), end(7, "3", logbook.Spent), // 200 m
		buy(7, "4", 80), use(8, "4", 90), end(8, "4", logbook.Lost), // 90 m, and then nobody knows
		buy(8, "5", 80), use(9, "5", 100), // going
	})
	blade := worn(t, r, "edges.blade")
	assert.InDelta(t, 3, blade.Ended, 0)
	assert.InDelta(t, 1, blade.Damaged, 0)
	assert.InDelta(t, 2, blade.Going, 0, "the lost one and the one in use")
	assert.InDelta(t, 790, blade.Run, 1e-9, "220 + 180 + 200 + 90 + 100")
	used := 100 / blade.Belief.Mean
	assert.InDelta(t, 4*80+used*80, blade.Paid, 1e-9, "four used up, and the fifth as far as it is run")
	assert.InDelta(t, blade.Paid/790, blade.Cost.Value, 1e-12)
	assert.InDelta(t, 80.0/200, blade.StudyCost, 1e-12, "a new one for 80 lasts 200 m")
	assert.Equal(t, track.ByLength, blade.Measure)
	require.Len(t, blade.Curve, 3)
	// 180: 4 of 4 at risk (those of 90 and 100 were last seen before); 200: 2 of 3; 220: none left.
	assert.InDelta(t, 2.0/3, blade.Curve[0].Survival, 1e-12)
	assert.InDelta(t, 1.0/3, blade.Curve[1].Survival, 1e-12)
	assert.InDelta(t, 0, blade.Curve[2].Survival, 0)
}

func TestALifeThatBeganBeforeTheLogbookIsLeftOut(t *testing.T) {
	r := taken(t, studygen.Round(), []logbook.Entry{
		use(1, "old", 60), end(2, "old", logbook.Dull), use(3, "old", 190), end(4, "old", logbook.Dull),
	})
	blade := worn(t, r, "edges.blade")
	assert.InDelta(t, 1, blade.LeftOut, 0)
	assert.InDelta(t, 1, blade.Ended, 0, "the second one began with the replacement")
	assert.InDelta(t, 250, blade.Run, 0, "what was run counts all the same")
}

func TestALifeMayStandInTheLineThatEndsIt(t *testing.T) {
	line := end(1, "", logbook.Dull)
	line.Length, line.Given = 210, logbook.HasLength
	blade := worn(t, taken(t, studygen.Round(), []logbook.Entry{line}), "edges.blade")
	assert.InDelta(t, 1, blade.Ended, 0)
	assert.InDelta(t, 210, blade.Curve[0].Run, 1e-9)
}

func TestTheSameLabelBoughtAnewLeavesTheOldOneWhereItWasSeen(t *testing.T) {
	blade := worn(t, taken(t, studygen.Round(), []logbook.Entry{buy(0, "1", 80), use(1, "1", 50), buy(2, "1", 80), use(3, "1", 60)}), "edges.blade")
	assert.InDelta(t, 0, blade.Ended, 0)
	assert.InDelta(t, 2, blade.Going, 0)
}

func TestSharpeningEndsALifeAndTakesItsPartOfThePrice(t *testing.T) {
	s := studygen.Round()
	sharpen := func(day int) logbook.Entry {
		return logbook.Entry{Date: on(day), Kind: logbook.Sharpen, Subject: "knives", Item: "a", Jobs: 1, Amount: 90, Given: logbook.HasAmount, Reason: logbook.Dull}
	}
	run := func(day int, metres float64) logbook.Entry {
		entry := use(day, "a", metres)
		entry.Subject = "knives"
		return entry
	}
	bought := buy(0, "a", 160)
	bought.Subject = "knives"
	w := worn(t, taken(t, s, []logbook.Entry{bought, run(1, 3000), sharpen(2), run(3, 5000), sharpen(4)}), "edges.knives")
	assert.InDelta(t, 2, w.Sharpened, 0)
	assert.InDelta(t, 2*(90+160.0/4), w.Paid, 1e-9, "two sharpenings, and two of the four lives that 160 buys")
	assert.InDelta(t, 90, w.Sharpening.Value, 0)
	assert.InDelta(t, (160+3*80)/(4*4000.0), w.StudyCost, 1e-12, "160 and three sharpenings at 60 + 20 over four lives")
}

func TestDamageIsToldByItselfAndSaysNothingAgainstTheLifeUntilDull(t *testing.T) {
	var log []logbook.Entry
	for life := range 20 {
		run, reason := 190+float64(life), logbook.Dull
		if life%2 == 0 {
			run, reason = 60+float64(life), logbook.Damage
		}
		log = append(log, buy(3*life, "1", 80), use(3*life+1, "1", run), end(3*life+2, "1", reason))
	}
	r := taken(t, studygen.Round(), log)
	blade := worn(t, r, "edges.blade")
	assert.InDelta(t, 0.5, blade.ByDamage.Value, 1e-12)
	found, ok := suggestion(r, "edges.blade.sudden_share")
	require.True(t, ok, "half of the lives, and none in the study")
	assert.InDelta(t, 0.5, found.New, 1e-12)
	assert.InDelta(t, 200, blade.Lasts.Value, 20)
	assert.Less(t, blade.Mean.Value, 150.0, "all ends together come sooner")
}

func TestARunInResinCountsAsMoreInPlainHardwood(t *testing.T) {
	s := studygen.Round()
	s.Materials[0].EdgeLife = 0.5
	line := use(1, "1", 80)
	line.Job = "top"
	w := worn(t, taken(t, s, []logbook.Entry{buy(0, "1", 80), line, end(2, "1", logbook.Dull)}), "edges.blade")
	assert.InDelta(t, 160, w.Curve[0].Run, 1e-9, "80 m at half the life")
	assert.InDelta(t, 80, w.Run, 1e-9)
	assert.InDelta(t, 0.8, w.StudyCost, 1e-12, "80 for 200 m, twice that in this wood")
}

// A line that does not name its job counts by the mix of the study's own cutting: of 30
// tops that run as far, 20 at half the life take 40 and 10 at the whole of it 10, so that
// 30 m are 50 m in plain hardwood.
func TestARunWithoutAJobCountsByTheMixOfWhatRunsOnThatEdge(t *testing.T) {
	s := studygen.Round()
	s.Materials[0].EdgeLife = 0.5
	plain, light := s.Materials[0], s.JobTypes[0]
	plain.Key, plain.EdgeLife = "plain", 1
	light.Key, light.Name, light.Material, light.PerYear = "light", "light", "plain", 10
	s.Materials, s.JobTypes = append(s.Materials, plain), append(s.JobTypes, light)
	lasted := func(s *model.Study) float64 {
		return worn(t, taken(t, s, []logbook.Entry{buy(0, "1", 80), use(1, "1", 60), end(2, "1", logbook.Dull)}), "edges.blade").Curve[0].Run
	}
	assert.InDelta(t, 100, lasted(s), 1e-9)
	s.JobTypes[1].Operations = light.Operations[:1] // planed at the shop, on other knives
	assert.InDelta(t, 120, lasted(s), 1e-9, "all of what is cut is at half the life")
}

func TestALifeBeginsAtNothing(t *testing.T) {
	blade := worn(t, taken(t, studygen.Round(), []logbook.Entry{
		buy(0, "1", 80), use(1, "1", 150), end(2, "1", logbook.Dull), use(3, "1", 190), end(4, "1", logbook.Dull),
	}), "edges.blade")
	require.Len(t, blade.Curve, 2)
	assert.InDelta(t, 150, blade.Curve[0].Run, 0)
	assert.InDelta(t, 190, blade.Curve[1].Run, 0)
}

func TestAnEndOfWhatNeverRanIsToldAndCostsNothing(t *testing.T) {
	r := taken(t, studygen.Round(), []logbook.Entry{buy(0, "1", 80), use(1, "1", 150), end(2, "1", logbook.Dull), end(3, "1", logbook.Dull)})
	blade := worn(t, r, "edges.blade")
	assert.Equal(t, []track.LeftOut{{Lines: 1, Why: "nothing was run on it"}}, r.LeftOut)
	assert.InDelta(t, 1, blade.Ended, 0)
	assert.InDelta(t, 80, blade.Paid, 1e-9)
}

func TestASharpeningIsSuggestedWithoutItsErrand(t *testing.T) {
	s := studygen.Round()
	var log []logbook.Entry
	for life := range 6 {
		log = append(log,
			logbook.Entry{Date: on(2 * life), Kind: logbook.Use, Subject: "knives", Item: "a", Jobs: 1, Length: 4000, Given: logbook.HasLength},
			logbook.Entry{Date: on(2*life + 1), Kind: logbook.Sharpen, Subject: "knives", Item: "a", Jobs: 1, Amount: quantity.Money(110 + 2*float64(life%2)), Given: logbook.HasAmount, Reason: logbook.Dull})
	}
	r := taken(t, s, log)
	found, ok := suggestion(r, "edges.knives.sharpening_price")
	require.True(t, ok, "80 in the study: 60 and an errand of 20")
	paid := worn(t, r, "edges.knives").Sharpening
	assert.InDelta(t, 111, paid.Value, 1e-9)
	assert.InDelta(t, 91, found.New, 1e-9)
	assert.InDelta(t, paid.Low-20, found.Low, 0.02, "in round figures")
	assert.InDelta(t, paid.High-20, found.High, 0.02)
}

func TestMinutesWorkedByHand(t *testing.T) {
	work := func(day int, minutes float64, operation string, jobs float64) logbook.Entry {
		return logbook.Entry{Date: on(day), Kind: logbook.Work, Subject: "saw", Job: "top", Operation: operation, Jobs: jobs, Minutes: quantity.Minutes(minutes), Given: logbook.HasMinutes}
	}
	r := taken(t, studygen.Round(), []logbook.Entry{
		work(0, 60, "cut", 1), work(1, 120, "cut", 2), work(2, 66, "cut", 1), work(3, 6, logbook.Setup, 1), work(4, 60, "edge", 1),
	})
	m := machine(t, r, "tools.saw")
	// 50 mm go in one cut from one face, 3 steps of 20 mm at 1 m/min: 3 × (3 × 2.4 + 8) = 45.6 min.
	assert.InDelta(t, 4*45.6, m.All.Predicted.Minutes(), 1e-9)
	assert.InDelta(t, 246/(4*45.6), m.All.Ratio.Value, 1e-12)
	assert.Equal(t, 3, m.All.Lines)
	require.Len(t, m.Operations, 2)
	assert.Equal(t, track.Setup, m.Operations[1].Key)
	assert.InDelta(t, 6.0/5, m.Operations[1].Ratio.Value, 1e-12, "6 min for the 5 of the study")
	assert.Equal(t, []track.LeftOut{{Lines: 1, Why: "the study has no such work on that machine, so that there are no minutes to compare with"}}, r.LeftOut, "a saw has no edge to rout")
}

func TestSetUpIsSuggestedFromLinesOfItsOwn(t *testing.T) {
	var log []logbook.Entry
	for day := range 8 {
		log = append(log, logbook.Entry{Date: on(day), Kind: logbook.Work, Subject: "saw", Operation: logbook.Setup, Jobs: 1, Minutes: quantity.Minutes(9 + float64(day%2)), Given: logbook.HasMinutes})
	}
	found, ok := suggestion(taken(t, studygen.Round(), log), "tools.saw.setup")
	require.True(t, ok)
	assert.InDelta(t, 9.5*60, found.New, 1e-9, "9 and 10 min by turns, where the study has 5")
}

// TestALogbookThatGoesAsTheStudySaysSuggestsNothing writes logbooks of generated studies
// without any noise.
func TestALogbookThatGoesAsTheStudySaysSuggestsNothing(t *testing.T) {
	for seed, s := range studygen.Studies(40) {
		r := taken(t, s, asReckoned(s))
		assert.Empty(t, r.Suggestions, "seed %d", seed)
		for _, m := range r.Machines {
			assert.InDelta(t, 1, m.All.Ratio.Value, 1e-9, "seed %d %s", seed, m.Path)
		}
		for _, v := range r.Visits {
			assert.Empty(t, v.Steps, "seed %d", seed)
			if v.Compared > 0 {
				assert.InDelta(t, 1, v.Ratio.Value, 1e-9, "seed %d %s", seed, v.Shop)
			}
		}
	}
}

// asReckoned is a year in which all goes as a study says.
func asReckoned(s *model.Study) []logbook.Entry {
	var log []logbook.Entry
	plan, none := work.New(s), make([]bool, len(s.Machines))
	members := alternative.RentOf(s, plan, none).Members
	for job := range s.JobTypes {
		kind := &s.JobTypes[job]
		for day := range 12 {
			log = append(log, workOf(s, plan, job, on(30*day))...)
			errand, shop := alternative.ErrandOf(s, plan, none, job), work.ShopOf(s, job)
			if len(errand.Pieces) == 0 {
				continue
			}
			visit := rental.Price(&s.Studio, s.Money, alternative.Together(s, shop, []alternative.Errand{errand}, []int{1}), members[shop])
			log = append(log, logbook.Entry{
				Date: on(30 * day), Kind: logbook.Visit, Subject: s.Shops[shop].Key, Job: kind.Key, Jobs: 1,
				Minutes: visit.Billed, Amount: quantity.Money(visit.Shop), Given: logbook.HasMinutes | logbook.HasAmount,
			})
		}
		done := float64(kind.PerYear) * 366 / 365.25
		log = append(log, logbook.Entry{Date: on(0), Kind: logbook.Done, Job: kind.Key, Jobs: done / 2}, logbook.Entry{Date: on(365), Kind: logbook.Done, Job: kind.Key, Jobs: done / 2},
			logbook.Entry{Date: on(200), Kind: logbook.Rework, Job: kind.Key, Jobs: done * float64(kind.ReworkChance)})
	}
	return log
}

// workOf is a line for each operation of a job on the machine that does it.
func workOf(s *model.Study, plan *work.Plan, job int, date quantity.Date) []logbook.Entry {
	var log []logbook.Entry
	at := map[[3]int]int{}
	for _, row := range plan.Of(job) {
		if !row.Used {
			continue
		}
		key := [3]int{row.Operation, int(row.Site), row.Machine}
		if _, ok := at[key]; !ok {
			subject := ""
			if row.Site == work.AtShop {
				subject = s.Shops[work.ShopOf(s, job)].Machines[row.Machine].Key
			} else {
				subject = s.Tools[row.Machine].Key
			}
			at[key] = len(log)
			log = append(log, logbook.Entry{Date: date, Kind: logbook.Work, Subject: subject, Job: s.JobTypes[job].Key, Operation: s.JobTypes[job].Operations[row.Operation].Key, Jobs: 1, Given: logbook.HasMinutes})
		}
		log[at[key]].Minutes += whatItIs(s, plan, job, row, key)
	}
	return log
}

// whatItIs is the run of a row: where pieces of one operation go to several machines,
// the study reckons the whole operation on each.
func whatItIs(s *model.Study, plan *work.Plan, job int, row work.Row, key [3]int) quantity.Duration {
	first := true
	var sum quantity.Duration
	for _, other := range plan.Of(job) {
		if other.Operation != key[0] || int(other.Site) != key[1] || other.Machine != key[2] {
			continue
		}
		if other.Used && first {
			if other.Step != row.Step {
				return 0
			}
			first = false
		}
		sum += other.Run
	}
	return sum
}

func TestADriftIsToldAndChanceIsNot(t *testing.T) {
	s := studygen.Round()
	random := rand.New(rand.NewPCG(7, 2026))
	var log []logbook.Entry
	for day := 0; day < 720; day += 6 {
		factor := 1.0
		if day > 365 {
			factor = 1.2
		}
		noise := math.Exp(0.05 * random.NormFloat64())
		log = append(log,
			logbook.Entry{Date: on(day), Kind: logbook.Work, Subject: "saw", Job: "top", Operation: "cut", Jobs: 1, Minutes: quantity.Minutes(45.6 * factor * noise), Given: logbook.HasMinutes},
			logbook.Entry{Date: on(day), Kind: logbook.Work, Subject: "router", Job: "top", Operation: "edge", Jobs: 1, Minutes: quantity.Minutes(24 * noise), Given: logbook.HasMinutes},
			logbook.Entry{Date: on(day), Kind: logbook.Done, Job: "top", Jobs: 1})
	}
	told := map[string]bool{}
	r := taken(t, s, log)
	require.NotEmpty(t, r.Drift)
	for _, d := range r.Drift {
		told[d.Path] = told[d.Path] || d.Told
		if d.Path == "tools.saw" {
			assert.InDelta(t, 1.2, d.Now/d.Before, 0.03)
		}
	}
	assert.Equal(t, map[string]bool{"tools.saw": true, "tools.router": false, "job_types.top": false}, told)
}

func TestWhatTheLogbookSaidBeforeDoesNotCountTwice(t *testing.T) {
	var log []logbook.Entry
	for life := range 12 {
		log = append(log, buy(3*life, "1", 80), use(3*life+1, "1", 300+float64(life%5)*30), end(3*life+2, "1", logbook.Dull))
	}
	s := studygen.Round()
	first := taken(t, s, log)
	found, ok := suggestion(first, "edges.blade.life")
	require.True(t, ok)
	s.Edges[1].Life = quantity.Distance(found.New)
	s.Origins["edges.blade.life"] = model.Origin{HasRange: true, Low: found.Low, High: found.High, Source: track.SourceMark + string(first.Last) + ": 12 lives"}
	again := taken(t, s, log)
	w := worn(t, again, "edges.blade")
	assert.True(t, w.FromLog)
	assert.Greater(t, w.Lasts.High-w.Lasts.Low, 0.9*(found.High-found.Low), "the same lives make it no narrower")
	_, ok = suggestion(again, "edges.blade.life")
	assert.False(t, ok)
	// A later logbook is news.
	for i := range log {
		log[i].Date = quantity.DateOf(log[i].Date.Day() + 400)
	}
	assert.False(t, worn(t, taken(t, s, log), "edges.blade").FromLog)
}

func TestALineThatTheStudyDoesNotKnowIsLeftOutAndCounted(t *testing.T) {
	r := taken(t, studygen.Round(), []logbook.Entry{
		{Date: on(0), Kind: logbook.Visit, Subject: "nowhere", Jobs: 1}, {Date: on(0), Kind: logbook.Done, Job: "none", Jobs: 1},
		{Date: on(0), Kind: logbook.Use, Subject: "none", Jobs: 1}, {Date: on(0), Kind: logbook.Buy, Subject: "glue", Jobs: 1},
		{Date: on(0), Kind: logbook.Work, Subject: "none", Operation: logbook.Setup, Jobs: 1},
	})
	lines := 0
	for _, one := range r.LeftOut {
		lines += one.Lines
	}
	assert.Equal(t, 4, lines, "%v", r.LeftOut)
	assert.Empty(t, r.Suggestions)
	empty := taken(t, studygen.Round(), nil)
	assert.Empty(t, empty.First)
	assert.Empty(t, empty.Suggestions)
}
