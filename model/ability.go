package model

import "shopstint/model/quantity"

// Machine classes: what a machine does, not who made it.
const (
	Planer     = "planer"      // thickness planer: feed through, by depth
	WideBelt   = "wide_belt"   // wide-belt sander: feed through, grit by grit
	PanelSaw   = "panel_saw"   // stationary panel or table saw
	TrackSaw   = "track_saw"   // rail-guided hand-held saw
	Router     = "router"      // hand-held router with a bit that follows a template or bearing
	RouterSled = "router_sled" // router on rails that flattens a face
	Orbital    = "orbital"     // random-orbit sander
	Other      = "other"       // anything else: measured minutes only
)

// Classes lists every machine class in the order they are documented.
var Classes = []string{Planer, WideBelt, PanelSaw, TrackSaw, Router, RouterSled, Orbital, Other}

// HandHeld tells whether a machine of that class is moved over the piece by one
// person, and not the piece through the machine by as many as it takes to carry it.
func HandHeld(class string) bool {
	return class == TrackSaw || class == Router || class == RouterSled || class == Orbital
}

// Ability is what any machine can take and how fast it works, whoever owns it.
// A limit of zero means that the machine sets none.
type Ability struct {
	Class string `key:"class" need:"yes" fixed:"yes" oneof:"planer wide_belt panel_saw track_saw router router_sled orbital other" about:"what kind of machine it is"`

	MaxWidth    quantity.Length `key:"max_width" least:"0 mm" most:"5 m" about:"widest piece it takes (0: no limit)"`
	MaxOpening  quantity.Length `key:"max_opening" least:"0 mm" most:"2 m" about:"thickest piece or deepest cut it takes (0: no limit)"`
	LeastLength quantity.Length `key:"least_length" least:"0 mm" most:"2 m" about:"shortest piece it takes (0: no limit)"`
	MostMass    quantity.Mass   `key:"most_mass" least:"0 kg" most:"5000 kg" about:"heaviest piece its table takes (0: no limit)"`
	TakesResin  bool            `key:"takes_resin" about:"whether resin-filled pieces may go through it"`

	Feed            quantity.Speed    `key:"feed" least:"0 m/min" most:"200 m/min" about:"feed speed in plain hardwood"`
	DepthPerPass    quantity.Length   `key:"depth_per_pass" least:"0 mm" most:"300 mm" about:"most it takes off, or cuts deep, in one pass; its manual comes first"`
	AreaTime        quantity.AreaTime `key:"area_time" least:"0 min/m2" most:"1000 min/m2" about:"time for each area of one face, for machines moved over the face"`
	Stride          quantity.Length   `key:"stride" least:"0 mm" most:"1 m" about:"width of the strip one pass covers, for edges moved over the face (0: no edge runs)"`
	FinishPasses    quantity.Count    `key:"finish_passes" least:"0" most:"10" whole:"yes" about:"extra light passes on each face"`
	HandlingPerPass quantity.Duration `key:"handling_per_pass" least:"0 min" most:"120 min" about:"catch, carry back, reset; for saws: mark and place the rail for each cut"`
	HandlingHeavy   quantity.Duration `key:"handling_heavy" least:"0 min" most:"120 min" about:"the same for heavy pieces"`
	Turning         quantity.Duration `key:"turning" least:"0 min" most:"120 min" about:"turning a piece over between faces"`
	Setup           quantity.Duration `key:"setup" least:"0 min" most:"480 min" about:"set-up and warm-up each visit or session"`
	GritChange      quantity.Duration `key:"grit_change" least:"0 min" most:"120 min" about:"changing to a grit, tracking and touch-off included"`

	Motor     quantity.Power    `key:"motor" least:"0 kW" most:"200 kW" about:"rated motor power"`
	PeakLoad  quantity.Share    `key:"peak_load" above:"0 %" most:"100 %" about:"share of the motor power that a pass may use; limits the depth of wide passes"`
	HeadSpeed quantity.Rotation `key:"head_speed" least:"0 rpm" most:"60000 rpm" about:"cutterhead speed (0: no knife-mark figure)"`
	Knives    quantity.Count    `key:"knives" least:"0" most:"200" whole:"yes" about:"knives that pass one point in a turn of the head"`

	Edge        string `key:"edge" ref:"edges" fixed:"yes" about:"the edge it runs"`
	Consumables string `key:"consumables" fixed:"yes" oneof:"own included" about:"who pays for edges and abrasives: the studio (own) or the shop's rate (included)"`
}

// Tool is a machine that the studio owns already and keeps.
type Tool struct {
	Key     string `key:"-"`
	Name    string `key:"name" about:"what the studio calls it"`
	Ability `key:",inline"`
}

