package defaults_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/defaults"
	"shopstint/model/quantity"
)

// inputs lists every input of the model by its path without list keys.
func inputs() map[string]reflect.StructField {
	fields := map[string]reflect.StructField{}
	gather("", reflect.TypeFor[model.Study](), fields)
	return fields
}

func gather(path string, kind reflect.Type, fields map[string]reflect.StructField) {
	for i := range kind.NumField() {
		field := kind.Field(i)
		key, at := field.Tag.Get("key"), path
		if key == "-" || key == "" {
			continue
		}
		if key != ",inline" {
			at = strings.TrimPrefix(path+"."+key, ".")
		}
		inner := field.Type
		if inner.Kind() == reflect.Slice {
			inner = inner.Elem()
		}
		if inner.Kind() == reflect.Struct {
			gather(at, inner, fields)
			continue
		}
		fields[at] = field
	}
}

// inputOf finds the input that an entry is about.
func inputOf(fields map[string]reflect.StructField, path string) (reflect.StructField, bool) {
	for _, suffix := range []string{".per_km", ".per_piece", ".needed", ".needless"} {
		path = strings.TrimSuffix(path, suffix)
	}
	field, ok := fields[strings.Replace(path, "any_machine.", "machines.", 1)]
	return field, ok
}

func TestEveryAssumedValueIsAboutAnInputAndCanBeRead(t *testing.T) {
	fields := inputs()
	list := defaults.Entries()
	require.Greater(t, len(list), 250)
	for _, entry := range list {
		field, ok := inputOf(fields, entry.Path)
		if !assert.True(t, ok, "%s is no input", entry.Path) {
			continue
		}
		assert.NotEmpty(t, entry.Source, entry.Path)
		assert.Less(t, entry.From, entry.Till, "band of %s", entry.Path)
		assert.Subset(t, model.Classes, entry.Classes, entry.Path)
		assert.Contains(t, []string{"", "new", "used", "resin", "dollars", model.WholeShop, model.PerMachine}, entry.When, entry.Path)
		assertReadable(t, field, entry)
	}
}

func assertReadable(t *testing.T, field reflect.StructField, entry defaults.Entry) {
	t.Helper()
	kind := field.Type
	if kind.Kind() == reflect.Slice {
		kind = kind.Elem()
	}
	measured, ok := reflect.Zero(kind).Interface().(model.Measured)
	if !ok {
		assert.Empty(t, entry.Low+entry.High, entry.Path)
		if words := strings.Fields(field.Tag.Get("oneof")); len(words) > 0 {
			assert.Subset(t, words, strings.Fields(entry.Typical), entry.Path)
			assert.True(t, field.Type.Kind() == reflect.Slice || len(strings.Fields(entry.Typical)) == 1, entry.Path)
		}
		if kind.Kind() == reflect.Bool {
			assert.Contains(t, []string{"yes", "no"}, entry.Typical, entry.Path)
		}
		return
	}
	typical := read(t, measured.Dimension(), entry.Path, entry.Typical)
	assert.Equal(t, entry.Low == "", entry.High == "", "%s needs both ends of its range or none", entry.Path)
	if entry.Low == "" {
		return
	}
	low, high := read(t, measured.Dimension(), entry.Path, entry.Low), read(t, measured.Dimension(), entry.Path, entry.High)
	assert.LessOrEqual(t, low, typical, entry.Path)
	assert.LessOrEqual(t, typical, high, entry.Path)
	assert.Less(t, low, high, "%s has an empty range", entry.Path)
}

func read(t *testing.T, dim quantity.Dimension, path, text string) float64 {
	t.Helper()
	x, currency, err := quantity.Parse(dim, text)
	require.NoError(t, err, path)
	assert.Empty(t, currency, path)
	return x
}

// An entry behind one that fits always would never be used.
func TestNoAssumedValueHidesBehindAMoreGeneralOne(t *testing.T) {
	closed := map[string]bool{}
	for _, entry := range defaults.Entries() {
		assert.False(t, closed[entry.Path], "%s for %v comes after a line that fits all", entry.Path, entry.Classes)
		everything := len(entry.Classes) == 0 && entry.When == "" && entry.From < 0 && entry.Till > 1e300
		closed[entry.Path] = closed[entry.Path] || everything
	}
}

// Each chain must end in a line that needs no width: a machine may have no limit.
func TestEveryBandedValueHasALastBandWithoutEnd(t *testing.T) {
	type chain struct{ path, class, when string }
	open := map[chain]bool{}
	for _, entry := range defaults.Entries() {
		for _, class := range append(entry.Classes, "")[:max(1, len(entry.Classes))] {
			key := chain{entry.Path, class, entry.When}
			open[key] = open[key] || entry.Till > 1e300
		}
	}
	require.NotEmpty(t, open)
	for key, ok := range open {
		assert.True(t, ok || open[chain{key.path, "", ""}], "%v ends before the widest machine", key)
	}
}
