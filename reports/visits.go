package reports

import (
	"fmt"
	"slices"
	"strings"

	"shopstint/capital/decision/booking"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/rental"
	"shopstint/rental/visitplan"
)

// VisitPlan is what is said about planned visits. Amounts are in Currency, before
// tax, at first-year prices.
type VisitPlan struct {
	Title    string
	Currency string // ISO 4217
	Today    string // ISO 8601, "" without

	Jobs          int // that ride to a shop
	Cost, Bound   float64
	Gap           float64 // how far Cost may be above the least, as a share
	Alone         float64 // with a visit for every job
	DueDates      float64 // with a visit on every due date
	DueVisits     int
	CostInWords   string
	SavedInWords  string
	ProofsInWords []string // one a shop
	HomeInWords   string   // "" when every job rides
	Shops         []ShopPlan
	Visits        []PlannedVisit
	Home          []VisitJob // have no work at a shop
	Caution       string
}

// ShopPlan is how the visits to one shop were found.
type ShopPlan struct {
	Key, Name   string
	Method      string // consecutive, searched or best_found
	Cost, Bound float64
	Gap         float64
}

// PlannedVisit is one visit. Dates are as ISO 8601 writes them, masses in kg,
// times in minutes.
type PlannedVisit struct {
	Date, Weekday     string
	LastDay, BookBy   string
	Shop, ShopName    string
	Jobs              []VisitJob
	Minutes, Paid     float64 // on the shop's clock; charged, where it was bought by the block
	By                string  // block, half day or day
	Away              float64 // from leaving the studio to being back
	Invoice           float64
	Travel, Labour    float64
	Total             float64
	Load, Heaviest    float64
	RoundTrips        float64
	People, Helpers   float64
	Bring             []string
	Heading, Deadline string // in words
	Clock, Money      string
	BringInWords      string
	Lifting           string
}

// VisitJob is a dated job aboard, or as many of it as are.
type VisitJob struct {
	Key, Name    string
	JobType      string
	JobTypeName  string
	Count, Of    int
	InWords      string
	Ready, DueBy string
}

// How the visits to a shop were found, as the JSON says it.
const (
	MethodConsecutive = "consecutive"
	MethodSearched    = "searched"
	MethodBestFound   = "best_found"
)

// PlanVisits words planned visits.
func PlanVisits(plan *booking.Plan, numbers Numbers) VisitPlan {
	w := visitWording{wording: studyWording(plan.Study, numbers), plan: plan}
	said := VisitPlan{
		Title: w.title(), Currency: w.study.Money.Code(), Today: string(plan.Today), Jobs: plan.Jobs,
		Cost: plan.Cost, Bound: plan.Bound, Gap: gapOf(plan.Cost, plan.Bound),
		Alone: plan.Alone, DueDates: plan.DueDates, DueVisits: plan.DueVisits,
		CostInWords: w.cost(), SavedInWords: w.saved(), HomeInWords: w.home(), Caution: VisitCaution,
	}
	for i := range plan.Shops {
		said.Shops = append(said.Shops, w.shop(&plan.Shops[i]))
		said.ProofsInWords = append(said.ProofsInWords, w.proof(&plan.Shops[i]))
	}
	for i := range plan.Visits {
		said.Visits = append(said.Visits, w.visit(&plan.Visits[i]))
	}
	for _, at := range plan.Home {
		said.Home = append(said.Home, w.job(booking.Aboard{Dated: at, Count: w.study.DatedJobs[at].Number()}))
	}
	return said
}

func gapOf(cost, bound float64) float64 {
	found := visitplan.Plan{Cost: cost, Bound: bound}
	return found.Gap()
}

// visitWording words one plan.
type visitWording struct {
	wording
	plan *booking.Plan
}

func (w visitWording) cost() string {
	if len(w.plan.Visits) == 0 {
		return "no visit is needed"
	}
	return fmt.Sprintf("%s on %s, from %s to %s: %s %s in all, before tax: invoices, travel and own time",
		w.counted(float64(w.plan.Jobs), "job"), w.counted(float64(len(w.plan.Visits)), "visit"),
		quantity.DateOf(w.plan.Visits[0].Day), quantity.DateOf(w.plan.Visits[len(w.plan.Visits)-1].Day), w.posted(w.plan.Cost), w.study.Money.Code())
}

