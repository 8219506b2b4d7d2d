package defaults_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/defaults"
	"shopstint/model/quantity"
)

// typical returns the assumed value that stands on a line of the embedded list.
func typical(t *testing.T, dim quantity.Dimension, path, class string) float64 {
	t.Helper()
	for _, entry := range defaults.Entries() {
		if entry.Path == path && (class == "" || len(entry.Classes) > 0 && entry.Classes[0] == class) {
			x, _, err := quantity.Parse(dim, entry.Typical)
			require.NoError(t, err)
			return x
		}
	}
	t.Fatalf("nothing is assumed for %s of %s", path, class)
	return 0
}

// compared is a study with an own orbital, an own router and ways that run them.
func compared(ways ...model.Way) *model.Study {
	s := short()
	s.Tools = []model.Tool{
		{Key: "disc", Ability: model.Ability{Class: model.Orbital}},
		{Key: "router", Ability: model.Ability{Class: model.Router, Edge: "straight"}},
	}
	s.Edges = []model.Edge{{Key: "straight", Sharpenings: 1, SharpeningPrice: 0.5}, {Key: "spiral"}, {Key: "inserts", Sharpenings: 3}}
	s.Abrasives = []model.Abrasive{{Key: "fine", Class: model.Orbital, Grit: 180}, {Key: "coarse", Class: model.Orbital, Grit: 80}}
	s.Comparisons = []model.Comparison{{Key: "trim", YearlyLength: 100, Ways: ways}}
	return s
}

func way(s *model.Study, key string) model.Way {
	found, _ := model.Find(s.Comparisons[0].Ways, key)
	return found
}

func TestAWayHasThePaceOfTheMachineThatRunsIt(t *testing.T) {
	s := filled(compared(
		model.Way{Key: "by_hand"}, model.Way{Key: "only_compared", Edge: "spiral"}, model.Way{Key: "run", Edge: "straight"},
		model.Way{Key: "sanded", Abrasives: []string{"coarse", "fine"}, Passes: 3},
	))
	feed := typical(t, quantity.DimSpeed, "any_machine.feed", model.Router)
	assert.InDelta(t, feed, float64(way(s, "run").Feed), 1e-12)
	assert.InDelta(t, feed, float64(way(s, "only_compared").Feed), 1e-12, "as another way of the same work")
	assert.Zero(t, way(s, "by_hand").Feed)
	assert.Equal(t, "it runs nothing of that kind", s.Origins["comparisons.trim.ways.by_hand.feed"].Source)
	assert.Zero(t, way(s, "run").AreaTime)
	disc := typical(t, quantity.DimAreaTime, "any_machine.area_time", model.Orbital)
	assert.InDelta(t, 2*3*disc, float64(way(s, "sanded").AreaTime), 1e-9, "two abrasives, three passes each")
	assert.Zero(t, way(s, "sanded").Feed)
	assert.Equal(t, "hardwood", s.Comparisons[0].Material)
}

func TestWhatAWayDoesNotSayIsMarkedAsAssumed(t *testing.T) {
	s := filled(compared(model.Way{Key: "run", Edge: "straight"}, model.Way{Key: "by_hand"}))
	seen := 0
	model.Walk(s, func(leaf model.Leaf) {
		if _, measured := leaf.Dimension(); measured && strings.HasPrefix(leaf.Path, "comparisons.trim.ways.by_hand.") {
			assert.True(t, s.Origins[leaf.Path].Assumed, leaf.Path)
			seen++
		}
	})
	assert.Greater(t, seen, 5)
}

func TestOneSpareWhereAnEdgeIsSentAway(t *testing.T) {
	s := compared(model.Way{Key: "sent", Edge: "straight"}, model.Way{Key: "turned", Edge: "inserts"}, model.Way{Key: "thrown", Edge: "spiral"}, model.Way{Key: "none"})
	s.Edges[1].SharpeningPrice = 10
	defaults.Fill(s, func(path string) bool { return strings.HasPrefix(path, "edges.") || strings.HasSuffix(path, ".edge") })
	assert.InDelta(t, 1, float64(way(s, "sent").Spares), 0)
	assert.Zero(t, way(s, "turned").Spares, "an insert is turned, not sent away")
	assert.Zero(t, way(s, "thrown").Spares, "it is never sharpened")
	assert.Zero(t, way(s, "none").Spares)
}

