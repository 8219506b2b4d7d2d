package model

import (
	"reflect"
	"strconv"
	"strings"

	"shopstint/model/quantity"
)

// Measured is implemented by every quantity type.
type Measured interface{ Dimension() quantity.Dimension }

// Leaf is one input of a study: where it stands, what its tags say, and the
// field itself, which may be read and set.
type Leaf struct {
	Path  string // "machines.planer20.price"; list members by key, table rows by number from 1
	Tag   reflect.StructTag
	Value reflect.Value // addressable: a quantity, a string, a bool or a []string
}

// Dimension returns what the leaf measures; ok is false for words and yes/no.
func (l Leaf) Dimension() (dim quantity.Dimension, ok bool) {
	measured, ok := l.Value.Interface().(Measured)
	if !ok {
		return 0, false
	}
	return measured.Dimension(), true
}

// Number returns the value of a quantity in SI units or the unit in its type's name.
func (l Leaf) Number() float64 { return l.Value.Float() }

// SetNumber sets a quantity.
func (l Leaf) SetNumber(x float64) { l.Value.SetFloat(x) }

// Key returns the last part of the path.
func (l Leaf) Key() string { return l.Path[strings.LastIndexByte(l.Path, '.')+1:] }

// Has tells whether the field's tag says yes to name (need, fixed, whole, scalar).
func (l Leaf) Has(name string) bool { return l.Tag.Get(name) == "yes" }

// Walk calls visit for every input of the study, in the order in which a study
// is written. Members of keyed lists appear under their key.
func Walk(study *Study, visit func(Leaf)) {
	walkStruct("", reflect.ValueOf(study).Elem(), visit)
}

func walkStruct(path string, value reflect.Value, visit func(Leaf)) {
	kind := value.Type()
	for i := range kind.NumField() {
		field := kind.Field(i)
		key := field.Tag.Get("key")
		switch key {
		case "-", "":
		case ",inline":
			walkStruct(path, value.Field(i), visit)
		default:
			walkField(join(path, key), field.Tag, value.Field(i), visit)
		}
	}
}

func walkField(path string, tag reflect.StructTag, value reflect.Value, visit func(Leaf)) {
	switch value.Kind() {
	case reflect.Struct:
		walkStruct(path, value, visit)
	case reflect.Slice:
		walkList(path, tag, value, visit)
	default:
		visit(Leaf{path, tag, value})
	}
}

func walkList(path string, tag reflect.StructTag, list reflect.Value, visit func(Leaf)) {
	switch list.Type().Elem().Kind() {
	case reflect.Struct:
		for i := range list.Len() {
			member := list.Index(i)
			walkStruct(join(path, member.FieldByName("Key").String()), member, visit)
		}
	case reflect.String:
		visit(Leaf{path, tag, list})
	default:
		for i := range list.Len() {
			visit(Leaf{join(path, strconv.Itoa(i+1)), tag, list.Index(i)})
		}
	}
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// Clone returns a deep copy whose inputs can be changed without touching the
// original. Origins are shared: they are never changed after reading.
func (s *Study) Clone() *Study {
	twin := *s
	deepCopy(reflect.ValueOf(&twin).Elem())
	twin.Origins = s.Origins
	return &twin
}

func deepCopy(value reflect.Value) {
	switch value.Kind() {
	case reflect.Struct:
		for i := range value.NumField() {
			if value.Type().Field(i).Tag.Get("key") != "-" {
				deepCopy(value.Field(i))
			}
		}
	case reflect.Slice:
		if value.IsNil() {
			return
		}
		fresh := reflect.MakeSlice(value.Type(), value.Len(), value.Len())
		reflect.Copy(fresh, value)
		value.Set(fresh)
		for i := range fresh.Len() {
			deepCopy(fresh.Index(i))
		}
	}
}
