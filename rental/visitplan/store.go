package visitplan

import (
	"cmp"
	"math"
	"slices"
)

// store holds the states before one job, one for each set of later jobs done:
// the cheapest.
type store struct {
	states []state
	table  []int32 // 1 + index, by hash; 0 for free
}

func (s *store) clear() {
	s.states = s.states[:0]
	clear(s.table)
}

func (m mask) hash() uint64 {
	x := (m[0] ^ m[1]*0x9e3779b97f4a7c15) * 0xbf58476d1ce4e5b9
	return x ^ x>>29
}

// find gives the slot in which a set stands or would stand.
func (s *store) find(done mask) int {
	at := int(done.hash()) & (len(s.table) - 1)
	for s.table[at] != 0 && s.states[s.table[at]-1].done != done {
		at = (at + 1) & (len(s.table) - 1)
	}
	return at
}

// put gives the place of a state that costs so much, nil where one that is as
// cheap has done the same.
func (s *store) put(done mask, cost float64) *state {
	if 2*(len(s.states)+1) > len(s.table) {
		s.table = make([]int32, max(16, 2*len(s.table)))
		s.index()
	}
	at := s.find(done)
	if s.table[at] == 0 {
		s.states = append(s.states, state{})
		s.table[at] = int32(len(s.states))
		return &s.states[len(s.states)-1]
	}
	if known := &s.states[s.table[at]-1]; cost < known.cost {
		return known
	}
	return nil
}

func (s *store) index() {
	for i := range s.states {
		s.table[s.find(s.states[i].done)] = int32(i + 1)
	}
}

// keep lets all but the most promising states go and returns the least bound
// among those, +Inf where none had to.
func (s *store) keep(width int) float64 {
	if len(s.states) <= width {
		return math.Inf(1)
	}
	slices.SortFunc(s.states, func(a, b state) int {
		return cmp.Or(cmp.Compare(a.promise, b.promise), cmp.Compare(a.done[1], b.done[1]), cmp.Compare(a.done[0], b.done[0]))
	})
	least := math.Inf(1)
	for i := width; i < len(s.states); i++ {
		least = min(least, s.states[i].bound)
	}
	s.states = s.states[:width]
	clear(s.table)
	s.index()
	return least
}
