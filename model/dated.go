package model

import "shopstint/model/quantity"

// DatedJob is an order with its dates: a visit to the shop must fall between
// them.
type DatedJob struct {
	Key     string         `key:"-"`
	Name    string         `key:"name" about:"whose it is, or what it is called"`
	JobType string         `key:"job_type" need:"yes" ref:"job_types" fixed:"yes" about:"the job type that it is"`
	Ready   quantity.Date  `key:"ready" need:"yes" fixed:"yes" about:"first day on which it can be machined"`
	Due     quantity.Date  `key:"due" need:"yes" fixed:"yes" about:"last day on which it can be machined"`
	Count   quantity.Count `key:"count" least:"0" most:"50" whole:"yes" fixed:"yes" about:"how many of them (0: one)"`
}

// MostDated is how many dated jobs a study may have, counted one by one.
const MostDated = 1000

// Number is how many jobs it is: one when it does not say.
func (d DatedJob) Number() int { return max(1, int(d.Count)) }

func (d DatedJob) key() string { return d.Key }
