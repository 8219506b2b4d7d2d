package joint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint/subset"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
	"shopstint/rental"
)

// clubs is the study in round figures with a shop for each of some monthly fees,
// that takes a tenth off machine time; all work is done at the first.
func clubs(fees ...quantity.MoneyPerMonth) (*model.Study, *builder) {
	s := studygen.Round()
	mill := s.Shops[0]
	s.Shops = nil
	for i, fee := range fees {
		shop := mill
		if i > 0 {
			shop.Key += string(rune('a' + i))
		}
		shop.Tariff.MembershipFee, shop.Tariff.MemberDiscount = fee, 0.1
		s.Shops = append(s.Shops, shop)
	}
	return s, builderOf(s, work.New(s), sizes{groups: usual.groups, priced: 0})
}

// Twelve months of 10, 20 and 40: the fee of each choice tells who joined. The shop without
// a membership is joined by none.
func TestEveryChoiceOfThreeMembershipsIsLookedAtWithItsFee(t *testing.T) {
	_, b := clubs(10, 0, 20, 40)
	list := b.memberships()
	require.Len(t, list, 8)
	for joined, choice := range list {
		assert.InDelta(t, 120*float64(joined), choice.fee, 1e-9)
		for i, shop := range []int{0, 2, 3} {
			assert.Equal(t, rental.Membership{Joined: joined>>i&1 != 0}, choice.members[shop], "choice %d, shop %d", joined, shop)
		}
		assert.Equal(t, rental.Membership{}, choice.members[1], "nothing to join")
	}
}

func TestFromTheFourthMembershipOnAllAreTakenForNothing(t *testing.T) {
	_, b := clubs(10, 20, 40, 80, 160)
	list := b.memberships()
	require.Len(t, list, 8)
	for joined, choice := range list {
		assert.InDelta(t, 120*float64(joined), choice.fee, 1e-9)
		for shop, member := range choice.members {
			assert.Equal(t, shop > 2 || joined>>shop&1 != 0, member.Joined, "choice %d, shop %d", joined, shop)
		}
	}
}

// By hand: with everything owned the belt and the planer are, and nothing is rented. With
// nothing to own, 20 visits of 82 min are charged in quarters as 1.5 h each: 30 h a year, of
// which 2 h a month are 24.
func TestIncludedHoursCoverAtMostTheirShareOfTheHoursThatNoMachineSpares(t *testing.T) {
	s, b := clubs(10)
	assert.Zero(t, b.mostIncluded(0), "no hours are included")
	s.Shops[0].Tariff.MembershipTime = quantity.Hours(2)
	assert.InDelta(t, 1, b.mostIncluded(0), 0, "nothing is rented where all is owned")
	s.Machines = nil
	rented := builderOf(s, work.New(s), usual)
	assert.InDelta(t, 24.0/30, rented.mostIncluded(0), 1e-9)
	s.Shops[0].Tariff.MembershipTime = quantity.Hours(0.25)
	assert.InDelta(t, 3.0/30, rented.mostIncluded(0), 1e-9, "a quarter of an hour")
}

// Three shops and a fourth, each with a job type of its own. The choice among all sets is
// bounded from below, and within the bound of the fee that is left out of the fourth.
func TestTheBoundOfFourMembershipsHoldsForEverySet(t *testing.T) {
	s, _ := clubs(10, 60, 200, 30)
	for i := 1; i < len(s.Shops); i++ {
		job := s.JobTypes[0]
		job.Key += s.Shops[i].Key
		job.Shop = s.Shops[i].Key
		s.JobTypes = append(s.JobTypes, job)
	}
	plan := work.New(s)
	c := chooserOf(s, plan, sizes{groups: usual.groups, priced: 0})
	require.Len(t, c.problems, 8)
	free := alternative.FeeOf(s, 3) * 3 // the years of the study, undiscounted
	for set := range uint64(4) {
		whole := evaluated(s, plan, int(set)).Present
		low := c.problems[0].Cost(set)
		for i := range c.problems {
			low = min(low, c.problems[i].Cost(set))
		}
		assert.LessOrEqual(t, low, whole+studygen.Dust(whole))
		assert.Greater(t, low, whole-free, "no more is given away than that fee")
	}
}

// What comes twice or has no machine is dropped, large groups stand first, and those of one
// size by their first machine that differs; beyond the room the smallest are joined.
func TestGroupsOfMachinesAreSortedAndTheSmallestAreJoined(t *testing.T) {
	masks := []uint64{0b0001, 0b0110, 0, 0b1111, 0b0011, 0b0001, 0b1000, 0b0110, 0b0101}
	for _, row := range []struct {
		room   int
		want   []uint64
		coarse bool
	}{
		{7, []uint64{0b1111, 0b0011, 0b0101, 0b0110, 0b0001, 0b1000}, false},
		{6, []uint64{0b1111, 0b0011, 0b0101, 0b0110, 0b0001, 0b1000}, false},
		{5, []uint64{0b1111, 0b0011, 0b0101, 0b0110, 0b1001}, true},
		{2, []uint64{0b1111, 0b1111}, true},
	} {
		b := &builder{sizes: sizes{groups: row.room}}
		assert.Equal(t, row.want, b.groups(masks), "room for %d", row.room)
		assert.Equal(t, row.coarse, b.coarse, "room for %d", row.room)
	}
}

