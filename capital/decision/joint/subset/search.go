package subset

import "math"

// search is branch and bound on a network whose bound has been tightened. Each
// table knows its least entry for every partial assignment of its variables, so
// that the bound follows each decision at once.
type search struct {
	net   *network
	lows  [][]float64 // by table and state of its variables, in threes
	at    []int       // by table: that state
	state []int8      // by variable: no, yes or open
	bound float64
	set   uint64
	used  []float64 // by limit
	most  []float64 // by limit
	peak  float64
	trail []int // variables that were decided, in their order

	ceiling  float64 // sets from this cost on are of no use
	found    func(set uint64)
	branches int
	allowed  int     // branches that may be looked at
	open     float64 // lowest bound of what was left unlooked at
}

const (
	no int8 = iota
	yes
	open
)

func searchIn(n *network, branches int) *search {
	s := &search{net: n, allowed: branches, open: math.Inf(1), bound: n.always, peak: n.p.Peak.Most}
	s.state = make([]int8, len(n.at))
	for v := range s.state {
		s.state[v] = open
	}
	for t := range n.tables {
		lows := partial(n.tables[t].cost, len(n.tables[t].vars))
		s.lows = append(s.lows, lows)
		s.at = append(s.at, len(lows)-1)
		s.bound += lows[len(lows)-1]
	}
	s.used = make([]float64, len(n.p.Limits))
	for i := range n.p.Limits {
		s.most = append(s.most, n.p.Limits[i].Most)
	}
	return s
}

// lower asks for sets that use less of a limit.
func (s *search) lower(limit int, used float64) {
	switch {
	case math.IsInf(used, 1):
	case limit == ThePeak:
		s.peak = used - dust(used)
	default:
		s.most[limit] = used - dust(used)
	}
}

// partial gives the least entry of a table for each state of its variables,
// digit i in threes for variable i: no, yes, open.
func partial(cost []float64, variables int) []float64 {
	if variables == 0 {
		return cost
	}
	half := len(cost) / 2
	low, high := partial(cost[:half], variables-1), partial(cost[half:], variables-1)
	out := append(append(make([]float64, 0, 3*len(low)), low...), high...)
	for i := range low {
		out = append(out, min(low[i], high[i]))
	}
	return out
}

// threes are the powers of three.
var threes = [...]int{1, 3, 9, 27, 81, 243, 729, 2187, 6561, 19683, 59049, 177147, 531441}

func (s *search) run() {
	if s.bound < s.ceiling {
		s.branch()
	}
}

// branch decides what follows from the bound, then tries both ways of the item
// that moves the bound most.
func (s *search) branch() {
	if s.branches >= s.allowed {
		s.open = min(s.open, s.bound)
		return
	}
	s.branches++
	mark := s.mark()
	defer s.back(mark)
	item, first, ok := s.choose()
	switch {
	case !ok:
	case item < 0:
		if s.bound+s.unused() < s.ceiling && s.net.p.Allows(s.set) {
			s.found(s.set)
		}
	default:
		here := s.mark()
		for _, way := range [...]int8{first, yes - first} {
			if s.decide(item, way) {
				s.branch()
			}
			s.back(here)
		}
	}
}

// unused is what the multipliers charge for what the set leaves of the limits: a
// set whose items are all decided costs that much more than the bound.
func (s *search) unused() float64 {
	sum := 0.0
	for i, price := range s.net.multipliers {
		sum += price * (s.net.p.Limits[i].Most - s.used[i])
	}
	return sum
}

