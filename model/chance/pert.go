package chance

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/mathext"
)

// cells is into how many cells a PERT distribution is cut. Its quantiles are
// then within five ten-thousandths of the range, for all but the outermost
// hundred-thousandths; a test holds them to it.
const cells = 64

// unitPERT is a PERT distribution from 0 to 1 as a table: exact probabilities
// and densities at evenly spaced values, the density a straight line between,
// and in the first and the last cell a power, as it is at the very ends.
type unitPERT struct {
	a, b    float64 // of the beta distribution
	below   [cells + 1]float64
	density [cells + 1]float64
	first   [cells]int // the cell in which probability i/cells is reached
}

type pert struct {
	low, width float64
	unit       *unitPERT
}

// pert returns the distribution of least, likely and greatest value: a beta
// distribution with mean (least + 4·likely + greatest)/6. Ranges whose likely
// value is at the same share of their width have one table.
func (t *Tables) pert(r Range) pert {
	mode := (r.Value - r.Low) / (r.High - r.Low)
	unit := t.perts[mode]
	if unit == nil {
		unit = newUnitPERT(mode)
		t.perts[mode] = unit
	}
	return pert{r.Low, r.High - r.Low, unit}
}

func newUnitPERT(mode float64) *unitPERT {
	a, b := 1+4*mode, 5-4*mode
	d := &unitPERT{a: a, b: b}
	for i := range d.below {
		x := float64(i) / cells
		d.below[i] = mathext.RegIncBeta(a, b, x)
		d.density[i] = math.Pow(x, a-1) * math.Pow(1-x, b-1)
	}
	for i := range d.first {
		d.first[i] = max(0, sort.SearchFloat64s(d.below[:], float64(i)/cells)-1)
	}
	return d
}

func (d pert) Quantile(u float64) float64 { return d.low + d.width*d.unit.quantile(u) }

// quantile inverts the table: within a cell the probability is a quadratic.
func (d *unitPERT) quantile(u float64) float64 {
	i := d.first[min(int(u*cells), cells-1)]
	for i < cells-1 && d.below[i+1] < u {
		i++
	}
	share := (u - d.below[i]) / (d.below[i+1] - d.below[i])
	switch i {
	case 0:
		return math.Pow(share, 1/d.a) / cells
	case cells - 1:
		return 1 - math.Pow(1-share, 1/d.b)/cells
	}
	left, right := d.density[i], d.density[i+1]
	root := math.Sqrt(left*left + (right-left)*(right+left)*share)
	return (float64(i) + share*(left+right)/(left+root)) / cells
}
