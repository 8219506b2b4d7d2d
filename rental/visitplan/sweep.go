package visitplan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// companion is a later job that may ride along with a leader: places on, and how
// many places on the job of its kind stands that goes before it, -1 for none.
type companion struct{ at, before int }

// state is a set of jobs done so far: all before one place, and some after it.
type state struct {
	done mask
	cost float64
	todo sums // of the jobs still to do
	// Cost and what the rest costs at least, in the ways of rest and promise; a
	// bound that led here holds on.
	bound, exact, promise float64
	parent                int32 // in the arena
	leader                int32 // of the group that led here; -1 at the beginning, which has no parent
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
	stop  int     // nodes after which the pass is narrow
	open  float64 // least bound of what was not looked into

	ahead []int // places on of the jobs that a visit of an earlier leader may have done

	// The group in the making.
	from   *state
	at     int32 // of from in the arena
	leader int
	left   int
}

// narrow is the width of the pass after its last node.
const narrow = 6

// sweep makes one pass, keeps a better plan and returns the bound that the pass
// proves: the least bound of all that it let go.
func (s *sweep) sweep(width int, last bool, nodes int) float64 {
	if s.companions == nil {
		s.befriend()
		s.slots = make([]store, len(s.jobs)+1)
	} else if s.lists == nil {
		s.list()
	}
	p := &pass{sweep: s, width: width, most: 16 * width, stop: nodes, open: math.Inf(1)}
	if last {
		p.most = math.MaxInt
	}
	s.arena = s.arena[:0]
	for i := range s.slots {
		s.slots[i].clear()
	}
	begin := state{leader: -1, todo: s.after[0]}
	begin.bound, begin.exact = s.whole()
	*s.slots[0].put(mask{}, 0) = begin
	for place := range s.jobs {
		p.early(place)
		if p.nodes >= p.stop { // the rest is gone through quickly, for the plan that comes of it
			p.width, p.most = min(width, narrow), min(p.most, 16*narrow)
		}
		p.open = min(p.open, s.slots[place].keep(p.width))
		for i := range s.slots[place].states {
			if i >= narrow && p.nodes >= p.stop {
				p.open = min(p.open, s.slots[place].states[i].bound)
				continue
			}
			if one := &s.slots[place].states[i]; one.bound < p.best-p.near && !p.outdone(place, one) {
				p.expand(place, one)
			}
		}
		s.slots[place].clear()
	}
	return min(p.open, s.best)
}

// many is from how many states before a job on it pays to compare them.
const many = 100

// early lists, for the states before a job, which later jobs may be done; none
// where the states are not to be compared.
func (p *pass) early(place int) {
	p.ahead = p.ahead[:0]
	if place == 0 || !p.problem.Monotone || len(p.slots[place].states) < many {
		return
	}
	for k := place + 1; k < len(p.jobs) && k-place <= reach; k++ {
		if p.jobs[k].Ready <= p.jobs[place-1].Due {
			p.ahead = append(p.ahead, k-place-1)
		}
	}
}

// outdone tells whether another state has done one job more and costs no more:
// whatever visits do the rest of this one, do the rest of that one without the
// job, and where a further job makes no visit cheaper they cost no more.
func (p *pass) outdone(place int, one *state) bool {
	slot := &p.slots[place]
	for _, k := range p.ahead {
		if one.done.has(k) {
			continue
		}
		if other := slot.get(one.done.with(k)); other != nil && other.cost <= one.cost {
			return true
		}
	}
	return false
}

// expand tries every visit that the first job still to do may lead.
func (p *pass) expand(place int, from *state) {
	p.arena = append(p.arena, step{from.parent, from.leader, from.group})
	p.from, p.at, p.leader, p.left = from, int32(len(p.arena)-1), place, p.most
	if p.lists != nil && p.lists[place] != nil {
		p.take(p.lists[place])
		return
	}
	job := &p.jobs[place]
	p.grow(0, p.price.Add(0, job.Kind), mask{}, job.Load, p.sumsOf(job))
	if p.left < 0 || p.short[place] {
		p.open = min(p.open, from.bound)
	}
}

// grow takes the group as it is, and then with each further companion from place
// next of the list on. Weight is the load of the visit.
func (p *pass) grow(next int, contents uint64, group mask, weight float64, all sums) {
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
		p.grow(i+1, with, group.with(friend.at), weight+job.Load, all.plus(p.sumsOf(job)))
	}
	if !free {
		p.settle(&visit{group: group, price: price, wasted: p.wasted(price, all), sums: all})
	}
}

// wasted is what a group costs over its floor.
func (s *sweep) wasted(price float64, all sums) float64 {
	floor := &s.problem.Floor
	wasted := price - floor.Visit - all.linear - floor.Unit*all.units
	if wasted < -s.near {
		s.fault = fmt.Errorf("a visit costs %v and its floor is %v: %w", price, price-wasted, ErrPrice)
	}
	return wasted
}

// settle hands the group's state on to the first job that is then still to do.
func (p *pass) settle(v *visit) {
	from := p.from
	todo := from.todo.less(v.sums)
	if from.exact+v.wasted+p.broken(todo.units) >= p.best-p.near {
		return
	}
	places, done := from.done.or(v.group).next()
	first := p.leader + places
	left := p.remaining(first, done, todo.share)
	bound, exact := p.rest(first, left, todo)
	cost := from.cost + v.price
	bound, exact = cost+bound, cost+exact
	promise := exact + p.promise(first, left)
	exact = max(exact, from.exact+v.wasted)
	bound = max(bound, exact)
	if bound >= p.best-p.near {
		return
	}
	slot := &p.slots[first]
	to := slot.put(done, cost)
	if to == nil {
		return
	}
	*to = state{done, cost, todo, bound, exact, promise, p.at, int32(p.leader), v.group}
	if len(slot.states) >= 2*p.width+64 {
		p.open = min(p.open, slot.keep(p.width))
	}
	if first == len(p.jobs) {
		p.best = cost
		p.finish()
	}
}

// finish reads the groups of the best complete plan back.
func (p *pass) finish() {
	end := &p.slots[len(p.jobs)]
	if len(end.states) == 0 {
		return
	}
	best := end.states[0] // with every job done there is but one set, and its cheapest state
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
