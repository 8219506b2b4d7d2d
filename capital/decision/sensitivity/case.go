package sensitivity

import (
	"slices"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// Outcome is one machine's answer in a case. Present amounts are after tax,
// over the horizon. Of the rented sides, only the job types are priced that
// owning the machine can change.
type Outcome struct {
	Rented, Beside alternative.Rent
	Owner          capital.Ownership
	Deducted       []float64          // share of its basis that the tax method alone has taken of the machine at work, by the end of each year
	Years          []alternative.Year // what is saved, before tax; element 0 is year 1
	Saved, Owning  float64            // present
	Difference     float64            // Saved − Owning
	SavedAnnual    float64            // as equal amounts each year, at the case's discount rate
	OwningAnnual   float64
	Annual         float64
	Verdict        single.Verdict
}

// Setting reckons cases of one machine. It keeps a study of its own, which each
// case overwrites: one goroutine at a time.
type Setting struct {
	Planned Case

	machine int
	study   *model.Study
	plan    *work.Plan
	wear    []float64 // of the plan's rows, as planned
	rented  *alternative.Rent
	beside  *alternative.Rent
	reached []bool
	fields  map[Lever]*float64
	scaled  [Levers][]*float64
	was     [Levers][]float64 // what scaled holds as planned
	candid  model.Machine     // the machine as planned
}

// New prepares the cases of one machine. Rented and beside are the plan's own
// rents, whose memberships every case keeps.
func New(study *model.Study, plan *work.Plan, rented, beside *alternative.Rent, machine int) *Setting {
	shop := ShopOf(study, plan, machine)
	twin, rows := study.Clone(), *plan
	rows.Rows = slices.Clone(plan.Rows)
	s := &Setting{
		machine: machine, study: twin, plan: &rows, rented: rented, beside: beside, reached: reach(study, plan, machine),
		Planned: planned(study, machine, shop), fields: fields(twin, machine, shop), scaled: scaled(twin, machine), candid: study.Machines[machine],
	}
	for i := range plan.Rows {
		s.wear = append(s.wear, plan.Rows[i].Wear)
	}
	for l, list := range s.scaled {
		for _, field := range list {
			s.was[l] = append(s.was[l], *field)
		}
	}
	return s
}

// Reckon answers for one case.
func (s *Setting) Reckon(c Case) Outcome {
	s.move(c)
	none, owned := make([]bool, len(s.study.Machines)), make([]bool, len(s.study.Machines))
	owned[s.machine] = true
	out := Outcome{
		Rented: alternative.RentLike(s.study, s.plan, s.rented, none, s.reached),
		Beside: alternative.RentLike(s.study, s.plan, s.beside, owned, s.reached),
	}
	out.Owner, out.Deducted = s.own(owned, c[Resale])
	out.Years = savedYears(out.Rented.Years(s.study), out.Beside.Years(s.study))
	rate, horizon := float64(s.study.Studio.DiscountRate), float64(s.study.Studio.Horizon)
	out.Saved = out.Rented.Present(s.study) - out.Beside.Present(s.study)
	out.Owning = out.Owner.Present
	out.Difference = out.Saved - out.Owning
	out.SavedAnnual = timevalue.EquivalentAnnual(rate, horizon, out.Saved)
	out.OwningAnnual = timevalue.EquivalentAnnual(rate, horizon, out.Owning)
	out.Annual = timevalue.EquivalentAnnual(rate, horizon, out.Difference)
	out.Verdict, _ = single.Judge(s.study, out.Saved, out.Owning)
	return out
}

// move writes a case into the setting's own study.
func (s *Setting) move(c Case) {
	for l, field := range s.fields {
		*field = c[l]
	}
	for l, list := range s.scaled {
		for i, field := range list {
			*field = s.was[l][i] * c[l]
		}
	}
	for i, wear := range s.wear {
		s.plan.Rows[i].Wear = wear * c[Consumables]
	}
}

// savedYears is one side less the other, line by line.
func savedYears(rented, beside []alternative.Year) []alternative.Year {
	for t := range rented {
		y, less := &rented[t], &beside[t]
		y.Shop -= less.Shop
		y.Travel -= less.Travel
		y.Labour -= less.Labour
		y.BenchLabour -= less.BenchLabour
		y.BenchWear -= less.BenchWear
		y.Fee -= less.Fee
		y.Induction -= less.Induction
	}
	return rented
}

// PresentOf is the present worth after tax of a part of what is saved.
func (o *Outcome) PresentOf(tax float64, part func(alternative.Year) float64) float64 {
	total := 0.0
	for t, year := range o.Years {
		total += part(year) * o.Owner.Table[capital.Discount][t+1]
	}
	return total * (1 - tax)
}

// own reckons owning the machine, and what its tax method has deducted by each
// year. Resale other than planned is a table of the planned shares of value,
// times as much.
func (s *Setting) own(owned []bool, resale float64) (capital.Ownership, []float64) {
	uses := alternative.UsesOf(s.study, s.plan, owned, s.machine)
	years := int(s.study.Studio.Horizon)
	profile := alternative.ProfileOf(s.study, uses, years)
	machine := &s.study.Machines[s.machine]
	machine.Resale, machine.ValueTable = s.candid.Resale, s.candid.ValueTable
	if resale != 1 {
		machine.ValueTable = resaleTable(machine, years, profile.Hours[0], resale)
		machine.Resale = model.ResaleTable
	}
	owner := capital.Own(s.study, machine, profile)
	return owner, deducted(machine, owner.Table[capital.Age], profile.Hours)
}

// deducted adds the tax method's shares up, from each purchase on.
func deducted(machine *model.Machine, age, hours []float64) []float64 {
	shares := make([]float64, len(age))
	var schedule []float64
	for t := 1; t < len(age); t++ {
		if age[t] == 1 {
			schedule = capital.Schedule(machine, hours[t-1:])
		}
		for _, share := range schedule[:min(int(age[t]), len(schedule))] {
			shares[t] += share
		}
	}
	return shares
}

func resaleTable(machine *model.Machine, years int, hours, times float64) []quantity.Share {
	table := make([]quantity.Share, years)
	for age := range table {
		table[age] = quantity.Share(times * capital.ValueShare(machine, float64(age+1), hours))
	}
	return table
}