func (w visitWording) saved() string {
	if len(w.plan.Visits) == 0 {
		return ""
	}
	return fmt.Sprintf("grouping saves %s against a visit for every job (%s) and %s against a visit on every due date (%s)",
		w.amount(w.plan.Alone-w.plan.Cost), w.counted(float64(w.plan.Jobs), "visit"),
		w.amount(w.plan.DueDates-w.plan.Cost), w.counted(float64(w.plan.DueVisits), "visit"))
}

func (w visitWording) home() string {
	if len(w.plan.Home) == 0 {
		return ""
	}
	var names []string
	for _, at := range w.plan.Home {
		names = append(names, nameOr(w.study.DatedJobs[at].Name, w.study.DatedJobs[at].Key))
	}
	return "no work at a shop, so no visit: " + strings.Join(names, ", ")
}

func (w visitWording) shop(at *booking.AtShop) ShopPlan {
	shop := &w.study.Shops[at.Shop]
	methods := map[visitplan.Method]string{visitplan.Consecutive: MethodConsecutive, visitplan.Searched: MethodSearched, visitplan.Beam: MethodBestFound}
	return ShopPlan{Key: shop.Key, Name: nameOr(shop.Name, shop.Key), Method: methods[at.Found.Method], Cost: at.Found.Cost, Bound: at.Found.Bound, Gap: at.Found.Gap()}
}

// proof says how sure it is that no grouping is cheaper.
func (w visitWording) proof(at *booking.AtShop) string {
	name := nameOr(w.study.Shops[at.Shop].Name, w.study.Shops[at.Shop].Key)
	switch at.Found.Method {
	case visitplan.Consecutive:
		return name + ": proven best; its jobs are alike, so neighbours by due date make the best groups"
	case visitplan.Searched:
		return name + ": proven best; no other grouping that keeps the dates costs less"
	}
	return fmt.Sprintf("%s: the best that was found; no grouping costs less than %s, so at most %s are left to save", name, w.posted(at.Found.Bound), percent(at.Found.Gap()))
}

func weekday(day int) string { return quantity.Weekday(day).String()[:3] }

func (w visitWording) visit(visit *booking.Visit) PlannedVisit {
	shop := &w.study.Shops[visit.Shop]
	said := PlannedVisit{
		Date: string(quantity.DateOf(visit.Day)), Weekday: weekday(visit.Day), LastDay: string(quantity.DateOf(visit.Last)), BookBy: string(quantity.DateOf(visit.BookBy)),
		Shop: shop.Key, ShopName: nameOr(shop.Name, shop.Key), Minutes: visit.Billed.Minutes(), Paid: visit.Paid.Minutes(), By: visit.By,
		Away: away(visit).Minutes(), Invoice: visit.Visit.Shop, Travel: visit.Travel, Labour: visit.Labour, Total: visit.Total,
		Load: float64(visit.Load), Heaviest: float64(visit.Heaviest), RoundTrips: visit.RoundTrips, People: visit.Crew, Helpers: visit.Helpers,
	}
	for _, aboard := range visit.Aboard {
		said.Jobs = append(said.Jobs, w.job(aboard))
	}
	said.Bring = w.bring(visit)
	said.Heading = said.Weekday + " " + said.Date + ", " + said.ShopName
	said.Deadline = w.deadline(visit, &said)
	said.Clock = w.clock(visit)
	said.Money = fmt.Sprintf("invoice %s, travel %s, own time and helpers %s", w.posted(said.Invoice), w.posted(said.Travel), w.posted(said.Labour))
	said.BringInWords = "bring " + strings.Join(said.Bring, "; ") + "; " + w.measure(quantity.DimMass, said.Load) + " in all"
	if visit.RoundTrips > 1 {
		said.BringInWords += ", on " + w.counted(visit.RoundTrips, "round trip")
	}
	said.Lifting = w.lifting(visit)
	return said
}

// away is how long each of the own people is away from the studio.
func away(visit *booking.Visit) quantity.Duration {
	return visit.OwnTime / quantity.Duration(max(1, visit.Crew))
}

