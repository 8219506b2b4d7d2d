package workbook

import (
	"fmt"

	"shopstint/capital/decision/sensitivity"
)

// This file holds the years of owning in a case: the twin of capital.Own in six
// columns a year, for the machine at hand.

func (k caseFormulas) age(t int) string  { return "$" + k.at(k.c.age+t-1) }
func (k caseFormulas) owed(t int) string { return "$" + k.at(k.c.owed+t-1) }

// ageIn is the age of the machine at work in year t.
func (k caseFormulas) ageIn(t int) string {
	return fmt.Sprintf("MOD(%d,%s)+1", t-1, k.lever(sensitivity.YearsKept))
}

// grown is the growth of machine prices to the year in which the machine at
// work in year t was bought.
func (k caseFormulas) grown(t int) string {
	return fmt.Sprintf("(1+%s)^(%d-%s)", k.b.in("growth.machines"), t, k.age(t))
}

// byAge is a figure by age, at the age in year t.
func (k caseFormulas) byAge(key string, t int) string {
	return pick(k.f.years(key, 1, k.b.horizon()), "1,"+k.age(t))
}

// valueIn is what the machine at work would fetch at the end of year t.
func (k caseFormulas) valueIn(t int) string {
	hours := fmt.Sprintf("(%s*%s)", k.lever(sensitivity.Work), k.f.year("hours", 1))
	share := func(years string) string {
		return fmt.Sprintf("MAX(0,%s-%s*SQRT(%s)-%s*SQRT(%s))^2", k.hand("c1"), k.hand("c2"), years, k.hand("c3"), hours)
	}
	old := k.hand("age")
	remaining := fmt.Sprintf("IF(%[1]s=0,%[2]s,IF(%[3]s=0,0,%[4]s/(%[3]s)))", old, share(k.age(t)), share(old), share("("+old+"+"+k.age(t)+")"))
	return fmt.Sprintf("%s*%s*%s*IF(%s=1,%s,%s)", k.lever(sensitivity.Price), k.grown(t), k.lever(sensitivity.Resale), k.hand("by_value"), remaining, k.byAge("value", t))
}

func (k caseFormulas) lent(t int) string {
	return fmt.Sprintf("%s*%s*%s", k.lever(sensitivity.Price), k.grown(t), k.hand("loan_share"))
}

// owedIn is the twin of loan.Balance.
func (k caseFormulas) owedIn(t int) string {
	rate, months := "("+k.hand("loan_apr")+"/12)", k.hand("loan_months")
	return fmt.Sprintf("IF(12*%[1]s>=%[2]s,0,%[3]s*IF(%[4]s=0,(%[2]s-12*%[1]s)/%[2]s,(1-(1+%[4]s)^(12*%[1]s-%[2]s))/(1-(1+%[4]s)^-%[2]s)))", k.age(t), months, k.lent(t), rate)
}

// owedBefore is what was owed when year t began.
func (k caseFormulas) owedBefore(t int) string {
	if t == 1 {
		return k.lent(1)
	}
	return fmt.Sprintf("IF(%s=1,%s,%s)", k.age(t), k.lent(t), k.owed(t-1))
}

// interest is the twin of loan.YearInterest.
func (k caseFormulas) interest(t int) string {
	rate, months := "("+k.hand("loan_apr")+"/12)", k.hand("loan_months")
	paid := fmt.Sprintf("%s*IF(%[2]s=0,1/%[3]s,%[2]s/(1-(1+%[2]s)^-%[3]s))*MAX(0,MIN(12,%[3]s-12*(%[4]s-1)))", k.lent(t), rate, months, k.age(t))
	return fmt.Sprintf("%s-(%s-%s)", paid, k.owedBefore(t), k.owed(t))
}

// deductedIn is the share that the tax method has deducted of the machine at
// work by the end of year t, before any share at once.
func (k caseFormulas) deductedIn(t int) string {
	total := k.f.years("hours_to", 0, k.b.horizon())
	hours := fmt.Sprintf("%s*(%s-INDEX(%s,1,%d-%s))", k.lever(sensitivity.Work), k.f.year("hours_to", t), total, t+1, k.age(t))
	units, salvage := k.hand("units"), k.hand("salvage")
	return fmt.Sprintf("IF(%s=1,MIN(1-%[2]s,(1-%[2]s)*%[3]s/%[4]s),1-%[5]s)", k.hand("by_hours"), salvage, hours, units, k.byAge("left", t))
}

// deducted is that share at the end of year t, and before is it when the year began.
func (k caseFormulas) deducted(t int) (to, before string) {
	to = "$" + k.at(k.c.deducted+t-1)
	if t == 1 {
		return to, "0"
	}
	return to, fmt.Sprintf("IF(%s=1,0,$%s)", k.age(t), k.at(k.c.deducted+t-2))
}

