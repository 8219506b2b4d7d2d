// Package reports turns an answer into what is said about it: plain figures and
// short sentences, the same for the terminal, for JSON and for the workbook's
// first page. It picks, sorts and words; it reckons nothing.
package reports

import (
	"shopstint/capital/decision"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/quantity"
)

// Summary is the short answer to a study. Amounts are in Currency, after tax;
// an amount a year is an equal amount each year of the horizon; a present
// amount is worth that today.
type Summary struct {
	Title     string
	Currency  string // ISO 4217
	Units     string // metric or inch
	StartYear int
	Horizon   float64 // years

	RentedAnnual   float64 // everything rented, as now
	RentedPresent  float64
	RentingInWords string
	RentingParts   string    // what its first year is made of
	Joint          Joint     // which machines to own together
	Machines       []Machine // in the order of the study, each with all else rented
	Roadmap        Roadmap   // what to buy in which year

	Assumed        []Assumed // assumed inputs that move an answer most, at most three
	AssumedCount   int       // inputs that were not in the study
	AssumedInWords string    // that count, leading up to the list
	Notes          []Note
	NotPriced      []string
	Cautions       []string
	Futures        *Futures // nil where none were drawn
}

// Machine is the answer for one machine that the studio could own.
type Machine struct {
	Key, Name string
	Verdict   single.Verdict

	// Sentences without a full stop.
	Reason     string // why the verdict is what it is
	Difference string // how much better or dearer owning is
	Cash       string // cash needed, payback, returns, economic life
	Work       string // use and unit costs; "" without work
	Turns      string // what would turn the answer

	AnnualDifference  float64 // positive favours buying
	PresentDifference float64
	CloseCall         float64 // a present difference up to this is too close to call
	SavedAnnual       float64
	SavedPresent      float64
	OwningAnnual      float64
	OwningPresent     float64
	CashNeeded        float64 // leaves the account on the day of purchase
	Jobs, Hours       float64 // in the first year

	PerHour, PerJob Figure // cost of owning; not known without work
	Payback         Payback
	Returns         []float64 // a year, as shares, ascending; may be empty
	ReturnsInWords  string
	Life            Life

	BreakEvens []BreakEven
	Crossings  []Flip // of the break-evens, one a quantity, the nearest to today first
	Inputs     []Flip // inputs that turn the answer within their range, the nearest first
}

// Figure is a number that may not exist.
type Figure struct {
	Value float64
	Known bool
}

// Payback is the time in years until the purchase has come back, without and
// with interest. What is not known does not come back within the horizon.
type Payback struct {
	Simple, Discounted Figure
	InWords            string
}

// Life is the number of years kept at the least cost a year.
type Life struct {
	Years        int
	Annual       float64 // that cost, before tax and without a loan
	StillFalling bool    // the cost still falls where the search ends
	InWords      string
}

// BreakEven is where the answer turns along one quantity. Numbers are in Unit.
type BreakEven struct {
	In        string
	Unit      string
	Now       float64
	Crossings []float64 // ascending
	From, To  float64   // where it was looked for; equal when there is nothing to scale
	InWords   string
}

// Flip is one change that turns the answer of a machine, all else as in the study.
type Flip struct {
	What    string // the quantity of a break-even, or the path of an input
	Unit    string
	Now, At float64
	InWords string
}

// Assumed is an input that was not in the study, with what it could do.
type Assumed struct {
	Path             string
	Label            string // in words, with the names of the study
	About            string // what the input means
	Unit             string
	Value, Low, High float64
	Machine          string  // key of the machine whose answer it moves most
	AtLow, AtHigh    float64 // present difference of that machine at either end
	Flips            bool    // one end turns that machine's answer
	InWords          string
}

// Note is a doubt beside the figures. About names what it is about, unless the
// text does.
type Note struct {
	Path, About, Text string
}

// Numbers is how amounts are written in sentences.
type Numbers int

// With a comma between thousands, or without.
const (
	Grouped Numbers = iota
	Plain
)

// mostAssumed is how many assumed inputs are named.
const mostAssumed = 3

// Summarize words an answer with grouped thousands.
func Summarize(answer *decision.Answer) Summary { return SummarizeIn(answer, Grouped) }

// SummarizeIn words an answer. Every figure of it is one of the answer's own.
func SummarizeIn(answer *decision.Answer, numbers Numbers) Summary {
	w := wordingOf(answer, numbers)
	summary := Summary{
		Title: w.title(), Currency: answer.Study.Money.Code(), Units: answer.Study.Units,
		StartYear: int(answer.Study.StartYear), Horizon: float64(answer.Study.Studio.Horizon),
		RentedAnnual: answer.Annual, RentedPresent: answer.Present, RentingInWords: w.renting(), RentingParts: w.firstYear(),
		AssumedCount: answer.AssumedCount, AssumedInWords: w.assumedCount(),
		NotPriced: decision.NotPriced, Cautions: Cautions(),
	}
	summary.Joint = w.joint(&answer.Joint)
	for i := range answer.Machines {
		summary.Machines = append(summary.Machines, w.machine(&answer.Machines[i]))
	}
	summary.Roadmap = w.roadmap()
	for _, assumption := range answer.Assumed[:min(mostAssumed, len(answer.Assumed))] {
		summary.Assumed = append(summary.Assumed, w.assumed(assumption))
	}
	for _, note := range answer.Notes {
		summary.Notes = append(summary.Notes, w.note(note))
	}
	if answer.Futures != nil {
		summary.Futures = w.futures(answer.Futures)
	}
	return summary
}

// wordingOf prepares what every sentence needs.
func wordingOf(answer *decision.Answer, numbers Numbers) wording {
	w := studyWording(answer.Study, numbers)
	w.answer, w.inputs = answer, inputsOf(answer.Study)
	return w
}

// studyWording prepares what figures need.
func studyWording(study *model.Study, numbers Numbers) wording {
	system, err := quantity.ParseSystem(study.Units)
	if err != nil {
		system = quantity.Metric
	}
	return wording{study: study, system: system, numbers: numbers}
}
