package check

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
)

// The rules themselves are proved on whole studies: each has a bad study in the
// catalogue under testdata/errors, which the reader's tests run.

func TestRuleNamesAreSentencesAndUnique(t *testing.T) {
	seen := map[string]bool{}
	require.NotEmpty(t, Rules)
	for _, rule := range Rules {
		assert.Greater(t, len(strings.Fields(rule.Name)), 3, rule.Name)
		assert.False(t, seen[rule.Name], rule.Name)
		seen[rule.Name] = true
		assert.NotEmpty(t, rule.Reads, rule.Name)
	}
}

func TestRulesReadInputsThatExist(t *testing.T) {
	for _, rule := range Rules {
		for _, pattern := range rule.Reads {
			assert.True(t, exists(reflect.TypeFor[model.Study](), strings.Split(pattern, ".")), "%s reads %s", rule.Name, pattern)
		}
	}
}

// exists follows a pattern through the keys of the model.
func exists(kind reflect.Type, parts []string) bool {
	switch {
	case len(parts) == 0:
		return true
	case kind.Kind() == reflect.Slice:
		return parts[0] == "*" && exists(kind.Elem(), parts[1:])
	case kind.Kind() != reflect.Struct:
		return false
	}
	for i := range kind.NumField() {
		f := kind.Field(i)
		switch f.Tag.Get("key") {
		case ",inline":
			if exists(f.Type, parts) {
				return true
			}
		case parts[0]:
			return exists(f.Type, parts[1:])
		}
	}
	return false
}

func TestNoRulePanicsOnAnEmptyStudy(t *testing.T) {
	assert.NotPanics(t, func() { Study(&model.Study{}) })
	hollow := &model.Study{
		Shops:    []model.Shop{{Machines: make([]model.HiredMachine, 1)}},
		Tools:    make([]model.Tool, 1),
		Machines: []model.Machine{{ValueTable: nil}},
		JobTypes: []model.JobType{{Operations: []model.Operation{{Grits: make([]model.Grit, 2)}}, Pieces: make([]model.Piece, 1)}},
	}
	assert.NotPanics(t, func() { Study(hollow) })
}

func TestAFindingRestsOnWhatItsRuleReadsOfTheSameMember(t *testing.T) {
	reads := []string{"machines.*.class", "edges.*"}
	rows := []struct {
		name   string
		unread string
		rests  bool
	}{
		{"the same member's input", "machines.planer20.class", true},
		{"another member's input", "machines.belt43.class", false},
		{"the member around it", "machines.planer20", true},
		{"the list around it", "machines", true},
		{"an input the rule does not read", "machines.planer20.price", false},
		{"the finding's own path", "machines.planer20.edge", true},
		{"a whole other list", "edges", true},
		{"any member of another list", "edges.knives", true},
		{"an input of a member of which only the key counts", "edges.knives.price", false},
		{"another list altogether", "tools", false},
		{"the whole study", "", true},
	}
	for _, row := range rows {
		assert.Equal(t, row.rests, gather([]string{row.unread}).under("machines.planer20.edge", reads), row.name)
	}
}

func TestALaterStarStaysOpenWhereThePathsPart(t *testing.T) {
	reads := []string{"job_types.*.pieces.*.thickness"}
	path := "job_types.top.operations.plane"
	assert.True(t, gather([]string{"job_types.top.pieces.slab.thickness"}).under(path, reads))
	assert.False(t, gather([]string{"job_types.bench.pieces.slab.thickness"}).under(path, reads))
}
