package study

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
	"pgregory.net/rapid"
)

// slips are values that people and broken programs leave in studies.
var slips = []string{
	"", "~", "0", "-1", "1e12", "99999999999999999999", "0 mm", "3 mm", "12 %", "0 %", "5 years", "20 min", "85 per h", "1 m2",
	"yes", "no", "planer", "orbital", "other", "panel_saw", "table", "remaining_value", "us_mid_quarter", "per_machine", "used",
	"[]", "{}", "[a, b]", "{a: b}", "{value: 3}", "{value: 3 mm, low: 1 mm, high: 5 mm}", "{stock: 1 mm}", "&x 1", "*x", "!t 1", "\"a\\nb\"",
}

// spoil changes one key of the study: its value, its name, its presence.
func spoil(t *rapid.T, root *yaml.Node) {
	list := spots("", "", root)
	if len(list) == 0 {
		return
	}
	at := list[rapid.IntRange(0, len(list)-1).Draw(t, "key")]
	switch rapid.IntRange(0, 4).Draw(t, "slip") {
	case 0:
		at.key.SetString(rapid.SampledFrom([]string{"", "class", "value", "x", "A b", "<<", "80", "planer20"}).Draw(t, "name"))
	case 1:
		at.content.Content = nil
	case 2:
		remove(root, at.key)
	default:
		var document yaml.Node
		slip := rapid.SampledFrom(slips).Draw(t, "value")
		if yaml.Unmarshal([]byte(slip), &document) == nil && len(document.Content) > 0 {
			*at.content = *document.Content[0]
		}
	}
}

// remove takes a key and its value out of the mapping that holds it.
func remove(node, key *yaml.Node) {
	if i := slices.Index(node.Content, key); i >= 0 && node.Kind == yaml.MappingNode {
		node.Content = slices.Delete(node.Content, i, i+2)
		return
	}
	for _, child := range node.Content {
		remove(child, key)
	}
}

func TestAnyMixtureOfSlipsIsReportedInsideTheFile(t *testing.T) {
	src := goodStudy(t, "workshop.yaml")
	rapid.Check(t, func(rt *rapid.T) {
		root := parsed(t, src)
		for range rapid.IntRange(1, 8).Draw(rt, "slips") {
			spoil(rt, root)
		}
		text, err := yaml.Marshal(root)
		require.NoError(rt, err)
		assertSound(rt, text)
	})
}
