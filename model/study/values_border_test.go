package study

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"

	"shopstint/model/quantity"
)

// every has each input that must be given, once, with nothing that follows from another.
const every = `currency: EUR
units: metric
shops:
  mill: {distance: 25 km, tariff: {hourly_rate: 85 per h}, machines: {planer: {class: planer}, belt: {class: wide_belt}}}
machines:
  planer20: {class: planer, price: 3200}
fixtures:
  dust: {price: 900}
abrasives:
  belt: {class: wide_belt, grit: 80}
job_types:
  top: {per_year: {value: 24, low: 20, high: 30}, operations: {plane: {class: planer, measured: {value: 20 min, low: 10 min, high: 30 min}}, sand: {class: wide_belt, grits: {80: 0.3 mm}}}}
dated_jobs:
  first: {job_type: top, ready: 2026-03-02, due: 2026-03-20}
comparisons:
  trim: {yearly_area: 100 m2, ways: {one: {abrasives: [belt], area_time: 4 min/m2}, two: {price: 100}}}
studio: {labour_rate: {value: 50 per h, low: 40 per h, high: 60 per h}, helper_rate: {value: 30 per h, low: 25 per h, high: 40 per h}}
correlations:
  both: {a: studio.labour_rate, b: studio.helper_rate, rho: 0.5}
`

// told are the problems of the study with one part of its text changed, which must be
// there once.
func told(t *testing.T, from, to string) []string {
	t.Helper()
	require.Equal(t, 1, strings.Count(every, from), from)
	_, _, problems := Load("s", []byte(strings.Replace(every, from, to, 1)))
	var lines []string
	for _, one := range problems {
		lines = append(lines, one.What+"; "+one.Right)
	}
	return lines
}

func TestWhatMustBeGivenIsMissedOnceAndNothingElse(t *testing.T) {
	assert.Empty(t, told(t, "currency: EUR\n", "currency: EUR\n"))
	for _, row := range []struct{ from, to, want string }{
		{"currency: EUR\n", "", "the study has no currency; give currency, such as EUR or USD"},
		{"units: metric\n", "", "the study has no units; give units: metric or inch"},
		{"distance: 25 km, ", "", "shops.mill has no distance; give distance, such as 25 km or 15 mi"},
		{", machines: {planer: {class: planer}, belt: {class: wide_belt}}", "", "shops.mill has no machines; give machines with at least one key below it"},
		{"planer: {class: planer}, ", "planer: {}, ", "shops.mill.machines.planer has no class; give class: planer, wide_belt, panel_saw, track_saw, router, router_sled, orbital or other"},
		{"machines:\n  planer20: {class: planer, price: 3200}\n", "", "the study has no machines; give machines with at least one key below it"},
		{"{class: planer, price: 3200}", "{price: 3200}", "machines.planer20 has no class; give class: planer, wide_belt, panel_saw, track_saw, router, router_sled, orbital or other"},
		{"{class: planer, price: 3200}", "{class: planer}", "machines.planer20 has no price; give price, such as 22000 or 22000 USD"},
		{"{price: 900}", "{}", "fixtures.dust has no price; give price, such as 22000 or 22000 USD"},
		{"{class: wide_belt, grit: 80}", "{grit: 80}", "abrasives.belt has no class; give class: wide_belt or orbital"},
		{"{class: wide_belt, grit: 80}", "{class: wide_belt}", "abrasives.belt has no grit; give grit from 16 to 5000"},
		{"per_year: {value: 24, low: 20, high: 30}, ", "", "job_types.top has no per_year; give per_year from 0 to 10000"},
		{"plane: {class: planer, ", "plane: {", "job_types.top.operations.plane has no class; give class: planer, wide_belt, panel_saw, track_saw, router, router_sled, orbital or other"},
		{"job_type: top, ", "", "dated_jobs.first has no job_type; give job_type: a key of job_types"},
		{"ready: 2026-03-02, ", "", "dated_jobs.first has no ready; give ready, such as 2027-03-14"},
		{", due: 2026-03-20", "", "dated_jobs.first has no due; give due, such as 2027-03-14"},
		{", ways: {one: {abrasives: [belt], area_time: 4 min/m2}, two: {price: 100}}", "", "comparisons.trim has no ways; give ways with at least one key below it"},
		{"a: studio.labour_rate, ", "", "correlations.both has no a; give a: path of one input that has a range"},
		{"a: studio.labour_rate, ", "a: , ", "correlations.both.a has no value; give one: path of one input that has a range"},
		{", rho: 0.5", "", "correlations.both has no rho; give rho from -1 to 1"},
		{"job_types:\n  top:", "job_types:\n# top:", "job_types has no member; give at least one, with a key of your own and its fields below it"},
	} {
		assert.Equal(t, []string{row.want}, told(t, row.from, row.to))
	}
}

