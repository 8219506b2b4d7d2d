package reports

import (
	"strings"

	"shopstint/capital/decision/joint"
	"shopstint/model/quantity"
)

// Joint is the answer for all machines together: which set of them to own.
type Joint struct {
	Verdict string // what to own, or to rent everything
	// Sentences without a full stop.
	Saving string   // what that saves
	Next   string   // the next best set; "" when there is none
	Limits []string // what holds the choice down
	Proof  string   // "" when the best is proven

	Best    Set
	Others  []Set // the next best, cheapest first
	Single  Set   // the best with at most one machine
	Gap     Figure
	Ranked  bool // the others are proven to be the next best
	Held    []Held
	Worths  []Worth // by machine, in the order of the study
	Draw    float64 // A, planned, of the best set
	Free    float64 // A
	Limited bool    // the supply limits the choice, as the study gives it
	Obvious bool    // one machine only, and no limit that keeps it out: its own answer says all
}

// Set is one set of machines. Amounts are after tax.
type Set struct {
	Machines                    []string // keys, in the order of the study
	InWords                     string
	CostAnnual, CostPresent     float64 // of everything
	SavingAnnual, SavingPresent float64 // against renting everything
	OverAnnual, OverPresent     float64 // dearer than the best
	Close                       bool    // too close to the best to call
	Cash, Area, Amps            float64 // on the day of purchase; m²; A as planned
}

// Held is a limit of the study. Numbers are in Unit.
type Held struct {
	On, Path, Unit          string
	Most, Used              float64
	Known                   bool // what follows was looked for
	Binds                   bool
	More                    Figure // the least by which it must rise for a cheaper set
	GainAnnual, GainPresent float64
	Machines                []string // of that set
}

// Worth is what one machine saves, in present amounts.
type Worth struct {
	Key           string
	Alone, InBest float64
	After         []float64 // once each machine of the study is owned
}

// joint words the choice of a set.
func (w wording) joint(result *joint.Result) Joint {
	said := Joint{
		Best: w.set(&result.Choices[0]), Single: w.set(&result.Single), Ranked: result.Ranked,
		Gap:  Figure{result.Gap, result.GapKnown},
		Draw: result.Draw.Amps, Free: result.Draw.Free, Limited: result.Draw.Limited,
		Saving: w.jointSaving(result), Next: w.nextBest(result), Proof: w.proof(result),
	}
	said.Verdict = "own " + said.Best.InWords
	if len(said.Best.Machines) == 0 {
		said.Verdict = "rent everything"
	}
	for i := range result.Choices[1:] {
		said.Others = append(said.Others, w.set(&result.Choices[i+1]))
	}
	for i := range result.Limits {
		said.Held = append(said.Held, w.held(&result.Limits[i]))
		if result.Limits[i].Binds {
			said.Limits = append(said.Limits, w.holds(&result.Limits[i]))
		}
	}
	for m := range result.Alone {
		said.Worths = append(said.Worths, w.worth(result, m))
	}
	said.Obvious = len(w.study.Machines) == 1 && len(said.Limits) == 0
	return said
}

func (w wording) set(choice *joint.Choice) Set {
	said := Set{
		CostAnnual: choice.Annual, CostPresent: choice.Present,
		SavingAnnual: choice.SavingAnnual, SavingPresent: choice.Saving,
		OverAnnual: choice.OverAnnual, OverPresent: choice.Over, Close: choice.Close,
		Cash: choice.Cash, Area: choice.Area, Amps: choice.Amps, InWords: "nothing",
	}
	var names []string
	for _, m := range choice.Machines {
		said.Machines = append(said.Machines, w.study.Machines[m].Key)
		names = append(names, w.study.Machines[m].Name)
	}
	if len(names) > 0 {
		said.InWords = strings.Join(names, " + ")
	}
	return said
}

func (w wording) worth(result *joint.Result, m int) Worth {
	worth := Worth{Key: w.study.Machines[m].Key, Alone: result.Alone[m], InBest: result.InBest[m]}
	for other := range result.After {
		worth.After = append(worth.After, result.After[other][m])
	}
	return worth
}

// jointSaving says what the best set saves, and what a second machine adds.
func (w wording) jointSaving(result *joint.Result) string {
	best := &result.Choices[0]
	if len(best.Machines) == 0 {
		return "no set of these machines costs less together with what would still be rented"
	}
	said := "everything then costs " + w.amount(best.Annual) + " a year: " + w.amount(best.SavingAnnual) +
		" a year better than renting everything (" + w.amount(best.Saving) + " today)"
	switch single := w.set(&result.Single); {
	case len(best.Machines) == 1:
		said += ", and no other machine is worth adding"
	case len(single.Machines) == 0:
		said += ", where no machine pays alone"
	default:
		said += " and " + w.amount(result.Single.OverAnnual) + " a year better than the best machine alone (" + single.InWords + ")"
	}
	if result.Rented.Close {
		said += ", yet too close to renting to call"
	}
	return said + "; cash needed " + w.amount(best.Cash)
}

// nextBest names the runner-up.
func (w wording) nextBest(result *joint.Result) string {
	if len(result.Choices) < 2 {
		return ""
	}
	next := &result.Choices[1]
	said := "next best: own " + w.set(next).InWords + ", "
	if len(next.Machines) == 0 {
		said = "next best: rent everything, "
	}
	said += w.amount(next.OverAnnual) + " a year dearer"
	if next.Close {
		said += ", too close to call"
	}
	return said
}

// holds says that a limit keeps a cheaper set out, and what more of it is worth.
func (w wording) holds(limit *joint.Limit) string {
	dim := dimensionOf(limit.On)
	said := limitInWords(limit.On) + " holds the choice down: with " + w.measure(dim, limit.Most+limit.More) + ", not " + w.measure(dim, limit.Most) +
		", it would be " + w.set(&limit.Next).InWords + " and " + w.amount(limit.Annual) + " a year better"
	if !limit.Proven {
		said += " (less may do)"
	}
	if limit.On == joint.Supply {
		said += "; ask an electrician what runs at once and what more supply costs"
	}
	return said
}

// limitInWords names what keeps a set from being owned.
func limitInWords(on string) string {
	return map[string]string{
		joint.Money: "the purchase budget", joint.Floor: "the free floor", joint.Supply: "the electrical supply",
		joint.Excluded: "machines that exclude each other", joint.Needed: "a machine without one that it needs",
	}[on]
}

// proof says how far the best is proven.
func (w wording) proof(result *joint.Result) string {
	switch {
	case !result.GapKnown:
		return "there are too many ways to share this work for a proof: a cheaper set may exist"
	case result.Gap > 0:
		return "not every set could be looked at: one may exist that is up to " + w.amount(result.GapAnnual) + " a year better, none that is more"
	}
	return ""
}

func (w wording) held(limit *joint.Limit) Held {
	dim := dimensionOf(limit.On)
	said := Held{
		On: limit.On, Path: limit.Path, Unit: w.unit(dim), Known: limit.Known, Binds: limit.Binds,
		Most: quantity.Shown(dim, limit.Most, w.system), Used: quantity.Shown(dim, limit.Used, w.system),
		GainAnnual: limit.Annual, GainPresent: limit.Gain,
	}
	if limit.Binds {
		said.More = Figure{quantity.Shown(dim, limit.More, w.system), true}
		said.Machines = w.set(&limit.Next).Machines
	}
	return said
}

func dimensionOf(on string) quantity.Dimension {
	switch on {
	case joint.Money:
		return quantity.DimMoney
	case joint.Floor:
		return quantity.DimArea
	}
	return quantity.DimCurrent
}
