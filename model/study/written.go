package study

import (
	"strings"

	"go.yaml.in/yaml/v3"
)

// Written returns single values of a study's text as they stand there, by path, such
// as "75 per 30 min"; of a value with its range the value alone. What the study does
// not say, or says in another way, is absent; so is all of a text that is no study.
func Written(src []byte, paths []string) map[string]string {
	found := map[string]string{}
	page, err := open(string(src))
	if err != nil {
		return found
	}
	for _, path := range paths {
		at := page.find(strings.Split(path, "."))
		if len(at.missing) > 0 {
			continue
		}
		node := at.node
		if node.Kind == yaml.MappingNode {
			node = child(node, "value")
		}
		if node != nil && node.Kind == yaml.ScalarNode {
			found[path] = node.Value
		}
	}
	return found
}
