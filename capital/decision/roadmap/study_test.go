package roadmap

import (
	"fmt"
	"testing"
	"time"

	"shopstint/model/demo"
	"shopstint/model/study"
	"shopstint/model/work"
)

func TestDemoTmp(t *testing.T) {

	s, _, probs := study.Load("demo", demo.Study())
	if len(probs) > 0 {
		t.Fatal(probs)
	}
	for _, b := range []float64{0, 40000, 20000} {
		s.Studio.YearlyBudget = 0
		_ = b
		plan := work.New(s)
		t0 := time.Now()
		l := layOut(s, plan)
		d1 := time.Since(t0)
		for tt := range l.out.budget {
			if b > 0 {
				l.out.budget[tt] = b
			}
		}
		sv := newSolver(l.out)
		t1 := time.Now()
		best := sv.best(l.out.wholeDomain(), infinite, mostNodes)
		d2 := time.Since(t1)
		bundle, _ := l.out.first(best.plan)
		t1 = time.Now()
		other := sv.otherFirst(bundle, mostNodesAside)
		d3 := time.Since(t1)
		t1 = time.Now()
		w := sv.best(l.out.waiting(1), infinite, 100)
		d4 := time.Since(t1)
		t1 = time.Now()
		r := roadmapOf(s, plan, l.out, best.plan)
		fmt.Println(len(l.out.tables), d1, d2, d3, d4, time.Since(t1))
		fmt.Println(best.plan, best.cost, r.Present, best.bound, best.nodes)
		fmt.Println(other.plan, other.cost, other.bound, other.nodes)
		fmt.Println(w.plan, w.cost, w.bound, w.nodes)
		_ = r
	}
}
