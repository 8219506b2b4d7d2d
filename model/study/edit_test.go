package study_test

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
)

// editable is a study with values written in many ways.
const editable = `# a study that somebody keeps with care
currency: EUR
units: metric   # as the shop does

studio:
  labour_rate: 50 per h
  # what the bank wants
  discount_rate:
    value: 6 %   # last letter
    low: 5 %
    note: "the bank's letter"
    high: 9 %
shops:
  mill: {distance: 25 km, tariff: {hourly_rate: {value: 85 per h, low: 80 per h, high: 95 per h, source: 'posted, last year''s'}}, machines: {planer: {class: planer}}}
machines:
  planer20:
    class: planer
    price: "3200"   # with carriage

job_types:
  table_top:
    per_year: 24
    operations:
      plane: {class: planer, measured: 20 min}
`

// changed returns the lines that differ, as they are afterwards; the texts have as
// many lines but for those that were put in.
func changed(t *testing.T, before, after string) []string {
	t.Helper()
	old, now := strings.SplitAfter(before, "\n"), strings.SplitAfter(after, "\n")
	var lines []string
	for len(now) > 0 {
		if len(old) > 0 && old[0] == now[0] {
			old, now = old[1:], now[1:]
			continue
		}
		lines = append(lines, strings.TrimRight(now[0], "\r\n"))
		if len(now) > 1 && len(old) > 0 && now[1] == old[0] {
			now = now[1:]
			continue
		}
		require.NotEmpty(t, old, "text was added at the end: %q", now)
		old, now = old[1:], now[1:]
	}
	require.Empty(t, strings.Join(old, ""), "lines are gone")
	return lines
}

func TestAnEditChangesOnlyTheLinesItNames(t *testing.T) {
	for _, one := range []struct {
		name   string
		change study.Change
		want   []string
	}{
		{"a single value keeps its remark", study.Change{Path: "studio.labour_rate", Value: "55 per h"}, []string{"  labour_rate: 55 per h"}},
		{"a value in quotes", study.Change{Path: "machines.planer20.price", Value: "3300"}, []string{"    price: 3300   # with carriage"}},
		{"a value gets its range and source", study.Change{Path: "job_types.table_top.per_year", Value: "26", Low: "22", High: "30", Source: `logbook, "all" of it`},
			[]string{`    per_year: {value: 26, low: 22, high: 30, source: "logbook, \"all\" of it"}`}},
		{"a value on lines of its own", study.Change{Path: "studio.discount_rate", Value: "7 %", Low: "6 %", High: "8 %", Source: "the books"},
			[]string{"    value: 7 %   # last letter", "    low: 6 %", "    high: 8 %", `    source: "the books"`}},
		{"a value between braces", study.Change{Path: "shops.mill.tariff.hourly_rate", Value: "90 per h", Source: "logbook"},
			[]string{`  mill: {distance: 25 km, tariff: {hourly_rate: {value: 90 per h, low: 80 per h, high: 95 per h, source: "logbook"}}, machines: {planer: {class: planer}}}`}},
		{"an input that was assumed, on a line of its own", study.Change{Path: "machines.planer20.delivery", Value: "150"}, []string{"    delivery: 150"}},
		{"an input that was assumed, between braces", study.Change{Path: "shops.mill.machines.planer.feed", Value: "7 m/min", Low: "6 m/min", High: "8 m/min"},
			[]string{`  mill: {distance: 25 km, tariff: {hourly_rate: {value: 85 per h, low: 80 per h, high: 95 per h, source: 'posted, last year''s'}}, machines: {planer: {class: planer, feed: {value: 7 m/min, low: 6 m/min, high: 8 m/min}}}}`}},
		{"a section that was not there", study.Change{Path: "growth.rental", Value: "5 %"}, []string{"growth: {rental: 5 %}"}},
		{"a mapping within a member that was not there", study.Change{Path: "machines.planer20.loan.share", Value: "50 %"}, []string{"    loan: {share: 50 %}"}},
	} {
		t.Run(one.name, func(t *testing.T) {
			for _, end := range []string{"\n", "\r\n"} {
				before := "\ufeff" + strings.ReplaceAll(editable, "\n", end)
				after, err := study.Edit("kept.yaml", []byte(before), []study.Change{one.change})
				require.NoError(t, err)
				assert.Equal(t, one.want, changed(t, before, string(after)))
				assert.Equal(t, strings.Count(string(after), "\n"), strings.Count(string(after), end))
			}
		})
	}
}

