package reports

import (
	"strconv"
	"strings"

	"shopstint/capital/decision/single"
)

func (w wording) renting() string {
	return "renting everything costs " + w.amount(w.answer.Annual) + " " + w.study.Money.Code() +
		" a year after tax, over " + w.years(float64(w.study.Studio.Horizon))
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

func (w wording) cash(machine *Machine) string {
	return "cash needed " + w.amount(machine.CashNeeded) + "; " + machine.Payback.InWords + "; " +
		machine.ReturnsInWords + "; " + machine.Life.InWords
}

func (w wording) work(machine *Machine) string {
	if !machine.PerHour.Known {
		return ""
	}
	return "in use for " + w.counted(machine.Jobs, "job") + " and " + w.number(machine.Hours) + " h a year, so owning costs " +
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
		return "nothing that was tried turns this answer"
	}
	return "would turn with " + strings.Join(said, "; ")
}
