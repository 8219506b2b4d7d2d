package timevalue_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/timevalue"
	"shopstint/model/published"
)

// worked is a case worked out by this package: names of figures to figures.
type worked = map[string][]float64

func TestTimeValueAgreesWithPublishedCases(t *testing.T) {
	runPublished(t, "timevalue")
}

func TestMachineRatesAgreeWithPublishedCases(t *testing.T) {
	runPublished(t, "machinerate")
}

func runPublished(t *testing.T, method string) {
	files, err := published.Load(os.DirFS("../../testdata/published"), method)
	require.NoError(t, err)
	for _, file := range files {
		for _, c := range file.Cases {
			got, err := workOut(c)
			require.NoError(t, err)
			assert.NoError(t, c.Compare(got), c.Note)
		}
	}
}

// workOut runs the method the case names.
func workOut(c published.Case) (worked, error) {
	method, err := c.Text("method")
	if err != nil {
		return nil, err
	}
	in := inputs{c: c}
	var got worked
	switch method {
	case "present value":
		got = worked{"present": {timevalue.PresentValue(in.number("rate"), in.list("flows"))}}
	case "return rates":
		got = worked{"rates": timevalue.ReturnRates(in.list("flows"))}
	case "return rates of level payments":
		got = worked{"rates": timevalue.ReturnRates(in.level())}
	case "payment":
		got = worked{"payment": {timevalue.Payment(in.rate(), in.number("periods"), in.number("present"))}}
	case "present of payments and a last sum":
		got = worked{"present": {in.presentOfPayments()}}
	case "growth":
		got = worked{"future": {in.future()}}
	case "capital recovery":
		got = worked{"factor": {timevalue.CapitalRecovery(in.number("rate"), in.number("years"))}}
	case "recovery less salvage":
		got = in.recoveryLessSalvage()
	case "recovery and interest on salvage":
		got = in.recoveryAndInterest(timevalue.CapitalRecovery(in.number("rate"), in.number("years")))
	case "recovery by a given factor":
		got = in.recoveryAndInterest(in.number("factor"))
	default:
		return nil, fmt.Errorf("%s: no method %q", c, method)
	}
	return got, in.err
}

// inputs reads a case's figures and keeps the first error.
type inputs struct {
	c   published.Case
	err error
}

func (in *inputs) number(name string) float64 {
	value, err := in.c.Number(name)
	if err != nil && in.err == nil {
		in.err = err
	}
	return value
}

func (in *inputs) list(name string) []float64 {
	values, err := in.c.List(name)
	if err != nil && in.err == nil {
		in.err = err
	}
	return values
}

// rate is a rate a period, or a yearly one shared out evenly.
func (in *inputs) rate() float64 {
	if _, yearly := in.c.Inputs["yearly_rate"]; yearly {
		return in.number("yearly_rate") / in.number("periods_a_year")
	}
	return in.number("rate")
}

func (in *inputs) level() []float64 {
	flows := []float64{in.number("present")}
	for range int(in.number("periods")) {
		flows = append(flows, in.number("payment"))
	}
	return flows
}

func (in *inputs) presentOfPayments() float64 {
	rate, periods := in.rate(), in.number("periods")
	return in.number("payment")*timevalue.AnnuityFactor(rate, periods) + in.number("last")*timevalue.DiscountFactor(rate, periods)
}

func (in *inputs) future() float64 {
	sum, years := in.number("present"), in.list("years")
	for i, rate := range in.list("rates") {
		sum /= timevalue.DiscountFactor(rate, years[i])
	}
	return sum
}

func (in *inputs) recoveryLessSalvage() worked {
	rate, years := in.number("rate"), in.number("years")
	price := timevalue.EquivalentAnnual(rate, years, in.number("price"))
	salvage := timevalue.EquivalentAnnual(rate, years, in.number("salvage")*timevalue.DiscountFactor(rate, years))
	return worked{
		"price_a_year":   {price},
		"salvage_a_year": {salvage},
		"per_hour":       {(price - salvage) / in.number("hours")},
	}
}

func (in *inputs) recoveryAndInterest(factor float64) worked {
	salvage := in.number("salvage")
	recovery := (in.number("price")-salvage)*factor + salvage*in.number("rate")
	ownership := recovery + in.number("yearly")
	return worked{"recovery": {recovery}, "ownership": {ownership}, "per_hour": {ownership / in.number("hours")}}
}

func TestEveryFormulaNamesItsSource(t *testing.T) {
	missing, err := published.Unsourced(os.DirFS("."))
	require.NoError(t, err)
	assert.Empty(t, missing)
}
