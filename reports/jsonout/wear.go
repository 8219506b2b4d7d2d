package jsonout

import (
	"io"

	"shopstint/reports"
)

// WearShape is the name of the shape that WriteWear writes.
const WearShape = "shopstint.wear/1"

type wearDocument struct {
	Shape     string     `json:"shape"`
	Currency  string     `json:"currency"`
	Edges     []wearItem `json:"edges"`
	Abrasives []wearItem `json:"abrasives"`
	Notes     []string   `json:"notes"`
	Caution   string     `json:"caution"`

	Comparisons []waysCompared `json:"comparisons"`
}

type wearItem struct {
	Key       string         `json:"key"`
	Name      string         `json:"name"`
	Unit      string         `json:"unit"`
	Price     *float64       `json:"price"`
	Cost      *float64       `json:"cost_per_unit"`
	Usable    *float64       `json:"sharpenings_allowed"`
	BySize    bool           `json:"ends_by_size"`
	Sharpened *float64       `json:"sharpenings_expected"`
	Lives     *float64       `json:"lives"`
	Dull      *float64       `json:"run_until_dull"`
	Mean      *float64       `json:"run_with_damage"`
	Run       *float64       `json:"run_until_spent"`
	Spent     *float64       `json:"cost_until_spent"`
	Materials []wearMaterial `json:"materials"`
	Years     []wearYear     `json:"years"`
}

type wearMaterial struct {
	Material string   `json:"material"`
	Dull     *float64 `json:"run_until_dull"`
	Cost     *float64 `json:"cost_per_unit"`
}

type wearYear struct {
	Machine    string   `json:"machine"`
	Run        *float64 `json:"run"`
	Plain      *float64 `json:"run_in_plain_hardwood"`
	Hours      *float64 `json:"hours"`
	New        *float64 `json:"new"`
	Sharpened  *float64 `json:"sharpenings"`
	Cost       *float64 `json:"cost"`
	Spares     int      `json:"spare_sets"`
	ChangeTime *float64 `json:"change_hours"`
	ChangeCost *float64 `json:"change_cost"`
	DullTime   *float64 `json:"dull_hours"`
	DullCost   *float64 `json:"dull_cost"`
	Best       *float64 `json:"best_run"`
	Saved      *float64 `json:"saved_by_best_run"`
}

// WriteWear writes what edges and abrasives cost and what a year of them takes.
// Runs are in metres or square metres, by the unit, until a change in plain
// hardwood; money is before tax, at first-year prices.
//
//	{
//	  "shape": "shopstint.wear/1",
//	  "currency": ISO 4217 code,
//	  "edges": [{
//	    "key": key, "name": text, "unit": "m" | "m2", "price", "cost_per_unit",
//	    "sharpenings_allowed", "ends_by_size": true | false,     size allows fewer than the number
//	    "sharpenings_expected", "lives",
//	    "run_until_dull", "run_with_damage",                     of a mean life
//	    "run_until_spent", "cost_until_spent",
//	    "materials": [{"material": key, "run_until_dull", "cost_per_unit"}],
//	    "years": [{
//	      "machine": path, "run", "run_in_plain_hardwood", "hours",
//	      "new", "sharpenings", "cost", "spare_sets": number,
//	      "change_hours", "change_cost", "dull_hours", "dull_cost",   own time, beside the money
//	      "best_run",                        null: when damage comes
//	      "saved_by_best_run"                0 where waiting until it is dull is no dearer
//	    }]
//	  }],
//	  "abrasives": [as edges],
//	  "notes": [text], "caution": text,
//	  "comparisons": [{                          ways of doing the same work; a unit is a finished "unit"
//	    "comparison": key, "name": text,
//	    "unit": "m" | "m²", "amount_a_year": number,
//	    "piece": {"name": text, "units": number} | null,
//	    "best": key, "next": key, "saving_a_year": number, "too_close_to_call": true | false,
//	    "ways": [{
//	      "way": key, "name": text,
//	      "parts": [{"part": "wear" | "labour" | "energy" | "rework" | "equipment", "per_unit", "share"}],
//	      "per_unit", "per_piece": number | null, "per_year",
//	      "fixed_a_year",                            of that, whatever the work
//	      "own_minutes_per_unit", "own_hours_a_year", "machine_hours_a_year",
//	      "days_waited_a_year", "outlay"             before the first unit
//	    }],
//	    "pairs": [{
//	      "first": key, "second": key, "outcome": "same" | "always" | "crossing",
//	      "cheaper_below": key | null, "cheaper_above": key | null,
//	      "break_even": {"units", "pieces", "machine_hours"},   a year; null where there is none
//	      "dearer_at_first": key | null, "more_at_first": number,
//	      "back_after_units": number | null
//	    }],
//	    "says": [text]
//	  }]
//	}
func WriteWear(w io.Writer, wear *reports.Wear) error {
	return write(w, wearDocument{
		Shape: WearShape, Currency: wear.Currency, Notes: append([]string{}, wear.Notes...), Caution: wear.Caution,
		Edges:     each(wear.Edges, func(i *reports.WearItem) wearItem { return wearItemOf(i, "m") }),
		Abrasives: each(wear.Abrasives, func(i *reports.WearItem) wearItem { return wearItemOf(i, "m2") }),

		Comparisons: comparisonsOf(wear.Comparisons),
	})
}

func wearItemOf(i *reports.WearItem, unit string) wearItem {
	return wearItem{
		Key: i.Key, Name: i.Name, Unit: unit, Price: number(i.Price), Cost: number(i.Item.Cost), Usable: number(i.Item.Span.Usable), BySize: i.EndsBySize,
		Sharpened: number(i.Item.Span.Sharpened), Lives: number(i.Item.Span.Lives), Dull: number(i.Full), Mean: number(i.Mean), Run: number(i.Item.Span.Run), Spent: number(i.Item.Span.Cost),
		Materials: each(i.Materials, func(m *reports.WearMaterial) wearMaterial { return wearMaterial{m.Key, number(m.Full), number(m.Cost)} }),
		Years:     each(i.Years, wearYearOf),
	}
}

func wearYearOf(y *reports.WearYear) wearYear {
	return wearYear{
		Machine: y.Path, Run: number(y.Run), Plain: number(y.Plain), Hours: number(y.Hours), New: number(y.New), Sharpened: number(y.Sharpened), Cost: number(y.Cost), Spares: y.Use.Spares,
		ChangeTime: number(y.ChangeTime), ChangeCost: number(y.ChangeCost), DullTime: number(y.DullTime), DullCost: number(y.DullCost), Best: number(y.Best), Saved: number(y.Saved),
	}
}
