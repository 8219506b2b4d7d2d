// Package money is the one door between float64, in which analysis is done,
// and decimal.Decimal, in which money is posted.
//
// An amount passes the door rounded: first to eight decimals, which takes off
// the noise of binary arithmetic, then to the places of its currency, halves
// away from zero. A worksheet cell with ROUND(ROUND(x,8),places) gives the
// same amount.
package money