func (w visitWording) deadline(visit *booking.Visit, said *PlannedVisit) string {
	words := "no later day would do"
	if visit.Last > visit.Day {
		words = "would do until " + weekday(visit.Last) + " " + said.LastDay
	}
	if visit.BookBy < visit.Day {
		words = "book by " + weekday(visit.BookBy) + " " + said.BookBy + "; " + words
	}
	return words
}

func (w visitWording) clock(visit *booking.Visit) string {
	words := w.number(visit.Billed.Minutes()) + " min on the shop's clock, paid as "
	switch visit.By {
	case rental.ByBlock:
		words += w.number(visit.Paid.Minutes()) + " min"
	case rental.ByHalfDay:
		words += "a half day"
	default:
		words += "a day"
	}
	if visit.By != rental.ByBlock && visit.Days > 0 {
		words += " (" + w.counted(visit.Days, "whole day") + " in it)"
	}
	return words + "; " + w.number(away(visit).Hours()) + " h away with the drive and the loading"
}

// bring lists the pieces of each job type, and what the shop's machines want of
// the studio's own edges and abrasives.
func (w visitWording) bring(visit *booking.Visit) []string {
	var list []string
	for i := range visit.Errands {
		kind := &w.study.JobTypes[visit.Errands[i].Job]
		var pieces []string
		for _, at := range visit.Errands[i].Pieces {
			piece := &kind.Pieces[at]
			count := w.number(float64(visit.Counts[i]) * float64(piece.Count))
			pieces = append(pieces, fmt.Sprintf("%s × %s %s × %s × %s", count, piece.Key, w.size(piece.Length), w.size(piece.Width), w.measure(quantity.DimLength, float64(piece.Thickness))))
		}
		list = append(list, nameOr(kind.Name, kind.Key)+" ("+strings.Join(pieces, ", ")+")")
	}
	return append(list, w.supplies(visit)...)
}

// supplies lists the own edges and abrasives that the visit uses, each once.
func (w visitWording) supplies(visit *booking.Visit) []string {
	var list []string
	keep := func(word string) {
		if !slices.Contains(list, word) {
			list = append(list, word)
		}
	}
	machines := w.study.Shops[visit.Shop].Machines
	for i := range visit.Errands {
		for _, change := range visit.Errands[i].Changes {
			if machine := &machines[change.Machine]; machine.Consumables == ownConsumables {
				keep("grit " + change.Grit + " for the " + nameOr(machine.Name, machine.Key))
			}
		}
		for q, minutes := range visit.Errands[i].Each {
			edge, known := model.Find(w.study.Edges, machines[q].Edge)
			if known && minutes > 0 && machines[q].Consumables == ownConsumables {
				keep(nameOr(edge.Name, edge.Key))
			}
		}
	}
	return list
}

// ownConsumables is the word for edges and abrasives that the studio pays for.
const ownConsumables = "own"

// size is a length without its unit.
func (w visitWording) size(length quantity.Length) string {
	return w.number(quantity.Shown(quantity.DimLength, float64(length), w.system))
}

func (w visitWording) lifting(visit *booking.Visit) string {
	words := "heaviest piece " + w.measure(quantity.DimMass, float64(visit.Heaviest)) + ": reckoned with "
	if visit.Crew == 1 {
		words += "1 of you"
	} else {
		words += w.number(visit.Crew) + " of you"
	}
	if visit.Helpers > 0 {
		words += " and " + w.counted(visit.Helpers, "hired helper")
	}
	return words
}

func (w visitWording) job(aboard booking.Aboard) VisitJob {
	dated := &w.study.DatedJobs[aboard.Dated]
	kind, _ := model.Find(w.study.JobTypes, dated.JobType)
	said := VisitJob{
		Key: dated.Key, Name: nameOr(dated.Name, dated.Key), JobType: kind.Key, JobTypeName: nameOr(kind.Name, kind.Key),
		Count: aboard.Count, Of: dated.Number(), Ready: string(dated.Ready), DueBy: string(dated.Due),
	}
	said.InWords = said.Name + ": "
	switch {
	case said.Count < said.Of:
		said.InWords += fmt.Sprintf("%d of %d × ", said.Count, said.Of)
	case said.Count > 1:
		said.InWords += fmt.Sprintf("%d × ", said.Count)
	}
	said.InWords += said.JobTypeName + ", due " + said.DueBy
	return said
}