// runningIn is the twin of capital.RunningCosts with interest.
func (k caseFormulas) runningIn(t int) string {
	work, labour := k.lever(sensitivity.Work), k.lever(sensitivity.LabourRate)
	year := func(key string) string { return k.f.year(key, t) }
	total := k.f.years("hours_to", 0, k.b.horizon())
	life := fmt.Sprintf("(%s+%s*(%s-INDEX(%s,1,%d-%s)))", k.hand("hours"), work, year("hours_to"), total, t+1, k.age(t))
	power := k.hand("repair_power")
	repair := fmt.Sprintf("IF(%s=1,%s*((%[3]s/1000)^%[4]s-(ABS(%[3]s-%[5]s*%[6]s)/1000)^%[4]s),%[7]s)", k.hand("accumulated"), k.hand("repair"), life, power, work, year("hours"), k.byAge("upkeep", t))
	before := fmt.Sprintf("%s*(1+%s)^%d", k.lever(sensitivity.Price), k.b.in("growth.machines"), t-1)
	if t > 1 {
		before = fmt.Sprintf("IF(%s=1,%s,$%s)", k.age(t), before, k.at(k.c.value+t-2))
	}
	own := fmt.Sprintf("%s*%s*%s", work, year("own_hours"), labour)
	if t == 1 {
		own += "*(1+" + k.hand("learning") + ")"
	}
	return fmt.Sprintf("%s*%s*%s+%s*%s+%s+%s*%s*%s+%s*%s*%s+%s*%s*%s+(%s+(%s*%s*%s+%s)*%s)*%s-%s*(1+%s)^%d+%s",
		k.lever(sensitivity.Upkeep), repair, year("growth_upkeep"), before, k.hand("holding"), year("constant"),
		k.hand("area"), k.lever(sensitivity.FloorCost), year("growth_floor"), work, year("energy"), k.lever(sensitivity.EnergyPrice),
		work, year("wear"), k.lever(sensitivity.Consumables),
		own, work, year("hours"), k.hand("care"), k.hand("routine"), labour, year("growth_labour"),
		k.hand("sold"), k.lever(sensitivity.RentalGrowth), t-1, k.interest(t))
}

// start is what learning and first edges and abrasives cost.
func (k caseFormulas) start() string {
	return fmt.Sprintf("%s+%s*%s+%s*%s", k.hand("start_money"), k.hand("start_hours"), k.lever(sensitivity.LabourRate), k.hand("first_edges"), k.lever(sensitivity.Consumables))
}

// buying is the price with its tax, and moving in, at today's prices.
func (k caseFormulas) buying() string {
	return fmt.Sprintf("(%s*(1+%s)+%s*%s)", k.lever(sensitivity.Price), k.hand("sales_tax"), k.lever(sensitivity.Installation), k.hand("moving"))
}

func (k caseFormulas) fixtures() string {
	return fmt.Sprintf("(%s*%s+%s)", k.lever(sensitivity.Installation), k.hand("fixtures"), k.hand("shared"))
}

// today is what leaves the account on the day of purchase.
func (k caseFormulas) today() string {
	return fmt.Sprintf("%s+%s+%s-%s*%s", k.buying(), k.fixtures(), k.start(), k.lever(sensitivity.Price), k.hand("loan_share"))
}

// netIn is the twin of capital's Net in year t: running costs, the loan, a
// replacement, a sale and the tax on all of it.
func (k caseFormulas) netIn(t int) string {
	last := t == k.b.horizon()
	when := func(formula string) string { // where the machine at work is sold
		if last {
			return formula
		}
		return fmt.Sprintf("IF(%s=1,%s,0)", k.age(t+1), formula)
	}
	running, value := "$"+k.at(k.c.running+t-1), "$"+k.at(k.c.value+t-1)
	back := "0"
	if last {
		back = fmt.Sprintf("(%s*%s*%s+%s)", k.lever(sensitivity.Installation), k.hand("fixtures"), k.hand("fixtures_resale"), k.hand("shared_back"))
	}
	sale := when(fmt.Sprintf("(%s+%s-%s)", k.owed(t), k.hand("rigging_out"), value))
	next := fmt.Sprintf("(%s-%s*%s)*(1+%s)^%d", k.buying(), k.lever(sensitivity.Price), k.hand("loan_share"), k.b.in("growth.machines"), t)
	if last {
		next = "0"
	}
	basis := fmt.Sprintf("(%s*%s+IF(%s=%d,%s,0))", k.buying(), k.grown(t), k.age(t), t, k.fixtures())
	to, before := k.deducted(t)
	atOnce := k.hand("first_year") + "*" + k.hand("deducts")
	part := when(fmt.Sprintf("IF(%s<%s,%s-1,0)", k.age(t), k.hand("table_years"), k.hand("sale_year"))) // in the year of sale less than a full year
	share := fmt.Sprintf("(1-%s)*(%s-%s)*(1+%s)+IF(%s=1,%s,0)", k.hand("first_year"), to, before, part, k.age(t), atOnce)
	book := fmt.Sprintf("%s*(1-%s-(1-%s)*(%s+(%s-%s)*(1+%s)))", basis, atOnce, k.hand("first_year"), before, to, before, part)
	gain := when(fmt.Sprintf("(%s+%s-%s-%s)", value, back, k.hand("rigging_out"), book))
	deductions := fmt.Sprintf("%s*(%s)+%s", basis, share, running)
	if t == 1 {
		deductions += "+" + k.start()
	}
	principal := fmt.Sprintf("(%s-%s)", k.owedBefore(t), k.owed(t))
	if !last {
		next = when(next)
	}
	return fmt.Sprintf("%s+%s+%s+%s-%s-%s*(%s-%s)", running, principal, sale, next, back, k.lever(sensitivity.TaxRate), deductions, gain)
}
