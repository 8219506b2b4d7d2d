package grid

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"github.com/xuri/excelize/v2"
)

// Write writes the book as one .xlsx. The same book gives the same bytes. It does not change the book.
//
// It refuses, with the place: a book without sheets, sheet names and defined names that the format does not take,
// a cell given twice or outside the sheet, a constant that is NaN or infinite, text that does not fit, references
// to a sheet that is not there, colours, sizes and limits out of range. Nothing is cut or replaced silently.
func (b *Book) Write(w io.Writer) error {
	if err := b.check(); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	p, err := b.newPress()
	if err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	p.file.SetZipWriter(newCanonical(p.own, p.bodies))
	if err := p.file.Write(w); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	return p.file.Close()
}

// press holds one file in the making: what excelize makes, and the parts and sheet bodies made here.
type press struct {
	file   *excelize.File
	styles *styleBook
	values *values
	own    map[string][]byte // whole parts by name
	bodies map[string]*body  // sheetData by the name of the sheet's part
	author string
	charts int
	drawn  int // sheets with charts
}

func (b *Book) newPress() (*press, error) {
	f := excelize.NewFile()
	p := &press{file: f, styles: newStyleBook(f), author: b.Author, own: map[string][]byte{}, bodies: map[string]*body{},
		values: &values{sheets: map[string][]Placed{}}}
	if err := b.setProperties(f); err != nil {
		return nil, err
	}
	if err := p.addSheets(b.Sheets); err != nil {
		return nil, err
	}
	var bodies sync.WaitGroup
	defer bodies.Wait()
	for i, s := range b.Sheets {
		if err := p.startBody(i, s, &bodies); err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.Name, err)
		}
	}
	for _, s := range b.Sheets {
		if err := p.setSheet(s); err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.Name, err)
		}
	}
	return p, p.setNames(b.Names)
}

// setNames gives the first name to excelize and puts the others, which are
// checked to be unlike, beside it: it compares each with all before it.
func (p *press) setNames(names []Name) error {
	if len(names) == 0 {
		return nil
	}
	first := names[0]
	if err := p.file.SetDefinedName(&excelize.DefinedName{Name: first.Name, RefersTo: first.Ref, Comment: first.Comment}); err != nil {
		return fmt.Errorf("name %q: %w", first.Name, err)
	}
	list := &p.file.WorkBook.DefinedNames.DefinedName
	one := (*list)[len(*list)-1]
	for _, n := range names[1:] {
		one.Name, one.Data, one.Comment = n.Name, n.Ref, n.Comment
		*list = append(*list, one)
	}
	return nil
}

func (b *Book) setProperties(f *excelize.File) error {
	made := b.Created.UTC().Format(time.RFC3339)
	if err := f.SetDocProps(&excelize.DocProperties{Title: b.Title, Subject: b.Subject, Creator: b.Author,
		LastModifiedBy: b.Author, Created: made, Modified: made, Language: "en"}); err != nil {
		return err
	}
	if err := f.SetAppProps(&excelize.AppProperties{Application: b.Author}); err != nil {
		return err
	}
	return f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: new(true)})
}

// addSheets makes every sheet before any is filled, so that names and print areas find theirs.
func (p *press) addSheets(sheets []*Sheet) error {
	for i, s := range sheets {
		if i == 0 {
			if err := p.file.SetSheetName("Sheet1", s.Name); err != nil {
				return err
			}
		} else if _, err := p.file.NewSheet(s.Name); err != nil {
			return err
		}
		p.values.sheets[strings.ToLower(s.Name)] = s.ordered()
	}
	return nil
}

// startBody numbers the styles of sheet i in the order of its cells and leaves
// the writing of its cells to another processor.
func (p *press) startBody(i int, s *Sheet, bodies *sync.WaitGroup) error {
	cells := p.values.sheets[strings.ToLower(s.Name)]
	styles := make([]int, len(cells))
	for k := range cells {
		no, err := p.styles.number(&cells[k].Style)
		if err != nil {
			return err
		}
		styles[k] = no
	}
	body := &body{}
	p.bodies[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)] = body
	bodies.Go(func() { body.data = sheetData(cells, s.Heights, styles) })
	return nil
}

