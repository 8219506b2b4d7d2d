package joint

import (
	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint/subset"
	"shopstint/model"
)

// What a limit is on.
const (
	Money  = "money"  // that leaves on the day of purchase
	Floor  = "floor"  // m², with infeed, outfeed and clearance
	Supply = "supply" // amperes
)

// draws gives the supply that machines ask for: as many run at once as the
// studio has own people, the ones that draw most.
func draws(study *model.Study) subset.Peak {
	peak := subset.Peak{AtOnce: int(study.Studio.People), Most: float64(study.Studio.Amps)}
	for m := range study.Machines {
		peak.Draw = append(peak.Draw, alternative.MachineDraw(study, &study.Machines[m]))
	}
	return peak
}

// resources are what sets use of money and floor, whether limited or not.
func (b *builder) resources() (money, floor subset.Limit) {
	alone := make([]bool, len(b.study.Machines))
	use := func(when uint64, cash, area float64) {
		money.When, money.Weight = append(money.When, when), append(money.Weight, max(0, cash))
		floor.When, floor.Weight = append(floor.When, when), append(floor.Weight, max(0, area))
	}
	for m := range b.study.Machines {
		alone[m] = true
		owner := alternative.OwnerOf(b.study, b.plan, alone, m)
		alone[m] = false
		cash, area := owner.Table[capital.Net][0], owner.Area
		for _, fixture := range capital.Shared(b.study, &b.study.Machines[m]) {
			cash -= float64(fixture.Price)
			area -= float64(fixture.Area)
		}
		use(1<<m, cash, area)
	}
	for f := range b.study.Fixtures {
		fixture := &b.study.Fixtures[f]
		if sharers := b.sharers(fixture.Key); sharers != 0 {
			use(sharers, float64(fixture.Price), float64(fixture.Area))
		}
	}
	money.Most, floor.Most = float64(b.study.Studio.Budget), float64(b.study.Studio.FloorFree)
	return money, floor
}
