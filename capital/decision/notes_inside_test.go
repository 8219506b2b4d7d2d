package decision

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
	"shopstint/rental"
)

// laid is the round study, changed, with its plan and nothing else answered.
func laid(change func(*model.Study)) *Answer {
	s := studygen.Round()
	change(s)
	return &Answer{Study: s, Plan: work.New(s)}
}

// about are the notes on a path.
func about(notes []Note, path string) (texts []string) {
	for _, note := range notes {
		if note.Path == path {
			texts = append(texts, note.Text)
		}
	}
	return texts
}

// 23 kg is the load constant of the NIOSH equation, 51 lb is 23.13 kg, and half a
// kilogram more is let pass.
func TestALiftLimitIsDoubtedFromMoreThanHalfAKilogramOverTheGuide(t *testing.T) {
	for limit, doubts := range map[quantity.Mass]int{0: 0, 22.99: 0, 23: 0, 51 * 0.45359237: 0, 23.5: 0, 23.51: 1, 30: 1} {
		assert.Len(t, limitNotes(laid(func(s *model.Study) { s.Studio.LiftLimit = limit })), doubts, "%v kg", limit)
	}
}

func TestASandingStepIsDoubtedOnlyWhenMeasuredWithoutGrits(t *testing.T) {
	for _, row := range []struct {
		name     string
		class    string
		measured quantity.Duration
		grits    int
		doubts   int
	}{
		{"wide belt, measured, no grits", model.WideBelt, 60, 0, 1},
		{"hand-held, measured, no grits", model.Orbital, 60, 0, 1},
		{"measured to one second", model.Orbital, 1, 0, 1},
		{"not measured", model.WideBelt, 0, 0, 0},
		{"not measured, by hand", model.Orbital, 0, 0, 0},
		{"one grit", model.WideBelt, 60, 1, 0},
		{"one grit, by hand", model.Orbital, 60, 1, 0},
		{"another machine", model.Planer, 60, 0, 0},
		{"another machine, not measured", model.Planer, 0, 0, 0},
	} {
		answer := laid(func(s *model.Study) {
			s.JobTypes[0].Operations = []model.Operation{{Key: "step", Class: row.class, Measured: row.measured, Grits: make([]model.Grit, row.grits)}}
		})
		assert.Len(t, about(gritNotes(answer), "job_types.top.operations.step"), row.doubts, row.name)
	}
}

func TestAPlanerIsDoubtedOnlyWhereNothingMakesThePieceFlat(t *testing.T) {
	planer, sled, belt := model.Operation{Class: model.Planer}, model.Operation{Class: model.RouterSled}, model.Operation{Class: model.WideBelt}
	for _, row := range []struct {
		name   string
		flat   bool
		steps  []model.Operation
		doubts int
	}{
		{"planed as it comes", false, []model.Operation{planer}, 1},
		{"planed and sanded", false, []model.Operation{planer, belt}, 1},
		{"arrives flat", true, []model.Operation{planer}, 0},
		{"flattened before", false, []model.Operation{sled, planer, belt}, 0},
		{"not planed", false, []model.Operation{belt}, 0},
		{"flattened only", false, []model.Operation{sled}, 0},
	} {
		answer := &Answer{Study: &model.Study{JobTypes: []model.JobType{{Key: "top", ArrivesFlat: row.flat, Operations: row.steps}}}}
		assert.Len(t, about(flatNotes(answer), "job_types.top"), row.doubts, row.name)
	}
}

// planing is the round study whose planer has a head and knives, and a feed in m/s.
func planing(head quantity.Rotation, knives quantity.Count, feed quantity.Speed) []string {
	answer := laid(func(s *model.Study) {
		planer := &s.Machines[0]
		planer.HeadSpeed, planer.Knives, planer.Feed = head, knives, feed
	})
	return about(markNotes(answer), "machines.planer_own")
}

