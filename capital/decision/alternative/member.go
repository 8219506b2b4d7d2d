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
			rent.Fee += FeeOf(study, s)
			taken = true
		}
	}
	return taken
}

// FeeOf is a year's fee of membership in a shop, sales tax included.
func FeeOf(study *model.Study, shop int) float64 {
	tariff := &study.Shops[shop].Tariff
	return study.Money.Round(12 * float64(tariff.MembershipFee) * (1 + float64(tariff.SalesTax)))
}

// MembershipOffered tells whether some shop has a membership, which ties all job
// types together.
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

// Induction is being let onto one machine of a shop, once: what it costs, and
// the rows of the plan that need it when everything is rented.
type Induction struct {
	Shop, Machine int
	Fee           float64 // with tax
	Hours         float64 // own hours
	Cost          float64 // both, in the first year
	Rows          []int
}

// InductionsOf lists the machines not yet inducted on that some work would use.
func InductionsOf(study *model.Study, plan *work.Plan) []Induction {
	var list []Induction
	if !inductionDue(study) {
		return nil
	}
	for i := range plan.Rows {
		row := &plan.Rows[i]
		if !row.Used || row.Site != work.AtShop || study.JobTypes[row.Job].PerYear == 0 {
			continue
		}
		shop := work.ShopOf(study, row.Job)
		if study.Shops[shop].Machines[row.Machine].Inducted {
			continue
		}
		at := slices.IndexFunc(list, func(one Induction) bool { return one.Shop == shop && one.Machine == row.Machine })
		if at < 0 {
			at = len(list)
			list = append(list, inductionOf(study, shop, row.Machine))
		}
		list[at].Rows = append(list[at].Rows, i)
	}
	return list
}

// induct adds what it costs to be let onto the machines that are used.
func (r *Rent) induct(study *model.Study, plan *work.Plan, used []bool) {
	r.Induction, r.InductionFees, r.InductionHours, r.InductionOwn = 0, 0, 0, 0
	for _, one := range InductionsOf(study, plan) {
		if slices.ContainsFunc(one.Rows, func(row int) bool { return used[row] }) {
			r.Induction += one.Cost
			r.InductionFees += one.Fee
			r.InductionHours += one.Hours
			r.InductionOwn += one.Hours * float64(study.Studio.LabourRate)
		}
	}
}

// Place is a machine of a shop.
type Place struct{ Shop, Machine int }

// Inductions lists the machines of the shops that are used when the given
// machines are owned and need an induction before.
func Inductions(study *model.Study, plan *work.Plan, owned []bool) []Place {
	used := kept(plan, owned)
	var list []Place
	for _, one := range InductionsOf(study, plan) {
		if slices.ContainsFunc(one.Rows, func(row int) bool { return used[row] }) {
			list = append(list, Place{one.Shop, one.Machine})
		}
	}
	return list
}

func inductionDue(study *model.Study) bool {
	return slices.ContainsFunc(study.Shops, func(shop model.Shop) bool {
		return slices.ContainsFunc(shop.Machines, func(machine model.HiredMachine) bool { return !machine.Inducted })
	})
}

func inductionOf(study *model.Study, shop, machine int) Induction {
	tariff := &study.Shops[shop].Tariff
	one := Induction{Shop: shop, Machine: machine, Hours: tariff.InductionTime.Hours()}
	one.Fee = study.Money.Round(float64(tariff.InductionFee) * (1 + float64(tariff.SalesTax)))
	one.Cost = one.Fee + one.Hours*float64(study.Studio.LabourRate)
	return one
}

// InductionCost is what the induction on a machine costs in year t, before
// tax: the fee with sales tax and own time; 0 is the first year.
func InductionCost(study *model.Study, at Place, t int) float64 {
	fee, own := inductionIn(study, at, t)
	return fee + own
}

// inductionIn parts what an induction costs in year t into what is invoiced and
// own time.
func inductionIn(study *model.Study, at Place, t int) (fee, own float64) {
	one, growth := inductionOf(study, at.Shop, at.Machine), &study.Growth
	own = one.Hours * float64(study.Studio.LabourRate)
	return one.Fee * math.Pow(1+float64(growth.Rental), float64(t)), own * math.Pow(1+float64(growth.Labour), float64(t))
}
