package study_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/study"
)

// full has something in every section, as Write writes it.
const full = `# A study
# that says something of all
title: "null"
currency: EUR
units: metric
# The owner's side: people, vehicle, floor, supply, tax.
studio:
  labour_rate: {value: 45 per h, low: 38 per h, high: 60 per h, shape: uniform, note: 'the bench: half', source: own books}
  vehicle:
    payload: 900 kg
# How prices grow in a year.
growth:
  rental: 3 %
  labour: {value: 2 %, source: the union}
# The bigger shops, what they charge and what they let.
shops:
  mill:
    name: The mill by the river
    distance: {value: 25 km, note: "10"}
    open_days: [mon, fri]
    tariff:
      hourly_rate: 85 per h
    machines:
      planer:
        class: planer
        inducted: no
# What the studio owns already and keeps.
tools:
  sander:
    class: orbital
# What the studio could buy.
machines:
  planer20:
    class: planer
    does: [planer, router_sled]
    price: 3200
    value_table: [70 %, {value: 60 %, low: 50 %, high: 65 %}]
# What machines share and is paid for once.
fixtures:
  dust:
    price: 900
# Lives are for plain hardwood.
edges:
  knives: {}
abrasives:
  disc:
    class: orbital
    grit: 80
materials:
  oak: {}
# The work of a year: rough sizes, as a piece comes to the machine.
job_types:
  top:
    per_year: 24
    operations:
      plane:
        class: planer
      sand:
        class: orbital
        grits:
          80: 0.3 mm
          120: {}
          180: {value: 0.1 mm, low: 0 mm, high: 0.2 mm}
# Orders with their dates, for: shopstint visits
dated_jobs:
  first:
    job_type: top
    ready: 2026-03-02
    due: 2026-03-20
# Ways of doing the same work, for: shopstint wear
comparisons:
  trim:
    yearly_length: 0.1 km
    piece_length: 2000 mm
    ways:
      by_hand:
        piece_time: 3 min
      bought:
        price: 500
`

func TestAStudyIsWrittenInTheOrderOfItsNounsWithARemarkOnEachSection(t *testing.T) {
	read, places, problems := study.Load("full.yaml", []byte(full))
	require.Empty(t, problems.Error())
	text, err := study.Write(read, places, "# A study\n# that says something of all")
	require.NoError(t, err)
	assert.Equal(t, full, string(text))
}

func TestAStudyOfWhichNothingWasGivenIsWrittenEmpty(t *testing.T) {
	read, _, problems := study.Load("full.yaml", []byte(full))
	require.Empty(t, problems.Error())
	text, err := study.Write(read, study.Places{}, "# top")
	require.NoError(t, err)
	assert.Equal(t, "{}\n", string(text))
	read.Units = "cubits"
	_, err = study.Write(read, study.Places{}, "")
	assert.ErrorContains(t, err, "could not write the study: ")
}

// withAssumed are the entries of a form with an abrasive that the program assumed,
// as the sheet of a decision workbook has it.
func withAssumed() []study.Entry {
	entries := entered()
	for _, one := range [][2]string{{"class", "wide_belt"}, {"grit", "80"}, {"price", "70"}} {
		at := problem.Place{File: "form", Sheet: "S", Cell: "D1"}
		entries = append(entries, study.Entry{Path: "abrasives.assumed_wide_belt_80." + one[0], Which: at, Named: at, Value: study.Text{Text: one[1], Place: at}, Assumed: one[0] != "price"})
	}
	return entries
}

func TestAMemberThatTheMethodNeedsIsNoPartOfTheStudy(t *testing.T) {
	read, places, problems := study.LoadForm(study.Form{Name: "form", Entries: withAssumed()})
	require.Empty(t, problems.Error())
	require.True(t, read.Origins["abrasives.assumed_wide_belt_80.grit"].Assumed)
	assert.False(t, read.Origins["abrasives.assumed_wide_belt_80.price"].Assumed)
	belongs := study.Belongs(read, places)
	for path, want := range map[string]bool{
		"currency": true, "title": true, "studio.people": true, "shops.mill.machines.planer.feed": true, "shops.mill.tariff.day": true, "machines.planer20.motor": true,
		"machines.planer20": true, "job_types.top.operations.sand.grits.80.stock": true, "job_types.top.operations.sand.grits.80": true,
		"abrasives.assumed_wide_belt_80.price": false, "abrasives.assumed_wide_belt_80": false, "abrasives.assumed_wide_belt_120.price": false,
		"edges.assumed_planer_edge.life": false, "materials.hardwood.density": false, "job_types.top.pieces.piece.length": false, "": true,
	} {
		assert.Equal(t, want, belongs(path), path)
	}
	text, err := study.Write(read, places, "")
	require.NoError(t, err)
	assert.NotContains(t, string(text), "abrasives")
}

// Kept is what would now be assumed otherwise and nothing else: no input that is given.
func TestOnlyWhatIsAssumedOtherwiseNowIsKept(t *testing.T) {
	read, places, problems := study.Load("small.yaml", []byte(small))
	require.Empty(t, problems.Error())
	want, err := study.Write(read, places, "")
	require.NoError(t, err)
	read.Machines[0].Motor = quantity.Kilowatts(3)
	text, err := study.Write(read, places, "")
	require.NoError(t, err)
	const line = "    motor: {value: 3 kW, low: 2.2 kW, high: 5.6 kW, source: 'common practice, no source'}\n"
	assert.Equal(t, string(want), strings.Replace(string(text), line, "", 1))

	delete(read.Origins, "machines.planer20.motor") // neither given nor assumed: nothing to be kept
	text, err = study.Write(read, places, "")
	require.NoError(t, err)
	assert.Equal(t, string(want), string(text))
}
