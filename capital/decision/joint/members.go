package joint

import (
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint/subset"
	"shopstint/model/work"
	"shopstint/rental"
)

// rentProblems gives the rented side as tables. Without a membership that is one
// problem whose cost is exact. With one it is a table of all sets or, for many
// machines, one problem for each choice of memberships: no set costs less than
// in the cheapest of them.
func (b *builder) rentProblems() [][]subset.Term {
	switch {
	case !alternative.MembershipOffered(b.study):
		return [][]subset.Term{b.rentedAs(belonging{members: make([]rental.Membership, len(b.study.Shops))})}
	case len(b.study.Machines) <= b.sizes.priced:
		return [][]subset.Term{{b.everyRent()}}
	}
	b.tied = true
	var list [][]subset.Term
	for _, choice := range b.memberships() {
		list = append(list, b.rentedAs(choice))
	}
	return list
}

// belonging is a choice of memberships: by shop, and what they cost a year.
type belonging struct {
	members []rental.Membership
	fee     float64
}

// rentedAs are the tables of rent for given memberships, their fees included.
func (b *builder) rentedAs(choice belonging) []subset.Term {
	fees := alternative.Rent{Fee: choice.fee}
	list := []subset.Term{{Cost: []float64{fees.Fixed(b.study)}}}
	for job := range b.study.JobTypes {
		list = append(list, b.rentTerm(job, b.rents(job, choice.members[work.ShopOf(b.study, job)])))
	}
	return append(list, b.inductions()...)
}

// everyRent prices what is rented beside each set of machines.
func (b *builder) everyRent() subset.Term {
	machines := len(b.study.Machines)
	all := subset.Term{Cost: make([]float64, 1<<machines)}
	for m := range machines {
		all.When = append(all.When, 1<<m)
	}
	jobs := make([]rents, len(b.study.JobTypes))
	for job := range jobs {
		jobs[job] = b.rents(job, rental.Membership{})
	}
	for set := range all.Cost {
		beside := make([]alternative.JobRent, len(jobs))
		for job := range jobs {
			beside[job] = jobs[job].states[stateOf(jobs[job].when, uint64(set))]
		}
		rent := alternative.RentFrom(b.study, b.plan, members(uint64(set), machines), beside)
		all.Cost[set] = rent.Present(b.study)
	}
	return all
}

func stateOf(when []uint64, set uint64) int {
	at := 0
	for i, group := range when {
		if set&group != 0 {
			at |= 1 << i
		}
	}
	return at
}

// mostOffers is how many shops' memberships are tried in every combination.
const mostOffers = 3

// memberships lists the choices of memberships to look at: each shop joined, at
// the best that its included hours can be worth, or not. Beyond a few shops all
// are taken as joined for nothing, which no set can beat.
func (b *builder) memberships() []belonging {
	var offers []int
	for shop := range b.study.Shops {
		if b.study.Shops[shop].Tariff.MembershipFee > 0 {
			offers = append(offers, shop)
		}
	}
	var list []belonging
	for joined := range 1 << min(mostOffers, len(offers)) {
		choice := belonging{members: make([]rental.Membership, len(b.study.Shops))}
		for i, shop := range offers {
			if i >= mostOffers || joined>>i&1 != 0 {
				choice.members[shop] = rental.Membership{Joined: true, Included: b.mostIncluded(shop)}
			}
			if i < mostOffers && joined>>i&1 != 0 {
				choice.fee += alternative.FeeOf(b.study, shop)
			}
		}
		list = append(list, choice)
	}
	return list
}

// mostIncluded is the largest share of paid hours that a membership can cover.
func (b *builder) mostIncluded(shop int) float64 {
	tariff := &b.study.Shops[shop].Tariff
	if tariff.MembershipTime == 0 {
		return 0
	}
	paid := 0.0
	for job := range b.study.JobTypes {
		if work.ShopOf(b.study, job) == shop {
			everything := members(^uint64(0), len(b.study.Machines))
			paid += alternative.JobRentOf(b.study, b.plan, everything, job, rental.Membership{}).Paid
		}
	}
	if paid == 0 {
		return 1
	}
	return alternative.IncludedShare(tariff, paid)
}
