package decision_test

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/booking"
	"shopstint/capital/decision/budget"
	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/single"
	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/logbook"
	"shopstint/model/money"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/model/wear"
)

// inUnits is a study whose every amount of money, found by its dimension, is multiplied
// and paid in another currency. A range goes with its input.
func inUnits(t testing.TB, s *model.Study, factor float64, code string) *model.Study {
	t.Helper()
	twin := s.Clone()
	twin.Currency = code
	var err error
	twin.Money, err = money.ParseCurrency(code)
	require.NoError(t, err)
	twin.Origins = maps.Clone(s.Origins)
	model.Walk(twin, func(leaf model.Leaf) {
		if dim, ok := leaf.Dimension(); !ok || !dim.IsMoney() {
			return
		}
		leaf.SetNumber(leaf.Number() * factor)
		if origin, ok := twin.Origins[leaf.Path]; ok {
			origin.Low, origin.High = origin.Low*factor, origin.High*factor
			twin.Origins[leaf.Path] = origin
		}
	})
	return twin
}

// reckoned is all that is reckoned of a study.
type reckoned struct {
	Answer  decision.Answer
	Wear    wear.Result
	Visits  booking.Plan
	Budgets []*budget.Result
}

func reckon(t testing.TB, s *model.Study) (all reckoned) {
	t.Helper()
	all.Answer = decision.Decide(s)
	require.NoError(t, all.Answer.Draw(context.Background(), futures.Options{Seed: 1, Most: 128, Workers: 2}))
	all.Wear = wear.Of(s, all.Answer.Plan)
	var err error
	all.Visits, _, err = booking.Book(s, booking.Options{Limits: booking.Brief()})
	require.NoError(t, err)
	one, err := budget.Of(context.Background(), s, 0, budget.Options{Seed: 1})
	require.NoError(t, err)
	all.Budgets = append(all.Budgets, one)
	return all
}

// beside walks through two values of one type side by side and collects, for each place
// in the types, how the one's numbers stand to the other's.
type beside struct {
	factor float64
	places map[string]*standing
	seen   map[[2]uintptr]bool
	money  map[string]bool // paths of inputs that are money
	words  *strings.Replacer
	faults []string
}

// standing counts numbers by how they stand: the same, or multiplied.
type standing struct{ same, times int }

// near is how close two numbers are that differ by dust alone; futures keep costs in float32.
const near, nearInFutures = 1e-7, 1e-5

func (b *beside) walk(place string, x, y reflect.Value) {
	switch x.Kind() {
	case reflect.Float64, reflect.Float32:
		b.number(place, x.Float(), y.Float())
	case reflect.Pointer, reflect.Interface:
		b.through(place, x, y)
	case reflect.Struct:
		if x.Type() == reflect.TypeFor[model.Study]() || x.Type() == reflect.TypeFor[money.Currency]() {
			return // what went in
		}
		place += b.kindOf(x)
		for i := range x.NumField() {
			if x.Type() == reflect.TypeFor[single.Swing]() && x.Type().Field(i).Name == "Switch" {
				b.turning(place, x, y)
				continue
			}
			if x.Type().Field(i).Name == "Nodes" {
				continue // how much was looked at may hang on dust, what was found may not
			}
			b.walk(place+"."+x.Type().Field(i).Name, x.Field(i), y.Field(i))
		}
	case reflect.Slice:
		b.list(place, x, y)
	case reflect.Array: // of lines that have a number: each is a place of its own
		for i := range x.Len() {
			b.walk(fmt.Sprintf("%s[%d]", place, i), x.Index(i), y.Index(i))
		}
	case reflect.Map:
		for _, key := range x.MapKeys() {
			if other := y.MapIndex(key); other.IsValid() {
				b.walk(place+"[]", x.MapIndex(key), other)
			} else {
				b.fault(place, key, "missing")
			}
		}
	case reflect.String:
		if b.words.Replace(x.String()) != y.String() {
			b.fault(place, x, y)
		}
	case reflect.Func, reflect.Chan, reflect.UnsafePointer:
	default:
		if !x.Equal(y) {
			b.fault(place, x, y)
		}
	}
}

// kindOf tells structs of one type apart that hold money in one case and none in another:
// by what their input, or the quantity that they are about, measures.
func (b *beside) kindOf(x reflect.Value) string {
	kind := ""
	for i := range x.NumField() {
		switch field := x.Type().Field(i); {
		case field.Name == "Dimension" && field.Type == reflect.TypeFor[quantity.Dimension]():
			kind += fmt.Sprintf("(%t)", quantity.Dimension(x.Field(i).Int()).IsMoney())
		case field.Name == "Path" && field.Type.Kind() == reflect.String:
			kind += fmt.Sprintf("(%t)", b.money[x.Field(i).String()])
		}
	}
	return kind
}

// turning compares the values at which an input turns the answer, which are found to a
// thousandth of the way to the end of the range.
func (b *beside) turning(place string, x, y reflect.Value) {
	factor, was, is := 1.0, x.FieldByName("Switch").Float(), y.FieldByName("Switch").Float()
	if b.money[x.FieldByName("Path").String()] {
		factor = b.factor
	}
	if reach := factor * (x.FieldByName("High").Float() - x.FieldByName("Low").Float()); math.Abs(was*factor-is) > 1e-3*reach+near*math.Abs(is) {
		b.fault(place+".Switch", was, is)
	}
}

