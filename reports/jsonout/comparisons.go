package jsonout

import "shopstint/reports"

// waysCompared is one entry of "comparisons" in the shape shopstint.wear/1. A unit
// is a finished metre, foot, square metre or square foot, as "unit" says; money is
// in the currency of the study, before tax, at the prices of the first year.
//
//	{
//	  "comparison": key, "name": text,
//	  "unit": "m" | "ft" | "m²" | "ft²", "amount_a_year": number,
//	  "piece": {"name": text, "units": number} | null,
//	  "best": key, "next": key, "saving_a_year": number, "too_close_to_call": true | false,
//	  "ways": [{
//	    "way": key, "name": text,
//	    "parts": [{"part": "wear" | "labour" | "energy" | "rework" | "equipment", "per_unit", "share"}],
//	    "per_unit", "per_piece": number | null, "per_year",
//	    "fixed_a_year",                            of that, whatever the work
//	    "own_minutes_per_unit", "own_hours_a_year", "machine_hours_a_year",
//	    "days_waited_a_year", "outlay"             before the first unit
//	  }],
//	  "pairs": [{
//	    "first": key, "second": key, "outcome": "same" | "always" | "crossing",
//	    "cheaper_below": key | null, "cheaper_above": key | null,
//	    "break_even": {"units", "pieces", "machine_hours"},   a year; null where there is none
//	    "dearer_at_first": key | null, "more_at_first": number,
//	    "back_after_units": number | null
//	  }],
//	  "says": [text]
//	}
type waysCompared struct {
	Key    string          `json:"comparison"`
	Name   string          `json:"name"`
	Unit   string          `json:"unit"`
	Amount *float64        `json:"amount_a_year"`
	Piece  *comparedPiece  `json:"piece"`
	Best   string          `json:"best"`
	Next   string          `json:"next"`
	Saving *float64        `json:"saving_a_year"`
	Close  bool            `json:"too_close_to_call"`
	Ways   []comparedWay   `json:"ways"`
	Pairs  []comparedPairs `json:"pairs"`
	Says   []string        `json:"says"`
}

type comparedPiece struct {
	Name  string   `json:"name"`
	Units *float64 `json:"units"`
}

type comparedWay struct {
	Key      string         `json:"way"`
	Name     string         `json:"name"`
	Parts    []comparedPart `json:"parts"`
	PerUnit  *float64       `json:"per_unit"`
	PerPiece *float64       `json:"per_piece"`
	PerYear  *float64       `json:"per_year"`
	Fixed    *float64       `json:"fixed_a_year"`
	Minutes  *float64       `json:"own_minutes_per_unit"`
	Own      *float64       `json:"own_hours_a_year"`
	Hours    *float64       `json:"machine_hours_a_year"`
	Waited   *float64       `json:"days_waited_a_year"`
	Outlay   *float64       `json:"outlay"`
}

type comparedPart struct {
	Part    string   `json:"part"`
	PerUnit *float64 `json:"per_unit"`
	Share   *float64 `json:"share"`
}

type comparedPairs struct {
	First     string       `json:"first"`
	Second    string       `json:"second"`
	Outcome   string       `json:"outcome"`
	Below     *string      `json:"cheaper_below"`
	Above     *string      `json:"cheaper_above"`
	BreakEven comparedEven `json:"break_even"`
	Dearer    *string      `json:"dearer_at_first"`
	More      *float64     `json:"more_at_first"`
	Back      *float64     `json:"back_after_units"`
}

type comparedEven struct {
	Units  *float64 `json:"units"`
	Pieces *float64 `json:"pieces"`
	Hours  *float64 `json:"machine_hours"`
}

// comparisonsOf lists comparisons for the document of shopstint wear.
func comparisonsOf(list []reports.Comparison) []waysCompared {
	return each(list, func(c *reports.Comparison) waysCompared {
		out := waysCompared{
			Key: c.Key, Name: c.Name, Unit: c.Unit, Amount: number(c.Amount), Best: c.Best, Next: c.Next, Saving: number(c.Saving), Close: c.Close,
			Ways: each(c.Ways, comparedWayOf), Pairs: each(c.Pairs, comparedPairOf), Says: append([]string{}, c.InWords...),
		}
		if c.Piece > 0 {
			out.Piece = &comparedPiece{c.PieceName, number(c.Piece)}
		}
		return out
	})
}

func comparedWayOf(w *reports.ComparedWay) comparedWay {
	return comparedWay{
		Key: w.Key, Name: w.Name,
		Parts:   each(w.Parts, func(p *reports.CostPart) comparedPart { return comparedPart{p.Key, number(p.PerUnit), number(p.Share)} }),
		PerUnit: number(w.PerUnit), PerPiece: number(w.PerPiece), PerYear: number(w.Yearly), Fixed: number(w.Fixed),
		Minutes: number(w.Minutes), Own: number(w.OwnHours), Hours: number(w.Hours), Waited: number(w.DaysWaited), Outlay: number(w.Outlay),
	}
}

func comparedPairOf(p *reports.ComparedPair) comparedPairs {
	word := func(text string) *string {
		if text == "" {
			return nil
		}
		return &text
	}
	return comparedPairs{
		First: p.First, Second: p.Second, Outcome: p.Outcome, Below: word(p.Below), Above: word(p.Above),
		BreakEven: comparedEven{number(p.BreakEven), number(p.Pieces), number(p.Hours)},
		Dearer:    word(p.Dearer), More: number(p.More), Back: number(p.RepaidAfter),
	}
}