// Marks a metre are turns a second times knives over metres a second; the bound is
// 20 to the inch.
func TestKnifeMarksAreDoubtedBelowTwentyToTheInch(t *testing.T) {
	assert.Empty(t, planing(work.GoodMarks, 1, 1), "20 to the inch")
	assert.Empty(t, planing(1.01*work.GoodMarks, 1, 1))
	require.Len(t, planing(0.9*work.GoodMarks, 1, 1), 1)
	assert.Equal(t, "leaves 18 knife marks to the inch at full feed; 20 or more are wanted on a face that is only sanded afterwards",
		planing(0.9*work.GoodMarks, 1, 1)[0])
	require.Len(t, planing(1, 1, 0.0254/5), 1, "a head of one turn a second is a head")
	assert.Contains(t, planing(1, 1, 0.0254/5)[0], "leaves 5 knife marks")
	require.Len(t, planing(2, 3, 0.0254), 1)
	assert.Contains(t, planing(2, 3, 0.0254)[0], "leaves 6 knife marks")
	assert.Empty(t, planing(0, 4, 0.1), "nobody gave the head's speed")
	assert.Empty(t, planing(80, 0, 0.1), "nobody gave the knives")
}

// Two planing steps go over one planer: one doubt. A head on another machine leaves no
// knife marks.
func TestAMachinesKnifeMarksAreNotedOnce(t *testing.T) {
	answer := laid(func(s *model.Study) {
		s.JobTypes[0].Operations = append(s.JobTypes[0].Operations, s.JobTypes[0].Operations[0])
		for m := range s.Machines {
			s.Machines[m].HeadSpeed, s.Machines[m].Knives, s.Machines[m].Feed = 1, 1, 1
		}
	})
	notes := markNotes(answer)
	assert.Len(t, about(notes, "machines.planer_own"), 1)
	assert.Len(t, notes, 1)
}

func TestARefusalOfTwoLikeStepsIsNotedOnce(t *testing.T) {
	answer := laid(func(s *model.Study) {
		s.JobTypes[0].Operations = append(s.JobTypes[0].Operations, s.JobTypes[0].Operations[0])
		s.Machines[0].MaxWidth, s.Machines[0].MostMass = 0.8, 70 // the top is 0.9 m wide and weighs 75.6 kg
	})
	require.Greater(t, len(answer.Plan.Refusals(answer.Study)), 2)
	assert.ElementsMatch(t, []string{
		"top, piece top is too wide for it: 900 mm against 800 mm", "top, piece top is too heavy for its table: 75.6 kg against 70 kg",
	}, about(refusalNotes(answer), "machines.planer_own"))
}

func TestSizesAreMetricWhereTheUnitsAreUnknown(t *testing.T) {
	assert.Equal(t, "900 mm", sized(&model.Study{}, quantity.DimLength, 0.9))
	assert.Equal(t, "35.43 in", sized(&model.Study{Units: "inch"}, quantity.DimLength, 0.9))
}

// supplied are the notes on the supply of one motor, on 230 V with 60 A to spare.
func supplied(watts quantity.Power, needs, has quantity.Count, converter quantity.Money) []string {
	answer := laid(func(s *model.Study) {
		s.Studio.Phases = has
		machine := &s.Machines[0]
		machine.Motor, machine.MachinePhases, machine.Converter = watts, needs, converter
	})
	return about(supplyNotes(answer), "machines.planer_own")
}

// P = U·I on one phase: 230 V × 60 A are 13,800 W. On three, √3·U·I: 23,902 W.
func TestAMotorIsDoubtedAboveTheSupplyAndThreePhasesWithoutThem(t *testing.T) {
	const phases, draws = "needs three phases", "draws about"
	for _, row := range []struct {
		name       string
		watts      quantity.Power
		needs, has quantity.Count
		converter  quantity.Money
		says       []string
	}{
		{"no motor given", 0, 1, 1, 0, nil},
		{"60 A of 60", 230 * 60, 1, 1, 0, nil},
		{"61 A of 60", 230 * 61, 1, 1, 0, []string{draws}},
		{"three phases carry more", 23900, 3, 3, 0, nil},
		{"and no more than that", 23910, 3, 3, 0, []string{draws}},
		{"one phase of three", 0, 1, 3, 0, nil},
		{"three of one", 0, 3, 1, 0, []string{phases}},
		{"three of one, with a converter for 1", 0, 3, 1, 1, nil},
		{"three of one, and too much", 230 * 61, 3, 1, 0, []string{phases, draws}},
	} {
		texts := supplied(row.watts, row.needs, row.has, row.converter)
		require.Len(t, texts, len(row.says), row.name)
		for i, words := range row.says {
			assert.Contains(t, texts[i], words, row.name)
		}
	}
	assert.Equal(t, "draws about 61 A at full load, without its collector, and the studio has 60 A to spare: ask an electrician before buying",
		supplied(230*61, 1, 1, 0)[0])
}

