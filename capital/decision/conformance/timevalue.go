package conformance

import (
	"math"

	"shopstint/capital/timevalue"
	"shopstint/model/published"
)

// timeValue runs the method the case names.
func timeValue(in *published.Inputs) worked {
	switch in.Text("method") {
	case "present value":
		return worked{"present": {timevalue.PresentValue(in.Number("rate"), in.List("flows"))}}
	case "present value by date":
		return worked{"present": {presentByDate(in)}}
	case "return rates":
		return worked{"rates": timevalue.ReturnRates(in.List("flows"))}
	case "return rates of level payments":
		return worked{"rates": timevalue.ReturnRates(level(in))}
	case "return rates by date":
		return worked{"rates": ratesByDate(in)}
	case "growth":
		return worked{"future": {future(in)}}
	case "nominal rate":
		periods := in.Number("periods_a_year")
		return worked{"rate": {periods * timevalue.PeriodRate(in.Number("yearly_rate"), periods)}}
	case "rate of a longer period":
		// What a rate a period comes to in several: a unit left to grow.
		periods := in.Number("periods")
		return worked{"rate": {1/timevalue.DiscountFactor(rate(in), periods) - 1}}
	default:
		return payments(in)
	}
}

// payments are the methods with an equal amount a period.
func payments(in *published.Inputs) worked {
	switch in.Text("method") {
	case "payment":
		return worked{"payment": {timevalue.Payment(rate(in), in.Number("periods"), in.Number("present"))}}
	case "payment at the start":
		// What is paid at the start of a period is worth a period's interest less at its end.
		present := in.Number("present") * timevalue.DiscountFactor(rate(in), 1)
		return worked{"payment": {timevalue.Payment(rate(in), in.Number("periods"), present)}}
	case "present of payments and a last sum":
		return worked{"present": {presentOfPayments(in)}}
	case "future of a sum and payments":
		return worked{"future": {futureOfPayments(in)}}
	case "sinking fund":
		return worked{"deposit": {timevalue.SinkingFund(rate(in), in.Number("periods"), in.Number("future"))}}
	case "capital recovery":
		return worked{"factor": {timevalue.CapitalRecovery(in.Number("rate"), in.Number("years"))}}
	case "recovery less salvage":
		return recoveryLessSalvage(in)
	case "recovery and interest on salvage":
		return recoveryAndInterest(in, timevalue.CapitalRecovery(in.Number("rate"), in.Number("years")))
	case "recovery by a given factor":
		return recoveryAndInterest(in, in.Number("factor"))
	default:
		return unknown(in)
	}
}

// rate is a rate a period, or a yearly one shared out evenly.
func rate(in *published.Inputs) float64 {
	if in.Has("yearly_rate") {
		return in.Number("yearly_rate") / in.Number("periods_a_year")
	}
	return in.Number("rate")
}

func level(in *published.Inputs) []float64 {
	flows := []float64{in.Number("present")}
	for range int(in.Number("periods")) {
		flows = append(flows, in.Number("payment"))
	}
	return flows
}

func presentOfPayments(in *published.Inputs) float64 {
	rate, periods := rate(in), in.Number("periods")
	return in.Number("payment")*timevalue.AnnuityFactor(rate, periods) + in.Number("last")*timevalue.DiscountFactor(rate, periods)
}

// futureOfPayments lets a sum and equal payments grow to the end; at_start is 1
// where each payment falls at the start of its period.
func futureOfPayments(in *published.Inputs) float64 {
	rate, periods := rate(in), in.Number("periods")
	payment := in.Number("payment") / timevalue.DiscountFactor(rate, in.Number("at_start"))
	return (in.Number("present") + payment*timevalue.AnnuityFactor(rate, periods)) / timevalue.DiscountFactor(rate, periods)
}

func future(in *published.Inputs) float64 {
	sum, years := in.Number("present"), in.List("years")
	for i, rate := range in.List("rates") {
		sum /= timevalue.DiscountFactor(rate, years[i])
	}
	return sum
}

// daysOfAYear is how the sources count: by 365 days, leap years too.
const daysOfAYear = 365

func presentByDate(in *published.Inputs) float64 {
	present, flows := 0.0, in.List("flows")
	for i, day := range in.List("days") {
		present += flows[i] * timevalue.DiscountFactor(in.Number("rate"), day/daysOfAYear)
	}
	return present
}

// ratesByDate finds rates for flows on days that are all whole steps: the rates of
// a step, left to grow for a year.
func ratesByDate(in *published.Inputs) []float64 {
	flows, days, step := in.List("flows"), in.List("days"), in.Number("step")
	if in.Err() != nil {
		return nil
	}
	even := make([]float64, 1+int(days[len(days)-1]/step))
	for i, day := range days {
		even[int(math.Round(day/step))] += flows[i]
	}
	rates := timevalue.ReturnRates(even)
	for i := range rates {
		rates[i] = 1/timevalue.DiscountFactor(rates[i], daysOfAYear/step) - 1
	}
	return rates
}

func recoveryLessSalvage(in *published.Inputs) worked {
	rate, years := in.Number("rate"), in.Number("years")
	price := timevalue.EquivalentAnnual(rate, years, in.Number("price"))
	salvage := timevalue.EquivalentAnnual(rate, years, in.Number("salvage")*timevalue.DiscountFactor(rate, years))
	return worked{
		"price_a_year":   {price},
		"salvage_a_year": {salvage},
		"per_hour":       {(price - salvage) / in.Number("hours")},
	}
}

func recoveryAndInterest(in *published.Inputs, factor float64) worked {
	salvage := in.Number("salvage")
	recovery := (in.Number("price")-salvage)*factor + salvage*in.Number("rate")
	ownership := recovery + in.Number("yearly")
	return worked{"recovery": {recovery}, "ownership": {ownership}, "per_hour": {ownership / in.Number("hours")}}
}
