package reports

import (
	"strconv"
	"strings"

	"shopstint/capital"
	"shopstint/capital/decision/single"
)

func (w wording) renting() string {
	return "renting everything costs " + w.amount(w.answer.Annual) + " " + w.study.Money.Code() +
		" a year after tax, over " + w.years(float64(w.study.Studio.Horizon))
}

// firstYear says what renting everything is made of: much of it is own time, which
// no bank account shows.
func (w wording) firstYear() string {
	year := w.answer.Rented.Years(w.study)[0]
	return "in its first year, before tax: " + w.parts(", ", []part{
		{"invoices", year.Shop}, {"travel", year.Travel}, {"own time and helpers on visits", year.Labour},
		{"own time at the bench", year.BenchLabour}, {"edges and abrasives at the bench", year.BenchWear},
		{"membership fees", year.Fee}, {"inductions", year.Induction},
	})
}

// part is an amount with what it is for.
type part struct {
	name   string
	amount float64
}

// parts lists the amounts that are something.
func (w wording) parts(between string, parts []part) string {
	var said []string
	for _, one := range parts {
		if one.amount != 0 {
			said = append(said, one.name+" "+w.amount(one.amount))
		}
	}
	return strings.Join(said, between)
}

func (w wording) assumedCount() string {
	count := "1 input was assumed"
	if w.answer.AssumedCount != 1 {
		count = w.whole(float64(w.answer.AssumedCount)) + " inputs were assumed"
	}
	if len(w.answer.Assumed) == 0 {
		return count + "; within its range none moves an answer"
	}
	return count + "; replace these first, as they move an answer most"
}

// difference says by how much owning is better or dearer.
func (w wording) difference(result *single.Result) string {
	if result.Difference >= 0 {
		return w.amount(result.Annual) + " a year better (" + w.amount(result.Difference) + " today)"
	}
	return w.amount(-result.Annual) + " a year dearer (" + w.amount(-result.Difference) + " today)"
}

func (w wording) cash(machine *Machine, result *single.Result) string {
	on := func(line capital.Line) float64 { return result.Owner.Table[line][0] }
	made := w.parts(" + ", []part{
		{"price", on(capital.Price)}, {"sales tax", on(capital.SalesTax)}, {"moving in", on(capital.Moving)},
		{"wiring, dust, air and fixtures", on(capital.Fixtures)}, {"first edges and instruction", on(capital.Start)}, {"borrowed", on(capital.Borrowed)},
	})
	return "cash needed " + w.amount(machine.CashNeeded) + " (" + made + "); " + machine.Payback.InWords + "; " +
		machine.ReturnsInWords + "; " + machine.Life.InWords
}

func (w wording) work(machine *Machine) string {
	if !machine.PerHour.Known {
		return ""
	}
	return "in use for " + w.counted(machine.Jobs, "job") + " and " + w.number(machine.Hours) + " h in the first year; over all its years owning costs " +
		w.posted(machine.PerHour.Value) + " an hour, " + w.posted(machine.PerJob.Value) + " a job"
}

// shownCrossings is how many break-evens are worth a place in the sentence.
const shownCrossings = 2

// turns names the nearest break-evens and the nearest input.
func turns(machine *Machine) string {
	var said []string
	for _, crossing := range machine.Crossings[:min(shownCrossings, len(machine.Crossings))] {
		said = append(said, crossing.InWords)
	}
	switch n := len(machine.Inputs); {
	case n == 1:
		said = append(said, machine.Inputs[0].InWords)
	case n > 1:
		said = append(said, "any of "+strconv.Itoa(n)+" inputs within its range, nearest "+machine.Inputs[0].InWords)
	}
	if len(said) == 0 {
		return "no shop rate, price, distance, number of jobs or years kept that was tried turns this answer, nor any input within its range"
	}
	return "would turn with " + strings.Join(said, "; ")
}