// Edge is a set of knives, a blade, a bit or a set of inserts that wears by the
// metre it runs. It ends dull, or sooner by damage: a nick, metal, a drop.
type Edge struct {
	Key             string            `key:"-"`
	Name            string            `key:"name" about:"what it is"`
	Price           quantity.Money    `key:"price" least:"0" most:"10000000" about:"a new one"`
	Life            quantity.Distance `key:"life" above:"1 m" most:"1000000 km" about:"running length until it is dull, in plain hardwood"`
	Sharpenings     quantity.Count    `key:"sharpenings" least:"0" most:"50" whole:"yes" about:"how often it can be sharpened or turned before it is spent"`
	SharpeningPrice quantity.Money    `key:"sharpening_price" least:"0" most:"1000000" about:"each sharpening (0 for turning an insert)"`
	Errand          quantity.Money    `key:"errand" least:"0" most:"1000000" about:"shipping or errand for each sharpening"`
	LifeLost        quantity.Share    `key:"life_lost" least:"0 %" most:"90 %" about:"share of its life that each sharpening takes away"`
	SizeLost        quantity.Length   `key:"size_lost" least:"0 mm" most:"50 mm" about:"diameter or width that each sharpening takes away"`
	SizeSpare       quantity.Length   `key:"size_spare" least:"0 mm" most:"500 mm" about:"how much of that may go before a bit no longer matches its bearing, a blade no longer reaches, a knife no longer clamps (0: it does not bind); its maker's limit comes first"`
	SuddenShare     quantity.Share    `key:"sudden_share" least:"0 %" most:"95 %" about:"share of its lives that end by damage before it is dull: a nick, metal, a drop"`
	DamageSpends    quantity.Share    `key:"damage_spends" least:"0 %" most:"100 %" about:"share of damaged edges that cannot be sharpened any more"`
	Turnaround      quantity.Count    `key:"turnaround" aside:"yes" least:"0" most:"365" about:"days that it is away for a sharpening"`
	ChangeTime      quantity.Duration `key:"change_time" aside:"yes" least:"0 min" most:"480 min" about:"own time at the machine to change it"`
	DullFeed        quantity.Share    `key:"dull_feed" aside:"yes" least:"0 %" most:"90 %" about:"share of the feed that is lost by the time it is dull"`
}

// Abrasive is a belt, disc or sheet of one grit for one class of machine.
type Abrasive struct {
	Key          string            `key:"-"`
	Name         string            `key:"name" about:"what it is"`
	Class        string            `key:"class" need:"yes" fixed:"yes" oneof:"wide_belt orbital" about:"class of machine it runs on"`
	Grit         quantity.Count    `key:"grit" need:"yes" least:"16" most:"5000" whole:"yes" fixed:"yes" about:"grit number"`
	OnlyCompared bool              `key:"only_compared" fixed:"yes" about:"whether it is only compared with others: no step of a job runs it"`
	Price        quantity.Money    `key:"price" least:"0" most:"1000000" about:"a new one"`
	Life         quantity.Area     `key:"life" above:"0.01 m2" most:"1000000 m2" about:"area of face passed until it is spent, in plain hardwood"`
	SuddenShare  quantity.Share    `key:"sudden_share" least:"0 %" most:"95 %" about:"share of its lives that end by damage before it is spent: a glazed strip, a crease, a torn edge"`
	ChangeTime   quantity.Duration `key:"change_time" aside:"yes" least:"0 min" most:"120 min" about:"own time at the machine to change a spent one"`
	DullFeed     quantity.Share    `key:"dull_feed" aside:"yes" least:"0 %" most:"90 %" about:"share of the pace that is lost by the time it is spent"`
}

// Material says how a stock differs from plain hardwood.
type Material struct {
	Key             string                  `key:"-"`
	Name            string                  `key:"name" about:"what it is"`
	Density         quantity.Density        `key:"density" above:"50 kg/m3" most:"3000 kg/m3" about:"mass of the stock by volume"`
	SpecificGravity quantity.Count          `key:"specific_gravity" least:"0" most:"3" about:"specific gravity from a wood handbook (0: the density above is used)"`
	Moisture        quantity.Share          `key:"moisture" least:"0 %" most:"100 %" about:"moisture content, with a specific gravity"`
	Resin           bool                    `key:"resin" about:"whether resin shows on the faces"`
	FeedFactor      quantity.Share          `key:"feed_factor" above:"0 %" most:"300 %" about:"feed speed against plain hardwood"`
	DepthFactor     quantity.Share          `key:"depth_factor" above:"0 %" most:"300 %" about:"depth per pass against plain hardwood"`
	EdgeLife        quantity.Share          `key:"edge_life" above:"0 %" most:"500 %" about:"life of edges against plain hardwood"`
	AbrasiveLife    quantity.Share          `key:"abrasive_life" above:"0 %" most:"500 %" about:"life of abrasives against plain hardwood"`
	PlaningEnergy   quantity.SpecificEnergy `key:"planing_energy" above:"1 MJ/m3" most:"1000 MJ/m3" about:"work of planing a volume off"`
	SandingEnergy   quantity.SpecificEnergy `key:"sanding_energy" above:"1 MJ/m3" most:"5000 MJ/m3" about:"work of sanding a volume off"`
}

func (t Tool) key() string     { return t.Key }
func (e Edge) key() string     { return e.Key }
func (a Abrasive) key() string { return a.Key }
func (m Material) key() string { return m.Key }
