package check

import (
	"fmt"
	"slices"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

// oldest is the age in years past which no machine is reckoned with.
const oldest = 60

func newMachinesAreNew(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		if m.Condition != "new" {
			continue
		}
		if m.Age > 0 && !assumed(study, path+".age") {
			list = append(list, found(path+".age", "is "+show(study, quantity.DimYears, float64(m.Age))+" and condition is new", "say condition: used, or leave age out"))
		}
		if m.Hours > 0 && !assumed(study, path+".hours") {
			list = append(list, found(path+".hours", "is "+hoursText(m.Hours)+" and condition is new", "say condition: used, or leave hours out"))
		}
	}
	return list
}

func hoursAreLeft(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		if m.Hours >= m.LifeHours && m.LifeHours > 0 {
			list = append(list, problem.Problem{
				Path: said(study, path+".hours", path+".life_hours"),
				What: fmt.Sprintf("%s.hours is %s when bought and life_hours is %s, so that none is left", path,
					hoursText(m.Hours), hoursText(m.LifeHours)),
				Right: "give a life_hours beyond the hours it has run"})
		}
	}
	return list
}

func soldInTime(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		if last := float64(m.Age + m.YearsKept); last > oldest {
			list = append(list, problem.Problem{
				Path: said(study, path+".age", path+".years_kept"),
				What: fmt.Sprintf("%s.age is %s and years_kept is %s, together %s", path, show(study, quantity.DimYears, float64(m.Age)),
					show(study, quantity.DimYears, float64(m.YearsKept)), show(study, quantity.DimYears, last)),
				Right: fmt.Sprintf("keep the two together to at most %d years", oldest)})
		}
	}
	return list
}

func valueTableFalls(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		for i := 1; i < len(m.ValueTable) && m.Resale == model.ResaleTable; i++ {
			if before, now := m.ValueTable[i-1], m.ValueTable[i]; now > before {
				list = append(list, found(fmt.Sprintf("%s.value_table.%d", path, i+1), fmt.Sprintf("is %s, over the %s of the year before",
					show(study, quantity.DimShare, float64(now)), show(study, quantity.DimShare, float64(before))), "give shares that stay or fall from year to year"))
			}
		}
	}
	return list
}

func remainingValueStarts(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		if m.Resale == model.ResaleRemainingValue && m.ValueC1 <= 0 {
			list = append(list, found(path+".value_c1", "is 0 and resale is remaining_value, so that it would be worth nothing at once", "give the share at the start, such as 0.9"))
		}
	}
	return list
}

func hoursSoldPriced(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		if m.HoursSold > 0 && m.SoldRate <= 0 {
			list = append(list, found(path+".sold_rate", "is 0 per h, and hours_sold is "+hoursText(m.HoursSold),
				"give the price of an hour sold, such as 60 per h, or leave hours_sold out"))
		}
	}
	return list
}

// taxTableHasLife: the percentage tables are printed for these recovery periods only.
func taxTableHasLife(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		var printed []quantity.Years
		switch m.Tax.Method {
		case model.TaxHalfYear:
			printed = []quantity.Years{3, 5, 7, 10, 15, 20}
		case model.TaxMidQuarter:
			printed = []quantity.Years{3, 5, 7}
		}
		if len(printed) > 0 && !slices.Contains(printed, m.Tax.Life) {
			list = append(list, found(path+".tax.life", fmt.Sprintf("is %s, for which %s has no table", show(study, quantity.DimYears, float64(m.Tax.Life)), m.Tax.Method),
				"give "+words(keys(printed, yearsText))+" years"))
		}
	}
	return list
}

// hoursText writes a running time as a machine's meter does.
func hoursText(d quantity.Duration) string { return fmt.Sprintf("%.6g h", d.Hours()) }

func yearsText(y quantity.Years) string { return fmt.Sprintf("%g", float64(y)) }
