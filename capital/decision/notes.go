package decision

import (
	"fmt"
	"strings"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
)

// Note is something to look at beside the figures: not an error, but a doubt
// with what would cure it.
type Note struct {
	Path string // what it is about
	Text string
}

// NotPriced lists what the answer leaves out. Each is a reason to think again
// when the money is close.
var NotPriced = []string{
	"quality you control yourself, and the queue at the shop (lead time, slots that do not come back)",
	"delivery days lost while a rework waits for cure and for the next slot; only its visit and hours are priced",
	"heated air that the dust collector carries out in winter",
	"dust, noise and fire rules the shop carries now, beyond the yearly amount you give",
	"breakdowns: lost weeks with no second machine, and renting while yours is down",
	"a forced sale, which fetches far less than the resale used here",
	"the shop closing, refusing resin or changing its hours; its prices only rise by the growth given",
	"cancellation charges and slots paid but not used",
	"labour lost to dull edges between sharpenings, and days without knives",
	"the work that the machine's floor displaces, beyond its rent",
	"machine hours guessed from the best month: jobs a year must be a whole year's number",
	"in a machine's own answer, what a second machine bought with it would save; the set to own together prices that",
}

// notes gathers what a practitioner would point out.
func notes(answer *Answer) []Note {
	var list []Note
	for _, gather := range []func(*Answer) []Note{
		refusalNotes, flatNotes, markNotes, supplyNotes, togetherNotes, needNotes, vehicleNotes, liftNotes, limitNotes, gritNotes, wearOutNotes, idleNotes, currencyNotes,
	} {
		list = append(list, gather(answer)...)
	}
	return list
}

// sized writes a quantity in the study's unit system.
func sized(study *model.Study, dim quantity.Dimension, si float64) string {
	system, err := quantity.ParseSystem(study.Units)
	if err != nil {
		system = quantity.Metric
	}
	return quantity.Brief(dim, si, system)
}

// refusalNotes tells which machines refuse which pieces, once for each
// machine, piece and reason.
func refusalNotes(answer *Answer) []Note {
	var list []Note
	seen := map[string]bool{}
	for _, refusal := range answer.Plan.Refusals(answer.Study) {
		row := &answer.Plan.Rows[refusal.Row]
		note := Note{Path: RowMachinePath(answer.Study, row), Text: refusalText(answer.Study, row, refusal)}
		if !seen[note.Path+note.Text] {
			seen[note.Path+note.Text] = true
			list = append(list, note)
		}
	}
	return list
}

// RowMachinePath returns the path of the machine that a row is about.
func RowMachinePath(study *model.Study, row *work.Row) string {
	return work.MachinePath(study, row.Site, work.ShopOf(study, row.Job), row.Machine)
}

func refusalText(study *model.Study, row *work.Row, refusal work.Refusal) string {
	kind, _, piece, _ := row.Parts(study)
	what := fmt.Sprintf("%s, piece %s", kind.Name, piece.Key)
	number := func(dim quantity.Dimension) string {
		return fmt.Sprintf("%s against %s", sized(study, dim, refusal.Piece), sized(study, dim, refusal.Limit))
	}
	switch refusal.What {
	case work.Heavy:
		return fmt.Sprintf("%s is too heavy for its table: %s", what, number(quantity.DimMass))
	case work.Short:
		return fmt.Sprintf("%s is too short for it: %s", what, number(quantity.DimLength))
	case work.ResinRefused:
		return what + " shows resin, which it refuses"
	default:
		return fmt.Sprintf("%s is too %s for it: %s", what, refusal.What, number(quantity.DimLength))
	}
}

// flatNotes: a planer copies the underside, so it does not flatten.
func flatNotes(answer *Answer) []Note {
	var list []Note
	for j := range answer.Study.JobTypes {
		kind := &answer.Study.JobTypes[j]
		planes, flattens := false, bool(kind.ArrivesFlat)
		for o := range kind.Operations {
			planes = planes || kind.Operations[o].Class == model.Planer
			flattens = flattens || kind.Operations[o].Class == model.RouterSled
		}
		if planes && !flattens {
			list = append(list, Note{"job_types." + kind.Key, kind.Name +
				": a planer thicknesses but does not flatten; say arrives_flat: yes, or add a flattening operation on a router_sled"})
		}
	}
	return list
}

