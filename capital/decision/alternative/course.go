package alternative

import (
	"slices"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/work"
)

// Stay is one machine owned from the end of year From (0: today) to the end of
// year To, with what owning it costs but for the fixtures that it shares.
type Stay struct {
	From, To int
	Ownership
}

// Course is a set of owned machines that changes over the years, on the
// study's work.
type Course struct {
	Rented   []Year        // the rented and bench side by year, before tax; element 0 is year 1
	Rents    []*Rent       // by year: the rent beside that year's machines, at first-year amounts
	Stays    []Stay        // by machine, then by time
	Fixtures []FixtureStay // those that several machines of the study name: by fixture, then by time
	Present  float64       // of all that
}

// EvaluateCourse prices a course: owned[t][m] tells whether machine m is owned
// in year t+1, for every year of the horizon. A membership is judged for each
// set by the first year's visits, as for a set that never changes; an induction
// falls due in the first year that uses its machine.
//
// A fixture that several machines of the study name is bought with the first of
// them, stays as long as any is owned without a break, and is then sold for
// good. It is paid and written off with the machine that Evaluate would name:
// the first in study order of those owned in the first year. When that one is
// sold before the others, the fixture stays in the books as if it were not: it
// goes on by that machine's tax method and years kept to its own sale.
//
// A course that never changes costs what Evaluate says.
//
// Source: as Evaluate, summed year by year.
func EvaluateCourse(study *model.Study, plan *work.Plan, owned [][]bool) Course {
	return EvaluateCourseAt(study, plan, owned, SteadyPace(study, len(owned)))
}

// EvaluateCourseAt is EvaluateCourse where the work comes at a pace of its own.
func EvaluateCourseAt(study *model.Study, plan *work.Plan, owned [][]bool, pace Pace) Course {
	var course Course
	factor, keep := 1.0, 1-float64(study.Studio.TaxRate)
	var rent *Rent
	var inducted []Place
	for t := range owned {
		if t == 0 || !slices.Equal(owned[t], owned[t-1]) {
			priced := RentOf(study, plan, owned[t])
			rent = &priced
		}
		year := rent.year(study, pace, t)
		for _, at := range Inductions(study, plan, owned[t]) {
			if !slices.Contains(inducted, at) {
				inducted = append(inducted, at)
				fee, own := inductionIn(study, at, t)
				year.Induction, year.InductionOwn = year.Induction+fee+own, year.InductionOwn+own
			}
		}
		factor /= 1 + float64(study.Studio.DiscountRate)
		course.Rented, course.Rents = append(course.Rented, year), append(course.Rents, rent)
		course.Present += year.Sum() * factor * keep
	}
	for m := range study.Machines {
		course.addStays(study, plan, owned, pace, m)
	}
	for f := range study.Fixtures {
		course.addFixture(study, plan, owned, pace, f)
	}
	return course
}

// addStays adds each unbroken run of years in which machine m is owned.
func (c *Course) addStays(study *model.Study, plan *work.Plan, owned [][]bool, pace Pace, m int) {
	machine := Unshared(study, m)
	for from := 0; from < len(owned); from++ {
		if !owned[from][m] {
			continue
		}
		to := from
		for to < len(owned) && owned[to][m] {
			to++
		}
		profile, uses := profileBetween(study, plan, owned, pace, m, from, to)
		stay := Stay{From: from, To: to, Ownership: Ownership{Machine: m, Uses: uses, Profile: profile}}
		stay.Ownership.Ownership = capital.OwnBetween(study, &machine, profile, from, to)
		c.Stays = append(c.Stays, stay)
		c.Present += stay.Present
		from = to
	}
}

// profileBetween is the work of machine m in the years from..to-1, each beside
// the machines owned in it, and its uses in the first of them.
func profileBetween(study *model.Study, plan *work.Plan, owned [][]bool, pace Pace, m, from, to int) (capital.Profile, []JobUse) {
	uses := UsesOf(study, plan, owned[from], m)
	profile := profileAt(study, uses, pace, len(owned))
	for t := from + 1; t < to; t++ {
		if slices.Equal(owned[t], owned[t-1]) {
			continue
		}
		later := profileAt(study, UsesOf(study, plan, owned[t], m), pace, len(owned))
		copy(profile.Hours[t:], later.Hours[t:])
		copy(profile.OwnHours[t:], later.OwnHours[t:])
		copy(profile.Wear[t:], later.Wear[t:])
		copy(profile.Abrasives[t:], later.Abrasives[t:])
	}
	return profile, uses
}
