package reports

import (
	"math"
	"strconv"
	"strings"

	"shopstint/capital/decision/roadmap"
)

// Roadmap is what to buy, replace and sell in which year. Amounts are after
// tax, but for those of a year, which leave or reach the account at its start.
type Roadmap struct {
	Why    string // why there is none; "" when there is one
	Budget float64
	Years  []RoadmapYear // those in which something is bought, replaced or sold before the horizon

	Annual, Present             float64
	SavedAnnual, SavedPresent   float64  // against renting everything, all years
	RunnerUp                    []string // keys of the machines that the best roadmap with another first purchase buys first
	RunnerUpYear                int
	RunnerUpDearer              Figure // in present cost; not known where there is no other
	WaitingDearer               float64
	Gap                         float64 // some roadmap may cost so much less; 0 when none does
	Loose                       bool    // see roadmap.Result
	InWords, YearsInWords, Next string  // clauses without a full stop; Next may be ""
}

// RoadmapYear is what one year begins with, by the keys of machines.
type RoadmapYear struct {
	Year               int
	Buy, Replace, Sell []string
	Spent, Fetched     float64
}

func (w wording) roadmap() Roadmap {
	result := &w.answer.Roadmap
	said := Roadmap{Why: result.Why, Budget: result.Budget, Loose: result.Loose}
	if result.Why != "" {
		said.InWords = "no roadmap: " + result.Why + " can be changed by more machines than can be weighed set by set"
		return said
	}
	best := &result.Best
	said.Annual, said.Present, said.Gap = best.Annual, best.Present, best.Gap
	said.SavedPresent = result.Rented - best.Present
	said.SavedAnnual = w.answer.Annual - best.Annual
	for t := range best.Years[:len(best.Years)-1] {
		if year := w.roadmapYear(best, t); len(year.Buy)+len(year.Replace)+len(year.Sell) > 0 {
			said.Years = append(said.Years, year)
		}
	}
	if runner := result.RunnerUp; runner != nil {
		said.RunnerUpDearer = Figure{runner.Present - best.Present, true}
		if t := runner.First(); t >= 0 {
			said.RunnerUp, said.RunnerUpYear = w.keys(runner.Years[t].Buy), w.calendar(t)
		}
	}
	said.WaitingDearer = result.Waiting.Present - best.Present
	said.InWords, said.YearsInWords, said.Next = w.roadmapInWords(&said), w.roadmapYears(best), w.roadmapNext(result, &said)
	return said
}

func (w wording) calendar(t int) int { return int(w.study.StartYear) + t }

func (w wording) roadmapYear(r *roadmap.Roadmap, t int) RoadmapYear {
	year := &r.Years[t]
	return RoadmapYear{w.calendar(t), w.keys(year.Buy), w.keys(year.Replace), w.keys(year.Sell), year.Spent, year.Fetched}
}

func (w wording) keys(machines []int) []string {
	keys := make([]string, len(machines))
	for i, m := range machines {
		keys[i] = w.study.Machines[m].Key
	}
	return keys
}

// roadmapInWords says what the roadmap costs.
func (w wording) roadmapInWords(said *Roadmap) string {
	words := "roadmap: "
	switch {
	case len(said.Years) == 0:
		words += "rent everything, all years"
	default:
		words += w.amount(said.Annual) + " a year with what is still rented, " + w.amount(said.SavedAnnual) + " better than renting everything (" + w.amount(said.SavedPresent) + " today)"
	}
	if said.Budget > 0 {
		words += ", with at most " + w.amount(said.Budget) + " for machines in a year"
	}
	if said.Gap > 0 {
		words += "; the best found, and no other is more than " + w.amount(said.Gap) + " cheaper today"
	}
	return words
}

// roadmapYears says year by year what is bought, replaced and sold.
func (w wording) roadmapYears(r *roadmap.Roadmap) string {
	var years []string
	for t := range r.Years[:len(r.Years)-1] {
		year := &r.Years[t]
		var parts []string
		for _, part := range []struct {
			verb     string
			machines []int
		}{{"buy", year.Buy}, {"replace", year.Replace}, {"sell", year.Sell}} {
			if len(part.machines) > 0 {
				parts = append(parts, part.verb+" "+w.named(part.machines))
			}
		}
		if len(parts) > 0 {
			years = append(years, strconv.Itoa(w.calendar(t))+": "+strings.Join(parts, "; ")+w.paid(year.Spent))
		}
	}
	return strings.Join(years, ". ")
}

func (w wording) paid(spent float64) string {
	if spent <= 0 {
		return ""
	}
	return " (" + w.amount(spent) + ")"
}

// named lists machines by name; a name may have a comma of its own.
func (w wording) named(machines []int) string {
	names := make([]string, len(machines))
	for i, m := range machines {
		names[i] = w.study.Machines[m].Name
	}
	return strings.Join(names, " + ")
}

// roadmapNext says what another first purchase and waiting a year would cost.
func (w wording) roadmapNext(result *roadmap.Result, said *Roadmap) string {
	var words []string
	if runner := result.RunnerUp; runner != nil {
		other := "never buying"
		if t := runner.First(); t >= 0 {
			other = "buying " + w.named(runner.Years[t].Buy) + " first (" + strconv.Itoa(w.calendar(t)) + ")"
		}
		words = append(words, "next best is "+other+w.dearer(said.RunnerUpDearer.Value))
	}
	if result.Best.First() == 0 {
		words = append(words, "waiting a year"+w.dearer(said.WaitingDearer))
	}
	return strings.Join(words, "; ")
}

// dearer says by how much a choice costs more today.
func (w wording) dearer(present float64) string {
	if math.Round(present) <= 0 {
		return ": for the same money"
	}
	return ": " + w.amount(present) + " dearer, today's money"
}
