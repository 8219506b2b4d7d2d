package reports

import (
	"math"
	"strconv"
	"strings"

	"shopstint/capital/decision/single"
	"shopstint/model/quantity"
)

// machine words one machine's answer.
func (w wording) machine(result *single.Result) Machine {
	machine := &w.study.Machines[result.Machine]
	said := Machine{
		Key: machine.Key, Name: machine.Name, Verdict: result.Verdict, Reason: w.reason(result),
		AnnualDifference: result.Annual, PresentDifference: result.Difference, CloseCall: result.Band,
		SavedAnnual: result.SavedAnnual, SavedPresent: result.Saved,
		OwningAnnual: result.OwningAnnual, OwningPresent: result.Owning,
		CashNeeded: result.CashNeeded, Jobs: result.Jobs, Hours: firstYear(result.Owner.Profile.Hours),
		Payback: w.payback(result), Returns: result.Returns, ReturnsInWords: returns(result.Returns), Life: w.life(result),
	}
	said.PerHour = Figure{result.PerHour, result.PerHour != 0}
	said.PerJob = Figure{result.PerJob, result.PerJob != 0}
	for i := range result.BreakEvens {
		said.BreakEvens = append(said.BreakEvens, w.breakEven(&result.BreakEvens[i]))
	}
	said.Crossings = w.crossings(result)
	said.Inputs = w.turningInputs(result)
	said.Difference, said.Cash, said.Work, said.Turns = w.difference(result), w.cash(&said, result), w.work(&said), turns(&said)
	return said
}

func firstYear(years []float64) float64 {
	if len(years) == 0 {
		return 0
	}
	return years[0]
}

// reason says in one sentence why the verdict is what it is.
func (w wording) reason(result *single.Result) string {
	if result.Jobs == 0 && result.SavedAnnual == 0 {
		return "it takes none of the work in this study, so owning it saves nothing"
	}
	saved, of := w.amount(result.SavedAnnual), w.savedOn(result)
	switch {
	case result.SavedAnnual < 0:
		return "owning " + w.owning(result, "would cost ", "would earn ") + " and save no " + of
	case result.Verdict == single.Buy:
		return "owning " + w.owning(result, "costs ", "earns ") + " and saves " + saved + " of " + of
	case result.Verdict == single.KeepRenting:
		return "owning " + w.owning(result, "would cost ", "would earn ") + " and save only " + saved + " of " + of
	default:
		return "owning " + w.owning(result, "costs ", "earns ") + " and saves " + saved + " of " + of +
			", closer than " + w.measure(quantity.DimShare, float64(w.study.Studio.CloseCall)) + " of the dearer side"
	}
}

// owning writes what owning costs a year, or earns where hours sold pay for it.
func (w wording) owning(result *single.Result, costs, earns string) string {
	if result.OwningAnnual < 0 {
		return earns + w.amount(-result.OwningAnnual) + " a year"
	}
	return costs + w.amount(result.OwningAnnual) + " a year"
}

// savedOn names where owning saves: at the shop, at the studio's own bench, or
// at both.
func (w wording) savedOn(result *single.Result) string {
	before, after := &w.answer.Rented, &result.Rent
	visits := before.Fee != after.Fee || before.Induction != after.Induction
	bench := false
	for j := range before.Jobs {
		was, is := &before.Jobs[j], &after.Jobs[j]
		visits = visits || was.Shop != is.Shop || was.Travel != is.Travel || was.Labour != is.Labour
		bench = bench || was.Bench != is.Bench
	}
	switch {
	case visits && bench:
		return "visits and bench time"
	case bench:
		return "bench time"
	default:
		return "visits"
	}
}

func (w wording) payback(result *single.Result) Payback {
	simple := Figure{result.Payback.Simple, result.Payback.SimpleOK}
	discounted := Figure{result.Payback.Discounted, result.Payback.DiscountedOK}
	said := Payback{Simple: simple, Discounted: discounted}
	switch {
	case !simple.Known:
		said.InWords = "not back within " + w.years(float64(w.study.Studio.Horizon))
	case simple.Value == 0:
		said.InWords = "never out of pocket"
	case !discounted.Known:
		said.InWords = "back in " + tenths(simple.Value) + " years, but not with interest"
	default:
		said.InWords = "back in " + tenths(simple.Value) + " years (" + tenths(discounted.Value) + " with interest)"
	}
	return said
}

// tenths writes a span of years to a tenth; more would promise too much.
func tenths(years float64) string { return strconv.FormatFloat(years, 'f', 1, 64) }

// returns lists every rate of return, or says that there is none.
func returns(rates []float64) string {
	words := make([]string, len(rates))
	for i, rate := range rates {
		words[i] = percent(rate)
	}
	switch len(words) {
	case 0:
		return "no rate of return"
	case 1:
		return "returns " + words[0] + " a year"
	default:
		last := len(words) - 1
		return "several rates of return (" + strings.Join(words[:last], ", ") + " and " + words[last] + "), so go by the amounts"
	}
}

func (w wording) life(result *single.Result) Life {
	life := Life{Years: result.Life.Best, Annual: result.Life.Least, StillFalling: result.Life.StillFalling}
	if math.IsNaN(life.Annual) {
		life.Annual = 0
	}
	life.InWords = "cheapest when kept " + w.years(float64(life.Years))
	if life.StillFalling {
		life.InWords += " or longer"
	}
	return life
}
