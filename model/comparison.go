package model

import "shopstint/model/quantity"

// Comparison sets ways of doing the same work beside each other. The work is
// counted by its finished length or by its finished area: by the yearly amount
// that is not zero.
type Comparison struct {
	Key          string                `key:"-"`
	Name         string                `key:"name" about:"the work that all its ways do"`
	Material     string                `key:"material" ref:"materials" fixed:"yes" about:"what is worked (the first material when not said)"`
	YearlyLength quantity.Distance     `key:"yearly_length" fixed:"zero" least:"0 m" most:"10000 km" about:"finished length a year, for edges that run along a line (0: counted by area)"`
	YearlyArea   quantity.Area         `key:"yearly_area" fixed:"zero" least:"0 m2" most:"10000000 m2" about:"finished area a year, for abrasives (0: counted by length)"`
	PieceName    string                `key:"piece_name" about:"what one piece of that work is called"`
	PieceLength  quantity.Length       `key:"piece_length" fixed:"zero" least:"0 mm" most:"1000 m" about:"length that one piece takes (0: not told in pieces)"`
	PieceArea    quantity.Area         `key:"piece_area" fixed:"zero" least:"0 m2" most:"1000 m2" about:"area that one piece takes (0: not told in pieces)"`
	WaitingRate  quantity.MoneyPerHour `key:"waiting_rate" least:"0" most:"1000000 per h" about:"what an hour costs in which a piece waits for its rework: its place, what it holds up (0: days are told and not priced)"`
	Ways         []Way                 `key:"ways" need:"yes"`
}

// Way is one way of doing the work of a comparison: what it runs, how fast it
// goes, what it needs for each piece and what has to be bought for it.
type Way struct {
	Key       string   `key:"-"`
	Name      string   `key:"name" about:"what it is called"`
	Edge      string   `key:"edge" ref:"edges" fixed:"yes" about:"the edge that it runs along the length"`
	Abrasives []string `key:"abrasives" ref:"abrasives" fixed:"yes" about:"the abrasives that pass over the area, one after the other"`

	Passes     quantity.Count    `key:"passes" chosen:"yes" least:"1" most:"100" whole:"yes" about:"passes of the edge over the whole length, or of each abrasive over the whole area"`
	LifeFactor quantity.Share    `key:"life_factor" above:"0 %" most:"500 %" about:"life of its edge or abrasives in this work against the life given for them: deep passes shorten it"`
	Feed       quantity.Speed    `key:"feed" fixed:"zero" least:"0 m/min" most:"200 m/min" about:"feed of one pass in plain hardwood, with a fresh edge (0: its time is all by the piece)"`
	AreaTime   quantity.AreaTime `key:"area_time" fixed:"zero" least:"0 min/m2" most:"1000 min/m2" about:"time for each area of face, all abrasives and passes together, fresh ones (0: its time is all by the piece)"`
	PieceTime  quantity.Duration `key:"piece_time" least:"0 min" most:"10000 min" about:"own time for each piece beside that: setting up, clamping, turning"`
	Spares     quantity.Count    `key:"spares" chosen:"yes" least:"0" most:"1000" whole:"yes" about:"edges, or sets of abrasives, kept in the drawer beside those at work: money tied up"`

	ReworkShare quantity.Share    `key:"rework_share" least:"0 %" most:"100 %" about:"chance that a piece has to be worked over once more"`
	ReworkTime  quantity.Duration `key:"rework_time" least:"0 min" most:"10000 min" about:"own time of each rework"`
	ReworkCost  quantity.Money    `key:"rework_cost" least:"0" most:"1000000" about:"glue, resin, paper or a paid hour for each rework"`
	ReworkWait  quantity.Duration `key:"rework_wait" show:"h" least:"0 h" most:"9000 h" about:"time that the piece waits for it: a cure, the next visit"`

	Machine      string         `key:"machine" ref:"machines" fixed:"yes" about:"the machine of this study that is bought for it (none: the price below)"`
	Price        quantity.Money `key:"price" least:"0" most:"100000000" about:"what has to be bought for it (0: all is there already)"`
	Resale       quantity.Money `key:"resale" least:"0" most:"100000000" about:"what that fetches in the end"`
	YearsKept    quantity.Years `key:"years_kept" chosen:"yes" least:"1 year" most:"30 years" whole:"yes" about:"years that it is kept"`
	YearlyUpkeep quantity.Money `key:"yearly_upkeep" least:"0" most:"10000000" about:"its upkeep a year"`
}

// ByArea tells whether the work is counted by area and not by length.
func (c *Comparison) ByArea() bool { return c.YearlyArea > 0 }

// Amount is the finished work of a year, in metres or square metres.
func (c *Comparison) Amount() float64 {
	if c.ByArea() {
		return float64(c.YearlyArea)
	}
	return float64(c.YearlyLength)
}

// Piece is the work of one piece, in metres or square metres; 0 where the work
// is not told in pieces.
func (c *Comparison) Piece() float64 {
	if c.ByArea() {
		return float64(c.PieceArea)
	}
	return float64(c.PieceLength)
}

// NeedsPiece tells whether something of the way is counted by the piece.
func (w *Way) NeedsPiece() bool { return w.PieceTime > 0 || w.ReworkShare > 0 }

func (c Comparison) key() string { return c.Key }
func (w Way) key() string        { return w.Key }
