// Package logbook reads and writes the studio's logbook: one line for each
// visit, each piece of measured work, each edge sharpened or replaced. It is a
// CSV file, as any spreadsheet program writes it, read as a stream and in
// bounds. It compares nothing: what the lines say about a study is for others.
package logbook

import "shopstint/model/quantity"

// Kind is what a line of the logbook tells.
type Kind string

// The kinds of lines.
const (
	Visit   Kind = "visit"   // a visit to a shop: minutes on its clock, amount of its invoice
	Work    Kind = "work"    // work of one operation, measured
	Use     Kind = "use"     // length, area or hours put on an edge or an abrasive
	Sharpen Kind = "sharpen" // an edge sharpened or turned: one life ends, the edge goes on
	Replace Kind = "replace" // an edge or abrasive taken out of use
	Buy     Kind = "buy"     // something bought; a new item begins
	Done    Kind = "done"    // jobs finished
	Rework  Kind = "rework"  // jobs that had to be done again
)

// Kinds lists the kinds in the order in which they are documented. It is a
// table of constants.
var Kinds = []Kind{Visit, Work, Use, Sharpen, Replace, Buy, Done, Rework}

// Reasons for which a life ends.
const (
	Dull   = "dull"   // it cut badly
	Damage = "damage" // metal, grit, a fall
	Spent  = "spent"  // no sharpening is left in it
	Lost   = "lost"   // nobody knows how it would have gone on
)

// Setup is the operation of a work line that measures set-up alone.
const Setup = "setup"

// Fields says which numbers of an entry were written.
type Fields uint8

// The numbers of an entry.
const (
	HasJobs Fields = 1 << iota
	HasMinutes
	HasAmount
	HasLength
	HasArea
	HasHours
)

// Has tells whether all of the numbers asked for were written.
func (f Fields) Has(asked Fields) bool { return f&asked == asked }

// Entry is one line of a logbook.
type Entry struct {
	Line      int               // line of the file, from 1, the header being the first; 0 for one not read from a file
	Date      quantity.Date     // the day on which it happened
	Kind      Kind              // what it tells
	Subject   string            // shop, machine, edge or abrasive; with Buy also a free word
	Item      string            // which one of several edges or abrasives, as the owner calls it
	Job       string            // job type
	Operation string            // operation of the job type; one grit of it as sand/80
	Jobs      float64           // how many; 1 when not said
	Minutes   quantity.Duration // seconds, as in every Duration
	Amount    quantity.Money    // in the study's currency
	Length    quantity.Distance // metres
	Area      quantity.Area     // square metres
	Hours     quantity.Duration // seconds, as in every Duration
	Given     Fields            // which of the numbers were written
	Reason    string            // Dull, Damage, Spent or Lost
	Note      string            // anything
}