// markNotes: a feed too fast for the head leaves knife marks.
func markNotes(answer *Answer) []Note {
	var list []Note
	seen := map[string]bool{}
	for i := range answer.Plan.Rows {
		row := &answer.Plan.Rows[i]
		ability := row.Ability(answer.Study)
		if ability.Class != model.Planer || ability.HeadSpeed == 0 || ability.Knives == 0 {
			continue
		}
		marks := work.KnifeMarks(ability.HeadSpeed, float64(ability.Knives), ability.Feed)
		path := RowMachinePath(answer.Study, row)
		if marks >= work.GoodMarks || seen[path] {
			continue
		}
		seen[path] = true
		list = append(list, Note{path, fmt.Sprintf(
			"leaves %.0f knife marks to the inch at full feed; %.0f or more are wanted on a face that is only sanded afterwards",
			marks*0.0254, work.GoodMarks*0.0254)})
	}
	return list
}

// supplyNotes compares what a motor draws with what the studio has. It is a
// planning figure, not a design.
func supplyNotes(answer *Answer) []Note {
	var list []Note
	studio := &answer.Study.Studio
	for m := range answer.Study.Machines {
		machine := &answer.Study.Machines[m]
		path := "machines." + machine.Key
		if machine.MachinePhases > studio.Phases && machine.Converter == 0 {
			list = append(list, Note{path, "needs three phases, the studio has one, and no converter is priced: a cheap three-phase machine may not be cheap"})
		}
		amps := work.MotorCurrent(machine.Motor, studio.Volts, float64(machine.Efficiency), float64(machine.PowerFactor), float64(studio.Phases))
		if amps > studio.Amps {
			list = append(list, Note{path, fmt.Sprintf(
				"draws about %.0f A at full load, without its collector, and the studio %s: ask an electrician before buying",
				float64(amps), ampsSaid(answer.Study))})
		}
	}
	return list
}

// ampsSaid says whether anybody gave the supply.
func ampsSaid(study *model.Study) string {
	said := fmt.Sprintf("has %.0f A to spare", float64(study.Studio.Amps))
	if study.Origins["studio.amps"].Assumed {
		said = fmt.Sprintf("is assumed to have %.0f A to spare", float64(study.Studio.Amps))
	}
	return said
}

// togetherNotes: what the best set draws against a supply that was only assumed,
// and so forbade nothing.
func togetherNotes(answer *Answer) []Note {
	draw := answer.Joint.Draw
	if !draw.Over() {
		return nil
	}
	return []Note{{"studio.amps", fmt.Sprintf(
		"the machines to own together are planned to draw about %.0f A with as many running at once as there are people (%d), and %.0f A are assumed to be free: give phases, volts and amps of your supply, and ask an electrician",
		draw.Amps, draw.AtOnce, draw.Free)}}
}

// needNotes: a machine's own answer leaves out what it is not owned without.
func needNotes(answer *Answer) []Note {
	var list []Note
	for m := range answer.Study.Machines {
		if machine := &answer.Study.Machines[m]; len(machine.Needs) > 0 {
			list = append(list, Note{"machines." + machine.Key, "its own answer leaves out what it is not owned without (" +
				strings.Join(machine.Needs, ", ") + "); the set to own together has it"})
		}
	}
	return list
}

// vehicleNotes: pieces longer than the bed, loads that take several trips.
func vehicleNotes(answer *Answer) []Note {
	var list []Note
	vehicle := &answer.Study.Studio.Vehicle
	for j := range answer.Rented.Jobs {
		kind := &answer.Study.JobTypes[j]
		visit := lastVisit(answer.Rented.Jobs[j].Visits)
		if visit.Billed == 0 {
			continue
		}
		if visit.RoundTrips > 1 {
			list = append(list, Note{"job_types." + kind.Key, fmt.Sprintf(
				"%s: the load of a full visit takes %.0f round trips with this vehicle", kind.Name, visit.RoundTrips)})
		}
		for p := range kind.Pieces {
			if piece := &kind.Pieces[p]; piece.Length > vehicle.BedLength {
				list = append(list, Note{"job_types." + kind.Key, fmt.Sprintf(
					"%s, piece %s is longer than the vehicle's bed: %s against %s", kind.Name, piece.Key,
					sized(answer.Study, quantity.DimLength, float64(piece.Length)), sized(answer.Study, quantity.DimLength, float64(vehicle.BedLength)))})
			}
		}
	}
	return list
}

