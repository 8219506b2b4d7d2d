// Package jsonout writes a summary as JSON of a documented, stable shape.
//
// The shape shopstint.decide/1: keys are in this order, all are always there,
// numbers are numbers, and what does not exist is null. A key may be added at
// the end of an object under the same shape; a change of meaning makes it /2.
// Amounts are in currency and after tax; "annual" is an equal amount each year
// of the horizon, "present" is worth that today; shares and rates are parts of
// one; hours are running hours.
//
//	{
//	  "shape": "shopstint.decide/1",
//	  "title": text, "currency": ISO 4217 code, "units": "metric" | "inch",
//	  "start_year": number, "horizon_years": number,
//	  "renting_everything": {"annual": number, "present": number},
//	  "machines": [{
//	    "key": text, "name": text,
//	    "verdict": "buy" | "keep_renting" | "too_close_to_call", "reason": text,
//	    "difference": {"annual", "present"},       positive favours buying
//	    "close_call": number,                      a present difference up to this is too close
//	    "saved": {"annual", "present"}, "owning": {"annual", "present"},
//	    "cash_needed": number, "jobs_a_year": number, "hours_a_year": number,
//	    "cost_per_hour": number | null, "cost_per_job": number | null,
//	    "payback_years": {"simple": number | null, "discounted": number | null},
//	    "rates_of_return": [number],               every rate; may be empty
//	    "economic_life": {"years", "annual_cost", "still_falling": true | false},
//	    "break_evens": [{"in", "unit", "now", "crossings": [number], "from", "to"}],
//	    "turned_by": {
//	      "break_evens": [{"what", "unit", "now", "at", "says"}],   nearest to today first
//	      "inputs": [{"what": path, "unit", "now", "at", "says"}]   smallest change first
//	    }
//	  }],
//	  "assumed": {"count": number, "first": [{
//	    "path", "label", "about", "unit", "value", "low", "high",
//	    "machine": key, "present_at_low", "present_at_high", "flips": true | false
//	  }]},
//	  "notes": [{"path", "text"}],
//	  "not_priced": [text], "cautions": [text],
//	  "workbook": path | null,
//	  "joint": {                                   which machines to own together
//	    "best": SET, "next_best": [SET],           cheapest first
//	    "best_single": SET,                        of at most one machine
//	    "gap": number | null,                      a cheaper set could save at most this, present; 0: proven
//	    "next_best_proven": true | false,
//	    "limits": [{
//	      "on": "money" | "floor" | "supply", "path", "unit", "most", "used",
//	      "binds": true | false | null,            a cheaper set is kept out by this limit alone; null: not known
//	      "more": number | null,                   the least by which it must rise for one
//	      "gain": {"annual", "present"}, "machines": [key]   of that set
//	    }],
//	    "worth": [{                                present amounts that a machine saves
//	      "key", "alone", "in_best",               in the best set, or added to it
//	      "after": [number]                        once each machine of the study is owned; 0 for itself
//	    }],
//	    "supply": {"draw_amps", "free_amps", "limits": true | false},   false: only assumed
//	    "says": [text]
//	  },
//	  "roadmap": {
//	    "why_not": text | null,                    there is none; then the rest says nothing
//	    "yearly_budget": number | null,            null: no limit
//	    "cost": {"annual", "present"},
//	    "saved": {"annual", "present"},            against renting everything
//	    "years": [{"year", "buy": [key], "replace": [key], "sell": [key], "spent", "fetched"}],
//	    "runner_up": {"buy": [key], "year": number | null, "dearer": number} | null,
//	    "waiting_a_year": number,                  present cost over the roadmap's
//	    "gap": number,                             0 when no roadmap is cheaper
//	    "approximated": true | false
//	  }
//	}
//	SET is {"machines": [key], "cost": {"annual", "present"},
//	  "saving": {"annual", "present"},             against renting everything
//	  "over_best": {"annual", "present"}, "too_close_to_best": true | false,
//	  "cash_needed", "floor_m2", "amps"}
package jsonout

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"shopstint/capital/decision/single"
	"shopstint/reports"
)

// Shape is the name of the shape that Write writes.
const Shape = "shopstint.decide/1"

// Write writes the summary; workbook is the path of the workbook, "" for none.
func Write(w io.Writer, summary *reports.Summary, workbook string) error {
	return write(w, documentOf(summary, workbook))
}

// write writes any of this package's shapes, indented, with a final newline.
func write(w io.Writer, shape any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(shape); err != nil {
		return fmt.Errorf("could not write the answer as JSON: %w", err)
	}
	return nil
}

// number is null where there is no finite number.
func number(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	x += 0 // turns -0 into 0
	return &x
}

func figure(f reports.Figure) *float64 {
	if !f.Known {
		return nil
	}
	return number(f.Value)
}

// numbers is never null: an empty list is [].
func numbers(list []float64) []*float64 {
	out := make([]*float64, len(list))
	for i, x := range list {
		out[i] = number(x)
	}
	return out
}

// each turns a list into its shape; an empty list is [].
func each[From, To any](list []From, shape func(*From) To) []To {
	out := make([]To, len(list))
	for i := range list {
		out[i] = shape(&list[i])
	}
	return out
}

func verdict(v single.Verdict) string {
	switch v {
	case single.Buy:
		return "buy"
	case single.TooClose:
		return "too_close_to_call"
	default:
		return "keep_renting"
	}
}
