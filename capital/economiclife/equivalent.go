// Package economiclife finds the age at which a machine is best replaced:
// the one whose equivalent annual cost is least.
package economiclife

import "math"

// EquivalentAnnualCosts returns, for each life of 1..n years, the equal
// year-end cost of buying at price, paying operating[k-1] at the end of each
// year k and selling for marketValue[life-1] at the end of the life, at rate
// a year (above -1). Amounts are costs: a market value lowers them, a
// negative operating amount is income. n is the shorter of the two lists.
//
// Source: C. S. Park, Contemporary Engineering Economics, economic service
// life (from memory, page not seen).
func EquivalentAnnualCosts(rate, price float64, operating, marketValue []float64) []float64 {
	costs := make([]float64, min(len(operating), len(marketValue)))
	paid, annuity, discount := price, 0.0, 1.0
	for i := range costs {
		discount /= 1 + rate
		annuity += discount
		paid += operating[i] * discount
		costs[i] = (paid - marketValue[i]*discount) / annuity
	}
	return costs
}

// Best returns the life in years, 1 or more, of the least cost, and that
// cost. It looks at every life, since an overhaul can lift one year's cost
// and the next years still pay it back; among equals the earliest wins.
// Costs that are not numbers are passed over. Without any cost the life is 0
// and the cost is not a number.
//
// Source: C. S. Park, Contemporary Engineering Economics, economic service
// life (from memory, page not seen).
func Best(costs []float64) (life int, cost float64) {
	cost = math.NaN()
	for i, candidate := range costs {
		if math.IsNaN(candidate) || candidate >= cost {
			continue
		}
		life, cost = i+1, candidate
	}
	return life, cost
}