func TestAnEditThatWouldSpoilTheStudyIsRefused(t *testing.T) {
	for name, one := range map[string]struct {
		change study.Change
		want   string
	}{
		"beyond its limits":    {study.Change{Path: "studio.discount_rate", Value: "900 %"}, "kept.yaml:9:12"},
		"without a unit":       {study.Change{Path: "studio.labour_rate", Value: "much"}, "kept.yaml:6:16"},
		"out of its range":     {study.Change{Path: "shops.mill.tariff.hourly_rate", Value: "99 per h"}, "rising order"},
		"no such input":        {study.Change{Path: "studio.luck", Value: "1"}, "unknown key"},
		"nothing in that list": {study.Change{Path: "currency.code", Value: "1"}, "write it by hand"},
		"a bracket in a value": {study.Change{Path: "studio.labour_rate", Value: "55}, x: {"}, "kept.yaml:6"},
	} {
		t.Run(name, func(t *testing.T) {
			after, err := study.Edit("kept.yaml", []byte(editable), []study.Change{one.change})
			assert.Nil(t, after)
			require.Error(t, err)
			assert.Contains(t, err.Error(), "could not change")
			assert.Contains(t, err.Error(), one.want)
		})
	}
	_, err := study.Edit("broken.yaml", []byte("a: [\n"), []study.Change{{Path: "a", Value: "1"}})
	assert.ErrorContains(t, err, "the file is no study that can be read")
}

// editEach gives inputs of a study a new figure, one by one, and wants all others,
// and every line but one, as they were.
func editEach(t *testing.T, name string, src []byte, every int) {
	read, given, problems := study.Load(name, src)
	require.Empty(t, problems)
	system, err := quantity.ParseSystem(read.Units)
	require.NoError(t, err)
	seen, done := 0, 0
	model.Walk(read, func(leaf model.Leaf) {
		dim, ok := leaf.Dimension()
		if seen++; !ok || seen%every != 0 || leaf.Has("fixed") {
			return
		}
		numbers, unit := quantity.Written(dim, system, leaf.Number())
		change := study.Change{Path: leaf.Path, Value: strings.TrimSpace(numbers[0] + " " + unit)}
		after, err := study.Edit(name, src, []study.Change{change})
		if err != nil && strings.Contains(err.Error(), " has no ") { // it stands within a member that only the method needs
			return
		}
		require.NoError(t, err, leaf.Path)
		again, places, problems := study.Load(name, after)
		require.Empty(t, problems, leaf.Path)
		require.Contains(t, places, leaf.Path)
		sameFigures(t, read, again, given, leaf.Path)
		require.LessOrEqual(t, len(changed(t, string(src), string(after))), 1, leaf.Path)
		done++
	})
	require.Greater(t, done, 3, name)
}

// sameFigures wants every given input of two studies the same: what is assumed may
// follow from the one that was written down.
func sameFigures(t *testing.T, before, after *model.Study, given study.Places, path string) {
	t.Helper()
	figures := map[string]any{}
	model.Walk(before, func(leaf model.Leaf) { figures[leaf.Path] = leaf.Value.Interface() })
	model.Walk(after, func(leaf model.Leaf) {
		if _, ok := given[leaf.Path]; !ok {
			return
		}
		require.Equal(t, figures[leaf.Path], leaf.Value.Interface(), "%s after a change of %s", leaf.Path, path)
	})
}

func TestWritingAFigureThatAStudyHasChangesNothingElse(t *testing.T) {
	editEach(t, demo.Name, demo.Study(), 23)
	short, err := os.ReadFile("../../testdata/studies/good/short.yaml")
	require.NoError(t, err)
	editEach(t, "short.yaml", short, 5)
	for seed := range uint64(6) {
		editEach(t, "generated.yaml", studygen.YAML(studygen.Study(seed), quantity.System(seed%2)), 40)
	}
}

func TestEditsMayBeMadeTogetherInAnyOrder(t *testing.T) {
	changes := []study.Change{
		{Path: "studio.labour_rate", Value: "55 per h"},
		{Path: "studio.discount_rate", Value: "7 %", Low: "6 %", High: "8 %", Source: "the books"},
		{Path: "shops.mill.tariff.hourly_rate", Value: "90 per h", Low: "85 per h", High: "99 per h"},
		{Path: "shops.mill.drive_time", Value: "30 min"},
		{Path: "machines.planer20.price", Value: "3300"},
		{Path: "growth.rental", Value: "5 %"},
	}
	want, err := study.Edit("kept.yaml", []byte(editable), changes)
	require.NoError(t, err)
	first, _, _ := study.Load("kept.yaml", want)
	for seed := range uint64(8) {
		random := rand.New(rand.NewPCG(seed, 1))
		random.Shuffle(len(changes), func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
		got, err := study.Edit("kept.yaml", []byte(editable), changes)
		require.NoError(t, err)
		read, _, _ := study.Load("kept.yaml", got)
		assert.Equal(t, first, read)
	}
}
