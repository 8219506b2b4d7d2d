package reports

import (
	"strconv"
	"strings"

	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/joint"
	"shopstint/model/chance"
)

// Futures is what sampled futures say of the choices. Amounts are present
// amounts after tax; a difference favours the choice over renting everything
// where it is positive.
type Futures struct {
	Seed      uint64
	Count     int
	Met       bool // drawn until the error was small
	Inputs    int  // inputs drawn
	Choices   []FutureChoice
	Left      []FutureLeft // sets that are no choice
	Best      int          // the choice that is cheapest on average
	Perfect   chance.Estimate
	Knowing   []Knowing // the inputs most worth knowing, the most first
	InWords   string
	Machines  []string // one sentence a machine owned alone
	BestWords string
	Notes     []string
}

// FutureChoice is one set of owned machines.
type FutureChoice struct {
	Owned []string // keys
	futures.Choice
}

// FutureLeft is a set that may not be owned, and why: the reasons of package joint.
type FutureLeft struct {
	Owned   []string // keys
	Because []string
}

// Knowing is what it would be worth to know one input.
type Knowing struct {
	Path, Label string
	Worth       chance.Estimate
}

// mostKnowing is how many inputs are named that are worth knowing.
const mostKnowing = 5

// futures words what was drawn.
func (w wording) futures(result *futures.Result) *Futures {
	out := &Futures{Seed: result.Seed, Count: result.Futures, Met: result.Met, Inputs: result.Drawn, Best: result.Best, Perfect: result.Perfect}
	for _, choice := range result.Choices {
		out.Choices = append(out.Choices, FutureChoice{w.owned(choice.Owned, false), choice})
	}
	for _, one := range result.Left {
		out.Left = append(out.Left, FutureLeft{w.owned(one.Owned, false), one.Because})
	}
	for _, one := range result.Inputs {
		if len(out.Knowing) < mostKnowing && one.Worth.Value > 2*one.Worth.Error {
			out.Knowing = append(out.Knowing, Knowing{one.Path, w.inputs.label(one.Path), one.Worth})
		}
	}
	out.InWords = w.whole(float64(result.Futures)) + " futures were drawn with the seed " + strconv.FormatUint(result.Seed, 10) +
		", the same ones for every choice; " + w.counted(float64(result.Drawn), "input") + " with a range and the jobs of each year left to chance"
	for c, choice := range result.Choices {
		if machines := w.owned(choice.Owned, true); len(machines) == 1 {
			out.Machines = append(out.Machines, machines[0]+": "+w.inFutures(&result.Choices[c]))
		}
	}
	out.BestWords = w.best(result)
	out.Notes = w.futureNotes(result, out)
	return out
}

// owned lists the machines of a choice by key or name.
func (w wording) owned(set []bool, named bool) []string {
	list := []string{}
	for m, has := range set {
		if machine := &w.study.Machines[m]; has && named {
			list = append(list, nameOr(machine.Name, machine.Key))
		} else if has {
			list = append(list, machine.Key)
		}
	}
	return list
}

func (w wording) inFutures(choice *futures.Choice) string {
	low, high := choice.Difference.Percentiles[0].Value, choice.Difference.Percentiles[4].Value
	return "cheaper than renting in " + within(choice.Better) + "; on average " + w.betterBy(choice.Difference.Mean.Value) +
		" (±" + w.number(choice.Difference.Mean.Error) + "), nine times in ten from " + w.betterBy(low) + " to " + w.betterBy(high)
}

func (w wording) betterBy(difference float64) string {
	if difference < 0 {
		return w.amount(-difference) + " dearer"
	}
	return w.amount(difference) + " better"
}

// within writes a share with its error, in percent.
func within(share chance.Estimate) string {
	return strconv.FormatFloat(100*share.Value, 'f', 0, 64) + " % (±" + strconv.FormatFloat(100*share.Error, 'f', 1, 64) + ")"
}

func (w wording) best(result *futures.Result) string {
	choice := &result.Choices[result.Best]
	own := "renting everything"
	if machines := w.owned(choice.Owned, true); len(machines) > 0 {
		own = "owning " + strings.Join(machines, "; ")
	}
	return "of " + w.counted(float64(len(result.Choices)), "choice") + " the cheapest on average is " + own + ". It is the cheapest of all in " + within(choice.Cheapest) +
		"; one regrets it by " + w.amount(choice.Regret.Value) + " (±" + w.number(choice.Regret.Error) + ") on average, which is what it would be worth to know everything beforehand"
}

func (w wording) futureNotes(result *futures.Result, out *Futures) []string {
	var notes []string
	if len(result.Left) > 0 {
		notes = append(notes, w.leftOut(result))
	}
	if !result.Met {
		notes = append(notes, "the sampling error is not yet a tenth of what is too close to call for every choice; allow more futures than "+w.whole(float64(result.Futures)))
	}
	switch {
	case len(out.Knowing) == 0 && result.Drawn > 0:
		notes = append(notes, "no single input would change the choice, were it known: none is found to be worth more than twice its sampling error")
	case len(out.Knowing) > 0:
		var list []string
		for _, one := range out.Knowing {
			list = append(list, one.Label+" "+w.amount(one.Worth.Value)+" (±"+w.number(one.Worth.Error)+")")
		}
		notes = append(notes, "worth knowing better before choosing: "+strings.Join(list, "; "))
	}
	if result.Lacking > 0 {
		notes = append(notes, "in "+w.whole(float64(result.Lacking))+" futures some piece fits no machine, and that work is not priced: narrow its range")
	}
	return notes
}

// leftOut says in one sentence how many sets are no choice, and why; a set may
// break several limits.
func (w wording) leftOut(result *futures.Result) string {
	count, alone := map[string]int{}, []string{}
	for _, one := range result.Left {
		for _, because := range one.Because {
			count[because]++
		}
		if machines := w.owned(one.Owned, true); len(machines) == 1 {
			alone = append(alone, machines[0])
		}
	}
	var why []string
	for _, because := range [...]string{joint.Money, joint.Floor, joint.Supply, joint.Excluded, joint.Needed} {
		switch {
		case count[because] > 0 && len(count) > 1:
			why = append(why, limitInWords(because)+" ("+w.whole(float64(count[because]))+")")
		case count[because] > 0:
			why = append(why, limitInWords(because))
		}
	}
	are := "are"
	if len(result.Left) == 1 {
		are = "is"
	}
	said := w.whole(float64(len(result.Left))) + " of " + w.counted(float64(len(result.Left)+len(result.Choices)), "set") +
		" may not be owned and " + are + " no choice, because of " + strings.Join(why, ", ")
	if len(alone) > 0 {
		said += "; among them by itself " + strings.Join(alone, "; ")
	}
	return said
}
