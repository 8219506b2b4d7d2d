package study_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/study"
)

// kept has values in every way in which a mapping may hold them.
const kept = `currency: EUR
units: metric
title: ""
start_year: {value: 2027}
shops:
  mill:
    distance:
      value: 25 km
      note: by the bridge
    tariff:
      hourly_rate: {source: "it's said", low: 80 per h, value: 85 per h, high: 99 per h}
    machines: {planer: {class: planer}}
machines:
  planer20: {class: planer, name: "Größe \"20\"", price: "3200", value_table: [70 %, {value: 60 %, low: 50 %, high: 65 %}, 40 %],
    tax: {life: 7 years}}
materials: {walnut: {name: Nußbaum}, oak: {}}
job_types:
  top:
    material: oak
    per_year:
      24
    operations:
      plane: {class: planer}
      sand: {class: orbital, grits: {80: 0.3 mm, 120: {value: 0.2 mm, low: 0.1 mm, high: 0.3 mm}, 180: {stock: 0.1 mm}}}
tools:
  sander: {class: orbital}
`

func TestAChangeOfAnInputChangesTheseBytesAndNoOthers(t *testing.T) {
	for _, row := range []struct{ path, value, low, high, source, from, to string }{
		{"title", "Slabs", "", "", "", `title: ""`, "title: Slabs"},
		{"start_year", "2028", "", "", "", "{value: 2027}", "{value: 2028}"},
		{"start_year", "2028", "", "", "the plan", "{value: 2027}", `{value: 2028, source: "the plan"}`},
		{"shops.mill.distance", "30 km", "", "", "", "value: 25 km", "value: 30 km"},
		{"shops.mill.distance", "30 km", "", "", "map", "value: 25 km\n", "value: 30 km\n      source: \"map\"\n"},
		{"shops.mill.distance", "30 km", "28 km", "35 km", "", "value: 25 km\n", "value: 30 km\n      low: 28 km\n      high: 35 km\n"},
		{"shops.mill.tariff.hourly_rate", "90 per h", "", "", "", "value: 85 per h", "value: 90 per h"},
		{"shops.mill.tariff.hourly_rate", "90 per h", "88 per h", "95 per h", "a \"new\"\n\tlist\\", `{source: "it's said", low: 80 per h, value: 85 per h, high: 99 per h}`,
			`{source: "a \"new\"  list\\", low: 88 per h, value: 90 per h, high: 95 per h}`},
		{"shops.mill.machines.planer.feed", "7 m/min", "", "", "", "machines: {planer: {class: planer}}", "machines: {planer: {class: planer, feed: 7 m/min}}"},
		{"shops.mill.machines.planer.setup", "5 min", "", "", "x", "machines: {planer: {class: planer}}", `machines: {planer: {class: planer, setup: {value: 5 min, source: "x"}}}`},
		{"machines.planer20.price", "3300", "", "", "", `"3200"`, "3300"},
		{"machines.planer20.name", "Wide", "", "", "", `"Größe \"20\""`, "Wide"},
		{"machines.planer20.value_table.1", "71 %", "", "", "", "[70 %", "[71 %"},
		{"machines.planer20.value_table.2", "61 %", "", "", "", "{value: 60 %", "{value: 61 %"},
		{"machines.planer20.value_table.3", "41 %", "", "", "", "40 %]", "41 %]"},
		{"machines.planer20.tax.life", "5 years", "", "", "", "7 years", "5 years"},
		{"machines.planer20.delivery", "150", "", "", "", `price: "3200"`, `price: "3200", delivery: 150`},
		{"machines.planer20.loan.share", "50 %", "", "", "", `price: "3200"`, `price: "3200", loan: {share: 50 %}`},
		{"materials.oak.density", "700 kg/m3", "", "", "", "oak: {}", "oak: {density: 700 kg/m3}"},
		{"job_types.top.per_year", "26", "", "", "", "      24", "      26"},
		{"job_types.top.per_year", "26", "20", "30", "", "      24", "      {value: 26, low: 20, high: 30}"},
		{"job_types.top.loading_time", "20 min", "", "", "", "      24\n", "      24\n    loading_time: 20 min\n"},
		{"job_types.top.operations.sand.grits.80.stock", "0.4 mm", "", "", "", "80: 0.3 mm", "80: 0.4 mm"},
		{"job_types.top.operations.sand.grits.120.stock", "0.25 mm", "", "", "", "value: 0.2 mm", "value: 0.25 mm"},
		{"job_types.top.operations.sand.grits.180.stock", "0.05 mm", "", "", "", "{stock: 0.1 mm}", "{stock: 0.05 mm}"},
		{"studio.people", "3", "", "", "", "title: \"\"\n", "title: \"\"\nstudio: {people: 3}\n"},
	} {
		require.Equal(t, 1, strings.Count(kept, row.from), row.from)
		change := study.Change{Path: row.path, Value: row.value, Low: row.low, High: row.high, Source: row.source}
		after, err := study.Edit("kept.yaml", []byte(kept), []study.Change{change})
		require.NoError(t, err, row.path)
		assert.Equal(t, strings.Replace(kept, row.from, row.to, 1), string(after), row.path)
	}
}

