package study

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

func contains(list []string, word string) bool { return slices.Contains(list, word) }

// word reads a word of a choice, a reference or a free text.
func (r *reader) word(path string, node *yaml.Node, f field) {
	text := strings.TrimSpace(node.Value)
	if what, right := TextFault(text); what != "" {
		r.lose(path, node, path+" "+what, right)
		return
	}
	known := f.tag.Get("oneof")
	if known != "" && !contains(strings.Fields(known), text) {
		r.lose(path, node, fmt.Sprintf("%s is %s", path, quoted(text)), problem.Suggest(text, strings.Fields(known)))
		return
	}
	f.value.SetString(text)
}

func isDate(value reflect.Value) bool { return value.Type() == reflect.TypeFor[quantity.Date]() }

// date reads a day of the calendar.
func (r *reader) date(path string, node *yaml.Node, f field) {
	date, err := quantity.ParseDate(node.Value)
	var slip *quantity.ParseError
	if errors.As(err, &slip) {
		r.lose(path, node, path+": "+slip.What, slip.Right)
		return
	}
	f.value.SetString(string(date))
}

// flag reads yes or no.
func (r *reader) flag(path string, node *yaml.Node, f field) {
	switch strings.ToLower(node.Value) {
	case "yes", "true":
		f.value.SetBool(true)
	case "no", "false":
		f.value.SetBool(false)
	default:
		r.lose(path, node, fmt.Sprintf("%s is %s", path, quoted(node.Value)), "write yes or no")
	}
}

func (r *reader) readCurrency(path string, node *yaml.Node, f field) {
	currency, err := money.ParseCurrency(node.Value)
	if err == nil {
		r.money = currency
		f.value.SetString(currency.Code())
		return
	}
	right := "write the three capitals of ISO 4217, such as EUR or USD"
	if capitals, err := money.ParseCurrency(strings.ToUpper(strings.TrimSpace(node.Value))); err == nil {
		right = `did you mean "` + capitals.Code() + `"?`
	}
	r.lose(path, node, "currency is "+quoted(node.Value)+", which is no currency code", right)
}

// quantity reads a value with its unit, plain or as a mapping with its range.
func (r *reader) quantity(path string, node *yaml.Node, dim quantity.Dimension, f field) {
	switch node.Kind {
	case yaml.ScalarNode:
		if si, ok := r.number(path, path, node, dim, f); ok {
			f.value.SetFloat(si)
		}
	case yaml.MappingNode:
		r.ranged(path, node, dim, f)
	default:
		r.lose(path, node, path+" is "+kindOf(node), "write one value, such as "+dim.Example())
	}
}

// number reads one figure within the field's limits. The name is how the
// message calls it, which for the ends of a range differs from the path.
func (r *reader) number(path, name string, node *yaml.Node, dim quantity.Dimension, f field) (float64, bool) {
	si, code, err := quantity.Parse(dim, node.Value)
	var slip *quantity.ParseError
	switch {
	case errors.As(err, &slip):
		r.lose(path, node, name+": "+slip.What, slip.Right)
	case code != "" && r.currency != "" && code != r.currency:
		r.lose(path, node, fmt.Sprintf("%s is in %s and the study in %s", name, code, r.currency), "give the amount in "+r.currency)
	case !r.limitsOf(dim, f).hold(si):
		r.lose(path, node, fmt.Sprintf("%s is %s", name, quoted(node.Value)), r.limitsOf(dim, f).say()+asPercent(dim, node.Value, si))
	case f.tag.Get("whole") == "yes" && si != math.Trunc(si):
		r.lose(path, node, fmt.Sprintf("%s is %s", name, quoted(node.Value)), "give a whole number"+r.limitsOf(dim, f).interval())
	default:
		return si, true
	}
	return si, false
}

// asPercent says how 25 % is written to whoever wrote 25.
func asPercent(dim quantity.Dimension, text string, si float64) string {
	if dim != quantity.DimShare || si <= 1 || strings.Contains(text, "%") {
		return ""
	}
	return "; a percentage has its sign: " + text + " %"
}