func lastVisit(visits []rental.Visit) rental.Visit { return visits[len(visits)-1] }

// liftNotes: for how many hands the heaviest piece is priced.
func liftNotes(answer *Answer) []Note {
	var list []Note
	for j := range answer.Rented.Jobs {
		visit := lastVisit(answer.Rented.Jobs[j].Visits)
		if visit.Helpers == 0 || visit.Billed == 0 {
			continue
		}
		list = append(list, Note{"job_types." + answer.Study.JobTypes[j].Key, fmt.Sprintf(
			"%s: its heaviest piece is priced with %.0f people at %s each, which is no safe load; a cart, a vacuum lifter or a fork-lift lowers that",
			answer.Study.JobTypes[j].Name, visit.Crew+visit.Helpers, sized(answer.Study, quantity.DimMass, float64(answer.Study.Studio.LiftLimit)))})
	}
	return list
}

// overNIOSH: 23 kg, the most that one person may lift where all else is ideal.
//
// Source: Waters et al., Applications Manual for the Revised NIOSH Lifting Equation,
// DHHS (NIOSH) 94-110 (1994): load constant.
const overNIOSH = 23.5 // and half a kilogram, so that 51 lb written in pounds is not over

// limitNotes: a lift limit that no guide allows makes every visit cheaper on paper.
func limitNotes(answer *Answer) []Note {
	limit := answer.Study.Studio.LiftLimit
	if float64(limit) <= overNIOSH {
		return nil
	}
	return []Note{{"studio.lift_limit", "is over the 23 kg (51 lb) that the NIOSH lifting equation allows one person at best: fewer hands are priced than the work may need"}}
}

// gritNotes: a sanding step without grits runs no belt or disc that has a price.
func gritNotes(answer *Answer) []Note {
	var list []Note
	for j := range answer.Study.JobTypes {
		kind := &answer.Study.JobTypes[j]
		for o := range kind.Operations {
			step := &kind.Operations[o]
			if (step.Class == model.WideBelt || step.Class == model.Orbital) && step.Measured > 0 && len(step.Grits) == 0 {
				list = append(list, Note{"job_types." + kind.Key + ".operations." + step.Key,
					"has measured minutes and no grits, so no belt or disc is priced for it: add its grits"})
			}
		}
	}
	return list
}

// wearOutNotes: more running hours than the machine has in it.
func wearOutNotes(answer *Answer) []Note {
	var list []Note
	for i := range answer.Machines {
		result := &answer.Machines[i]
		machine := &answer.Study.Machines[result.Machine]
		most := 0.0
		for t := 1; t < len(result.Owner.Table[capital.Age]); t++ {
			most = max(most, capital.HoursSoFar(machine, result.Owner.Profile.Hours, t, int(result.Owner.Table[capital.Age][t])))
		}
		if most > machine.LifeHours.Hours() {
			list = append(list, Note{"machines." + machine.Key, fmt.Sprintf(
				"would have run %.0f h when it is sold, of a life of %.0f h: keep it fewer years", most, machine.LifeHours.Hours())})
		}
	}
	return list
}

// idleNotes: a machine that takes none of the work.
func idleNotes(answer *Answer) []Note {
	var list []Note
	for i := range answer.Machines {
		if result := &answer.Machines[i]; result.Jobs == 0 {
			list = append(list, Note{"machines." + answer.Study.Machines[result.Machine].Key,
				"takes none of the work in this study, so owning it only costs"})
		}
	}
	return list
}

// currencyNotes: assumed money is reckoned in US dollars.
func currencyNotes(answer *Answer) []Note {
	if answer.Study.Currency == "USD" {
		return nil
	}
	return []Note{{"currency", "assumed amounts of money are US dollars of 2025 and were not converted to " +
		answer.Study.Currency + ": give your own wherever an amount is marked as assumed"}}
}
