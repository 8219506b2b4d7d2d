package roadmap

import (
	"cmp"
	"slices"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
)

// addLimits holds every year to the limits that the joint choice keeps, but for
// the money of the day of purchase.
func (l *laying) addLimits() {
	excludes, needs := alternative.Relations(l.study)
	for _, pair := range excludes {
		l.out.exclude(pair[0], pair[1])
	}
	for _, pair := range needs {
		l.out.require(pair[0], pair[1])
	}
	l.addFloor()
	if alternative.SupplyKnown(l.study) {
		l.addSupply()
	}
}

func (l *laying) addFloor() {
	free := float64(l.study.Studio.FloorFree)
	if free == 0 {
		return
	}
	floor := room{most: slices.Repeat([]float64{free}, l.out.years)}
	for m := range l.study.Machines {
		machine := alternative.Unshared(l.study, m)
		floor.need = append(floor.need, capital.FloorArea(l.study, &machine, alternative.LongestPiece(l.study)))
	}
	for _, f := range l.fixtures {
		floor.need = append(floor.need, float64(l.study.Fixtures[f].Area))
	}
	l.out.rooms = append(l.out.rooms, floor)
}

// addSupply keeps what the studio's people can run at once within the supply.
func (l *laying) addSupply() {
	most, people := withDust(float64(l.study.Studio.Amps)), int(l.study.Studio.People)
	draws := make([]float64, len(l.study.Machines))
	for m := range draws {
		draws[m] = alternative.MachineDraw(l.study, &l.study.Machines[m])
		if draws[m] > most {
			l.out.ban(m)
		}
	}
	if people > 1 {
		l.addPeaks(draws, most, people)
	}
}

// addPairs excludes what two people cannot run at once. Of the machines that
// draw more than half, any two are too many: they share a room for one.
func (l *laying) addPairs(draws []float64, most float64) {
	large := room{need: make([]float64, len(l.out.machines)), most: slices.Repeat([]float64{1}, l.out.years)}
	count := 0
	for a, draw := range draws {
		if draw > most/2 && draw <= most {
			large.need[a] = 1
			count++
		}
		for b, other := range draws[:a] {
			if draw+other > most && min(draw, other) <= most/2 && max(draw, other) <= most {
				l.out.exclude(a, b)
			}
		}
	}
	if count > 1 {
		l.out.rooms = append(l.out.rooms, large)
	}
}

// addPeaks forbids the sets of which so many people cannot run the largest at
// once, in one table of the machines that can be in such a set.
func (l *laying) addPeaks(draws []float64, most float64, people int) {
	order := make([]int, 0, len(draws)) // the largest first
	for m, draw := range draws {
		if draw > 0 && draw <= most {
			order = append(order, m)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(draws[b], draws[a]) })
	beside := 0.0
	for _, m := range order[:min(people-1, len(order))] {
		beside += draws[m]
	}
	for len(order) > 0 && beside+draws[order[len(order)-1]] <= most {
		order = order[:len(order)-1]
	}
	switch {
	case len(order) < 2:
		return
	case len(order) > mostInTable && people == 2:
		l.addPairs(draws, most)
		return
	case len(order) > mostInTable:
		l.wide = "the electrical supply with several people at work"
		return
	}
	l.out.rule(order, func(set int) bool {
		sum, left := 0.0, people
		for i, m := range order {
			if set>>i&1 == 1 && left > 0 {
				sum, left = sum+draws[m], left-1
			}
		}
		return sum <= most
	})
}
