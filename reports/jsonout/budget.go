package jsonout

import (
	"io"

	"shopstint/model/chance"
	"shopstint/reports"
)

// BudgetShape is the name of the shape that WriteBudget writes.
const BudgetShape = "shopstint.budget/1"

type budgetDocument struct {
	Shape    string        `json:"shape"`
	Job      string        `json:"job"`
	Name     string        `json:"name"`
	Currency string        `json:"currency"`
	Seed     uint64        `json:"seed"`
	Drawn    int           `json:"drawn"`
	Inputs   int           `json:"inputs_drawn"`
	Met      bool          `json:"error_is_small"`
	Cases    []budgetCase  `json:"cases"`
	Owned    []budgetOwned `json:"owned"`
	Notes    []string      `json:"notes"`
	Caution  string        `json:"caution"`
}

type budgetCase struct {
	Aboard int          `json:"jobs_aboard"`
	Lines  []budgetLine `json:"lines"`
}

type budgetLine struct {
	Line     string   `json:"line"`
	Unit     string   `json:"unit"`
	Expected estimate `json:"expected"`
	Enough80 estimate `json:"enough_80"`
	Enough95 estimate `json:"enough_95"`
}

type budgetOwned struct {
	Machine string   `json:"machine"`
	Hours   *float64 `json:"hours"`
	PerHour *float64 `json:"cost_per_hour"`
	Cost    *float64 `json:"cost"`
	PerJob  *float64 `json:"mean_cost_per_job"`
}

type estimate struct {
	Value *float64 `json:"value"`
	Error *float64 `json:"error"`
}

func estimateOf(e chance.Estimate) estimate { return estimate{number(e.Value), number(e.Error)} }

// WriteBudget writes the budget of one job. The first case is the job on a visit
// of its own; a second its part of a shared visit. Money is before tax on
// profit, that of owned machines after it; errors are standard errors of drawing.
//
//	{
//	  "shape": "shopstint.budget/1",
//	  "job": key, "name": text, "currency": ISO 4217 code,
//	  "seed": number, "drawn": number, "inputs_drawn": number, "error_is_small": true | false,
//	  "cases": [{
//	    "jobs_aboard": number,
//	    "lines": [{
//	      "line": "hours_billed" | "hours_paid" | "own_hours" | "invoice" | "travel" | "own_time"
//	            | "helpers" | "wear" | "total",
//	      "unit": "h" | ISO 4217 code,
//	      "expected": {"value", "error"},            the mean
//	      "enough_80": {"value", "error"},           enough in 80 of 100 cases
//	      "enough_95": {"value", "error"}
//	    }]
//	  }],
//	  "owned": [{"machine": key, "hours", "cost_per_hour", "cost", "mean_cost_per_job"}],
//	  "notes": [text], "caution": text
//	}
func WriteBudget(w io.Writer, budget *reports.Budget) error {
	return write(w, budgetDocument{
		Shape: BudgetShape, Job: budget.Key, Name: budget.Name, Currency: budget.Currency,
		Seed: budget.Seed, Drawn: budget.Drawn, Inputs: budget.Inputs, Met: budget.Met,
		Cases: each(budget.Cases, func(c *reports.BudgetCase) budgetCase { return budgetCase{c.Aboard, each(c.Lines, budgetLineOf)} }),
		Owned: each(budget.Owned, func(o *reports.BudgetOwned) budgetOwned {
			return budgetOwned{o.Key, number(o.Hours), number(o.PerHour), number(o.Cost), number(o.PerJob)}
		}),
		Notes: append([]string{}, budget.Notes...), Caution: budget.Caution,
	})
}

func budgetLineOf(l *reports.BudgetLine) budgetLine {
	return budgetLine{l.Key, l.Unit, estimateOf(l.Expected), estimateOf(l.Enough80), estimateOf(l.Enough95)}
}
