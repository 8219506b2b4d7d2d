package reports

import (
	"math"
	"slices"
	"strings"

	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/quantity"
)

// Comparison is what ways of doing the same work cost. Amounts are in Currency,
// before tax, at the prices of the first year; a unit is a finished Unit.
type Comparison struct {
	Key, Name string
	Currency  string
	Unit      string // m, ft, m² or ft²
	ByArea    bool
	Amount    float64 // units a year
	PieceName string
	Piece     float64 // units a piece; 0 where it is not told in pieces
	Ways      []ComparedWay
	Pairs     []ComparedPair
	Best      string // the cheapest way at that amount
	Next      string // and the one after it
	Saving    float64
	Close     bool // that saving is too close to call

	Heading string   // the work, in a clause
	InWords []string // the answer, why, and from when on, a clause each
}

// ComparedWay is what one way costs at the study's amount.
type ComparedWay struct {
	Key, Name  string
	Parts      []CostPart
	PerUnit    float64
	PerPiece   float64 // not a number without pieces
	Yearly     float64
	Fixed      float64 // of that, whatever the work
	Minutes    float64 // own time a unit
	OwnHours   float64 // a year
	Hours      float64 // at the machine, a year
	DaysWaited float64 // a year, for rework
	Outlay     float64 // before the first unit
	InWords    string  // what a unit costs in all
}

// CostPart is one part of what a unit costs.
type CostPart struct {
	Key, Label string
	PerUnit    float64
	Share      float64
	InWords    string // the amount
}

// Outcomes of a pair, as they are told.
const (
	OutcomeSame     = "same"
	OutcomeAlways   = "always"
	OutcomeCrossing = "crossing"
)

// ComparedPair is how two ways lie to each other over all amounts of work.
type ComparedPair struct {
	First, Second string
	Outcome       string
	Below, Above  string  // cheaper below and above the break-even; "" where both cost the same
	BreakEven     float64 // units a year; not a number without one
	Pieces        float64 // the same in pieces, and in hours at the machine
	Hours         float64
	Dearer        string  // the way that lays out more at first, "" for neither
	More          float64 // how much more
	RepaidAfter   float64 // units of work; not a number where it never comes back
	InWords       []string
}

// costParts are the keys and labels of the parts of a cost; what an area wears
// are abrasives.
var costParts = [ways.Parts]struct{ key, label string }{
	ways.Wear: {"wear", "edges"}, ways.Labour: {"labour", "labour"}, ways.Energy: {"energy", "energy"},
	ways.Rework: {"rework", "rework and waiting"}, ways.Equipment: {"equipment", "what is bought and kept"},
}

// ComparisonsOf words the comparisons of a study.
func ComparisonsOf(study *model.Study, results []ways.Result, numbers Numbers) []Comparison {
	system, err := quantity.ParseSystem(study.Units)
	if err != nil {
		system = quantity.Metric
	}
	w := wording{study: study, system: system, numbers: numbers, inputs: inputsOf(study)}
	list := make([]Comparison, len(results))
	for i := range results {
		c := compared{wording: w, of: &study.Comparisons[results[i].Comparison], result: &results[i]}
		list[i] = c.comparison()
	}
	return list
}

// compared words one comparison.
type compared struct {
	wording
	of     *model.Comparison
	result *ways.Result
}

// shownUnit is the finished unit that is shown, and how many metres or square metres
// one of it is.
func (c *compared) shownUnit() (symbol string, size float64) {
	dim := quantity.DimMoneyPerMetre
	if c.of.ByArea() {
		dim = quantity.DimMoneyPerSquareMetre
	}
	symbol = strings.TrimPrefix(quantity.Display(dim, c.system).Symbol, "per ")
	return symbol, quantity.Shown(dim, 1, c.system)
}

func (c *compared) name(way int) string { return nameOr(c.of.Ways[way].Name, c.of.Ways[way].Key) }

