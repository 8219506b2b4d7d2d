package roadmap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// drawnChain is one machine with what a domain leaves of it.
type drawnChain struct {
	p             *instance
	again         bool
	never, always uint32
	barred        uint32
	owning        []float64 // price of a year
	charge        []float64 // price of a purchase by its year
}

func drawChain(t *rapid.T) *drawnChain {
	n := rapid.IntRange(1, 6).Draw(t, "years")
	mask := rapid.Uint32Range(0, 1<<n-1)
	d := &drawnChain{
		p: &instance{years: n, machines: make([]machine, 1)}, again: rapid.Bool().Draw(t, "again"),
		never: mask.Draw(t, "never") & mask.Draw(t, "never again"), barred: mask.Draw(t, "barred") & mask.Draw(t, "barred again"),
	}
	d.always = mask.Draw(t, "always") & mask.Draw(t, "always again") &^ d.never
	for range n {
		row := make([]float64, n+1)
		for to := range row {
			row[to] = math.Inf(1)
			if rapid.IntRange(0, 5).Draw(t, "offered") > 0 {
				row[to] = float64(rapid.IntRange(-40, 40).Draw(t, "own"))
			}
		}
		d.p.machines[0].own = append(d.p.machines[0].own, row)
		d.owning = append(d.owning, float64(rapid.IntRange(-9, 9).Draw(t, "price of a year")))
		d.charge = append(d.charge, float64(rapid.IntRange(-9, 9).Draw(t, "price of a purchase")))
	}
	return d
}

// cost is what owning in some years costs, +Inf where that may not be.
func (d *drawnChain) cost(owned uint32) float64 {
	if owned&d.never != 0 || d.always&^owned != 0 {
		return math.Inf(1)
	}
	total, runs := 0.0, 0
	for t := 0; t < d.p.years; t++ {
		if owned>>t&1 == 0 {
			continue
		}
		from := t
		total += d.charge[from]
		for ; t < d.p.years && owned>>t&1 == 1; t++ {
			total += d.owning[t]
		}
		total += d.p.machines[0].own[from][t]
		if runs++; d.barred>>from&1 == 1 || runs > 1 && !d.again {
			return math.Inf(1)
		}
	}
	return total
}

// A machine's cheapest years, and its cheapest with and without each year, are those
// among all ways to own it.
func TestTheCheapestYearsOfAMachineAreTheCheapestOfAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawChain(t)
		n := d.p.years
		least, with, without := math.Inf(1), make([]float64, n), make([]float64, n)
		for year := range n {
			with[year], without[year] = math.Inf(1), math.Inf(1)
		}
		for owned := range uint32(1) << n {
			cost := d.cost(owned)
			least = min(least, cost)
			for year := range n {
				if owned>>year&1 == 1 {
					with[year] = min(with[year], cost)
				} else {
					without[year] = min(without[year], cost)
				}
			}
		}
		of, c := &choice{again: d.again}, newChain(n)
		of.narrow(d.p.staysOf(0), d.never, d.always, d.barred)
		c.price(of, d.owning, d.charge)
		got, owned := c.best(of)
		assert.Equal(t, least, got)
		if !math.IsInf(least, 1) {
			assert.Equal(t, least, d.cost(owned), "the years %b", owned)
		}
		gotWithout, gotWith := make([]float64, n), make([]float64, n)
		c.marginals(of, gotWithout, gotWith)
		assert.Equal(t, without, gotWithout, "without each year")
		assert.Equal(t, with, gotWith, "with each year")
	})
}
