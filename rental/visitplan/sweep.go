package visitplan

import (
	"cmp"
	"fmt"
	"math"
	"math/bits"
	"slices"
)

// reach is how many later jobs a mask can tell apart.
const reach = 128

// mask holds which of the later jobs are done: bit k for the job k+1 places on.
type mask [2]uint64

func (m mask) has(k int) bool { return m[k>>6]>>(k&63)&1 != 0 }

func (m mask) with(k int) mask {
	m[k>>6] |= 1 << (k & 63)
	return m
}

func (m mask) or(other mask) mask { return mask{m[0] | other[0], m[1] | other[1]} }

// next moves to the first later job that is not done: how many places on it
// stands, and the mask seen from there.
func (m mask) next() (places int, rest mask) {
	done := bits.TrailingZeros64(^m[0])
	if done == 64 {
		done += bits.TrailingZeros64(^m[1])
	}
	return done + 1, m.down(done + 1)
}

func (m mask) down(by int) mask {
	if by >= 64 {
		return mask{m[1] >> (by - 64), 0}
	}
	return mask{m[0]>>by | m[1]<<(64-by), m[1] >> by}
}

// companion is a later job that may ride along with a leader: places on, and how
// many places on the job of its kind stands that goes before it, -1 for none.
type companion struct{ at, before int }

// state is a set of jobs done so far: all before one place, and some after it.
type state struct {
	done                mask
	load, linear, units float64 // of the later jobs that are done
	cost                float64
	// Cost and what the rest costs at least, in the three ways of rest; a bound
	// that led here holds on.
	bound, exact, promise float64
	parent                int32 // in the arena; -1 at the beginning
	leader                int32 // of the group that led here
	group                 mask  // its companions
}

// step is how a state that was looked into came about.
type step struct {
	parent, leader int32
	group          mask
}

func byDue(jobs []Job) []int {
	order := make([]int, len(jobs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := &jobs[i], &jobs[j]
		return cmp.Or(cmp.Compare(a.Due, b.Due), cmp.Compare(a.Ready, b.Ready), cmp.Compare(a.Kind, b.Kind))
	})
	return order
}

// befriend lists, for every job as the leader of a visit, who may ride along: the
// leader has the earliest due date, so whoever is ready by then may. Of jobs of
// one kind who is ready and due earlier goes first: changing places costs nothing.
func (s *sweep) befriend() {
	s.companions, s.short = make([][]companion, len(s.jobs)), make([]bool, len(s.jobs))
	before := s.elders()
	for i := range s.jobs {
		for k := i + 1; k < len(s.jobs); k++ {
			switch {
			case s.jobs[k].Ready > s.jobs[i].Due:
			case k-i > reach:
				s.short[i] = true
			default:
				elder := -1
				if before[k] > i {
					elder = before[k] - i - 1
				}
				s.companions[i] = append(s.companions[i], companion{k - i - 1, elder})
			}
		}
	}
}

// elders finds for each job the last one before it of its kind that is not
// ready later; -1 for none.
func (s *sweep) elders() []int {
	before := make([]int, len(s.jobs))
	for k := range s.jobs {
		before[k] = k - 1
		for before[k] >= 0 && (s.jobs[before[k]].Kind != s.jobs[k].Kind || s.jobs[before[k]].Ready > s.jobs[k].Ready) {
			before[k]--
		}
	}
	return before
}

// pass is one run over the jobs that keeps at most width states before each.
type pass struct {
	*sweep
	width int
	most  int     // groups looked at for one state
	stop  int     // nodes at which the pass ends
	open  float64 // least bound of what was not looked into

	// The group in the making.
	from   *state
	at     int32 // of from in the arena
	leader int
	left   int
}

// sweep makes one pass, keeps a better plan and returns the bound that the pass
// proves: the least bound of all that it let go.
func (s *sweep) sweep(width int, last bool, nodes int) float64 {
	if s.companions == nil {
		s.befriend()
		s.slots = make([]store, len(s.jobs)+1)
	}
	p := &pass{sweep: s, width: width, most: 16 * width, stop: nodes, open: math.Inf(1)}
	if last {
		p.most = math.MaxInt
	}
	s.arena = s.arena[:0]
	for i := range s.slots {
		s.slots[i].clear()
	}
	bound, exact, _ := s.rest(0, 0, 0, 0)
	s.slots[0].put(state{parent: -1, leader: -1, bound: bound, exact: exact})
	for place := range s.jobs {
		p.open = min(p.open, s.slots[place].keep(width))
		for i := range s.slots[place].states {
			p.expand(place, &s.slots[place].states[i])
		}
		s.slots[place].clear()
	}
	p.finish()
	return min(p.open, s.best)
}

