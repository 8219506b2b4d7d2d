package workbook

import (
	"fmt"
	"math"
	"runtime"
	"strconv"
	"strings"
	"sync"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/sensitivity"
	"shopstint/rental"
	"shopstint/reports/workbook/grid"
)

// listCases lists the cases: the plan, both ends of every lever, the two-way
// tables, and the reader's own. Moved values are read from the sensitivity.
func (b *book) listCases() {
	c := &b.cases
	planned := b.plannedCase()
	none := [2]sensitivity.Lever{sensitivity.Levers, sensitivity.Levers}
	c.rows = []caseRow{{name: "as planned", levers: none, values: planned}}
	for l := range sensitivity.Levers {
		for i, word := range [...]string{"low", "high"} {
			row := caseRow{name: l.Label() + ": " + word, levers: [2]sensitivity.Lever{l, sensitivity.Levers}, values: planned}
			row.places[0] = grid.SheetRef(sheetSensitivity, tornadoRow(l), tornadoLow+i)
			b.moveTo(&row, 0, b.leverAt(l, 0, [...]end{atLow, atHigh}[i]).value)
			c.rows = append(c.rows, row)
		}
	}
	for n := range b.twoWays() {
		c.rows = append(c.rows, b.tableCases(n, planned)...)
	}
	for i := range ownCases {
		c.rows = append(c.rows, caseRow{name: fmt.Sprintf("your case %d", i+1), levers: none, values: planned, own: true})
	}
}

// plannedCase is the plan in SI, by way of what the cells show.
func (b *book) plannedCase() sensitivity.Case {
	var planned sensitivity.Case
	for l := range sensitivity.Levers {
		shown, _, _ := b.leverUnit(l)
		planned[l] = b.leverAt(l, 0, atValue).value * shown.size
	}
	return planned
}

// moveTo moves the first or second lever of a case to a value as shown.
func (b *book) moveTo(row *caseRow, i int, shown float64) {
	unit, _, _ := b.leverUnit(row.levers[i])
	row.to[i] = shown
	row.values[row.levers[i]] = shown * unit.size
}

// tableCases are the cases of one two-way table, row by row.
func (b *book) tableCases(n int, planned sensitivity.Case) []caseRow {
	t := b.twoWays()[n]
	down, across := b.axis(t.down, t.downSteps), b.axis(t.across, t.acrossSteps)
	var rows []caseRow
	for i := range twoWaySteps {
		for j := range twoWaySteps {
			row := caseRow{name: fmt.Sprintf("table %d, row %d, column %d", n+1, i+1, j+1), levers: [2]sensitivity.Lever{t.down, t.across}, values: planned}
			row.names = [2]string{t.place(t.at+1, 1), t.place(t.at+2, 1)}
			row.places = [2]string{t.place(t.at+4+i, 0), t.place(t.at+3, 1+j)}
			b.moveTo(&row, 0, down[i])
			b.moveTo(&row, 1, across[j])
			rows = append(rows, row)
		}
	}
	return rows
}

// outcomes reckons every case; those of the reader are the plan until edited.
func (b *book) outcomes() []sensitivity.Outcome {
	rows := b.cases.rows
	outcomes := make([]sensitivity.Outcome, len(rows))
	workers := min(runtime.GOMAXPROCS(0), len(rows))
	var wait sync.WaitGroup
	for w := range workers {
		wait.Go(func() {
			setting := sensitivity.New(b.study, b.answer.Plan, &b.answer.Rented, &b.answer.Machines[0].Rent, 0)
			for i := w; i < len(rows); i += workers {
				outcomes[i] = setting.Reckon(rows[i].values)
			}
		})
	}
	wait.Wait()
	return outcomes
}

// fillCases writes the cases with their values, and the sensitivity that reads
// them: row by row, since a sheet in order is written fastest.
func (b *book) fillCases(p page, formulas map[int]string) {
	c, outcomes := &b.cases, b.outcomes()
	b.fillSensitivity(outcomes)
	columns := make([]caseColumn, 0, len(formulas)+len(c.arrays))
	visits := b.caseVisits()
	for at := caseLever; at <= c.net+b.horizon(); at++ {
		column := caseColumn{b: b, at: at, array: c.arrays[at-c.result(0)], visits: visits}
		column.plain, column.open = column.styles()
		if column.array == "" {
			column.down = p.Down(casePlanned, at, len(c.rows), formulas[at])
		}
		columns = append(columns, column)
	}
	for i := range c.rows {
		b.caseHead(p, casePlanned+i, &c.rows[i])
		for k := range columns {
			columns[k].write(p, i, &c.rows[i], &outcomes[i])
		}
	}
}

// caseHead names a case and what it moves.
func (b *book) caseHead(p page, at int, row *caseRow) {
	p.text(at, caseName, row.name, plain)
	for i := range row.levers {
		name, to, style := caseFirst+2*i, caseFirstTo+2*i, plain
		if row.own {
			style = editable
		}
		switch l := row.levers[i]; {
		case l == sensitivity.Levers && row.own:
			p.Set(at, name, grid.Cell{Style: style})
			p.Set(at, to, grid.Cell{Style: style})
		case l == sensitivity.Levers:
		case row.names[i] != "":
			p.calc(at, name, row.names[i], l.Label(), style)
			p.calc(at, to, row.places[i], row.to[i], numbers("#,##0.####"))
		default:
			p.text(at, name, l.Label(), style)
			p.calc(at, to, row.places[i], row.to[i], numbers("#,##0.####"))
		}
	}
}

