package grid

import (
	"cmp"
	"fmt"

	"github.com/xuri/excelize/v2"
)

// setPage sets what print and tab need.
func (p *press) setPage(s *Sheet) error {
	props := &excelize.SheetPropsOptions{}
	if s.TabColor != "" {
		props.TabColorRGB = new("FF" + s.TabColor) // eight digits: six are refused by one of the readers
	}
	layout := &excelize.PageLayoutOptions{Size: new(cmp.Or(s.Print.Paper, 9)), Orientation: new("portrait")}
	if s.Print.Landscape {
		layout.Orientation = new("landscape")
	}
	if s.Print.FitWide > 0 || s.Print.FitTall > 0 {
		props.FitToPage = new(true)
		layout.FitToWidth, layout.FitToHeight = &s.Print.FitWide, &s.Print.FitTall
	}
	if err := p.file.SetSheetProps(s.Name, props); err != nil {
		return err
	}
	if err := p.file.SetPageLayout(s.Name, layout); err != nil {
		return err
	}
	if err := p.setMargins(s); err != nil {
		return err
	}
	for _, row := range s.Print.Breaks {
		if err := p.file.InsertPageBreak(s.Name, Ref(row, 1)); err != nil {
			return err
		}
	}
	return p.setPrintNames(s)
}

func (p *press) setMargins(s *Sheet) error {
	side, end, foot := 0.5, 0.6, 0.3 // inches
	if err := p.file.SetPageMargins(s.Name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side,
		Top: &end, Bottom: &end, Header: &foot, Footer: &foot}); err != nil {
		return err
	}
	if s.Print.Footer == "" {
		return nil
	}
	return p.file.SetHeaderFooter(s.Name, &excelize.HeaderFooterOptions{OddFooter: s.Print.Footer})
}

func (p *press) setPrintNames(s *Sheet) error {
	if b, ok := parseBlock(s.Print.Area); ok {
		area := RangeRef(s.Name, b.first.row, b.first.col, b.last.row, b.last.col)
		if err := p.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: area, Scope: s.Name}); err != nil {
			return err
		}
	}
	if s.Print.TitleRows == 0 {
		return nil
	}
	rows := fmt.Sprintf("%s!$1:$%d", quoteSheet(s.Name), s.Print.TitleRows)
	return p.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: rows, Scope: s.Name})
}

func (p *press) setValidations(s *Sheet) error {
	for _, v := range s.Validations {
		dv := excelize.NewDataValidation(true)
		dv.SetSqref(v.Range)
		if err := v.limit(dv); err != nil {
			return fmt.Errorf("validation %s: %w", v.Range, err)
		}
		dv.ShowErrorMessage = !v.Suggest
		if v.Message != "" {
			dv.SetError(excelize.DataValidationErrorStyleStop, v.Title, v.Message)
			dv.SetInput(v.Title, v.Message)
		}
		if err := p.file.AddDataValidation(s.Name, dv); err != nil {
			return fmt.Errorf("validation %s: %w", v.Range, err)
		}
	}
	return nil
}

func (v Validation) limit(dv *excelize.DataValidation) error {
	const kind = excelize.DataValidationTypeDecimal
	switch {
	case len(v.List) > 0:
		return dv.SetDropList(v.List)
	case v.ListRef != "":
		dv.SetSqrefDropList(escaped(v.ListRef))
		return nil
	case v.Formula != "":
		return dv.SetRange(escaped(v.Formula), "", excelize.DataValidationTypeCustom, excelize.DataValidationOperatorBetween)
	case v.Max == nil:
		return dv.SetRange(number(*v.Min), "", kind, excelize.DataValidationOperatorGreaterThanOrEqual)
	case v.Min == nil:
		return dv.SetRange(number(*v.Max), "", kind, excelize.DataValidationOperatorLessThanOrEqual)
	}
	return dv.SetRange(number(*v.Min), number(*v.Max), kind, excelize.DataValidationOperatorBetween)
}

func (p *press) setConditions(s *Sheet) error {
	for _, c := range s.Conditions {
		style, err := p.file.NewConditionalStyle(c.Style.partial())
		if err != nil {
			return fmt.Errorf("condition %s: %w", c.Range, err)
		}
		rule := excelize.ConditionalFormatOptions{Type: "formula", Criteria: c.Formula, Format: &style}
		if err := p.file.SetConditionalFormat(s.Name, c.Range, []excelize.ConditionalFormatOptions{rule}); err != nil {
			return fmt.Errorf("condition %s: %w", c.Range, err)
		}
	}
	return nil
}

func (p *press) setLinks(s *Sheet) error {
	for _, l := range s.Links {
		var opts []excelize.HyperlinkOpts
		if l.Tooltip != "" {
			opts = append(opts, excelize.HyperlinkOpts{Tooltip: &l.Tooltip})
		}
		if err := p.file.SetCellHyperLink(s.Name, l.Cell, l.Target, "Location", opts...); err != nil {
			return fmt.Errorf("link %s: %w", l.Cell, err)
		}
	}
	return nil
}

// setProtection locks the sheet without a password: it guards against slips, not against the reader, who may
// select everything and change widths and heights.
func (p *press) setProtection(s *Sheet) error {
	if !s.Protected {
		return nil
	}
	return p.file.ProtectSheet(s.Name, &excelize.SheetProtectionOptions{SelectLockedCells: true, SelectUnlockedCells: true,
		FormatColumns: true, FormatRows: true})
}

// addNotes hangs the notes on their cells, in boxes that grow with the text.
func (p *press) addNotes(sheet string, cells []Placed) error {
	const width, charactersPerLine, lineHeight = 260, 40, 16 // pixels
	for _, c := range cells {
		if c.Note == "" {
			continue
		}
		note := excelize.Comment{Author: cmp.Or(p.author, "author"), Cell: Ref(c.Row, c.Col), Width: width,
			Height:    uint(lineHeight * (2 + len(c.Note)/charactersPerLine)),
			Paragraph: []excelize.RichTextRun{{Text: c.Note, Font: &excelize.Font{Family: fontFamily, Size: 9}}}}
		if err := p.file.AddComment(sheet, note); err != nil {
			return fmt.Errorf("note at %s: %w", note.Cell, err)
		}
	}
	return nil
}
