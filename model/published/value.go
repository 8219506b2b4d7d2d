package published

import (
	"fmt"
	"math"

	"go.yaml.in/yaml/v3"
)

// Value is one figure of a case: a number, a list of numbers, or text.
type Value struct {
	kind   kind
	number float64
	list   []float64
	text   string
}

type kind string

const (
	oneNumber     kind = "a number"
	listOfNumbers kind = "a list of numbers"
	text          kind = "text"
)

// UnmarshalYAML reads a number, a list of numbers or text. Anything else,
// and a number that is not finite, is an error with its line.
func (v *Value) UnmarshalYAML(node *yaml.Node) error {
	switch {
	case node.Kind == yaml.SequenceNode:
		v.kind, v.list = listOfNumbers, make([]float64, len(node.Content))
		for i, entry := range node.Content {
			number, err := finite(entry)
			if err != nil {
				return err
			}
			v.list[i] = number
		}
		return nil
	case node.Kind == yaml.ScalarNode && node.Tag == "!!str":
		v.kind, v.text = text, node.Value
		return nil
	}
	number, err := finite(node)
	v.kind, v.number = oneNumber, number
	return err
}

func finite(node *yaml.Node) (float64, error) {
	var number float64
	numeric := node.Kind == yaml.ScalarNode && (node.Tag == "!!int" || node.Tag == "!!float")
	if !numeric || node.Decode(&number) != nil || math.IsNaN(number) || math.IsInf(number, 0) {
		return 0, fmt.Errorf("line %d: %q is no figure; it would be a finite number, a list of them or text",
			node.Line, node.Value)
	}
	return number, nil
}

// numbers gives one number as a list of one. Text has none.
func (v Value) numbers() []float64 {
	if v.kind == oneNumber {
		return []float64{v.number}
	}
	return v.list
}

// String gives the figure as it would be written.
func (v Value) String() string {
	switch v.kind {
	case listOfNumbers:
		return fmt.Sprint(v.list)
	case text:
		return fmt.Sprintf("%q", v.text)
	}
	return fmt.Sprint(v.number)
}
