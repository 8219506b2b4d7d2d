package jsonout

import (
	"shopstint/capital/decision/futures"
	"shopstint/model/chance"
	"shopstint/reports"
)

// drawnFutures is what an answer with futures has at its end, before what an
// edited workbook adds. Shares are parts of one, amounts present amounts after
// tax, errors standard errors of drawing; years are from today, year 0.
//
//	"futures": {
//	  "count": number, "seed": number, "inputs_drawn": number, "error_is_small": true | false,
//	  "best": number,                                     the choice, from 0, that is cheapest on average
//	  "perfect_information": {"value", "error"},
//	  "worth_knowing": [{"path", "label", "worth": {"value", "error"}}],      the most first
//	  "choices": [{                                       renting everything, each machine alone, other sets
//	    "owned": [key],
//	    "as_in_the_study": number,
//	    "cost": {"mean", "deviation", "p5", "p25", "p50", "p75", "p95"},      each {"value", "error"}
//	    "difference": the same, of renting everything less this choice: positive favours it,
//	    "close_call": number,
//	    "cheaper_than_renting": {"value", "error"}, "cheapest": {"value", "error"},
//	    "regret": {"value", "error"},
//	    "curve": [{"difference": number, "below": number}],
//	    "years": [{"low", "median", "high"}]              cost so far by year: 5, 50 and 95 %; may be empty
//	  }],
//	  "left_out": [{                                      sets that may not be owned, and are no choice
//	    "owned": [key], "because": ["money" | "floor" | "supply" | "excludes" | "needs"]
//	  }],
//	  "notes": [text]
//	}
type drawnFutures struct {
	Count   int            `json:"count"`
	Seed    uint64         `json:"seed"`
	Inputs  int            `json:"inputs_drawn"`
	Met     bool           `json:"error_is_small"`
	Best    int            `json:"best"`
	Perfect estimate       `json:"perfect_information"`
	Knowing []knowing      `json:"worth_knowing"`
	Choices []futureChoice `json:"choices"`
	Left    []futureLeft   `json:"left_out"`
	Notes   []string       `json:"notes"`
}

type knowing struct {
	Path  string   `json:"path"`
	Label string   `json:"label"`
	Worth estimate `json:"worth"`
}

type futureChoice struct {
	Owned      []string    `json:"owned"`
	Typical    *float64    `json:"as_in_the_study"`
	Cost       spread      `json:"cost"`
	Difference spread      `json:"difference"`
	CloseCall  *float64    `json:"close_call"`
	Better     estimate    `json:"cheaper_than_renting"`
	Cheapest   estimate    `json:"cheapest"`
	Regret     estimate    `json:"regret"`
	Curve      []curvePart `json:"curve"`
	Years      []yearBand  `json:"years"`
}

type futureLeft struct {
	Owned   []string `json:"owned"`
	Because []string `json:"because"`
}

type spread struct {
	Mean      estimate `json:"mean"`
	Deviation estimate `json:"deviation"`
	P5        estimate `json:"p5"`
	P25       estimate `json:"p25"`
	P50       estimate `json:"p50"`
	P75       estimate `json:"p75"`
	P95       estimate `json:"p95"`
}

type curvePart struct {
	Difference *float64 `json:"difference"`
	Below      *float64 `json:"below"`
}

type yearBand struct {
	Low    *float64 `json:"low"`
	Median *float64 `json:"median"`
	High   *float64 `json:"high"`
}

// futuresOf is nil where no futures were drawn.
func futuresOf(f *reports.Futures) *drawnFutures {
	if f == nil {
		return nil
	}
	return &drawnFutures{
		Count: f.Count, Seed: f.Seed, Inputs: f.Inputs, Met: f.Met, Best: f.Best, Perfect: estimateOf(f.Perfect),
		Knowing: each(f.Knowing, func(k *reports.Knowing) knowing { return knowing{k.Path, k.Label, estimateOf(k.Worth)} }),
		Choices: each(f.Choices, futureChoiceOf), Left: each(f.Left, func(l *reports.FutureLeft) futureLeft { return futureLeft(*l) }), Notes: append([]string{}, f.Notes...),
	}
}

func futureChoiceOf(c *reports.FutureChoice) futureChoice {
	return futureChoice{
		Owned: c.Owned, Typical: number(c.Typical), Cost: spreadOf(c.Cost), Difference: spreadOf(c.Difference), CloseCall: number(c.Band),
		Better: estimateOf(c.Better), Cheapest: estimateOf(c.Cheapest), Regret: estimateOf(c.Regret),
		Curve: each(c.Curve, func(p *futures.Point) curvePart { return curvePart{number(p.Difference), number(p.Below)} }),
		Years: each(c.Years, func(y *futures.YearBand) yearBand { return yearBand{number(y.Low), number(y.Median), number(y.High)} }),
	}
}

func spreadOf(s chance.Spread) spread {
	p := s.Percentiles
	return spread{estimateOf(s.Mean), estimateOf(s.Deviation), estimateOf(p[0]), estimateOf(p[1]), estimateOf(p[2]), estimateOf(p[3]), estimateOf(p[4])}
}
