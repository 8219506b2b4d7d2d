package reports_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/spend"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/reports"
)

func spending(t *testing.T, owning decision.Owning, choice string, change func(*model.Study)) (*spend.Spend, reports.Spending) {
	t.Helper()
	s := studygen.Round()
	if change != nil {
		change(s)
	}
	found, err := decision.Spending(context.Background(), s, owning, spend.Options{}, futures.Options{})
	require.NoError(t, err)
	return found, reports.SpendingOf(found, choice, reports.Plain)
}

func lineOf(t *testing.T, table *reports.SpendTable, key string) reports.SpendLine {
	t.Helper()
	for _, line := range table.Lines {
		if line.Key == key {
			return line
		}
	}
	require.Fail(t, "no line", key)
	return reports.SpendLine{}
}

// What is in both sums and what is only in one add up to it, in every period.
func TestTheLinesOfSpendingAddUpToTheirSums(t *testing.T) {
	found, said := spending(t, decision.Owning{Named: []bool{true, true}}, reports.ChoiceOwning, nil)
	for _, table := range []*reports.SpendTable{&said.Years, &said.Months} {
		for i := range table.Periods {
			cash, cost := 0.0, 0.0
			for _, line := range table.Lines {
				switch line.In {
				case reports.InBoth:
					cash, cost = cash+line.Amounts[i], cost+line.Amounts[i]
				case reports.InCash:
					cash += line.Amounts[i]
				case reports.InCost:
					cost += line.Amounts[i]
				}
			}
			assert.InDelta(t, cash, lineOf(t, table, "cash").Amounts[i], 1e-6)
			assert.InDelta(t, cost, lineOf(t, table, "cost").Amounts[i], 1e-6)
		}
	}
	assert.Equal(t, found.Years[1].CostSum(), lineOf(t, &said.Years, "cost").Amounts[1])
	assert.Equal(t, []string{"2026", "2027", "2028"}, said.Years.Periods)
}

func TestSpendingSaysWhichMachinesItHasOwned(t *testing.T) {
	for _, row := range []struct {
		owning decision.Owning
		choice string
		price  model.Machine
		says   string
	}{
		{decision.Owning{Named: []bool{false, false}}, reports.ChoiceOwning, model.Machine{}, "renting everything"},
		{decision.Owning{Named: []bool{true, false}}, reports.ChoiceOwning, model.Machine{}, "owning planer_own, bought at the start of 2026; the rest is rented"},
		{decision.Owning{}, reports.ChoiceTogether, model.Machine{Price: 1e7}, "renting everything, which is the cheapest"},
		{decision.Owning{Roadmap: true}, reports.ChoiceRoadmap, model.Machine{Price: 1e7}, "renting everything in all years, as the roadmap says"},
		{decision.Owning{}, reports.ChoiceTogether, model.Machine{Price: 10}, "the cheapest set to own together"},
		{decision.Owning{Roadmap: true}, reports.ChoiceRoadmap, model.Machine{Price: 10}, "along the roadmap, which owns "},
	} {
		_, said := spending(t, row.owning, row.choice, func(s *model.Study) {
			for m := range s.Machines {
				if row.price.Price > 0 {
					s.Machines[m].Price, s.Machines[m].NewPrice = row.price.Price, row.price.Price
				}
			}
		})
		assert.Contains(t, said.ChoiceInWords, row.says)
		assert.Equal(t, len(said.Machines) > 0, strings.Contains(strings.Join(said.Notes, " "), "what is still owned counts as sold"))
	}
}

func TestDueDatesAndReservesAreWorded(t *testing.T) {
	_, said := spending(t, decision.Owning{Named: []bool{true, true}}, reports.ChoiceOwning, func(s *model.Study) {
		s.Machines[0].RiggingOut = 5000
		s.Abrasives[0].Life = 43.2 // the belt of grit 80
	})
	var words []string
	for _, due := range said.Due {
		words = append(words, due.InWords)
	}
	all := strings.Join(words, "\n")
	assert.Contains(t, all, "belt_own, belt: new from 2026-04-01, ")
	assert.Contains(t, all, "planer_own, knives: sharpen not within the study, new not within the study")
	assert.Contains(t, said.Reserves[0].InWords, "moving the old one out takes 2732 more than it brings")
	assert.Equal(t, "2026-01-01: planer_own bought, 4000 leaves the account", said.Events[0].InWords)
}

func TestAStudyWithoutARoadmapSaysSo(t *testing.T) {
	s := studygen.Round()
	for len(s.Machines) < 15 {
		one := s.Machines[0]
		one.Key += string(rune('a' + len(s.Machines)))
		s.Machines = append(s.Machines, one)
	}
	_, err := decision.Spending(context.Background(), s, decision.Owning{Roadmap: true}, spend.Options{}, futures.Options{})
	var none *decision.NoRoadmapError
	require.ErrorAs(t, err, &none)
	assert.NotEmpty(t, none.Why)
}

func TestMonthsAreNamedFromADay(t *testing.T) {
	assert.Equal(t, "Nov 2026", reports.MonthAfter("2026-11-30", 0))
	assert.Equal(t, "Dec", reports.MonthAfter("2026-11-30", 1))
	assert.Equal(t, "Jan 2027", reports.MonthAfter("2026-11-30", 2))
	assert.Equal(t, "Feb", reports.MonthAfter("2026-11-30", 3))
}
