package visitplan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// free is a price that nothing can be told by.
type free struct{}

func (free) Add(contents uint64, kind int) uint64 { return contents + 1 }
func (free) Of(uint64) float64                    { return 1 }

// listsOf lists the visits of jobs of which each has so many after it as companions.
func listsOf(jobs, companions int) [][]visit {
	problem := &Problem{Price: free{}}
	for i := range jobs {
		problem.Jobs = append(problem.Jobs, Job{Ready: i, Due: i + companions, Kind: i})
	}
	s := prepare(problem)
	s.sumUp()
	s.best = math.Inf(1)
	s.befriend()
	s.list()
	return s.lists
}

// Thirteen companions make 8,192 visits, which are as many as a list may have; of
// fourteen there is no list, and not a part of one. The last jobs have fewer.
func TestALeaderWithTooManyVisitsHasNoList(t *testing.T) {
	for leader, visits := range listsOf(15, 13) {
		assert.Len(t, visits, 1<<min(13, 14-leader), "leader %d", leader)
	}
	lists := listsOf(15, 14)
	assert.Nil(t, lists[0])
	for leader, visits := range lists[1:] {
		assert.Len(t, visits, 1<<(13-leader), "leader %d", leader+1)
	}
}

// Each of 200 jobs has the twelve after it as companions: 4,096 visits to lead. After
// 128 leaders so many were looked at that the others grow theirs for each state.
func TestNoMoreVisitsAreListedThanTheMemoryIsMeantFor(t *testing.T) {
	listed := 0
	for leader, visits := range listsOf(200, 12) {
		if visits == nil {
			continue
		}
		listed++
		assert.Less(t, leader, mostInAll>>12)
		assert.Len(t, visits, 1<<12)
	}
	assert.Equal(t, mostInAll>>12, listed)
}