// ranged reads {value, low, high, shape, note, source}.
type ranged struct {
	value, low, high, shape *yaml.Node
	note, source            string
	broken                  bool // one of them could not be read
}

var rangedKeys = []string{"value", "low", "high", "shape", "note", "source"}

func (r *reader) ranged(path string, node *yaml.Node, dim quantity.Dimension, f field) {
	parts := r.rangedParts(path, node)
	if parts.broken {
		r.unread.add(path)
		return
	}
	if parts.value == nil {
		r.lose(path, node, path+" has no value", "give value, and with it low, high, note and source as you like")
		return
	}
	value, ok := r.number(path, path, parts.value, dim, f)
	if !ok {
		return
	}
	f.value.SetFloat(value)
	origin := model.Origin{Note: parts.note, Source: parts.source}
	if parts.low != nil || parts.high != nil {
		origin.Low, origin.High, origin.HasRange = r.ends(path, node, parts, dim, f, value)
	}
	if parts.shape != nil {
		origin.Shape = r.shape(path, parts)
	}
	r.origins[path] = origin
}

func (r *reader) rangedParts(path string, node *yaml.Node) ranged {
	var parts ranged
	for name, content := range r.pairs(path, node) {
		full := join(path, name.Value)
		switch {
		case isCutOff(name, content):
			parts.broken = true
			r.refuse(path, name, cutOff(name, path), cutOffRight)
		case !contains(rangedKeys, name.Value):
			parts.broken = true
			r.refuse(path, name, fmt.Sprintf("unknown key %s in %s", quoted(name.Value), path), problem.Suggest(name.Value, rangedKeys))
		case r.refused[content]:
			parts.broken = true
		case content.Kind != yaml.ScalarNode || isEmpty(content):
			parts.broken = true
			r.refuse(path, name, full+" is "+kindOf(content), "write a single value behind the colon")
		case name.Value == "note":
			parts.note = r.remark(full, content)
		case name.Value == "source":
			parts.source = r.remark(full, content)
		default:
			parts.set(name.Value, content)
		}
	}
	return parts
}

func (p *ranged) set(key string, node *yaml.Node) {
	switch key {
	case "value":
		p.value = node
	case "low":
		p.low = node
	case "high":
		p.high = node
	case "shape":
		p.shape = node
	}
}

// shape reads how a range is to be read, which only a range can say.
func (r *reader) shape(path string, parts ranged) string {
	text := strings.TrimSpace(parts.shape.Value)
	switch {
	case !contains(model.Shapes, text):
		r.refuse(path, parts.shape, path+".shape is "+quoted(parts.shape.Value), problem.Suggest(text, model.Shapes))
	case parts.low == nil && parts.high == nil:
		r.refuse(path, parts.shape, path+" has a shape and no range", "give low and high with it, or leave the shape out")
	case text != model.ShapePERT:
		return text
	}
	return ""
}

// remark reads the text of a note or a source.
func (r *reader) remark(path string, node *yaml.Node) string {
	text := strings.TrimSpace(node.Value)
	if what, right := TextFault(text); what != "" {
		r.refuse(path, node, path+" "+what, right)
		return ""
	}
	return text
}

// ends reads low and high: both, around the value, and only for inputs that
// can vary.
func (r *reader) ends(path string, node *yaml.Node, parts ranged, dim quantity.Dimension, f field, value float64) (low, high float64, ok bool) {
	switch {
	case f.tag.Get("fixed") == "yes":
		r.refuse(path, node, path+" has a range", "give the value alone; this input stays as given in every future")
		return
	case parts.low == nil || parts.high == nil:
		r.refuse(path, node, path+" has one end of a range", "give both low and high, or neither")
		return
	}
	from, fromRead := r.number(path, path+".low", parts.low, dim, f)
	to, toRead := r.number(path, path+".high", parts.high, dim, f)
	if fromRead && toRead && (from > value || value > to) {
		r.refuse(path, parts.value, fmt.Sprintf("%s is %s and its range runs from %s to %s", path, r.displayIn(dim, value), r.displayIn(dim, from), r.displayIn(dim, to)),
			"give low, value and high in rising order")
		return
	}
	return from, to, true // where an end cannot be read the input counts as unread
}
