// Package change says how long to run an edge before it is changed: until the
// next metre costs more than a metre does on the average, changes included.
package change

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/integrate/quad"
)

// Life says how an edge ends by damage that comes before it is changed: the
// chance that none has come after a run, and the density of damage at a run.
type Life interface {
	Survival(run float64) float64
	Prob(run float64) float64
}

// Sudden is a life with damage at a rate by the unit of run that knows nothing of
// how long the edge has run: the chance of none is exp(−rate·run). Sudden(0) ends
// by no damage.
type Sudden float64

// Survival returns the chance that no damage has come after a run.
func (s Sudden) Survival(run float64) float64 { return math.Exp(-float64(s) * run) }

// Prob returns the density of damage at a run, by the unit of run.
func (s Sudden) Prob(run float64) float64 { return float64(s) * s.Survival(run) }

// Costs are what an edge costs on its way, in money and units of run.
type Costs struct {
	Change float64 // a change, whatever the reason
	Damage float64 // what a change costs more when damage is the reason
	Steady float64 // each unit of run with a fresh edge
	Rise   float64 // by how much each unit of run makes the next one dearer
}

// Rate returns the cost by the unit of run when the edge is changed after a run,
// or when damage comes first; a run of 0 is for changes that cost nothing. After +Inf it is changed by sudden damage only.
//
// Source: Barlow and Hunter, Optimum preventive maintenance policies, Operations
// Research 8 (1960), policy I, with an operating cost that rises with use as in
// Jardine and Tsang, Maintenance, Replacement, and Reliability.
func Rate(costs Costs, life Life, run float64) float64 {
	if run == 0 {
		return costs.Steady
	}
	alive, used := lived(life, run)
	damaged := 1 - life.Survival(run)
	return (costs.Change+costs.Damage*damaged+costs.Rise*used)/alive + costs.Steady
}

// points is how many points an integral is taken from: as many as keep it exact
// to the last digits until all but one edge in a billion are damaged.
const points = 64

// gauss holds the points and weights of Gauss and Legendre between 0 and 1.
var gauss = sync.OnceValue(func() (table struct{ at, weight [points]float64 }) {
	quad.Legendre{}.FixedLocations(table.at[:], table.weight[:], 0, 1)
	return table
})

// lived returns the mean run of an edge that is changed after a run, and the
// mean of the age at each unit of it, added up.
func lived(life Life, run float64) (alive, used float64) {
	if sudden, ok := life.(Sudden); ok && math.IsInf(run, 1) {
		return 1 / float64(sudden), 1 / float64(sudden*sudden)
	}
	table := gauss()
	for i, share := range table.at {
		age := share * run
		still := table.weight[i] * life.Survival(age)
		alive += still
		used += still * age
	}
	return alive * run, used * run
}

// hopeless is a chance of reaching a run so small that no edge is run that long.
const hopeless = 1e-9

// endless is a run that no edge comes to, in any unit.
const endless = 1e30

// Best returns the run after which a change costs least by the unit of run; +Inf
// when all but one edge in a billion are damaged before, so that it is best to run
// until damage comes; and 0 when a change costs nothing.
//
// Source: as Rate; the run at which the next unit costs as much as the mean.
func Best(costs Costs, life Life) float64 {
	if costs.Change <= 0 { // and so the mean is least at once
		return 0
	}
	low, high := 1.0, 1.0
	for early(costs, life, high) {
		if low = high; life.Survival(low) < hopeless || high > endless {
			return math.Inf(1)
		}
		high *= 2
	}
	if low == high { // the least mean is nearer
		for low /= 2; !early(costs, life, low); low /= 2 {
			high = low
		}
	}
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			if life.Survival(middle) < hopeless {
				return math.Inf(1)
			}
			return middle
		}
		if early(costs, life, middle) {
			low = middle
		} else {
			high = middle
		}
	}
}

// early tells whether the unit after a run still costs less than the mean so far.
// Where no edge is left, it is too late.
func early(costs Costs, life Life, run float64) bool {
	survival := life.Survival(run)
	if survival <= 0 {
		return false
	}
	alive, used := lived(life, run)
	hazard := life.Prob(run) / survival
	return (costs.Rise*run+costs.Damage*hazard)*alive < costs.Change+costs.Damage*(1-survival)+costs.Rise*used
}
