package capital_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/published"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

type worked = map[string][]float64

func TestOwningAgreesWithPublishedCases(t *testing.T) {
	for method, workOut := range map[string]func(*published.Inputs) worked{"aftertax": afterTax, "economiclife": economicLife} {
		t.Run(method, func(t *testing.T) {
			require.NoError(t, published.Agree(os.DirFS("../testdata/published"), method, workOut))
		})
	}
}

// bare is a machine that costs its price and nothing else.
func bare(in *published.Inputs) (*model.Study, *model.Machine) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.Price, m.UpkeepShare = quantity.Money(in.Number("price")), 0
	s.Studio.DiscountRate = quantity.Share(in.Number("rate"))
	return s, m
}

// afterTax earns the revenue as hours sold, pays the costs as other yearly
// costs and sells the machine at the horizon.
func afterTax(in *published.Inputs) worked {
	s, m := bare(in)
	years := int(in.Number("sale_year"))
	s.Studio.Horizon, m.YearsKept = quantity.Years(years), quantity.Years(years)
	s.Studio.TaxRate = quantity.Share(in.Number("tax_rate"))
	m.HoursSold, m.SoldRate = quantity.Hours(1000), quantity.MoneyPerHour(in.Number("revenue")/1000)
	m.YearlyOther = quantity.Money(in.Number("costs"))
	m.Resale, m.ValueTable = model.ResaleTable, make([]quantity.Share, years)
	m.ValueTable[years-1] = quantity.Share(in.Number("sale") / in.Number("price"))
	if convention := in.Text("convention"); convention != "half-year" {
		in.Keep(fmt.Errorf("%s: no convention %q", in.Case, convention))
	}
	m.Tax = model.Depreciation{Method: model.TaxHalfYear, Life: quantity.Years(in.Number("class"))}
	if in.Err() != nil {
		return nil
	}
	owned := capital.Own(s, m, level(years, 0, 0, 0))
	flows := make([]float64, years+1)
	for t, cost := range owned.Table[capital.Net] {
		flows[t] = -cost
	}
	gain := owned.Table[capital.Gain][years]
	return worked{
		"depreciation": owned.Table[capital.Deducted][1:],
		"book_value":   {owned.Table[capital.Book][years]},
		"gain":         {gain},
		"tax_on_gain":  {gain * float64(s.Studio.TaxRate)},
		"flows":        flows,
		"present":      {-owned.Present},
		"return":       timevalue.ReturnRates(flows),
	}
}

// economicLife takes the operating costs as wear and the market values as a
// table of resale.
func economicLife(in *published.Inputs) worked {
	s, m := bare(in)
	operating, market := in.List("operating"), in.List("market")
	m.Resale = model.ResaleTable
	for _, value := range market {
		m.ValueTable = append(m.ValueTable, quantity.Share(value/float64(m.Price)))
	}
	if in.Err() != nil {
		return nil
	}
	profile := level(len(operating), 0, 0, 0)
	profile.Wear = operating
	life := capital.EconomicLife(s, m, profile)
	return worked{
		"costs": life.Annual, "last": life.Annual[len(life.Annual)-1:],
		"life": {float64(life.Best)}, "cost": {life.Least},
	}
}

func TestTheEconomicLifeSaysWhenTheCurveIsStillFalling(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.UpkeepShare, m.Resale = 0, model.ResaleDeclining
	life := capital.EconomicLife(s, m, level(20, 0, 0, 0))
	assert.True(t, life.StillFalling)
	assert.Equal(t, 20, life.Best)
	m.UpkeepShare, m.UpkeepRise = 0.05, 0.5
	life = capital.EconomicLife(s, m, level(20, 0, 0, 0))
	assert.False(t, life.StillFalling)
	assert.Less(t, life.Best, 20)
}
