package study

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
)

var keyedLists = []string{"shops", "tools", "machines", "edges", "abrasives", "materials", "job_types", "pieces", "operations", "grits"}

// spot is one key with its value in a parsed study.
type spot struct {
	path         string
	list         bool // the key is a member's, chosen by the owner
	key, content *yaml.Node
}

// spots lists every key of the mapping and below.
func spots(path, under string, node *yaml.Node) []spot {
	var list []spot
	for i := 0; node.Kind == yaml.MappingNode && i+1 < len(node.Content); i += 2 {
		key, content := node.Content[i], node.Content[i+1]
		full := join(path, key.Value)
		list = append(list, spot{full, slices.Contains(keyedLists, under), key, content})
		if isMember := slices.Contains(keyedLists, under); isMember {
			list = append(list, spots(full, "", content)...)
		} else {
			list = append(list, spots(full, key.Value, content)...)
		}
	}
	return list
}

// damage calls each with a freshly parsed study and each of its keys in turn,
// and returns what reading the result gives.
func damage(t *testing.T, wanted func(spot) bool, change func(spot), judge func(path string, problems []string)) {
	t.Helper()
	src := goodStudy(t, "workshop.yaml")
	count := func() int { return len(spots("", "", parsed(t, src))) }()
	tried := 0
	for i := range count {
		root := parsed(t, src)
		at := spots("", "", root)[i]
		if !wanted(at) {
			continue
		}
		tried++
		change(at)
		text, err := yaml.Marshal(root)
		require.NoError(t, err)
		study, _, problems := Load("s", text)
		assert.True(t, study == nil, at.path)
		var lines []string
		for _, problem := range problems {
			lines = append(lines, problem.Error())
		}
		judge(at.path, lines)
	}
	require.Greater(t, tried, 10)
}

func parsed(t *testing.T, src []byte) *yaml.Node {
	t.Helper()
	documents, err := parse(string(src))
	require.NoError(t, err)
	return documents[0].Content[0]
}

func oneProblem(t *testing.T) func(string, []string) {
	return func(path string, problems []string) {
		assert.Len(t, problems, 1, "%s:\n%s", path, strings.Join(problems, "\n"))
	}
}

func TestAnUnreadableValueIsOneProblemWithoutFollowers(t *testing.T) {
	isValue := func(s spot) bool { return s.content.Kind == yaml.ScalarNode }
	damage(t, isValue, func(s spot) { s.content.SetString(strings.Repeat("?", 300)) }, oneProblem(t))
}

func TestAnEmptyValueIsOneProblemWithoutFollowers(t *testing.T) {
	isValue := func(s spot) bool { return s.content.Kind == yaml.ScalarNode && !s.list }
	damage(t, isValue, func(s spot) { *s.content = yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null", Value: "~"} }, oneProblem(t))
}

func TestAValueInPlaceOfAMappingOrListIsOneProblemWithoutFollowers(t *testing.T) {
	isContainer := func(s spot) bool { return s.content.Kind != yaml.ScalarNode }
	damage(t, isContainer, func(s spot) { *s.content = yaml.Node{Kind: yaml.ScalarNode, Value: "???"} }, oneProblem(t))
}

func TestAListInPlaceOfAnythingElseIsOneProblemWithoutFollowers(t *testing.T) {
	notList := func(s spot) bool {
		return s.content.Kind != yaml.SequenceNode && !strings.HasSuffix(s.path, ".does")
	}
	damage(t, notList, func(s spot) { *s.content = *sequence("a", "b") }, oneProblem(t))
}

func sequence(words ...string) *yaml.Node {
	list := &yaml.Node{Kind: yaml.SequenceNode}
	for _, word := range words {
		list.Content = append(list.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: word})
	}
	return list
}

func TestAMisspeltKeyIsOneProblemWithoutFollowers(t *testing.T) {
	ours := func(s spot) bool { return !s.list && len(s.key.Value) > 3 }
	damage(t, ours, func(s spot) { s.key.Value += "q" }, func(path string, problems []string) {
		oneProblem(t)(path, problems)
		assert.Contains(t, strings.Join(problems, ""), "did you mean", path)
	})
}

func TestABadKeyOfAMemberIsOneProblemWithoutFollowers(t *testing.T) {
	damage(t, func(s spot) bool { return s.list }, func(s spot) { s.key.SetString("Über") }, oneProblem(t))
}

func TestANoteOnTheWrongKindOfInputIsReported(t *testing.T) {
	words := func(s spot) bool { return strings.HasSuffix(s.path, ".class") }
	damage(t, words, func(s spot) {
		value := *s.content
		*s.content = yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{{Kind: yaml.ScalarNode, Value: "value"}, &value}}
	}, oneProblem(t))
}