func TestUpkeepOfAWayIsTheUsualShareOfItsPrice(t *testing.T) {
	s := filled(compared(model.Way{Key: "run", Edge: "straight", Price: 500}))
	assert.InDelta(t, 500*0.04, float64(way(s, "run").YearlyUpkeep), 1e-9)
	assert.Contains(t, s.Origins["comparisons.trim.ways.run.yearly_upkeep"].Source, "4 % of its price")
}

func TestACutGoesAlongThePieceAndARouterAroundIt(t *testing.T) {
	pieces := []model.Piece{
		{Key: "short", Count: 1, Length: 1, Width: 0.9, Thickness: 0.03}, {Key: "long", Count: 1, Length: 2.4, Width: 0.5, Thickness: 0.03},
		{Key: "last", Count: 1, Length: 2.4, Width: 0.1, Thickness: 0.03},
	}
	for _, row := range []struct {
		class, piece string
		want         float64
		source       string
	}{
		{model.PanelSaw, "", 2.4, "along the piece"},
		{model.TrackSaw, "short", 1, "along the piece"},
		{model.Router, "", 5.8, "around the piece"}, // the longest, of those the first: 2 × (2.4 + 0.5)
		{model.Router, "short", 3.8, "around the piece"},
		{model.Planer, "", 0, "this class cuts no line"},
	} {
		s := short()
		s.JobTypes[0].Pieces = pieces
		s.JobTypes[0].Operations = []model.Operation{{Key: "first", Class: model.Planer}, {Key: "work", Class: row.class, Piece: row.piece}}
		filled(s)
		assert.InDelta(t, row.want, float64(s.JobTypes[0].Operations[1].CutLength), 1e-12, row.class)
		assert.Equal(t, row.source, s.Origins["job_types.top.operations.work.cut_length"].Source)
	}
}

func TestADriveIsReckonedByTheKilometreWithItsRange(t *testing.T) {
	s := filled(short()) // 20 km
	assert.InDelta(t, 24, s.Shops[0].DriveTime.Minutes(), 1e-9)
	origin := s.Origins["shops.shop.drive_time"]
	assert.True(t, origin.HasRange)
	assert.InDelta(t, 17*60, origin.Low, 1e-9)
	assert.InDelta(t, 34*60, origin.High, 1e-9)
	assert.Empty(t, origin.Note)

	s = short()
	s.Shops[0].Distance = 1_000_000 // 1.7 min a kilometre would be 1700 min
	filled(s)
	assert.InDelta(t, 1200, s.Shops[0].DriveTime.Minutes(), 1e-9)
	assert.InDelta(t, 1440*60, s.Origins["shops.shop.drive_time"].High, 1e-9, "the range is held as well")
	assert.InDelta(t, 850*60, s.Origins["shops.shop.drive_time"].Low, 1e-9)
	assert.Empty(t, s.Origins["shops.shop.drive_time"].Note)

	s = short()
	s.Shops[0].Distance = 1_200_000
	filled(s)
	assert.InDelta(t, 1440, s.Shops[0].DriveTime.Minutes(), 1e-9)
	assert.Empty(t, s.Origins["shops.shop.drive_time"].Note, "at the limit and not beyond")
}

func TestEveryAssumedAmountOfAnotherMoneyIsFlaggedUnlessItIsNothing(t *testing.T) {
	s := broad()
	s.Currency = "EUR"
	filled(s)
	amounts, ranges := 0, 0
	model.Walk(s, func(leaf model.Leaf) {
		dim, ok := leaf.Dimension()
		origin := s.Origins[leaf.Path]
		if !ok || !origin.Assumed || leaf.Key() == "new_price" {
			return
		}
		flagged := dim.IsMoney() && (leaf.Number() != 0 || origin.HasRange)
		assert.Equal(t, flagged, origin.Note == defaults.ForeignMoney, leaf.Path)
		if flagged && !origin.HasRange {
			amounts++
		}
		if flagged && leaf.Number() == 0 {
			ranges++
		}
	})
	assert.Positive(t, amounts+ranges)
}