// expand tries every visit that the first job still to do may lead.
func (p *pass) expand(place int, from *state) {
	if from.bound >= p.best-p.near {
		return
	}
	if p.nodes >= p.stop {
		p.open = min(p.open, from.bound)
		return
	}
	p.arena = append(p.arena, step{from.parent, from.leader, from.group})
	p.from, p.at, p.leader, p.left = from, int32(len(p.arena)-1), place, p.most
	job := &p.jobs[place]
	p.grow(0, p.price.Add(0, job.Kind), mask{}, job.Load, 0, 0, 0)
	if p.left < 0 || p.short[place] {
		p.open = min(p.open, from.bound)
	}
}

// grow takes the group as it is, and then with each further companion from place
// next of the list on. Weight is the load of the visit; load, linear and units
// are the companions' parts of the sums of the bound.
func (p *pass) grow(next int, contents uint64, group mask, weight, load, linear, units float64) {
	p.nodes++
	p.left--
	price := p.price.Of(contents)
	if math.IsInf(price, 1) || p.left < 0 {
		return
	}
	free := false // whether a companion would ride along for nothing
	list := p.companions[p.leader]
	for i := next; i < len(list); i++ {
		friend := list[i]
		if p.from.done.has(friend.at) || friend.before >= 0 && !p.from.done.has(friend.before) && !group.has(friend.before) {
			continue
		}
		job := &p.jobs[p.leader+1+friend.at]
		if p.over(weight + job.Load) {
			continue
		}
		with := p.price.Add(contents, job.Kind)
		free = free || p.problem.Monotone && p.price.Of(with) <= price
		p.grow(i+1, with, group.with(friend.at), weight+job.Load, load+p.weight(job), linear+job.Linear, units+job.Units)
	}
	if !free {
		p.settle(price, group, load, linear, units)
	}
}

// settle hands the group's state on to the first job that is then still to do.
func (p *pass) settle(price float64, group mask, load, linear, units float64) {
	from, leader, floor := p.from, &p.jobs[p.leader], &p.problem.Floor
	// What the group costs over its floor comes on top of whatever is proven.
	wasted := price - floor.Visit - leader.Linear - linear - floor.Unit*(leader.Units+units)
	if wasted < -p.near {
		p.broken = fmt.Errorf("a visit costs %v and its floor is %v: %w", price, price-wasted, ErrPrice)
		return
	}
	if from.exact+wasted >= p.best-p.near {
		return
	}
	places, done := from.done.or(group).next()
	first := p.leader + places
	to := state{done: done, cost: from.cost + price, parent: p.at, leader: int32(p.leader), group: group}
	to.load, to.linear, to.units = from.load+load, from.linear+linear, from.units+units
	for k := p.leader + 1; k < first; k++ { // they stand before the first job now
		job := &p.jobs[k]
		to.load, to.linear, to.units = to.load-p.weight(job), to.linear-job.Linear, to.units-job.Units
	}
	bound, exact, promise := p.rest(first, p.within(first, done, to.load), to.linear, to.units)
	to.exact = max(to.cost+exact, from.exact+wasted)
	to.bound, to.promise = max(to.cost+bound, to.exact), to.cost+promise
	if to.bound >= p.best-p.near {
		return
	}
	p.slots[first].put(to)
	if len(p.slots[first].states) >= 2*p.width+64 {
		p.open = min(p.open, p.slots[first].keep(p.width))
	}
	if first == len(p.jobs) {
		p.best = to.cost
		p.finish()
	}
}

// within is the part of the load done that the first part of the cut holds.
func (p *pass) within(first int, done mask, load float64) float64 {
	if p.problem.Capacity == 0 {
		return 0
	}
	for k := max(0, p.cuts[first].upto-first); k < reach && first+1+k < len(p.jobs); k++ {
		if done.has(k) {
			load -= p.weight(&p.jobs[first+1+k])
		}
	}
	return load
}

// finish reads the groups of the best complete plan back.
func (p *pass) finish() {
	end := &p.slots[len(p.jobs)]
	if len(end.states) == 0 {
		return
	}
	best := end.states[0]
	for _, one := range end.states[1:] {
		if one.cost < best.cost {
			best = one
		}
	}
	p.groups = nil
	for at := (step{best.parent, best.leader, best.group}); at.leader >= 0; at = p.arena[at.parent] {
		group := []int{int(at.leader)}
		for k := range reach {
			if at.group.has(k) {
				group = append(group, int(at.leader)+1+k)
			}
		}
		p.groups = append(p.groups, group)
	}
	end.clear()
}
