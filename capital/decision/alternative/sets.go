package alternative

import (
	"math"
	"slices"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/work"
	"shopstint/rental"
)

// Sets is a list of sets of owned machines with what they share, so that many
// sets are priced at once: a job type costs the same in all sets that own the
// same of the machines that could do a step of it, and a machine the same in
// all that own the same of the machines that come before it.
type Sets struct {
	Owned  [][]bool // by set and candidate
	jobs   []pattern
	owners []pattern
}

// pattern is what one job type or one owned machine can tell apart of the sets.
type pattern struct {
	owned [][]bool // one set of each kind
	of    []int    // by set: its kind, -1 where the machine is not owned
}

// SetsOf finds what sets of machines share. The plan is that of the study.
//
// Source: common practice, no source.
func SetsOf(study *model.Study, plan *work.Plan, owned [][]bool) *Sets {
	sets := &Sets{Owned: owned, jobs: make([]pattern, len(study.JobTypes)), owners: make([]pattern, len(study.Machines))}
	for job := range sets.jobs {
		sets.jobs[job] = patternOf(owned, reach(study, plan.Of(job)), -1)
	}
	for m := range sets.owners {
		sets.owners[m] = patternOf(owned, rivals(study, plan, m), m)
	}
	return sets
}

// reach tells which candidates could do a step of the rows.
func reach(study *model.Study, rows []work.Row) []bool {
	could := make([]bool, len(study.Machines))
	for i := range rows {
		if rows[i].Site == work.AtStudio {
			could[rows[i].Machine] = true
		}
	}
	return could
}

// rivals tells which candidates come before machine m in a step that it could
// do, or pay before it for a fixture that they share.
func rivals(study *model.Study, plan *work.Plan, m int) []bool {
	before := make([]bool, len(study.Machines))
	for _, fixture := range study.Machines[m].Fixtures {
		for _, other := range earlierSharers(study, fixture, m) {
			before[other] = true
		}
	}
	for i := range plan.Rows {
		if plan.Rows[i].Site != work.AtStudio || plan.Rows[i].Machine != m {
			continue
		}
		for k := i - 1; k >= 0 && plan.Rows[k].Step == plan.Rows[i].Step; k-- {
			before[plan.Rows[k].Machine] = true
		}
	}
	return before
}

// patternOf sorts the sets by what they own of the machines that matter; with
// an owner, those that do not own it are left out.
func patternOf(owned [][]bool, matters []bool, owner int) pattern {
	found, kinds := pattern{of: make([]int, len(owned))}, map[string]int{}
	for s, set := range owned {
		if owner >= 0 && !set[owner] {
			found.of[s] = -1
			continue
		}
		key := make([]byte, len(set))
		for m, has := range set {
			if has && matters[m] {
				key[m] = 1
			}
		}
		kind, known := kinds[string(key)]
		if !known {
			kind = len(found.owned)
			kinds[string(key)] = kind
			found.owned = append(found.owned, set)
		}
		found.of[s] = kind
	}
	return found
}

// Pricer prices the sets again and again, for studies of one shape that differ
// in their figures. It is not for use by several goroutines at once.
type Pricer struct {
	sets    *Sets
	used    [][]bool      // by kind: which rows of the plan still do their step
	jobs    [][][]float64 // by job type and kind: present cost by year from 0
	owners  [][][]float64 // by machine and kind
	whole   [][]float64   // by set: what is not shared
	factors priceFactors
}

// priceFactors turn first-year amounts into present worth after tax, by year from 1.
type priceFactors struct{ shop, travel, labour, wear, paid []float64 }

// Pricer returns a pricer of the sets over a horizon in years.
func (s *Sets) Pricer(horizon int) *Pricer {
	p := &Pricer{sets: s, whole: columns(len(s.Owned), horizon)}
	for _, one := range s.jobs {
		p.jobs = append(p.jobs, columns(len(one.owned), horizon))
	}
	for _, one := range s.owners {
		p.owners = append(p.owners, columns(len(one.owned), horizon))
	}
	cells := columns(5, horizon-1)
	p.factors = priceFactors{cells[0], cells[1], cells[2], cells[3], cells[4]}
	return p
}

func columns(count, horizon int) [][]float64 {
	list := make([][]float64, count)
	for i := range list {
		list[i] = make([]float64, horizon+1)
	}
	return list
}

// Present fills in the present cost of every set, after tax, for a study with
// the work coming at a pace: what EvaluateAt gives for each, but for the order
// in which amounts are added.
func (p *Pricer) Present(study *model.Study, plan *work.Plan, pace Pace, costs []float64) {
	p.price(study, plan, pace)
	for s := range costs {
		costs[s] = sum(p.whole[s])
	}
	for job, one := range p.sets.jobs {
		one.add(p.jobs[job], costs)
	}
	for m, one := range p.sets.owners {
		one.add(p.owners[m], costs)
	}
}