// What is refused is told once: no rule speaks of what it would have said.
func TestARefusedValueHasNoFollowers(t *testing.T) {
	for _, row := range []struct{ from, to, want string }{
		{"tariff: {hourly_rate: 85 per h}", "tariff: *t", ""},
		{"tariff: {hourly_rate: 85 per h}", "tarif: {hourly_rate: 85 per h}", `unknown key "tarif" in shops.mill; did you mean "tariff"?`},
		{"value: 20 min, low: 10 min", "value: 20 min, low: x", "job_types.top.operations.plane.measured.low: \"x\" is not understood as a duration; write 90 min or 1 h 30 min"},
		{"value: 20 min, low: 10 min", "value: 20 min, shape: uniform, low: x", "job_types.top.operations.plane.measured.low: \"x\" is not understood as a duration; write 90 min or 1 h 30 min"},
		{"high: 30 min", "shape: uniform, high: x", "job_types.top.operations.plane.measured.high: \"x\" is not understood as a duration; write 90 min or 1 h 30 min"},
		{"distance: 25 km", "distance: {value: 25 km, low: 26 km, high: 30 km, shape: lognormal}", "shops.mill.distance is 25 km and its range runs from 26 km to 30 km; give low, value and high in rising order"},
		{"distance: 25 km", "distance: {value: 25 km, low: 20 km, high: 24 km, shape: lognormal}", "shops.mill.distance is 25 km and its range runs from 20 km to 24 km; give low, value and high in rising order"},
		{"distance: 25 km", "distance: {value: 25 km, low: 20 km, shape: uniform}", "shops.mill.distance has one end of a range; give both low and high, or neither"},
		{"distance: 25 km", "distance: {value: 25 km, high: 30 km, shape: uniform}", "shops.mill.distance has one end of a range; give both low and high, or neither"},
		{"distance: 25 km", "distance: {value: 25 km, shape: uniform}", "shops.mill.distance has a shape and no range; give low and high with it, or leave the shape out"},
		{"distance: 25 km", "distance: {value: 25 km, 50}", `"50" in shops.mill.distance stands behind a comma, which ends a value in braces; use a point for decimals and nothing between thousands`},
		{"per_year: {value: 24, low: 20, high: 30}", "per_year: {value: 24, low: 20, hig: 30}", `unknown key "hig" in job_types.top.per_year; did you mean "high"?`},
		{"planer20: {class: planer, price: 3200}", "Ü: {class: planer, price: x}", `"Ü" in machines is no key for a member; use small letters, digits and _, beginning with a letter, at most 32 characters`},
		{"distance: 25 km", "distance: {value: 25 km, note: }", "shops.mill.distance.note is empty; write a single value behind the colon"},
		{"distance: 25 km", "distance: {value: 25 km, note: [a]}", "shops.mill.distance.note is a list; write a single value behind the colon"},
		{"distance: 25 km", "distance: {value: [25 km], note: a}", "shops.mill.distance.value is a list; write a single value behind the colon"},
		{"{80: 0.3 mm}", "{80: {valu: 0.3 mm, low: 0.1 mm, high: 0.4 mm}}", `unknown key "valu" in job_types.top.operations.sand.grits.80.stock; did you mean "value"?`},
		{"grits: {80: 0.3 mm}", "grits: {80: 0.3 mm, 80: 0.2 mm}", `the key "80" comes twice in job_types.top.operations.sand.grits; keep one of them`},
		{"abrasives: [belt]", "abrasives: [belt, belt]", `comparisons.trim.ways.one.abrasives has "belt" twice; keep one of them`},
		{"abrasives: [belt]", "abrasives: [Belt]", `comparisons.trim.ways.one.abrasives has "Belt", which is no key of a member; write the keys that the study gives its members`},
		{"abrasives: [belt]", "abrasives: {belt: yes}", "comparisons.trim.ways.one.abrasives is a mapping of keys; write a list of words, such as [first_key, second_key]"},
		{"{class: planer, price: 3200}", "{class: planer, price: 3200, does: {planer: yes}}", "machines.planer20.does is a mapping of keys; write a list of words, such as [planer, wide_belt]"},
	} {
		lines := told(t, row.from, row.to)
		if row.want == "" { // a broken line
			require.Len(t, lines, 1)
			continue
		}
		assert.Equal(t, []string{row.want}, lines)
	}
}

