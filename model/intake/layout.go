// Package intake reads a study from a workbook: the form that the program hands
// out to be filled in, or the input sheet of a decision workbook that it wrote.
// Both become entries that model/study reads by its own rules; here are only the
// rules of a sheet: which cell holds what, and what a cell must not hold.
//
// The layout stands here too, so that whoever writes the form and whoever reads
// it cannot disagree.
package intake

import (
	"reflect"

	"shopstint/model"
	"shopstint/model/quantity"
)

// Marks of the workbooks that can be read, written into a cell: no program that
// saves a workbook takes a cell away.
const (
	FormMark     = "shopstint.intake/1"
	DecisionMark = "shopstint.decision/1"

	formKind     = "shopstint.intake/"
	decisionKind = "shopstint.decision/"
)

// Sheets of the form.
const (
	ReadMe     = "Read me"
	StudySheet = "Study"
)

// Part is a sheet of the form and the list of the study that it holds, "" for
// the study's own inputs. Member says what a row is about.
type Part struct{ Sheet, List, Member string }

// Parts lists the sheets of the form in their order, without the first page.
func Parts() []Part {
	return []Part{
		{StudySheet, "", "section"}, {"Shops", "shops", "shop"}, {"Tools", "tools", "tool"},
		{"Machines", "machines", "machine"}, {"Fixtures", "fixtures", "fixture"}, {"Edges", "edges", "edge"}, {"Abrasives", "abrasives", "abrasive"},
		{"Materials", "materials", "material"}, {"Jobs", "job_types", "job type"},
		{"Dated jobs", "dated_jobs", "dated job"}, {"Comparisons", "comparisons", "comparison"}, {"Correlations", "correlations", "correlation"},
	}
}

// Headings of the form's columns, in their order. A reader finds columns by them.
const (
	HeadWhich   = "which"
	HeadInput   = "input"
	HeadValue   = "value"
	HeadUnit    = "unit"
	HeadLow     = "low"
	HeadHigh    = "high"
	HeadShape   = "shape"
	HeadAssumed = "assumed when empty"
	HeadNote    = "note"
	HeadSource  = "source"
	HeadAbout   = "what it means"
)

// Headings lists the headings of the form in their order.
func Headings() []string {
	return []string{HeadWhich, HeadInput, HeadValue, HeadUnit, HeadLow, HeadHigh, HeadShape, HeadAssumed, HeadNote, HeadSource, HeadAbout}
}

// Headings of the input sheet of a decision workbook that are read back.
const (
	DecisionSheet    = "Inputs"
	DecisionInput    = "input"
	DecisionStatus   = "status"
	DecisionFrom     = "where it comes from"
	DecisionSolved   = "value solved for"
	DecisionNote     = "its note"
	StatusAssumed    = "assumed"
	StatusGiven      = "given"
	sectionOfStudy   = "study"
	partsOfPath      = " / "
	separatorOfPaths = "."
)

// Input is one input that a member of a list, or a section of the study, has:
// its key, with those of the parts that it stands in, such as tariff.hourly_rate.
type Input struct {
	Name string
	Tag  reflect.StructTag
	Kind reflect.Type // of the value; of a row in a table
	Rows bool         // a table: the rows are Name.1, Name.2, …
}

// Dimension is what the input measures; ok is false for words and yes or no.
func (i Input) Dimension() (dim quantity.Dimension, ok bool) {
	measured, ok := reflect.Zero(i.Kind).Interface().(model.Measured)
	if !ok {
		return 0, false
	}
	return measured.Dimension(), true
}
