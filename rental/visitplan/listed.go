package visitplan

import "math"

// mostListed is up to how many visits of one leader are listed beforehand, and
// mostInAll how many of all leaders are looked at for it, which bounds the memory.
const mostListed, mostInAll = 1 << 13, 1 << 19

// visit is a group that a leader may lead.
type visit struct {
	group         mask    // companions of the leader
	needs         mask    // later jobs that go before a companion and must be done: see befriend
	free          mask    // later jobs that would ride along for nothing: they must be done
	next          int32   // of the list, past those that are this one with further companions
	price, wasted float64 // wasted is the price over the floor: it comes on top of whatever is proven
	sums                  // of the leader and its companions
}

// list writes down, for each leader, every visit that wastes less than a plan may
// that is better than the best known one. The states before one job try the same
// visits: these are priced once, and what is done already is found by its mask.
// A leader with too many keeps none: its visits are grown for each state.
func (s *sweep) list() {
	_, exact := s.whole()
	s.lists = make([][]visit, len(s.jobs))
	looked := 0
	for leader := 0; leader < len(s.jobs) && looked < mostInAll; leader++ {
		l := lister{sweep: s, leader: leader, most: s.best - s.near - exact}
		job := &s.jobs[leader]
		if !s.short[leader] && l.grow(0, s.price.Add(0, job.Kind), visit{sums: s.sumsOf(job)}, job.Load) {
			s.lists[leader] = l.visits
		}
		looked += l.looked
	}
}

// lister lists the visits of one leader.
type lister struct {
	*sweep
	leader int
	most   float64 // that a visit may waste
	looked int
	visits []visit
}

// grow lists a visit with such contents, and then all that have it and some of
// the companions from place next of the leader's on. It is false where they are
// too many.
func (l *lister) grow(next int, contents uint64, v visit, weight float64) bool {
	l.looked++
	v.price = l.price.Of(contents)
	if math.IsInf(v.price, 1) || l.looked > mostListed {
		return l.looked <= mostListed
	}
	at, list := len(l.visits), l.companions[l.leader]
	if v.wasted = l.wasted(v.price, v.sums); v.wasted < l.most {
		l.visits = append(l.visits, v)
	}
	kept := at < len(l.visits)
	for i := next; i < len(list); i++ {
		friend := list[i]
		job := &l.jobs[l.leader+1+friend.at]
		if l.over(weight + job.Load) {
			continue
		}
		with := l.price.Add(contents, job.Kind)
		if kept && l.problem.Monotone && l.price.Of(with) <= v.price {
			l.visits[at].free = l.visits[at].free.with(friend.at)
		}
		larger := visit{group: v.group.with(friend.at), needs: v.needs, sums: v.plus(l.sumsOf(job))}
		if friend.before >= 0 && !v.group.has(friend.before) {
			larger.needs = larger.needs.with(friend.before)
		}
		if !l.grow(i+1, with, larger, weight+job.Load) {
			return false
		}
	}
	if kept {
		l.visits[at].next = int32(len(l.visits))
	}
	return true
}

// take tries the listed visits of a leader that go with what is done.
func (p *pass) take(visits []visit) {
	done, most := p.from.done, p.best-p.near-p.from.exact
	for i := 0; i < len(visits); {
		v := &visits[i]
		if done.meets(v.group) || !done.holds(v.needs) {
			i = int(v.next) // so it is with all that have this one and more
			continue
		}
		i++
		p.nodes++
		if v.wasted < most && done.holds(v.free) {
			p.settle(v)
		}
	}
}