func TestAnAliasIsToldAndNothingThatFollowsFromIt(t *testing.T) {
	assert.Equal(t, []string{
		`an anchor or alias ("&d") stands here; anchors and aliases are not read; write the value out`,
		`an anchor or alias ("*d") stands here; anchors and aliases are not read; write the value out`,
	}, told(t, "distance: 25 km, tariff: {hourly_rate: 85 per h}", "distance: &d 25 km, tariff: *d"))
	assert.Len(t, told(t, "ready: 2026-03-02, due: 2026-03-20", "ready: &d 2026-03-02, due: *d"), 2)
	assert.Len(t, told(t, "distance: 25 km", "distance: {value: &v 25 km, low: *v, high: 30 km}"), 2)
	assert.Len(t, told(t, "distance: 25 km", "distance: {low: &v 25 km, value: *v, high: 30 km}"), 2)
	assert.Equal(t, []string{`an anchor or alias ("&d") stands here; anchors and aliases are not read; write the value out`, `the merge key "<<" stands here; merge keys are not read; write the keys out`,
		`an anchor or alias ("*d") stands here; anchors and aliases are not read; write the value out`},
		told(t, "planer20: {class: planer, price: 3200}", "planer20: &d {class: planer, price: 3200}\n  other: {<<: *d, class: planer, price: 1}"))
	assert.Len(t, told(t, "abrasives: [belt]", "abrasives: [&b belt, *b]"), 2)
	assert.Len(t, told(t, "{80: 0.3 mm}", "{80: &s 0.3 mm, 120: *s}"), 2)
}

func TestARangeMayTouchItsValueAtEitherEnd(t *testing.T) {
	for _, text := range []string{"{value: 25 km, low: 25 km, high: 30 km}", "{value: 25 km, low: 20 km, high: 25 km}", "{value: 25 km, low: 25 km, high: 25 km}"} {
		study, _, problems := Load("s", []byte(strings.Replace(every, "distance: 25 km", "distance: "+text, 1)))
		require.Empty(t, problems.Error())
		assert.True(t, study.Origins["shops.mill.distance"].HasRange)
	}
}

func TestAShareOfJustOneAsksForNoPercentSign(t *testing.T) {
	for _, row := range []struct{ value, want string }{
		{"1", "growth.labour is \"1\"; give a value from -20 % to 50 %"},
		{"1.01", "growth.labour is \"1.01\"; give a value from -20 % to 50 %; a percentage has its sign: 1.01 %"},
		{"91 %", "growth.labour is \"91 %\"; give a value from -20 % to 50 %"},
	} {
		assert.Equal(t, []string{row.want}, told(t, "units: metric\n", "units: metric\ngrowth: {labour: "+row.value+"}\n"))
	}
}

func TestAKeyIsTheEndOfACutNumberOnlyWhereItBeginsWithADigitAndHasNoValue(t *testing.T) {
	empty, tilde, word := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null"}, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null", Value: "~"}, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str"}
	for _, row := range []struct {
		key     string
		content *yaml.Node
		want    bool
	}{
		{"50", empty, true}, {"0", empty, true}, {"9", empty, true}, {"5x", empty, true},
		{"", empty, false}, {"x5", empty, false}, {":", empty, false}, {"/", empty, false}, {"50", tilde, false}, {"50", word, false},
	} {
		assert.Equal(t, row.want, isCutOff(&yaml.Node{Kind: yaml.ScalarNode, Value: row.key}, row.content), row.key)
	}
}

