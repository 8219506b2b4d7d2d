package alternative

import (
	"math"
	"slices"

	"shopstint/model"
	"shopstint/model/work"
	"shopstint/rental"
)

// join decides, shop by shop, whether a membership pays on the first year's
// visits, and says whether any was taken. Included hours are spread evenly over
// the year: what one month leaves unused does not help another.
//
// Source: common practice, no source.
func join(study *model.Study, rent *Rent) bool {
	taken := false
	for s := range study.Shops {
		tariff := &study.Shops[s].Tariff
		if tariff.MembershipFee == 0 {
			continue
		}
		paid, charge := atShop(study, rent, s)
		member := rental.Membership{Joined: true, Included: IncludedShare(tariff, paid)}
		fee := 12 * float64(tariff.MembershipFee)
		if charge*rental.MemberSaving(tariff, member) > fee {
			rent.Members[s] = member
			rent.Fee += study.Money.Round(fee * (1 + float64(tariff.SalesTax)))
			taken = true
		}
	}
	return taken
}

// MembershipOffered tells whether a shop has one: it ties the prices of all job types together.
func MembershipOffered(study *model.Study) bool {
	for s := range study.Shops {
		if study.Shops[s].Tariff.MembershipFee > 0 {
			return true
		}
	}
	return false
}

// atShop sums the first year's paid hours and machine time at one shop.
func atShop(study *model.Study, rent *Rent, shop int) (paid, charge float64) {
	for job := range rent.Jobs {
		if work.ShopOf(study, job) == shop {
			paid += rent.Jobs[job].Paid
			charge += rent.Jobs[job].TimeCharge
		}
	}
	return paid, charge
}

// IncludedShare returns the share of a year's paid hours that the membership's
// monthly hours cover.
//
// Source: common practice, no source.
func IncludedShare(tariff *model.Tariff, paidHours float64) float64 {
	if paidHours == 0 {
		return 0
	}
	return min(1, 12*tariff.MembershipTime.Hours()/paidHours)
}

// Place is a machine of a shop.
type Place struct{ Shop, Machine int }

// induction is the one-off cost of being let onto machines not yet inducted
// on: fees with tax and own time, for every machine of a shop that is used.
func induction(study *model.Study, plan *work.Plan, used []bool) float64 {
	total := 0.0
	for _, at := range inductions(study, plan, used) {
		total += InductionCost(study, at, 0)
	}
	return total
}

// Inductions lists the machines of the shops that are used when the given
// machines are owned and need an induction before.
func Inductions(study *model.Study, plan *work.Plan, owned []bool) []Place {
	return inductions(study, plan, kept(plan, owned))
}

func inductions(study *model.Study, plan *work.Plan, used []bool) []Place {
	if !inductionDue(study) {
		return nil
	}
	var list []Place
	for i := range plan.Rows {
		row := &plan.Rows[i]
		if !used[i] || row.Site != work.AtShop || study.JobTypes[row.Job].PerYear == 0 {
			continue
		}
		at := Place{work.ShopOf(study, row.Job), row.Machine}
		if !study.Shops[at.Shop].Machines[at.Machine].Inducted && !slices.Contains(list, at) {
			list = append(list, at)
		}
	}
	return list
}

func inductionDue(study *model.Study) bool {
	for s := range study.Shops {
		for m := range study.Shops[s].Machines {
			if !study.Shops[s].Machines[m].Inducted {
				return true
			}
		}
	}
	return false
}

// InductionCost is what the induction on a machine costs in year t, before
// tax: the fee with sales tax and own time; 0 is the first year.
func InductionCost(study *model.Study, at Place, t int) float64 {
	tariff, growth := &study.Shops[at.Shop].Tariff, &study.Growth
	fee := study.Money.Round(float64(tariff.InductionFee) * (1 + float64(tariff.SalesTax)))
	fee *= math.Pow(1+float64(growth.Rental), float64(t))
	return fee + tariff.InductionTime.Hours()*float64(study.Studio.LabourRate)*math.Pow(1+float64(growth.Labour), float64(t))
}