// add adds to the cost of every set its share of what the pattern tells apart.
func (p *pattern) add(columns [][]float64, costs []float64) {
	totals := make([]float64, len(columns))
	for kind := range columns {
		totals[kind] = sum(columns[kind])
	}
	for s, kind := range p.of {
		if kind >= 0 {
			costs[s] += totals[kind]
		}
	}
}

func sum(column []float64) float64 {
	total := 0.0
	for _, amount := range column {
		total += amount
	}
	return total
}

// Years fills in what one set costs by year from 0, after tax and in present
// worth, as it was last priced.
func (p *Pricer) Years(set int, years []float64) {
	copy(years, p.whole[set])
	for job, one := range p.sets.jobs {
		addTo(years, p.jobs[job][one.of[set]])
	}
	for m, one := range p.sets.owners {
		if kind := one.of[set]; kind >= 0 {
			addTo(years, p.owners[m][kind])
		}
	}
}

func addTo(years, column []float64) {
	for t, amount := range column {
		years[t] += amount
	}
}

func (p *Pricer) price(study *model.Study, plan *work.Plan, pace Pace) {
	p.factors.fill(study)
	for _, column := range p.whole {
		clear(column)
	}
	for m, one := range p.sets.owners {
		for kind, owned := range one.owned {
			owner := ownerAt(study, plan, owned, m, pace)
			copy(p.owners[m][kind], owner.Table[capital.Present])
		}
	}
	if MembershipOffered(study) {
		p.together(study, plan, pace)
		return
	}
	for job := range p.sets.jobs {
		p.priceKinds(study, plan, pace, job)
	}
	p.inducted(study, plan)
}

// priceKinds prices one job type for every kind of set. Kinds that leave the same
// rows to do their steps cost the same: of two planers that take all its pieces
// it does not matter which is owned.
func (p *Pricer) priceKinds(study *model.Study, plan *work.Plan, pace Pace, job int) {
	span := plan.Jobs[job]
	var priced []int
	for kind, owned := range p.sets.jobs[job].owned {
		for len(p.used) <= kind {
			p.used = append(p.used, nil)
		}
		used := slices.Grow(p.used[kind][:0], len(plan.Rows))[:len(plan.Rows)]
		p.used[kind] = used
		keep(plan, owned, span, used)
		same := slices.IndexFunc(priced, func(k int) bool { return slices.Equal(p.used[k][span.First:span.End], used[span.First:span.End]) })
		if same >= 0 {
			copy(p.jobs[job][kind], p.jobs[job][priced[same]])
			continue
		}
		priced = append(priced, kind)
		rent := priceJob(study, plan, used, job, rental.Membership{}, false)
		p.factors.jobYears(&rent, pace[job], p.jobs[job][kind])
	}
}

// together prices the rented side of each set as a whole: a membership ties all
// job types of a shop together.
func (p *Pricer) together(study *model.Study, plan *work.Plan, pace Pace) {
	for _, columns := range p.jobs {
		for _, column := range columns {
			clear(column)
		}
	}
	for s, owned := range p.sets.Owned {
		rent := RentOf(study, plan, owned)
		for t, year := range rent.YearsAt(study, pace) {
			p.whole[s][t+1] = year.Sum() * p.factors.paid[t]
		}
	}
}

// inducted adds what each set pays to be let onto the shops' machines.
func (p *Pricer) inducted(study *model.Study, plan *work.Plan) {
	if !inductionDue(study) {
		return
	}
	for s, owned := range p.sets.Owned {
		var rent Rent
		rent.induct(study, plan, kept(plan, owned))
		p.whole[s][1] = rent.Induction * p.factors.paid[0]
	}
}

func (f *priceFactors) fill(study *model.Study) {
	growth := &study.Growth
	paid := 1 - float64(study.Studio.TaxRate)
	for t := range f.paid {
		paid /= 1 + float64(study.Studio.DiscountRate)
		of := func(share float64) float64 { return paid * math.Pow(1+share, float64(t)) }
		f.paid[t] = paid
		f.shop[t], f.travel[t] = of(float64(growth.Rental)), of(float64(growth.Travel))
		f.labour[t], f.wear[t] = of(float64(growth.Labour)), of(float64(growth.Consumables))
	}
}

// jobYears lays one job type out over the years.
func (f *priceFactors) jobYears(rent *JobRent, pace []float64, years []float64) {
	labour := rent.Labour + rent.Bench.Labour
	for t, more := range pace[:len(f.paid)] {
		years[t+1] = more * (rent.Shop*f.shop[t] + rent.Travel*f.travel[t] + labour*f.labour[t] + rent.Bench.Wear*f.wear[t])
	}
}
