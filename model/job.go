package model

import "shopstint/model/quantity"

// JobType is a kind of order with real geometry.
type JobType struct {
	Key          string            `key:"-"`
	Name         string            `key:"name" about:"what the studio calls it"`
	Shop         string            `key:"shop" ref:"shops" fixed:"yes" about:"the shop its rented work goes to (the first one when not said)"`
	Material     string            `key:"material" ref:"materials" fixed:"yes" about:"what it is made of"`
	PerYear      quantity.Count    `key:"per_year" need:"yes" least:"0" most:"10000" about:"jobs in the first year"`
	Growth       quantity.Share    `key:"growth" least:"-50 %" most:"100 %" about:"yearly growth of the number of jobs"`
	JobsPerVisit quantity.Count    `key:"jobs_per_visit" least:"1" most:"12" whole:"yes" fixed:"yes" about:"jobs that share one visit"`
	AfterHours   bool              `key:"after_hours" about:"whether its visits fall outside opening hours"`
	ArrivesFlat  bool              `key:"arrives_flat" about:"whether the pieces have one flat face before planing; a planer does not flatten"`
	ReworkChance quantity.Share    `key:"rework_chance" least:"0 %" most:"100 %" about:"chance that the repeated operations are done once more"`
	ReworkVisits quantity.Count    `key:"rework_visits" least:"0" most:"3" about:"shop visits that one rework needs"`
	LoadingTime  quantity.Duration `key:"loading_time" least:"0 min" most:"1440 min" about:"loading and unloading at both ends for each job"`
	Pieces       []Piece           `key:"pieces" need:"yes"`
	Operations   []Operation       `key:"operations" need:"yes"`
}

// Piece is one size of part in a job, as it comes to the machine.
type Piece struct {
	Key       string          `key:"-"`
	Count     quantity.Count  `key:"count" least:"1" most:"1000" whole:"yes" about:"how many in one job"`
	Length    quantity.Length `key:"length" above:"0 mm" most:"20 m" need:"yes" about:"along the feed"`
	Width     quantity.Length `key:"width" above:"0 mm" most:"5 m" need:"yes" about:"across the feed"`
	Thickness quantity.Length `key:"thickness" above:"0 mm" most:"1 m" need:"yes" about:"rough thickness"`
}

// What an operation's set-up is counted by.
const (
	PerVisit = "visit"
	PerJob   = "job"
	PerPiece = "piece"
)

// Operation is one machining step on all pieces of the job, or on one of them.
type Operation struct {
	Key       string            `key:"-"`
	Name      string            `key:"name" about:"what it does"`
	Class     string            `key:"class" need:"yes" fixed:"yes" oneof:"planer wide_belt panel_saw track_saw router router_sled orbital other" about:"class of machine it needs"`
	Fallback  string            `key:"fallback" fixed:"yes" oneof:"planer wide_belt panel_saw track_saw router router_sled orbital other" about:"class that takes over when a piece does not fit"`
	Piece     string            `key:"piece" fixed:"yes" about:"the piece it works on (all pieces when not said)"`
	Faces     quantity.Count    `key:"faces" least:"1" most:"2" whole:"yes" about:"faces worked; the piece is turned between"`
	Stock     quantity.Length   `key:"stock" least:"0 mm" most:"500 mm" about:"thickness to take off each face"`
	Depth     quantity.Length   `key:"depth" least:"0 mm" most:"1 m" about:"depth of the cut (0: through the thickness)"`
	CutLength quantity.Length   `key:"cut_length" least:"0 mm" most:"200 m" about:"length of one cut or path on a piece"`
	Cuts      quantity.Count    `key:"cuts" least:"0" most:"1000" about:"cuts or paths on each piece"`
	BothSides bool              `key:"both_sides" about:"whether a piece too thick may be cut from both faces"`
	ButtFeed  bool              `key:"butt_feed" about:"whether pieces are fed end to end, so that handling is once a pass"`
	Setup     quantity.Duration `key:"setup" least:"0 min" most:"480 min" about:"set-up of this operation beside the machine's own"`
	SetupPer  string            `key:"setup_per" fixed:"yes" oneof:"visit job piece" about:"what that set-up is counted by"`
	Measured  quantity.Duration `key:"measured" fixed:"zero" least:"0 min" most:"2880 min" about:"measured time for each piece, in place of the geometry (0: use geometry)"`
	Repeat    bool              `key:"repeat" fixed:"yes" about:"whether a rework repeats it"`
	Grits     []Grit            `key:"grits"`
}

// Grit is one step of a sanding sequence. Its key is the grit number.
type Grit struct {
	Key   string          `key:"-"`
	Stock quantity.Length `key:"stock" least:"0 mm" most:"20 mm" scalar:"yes" about:"thickness this grit takes off each face"`
}

// Repeats tells whether a rework of this job type repeats anything.
func (j *JobType) Repeats() bool {
	for o := range j.Operations {
		if j.Operations[o].Repeat {
			return true
		}
	}
	return false
}

func (j JobType) key() string   { return j.Key }
func (p Piece) key() string     { return p.Key }
func (o Operation) key() string { return o.Key }
func (g Grit) key() string      { return g.Key }
