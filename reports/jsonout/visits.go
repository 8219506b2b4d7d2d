package jsonout

import (
	"io"

	"shopstint/reports"
)

// VisitsShape is the name of the shape that WriteVisits writes. Amounts are in
// currency, before tax, at first-year prices; minutes, kilograms, and dates as
// ISO 8601 writes them; shares are parts of one.
//
//	{
//	  "shape": "shopstint.visits/1",
//	  "title": text, "currency": ISO 4217 code, "today": date | null,
//	  "jobs": number,                              that ride to a shop
//	  "cost": number, "bound": number,             no grouping costs less than bound
//	  "gap": number,                               share of cost that might still be saved; 0 is proven best
//	  "one_visit_a_job": {"visits", "cost", "saved"},
//	  "visit_every_due_date": {"visits", "cost", "saved"},
//	  "shops": [{"key", "method": "consecutive" | "searched" | "best_found", "cost", "bound", "gap"}],
//	  "visits": [{
//	    "date": date, "weekday": "Mon" … "Sun", "last_day": date, "book_by": date, "shop": key,
//	    "jobs": [{"key", "name", "job_type", "count", "of", "ready", "due"}],
//	    "minutes", "paid_minutes", "bought_by": "block" | "half day" | "day", "minutes_away",
//	    "invoice", "travel", "labour", "total",
//	    "load_kg", "heaviest_kg", "round_trips", "people", "helpers", "bring": [text]
//	  }],
//	  "without_visit": [key],                      dated jobs that have no work at a shop
//	  "caution": text, "calendar": path | null
//	}
const VisitsShape = "shopstint.visits/1"

type visitsDocument struct {
	Shape    string     `json:"shape"`
	Title    string     `json:"title"`
	Currency string     `json:"currency"`
	Today    *string    `json:"today"`
	Jobs     int        `json:"jobs"`
	Cost     *float64   `json:"cost"`
	Bound    *float64   `json:"bound"`
	Gap      *float64   `json:"gap"`
	Alone    comparison `json:"one_visit_a_job"`
	DueDates comparison `json:"visit_every_due_date"`
	Shops    []shopPlan `json:"shops"`
	Visits   []visit    `json:"visits"`
	Home     []string   `json:"without_visit"`
	Caution  string     `json:"caution"`
	Calendar *string    `json:"calendar"`
}

type comparison struct {
	Visits int      `json:"visits"`
	Cost   *float64 `json:"cost"`
	Saved  *float64 `json:"saved"`
}

type shopPlan struct {
	Key    string   `json:"key"`
	Method string   `json:"method"`
	Cost   *float64 `json:"cost"`
	Bound  *float64 `json:"bound"`
	Gap    *float64 `json:"gap"`
}

type visit struct {
	Date       string     `json:"date"`
	Weekday    string     `json:"weekday"`
	LastDay    string     `json:"last_day"`
	BookBy     string     `json:"book_by"`
	Shop       string     `json:"shop"`
	Jobs       []visitJob `json:"jobs"`
	Minutes    *float64   `json:"minutes"`
	Paid       *float64   `json:"paid_minutes"`
	By         string     `json:"bought_by"`
	Away       *float64   `json:"minutes_away"`
	Invoice    *float64   `json:"invoice"`
	Travel     *float64   `json:"travel"`
	Labour     *float64   `json:"labour"`
	Total      *float64   `json:"total"`
	Load       *float64   `json:"load_kg"`
	Heaviest   *float64   `json:"heaviest_kg"`
	RoundTrips *float64   `json:"round_trips"`
	People     *float64   `json:"people"`
	Helpers    *float64   `json:"helpers"`
	Bring      []string   `json:"bring"`
}

type visitJob struct {
	Key     string `json:"key"`
	Name    string `json:"name"`
	JobType string `json:"job_type"`
	Count   int    `json:"count"`
	Of      int    `json:"of"`
	Ready   string `json:"ready"`
	Due     string `json:"due"`
}

// WriteVisits writes planned visits; calendar is the path of the calendar file,
// "" for none.
func WriteVisits(w io.Writer, plan *reports.VisitPlan, calendar string) error {
	document := visitsDocument{
		Shape: VisitsShape, Title: plan.Title, Currency: plan.Currency, Today: orNull(plan.Today), Jobs: plan.Jobs,
		Cost: number(plan.Cost), Bound: number(plan.Bound), Gap: number(plan.Gap),
		Alone:    comparison{plan.Jobs, number(plan.Alone), number(plan.Alone - plan.Cost)},
		DueDates: comparison{plan.DueVisits, number(plan.DueDates), number(plan.DueDates - plan.Cost)},
		Shops: each(plan.Shops, func(s *reports.ShopPlan) shopPlan {
			return shopPlan{s.Key, s.Method, number(s.Cost), number(s.Bound), number(s.Gap)}
		}),
		Visits: each(plan.Visits, visitOf), Home: each(plan.Home, func(j *reports.VisitJob) string { return j.Key }),
		Caution: plan.Caution, Calendar: orNull(calendar),
	}
	return write(w, document)
}

func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

func visitOf(v *reports.PlannedVisit) visit {
	return visit{
		Date: v.Date, Weekday: v.Weekday, LastDay: v.LastDay, BookBy: v.BookBy, Shop: v.Shop,
		Jobs: each(v.Jobs, func(j *reports.VisitJob) visitJob {
			return visitJob{j.Key, j.Name, j.JobType, j.Count, j.Of, j.Ready, j.DueBy}
		}),
		Minutes: number(v.Minutes), Paid: number(v.Paid), By: v.By, Away: number(v.Away),
		Invoice: number(v.Invoice), Travel: number(v.Travel), Labour: number(v.Labour), Total: number(v.Total),
		Load: number(v.Load), Heaviest: number(v.Heaviest), RoundTrips: number(v.RoundTrips), People: number(v.People), Helpers: number(v.Helpers),
		Bring: each(v.Bring, func(text *string) string { return *text }),
	}
}