func (b *beside) list(place string, x, y reflect.Value) {
	if x.Len() != y.Len() {
		b.fault(place, x.Len(), y.Len())
		return
	}
	for i := range x.Len() {
		b.walk(place+"[]", x.Index(i), y.Index(i))
	}
}

func (b *beside) through(place string, x, y reflect.Value) {
	if x.IsNil() || y.IsNil() {
		if x.IsNil() != y.IsNil() {
			b.fault(place, x.IsNil(), y.IsNil())
		}
		return
	}
	if x.Kind() == reflect.Pointer {
		pair := [2]uintptr{x.Pointer(), y.Pointer()}
		if b.seen[pair] {
			return
		}
		b.seen[pair] = true
	}
	b.walk(place, x.Elem(), y.Elem())
}

func (b *beside) number(place string, x, y float64) {
	at := b.places[place]
	if at == nil {
		at = &standing{}
		b.places[place] = at
	}
	near := near
	if strings.Contains(place, ".Futures.") {
		near = nearInFutures
	}
	close := func(want, got float64) bool {
		return want == got || math.Abs(got-want) <= near*max(math.Abs(want), math.Abs(got))
	}
	dust := near * max(1, b.factor) // of sums that come to nothing
	switch {
	case math.Abs(x) <= near && math.Abs(y) <= dust, math.IsInf(x, 0) && x == y, math.IsNaN(x) && math.IsNaN(y):
	case close(x, y):
		at.same++
	case close(x*b.factor, y):
		at.times++
	default:
		b.fault(place, x, y)
	}
}

func (b *beside) fault(place string, x, y any) {
	b.faults = append(b.faults, fmt.Sprintf("%s: %v and %v", place, x, y))
}

// besideOf begins to compare what is reckoned of a study; standings are added to places.
func besideOf(s *model.Study, factor float64, places map[string]*standing) *beside {
	b := &beside{factor: factor, places: places, seen: map[[2]uintptr]bool{}, money: map[string]bool{}, words: strings.NewReplacer()}
	model.Walk(s, func(leaf model.Leaf) {
		dim, _ := leaf.Dimension()
		b.money[leaf.Path] = dim.IsMoney()
	})
	return b
}

func (b *beside) compare(x, y any) { b.walk("", reflect.ValueOf(x), reflect.ValueOf(y)) }

// told is what was found, no longer than one can read.
func (b *beside) told() []string { return b.faults[:min(12, len(b.faults))] }

// units are pairs of currencies whose smallest units are as many powers of ten apart as
// the amounts, so that no rounding falls otherwise.
var units = []struct {
	from, to string
	factor   float64
}{{"KWD", "JPY", 1000}, {"EUR", "JPY", 100}, {"JPY", "KWD", 0.001}, {"KWD", "EUR", 10}}

// TestAStudyInOtherUnitsOfMoneyGivesTheSameAnswerInThem multiplies every amount of a
// study and wants every number of the answer multiplied or the same: years, verdicts,
// hours and break-even quantities stay, money goes along.
func TestAStudyInOtherUnitsOfMoneyGivesTheSameAnswerInThem(t *testing.T) {
	places := map[string]*standing{}
	for seed, unit := range units {
		base := inUnits(t, studygen.Study(uint64(seed)+1), 1, unit.from)
		b := besideOf(base, unit.factor, places)
		b.words = strings.NewReplacer(unit.from, unit.to)
		b.compare(reckon(t, base), reckon(t, inUnits(t, base, unit.factor, unit.to)))
		assert.Empty(t, b.told(), "seed %d, %s to %s", seed+1, unit.from, unit.to)
	}
	for place, at := range places {
		assert.False(t, at.same > 0 && at.times > 0, "%s is money %d times and none %d times", place, at.times, at.same)
	}
	for _, place := range []string{
		".Answer.Present", ".Answer.Machines[].Saved", ".Answer.Machines[].Owner.Ownership.Present", ".Answer.Joint.Choices[].Present", ".Answer.Roadmap.Best.Present",
		".Answer.Spend.Course.Present", ".Answer.Futures.Choices[].Regret.Value", ".Visits.Visits[].Visit.Shop", ".Wear.Edges[].Cost", ".Budgets[].Alone.Lines[8].Expected.Value",
		".Answer.Comparisons[].Ways[].Line.Unit", ".Answer.Machines[].BreakEvens[](true).Crossings[]",
	} {
		if assert.Contains(t, places, place) {
			assert.Positive(t, places[place].times, "%s is money", place)
		}
	}
	for _, place := range []string{
		".Answer.Machines[].Jobs", ".Answer.Machines[].Returns[]", ".Answer.Machines[].BreakEvens[](false).Crossings[]", ".Answer.Plan.Rows[].PerJob",
		".Answer.Futures.Choices[].Better.Value", ".Visits.Visits[].Visit.Paid", ".Budgets[].Alone.Lines[0].Expected.Value",
	} {
		if assert.Contains(t, places, place) {
			assert.Positive(t, places[place].same, "%s is no money", place)
		}
	}
}

