package grid

import (
	"fmt"
	"io"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// bigBook has 12 sheets, 6,000 formulas, 6,000 constants, 400 names and 8 charts: the size of a real workbook.
func bigBook() *Book {
	b := &Book{Title: "Benchmark", Author: "grid", Created: time.Date(2025, 3, 1, 8, 0, 0, 0, time.UTC)}
	for i := range 12 {
		b.bigSheet(i)
	}
	for i := range 400 {
		b.Names = append(b.Names, Name{Name: fmt.Sprintf("given_%03d", i), Ref: SheetRef("Page 1", 2+i, 1), Comment: "a name"})
	}
	return b
}

func (b *Book) bigSheet(i int) {
	const rows, pairs = 125, 4
	s := b.Add(fmt.Sprintf("Page %d", i+1))
	s.Columns, s.Freeze, s.Protected = []float64{14, 14, 14, 14, 14, 14, 14, 14}, "B2", true
	s.Print = Print{Landscape: true, FitWide: 1, TitleRows: 1, Footer: "&CPage &P of &N"}
	for row := 2; row < 2+rows; row++ {
		for pair := range pairs {
			x := float64(row*pair) / 7
			s.Set(row, 2*pair+1, Cell{Value: x, Style: Style{NumberFormat: "#,##0.00", Unlocked: true, Fill: "FFF8E1", Size: float64(9 + pair)}})
			s.Set(row, 2*pair+2, Cell{Formula: "ROUND(ROUND(" + Ref(row, 2*pair+1) + "*2.5,8),2)+IF(given_001>0,0,0)", Value: x * 2.5, Style: Style{NumberFormat: "0.0%", Border: BorderBox}})
		}
	}
	for k := 0; i < 4 && k < 2; k++ {
		s.Charts = append(s.Charts, Chart{Kind: Scatter, Title: "Curve", Cell: Ref(2+20*k, 10), Width: 620, Height: 340, AltText: "a curve",
			Series: []Series{{Name: "one", Categories: RangeRef(s.Name, 2, 3, 60, 3), Values: RangeRef(s.Name, 2, 4, 60, 4), Color: "35506B"}}})
	}
}

func BenchmarkWrite(b *testing.B) {
	book := bigBook()
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, book.Write(io.Discard))
	}
}