// choose forces every item that has one way left and returns the open one whose
// easier way raises the bound most, and the other one a tenth as much; −1 when none
// is open. ok is false when some item has no way left.
func (s *search) choose() (item int, first int8, ok bool) {
	item, highest := -1, math.Inf(-1)
	for m := range s.net.p.Items {
		if s.state[m] != open {
			continue
		}
		without, with := s.rise(m, no), s.rise(m, yes)
		room := s.ceiling - s.bound
		switch low, high := min(without, with), max(without, with); {
		case low >= room:
			return 0, no, false
		case without >= room:
			ok = s.decide(m, yes)
		case with >= room:
			ok = s.decide(m, no)
		default:
			ok = true
			if rises := low + min(high, room)/10; rises > highest {
				item, highest, first = m, rises, no
				if with < without {
					first = yes
				}
			}
		}
		if !ok {
			return 0, no, false
		}
	}
	if item >= 0 && s.state[item] != open { // decided by what was forced after it
		return s.choose()
	}
	return item, first, true
}

// rise is what one decision adds to the bound, +Inf where a limit forbids it.
func (s *search) rise(v int, way int8) float64 {
	if way == yes {
		for i, most := range s.most {
			if !within(s.used[i]+s.net.weight[i][v], most) {
				return math.Inf(1)
			}
		}
	}
	sum := 0.0
	for _, place := range s.net.at[v] {
		at := s.at[place.table]
		lows := s.lows[place.table]
		sum += lows[at-int(open-way)*threes[place.bit]] - lows[at]
	}
	return sum
}

// decide fixes an item and all that follows from it; false when that cannot be.
func (s *search) decide(v int, way int8) bool {
	if s.state[v] != open {
		return s.state[v] == way
	}
	s.bound += s.rise(v, way)
	if !(s.bound < s.ceiling) {
		return false
	}
	s.state[v] = way
	s.trail = append(s.trail, v)
	for _, place := range s.net.at[v] {
		s.at[place.table] -= int(open-way) * threes[place.bit]
	}
	if way == yes {
		for i := range s.used {
			s.used[i] += s.net.weight[i][v]
		}
	}
	return s.follow(v, way)
}

// follow decides what the relations and the auxiliary variables say.
func (s *search) follow(v int, way int8) bool {
	p := s.net.p
	if v < p.Items {
		if way == yes {
			s.set |= 1 << v
			if p.Peak.AtOnce > 0 && !within(p.Peak.Drawn(s.set), s.peak) {
				return false
			}
		}
		if !s.relations(v, way) {
			return false
		}
	}
	for _, place := range s.net.at[v] {
		if t := &s.net.tables[place.table]; t.or && place.bit > 0 && !s.gather(t) {
			return false
		}
	}
	return true
}

func (s *search) relations(v int, way int8) bool {
	for _, pair := range s.net.p.Excludes {
		if way == yes && (pair[0] == v && !s.decide(pair[1], no) || pair[1] == v && !s.decide(pair[0], no)) {
			return false
		}
	}
	for _, pair := range s.net.p.Needs {
		if way == yes && pair[0] == v && !s.decide(pair[1], yes) || way == no && pair[1] == v && !s.decide(pair[0], no) {
			return false
		}
	}
	return true
}

// gather decides an auxiliary variable once it is known.
func (s *search) gather(t *table) bool {
	way := no
	for _, v := range t.vars[1:] {
		switch s.state[v] {
		case yes:
			return s.decide(t.vars[0], yes)
		case open:
			way = open
		}
	}
	return way == open || s.decide(t.vars[0], no)
}

// mark is a state to come back to.
type mark struct {
	trail int
	bound float64
	set   uint64
}

func (s *search) mark() mark { return mark{len(s.trail), s.bound, s.set} }

// back undoes all decisions since a mark.
func (s *search) back(to mark) {
	for len(s.trail) > to.trail {
		v := s.trail[len(s.trail)-1]
		s.trail = s.trail[:len(s.trail)-1]
		way := s.state[v]
		s.state[v] = open
		for _, place := range s.net.at[v] {
			s.at[place.table] += int(open-way) * threes[place.bit]
		}
		if way == yes {
			for i := range s.used {
				s.used[i] -= s.net.weight[i][v]
			}
		}
	}
	s.bound, s.set = to.bound, to.set
}