func (c *compared) comparison() Comparison {
	symbol, size := c.shownUnit()
	r := c.result
	out := Comparison{
		Key: c.of.Key, Name: nameOr(c.of.Name, c.of.Key), Currency: c.study.Money.Code(), Unit: symbol, ByArea: c.of.ByArea(),
		Amount: c.of.Amount() / size, PieceName: c.of.PieceName, Piece: c.of.Piece() / size, Saving: r.Saving(), Close: r.Close,
		Best: c.of.Ways[r.Best].Key, Next: c.of.Ways[r.Next].Key,
	}
	for i := range r.Ways {
		out.Ways = append(out.Ways, c.way(i, size))
	}
	for i := range r.Pairs {
		out.Pairs = append(out.Pairs, c.pair(&r.Pairs[i], size))
	}
	out.Heading = c.heading()
	out.InWords = append([]string{c.verdict(), c.why(size)}, c.fromWhenOn(out.Pairs)...)
	if waiting := c.waiting(); waiting != "" {
		out.InWords = append(out.InWords, waiting)
	}
	return out
}

func (c *compared) way(index int, size float64) ComparedWay {
	w := &c.result.Ways[index]
	out := ComparedWay{
		Key: c.of.Ways[index].Key, Name: c.name(index), PerUnit: w.Unit() * size, PerPiece: math.NaN(), Yearly: w.Yearly, Fixed: w.Line.Fixed,
		Minutes: w.Minutes() * size, OwnHours: w.Own, Hours: w.Hours, DaysWaited: w.Waited, Outlay: w.Outlay,
	}
	out.InWords = c.rate(out.PerUnit)
	if c.of.Piece() > 0 {
		out.PerPiece = w.Unit() * c.of.Piece()
	}
	for part, money := range w.PerUnit {
		one := CostPart{Key: costParts[part].key, Label: c.label(ways.Part(part)), PerUnit: money * size, InWords: c.rate(money * size)}
		if w.Unit() != 0 {
			one.Share = money / w.Unit()
		}
		out.Parts = append(out.Parts, one)
	}
	return out
}

func (c *compared) label(part ways.Part) string {
	if part == ways.Wear && c.of.ByArea() {
		return "abrasives"
	}
	return costParts[part].label
}

// rate writes money a unit: with the places of the currency, or three digits of
// what is less than one.
func (c *compared) rate(x float64) string {
	if math.Abs(x) < 1 {
		return c.number(x)
	}
	return c.posted(x)
}

func (c *compared) pair(p *ways.Pair, size float64) ComparedPair {
	key := func(way int) string {
		if way < 0 {
			return ""
		}
		return c.of.Ways[way].Key
	}
	out := ComparedPair{
		First: key(p.First), Second: key(p.Second), Outcome: OutcomeAlways, Below: key(p.Below), Above: key(p.Above),
		BreakEven: math.NaN(), Pieces: math.NaN(), Hours: math.NaN(), Dearer: key(p.Dearer), More: p.More, RepaidAfter: math.NaN(),
	}
	switch p.Outcome {
	case ways.Same:
		out.Outcome = OutcomeSame
	case ways.Crossing:
		out.Outcome, out.BreakEven, out.Hours = OutcomeCrossing, p.At/size, p.Hours
		if c.of.Piece() > 0 {
			out.Pieces = p.At / c.of.Piece()
		}
	}
	if p.Repaid {
		out.RepaidAfter = p.RepayAt / size
	}
	out.InWords = c.pairInWords(p)
	return out
}

// fromWhenOn tells the pairs that the answer is about: those of the best way.
func (c *compared) fromWhenOn(pairs []ComparedPair) []string {
	var said []string
	for i, pair := range pairs {
		if slices.Contains([]int{c.result.Pairs[i].First, c.result.Pairs[i].Second}, c.result.Best) {
			said = append(said, pair.InWords...)
		}
	}
	return said
}
