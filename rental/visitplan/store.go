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
	table  []entry
}

// entry is 1 + the index of a state, 0 for none, and above it the upper half of
// the hash of what it has done, so that few others need be looked at.
type entry uint64

func (e entry) index() int { return int(uint32(e)) - 1 }

func (s *store) clear() {
	s.states = s.states[:0]
	clear(s.table)
}

func (m mask) hash() uint64 {
	x := (m[0] ^ m[1]*0x9e3779b97f4a7c15) * 0xbf58476d1ce4e5b9
	return x ^ x>>29
}

// find gives the slot in which a set stands or would stand, and its half of the hash.
func (s *store) find(done mask) (at int, half entry) {
	hash := done.hash()
	half = entry(hash &^ (1<<32 - 1))
	at = int(hash) & (len(s.table) - 1)
	for s.table[at] != 0 && (s.table[at]^half >= 1<<32 || s.states[s.table[at].index()].done != done) {
		at = (at + 1) & (len(s.table) - 1)
	}
	return at, half
}

// get gives the state that has done a set; nil for none.
func (s *store) get(done mask) *state {
	at, _ := s.find(done)
	if s.table[at] == 0 {
		return nil
	}
	return &s.states[s.table[at].index()]
}

// put gives the place of a state that costs so much, nil where one that is as
// cheap has done the same.
func (s *store) put(done mask, cost float64) *state {
	if 2*(len(s.states)+1) > len(s.table) {
		s.table = make([]entry, max(16, 2*len(s.table)))
		s.index()
	}
	at, half := s.find(done)
	if s.table[at] == 0 {
		s.states = append(s.states, state{})
		s.table[at] = half | entry(len(s.states))
		return &s.states[len(s.states)-1]
	}
	if known := &s.states[s.table[at].index()]; cost < known.cost {
		return known
	}
	return nil
}

func (s *store) index() {
	for i := range s.states {
		at, half := s.find(s.states[i].done)
		s.table[at] = half | entry(i+1)
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
