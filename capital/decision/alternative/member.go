package alternative

import (
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

func membershipOffered(study *model.Study) bool {
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

// induct adds the one-off cost of being let onto machines not yet inducted on:
// fees with tax and own time, for every machine of a shop that is used.
func (r *Rent) induct(study *model.Study, plan *work.Plan, used []bool) {
	type place struct{ shop, machine int }
	r.Induction, r.InductionFees, r.InductionHours = 0, 0, 0
	if !inductionDue(study) {
		return
	}
	seen := map[place]bool{}
	for i := range plan.Rows {
		row := &plan.Rows[i]
		if !used[i] || row.Site != work.AtShop {
			continue
		}
		at := place{work.ShopOf(study, row.Job), row.Machine}
		shop := &study.Shops[at.shop]
		if seen[at] || shop.Machines[at.machine].Inducted || study.JobTypes[row.Job].PerYear == 0 {
			continue
		}
		seen[at] = true
		r.InductionFees += study.Money.Round(float64(shop.Tariff.InductionFee) * (1 + float64(shop.Tariff.SalesTax)))
		r.InductionHours += shop.Tariff.InductionTime.Hours()
	}
	r.Induction = r.InductionFees + r.InductionHours*float64(study.Studio.LabourRate)
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
