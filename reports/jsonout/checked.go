package jsonout

import "io"

// CheckShape is the name of the shape that Checked writes.
const CheckShape = "shopstint.check/1"

// Checked is what a study without problems holds.
type Checked struct {
	Study    string `json:"study"`
	Shops    int    `json:"shops"`
	Machines int    `json:"machines"`
	JobTypes int    `json:"job_types"`
	Given    int    `json:"given"`   // inputs in the study
	Assumed  int    `json:"assumed"` // inputs that were not
}

type checkedDocument struct {
	Shape string `json:"shape"`
	Checked
}

// Write writes the counts:
//
//	{"shape": "shopstint.check/1", "study", "shops", "machines", "job_types", "given", "assumed"}
func (c Checked) Write(w io.Writer) error { return write(w, checkedDocument{CheckShape, c}) }