func TestAChangeWithoutAPlaceOfItsOwnIsToBeMadeByHand(t *testing.T) {
	const noPlace = "the study has no place for it; write it by hand"
	const unusual = "its value is written over several lines or in an unusual way; write the new one by hand"
	for _, row := range []struct{ text, path, want string }{
		{kept, "machines.planer20.value_table.0", noPlace},
		{kept, "machines.planer20.value_table.4", noPlace},
		{kept, "machines.planer20.value_table.x", noPlace},
		{kept, "start_year.people", noPlace},
		{kept, "currency.code", noPlace},
		{kept, "machines.planer20", unusual},
		{kept, "machines.planer20.value_table", unusual},
		{strings.Replace(kept, "{class: orbital}\n", "{class: orbital, edge: \"a \\\" b\n    c\"}\n", 1), "tools.sander.edge", unusual},
		{strings.Replace(kept, "distance:\n      value: 25 km\n", "distance:\n      value:\n        25\n        km\n", 1), "shops.mill.distance", unusual},
		{strings.Replace(kept, `"it's said"`, "'it''s\n        said'", 1), "shops.mill.tariff.hourly_rate", unusual},
		{kept, "shops.mill.tariff.hourly_rate.more", noPlace},
		{"a: 1\n---\nb: 1\n", "a", "the file is no study that can be read"},
		{"- a\n- b\n", "1", "the file is no study that can be read"},
		{"a", "a", "the file is no study that can be read"},
		{"# nothing\n", "a", "the file is no study that can be read"},
		{"a: \"\u2028\u2028\u2028\"\nb: {c: {}}\n", "b.d", "the file is no study that can be read"},
		{kept + "\x00", "a", "the file is no study that can be read"},
	} {
		after, err := study.Edit("kept.yaml", []byte(row.text), []study.Change{{Path: row.path, Value: "1", Source: "s"}})
		require.Error(t, err, row.path)
		assert.Nil(t, after, row.path)
		assert.EqualError(t, err, "could not change "+row.path+" in kept.yaml: "+row.want)
	}
}

// A study whose every value stands on lines of its own has no line to stand behind.
func TestAnInputIsAddedInFrontOfAllWhereNothingStandsOnOneLine(t *testing.T) {
	short := "shops:\n  mill:\n    distance:\n      value: 25 km\n      note: x\n    tariff:\n      hourly_rate: 85 per h\n    machines:\n      planer:\n        class: planer\n" +
		"machines:\n  planer20: {class: planer, price: 3200}\njob_types:\n  top:\n    per_year: 24\n    operations:\n      plane: {class: planer}\n"
	for name, row := range map[string]struct{ before, path, value, after string }{
		"in the first line":    {short + "currency: |-\n  EUR\nunits: |-\n  metric\n", "growth.rental", "5 %", "growth: {rental: 5 %}\n" + short + "currency: |-\n  EUR\nunits: |-\n  metric\n"},
		"in front of a block":  {short + "currency: EUR\nunits: metric\n", "shops.mill.tolls", "4", strings.Replace(short, "    distance:", "    tolls: 4\n    distance:", 1) + "currency: EUR\nunits: metric\n"},
		"in front of a remark": {"# top\n" + short + "currency: EUR\nunits: metric", "growth.rental", "5 %", "# top\n" + short + "currency: EUR\nunits: metric\ngrowth: {rental: 5 %}\n"},
	} {
		after, err := study.Edit("kept.yaml", []byte(row.before), []study.Change{{Path: row.path, Value: row.value}})
		require.NoError(t, err, name)
		assert.Equal(t, row.after, string(after), name)
	}
}

func TestOnlyWhatCouldBeReadAsSomethingElseIsQuotedBetweenBraces(t *testing.T) {
	for written, want := range map[string]string{
		"5 %": "5 %", "5.5 km": "5.5 km", "a-b": "a-b", "": `""`, "@x": `"@x"`, "a@x": "a@x", "5: 6": `"5: 6"`, "a, b": `"a, b"`, "x #y": `"x #y"`, `5"`: `"5\""`, "it's": `"it's"`, "%5": `"%5"`,
	} {
		after, err := study.Edit("kept.yaml", []byte(kept), []study.Change{{Path: "title", Value: written}})
		require.NoError(t, err)
		assert.Contains(t, string(after), "title: "+want+"\n")
	}
}

// A member whose inputs all stand in blocks of their own has no single value to
// stand behind: what is added stands in front of the first block.
func TestAnInputAmongBlocksAloneIsAddedInFrontOfThem(t *testing.T) {
	const before = `currency: EUR
units: metric
shops:
  mill:
    distance:
      value: 25 km
      note: by the bridge
    tariff:
      hourly_rate: 85 per h
    machines:
      planer:
        class: planer
machines:
  planer20: {class: planer, price: 3200}
job_types:
  top:
    per_year: 24
    operations:
      plane: {class: planer}
`
	after, err := study.Edit("kept.yaml", []byte(before), []study.Change{{Path: "shops.mill.tolls", Value: "4"}})
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(before, "    distance:\n", "    tolls: 4\n    distance:\n", 1), string(after))
}

func TestAChangeWithOneEndOfARangeIsRefused(t *testing.T) {
	for _, change := range []study.Change{{Path: "studio.people", Value: "2", Low: "1"}, {Path: "studio.people", Value: "2", High: "3"}} {
		_, err := study.Edit("kept.yaml", []byte(kept), []study.Change{change})
		assert.Error(t, err)
	}
}

func TestOnlyInputsAreFoundAsTheyAreWritten(t *testing.T) {
	assert.Equal(t, map[string]string{"currency": "EUR", "start_year": "2027", "machines.planer20.value_table.2": "60 %"},
		study.Written([]byte(kept), []string{"currency", "currency.code", "start_year", "start_year.people", "studio.people", "machines.planer20.value_table.2", "machines.planer20.value_table.4", "shops.mill"}))
}