// caseColumn is one column of the cases.
type caseColumn struct {
	b           *book
	at          int
	visits      []caseVisit
	array       string     // its formula in anyRow, where each cell is an array
	down        *grid.Down // else
	plain, open grid.Style
}

// write places the column's cell of one case.
func (k *caseColumn) write(p page, i int, row *caseRow, out *sensitivity.Outcome) {
	style := k.plain
	if row.own && k.at < k.b.cases.result(0) {
		style = k.open
	}
	value, at := k.value(row, out), casePlanned+i
	if k.down != nil {
		k.down.Set(i, value, style)
		return
	}
	p.Set(at, k.at, grid.Cell{Formula: strings.ReplaceAll(k.array, anyRow, strconv.Itoa(at)), Array: true, Value: value, Style: style})
}

// styles are the look of the column, and of a cell of it that may be typed over.
func (k *caseColumn) styles() (plain, open grid.Style) {
	c := &k.b.cases
	plain = memo(asMoney)
	switch {
	case k.at < c.result(0):
		plain = numbers(k.b.leverFormat(sensitivity.Lever(k.at - caseLever)))
	case k.at == c.result(caseVerdict):
		plain = grid.Style{}
	case k.at <= c.result(caseAgainst):
		plain = numbers(asMoney0)
	case k.at < c.time:
		plain = memo(asMoney0)
	case k.at >= c.age && k.at < c.value:
		plain = memo(asCount)
	case k.at >= c.deducted && k.at < c.running:
		plain = memo(asPercent)
	}
	open = plain
	open.Fill, open.Unlocked, open.Border = straw, true, grid.BorderBox
	return plain, open
}

// value is the engine's figure of one case in the column.
func (k *caseColumn) value(row *caseRow, out *sensitivity.Outcome) any {
	c := &k.b.cases
	table := &out.Owner.Table
	switch {
	case k.at < c.result(0):
		l := sensitivity.Lever(k.at - caseLever)
		unit, _, _ := k.b.leverUnit(l)
		return row.values[l] / unit.size
	case k.at < c.time:
		return k.result(row, out, k.at-c.result(0))
	case k.at < c.invoice:
		return k.time(out, k.at-c.time)
	case k.at < c.age:
		visit := k.visit(out, k.at-c.invoice)
		return visit.Shop
	case k.at < c.value:
		return table[capital.Age][k.at-c.age+1]
	case k.at < c.owed:
		return table[capital.Value][k.at-c.value+1]
	case k.at < c.deducted:
		return table[capital.Owed][k.at-c.owed+1]
	case k.at < c.running:
		return out.Deducted[k.at-c.deducted+1]
	case k.at < c.net:
		return out.Owner.RunningCost(k.at - c.running + 1)
	}
	return table[capital.Net][k.at-c.net]
}

func (k *caseColumn) result(row *caseRow, out *sensitivity.Outcome, result int) any {
	tax := row.values[sensitivity.TaxRate]
	saved := func(part func(y alternative.Year) float64) float64 { return out.PresentOf(tax, part) }
	switch result {
	case caseSavedYear:
		return out.SavedAnnual
	case caseOwningYear:
		return out.OwningAnnual
	case caseBetter:
		return out.Annual
	case caseAgainst:
		return out.Annual - k.b.answer.Machines[0].Annual
	case caseVerdict:
		return out.Verdict.String()
	case caseSaved:
		return out.Saved
	case caseOwning:
		return out.Owning
	case caseInvoices:
		return saved(func(y alternative.Year) float64 { return y.Shop })
	case caseTravel:
		return saved(func(y alternative.Year) float64 { return y.Travel })
	case caseOwnTime:
		return saved(func(y alternative.Year) float64 { return y.Labour })
	case caseBench:
		return saved(func(y alternative.Year) float64 { return y.BenchLabour + y.BenchWear })
	}
	return saved(func(y alternative.Year) float64 { return y.Fee + y.Induction })
}

// visit is the priced visit of a column; the zero visit where the machine at
// hand has none.
func (k *caseColumn) visit(out *sensitivity.Outcome, i int) *rental.Visit {
	v := k.visits[i]
	if !k.b.counted(v) {
		return &rental.Visit{}
	}
	row, rent := &k.b.visits.rows[v.line], &out.Rented
	if v.slot > 0 {
		rent = &out.Beside
	}
	if row.rework {
		return &rent.Jobs[row.job].Rework
	}
	return &rent.Jobs[row.job].Visits[row.aboard-1]
}

func (k *caseColumn) time(out *sensitivity.Outcome, i int) float64 {
	visit := k.visit(out, i)
	if visit.Billed == 0 {
		return 0
	}
	return math.Min(visit.Clock, math.Min(visit.WithHalfDay, visit.WholeDays))
}
