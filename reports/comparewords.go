package reports

import (
	"math"
	"strings"

	"shopstint/capital/decision/ways"
	"shopstint/model"
)

// heading names the work and how much of it a year brings.
func (c *compared) heading() string {
	said := nameOr(c.of.Name, c.of.Key) + ": " + c.amountOf(c.of.Amount()) + " a year"
	if pieces := c.pieces(c.of.Amount()); pieces != "" {
		said += ", " + pieces
	}
	if material, ok := model.Find(c.study.Materials, c.of.Material); ok {
		said += ", in " + nameOr(material.Name, material.Key)
	}
	return said
}

// amountOf writes an amount of work in the finished unit.
func (c *compared) amountOf(x float64) string {
	symbol, size := c.shownUnit()
	return c.number(x/size) + " " + symbol
}

// pieces writes an amount of work in pieces; "" where it is not told in them.
func (c *compared) pieces(x float64) string {
	if c.of.Piece() == 0 {
		return ""
	}
	return c.counted(x/c.of.Piece(), c.pieceName())
}

func (c *compared) pieceName() string { return nameOr(c.of.PieceName, "piece") }

func (c *compared) unitName() string {
	symbol, _ := c.shownUnit()
	return symbol
}

// verdict says which way costs least, by how much, and what the unit costs.
func (c *compared) verdict() string {
	r := c.result
	_, size := c.shownUnit()
	best, next := &r.Ways[r.Best], &r.Ways[r.Next]
	cost := c.rate(best.Unit()*size) + " against " + c.rate(next.Unit()*size) + " a " + c.unitName()
	if r.Close {
		return "too close to call between " + c.name(r.Best) + " and " + c.name(r.Next) + ": " + cost
	}
	said := c.name(r.Best) + " is cheapest: " + cost
	if c.of.Piece() > 0 {
		said += ", " + c.amount(best.Unit()*c.of.Piece()) + " against " + c.amount(next.Unit()*c.of.Piece()) + " a " + c.pieceName()
	}
	return said + ", which saves " + c.amount(r.Saving()) + " a year against " + c.name(r.Next)
}

// why names the parts in which the best way differs from the next one.
func (c *compared) why(size float64) string {
	r := c.result
	var less, more []string
	for part := range ways.Parts {
		apart := (r.Ways[r.Next].PerUnit[part] - r.Ways[r.Best].PerUnit[part]) * size
		switch {
		case math.Abs(apart) < told*r.Ways[r.Next].Unit()*size: // not worth a word
		case apart > 0:
			less = append(less, c.rate(apart)+" on "+c.label(part))
		default:
			more = append(more, c.rate(-apart)+" more for "+c.label(part))
		}
	}
	if len(less) == 0 {
		return "the two differ in no part by more than a hundredth"
	}
	said := "for each " + c.unitName() + " it saves " + listed(less)
	if len(more) > 0 {
		said += ", and pays " + listed(more)
	}
	return said
}

// told is the share of the whole from which a part's difference is told.
const told = 0.01

func listed(parts []string) string {
	if len(parts) == 1 {
		return parts[0]
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// pairInWords says from when on which way is cheaper, and when what it lays out
// more is back.
func (c *compared) pairInWords(p *ways.Pair) []string {
	var said []string
	first, second := c.name(p.First), c.name(p.Second)
	switch p.Outcome {
	case ways.Same:
		said = append(said, first+" and "+second+" cost the same at any amount of work")
	case ways.Crossing:
		said = append(said, c.name(p.Above)+" is cheaper than "+c.name(p.Below)+" from "+c.crossing(p))
	default:
		other := first
		if p.Below == p.First {
			other = second
		}
		said = append(said, c.name(p.Below)+" is cheaper than "+other+" at any amount of work")
	}
	if p.Dearer >= 0 && p.Dearer == p.Above && p.More >= smallestOutlay*c.result.Ways[p.Above].Yearly {
		said = append(said, c.repaid(p))
	}
	return said
}

// smallestOutlay is the share of a year's cost from which it is told when more
// that was laid out is back.
const smallestOutlay = 0.01

// crossing says from how much work a year on, in pieces where there are any.
func (c *compared) crossing(p *ways.Pair) string {
	also := []string{c.amountOf(p.At)}
	said := c.amountOf(p.At) + " a year on"
	if piece := c.of.Piece(); piece > 0 {
		said = c.fromPiece(p.At/piece) + " a year on"
	} else {
		also = nil
	}
	if p.Hours > 0 {
		also = append(also, c.number(p.Hours)+" h at the machine")
	}
	if len(also) > 0 {
		said += " (" + strings.Join(also, ", ") + ")"
	}
	return said
}

// fromPiece tells from which whole piece on.
func (c *compared) fromPiece(pieces float64) string {
	if pieces < 1 {
		return "the first " + c.pieceName()
	}
	return c.counted(math.Ceil(pieces), c.pieceName())
}

func (c *compared) repaid(p *ways.Pair) string {
	more := c.name(p.Dearer) + " asks for " + c.amount(p.More) + " more at first"
	if !p.Repaid {
		return more + ", which does not come back at this amount of work"
	}
	said := more + ", back after " + c.amountOf(p.RepayAt)
	if piece := c.of.Piece(); piece > 0 {
		said += " or " + c.counted(math.Ceil(p.RepayAt/piece), c.pieceName())
	}
	return said
}

// waiting tells how long pieces wait for their rework in a year.
func (c *compared) waiting() string {
	var said []string
	for i := range c.result.Ways {
		said = append(said, c.days(c.result.Ways[i].Waited)+" with "+c.name(i))
	}
	most := 0.0
	for i := range c.result.Ways {
		most = math.Max(most, c.result.Ways[i].Waited)
	}
	if most == 0 {
		return ""
	}
	priced := "; an hour of waiting is priced at " + c.rate(float64(c.of.WaitingRate))
	if c.of.WaitingRate == 0 {
		priced = "; waiting is not priced"
	}
	return "pieces wait in a year " + listed(said) + priced
}

func (c *compared) days(x float64) string {
	if x < 1 {
		return c.counted(x*24, "hour")
	}
	return c.counted(x, "day")
}
