package jsonout

import (
	"io"

	"shopstint/reports"
)

// SpendShape is the name of the shape that WriteSpending writes. Amounts are in
// currency, in money of their year; costs are positive, income and relief negative.
// Cash is money that leaves the account, cost spreads purchases and counts own time.
//
//	{
//	  "shape": "shopstint.spend/1",
//	  "title": text, "currency": ISO 4217 code,
//	  "choice": "together" | "owning" | "roadmap", "machines": [key],   owned in some year
//	  "years": table, "months": table,             of the year that was asked for
//	  "futures": number, "seed": number | null,    drawn for the ranges
//	  "events": [{"on": date, "machine": key, "fixture": key | null, "what": "bought" | "replaced" | "sold" | "loan paid back", "amount"}],
//	  "due": [{
//	    "where": "shop" | "tool" | "machine", "machine": key, "item": key,
//	    "fresh_on": date, "sharpen_on": date | null, "renew_on": date | null,
//	    "sharpenings", "renewals", "run",          in the twelve months from then
//	    "unit": "m" | "m2",                        of run, as in plain hardwood
//	    "days": [{"on": date, "what": "sharpen" | "renew"}]             the first 24
//	  }],
//	  "reserve": {
//	    "interest_a_year", "monthly",
//	    "for": [{"machine": key, "fixture": key | null, "own_fixtures": bool, "years", "price", "fetched", "monthly"}]
//	  },
//	  "hour_rates": [{"machine": key, "hours_first_year", "per_year", "owning", "running", "own_time",
//	    "without_own_time", "with_own_time"}],     an hour, before tax
//	  "notes": [text], "caution": text
//	}
//
// A table is one list a line, a figure a period:
//
//	{
//	  "periods": ["2026" …] | ["Jan" …],
//	  "lines": [{"key": key, "in": "both" | "cash" | "cost", "amounts": [number]}],
//	  "cash": [number], "cost": [number],
//	  "cash_low", "cash_high", "cost_low", "cost_high": [number] | null   5 of 100 futures are under, over
//	}
const SpendShape = "shopstint.spend/1"

type spendDocument struct {
	Shape    string       `json:"shape"`
	Title    string       `json:"title"`
	Currency string       `json:"currency"`
	Choice   string       `json:"choice"`
	Machines []string     `json:"machines"`
	Years    spendTable   `json:"years"`
	Months   spendTable   `json:"months"`
	Futures  int          `json:"futures"`
	Seed     *uint64      `json:"seed"`
	Events   []spendEvent `json:"events"`
	Due      []dueItem    `json:"due"`
	Reserve  reserve      `json:"reserve"`
	Rates    []hourRate   `json:"hour_rates"`
	Notes    []string     `json:"notes"`
	Caution  string       `json:"caution"`
}

type spendTable struct {
	Periods  []string    `json:"periods"`
	Lines    []spendLine `json:"lines"`
	Cash     []*float64  `json:"cash"`
	Cost     []*float64  `json:"cost"`
	CashLow  []*float64  `json:"cash_low"`
	CashHigh []*float64  `json:"cash_high"`
	CostLow  []*float64  `json:"cost_low"`
	CostHigh []*float64  `json:"cost_high"`
}

type spendLine struct {
	Key     string     `json:"key"`
	In      string     `json:"in"`
	Amounts []*float64 `json:"amounts"`
}

type spendEvent struct {
	On      string   `json:"on"`
	Machine string   `json:"machine"`
	Fixture *string  `json:"fixture"`
	What    string   `json:"what"`
	Amount  *float64 `json:"amount"`
}

type dueItem struct {
	Where       string   `json:"where"`
	Machine     string   `json:"machine"`
	Item        string   `json:"item"`
	From        string   `json:"fresh_on"`
	Sharpen     *string  `json:"sharpen_on"`
	Renew       *string  `json:"renew_on"`
	Sharpenings int      `json:"sharpenings"`
	Renewals    int      `json:"renewals"`
	Run         *float64 `json:"run"`
	Unit        string   `json:"unit"`
	Days        []dueDay `json:"days"`
}

