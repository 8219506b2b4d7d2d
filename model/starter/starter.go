// Package starter holds the studies that a new user begins with: commented YAML
// with plausible values and their units in place.
package starter

import _ "embed"

//go:embed short.yaml
var short string

//go:embed long.yaml
var long string

// Short returns a study of some fifteen lines, enough for a first answer. All
// else is assumed.
func Short() []byte { return []byte(short) }

// Long returns a study with every section and the inputs that owners change
// most often, each with what it means, its unit and its usual range.
func Long() []byte { return []byte(long) }
