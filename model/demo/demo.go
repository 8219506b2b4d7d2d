// Package demo holds an invented study that shows the whole program at work: a
// two-person studio that makes wide solid and resin-filled tops and hires the
// machine room of a bigger shop.
package demo

import _ "embed"

//go:embed demo.yaml
var yaml string

// Name is what the demo study is called where a file's name would stand.
const Name = "demo.yaml"

//go:embed demo-log.csv
var log string

// LogName is what the demo logbook is called where a file's name would stand.
const LogName = "demo-log.csv"

// Log returns the logbook of eleven months of that studio, a fresh copy each
// time. rental/demolog makes it, and says what was so in truth.
func Log() []byte { return []byte(log) }

// Study returns the demo study as YAML, a fresh copy each time.
func Study() []byte { return []byte(yaml) }