type dueDay struct {
	On   string `json:"on"`
	What string `json:"what"`
}

type reserve struct {
	Interest *float64     `json:"interest_a_year"`
	Monthly  *float64     `json:"monthly"`
	For      []reserveFor `json:"for"`
}

type reserveFor struct {
	Machine string   `json:"machine"`
	Fixture *string  `json:"fixture"`
	Own     bool     `json:"own_fixtures"`
	Years   int      `json:"years"`
	Price   *float64 `json:"price"`
	Fetched *float64 `json:"fetched"`
	Monthly *float64 `json:"monthly"`
}

type hourRate struct {
	Machine string   `json:"machine"`
	Hours   *float64 `json:"hours_first_year"`
	PerYear *float64 `json:"per_year"`
	Owning  *float64 `json:"owning"`
	Running *float64 `json:"running"`
	OwnTime *float64 `json:"own_time"`
	Without *float64 `json:"without_own_time"`
	With    *float64 `json:"with_own_time"`
}

// WriteSpending writes what the equipment will cost.
func WriteSpending(w io.Writer, said *reports.Spending) error {
	document := spendDocument{
		Shape: SpendShape, Title: said.Title, Currency: said.Currency, Choice: said.Choice, Machines: words(said.Machines),
		Years: spendTableOf(&said.Years), Months: spendTableOf(&said.Months), Futures: said.Futures,
		Events: each(said.Events, func(e *reports.SpendEvent) spendEvent {
			return spendEvent{e.On, e.Machine, orNull(e.Fixture), e.What, number(e.Amount)}
		}),
		Due:     each(said.Due, dueItemOf),
		Reserve: reserve{number(said.Savings), number(said.Reserved), each(said.Reserves, reserveOf)},
		Rates: each(said.Rates, func(r *reports.HourRate) hourRate {
			return hourRate{r.Machine, number(r.Hours), number(r.PerYear), number(r.Owning), number(r.Running), number(r.Time), number(r.WithoutTime), number(r.WithTime)}
		}),
		Notes: words(said.Notes), Caution: said.Caution,
	}
	if said.Futures > 0 {
		document.Seed = &said.Seed
	}
	return write(w, document)
}

// spendTableOf writes every line, also those without an amount.
func spendTableOf(table *reports.SpendTable) spendTable {
	out := spendTable{Periods: words(table.Periods), Lines: []spendLine{}}
	sums := map[string]*[]*float64{
		"cash": &out.Cash, "cost": &out.Cost, "cash_low": &out.CashLow, "cash_high": &out.CashHigh, "cost_low": &out.CostLow, "cost_high": &out.CostHigh,
	}
	for i := range table.Lines {
		line := &table.Lines[i]
		if into, ok := sums[line.Key]; ok {
			*into = numbers(line.Amounts)
			continue
		}
		out.Lines = append(out.Lines, spendLine{line.Key, line.In, numbers(line.Amounts)})
	}
	return out
}

func dueItemOf(d *reports.DueItem) dueItem {
	return dueItem{
		Where: d.Where, Machine: d.Machine, Item: d.Item, From: d.From, Sharpen: orNull(d.Sharpen), Renew: orNull(d.Renew),
		Sharpenings: d.Sharpenings, Renewals: d.Renewals, Run: number(d.Run), Unit: d.Unit,
		Days: each(d.Days, func(day *reports.DueDay) dueDay {
			return dueDay{day.On, map[bool]string{false: "sharpen", true: "renew"}[day.Renew]}
		}),
	}
}

func reserveOf(r *reports.Reserve) reserveFor {
	return reserveFor{r.Machine, orNull(r.Fixture), r.Own, r.Years, number(r.Price), number(r.Fetched), number(r.Monthly)}
}
