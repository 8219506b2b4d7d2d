package subset

import (
	"math"
	"slices"
)

// Answer lists the cheapest allowed sets.
type Answer struct {
	Sets   []Set   // cheapest first; fewer than asked for when no more are allowed
	Bound  float64 // no allowed set outside Sets costs less than this, but for rounding
	Proven bool    // Sets are the cheapest ones: nothing was left unlooked at
	Looked int     // sets or branches looked at
}

// Cheapest returns the count cheapest allowed sets, one or more. It looks at no more than
// most branches; what it then leaves open is in Bound. Up to 12 items all sets
// are priced; beyond, branches are cut by a lower bound.
//
// Source: min-sum diffusion: M. I. Schlesinger and V. A. Kovalevsky, as
// reviewed in T. Werner, A Linear Programming Approach to Max-sum Problem: A
// Review, 2007; multipliers of limits: M. Held, P. Wolfe, H. P. Crowder,
// Validation of Subgradient Optimization, 1974; branch and bound: A. H. Land
// and A. G. Doig, 1960.
func Cheapest(p *Problem, count, most int) Answer {
	if p.Items <= everyMost {
		return everySet(p).cheapest(count)
	}
	return branched(p, count, most)
}

func branched(p *Problem, count, most int) Answer {
	net, found := netOf(p), best{count: count}
	s := persist(net, &found, most, func(s *search) {
		s.ceiling = found.ceiling()
		s.found = func(set uint64) {
			found.offer(Set{set, p.Cost(set)})
			s.ceiling = found.ceiling()
		}
	})
	answer := Answer{Sets: found.sets, Proven: math.IsInf(s.open, 1), Looked: s.branches}
	answer.Bound = s.open
	if len(found.sets) == count {
		answer.Bound = min(s.open, found.sets[count-1].Cost)
	}
	return answer
}

// Step is where a limit would have to be for a cheaper set to be allowed.
type Step struct {
	Most   float64 // +Inf: no cheaper set, whatever the limit
	Proven bool    // no lower limit would do
}

// effort is how hard a bound is tightened before a search, and how many branches
// that may then take: one that takes more is begun anew under a better bound.
// Reach is the first step of the multipliers, as a share of the one that would
// close the gap if the bound were a plane.
type effort struct {
	rounds   int
	reach    float64
	branches int
}

// efforts were found by trying: the least time on the benchmark's instances.
var efforts = [...]effort{{20, 1.5, 3000}, {40, 0.3, 20000}, {120, 0.3, math.MaxInt}}

// persist searches with growing effort and returns the search that came to an
// end, or to the most branches.
func persist(net *network, found *best, most int, prepare func(*search)) *search {
	for i := 0; ; i++ {
		net.tighten(found, efforts[i])
		s := searchIn(net, min(most, efforts[i].branches))
		prepare(s)
		s.run()
		if math.IsInf(s.open, 1) || s.allowed == most {
			return s
		}
	}
}

// ThePeak is the number by which NextStep knows the peak among the limits.
const ThePeak = -1

// NextStep returns the lowest value of a limit, or of the peak, at which some set
// costs less than cost, all other limits as they are.
//
// Source: common practice, no source.
func NextStep(p *Problem, limit int, cost float64, most int) Step {
	ceiling := cost - dust(cost)
	if p.Items <= everyMost {
		return Step{everySet(p).least(limit, ceiling), true}
	}
	return branchedStep(p, limit, ceiling, most)
}

func branchedStep(p *Problem, limit int, ceiling float64, most int) Step {
	free := p.freed(limit)
	net, step := netOf(&free), Step{Most: math.Inf(1)}
	s := persist(net, &best{count: 1}, most, func(s *search) {
		s.ceiling = ceiling
		s.lower(limit, step.Most)
		s.found = func(set uint64) {
			if used := p.usedOf(limit, set); p.Cost(set) < ceiling && used < step.Most {
				step.Most = used
				s.lower(limit, used)
			}
		}
	})
	step.Proven = math.IsInf(s.open, 1)
	return step
}

// usedOf is what a set uses of a limit or of the peak.
func (p *Problem) usedOf(limit int, set uint64) float64 {
	if limit == ThePeak {
		return p.Peak.Drawn(set)
	}
	return p.Limits[limit].Used(set)
}

// freed is the problem without one limit, or without the peak: it stays in its
// place and is never reached.
func (p *Problem) freed(limit int) Problem {
	free := *p
	if limit == ThePeak {
		free.Peak.Most = math.MaxFloat64
		return free
	}
	free.Limits = slices.Clone(p.Limits)
	most := 1.0
	for _, weight := range free.Limits[limit].Weight {
		most += weight
	}
	free.Limits[limit].Most = most
	return free
}