// body is the sheetData of one sheet, once it is written.
type body struct{ data []byte }

// setSheet sets everything around the cells of a sheet.
func (p *press) setSheet(s *Sheet) error {
	cells := p.values.sheets[strings.ToLower(s.Name)]
	if last, ok := extent(cells); ok {
		if err := p.file.SetSheetDimension(s.Name, "A1:"+Ref(last.row, last.col)); err != nil {
			return err
		}
	}
	steps := []func(*Sheet) error{p.setColumns, p.setView, p.setPage, p.setValidations, p.setConditions,
		p.setLinks, p.setProtection, p.addCharts}
	for _, step := range steps {
		if err := step(s); err != nil {
			return err
		}
	}
	return p.addNotes(s.Name, cells)
}

// extent finds the last row and the last column in use.
func extent(cells []Placed) (last place, ok bool) {
	for _, c := range cells {
		last.row, last.col = max(last.row, c.Row), max(last.col, c.Col)
	}
	return last, len(cells) > 0
}

func (p *press) setColumns(s *Sheet) error {
	if err := p.openColumns(s); err != nil {
		return err
	}
	for first := 0; first < len(s.Columns); {
		width, end := s.Columns[first], first+1
		for end < len(s.Columns) && s.Columns[end] == width {
			end++
		}
		if width != 0 {
			if err := p.file.SetColWidth(s.Name, ColumnName(first+1), ColumnName(end), width); err != nil {
				return err
			}
		}
		first = end
	}
	return nil
}

func (p *press) setView(s *Sheet) error {
	zoom := float64(cmp.Or(s.Zoom, 100))
	if err := p.file.SetSheetView(s.Name, 0, &excelize.ViewOptions{ShowGridLines: &s.GridLines, ZoomScale: &zoom}); err != nil {
		return err
	}
	at, ok := parseCell(s.Freeze)
	if !ok || at == (place{1, 1}) {
		return nil
	}
	pane := "bottomRight"
	switch {
	case at.col == 1:
		pane = "bottomLeft"
	case at.row == 1:
		pane = "topRight"
	}
	return p.file.SetPanes(s.Name, &excelize.Panes{Freeze: true, XSplit: at.col - 1, YSplit: at.row - 1,
		TopLeftCell: Ref(at.row, at.col), ActivePane: pane})
}

// openColumns leaves the empty cells of all columns in use open.
func (p *press) openColumns(s *Sheet) error {
	last, ok := extent(p.values.sheets[strings.ToLower(s.Name)])
	if !s.Open || !ok {
		return nil
	}
	open, err := p.styles.number(&Style{Unlocked: true})
	if err != nil {
		return err
	}
	return p.file.SetColStyle(s.Name, "A:"+ColumnName(last.col), open)
}

// addCharts registers each chart with excelize, which makes the relations and content types, and replaces the
// charts and their anchors by its own: excelize has no x unit, no name of a series as plain text, empty caches, and
// anchors that stretch with the rows.
func (p *press) addCharts(s *Sheet) error {
	if len(s.Charts) == 0 {
		return nil
	}
	for _, c := range s.Charts {
		if err := p.file.AddChart(s.Name, c.Cell, &excelize.Chart{Type: excelize.Scatter}); err != nil {
			return fmt.Errorf("chart %q: %w", c.Title, err)
		}
		p.charts++
		p.own[fmt.Sprintf("xl/charts/chart%d.xml", p.charts)] = chartXML(c, p.values)
	}
	p.drawn++
	p.own[fmt.Sprintf("xl/drawings/drawing%d.xml", p.drawn)] = drawingXML(s.Charts)
	return nil
}
