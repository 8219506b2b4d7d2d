package booking

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// daysOfWeek are the words for the days, by time.Weekday.
var daysOfWeek = [...]string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}

func open(shop *model.Shop, day int) bool {
	return slices.Contains(shop.OpenDays, daysOfWeek[quantity.Weekday(day)])
}

// window is the first and the last open day of a dated job. Closed days at its
// ends fall away: a day on which the shop is open for all jobs of a visit is then
// the latest first day of any of them.
func window(study *model.Study, today quantity.Date, shop, index int) (first, last int, problems problem.List) {
	dated, at := &study.DatedJobs[index], &study.Shops[shop]
	first, last = dated.Ready.Day(), dated.Due.Day()
	booked := math.MinInt
	if today != "" {
		booked = today.Day() + int(at.LeadTime)
		first = max(first, booked)
	}
	for first <= last && !open(at, first) {
		first++
	}
	for last >= first && !open(at, last) {
		last--
	}
	path := "dated_jobs." + dated.Key + ".due"
	switch {
	case first <= last:
	case dated.Due.Day() < booked:
		what := fmt.Sprintf("%s is %s, and the first day that can still be booked is %s (today %s, lead time %d days)", path, dated.Due, quantity.DateOf(booked), today, int(at.LeadTime))
		problems = problem.List{{Path: path, What: what, Right: "agree on a later date, or take the job out"}}
	default:
		from := max(dated.Ready.Day(), booked)
		what := fmt.Sprintf("%s is %s, and %s is not open on any day from %s on till then", path, dated.Due, at.Key, quantity.DateOf(from))
		problems = problem.List{{Path: path, What: what, Right: "it is open on " + strings.Join(at.OpenDays, ", ") + "; give dates with such a day between them"}}
	}
	return first, last, problems
}

// tooLong lists the pieces of a job type that the vehicle does not take.
func tooLong(study *model.Study, errand *alternative.Errand) problem.List {
	kind, vehicle := &study.JobTypes[errand.Job], &study.Studio.Vehicle
	system, _ := quantity.ParseSystem(study.Units) // of a study that was read
	var problems problem.List
	for _, at := range errand.Pieces {
		piece := &kind.Pieces[at]
		path := "job_types." + kind.Key + ".pieces." + piece.Key
		refuse := func(key, size, takes, limit string) {
			problems = append(problems, problem.Problem{
				Path: path + "." + key, What: path + " " + size + ", and the vehicle takes " + takes,
				Right: "give the studio.vehicle." + limit + " of one that takes it, or take the dated jobs of " + kind.Key + " out",
			})
		}
		if beyond(float64(piece.Length), float64(vehicle.BedLength)) {
			length := func(x quantity.Length) string { return quantity.Brief(quantity.DimLength, float64(x), system) }
			refuse("length", "is "+length(piece.Length)+" long", length(vehicle.BedLength), "bed_length")
		}
		if mass := work.PieceMass(piece, work.MaterialOf(study, errand.Job)); beyond(float64(mass), float64(vehicle.Payload)) {
			weight := func(x quantity.Mass) string { return quantity.Brief(quantity.DimMass, float64(x), system) }
			refuse("length", "weighs "+weight(mass), weight(vehicle.Payload), "payload")
		}
	}
	return problems
}

// beyond compares to the nanometre or microgram, so that 10 ft 6 in and 126 in
// are the same.
func beyond(size, limit float64) bool { return math.Round((size-limit)*1e9) > 0 }
