package model_test

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model"
	"shopstint/model/quantity"
)

// inParts are the bare numbers and spans of years of which a part makes sense: a mean
// of many, a strength, or a time that goes on between two birthdays.
var inParts = map[string]bool{
	"per_year": true, "rework_visits": true, "cuts": true, "demand_months": true, "turnaround": true, "age": true,
	"specific_gravity": true, "value_c1": true, "value_c2": true, "value_c3": true,
	"repair_factor": true, "repair_power": true, "factor": true, "rho": true,
}

// oneOrThree are held by a rule of their own.
var oneOrThree = map[string]bool{"phases": true, "machine_phases": true}

// TestEveryBareNumberIsWholeOrMeantInParts makes whoever adds one decide: the engine
// cuts a number to a whole one without a word where its tag does not say whole.
func TestEveryBareNumberIsWholeOrMeantInParts(t *testing.T) {
	seen := map[string]bool{}
	eachField(reflect.TypeFor[model.Study](), func(field reflect.StructField) {
		switch field.Type {
		case reflect.TypeFor[quantity.Count](), reflect.TypeFor[quantity.Years]():
		default:
			return
		}
		key := field.Tag.Get("key")
		seen[key] = true
		decided := inParts[key] || oneOrThree[key]
		assert.NotEqual(t, decided, field.Tag.Get("whole") == "yes", "%s: either whole or in parts", key)
	})
	for key := range inParts {
		assert.True(t, seen[key], "%s is no input any more", key)
	}
	assert.True(t, seen["start_year"])
}

// eachField visits the inputs of a struct and of all that stands in it.
func eachField(kind reflect.Type, visit func(reflect.StructField)) {
	for kind.Kind() == reflect.Slice {
		kind = kind.Elem()
	}
	if kind.Kind() != reflect.Struct {
		return
	}
	for i := range kind.NumField() {
		field := kind.Field(i)
		if key := field.Tag.Get("key"); key == "-" || key == "" {
			continue
		}
		visit(field)
		eachField(field.Type, visit)
	}
}
