package model_test

import (
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/quantity"
)

// small has a member in lists, a list within a member, a table and words.
func small() *model.Study {
	return &model.Study{
		Title: "small", Studio: model.Studio{People: 2},
		Shops: []model.Shop{{Key: "mill", OpenDays: []string{"mon", "tue"}, Machines: []model.HiredMachine{{Key: "planer", Ability: model.Ability{Feed: 0.1}}}}},
		Tools: []model.Tool{{Key: "saw"}},
		Machines: []model.Machine{{
			Key: "own", Needs: []string{"other"}, ValueTable: []quantity.Share{0.7, 0.5},
		}},
		JobTypes: []model.JobType{{Key: "top", Pieces: []model.Piece{{Key: "leaf"}}, Operations: []model.Operation{{Key: "sand", Grits: []model.Grit{{Key: "80", Stock: 1e-4}}}}}},
		Origins:  map[string]model.Origin{"title": {Note: "x"}},
	}
}

func leaves(s *model.Study) (paths []string, at map[string]model.Leaf) {
	at = map[string]model.Leaf{}
	model.Walk(s, func(leaf model.Leaf) {
		paths = append(paths, leaf.Path)
		at[leaf.Path] = leaf
	})
	return paths, at
}

func TestAWalkNamesEveryInputOnceInTheOrderOfAStudy(t *testing.T) {
	paths, at := leaves(small())
	assert.Len(t, at, len(paths), "no path twice")
	assert.Equal(t, []string{"title", "currency", "units", "start_year", "studio.people"}, paths[:5])
	for _, path := range []string{
		"studio.vehicle.payload", "shops.mill.tariff.basis", "shops.mill.machines.planer.feed", "tools.saw.feed", "machines.own.tax.life",
		"machines.own.value_table.1", "machines.own.value_table.2", "machines.own.needs", "job_types.top.operations.sand.grits.80.stock", "shops.mill.open_days",
	} {
		assert.Contains(t, at, path)
	}
	for _, path := range []string{"machines.own.value_table.3", "machines.own.value_table.0", "machines.own.value_table", "tools", "edges", "shops.mill.machines", "shops.mill.key"} {
		assert.NotContains(t, at, path)
	}
	assert.Less(t, slices.Index(paths, "shops.mill.machines.planer.feed"), slices.Index(paths, "tools.saw.feed"))
}

func TestALeafTellsWhatItIsAndCanBeSet(t *testing.T) {
	s := small()
	_, at := leaves(s)
	people := at["studio.people"]
	assert.Equal(t, "people", people.Key())
	assert.Equal(t, "title", at["title"].Key())
	assert.InDelta(t, 2, people.Number(), 0)
	people.SetNumber(3)
	assert.InDelta(t, 3, float64(s.Studio.People), 0)
	dim, ok := at["shops.mill.machines.planer.feed"].Dimension()
	assert.True(t, ok)
	assert.Equal(t, quantity.DimSpeed, dim)
	_, ok = at["title"].Dimension()
	assert.False(t, ok)
	assert.True(t, at["currency"].Has("need"))
	assert.False(t, at["title"].Has("need"))
	assert.False(t, at["studio.horizon"].Has("show"))
}

func TestACloneSharesNothingThatCanBeChanged(t *testing.T) {
	s := small()
	twin := s.Clone()
	require.Equal(t, s, twin)
	assert.Nil(t, twin.Edges, "what is not there is not made")
	model.Walk(twin, func(leaf model.Leaf) {
		switch leaf.Value.Kind() {
		case reflect.Float64:
			leaf.SetNumber(leaf.Number() + 1)
		case reflect.Slice:
			for i := range leaf.Value.Len() {
				leaf.Value.Index(i).SetString("changed")
			}
		case reflect.String:
			leaf.Value.SetString("changed")
		}
	})
	twin.Shops[0].Machines[0].Key, twin.JobTypes[0].Operations[0].Grits[0].Key = "changed", "changed"
	assert.Equal(t, small(), s)
	assert.Equal(t, s.Origins, twin.Origins)
}

func TestAMemberIsFoundByItsKey(t *testing.T) {
	pieces := []model.Piece{{Key: "a", Length: 1}, {Key: "b", Length: 2}, {Key: "b", Length: 3}}
	found, ok := model.Find(pieces, "b")
	assert.True(t, ok)
	assert.InDelta(t, 2, float64(found.Length), 0, "the first of it")
	assert.Equal(t, 1, model.Index(pieces, "b"))
	found, ok = model.Find(pieces, "c")
	assert.False(t, ok)
	assert.Zero(t, found)
	assert.Equal(t, -1, model.Index(pieces, "c"))
}

func TestOnePersonMovesAHandHeldMachine(t *testing.T) {
	var held []string
	for _, class := range model.Classes {
		if model.HandHeld(class) {
			held = append(held, class)
		}
	}
	assert.Equal(t, []string{model.TrackSaw, model.Router, model.RouterSled, model.Orbital}, held)
}

func TestADatedJobIsOneWhereItDoesNotSay(t *testing.T) {
	for count, want := range map[quantity.Count]int{0: 1, 1: 1, 2: 2, 50: 50} {
		assert.Equal(t, want, model.DatedJob{Count: count}.Number())
	}
}

func TestAReworkRepeatsSomethingWhereAStepSaysSo(t *testing.T) {
	job := model.JobType{Operations: make([]model.Operation, 2)}
	assert.False(t, job.Repeats())
	job.Operations[1].Repeat = true
	assert.True(t, job.Repeats())
}

func TestAComparisonIsCountedByItsAreaIfItHasOne(t *testing.T) {
	line := model.Comparison{YearlyLength: 300, PieceLength: 7, PieceArea: 2}
	assert.False(t, line.ByArea())
	assert.InDelta(t, 300, line.Amount(), 0)
	assert.InDelta(t, 7, line.Piece(), 0)
	face := model.Comparison{YearlyArea: 0.5, PieceLength: 7, PieceArea: 2}
	assert.True(t, face.ByArea())
	assert.InDelta(t, 0.5, face.Amount(), 0)
	assert.InDelta(t, 2, face.Piece(), 0)
	assert.False(t, (&model.Way{ReworkTime: 1}).NeedsPiece())
	assert.True(t, (&model.Way{PieceTime: 0.5}).NeedsPiece())
	assert.True(t, (&model.Way{ReworkShare: 0.5}).NeedsPiece())
}

func TestEveryKindOfMemberHasItsKey(t *testing.T) {
	assert.Equal(t, 0, model.Index([]model.Shop{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.HiredMachine{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Tool{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Machine{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Fixture{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Edge{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Abrasive{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Material{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.JobType{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Operation{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Grit{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.DatedJob{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Comparison{{Key: "a"}}, "a"))
	assert.Equal(t, 0, model.Index([]model.Way{{Key: "a"}}, "a"))
}
