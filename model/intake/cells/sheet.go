package cells

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// xmlCell is one c element. A cell may leave out where it stands: it then
// follows the one before.
type xmlCell struct {
	Ref     string   `xml:"r,attr"`
	Style   int      `xml:"s,attr"`
	Type    string   `xml:"t,attr"`
	Formula *string  `xml:"f"`
	Value   *string  `xml:"v"`
	Inline  *xmlRich `xml:"is"`
}

// scan is one sheet while it is read.
type scan struct {
	*opening
	sheet *Sheet
	at    Place
	count int
}

// sheet reads one sheet as a stream. A sheet without a part of cells (a page
// that is a chart) is an empty one.
func (o *opening) sheet(name, part string) (Sheet, error) {
	sheet := Sheet{Name: name, Cells: map[Place]Cell{}}
	closer, r, err := o.open(part)
	if err != nil {
		return sheet, err
	}
	defer func() { _ = closer.Close() }()
	s := scan{opening: o, sheet: &sheet}
	decoder := xml.NewDecoder(r)
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return sheet, nil
		}
		if err != nil {
			return sheet, err
		}
		if start, ok := token.(xml.StartElement); ok {
			if err := s.element(decoder, &start); err != nil {
				return sheet, err
			}
		}
	}
}

// mostCells and mostMerged bound what one sheet may hold in memory.
const (
	mostCells  = 400000
	mostMerged = 1000
)

func (s *scan) element(decoder *xml.Decoder, start *xml.StartElement) error {
	switch start.Name.Local {
	case "row":
		s.at = Place{s.at.Row + 1, 0}
		if number := attribute(start, "r"); number != "" {
			at, ok := placeOf("A" + number)
			if !ok {
				return s.misplaced(fmt.Sprintf("the row %.20q", number))
			}
			s.at.Row = at.Row
		}
	case "c":
		var c xmlCell
		if err := decoder.DecodeElement(&c, start); err != nil {
			return err
		}
		if s.count++; s.count > mostCells {
			return &refusal{Trouble{"the sheet " + strconv.Quote(s.sheet.Name) + " has far more cells than a study needs", "take out what is not part of the study"}}
		}
		return s.cell(&c)
	case "mergeCell":
		first, last, _ := strings.Cut(attribute(start, "ref"), ":")
		from, ok := placeOf(first)
		to, both := placeOf(last)
		if !ok || !both {
			return nil
		}
		if len(s.sheet.Merged) == mostMerged {
			return &refusal{Trouble{"the sheet " + strconv.Quote(s.sheet.Name) + " has more than " + strconv.Itoa(mostMerged) + " merged ranges", "unmerge its cells"}}
		}
		s.sheet.Merged = append(s.sheet.Merged, Area{from, to})
	}
	return nil
}

func attribute(start *xml.StartElement, name string) string {
	for _, one := range start.Attr {
		if one.Name.Local == name {
			return one.Value
		}
	}
	return ""
}

// misplaced refuses what stands nowhere on a sheet, or twice in one place:
// programs differ in what they make of it.
func (s *scan) misplaced(what string) error {
	return &refusal{Trouble{"the sheet " + strconv.Quote(s.sheet.Name) + " has " + what + ", which cannot be", damaged.Right}}
}

// cell takes in one cell, if it holds something.
func (s *scan) cell(c *xmlCell) error {
	s.at.Col++
	if c.Ref != "" {
		at, ok := placeOf(c.Ref)
		if !ok {
			return s.misplaced(fmt.Sprintf("the cell %.20q", c.Ref))
		}
		s.at = at
	}
	if s.at.Row == 0 {
		return s.misplaced("a cell in front of its first row")
	}
	cell := s.content(c)
	if cell.Kind == Empty {
		return nil
	}
	if s.at.Row > MostRows || s.at.Col > MostColumns {
		if s.sheet.Beyond == nil {
			beyond := s.at
			s.sheet.Beyond = &beyond
		}
		return nil
	}
	if _, there := s.sheet.Cells[s.at]; there {
		return s.misplaced("the cell " + s.at.String() + " twice")
	}
	s.sheet.Cells[s.at] = cell
	s.sheet.Rows = max(s.sheet.Rows, s.at.Row)
	return nil
}

func (s *scan) content(c *xmlCell) Cell {
	switch {
	case c.Formula != nil:
		return Cell{Kind: Formula, Text: plain(*c.Formula)}
	case c.Inline != nil:
		return textual(c.Inline.whole())
	case c.Value == nil:
		return Cell{}
	}
	switch value := *c.Value; c.Type {
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(value))
		if err != nil || i < 0 || i >= len(s.shared) {
			return Cell{Kind: Fault, Text: "a text that is not in the file"}
		}
		return textual(s.shared[i])
	case "str":
		return textual(plain(value))
	case "e":
		return Cell{Kind: Fault, Text: plain(value)}
	case "b":
		return logical(value)
	case "d":
		return Cell{Kind: Number, Text: plain(value), Date: true}
	default:
		return s.number(value, c.Style)
	}
}

func textual(text string) Cell {
	if strings.TrimSpace(text) == "" {
		return Cell{}
	}
	return Cell{Kind: Text, Text: text}
}

func logical(value string) Cell {
	if strings.TrimSpace(value) == "1" {
		return Cell{Kind: Logical, Number: 1, Text: "TRUE"}
	}
	return Cell{Kind: Logical, Text: "FALSE"}
}

func (s *scan) number(value string, style int) Cell {
	x, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return Cell{Kind: Fault, Text: plain(value)}
	}
	cell := Cell{Kind: Number, Number: x, Text: plain(value)}
	if style >= 0 && style < len(s.styles) {
		cell.Percent, cell.Date = s.styles[style].percent, s.styles[style].date
	}
	return cell
}
