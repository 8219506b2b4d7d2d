package work_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// A step lacks a way where none takes the piece; a candidate that would does not
// help whoever rents.
func TestAPlanLacksAWayWhereverItsStepIsHomeless(t *testing.T) {
	refuse := map[string]func(s *model.Study){ // by operation: nothing rented or own takes it
		"plane": func(s *model.Study) { s.Shops[0].Machines[0].MaxWidth, step(s, "plane").Fallback = 0.1, "" },
		"sand":  func(s *model.Study) { s.Shops[0].Machines[1].MaxWidth, step(s, "sand").Fallback = 0.1, "" },
		"cut":   func(s *model.Study) { s.Tools[0].MaxOpening, step(s, "cut").BothSides = 0.01, false },
		"edge":  func(s *model.Study) { s.Tools[1].MaxOpening = 0.01 },
	}
	steps := map[string]int{"plane": 1, "sand": 4, "cut": 1, "edge": 1} // four grits
	assert.False(t, work.New(studygen.Round()).Lacks())
	for key, change := range refuse {
		s := studygen.Round()
		change(s)
		plan := work.New(s)
		assert.True(t, plan.Lacks(), key)
		homeless := plan.Homeless()
		assert.Len(t, homeless, steps[key], key)
		for _, ways := range homeless {
			assert.Len(t, ways, 1, "%s: the one way that refuses, and no candidate", key)
			assert.NotEqual(t, work.AtStudio, plan.Rows[ways[0]].Site)
		}
	}
	// Where no way is there at all, another rule tells.
	s := studygen.Round()
	s.JobTypes[0].Operations = s.JobTypes[0].Operations[:1]
	s.Shops[0].Machines, step(s, "plane").Fallback = nil, ""
	assert.False(t, work.New(s).Lacks())
	assert.Empty(t, work.New(s).Homeless())
}

func TestTwoWaysThatRefuseAreBothTold(t *testing.T) {
	s := studygen.Round()
	s.Tools[0].MaxOpening, step(s, "cut").BothSides = 0.01, false
	more := s.Tools[0]
	more.Key = "second"
	s.Tools = append(s.Tools, more)
	plan := work.New(s)
	assert.Len(t, plan.Homeless()[0], 2)
	s.Tools[4].MaxOpening = 0
	plan = work.New(s)
	assert.False(t, plan.Lacks(), "the second has no limit")
	assert.Empty(t, plan.Homeless())
}

func TestARefusalTellsBothNumbers(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Machines[0].LeastLength, s.Shops[0].Machines[0].MostMass, s.Shops[0].Machines[0].MaxOpening = 2.5, 75, 0.04
	plan := work.New(s)
	var told []work.Refusal
	for i := range plan.Rows {
		if plan.Rows[i].Site == work.AtShop && plan.Rows[i].Operation == 0 {
			told = append(told, plan.RefusalsOf(s, i)...)
		}
	}
	for i := range told {
		told[i].Row = 0
	}
	// 2.4 × 0.9 × 0.05 m of 700 kg/m³ is 75.6 kg.
	assert.Equal(t, []work.Refusal{{What: work.Thick, Piece: 0.05, Limit: 0.04}, {What: work.Short, Piece: 2.4, Limit: 2.5}}, told[:2])
	assert.Equal(t, work.Heavy, told[2].What)
	assert.InDelta(t, 75.6, told[2].Piece, 1e-9)
	assert.InDelta(t, 75, told[2].Limit, 0)

	s = studygen.Round()
	s.Shops[0].Machines[0].TakesResin, s.Materials[0].Resin = false, true
	resin := work.New(s).Refusals(s)[0]
	resin.Row = 0
	assert.Equal(t, work.Refusal{What: work.ResinRefused}, resin)

	s = studygen.Round()
	s.JobTypes[0].Pieces[0].Thickness = 0.12
	plan = work.New(s)
	saws := 0
	for _, refusal := range plan.Refusals(s) {
		if plan.Rows[refusal.Row].Site == work.AtBench && refusal.What == work.Thick {
			assert.InDelta(t, 0.06, refusal.Piece, 1e-12, "half of it, from either face")
			assert.InDelta(t, 0.054, refusal.Limit, 1e-12)
			saws++
		}
	}
	assert.Equal(t, 1, saws)
	assert.InDelta(t, 787.4, work.GoodMarks, 0.01, "20 to the inch")
}

// Of two pieces alike the legs alone are planed, and both are sanded in four grits.
func TestAnOperationOfOnePieceIsDoneOnThatPieceAlone(t *testing.T) {
	s := studygen.Round()
	legs := s.JobTypes[0].Pieces[0]
	legs.Key = "legs"
	s.JobTypes[0].Pieces = append(s.JobTypes[0].Pieces, legs)
	step(s, "plane").Piece = "legs"
	done := map[string][2]int{} // by operation: steps on the first and on the second piece
	last := -1
	for _, row := range work.New(s).Rows {
		if row.Step == last {
			continue
		}
		last = row.Step
		key := s.JobTypes[0].Operations[row.Operation].Key
		count := done[key]
		count[row.Piece]++
		done[key] = count
	}
	assert.Equal(t, [2]int{0, 1}, done["plane"])
	assert.Equal(t, [2]int{4, 4}, done["sand"])
}