// TestALogbookInOtherUnitsOfMoneyTellsTheSame multiplies the demo and what its logbook says was paid.
func TestALogbookInOtherUnitsOfMoneyTellsTheSame(t *testing.T) {
	read, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	tracked := func(s *model.Study, factor float64) *track.Result {
		tracker := track.New(s)
		problems, err := logbook.Read("log.csv", bytes.NewReader(demo.Log()), s, func(entry logbook.Entry) error {
			entry.Amount *= quantity.Money(factor)
			return tracker.Add(entry)
		})
		require.NoError(t, err)
		require.Empty(t, problems)
		return tracker.Result()
	}
	places := map[string]*standing{}
	b := besideOf(read, 100, places)
	b.compare(*tracked(read, 1), *tracked(inUnits(t, read, 100, "JPY"), 100))
	assert.Empty(t, b.told())
	for _, place := range []string{".Visits[].Paid", ".Wear[](false).Paid", ".Suggestions[](true)(true).New"} {
		if assert.Contains(t, places, place) {
			assert.Positive(t, places[place].times, place)
		}
	}
	for _, place := range []string{".Visits[].Ratio.Value", ".Jobs[].PerYear.Value", ".Suggestions[](false)(false).New"} {
		if assert.Contains(t, places, place) {
			assert.Positive(t, places[place].same, place)
		}
	}
}

// TestAnyFactorOnTheMoneyIsInTheAnswerButForTheRounding multiplies by what no currency
// absorbs. An amount that is posted then lies within half of the smallest unit of the
// multiplied one, and the amount it is compared with within half a unit of its own: the
// answers may lie apart by that much for each posting of each visit, and no more.
func TestAnyFactorOnTheMoneyIsInTheAnswerButForTheRounding(t *testing.T) {
	apart := false
	for seed := range uint64(12) {
		base := studygen.Study(seed)
		factor := []float64{3.7, 1.0 / 7, 61}[seed%3]
		was, is := decision.Decide(base), decision.Decide(inUnits(t, base, factor, base.Currency))
		room := postings(base, &was) * (1 + factor) / 2 * math.Pow10(-base.Money.Places())
		within := func(what string, room, want, got float64) {
			assert.InDelta(t, want*factor, got, room+1e-9*math.Abs(got), "seed %d: %s", seed, what)
			apart = apart || math.Abs(want*factor-got) > 1e-9*math.Abs(got)
		}
		within("renting", room, was.Present, is.Present)
		within("together", room, was.Joint.Choices[0].Present, is.Joint.Choices[0].Present)
		if was.Roadmap.Why == "" {
			gap := was.Roadmap.Best.Gap*factor + is.Roadmap.Best.Gap
			within("roadmap", room+gap, was.Roadmap.Best.Present, is.Roadmap.Best.Present)
		}
		for m := range was.Machines {
			one, other := &was.Machines[m], &is.Machines[m]
			within("saved", 2*room, one.Saved, other.Saved)
			within("owning", 0, one.Owning, other.Owning)
			if math.Abs(math.Abs(one.Difference)-one.Band)*factor > 4*room {
				assert.Equal(t, one.Verdict, other.Verdict, "seed %d", seed)
			}
			assert.InDelta(t, one.Jobs, other.Jobs, 0)
		}
		places := map[string]*standing{}
		b := besideOf(base, factor, places) // nothing of it is posted
		b.compare([]any{wear.Of(base, was.Plan), was.Comparisons}, []any{wear.Of(inUnits(t, base, factor, base.Currency), is.Plan), is.Comparisons})
		assert.Empty(t, b.told(), "seed %d", seed)
	}
	assert.True(t, apart, "no rounding was met")
}

// Postings of a visit: what the shop bills, the way, the own time.
const linesOfShop, linesOfTravel, linesOfLabour = 8, 3, 2

// postings is how many amounts are rounded on the way to a present cost after tax, each
// counted as often as it comes, grows and is discounted, with the supplements and the
// tax that are reckoned on amounts that were rounded before.
func postings(s *model.Study, answer *decision.Answer) float64 {
	count := 0.0
	most := 1.0
	for i := range s.Shops {
		tariff := &s.Shops[i].Tariff
		most = max(most, (1+float64(tariff.AfterHours+tariff.ResinSupplement))*(1+float64(tariff.SalesTax)))
	}
	for _, job := range answer.Rented.Jobs {
		visits := job.ReworkCount
		for _, of := range job.Counts {
			visits += of
		}
		factors := alternative.FactorsOf(s, job.Job)
		count += visits * (linesOfShop*most*factors.Shop + linesOfTravel*factors.Travel + linesOfLabour*factors.Labour)
	}
	years := float64(s.Studio.Horizon) * math.Pow(1+max(0, float64(s.Growth.Rental)), float64(s.Studio.Horizon))
	for i := range s.Shops {
		count += years + float64(len(s.Shops[i].Machines)) // fees of members, inductions
	}
	return count
}