func TestResinOfTheFirstMaterialCountsAsThatOfAnyOther(t *testing.T) {
	s := short()
	s.Materials = []model.Material{{Key: "river", Resin: true}, {Key: "oak"}}
	filled(s)
	assert.InDelta(t, 0.30, float64(s.JobTypes[0].ReworkChance), 1e-9)
}

func TestLoadingAddsUpTheRangesOfAllPieces(t *testing.T) {
	s := short()
	s.Materials = []model.Material{{Key: "oak", Density: 500}}
	s.JobTypes[0].Pieces = []model.Piece{
		{Key: "leg", Count: 4, Length: 1, Width: 0.1, Thickness: 0.1}, // 5 kg
		{Key: "top", Count: 2, Length: 2, Width: 1, Thickness: 0.05},  // 50 kg
	}
	filled(s)
	assert.InDelta(t, 4*4+2*10, s.JobTypes[0].LoadingTime.Minutes(), 1e-9)
	origin := s.Origins["job_types.top.loading_time"]
	assert.InDelta(t, (4*2+2*5)*60, origin.Low, 1e-9)
	assert.InDelta(t, (4*8+2*20)*60, origin.High, 1e-9)
	assert.Contains(t, origin.Source, "the heaviest 50 kg")
}

func TestThePriceOfANewMachineFollowsThePartOfTheFirstYear(t *testing.T) {
	for _, row := range []struct {
		age, first, yearly, want float64
		source                   string
	}{
		{0.5, 0.64, 0.9, 1000 / 0.8, "80 % of a new one after 0.5 years"}, // √0.64
		{2, 0.5, 0.8, 2500, "40 % of a new one after 2 years"},
		{2, 2, 0.9, 1000, ""}, // out of the limits, which a rule tells
		{2, 0, 0.9, 1000, ""},
	} {
		s := short()
		m := &s.Machines[0]
		m.Price, m.Condition, m.Age, m.FirstYearValue, m.YearlyValue = 1000, "used", quantity.Years(row.age), quantity.Share(row.first), quantity.Share(row.yearly)
		defaults.Fill(s, func(path string) bool { return path != "machines.planer20.new_price" })
		assert.InDelta(t, row.want, float64(m.NewPrice), 1e-9)
		assert.Contains(t, s.Origins["machines.planer20.new_price"].Source, row.source)
	}
}

func TestATableOfValuesHasARowForEachOfTenYears(t *testing.T) {
	s := short()
	s.Machines[0].Resale = model.ResaleTable
	filled(s)
	require.Len(t, s.Machines[0].ValueTable, 10)
	assert.InDelta(t, 0.70, float64(s.Machines[0].ValueTable[0]), 1e-12)
	assert.InDelta(t, 0.64, float64(s.Machines[0].ValueTable[1]), 1e-12)
	assert.InDelta(t, 0.30, float64(s.Machines[0].ValueTable[9]), 1e-12)

	s = short()
	s.Machines[0].Resale, s.Machines[0].ValueTable = model.ResaleTable, []quantity.Share{0.5}
	assert.Len(t, filled(s).Machines[0].ValueTable, 1, "a table that is given stays")
	assert.Empty(t, filled(short()).Machines[0].ValueTable, "resale by another method needs none")
}

// widthsGiven leaves widths as they are: 0 is then no limit.
func widthsGiven(path string) bool {
	return strings.HasSuffix(path, ".max_width") || strings.HasPrefix(path, "abrasives.belt.grit") || strings.HasSuffix(path, ".class")
}

