package workbook_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/capital/decision/sensitivity"
	"shopstint/model"
	"shopstint/reports/workbook"
	"shopstint/reports/workbook/recalc"
)

// caseTable reads the sheet of cases: column letters by title, and rows.
type caseTable struct {
	cells   map[string]recalc.Value
	columns map[string]string
}

const firstCase, caseTitles = 6, "4"

func casesOf(sheets recalc.Sheets) caseTable {
	table := caseTable{cells: sheets["Cases"], columns: map[string]string{}}
	for ref, value := range table.cells {
		column := strings.TrimRight(ref, "0123456789")
		if ref[len(column):] == caseTitles {
			table.columns[value.Text] = column
		}
	}
	return table
}

func (c caseTable) at(title string, row int) recalc.Value {
	return c.cells[c.columns[title]+strconv.Itoa(row)]
}

// row finds a case by its name.
func (c caseTable) row(t testing.TB, name string) int {
	t.Helper()
	for ref, value := range c.cells {
		if strings.HasPrefix(ref, "A") && value.Text == name {
			row, err := strconv.Atoi(ref[1:])
			require.NoError(t, err)
			return row
		}
	}
	require.Failf(t, "no such case", "%s", name)
	return 0
}

// values are the levers of a case as the engine takes them.
func (c caseTable) values(t testing.TB, study *model.Study, machine, shop string, row int) sensitivity.Case {
	t.Helper()
	var values sensitivity.Case
	for l := range sensitivity.Levers {
		cell := c.at(l.Label(), row)
		require.Equal(t, recalc.Numeric, cell.Kind, "%s in row %d", l.Label(), row)
		values[l] = cell.Number
		model.Walk(study, func(leaf model.Leaf) {
			if leaf.Path == l.Path(machine, shop) {
				values[l] = workbook.Inward(study, leaf, cell.Number)
			}
		})
	}
	return values
}

// assertCases holds every case of a recalculated workbook to the engine on the
// values that stand in the case's own row, and returns how many there are.
func assertCases(t *testing.T, answer *decision.Answer, machine int, sheets recalc.Sheets, label string) int {
	t.Helper()
	study, table := answer.Study, casesOf(sheets)
	setting := sensitivity.New(study, answer.Plan, &answer.Rented, &answer.Machines[machine].Rent, machine)
	shop := study.Shops[sensitivity.ShopOf(study, answer.Plan, machine)].Key
	count := 0
	for row := firstCase; table.cells["A"+strconv.Itoa(row)].Text != ""; row++ {
		want := setting.Reckon(table.values(t, study, study.Machines[machine].Key, shop, row))
		for title, figure := range map[string]float64{
			"renting saved a year": want.SavedAnnual, "owning a year": want.OwningAnnual, "owning is better by, a year": want.Annual,
			"saved, present": want.Saved, "owning, present": want.Owning,
		} {
			got := table.at(title, row)
			if !assert.True(t, recalc.Close(figure, got.Number, tolerance), "%s, row %d (%s): %s is %v, the engine says %v", label, row, table.cells["A"+strconv.Itoa(row)].Text, title, got, figure) {
				return count
			}
		}
		assert.Equal(t, want.Verdict.String(), table.at("answer", row).Text, "%s, row %d", label, row)
		count++
	}
	return count
}

// ownSets moves every lever in one of the reader's own cases, alone or with
// another one, each set of cases on another machine.
func ownSets(t testing.TB, s *model.Study, table caseTable) (sets [][]recalc.Edit, machines []int) {
	const own = 6
	moves := 0
	for m := 1; moves < 2*int(sensitivity.Levers); m += 2 {
		m := m % len(s.Machines)
		set := []recalc.Edit{{Sheet: "Sensitivity", Cell: "B3", Value: s.Machines[m].Key}}
		for i := range own {
			row := strconv.Itoa(table.row(t, fmt.Sprintf("your case %d", i+1)))
			first, second := sensitivity.Lever(moves)%sensitivity.Levers, sensitivity.Lever(moves+7)%sensitivity.Levers
			moves += 2
			set = append(set, recalc.Edit{Sheet: "Cases", Cell: "B" + row, Value: first.Label()}, recalc.Edit{Sheet: "Cases", Cell: "C" + row, Value: moved(table, first, 0.5)},
				recalc.Edit{Sheet: "Cases", Cell: "D" + row, Value: second.Label()}, recalc.Edit{Sheet: "Cases", Cell: "E" + row, Value: moved(table, second, 1.5)})
		}
		sets, machines = append(sets, set), append(machines, m)
	}
	return sets, machines
}

func TestEveryKindOfInputMayBeMovedInACaseWhicheverMachineIsChosen(t *testing.T) {
	s := demoStudy(t)
	answer := decision.Decide(s)
	file := kept(t, "demo.xlsx", writtenOf(t, &answer))
	cached, _ := recalc.Cached(t, file)
	sets, machines := ownSets(t, s, casesOf(cached))
	seen := map[sensitivity.Lever]bool{}
	for i, got := range recalc.LibreOffice(t).RecalculateEach(t, file, sets) {
		key, now := s.Machines[machines[i]].Key, casesOf(got)
		assert.Greater(t, assertCases(t, &answer, machines[i], got, key), 100)
		for l := range sensitivity.Levers {
			for n := range 6 {
				row := now.row(t, fmt.Sprintf("your case %d", n+1))
				seen[l] = seen[l] || now.at(l.Label(), firstCase).Number != now.at(l.Label(), row).Number
			}
		}
	}
	assert.Len(t, seen, int(sensitivity.Levers))
	for l, moved := range seen {
		assert.True(t, moved, l.Label())
	}
}

// moved is a lever's planned value, times something; years stay whole.
func moved(table caseTable, l sensitivity.Lever, times float64) float64 {
	value := table.at(l.Label(), firstCase).Number * times
	if l == sensitivity.YearsKept {
		return float64(int(value))
	}
	return value
}

func TestACaseIsAddedByCopyingARow(t *testing.T) {
	s := demoStudy(t)
	answer := decision.Decide(s)
	file := kept(t, "demo.xlsx", writtenOf(t, &answer))
	cached, _ := recalc.Cached(t, file)
	table := casesOf(cached)
	from := table.row(t, "your case 6")
	typed := []recalc.Edit{}
	for column, value := range map[string]any{"A": "added", "B": sensitivity.Rates.Label(), "C": 1.4, "D": sensitivity.YearsKept.Label(), "E": 4.0} {
		typed = append(typed, recalc.Edit{Sheet: "Cases", Cell: column + strconv.Itoa(from+1), Value: value})
	}
	added := recalc.LibreOffice(t).RecalculateCopied(t, file, recalc.CopiedRow{Sheet: "Cases", From: from, To: from + 1}, typed)
	now := casesOf(added)
	row := now.row(t, "added")
	assert.Equal(t, 1.4, now.at(sensitivity.Rates.Label(), row).Number)
	assert.Equal(t, 4.0, now.at(sensitivity.YearsKept.Label(), row).Number)
	assert.Equal(t, row-firstCase+1, assertCases(t, &answer, 0, added, "added"))
}