// A motor of 2,300 W that turns 80 % of what it draws into work, at a power factor of
// 0.5, draws 2300/(230 × 0.8 × 0.5) = 25 A.
func TestAMotorDrawsMoreThanItsRating(t *testing.T) {
	answer := laid(func(s *model.Study) {
		machine := &s.Machines[0]
		machine.Motor, machine.Efficiency, machine.PowerFactor, s.Studio.Amps = 2300, 0.8, 0.5, 24
	})
	require.Len(t, supplyNotes(answer), 1)
	assert.Contains(t, supplyNotes(answer)[0].Text, "draws about 25 A at full load, without its collector, and the studio has 24 A to spare")
}

func TestTheSetToOwnTogetherIsDoubtedOnlyOverASupplyThatWasAssumed(t *testing.T) {
	for _, row := range []struct {
		draw   joint.Draw
		doubts int
	}{
		{joint.Draw{Amps: 60, Free: 60, AtOnce: 2}, 0},
		{joint.Draw{Amps: 61, Free: 60, AtOnce: 2}, 1},
		{joint.Draw{Amps: 61, Free: 60, AtOnce: 2, Limited: true}, 0},
	} {
		texts := about(togetherNotes(&Answer{Joint: joint.Result{Draw: row.draw}}), "studio.amps")
		require.Len(t, texts, row.doubts)
		if row.doubts > 0 {
			assert.Contains(t, texts[0], "about 61 A with as many running at once as there are people (2), and 60 A are assumed to be free")
		}
	}
}

func TestWhatAMachineNeedsIsNamedFromTheFirstOn(t *testing.T) {
	for want, needs := range map[string][]string{"": nil, "(collector)": {"collector"}, "(collector, lift)": {"collector", "lift"}} {
		texts := about(needNotes(laid(func(s *model.Study) { s.Machines[0].Needs = needs })), "machines.planer_own")
		require.Len(t, texts, min(1, len(needs)))
		if len(needs) > 0 {
			assert.Contains(t, texts[0], "leaves out what it is not owned without "+want)
		}
	}
}

// visited is the round study whose job has these visits, by jobs aboard.
func visited(visits ...rental.Visit) *Answer {
	answer := laid(func(s *model.Study) { s.Studio.Vehicle.BedLength = 2.4 })
	answer.Rented.Jobs = []alternative.JobRent{{Visits: visits}}
	return answer
}

func TestAFullVisitOfSeveralTripsIsNoted(t *testing.T) {
	for _, row := range []struct {
		name   string
		visits []rental.Visit
		says   []string
	}{
		{"one trip", []rental.Visit{{Billed: 60, RoundTrips: 1}}, nil},
		{"two trips", []rental.Visit{{Billed: 60, RoundTrips: 2}}, []string{"top: the load of a full visit takes 2 round trips with this vehicle"}},
		{"a second on the clock", []rental.Visit{{Billed: 1, RoundTrips: 3}}, []string{"top: the load of a full visit takes 3 round trips with this vehicle"}},
		{"no visit", []rental.Visit{{RoundTrips: 2}}, nil},
		{"the full visit counts", []rental.Visit{{Billed: 60, RoundTrips: 1}, {Billed: 90, RoundTrips: 2}}, []string{"top: the load of a full visit takes 2 round trips with this vehicle"}},
	} {
		assert.Equal(t, row.says, about(vehicleNotes(visited(row.visits...)), "job_types.top"), row.name)
	}
}

func TestAPieceIsDoubtedWhenItIsLongerThanTheBed(t *testing.T) {
	for length, want := range map[quantity.Length][]string{
		2.39: nil, 2.4: nil, 2.5: {"top, piece top is longer than the vehicle's bed: 2500 mm against 2400 mm"},
	} {
		answer := visited(rental.Visit{Billed: 60, RoundTrips: 1})
		answer.Study.JobTypes[0].Pieces[0].Length = length
		assert.Equal(t, want, about(vehicleNotes(answer), "job_types.top"), "%v m", length)
		answer.Rented.Jobs[0].Visits[0].Billed = 0
		assert.Empty(t, vehicleNotes(answer), "nothing is carried")
	}
}

