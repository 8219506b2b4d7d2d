package workbook_test

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/capital/decision/booking"
	"shopstint/capital/decision/budget"
	"shopstint/capital/decision/futures"
	"shopstint/reports"
	"shopstint/reports/workbook"
	"shopstint/reports/workbook/recalc"
)

// whole is the demo's workbook with everything that may be asked for.
func whole(t testing.TB) (path string, answer decision.Answer, plan booking.Plan) {
	t.Helper()
	s := demoStudy(t)
	answer = decision.Decide(s)
	require.NoError(t, answer.Draw(context.Background(), futures.Options{Seed: futures.Seed, Most: 256, Workers: 2}))
	plan, problems, err := booking.Book(s, booking.Options{Limits: booking.Brief()})
	require.NoError(t, err)
	require.Empty(t, problems)
	said := reports.PlanVisits(&plan, reports.Grouped)
	var content bytes.Buffer
	var budgets []reports.Budget
	for job := range s.JobTypes {
		drawn, err := budget.Of(context.Background(), s, job, budget.Options{Seed: futures.Seed})
		require.NoError(t, err)
		budgets = append(budgets, reports.BudgetOf(s, drawn, futures.Seed, reports.Grouped))
	}
	options := workbook.Options{Budgets: budgets, Created: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), Visits: &workbook.Visits{Plan: &said}}
	require.NoError(t, workbook.Write(&content, &answer, options))
	return kept(t, "whole.xlsx", content.Bytes()), answer, plan
}

// numbersOn are the numbers of a sheet.
func numbersOn(sheet map[string]recalc.Value) []float64 {
	var list []float64
	for _, value := range sheet {
		if value.Kind == recalc.Numeric {
			list = append(list, value.Number)
		}
	}
	return list
}

func TestSheetsOfWhatWasSolvedShowTheEnginesFigures(t *testing.T) {
	path, answer, plan := whole(t)
	cached, formulas := recalc.Cached(t, path)
	together, years, chances, visits := numbersOn(cached["Together"]), numbersOn(cached["Roadmap"]), numbersOn(cached["Futures"]), numbersOn(cached["Visit plan"])
	for _, choice := range answer.Joint.Choices {
		assert.Contains(t, together, choice.Annual)
		assert.Contains(t, together, choice.Cash)
	}
	for a := range answer.Joint.After {
		for m, worth := range answer.Joint.After[a] {
			if a != m {
				assert.Contains(t, together, worth)
			}
		}
	}
	for _, year := range answer.Roadmap.Best.Years {
		assert.Contains(t, years, year.Spent)
		for _, paid := range year.Paid {
			assert.Contains(t, years, paid)
		}
	}
	for _, choice := range answer.Futures.Choices {
		assert.Contains(t, chances, choice.Difference.Mean.Value)
		assert.Contains(t, chances, choice.Cheapest.Value)
	}
	prices := numbersOn(cached["Job prices"])
	for job := range answer.Study.JobTypes {
		drawn, err := budget.Of(context.Background(), answer.Study, job, budget.Options{Seed: futures.Seed})
		require.NoError(t, err)
		total := drawn.Alone.Lines[budget.Total]
		assert.Subset(t, prices, []float64{total.Expected.Value, total.Enough80.Value, total.Enough95.Value})
	}
	for _, visit := range plan.Visits {
		assert.Contains(t, visits, visit.Total)
	}
	assert.True(t, slices.ContainsFunc(visits, func(x float64) bool { return recalc.Close(x, plan.Cost, tolerance) }), "the sum of the visits")
	yearly, monthly, due := numbersOn(cached["Yearly spend"]), numbersOn(cached["Monthly spend"]), numbersOn(cached["Replacements"])
	for y := range answer.Spend.Years {
		assert.Subset(t, yearly, []float64{answer.Spend.Years[y].CashSum(), answer.Spend.Years[y].CostSum(), answer.Spend.YearRanges[y].Cash.High})
	}
	for m := range answer.Spend.Months {
		assert.Subset(t, monthly, []float64{answer.Spend.Months[m].CashSum(), answer.Spend.Months[m].CostSum(), answer.Spend.MonthRanges[m].Cost.Low})
	}
	for _, rate := range answer.Spend.Rates {
		assert.Contains(t, due, rate.With())
	}
	for _, reserve := range answer.Spend.Reserves {
		assert.Contains(t, due, reserve.Monthly)
	}
	for _, sheet := range []string{"Together", "Roadmap", "Yearly spend", "Monthly spend", "Replacements", "Futures", "Job prices", "Visit plan"} {
		stamped := false
		for _, value := range cached[sheet] {
			stamped = stamped || value.Text == "current: solved for these inputs"
		}
		assert.True(t, stamped, "%s carries no stamp", sheet)
		assert.NotEmpty(t, formulas[sheet], sheet)
	}
}

func TestAPlanOfVisitsThatCannotBeSaysWhy(t *testing.T) {
	answer := decision.Decide(demoStudy(t))
	var content bytes.Buffer
	require.NoError(t, workbook.Write(&content, &answer, workbook.Options{Visits: &workbook.Visits{Why: "dated_jobs.lee: longer than the bed"}}))
	cached, _ := recalc.Cached(t, kept(t, "why.xlsx", content.Bytes()))
	assert.Equal(t, "No plan: dated_jobs.lee: longer than the bed", cached["Visit plan"]["A2"].Text)
}

func TestWhereNothingMayBeOwnedTheFuturesStillHaveTheirSheet(t *testing.T) {
	s := demoStudy(t)
	s.Studio.Budget = 1
	answer := decision.Decide(s)
	require.NoError(t, answer.Draw(context.Background(), futures.Options{Most: 64}))
	var content bytes.Buffer
	require.NoError(t, workbook.Write(&content, &answer, workbook.Options{}))
	cached, _ := recalc.Cached(t, kept(t, "held.xlsx", content.Bytes()))
	said := false
	for _, value := range cached["Futures"] {
		said = said || strings.HasPrefix(value.Text, "63 of 64 sets may not be owned and are no choice")
	}
	assert.True(t, said)
}
