package reports

import (
	"math"
	"strconv"

	"shopstint/capital/decision/budget"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/quantity"
)

// Budget is what to put into one job's price. Money is in Currency and before
// tax on profit, but for the cost of owned machines, which is after it.
type Budget struct {
	Key, Name string // of the job type
	Currency  string
	Seed      uint64
	Drawn     int // jobs drawn
	Inputs    int // inputs with a range that were drawn
	Met       bool
	Cases     []BudgetCase
	Owned     []BudgetOwned

	InWords string   // what it is about
	Notes   []string // doubts beside the figures
	Caution string
}

// BudgetCase is the job under one way of driving to the shop.
type BudgetCase struct {
	Aboard  int // jobs on the visit, this one included
	Lines   []BudgetLine
	InWords string
}

// BudgetLine is one figure: as it is expected, and as it is enough in 80 and in
// 95 of 100 cases, each with its sampling error.
type BudgetLine struct {
	Key, Label, Unit             string
	Expected, Enough80, Enough95 chance.Estimate
	InWords                      [3]string // the three figures; nil where the line is empty
	Empty                        bool
}

// BudgetOwned is what the job costs on a candidate that is owned.
type BudgetOwned struct {
	Key, Name                    string
	Hours, PerHour, Cost, PerJob float64
	InWords                      string
}

// budgetLines are the keys and labels of a budget's lines.
var budgetLines = [budget.Lines]struct{ key, label string }{
	budget.Billed: {"hours_billed", "hours on the shop's clock"}, budget.Paid: {"hours_paid", "hours paid, blocks rounded up"},
	budget.OwnHours: {"own_hours", "own hours, drive and bench included"},
	budget.Invoice:  {"invoice", "the shop's invoice"}, budget.Travel: {"travel", "vehicle and tolls"},
	budget.OwnTime: {"own_time", "own hours at their worth"}, budget.Helpers: {"helpers", "hired helpers"},
	budget.Wear: {"wear", "edges and abrasives at the bench"}, budget.Total: {"total", "total"},
}

// BudgetOf words a budget of a study that was drawn with a seed.
func BudgetOf(study *model.Study, result *budget.Result, seed uint64, numbers Numbers) Budget {
	system, err := quantity.ParseSystem(study.Units)
	if err != nil {
		system = quantity.Metric
	}
	w := wording{study: study, system: system, numbers: numbers, inputs: inputsOf(study)}
	kind := &study.JobTypes[result.Job]
	out := Budget{
		Key: kind.Key, Name: nameOr(kind.Name, kind.Key), Currency: study.Money.Code(), Seed: seed, Drawn: result.Drawn,
		Inputs: result.Inputs, Met: result.Met, InWords: w.budgetHead(result, seed), Notes: w.budgetNotes(result), Caution: PriceCaution,
	}
	out.Cases = append(out.Cases, w.budgetCase(&result.Alone, 1))
	if result.Shared != nil {
		out.Cases = append(out.Cases, w.budgetCase(result.Shared, result.Aboard))
	}
	for _, one := range result.Owned {
		out.Owned = append(out.Owned, w.budgetOwned(one))
	}
	return out
}

func nameOr(name, key string) string {
	if name == "" {
		return key
	}
	return name
}

func (w wording) budgetHead(result *budget.Result, seed uint64) string {
	drawn := "one job like it was drawn " + w.whole(float64(result.Drawn)) + " times with the seed " + strconv.FormatUint(seed, 10)
	if result.Inputs == 0 {
		return drawn + ", its rework left to chance; no input has a range"
	}
	return drawn + ", its rework and " + w.counted(float64(result.Inputs), "input") + " with a range left to chance"
}

func (w wording) budgetCase(one *budget.Case, aboard int) BudgetCase {
	out := BudgetCase{Aboard: aboard, InWords: "on a visit of its own"}
	if aboard > 1 {
		out.InWords = "its part of a visit with " + strconv.Itoa(aboard) + " such jobs aboard"
	}
	for line := range budget.Lines {
		out.Lines = append(out.Lines, w.budgetLine(line, one.Lines[line]))
	}
	return out
}

func (w wording) budgetLine(line budget.Line, figure budget.Figure) BudgetLine {
	out := BudgetLine{
		Key: budgetLines[line].key, Label: budgetLines[line].label, Unit: w.study.Money.Code(),
		Expected: figure.Expected, Enough80: figure.Enough80, Enough95: figure.Enough95,
	}
	say := w.amount
	if line.IsHours() {
		out.Unit, say = "h", hours
	}
	for i, one := range []chance.Estimate{figure.Expected, figure.Enough80, figure.Enough95} {
		out.InWords[i] = say(one.Value)
	}
	out.Empty = figure.Expected.Value == 0 && figure.Enough95.Value == 0
	return out
}

// hours writes hours as a shop's clock counts them.
func hours(h float64) string { return strconv.FormatFloat(h+0, 'f', 2, 64) }

func (w wording) budgetOwned(one budget.Owned) BudgetOwned {
	machine := &w.study.Machines[one.Machine]
	out := BudgetOwned{Key: machine.Key, Name: nameOr(machine.Name, machine.Key), Hours: one.Hours, PerHour: one.PerHour, Cost: one.Cost, PerJob: one.PerJob}
	out.InWords = out.Name + ": " + hours(one.Hours) + " h at " + w.posted(one.PerHour) + " an hour, " + w.amount(one.Cost) +
		" for this job; " + w.amount(one.PerJob) + " is the mean of all jobs on it"
	return out
}

func (w wording) budgetNotes(result *budget.Result) []string {
	notes := []string{"this is the machining of the job and the way to it, before tax: wood, building, finishing, overhead and profit are not in it"}
	worst := 0.0
	for _, one := range []*budget.Case{&result.Alone, result.Shared} {
		if one == nil || one.Lines[budget.Total].Expected.Value == 0 {
			continue
		}
		total := one.Lines[budget.Total]
		for _, figure := range []chance.Estimate{total.Expected, total.Enough80, total.Enough95} {
			worst = math.Max(worst, figure.Error/figure.Value)
		}
	}
	notes = append(notes, "every line stands by itself: the figures that are enough need not add up to the one that is enough for the total, and where a rare rework lifts the mean, a figure that is enough in 80 cases may be below it")
	if worst > 0 {
		text := "drawing leaves a standard error of at most " + percent(worst) + " in a total"
		if !result.Met {
			text += ", more than was aimed at: no more than " + w.whole(float64(result.Drawn)) + " are drawn"
		}
		notes = append(notes, text)
	}
	if result.Member {
		notes = append(notes, "the shop's prices are those for members, whose fee is not in them")
	}
	if result.Lacking > 0 {
		notes = append(notes, "in "+w.whole(float64(result.Lacking))+" of the draws some piece fits no machine, and that work is not priced: narrow its range")
	}
	return notes
}