// Limits in other units are shown with four digits, rounded to the inside.
func TestLimitsAreShownInTheUnitsOfTheStudyRoundedInwards(t *testing.T) {
	for _, row := range []struct {
		dim          quantity.Dimension
		tag          reflect.StructTag
		metric, inch string
	}{
		{quantity.DimLength, `least:"1 mm" most:"5000 mm"`, "from 1 mm to 5000 mm", "from 0.03938 in to 196.8 in"}, // 0.0393701, 196.8504
		{quantity.DimLength, `above:"1 mm" most:"20 mm"`, "over 1 mm and at most 20 mm", "over 0.03938 in and at most 0.7874 in"},
		{quantity.DimLength, `least:"0 mm" most:"25.4 mm"`, "from 0 mm to 25.4 mm", "from 0 in to 1 in"},
		{quantity.DimMass, `above:"10 kg" most:"100 kg"`, "over 10 kg and at most 100 kg", "over 22.05 lb and at most 220.4 lb"}, // 22.0462, 220.462
		{quantity.DimCount, `least:"-1" most:"1"`, "from -1 to 1", "from -1 to 1"},
		{quantity.DimShare, `above:"0 %" most:"300 %"`, "over 0 % and at most 300 %", "over 0 % and at most 300 %"},
		{quantity.DimMoneyPerHour, `least:"0" most:"1000 per h"`, "from 0 to 1000 per h", "from 0 to 1000 per h"},
		{quantity.DimSpeed, `least:"0 m/min" most:"200 m/min"`, "from 0 m/min to 200 m/min", "from 0 ft/min to 656.1 ft/min"}, // 656.168
		{quantity.DimLength, ``, "", ""},
		{quantity.DimLength, `most:"1 m"`, "", ""},
	} {
		assert.Equal(t, row.metric, Limits(row.dim, row.tag, quantity.Metric), row.tag)
		assert.Equal(t, row.inch, Limits(row.dim, row.tag, quantity.Inch), row.tag)
	}
}

func TestAValueBeyondItsLimitsIsToldWhatWouldBeRight(t *testing.T) {
	const closed, open = `least:"1 mm" most:"20 mm"`, `above:"1 mm" most:"20 mm"`
	for _, row := range []struct {
		tag  reflect.StructTag
		si   float64
		want string
	}{
		{closed, 0.001, ""}, {closed, 0.02, ""}, {closed, 0.0009, "give a value from 1 mm to 20 mm"}, {closed, 0.021, "give a value from 1 mm to 20 mm"},
		{open, 0.0011, ""}, {open, 0.02, ""}, {open, 0.001, "give a value over 1 mm and at most 20 mm"}, {open, 0.021, "give a value over 1 mm and at most 20 mm"},
		{``, 1e9, ""},
	} {
		assert.Equal(t, row.want, Beyond(quantity.DimLength, row.tag, row.si, quantity.Metric), "%v of %s", row.si, row.tag)
	}
}

func TestAPlaceIsThatOfTheNearestGivenThingAround(t *testing.T) {
	_, places, problems := Load("s", []byte(every))
	require.Empty(t, problems.Error())
	for path, line := range map[string]int{"shops.mill.machines.planer.class": 4, "shops.mill.tolls": 4, "shops.mill": 4, "shops": 3, "shops.other": 3, "machines.planer20.price": 6} {
		place, ok := places.At(path)
		assert.True(t, ok, path)
		assert.Equal(t, line, place.Line, path)
	}
	for _, path := range []string{"", "growth", "growth.rental"} {
		_, ok := places.At(path)
		assert.False(t, ok, path)
	}
}

func TestWhatStandsNowhereIsToldAtTheBeginning(t *testing.T) {
	assert.Equal(t, "s:1:1", newReader("s").placeOf("studio.people").String())
}

func TestAKeyOfAMappingIsNoRowOfATable(t *testing.T) {
	word := func(text string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Value: text} }
	mapping := &yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{word("2"), word("a"), word("1"), word("b")}}
	table := &yaml.Node{Kind: yaml.SequenceNode, Content: mapping.Content}
	for key, want := range map[string][2]string{"1": {"b", "2"}, "2": {"a", "a"}, "3": {"", "1"}, "4": {"", "b"}, "5": {}, "0": {}, "x": {}, "-1": {}} {
		for i, node := range []*yaml.Node{mapping, table} {
			found := child(node, key)
			require.Equal(t, want[i] != "", found != nil, key)
			if found != nil {
				assert.Equal(t, want[i], found.Value, key)
			}
		}
	}
}

func TestYesAndNoAreReadInAnyLetters(t *testing.T) {
	for text, want := range map[string]bool{"yes": true, "Yes": true, "true": true, "TRUE": true, "no": false, "No": false, "false": false} {
		study, _, problems := Load("s", []byte(strings.Replace(every, "{class: wide_belt, grit: 80}", "{class: wide_belt, grit: 80, only_compared: "+text+"}", 1)))
		require.Empty(t, problems.Error(), text)
		assert.Equal(t, want, study.Abrasives[0].OnlyCompared, text)
	}
}
