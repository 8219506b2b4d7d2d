package check

import (
	"fmt"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

func roomHasRate(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, tariff := range tariffs(study) {
		if tariff.Basis == model.WholeShop && tariff.HourlyRate <= 0 {
			list = append(list, found(path+".hourly_rate", "is 0 per h, and the machine room is charged by the hour",
				"give the rate, such as 85 per h, or say basis: per_machine and a rate for each machine"))
		}
	}
	return list
}

func machinesHaveRates(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for _, shop := range study.Shops {
		if shop.Tariff.Basis != model.PerMachine {
			continue
		}
		for _, machine := range shop.Machines {
			if machine.HourlyRate <= 0 {
				path := "shops." + shop.Key + ".machines." + machine.Key + ".hourly_rate"
				list = append(list, found(path, "is 0 per h, and each machine has its own clock",
					"give the rate, such as 60 per h, or say basis: whole_shop and one rate in the tariff"))
			}
		}
	}
	return list
}

func halfDayShorter(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, tariff := range tariffs(study) {
		if tariff.HalfDay >= tariff.Day {
			list = append(list, longer(study, path, "half_day", tariff.HalfDay, tariff.Day, "give a half day shorter than the day"))
		}
	}
	return list
}

func blockWithinDay(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, tariff := range tariffs(study) {
		if tariff.MinimumBlock > tariff.Day {
			list = append(list, longer(study, path, "minimum_block", tariff.MinimumBlock, tariff.Day, "give a block no longer than the day"))
		}
	}
	return list
}

// longer reports a stretch of a tariff that does not fit into its day.
func longer(study *model.Study, path, key string, stretch, day quantity.Duration, right string) problem.Problem {
	over := ""
	if stretch > day {
		over = fmt.Sprintf(", %s longer", show(study, quantity.DimDuration, float64(stretch-day)))
	}
	return problem.Problem{
		Path: said(study, path+"."+key, path+".day"),
		What: fmt.Sprintf("%s.%s is %s and day is %s%s", path, key,
			show(study, quantity.DimDuration, float64(stretch)), show(study, quantity.DimDuration, float64(day)), over),
		Right: right,
	}
}

func halfDayCheaper(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, tariff := range tariffs(study) {
		half, day := float64(tariff.HalfDayPrice), float64(tariff.DayPrice)
		if day > 0 && half > day {
			list = append(list, found(path+".half_day_price", fmt.Sprintf("is %s and day_price is %s, %s less",
				show(study, quantity.DimMoney, half), show(study, quantity.DimMoney, day), show(study, quantity.DimMoney, half-day)),
				"give a half day that costs no more than a day, or 0 where it is not offered"))
		}
	}
	return list
}

func membershipHasFee(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, tariff := range tariffs(study) {
		if tariff.MembershipFee > 0 {
			continue
		}
		if key := membershipKey(study, path, tariff); key != "" {
			list = append(list, found(path+"."+key, "is given without a membership_fee",
				"give membership_fee, such as 120 per month, or leave the membership out"))
		}
	}
	return list
}

// membershipKey returns the first thing that only a member has.
func membershipKey(study *model.Study, path string, tariff *model.Tariff) string {
	switch {
	case tariff.MembershipTime > 0 && !assumed(study, path+".membership_time"):
		return "membership_time"
	case tariff.MemberDiscount > 0 && !assumed(study, path+".member_discount"):
		return "member_discount"
	}
	return ""
}