func TestAnEdgeAndABeltGoByTheWidestMachineThatRunsThem(t *testing.T) {
	s := short()
	planer := func(width float64) model.Ability {
		return model.Ability{Class: model.Planer, Edge: "knives", MaxWidth: quantity.Millimetres(width)}
	}
	s.Tools = []model.Tool{{Key: "narrow", Ability: planer(300)}, {Key: "wide", Ability: planer(500)}, {Key: "middle", Ability: planer(400)}}
	s.Edges = []model.Edge{{Key: "knives"}, {Key: "unused"}}
	filled(s)
	assert.InDelta(t, 160, float64(s.Edges[0].Price), 1e-9, "a planer of 500 mm")
	assert.Greater(t, float64(s.Edges[0].Life), 0.0)

	belts := func(widths ...float64) float64 {
		s := short()
		for i, width := range widths {
			s.Tools = append(s.Tools, model.Tool{Key: string(rune('a' + i)), Ability: model.Ability{Class: model.WideBelt, MaxWidth: quantity.Millimetres(width)}})
		}
		s.Abrasives = []model.Abrasive{{Key: "belt", Class: model.WideBelt, Grit: 100}}
		defaults.Fill(s, widthsGiven)
		assert.InDelta(t, 1000, float64(s.Abrasives[0].Life), 1e-9, "its life by the grit")
		return float64(s.Abrasives[0].Price)
	}
	assert.InDelta(t, 40, belts(600, 300), 1e-9)
	assert.InDelta(t, 55, belts(600, 700), 1e-9)
	assert.InDelta(t, 120, belts(600, 0), 1e-9, "without a limit it is endlessly wide")
}

func TestAShopHasOneClockWhereItsRoomHasARate(t *testing.T) {
	for name, row := range map[string]struct {
		given []string
		basis string
	}{
		"nothing is said":       {nil, model.WholeShop},
		"the room has a rate":   {[]string{"shops.shop.tariff.hourly_rate", "shops.shop.machines.planer.hourly_rate"}, model.WholeShop},
		"a machine has a rate":  {[]string{"shops.shop.machines.planer.hourly_rate"}, model.PerMachine},
		"the study says itself": {[]string{"shops.shop.tariff.basis", "shops.shop.machines.planer.hourly_rate"}, ""},
	} {
		s := short()
		defaults.Fill(s, func(path string) bool {
			for _, given := range row.given {
				if path == given {
					return true
				}
			}
			return path == "shops.shop.distance"
		})
		assert.Equal(t, row.basis, s.Shops[0].Tariff.Basis, name)
	}
}

func TestGritsOfWorkThatACandidateTakesOverHaveItsAbrasives(t *testing.T) {
	s := short()
	s.Machines[0].Class, s.Machines[0].Does = model.WideBelt, []string{model.Orbital}
	s.JobTypes[0].Operations = []model.Operation{{Key: "sand", Class: model.Orbital}}
	s.Abrasives = []model.Abrasive{{Key: "mesh", Class: model.Orbital, Grit: 120, OnlyCompared: true}}
	filled(s)
	var keys []string
	for _, one := range s.Abrasives {
		keys = append(keys, one.Key)
	}
	assert.Equal(t, []string{"mesh", "assumed_orbital_120", "assumed_orbital_150", "assumed_orbital_180",
		"assumed_wide_belt_120", "assumed_wide_belt_150", "assumed_wide_belt_180"}, keys, "what is only compared is run by no step")
	assert.True(t, s.Origins["abrasives.assumed_orbital_120.grit"].Assumed)
	assert.True(t, s.Origins["abrasives.assumed_orbital_120.class"].Assumed)
}

func TestAMemberIsCalledByItsKey(t *testing.T) {
	s := short()
	s.Shops[0].Machines[0].Key = "big_old_planer"
	filled(s)
	assert.Equal(t, "big old planer", s.Shops[0].Machines[0].Name)
	assert.True(t, s.Origins["shops.shop.machines.big_old_planer.name"].Assumed)
}

func TestABandHoldsFromItsBeginningToBeforeItsEnd(t *testing.T) {
	for width, feed := range map[float64]float64{344.9: 7.9, 345: 5.5, 619.9: 5.5, 620: 8, 0: 8} {
		s := short()
		s.Machines[0].MaxWidth = quantity.Millimetres(width)
		defaults.Fill(s, widthsGiven)
		assert.InDelta(t, feed, s.Machines[0].Feed.MetresPerMinute(), 1e-9, "%v mm", width)
	}
}