func TestAStateThatCannotBeCostsAsMuchAsTheDearest(t *testing.T) {
	same := func(cost *float64) float64 { return *cost }
	for _, row := range []struct {
		costs   []float64
		reached []bool
		want    []float64
	}{
		{[]float64{-5, 99, -2, -9}, []bool{true, false, true, true}, []float64{-5, -2, -2, -9}},
		{[]float64{3, 8, 99, 5}, []bool{true, true, false, true}, []float64{3, 8, 8, 5}},
		{[]float64{99, 0.1, 99, 0.2}, []bool{false, true, false, true}, []float64{0.2, 0.1, 0.2, 0.2}},
	} {
		priced := term([]uint64{1, 2}, row.costs, row.reached, same)
		assert.Equal(t, row.want, priced.Cost)
	}
}

func TestOfGroupsThatContainEachOtherTheSmallestIsKept(t *testing.T) {
	assert.Equal(t, []uint64{0b001, 0b110}, smallest([]uint64{0b001, 0b110, 0b111, 0b011}))
	assert.Equal(t, []uint64{0b011, 0b110}, smallest([]uint64{0b011, 0b110}), "neither contains the other")
	assert.Empty(t, smallest(nil))
}

// Two shop machines with an induction of 100 each: due until a machine that takes the step
// is owned, in whatever way, and for ever where there is none.
func TestAnInductionIsDueUntilAllItsStepsAreTaken(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.InductionFee = 100
	for m := range s.Shops[0].Machines {
		s.Shops[0].Machines[m].Inducted = false
	}
	plan := work.New(s)
	problem := subset.Problem{Items: 2, Terms: builderOf(s, plan, usual).inductions()}
	first := 100 * alternative.FirstYear(s)
	require.Positive(t, first)
	for set, due := range []float64{2, 1, 1, 0} {
		assert.InDelta(t, due*first, problem.Cost(uint64(set)), 1e-9, "set %b", set)
	}
	s.Machines = s.Machines[:1]
	none := subset.Problem{Items: 1, Terms: builderOf(s, work.New(s), usual).inductions()}
	assert.InDelta(t, 2*first, none.Cost(0), 1e-9)
	assert.InDelta(t, first, none.Cost(1), 1e-9, "no machine takes the belt's step")
}

// Eight machines of rising price make 256 sets, of which 64 are priced for each of two choices of
// membership. A fee that nobody pays must not lift the bound above the sets that are left.
func TestTheBoundOfMembershipsIsThatOfTheCheapestChoice(t *testing.T) {
	for _, fee := range []quantity.MoneyPerMonth{1, 1e6} {
		s, _ := clubs(fee)
		s.Shops[0].Tariff.MembershipTime = quantity.Hours(1)
		for i := range 6 {
			machine := s.Machines[i%2]
			machine.Key += string(rune('a' + i))
			machine.Price += quantity.Money(100 * (i + 1))
			s.Machines = append(s.Machines, machine)
		}
		plan := work.New(s)
		c := chooserOf(s, plan, sizes{groups: usual.groups, priced: 0})
		require.Len(t, c.problems, 2)
		found, bound := c.reprice()
		require.Len(t, found, Shown)
		below := 0
		for set := range 1 << len(s.Machines) {
			whole := evaluated(s, plan, set).Present
			assert.GreaterOrEqual(t, whole, found[0].Cost-studygen.Dust(whole))
			if whole < bound-studygen.Dust(whole) {
				below++
			}
		}
		assert.LessOrEqual(t, below, 2*mostRepriced, "only sets that were priced")
		assert.Positive(t, bound)
	}
}

// At 5 % a set that costs 100 more to own and saves 95 of renting is just too close to call, and
// so is one that differs in nothing.
func TestSetsAreTooCloseToCallUpToTheShareOfTheLargerDifference(t *testing.T) {
	c := &chooser{study: &model.Study{Studio: model.Studio{CloseCall: 0.05}}}
	for _, row := range []struct {
		owning, renting float64
		near            bool
	}{{0, 0, true}, {100, -95, true}, {100, -94, false}, {-100, 95, true}, {-100, 94, false}, {95, -100, true}, {94, -100, false}, {100, 100, false}} {
		a, b := Choice{Owning: 300 + row.owning, Renting: 700 + row.renting}, Choice{Owning: 300, Renting: 700}
		assert.Equal(t, row.near, c.close(&a, &b), "%v", row)
	}
}
