package visitplan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func maskOf(places ...int) mask {
	var m mask
	for _, k := range places {
		m = m.with(k)
	}
	return m
}

// Of the jobs after a place the one two places on may be done already, and the one four on.
func TestAStateIsOutdoneByOneThatHasDoneOneJobMoreForNoMore(t *testing.T) {
	for _, row := range []struct {
		name  string
		other mask
		cost  float64
		want  bool
	}{
		{"one job more, cheaper", maskOf(1, 3), 9, true},
		{"one job more, as dear", maskOf(1, 3), 10, true},
		{"one job more, dearer", maskOf(1, 3), 11, false},
		{"another job instead", maskOf(3), 9, false},
		{"two jobs more", maskOf(1, 2, 3), 9, false},
		{"a job more that is not to be compared", maskOf(1, 2), 9, false},
		{"a job less", maskOf(), 9, false},
	} {
		p := &pass{sweep: &sweep{slots: make([]store, 3)}, ahead: []int{1, 3}}
		one := state{done: maskOf(1), cost: 10}
		*p.slots[2].put(one.done, one.cost) = one
		*p.slots[2].put(row.other, row.cost) = state{done: row.other, cost: row.cost}
		assert.Equal(t, row.want, p.outdone(2, &one), row.name)
	}
}

// Before the job at place 2 an earlier visit, due by day 5, may have done who is ready by then.
func TestJobsAreComparedThatAnEarlierVisitMayHaveDone(t *testing.T) {
	jobs := []Job{{Ready: 0, Due: 4}, {Ready: 0, Due: 5}, {Ready: 3, Due: 6}, {Ready: 5, Due: 7}, {Ready: 6, Due: 8}, {Ready: 0, Due: 9}}
	ahead := func(place, states int, monotone bool) []int {
		p := &pass{sweep: &sweep{problem: &Problem{Monotone: monotone}, jobs: jobs, slots: make([]store, len(jobs))}, ahead: []int{77}}
		p.slots[place].states = make([]state, states)
		p.early(place)
		return p.ahead
	}
	assert.Equal(t, []int{0, 2}, ahead(2, 100, true), "the fourth and the last; the fifth is ready too late")
	assert.Equal(t, []int{0, 3}, ahead(1, 100, true), "by day 4")
	assert.Empty(t, ahead(2, 99, true), "too few states for it to pay")
	assert.Empty(t, ahead(2, 100, false), "a further job may make a visit cheaper")
	assert.Empty(t, ahead(0, 100, true), "nothing was done before the first")
	assert.Empty(t, ahead(5, 100, true), "nothing comes after the last")
}

// The states that promise the least cost are kept, and the least bound of the others is told.
func TestOfTheStatesThatGoTheLeastBoundIsTold(t *testing.T) {
	var s store
	for k, one := range []state{{promise: 7, bound: 4}, {promise: 5, bound: 5}, {promise: 9, bound: 3}, {promise: 6, bound: 1}} {
		one.done, one.cost = maskOf(k), float64(k)
		*s.put(one.done, one.cost) = one
	}
	all := s
	assert.True(t, math.IsInf(all.keep(4), 1), "none had to go")
	assert.InDelta(t, 3, s.keep(2), 0)
	assert.Len(t, s.states, 2)
	for k, kept := range []bool{false, true, false, true} {
		found := s.get(maskOf(k))
		assert.Equal(t, kept, found != nil, "%d", k)
		if kept {
			assert.Equal(t, maskOf(k), found.done)
		}
	}
	assert.Nil(t, s.put(maskOf(1), 1), "as dear as the one that is known")
	cheaper := s.put(maskOf(1), 0.5)
	assert.Equal(t, s.get(maskOf(1)), cheaper)
}