func TestHiredHandsAreNotedWithThePeopleInAll(t *testing.T) {
	for _, row := range []struct {
		name   string
		visits []rental.Visit
		says   string
	}{
		{"one helper", []rental.Visit{{Billed: 60, Crew: 2, Helpers: 1}}, "top: its heaviest piece is priced with 3 people at 25 kg each"},
		{"a second on the clock", []rental.Visit{{Billed: 1, Crew: 1, Helpers: 3}}, "4 people"},
		{"the full visit counts", []rental.Visit{{Billed: 60, Crew: 2}, {Billed: 90, Crew: 2, Helpers: 2}}, "4 people"},
		{"no helper", []rental.Visit{{Billed: 60, Crew: 2}}, ""},
		{"no visit", []rental.Visit{{Crew: 2, Helpers: 1}}, ""},
	} {
		texts := about(liftNotes(visited(row.visits...)), "job_types.top")
		require.Len(t, texts, min(1, len(row.says)), row.name)
		if row.says != "" {
			assert.Contains(t, texts[0], row.says, row.name)
			assert.Contains(t, texts[0], "no safe load", row.name)
		}
	}
}

// owningHours answers for the first machine only: its age and its hours, year by year.
func owningHours(life float64, ages, hours []float64) []string {
	answer := laid(func(s *model.Study) {
		s.Machines[0].Hours, s.Machines[0].LifeHours = quantity.Hours(100), quantity.Hours(life)
	})
	owner := alternative.Ownership{Profile: capital.Profile{Hours: hours}}
	owner.Table[capital.Age] = ages
	answer.Machines = []single.Result{{Machine: 0, Owner: owner}}
	return about(wearOutNotes(answer), "machines.planer_own")
}

// Bought with 100 h on it, it runs 10 and 20 h and is sold with 130; the next one, bought
// alike, runs 25 h: 125.
func TestAMachineIsDoubtedThatRunsMoreHoursThanItsLife(t *testing.T) {
	ages, hours := []float64{0, 1, 2, 1}, []float64{10, 20, 25}
	assert.Empty(t, owningHours(131, ages, hours))
	assert.Empty(t, owningHours(130, ages, hours))
	assert.Equal(t, []string{"would have run 130 h when it is sold, of a life of 129 h: keep it fewer years"}, owningHours(129, ages, hours))
	assert.Len(t, owningHours(109, []float64{0, 1}, hours[:1]), 1, "one year alone")
	assert.Len(t, owningHours(140, []float64{0, 1, 2, 3}, hours), 1, "the last year counts: 155 h")
}

func TestOnlyAMachineWithoutAnyWorkIsIdle(t *testing.T) {
	for jobs, want := range map[float64]int{0: 1, 0.5: 0, 1: 0, 20: 0} {
		answer := laid(func(*model.Study) {})
		answer.Machines = []single.Result{{Machine: 1, Jobs: jobs}}
		assert.Len(t, about(idleNotes(answer), "machines.belt_own"), want, "%v jobs", jobs)
	}
}

// swinging is one machine's answer 10 with these swings.
func swinging(machine int, swings ...single.Swing) single.Result {
	return single.Result{Machine: machine, Difference: 10, Swings: swings}
}

func TestAssumedInputsThatMoveSomethingAreListedOnceLargestFirst(t *testing.T) {
	swing := func(path string, low, high float64) single.Swing {
		return single.Swing{Path: path, Assumed: true, AtLow: low, AtHigh: high}
	}
	given := single.Swing{Path: "given", AtLow: -50, AtHigh: 50}
	list := assumptions([]single.Result{
		swinging(0, swing("small", 10, 11), swing("still", 10, 10), swing("both", 8, 12), swing("more", 9, 11), given),
		swinging(1, swing("both", 12, 8), swing("more", -20, 10), swing("still", 10, 10), swing("small", 10, 10.5), swing("down", 12, 9)),
	})
	type told struct {
		path    string
		machine int
		flips   bool
	}
	var got []told
	for _, one := range list {
		got = append(got, told{one.Path, one.Machine, one.Flips})
		assert.Equal(t, one.Path, one.Swing.Path)
	}
	assert.Equal(t, []told{
		{"more", 1, true},  // 30 with the second machine, which one end turns
		{"both", 0, false}, // 4 with either: the first
		{"down", 1, false}, // 3, downwards
		{"small", 0, false},
	}, got)
}
