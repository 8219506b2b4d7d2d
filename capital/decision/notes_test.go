package decision_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// quiet is the round study without anything to point out.
func quiet() *model.Study {
	s := studygen.Round()
	s.JobTypes[0].Pieces[0].Width = 0.4 // 33.6 kg: two people
	s.Studio.LiftLimit = 23
	return s
}

func TestAStudyWithoutDoubtsHasNoNotes(t *testing.T) {
	assert.Empty(t, decision.Decide(quiet()).Notes)
}

func TestEachDoubtIsNotedWhereItBelongs(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(*model.Study)
		path   string
		says   []string
	}{
		{"a piece too wide", func(s *model.Study) { s.Machines[0].MaxWidth = 0.3 }, "machines.planer_own", []string{"too wide", "400 mm", "300 mm"}},
		{"a piece too thick", func(s *model.Study) { s.Machines[1].MaxOpening = 0.04 }, "machines.belt_own", []string{"too thick", "50 mm", "40 mm"}},
		{"a piece too short", func(s *model.Study) { s.Shops[0].Machines[0].LeastLength = 3 }, "shops.mill.machines.planer", []string{"too short", "2400 mm", "3000 mm"}},
		{"a piece too heavy", func(s *model.Study) { s.Machines[0].MostMass = 30 }, "machines.planer_own", []string{"too heavy", "33.6 kg", "30 kg"}},
		{"resin refused", func(s *model.Study) { s.Materials[0].Resin, s.Machines[0].TakesResin = true, false }, "machines.planer_own", []string{"resin"}},
		{"nothing flat", func(s *model.Study) { s.JobTypes[0].ArrivesFlat = false }, "job_types.top", []string{"does not flatten", "arrives_flat", "router_sled"}},
		{"knife marks", func(s *model.Study) {
			s.Machines[0].HeadSpeed, s.Machines[0].Knives = 5000.0/60, 1 // 5000 ÷ 6 m/min: 21 to the inch
			s.Machines[0].Feed = quantity.MetresPerMinute(12)
		}, "machines.planer_own", []string{"11 knife marks", "20 or more"}},
		{"phases", func(s *model.Study) { s.Machines[0].MachinePhases = 3 }, "machines.planer_own", []string{"three phases", "converter"}},
		{"amperes", func(s *model.Study) { s.Machines[0].Motor = quantity.Kilowatts(23) }, "machines.planer_own", []string{"100 A", "60 A", "electrician"}},
		{"a heavy load", func(s *model.Study) { s.Studio.Vehicle.Payload = 30 }, "job_types.top", []string{"2 round trips"}},
		{"a long piece", func(s *model.Study) { s.Studio.Vehicle.BedLength = 2 }, "job_types.top", []string{"longer than the vehicle's bed", "2400 mm", "2000 mm"}},
		{"a heavy piece", func(s *model.Study) { s.Studio.LiftLimit = 10 }, "job_types.top", []string{"4 people", "10 kg"}},
		{"a limit over any guide's", func(s *model.Study) { s.Studio.LiftLimit = 25 }, "studio.lift_limit", []string{"23 kg", "NIOSH"}},
		{"sanding without grits", func(s *model.Study) {
			for o := range s.JobTypes[0].Operations {
				if step := &s.JobTypes[0].Operations[o]; step.Class == model.WideBelt {
					step.Measured, step.Grits = quantity.Minutes(20), nil
				}
			}
		}, "job_types.top.operations.sand", []string{"no belt or disc is priced"}},
		{"amperes nobody gave", func(s *model.Study) {
			s.Machines[0].Motor = quantity.Kilowatts(23)
			s.Origins["studio.amps"] = model.Origin{Assumed: true}
		}, "machines.planer_own", []string{"is assumed to have 60 A to spare"}},
		{"a short life", func(s *model.Study) { s.Machines[0].LifeHours = quantity.Hours(10) }, "machines.planer_own", []string{"h when it is sold", "10 h", "fewer years"}},
		{"no work", func(s *model.Study) {
			s.Machines[0].Class, s.Machines[0].Does = model.PanelSaw, []string{model.PanelSaw}
		}, "machines.planer_own", []string{"takes none of the work"}},
		{"other money", func(s *model.Study) { s.Currency = "EUR" }, "currency", []string{"US dollars", "EUR"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := quiet()
			row.change(s)
			var notes []decision.Note
			for _, note := range decision.Decide(s).Notes {
				if note.Path == row.path && strings.Contains(note.Text, row.says[0]) {
					notes = append(notes, note)
				}
			}
			require.Len(t, notes, 1, "%v", decision.Decide(s).Notes)
			for _, word := range row.says {
				assert.Contains(t, notes[0].Text, word)
			}
		})
	}
}

func TestNotesAreInTheUnitsOfTheStudy(t *testing.T) {
	s := quiet()
	s.Units = "inch"
	s.Studio.Vehicle.BedLength = 2
	notes := decision.Decide(s).Notes
	require.Len(t, notes, 1)
	assert.Contains(t, notes[0].Text, "94.49 in against 78.74 in")
}

func TestWhatIsNotPricedIsSaid(t *testing.T) {
	assert.Greater(t, len(decision.NotPriced), 8)
	for _, line := range decision.NotPriced {
		assert.NotEmpty(t, strings.TrimSpace(line))
		assert.NotEqual(t, '.', line[len(line)-1], line)
	}
}
