// Package quantity holds the measured things of the trade as named float64
// types, and reads and writes them with their units.
//
// Inside, physical quantities are in SI units and money rates are per the unit
// in their name, so two quantities of different kinds cannot be added by
// mistake. Units exist only at the edges: Parse reads what a person writes
// ("1 3/4 in", "90 min", "75 per 30 min"), Format and Display write it back
// for the metric or the inch shop.
//
// Source: A. Thompson and B. N. Taylor, Guide for the Use of the International
// System of Units (SI), NIST Special Publication 811, 2008, appendix B.8.
package quantity
