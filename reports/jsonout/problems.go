package jsonout

import (
	"io"

	"shopstint/model/problem"
)

// ProblemsShape is the name of the shape that Problems writes.
const ProblemsShape = "shopstint.problems/1"

type problemList struct {
	Shape    string     `json:"shape"`
	Problems []oneFault `json:"problems"`
}

type oneFault struct {
	place
	Path  string  `json:"path"`
	What  string  `json:"what"`
	Right string  `json:"right"`
	Also  []place `json:"also"`
}

type place struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Sheet  string `json:"sheet,omitempty"`
	Cell   string `json:"cell,omitempty"`
}

// Problems writes what is wrong with an input, a command line or a run. A
// place that is not known has an empty file, line 0 and column 0; one in a workbook
// has line 0, column 0 and behind them "sheet" and "cell".
//
//	{"shape": "shopstint.problems/1", "problems": [{"file", "line", "column",
//	 "path", "what", "right", "also": [{"file", "line", "column"}]}]}
func Problems(w io.Writer, list problem.List) error {
	return write(w, problemList{ProblemsShape, each(list, faultOf)})
}

func faultOf(p *problem.Problem) oneFault {
	return oneFault{placeOf(&p.Place), p.Path, p.What, p.Right, each(p.Also, placeOf)}
}

func placeOf(p *problem.Place) place { return place{p.File, p.Line, p.Column, p.Sheet, p.Cell} }
