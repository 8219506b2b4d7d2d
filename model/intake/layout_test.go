package intake

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
)

// A row says which piece or step it is about by its input alone, so the lists of
// one member must not share an input.
func TestListsWithinAMemberShareNoInput(t *testing.T) {
	known := catalogue{}
	checked := 0
	var look func(kind reflect.Type)
	look = func(kind reflect.Type) {
		owner := map[string]string{}
		for _, list := range known.of(kind).lists {
			for _, input := range known.of(list.kind).inputs {
				assert.Empty(t, owner[input.Name], "%s: %s and %s", input.Name, owner[input.Name], list.key)
				if kind != reflect.TypeFor[model.Study]() {
					owner[input.Name] = list.key
				}
				checked++
			}
			look(list.kind)
		}
	}
	look(reflect.TypeFor[model.Study]())
	assert.Greater(t, checked, 100)
}

func TestEveryInputOfTheDemoHasItsRowAndIsFoundByIt(t *testing.T) {
	read, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	split, known := Splitter(), catalogue{}
	count := 0
	model.Walk(read, func(leaf model.Leaf) {
		part, which, name := split(leaf.Path)
		path, input, ok, located := known.locate(part, strings.Split(which, partsOfPath), name)
		require.True(t, ok && located, leaf.Path)
		assert.Equal(t, leaf.Path, path)
		assert.Equal(t, leaf.Tag.Get("about"), input.Tag.Get("about"))
		dim, measured := leaf.Dimension()
		same, measuredToo := input.Dimension()
		assert.Equal(t, measured, measuredToo, leaf.Path)
		assert.Equal(t, dim, same, leaf.Path)
		count++
	})
	assert.Greater(t, count, 1000)
}

func TestEveryListOfAStudyHasItsSheet(t *testing.T) {
	for _, list := range (catalogue{}).of(reflect.TypeFor[model.Study]()).lists {
		found := false
		for _, part := range Parts() {
			found = found || part.List == list.key
		}
		assert.True(t, found, list.key)
		assert.NotEmpty(t, Inputs(list.key))
	}
	assert.Nil(t, Inputs("no_such_list"))
	assert.NotEmpty(t, Inputs("job_types.operations.grits"))
}

func TestANoteComesOffTheEndOfItsSource(t *testing.T) {
	for _, row := range []struct{ text, note, want string }{
		{"two quotes; seen running", "seen running", "two quotes"},
		{"seen running", "seen running", ""},
		{"a; b; b", "b", "a; b"},
		{"two quotes", "", "two quotes"},
	} {
		assert.Equal(t, row.want, sourceIn(row.text, row.note), row.text)
	}
}

func TestDigitsThatASpreadsheetCutsOffAreNoEdit(t *testing.T) {
	for _, row := range []struct {
		now, solved string
		same        bool
	}{
		{"0.333333333333333 in", "0.3333333333333333 in", true},
		{"0.33333333333 in", "0.3333333333333333 in", false},
		{"25.4 mm", "1 in", true},
		{"0", "0", true},
		{"0 mm", "0 in", true},
		{"", "1 in", false},
	} {
		assert.Equal(t, row.same, sameFigure(quantity.DimLength, row.now, row.solved) || row.now == row.solved, row.now)
	}
}
