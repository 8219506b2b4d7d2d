package grid

import "github.com/xuri/excelize/v2"

// fontFamily stands in every style and every chart. A style without it falls to a serif in some office programs;
// this one has a free substitute of the same widths.
const fontFamily = "Calibri"

const (
	fontSize    = 11.0
	borderColor = "BFBFBF"
)

// Align is the horizontal place of the content; empty means by its kind (text left, numbers right).
type Align string

// The horizontal places.
const (
	AlignLeft   Align = "left"
	AlignCenter Align = "center"
	AlignRight  Align = "right"
)

// VAlign is the vertical place of the content; empty means the bottom.
type VAlign string

// The vertical places.
const (
	VAlignTop    VAlign = "top"
	VAlignCenter VAlign = "center"
)

// Border is the set of lines around a cell.
type Border int

// The kinds of border. Box and Bottom are thin and grey; Total is a thin dark line above.
const (
	BorderNone Border = iota
	BorderBox
	BorderBottom
	BorderTotal
)

// Style is how a cell looks. It is comparable; equal styles are written once. The zero Style is plain.
type Style struct {
	NumberFormat string // such as "#,##0.00"; "" is General
	Bold         bool
	Italic       bool
	Underline    bool
	Wrap         bool
	Unlocked     bool    // may be edited on a protected sheet
	Fill         string  // RRGGBB, "" for none
	FontColor    string  // RRGGBB, "" for black
	Size         float64 // points, 1 to 409; 0 means 11
	Align        Align
	VAlign       VAlign
	Border       Border
	Indent       int // steps, 0 to 15
}

// styleBook hands out the file's style numbers, one per distinct Style.
type styleBook struct {
	file    *excelize.File
	numbers map[Style]int
	last    Style
	lastNo  int
}

func newStyleBook(f *excelize.File) *styleBook {
	return &styleBook{file: f, numbers: map[Style]int{{}: 0}}
}

// number gives the style's index in the file, adding it when it is new.
func (b *styleBook) number(style *Style) (int, error) {
	if *style == b.last {
		return b.lastNo, nil
	}
	s := *style
	no, known := b.numbers[s]
	if !known {
		var err error
		if no, err = b.file.NewStyle(s.full()); err != nil {
			return 0, err
		}
		b.numbers[s] = no
	}
	b.last, b.lastNo = s, no
	return no, nil
}

// full spells a style out for a cell.
func (s Style) full() *excelize.Style {
	out := s.partial()
	out.Font.Family = fontFamily
	out.Font.Size = fontSize
	if s.Size != 0 {
		out.Font.Size = s.Size
	}
	if s.Underline {
		out.Font.Underline = "single"
	}
	out.Alignment = &excelize.Alignment{Horizontal: string(s.Align), Vertical: string(s.VAlign), WrapText: s.Wrap, Indent: s.Indent}
	out.Protection = &excelize.Protection{Locked: !s.Unlocked}
	out.Border = s.Border.lines()
	if s.NumberFormat != "" {
		out.CustomNumFmt = &s.NumberFormat
	}
	return out
}

// partial spells out what a conditional format may change: fill, font colour, bold, italic.
func (s Style) partial() *excelize.Style {
	out := &excelize.Style{Font: &excelize.Font{Bold: s.Bold, Italic: s.Italic, Color: s.FontColor}}
	if s.Fill != "" {
		out.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{s.Fill}}
	}
	return out
}

func (b Border) lines() []excelize.Border {
	const thin = 1
	switch b {
	case BorderBox:
		return []excelize.Border{
			{Type: "left", Color: borderColor, Style: thin}, {Type: "top", Color: borderColor, Style: thin},
			{Type: "bottom", Color: borderColor, Style: thin}, {Type: "right", Color: borderColor, Style: thin},
		}
	case BorderBottom:
		return []excelize.Border{{Type: "bottom", Color: borderColor, Style: thin}}
	case BorderTotal:
		return []excelize.Border{{Type: "top", Color: "404040", Style: thin}}
	}
	return nil
}
