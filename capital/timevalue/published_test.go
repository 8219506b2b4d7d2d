package timevalue_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/capital/timevalue"
	"shopstint/model/published"
)

// worked is a case worked out by this package: names of figures to figures.
type worked = map[string][]float64

func TestTimeValueAgreesWithPublishedCases(t *testing.T) {
	require.NoError(t, published.Agree(os.DirFS("../../testdata/published"), "timevalue", workOut))
}

func TestMachineRatesAgreeWithPublishedCases(t *testing.T) {
	require.NoError(t, published.Agree(os.DirFS("../../testdata/published"), "machinerate", workOut))
}

// workOut runs the method the case names.
func workOut(in *published.Inputs) worked {
	switch method := in.Text("method"); method {
	case "present value":
		return worked{"present": {timevalue.PresentValue(in.Number("rate"), in.List("flows"))}}
	case "return rates":
		return worked{"rates": timevalue.ReturnRates(in.List("flows"))}
	case "return rates of level payments":
		return worked{"rates": timevalue.ReturnRates(level(in))}
	case "payment":
		return worked{"payment": {timevalue.Payment(rate(in), in.Number("periods"), in.Number("present"))}}
	case "present of payments and a last sum":
		return worked{"present": {presentOfPayments(in)}}
	case "growth":
		return worked{"future": {future(in)}}
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
		in.Keep(fmt.Errorf("%s: no method %q", in.Case, method))
		return nil
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

func future(in *published.Inputs) float64 {
	sum, years := in.Number("present"), in.List("years")
	for i, rate := range in.List("rates") {
		sum /= timevalue.DiscountFactor(rate, years[i])
	}
	return sum
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
