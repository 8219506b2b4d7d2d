package defaults_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model"
	"shopstint/model/defaults"
	"shopstint/model/quantity"
)

// givenWhereSet takes every input that is not its zero value as given.
func givenWhereSet(study *model.Study) func(string) bool {
	given := map[string]bool{}
	model.Walk(study, func(leaf model.Leaf) { given[leaf.Path] = !leaf.Value.IsZero() })
	return func(path string) bool { return given[path] }
}

func filled(study *model.Study) *model.Study {
	defaults.Fill(study, givenWhereSet(study))
	return study
}

// short is as little as a first question may say.
func short() *model.Study {
	return &model.Study{
		Currency: "USD", Units: "inch",
		Shops: []model.Shop{{Key: "shop", Distance: 20000, Machines: []model.HiredMachine{
			{Key: "planer", Ability: model.Ability{Class: model.Planer}}}}},
		Machines: []model.Machine{{Key: "planer20", Ability: model.Ability{Class: model.Planer}, Price: 4500}},
		JobTypes: []model.JobType{{Key: "top", PerYear: 20,
			Operations: []model.Operation{{Key: "plane", Class: model.Planer, Measured: quantity.Minutes(30)}}}},
	}
}

// broad has a machine of every class, in every list, and a job with an operation of each.
func broad() *model.Study {
	study := short()
	study.Materials = []model.Material{{Key: "oak"}, {Key: "river", Resin: true}}
	study.Edges = []model.Edge{{Key: "spare"}}
	for _, class := range model.Classes {
		ability := model.Ability{Class: class}
		study.Shops[0].Machines = append(study.Shops[0].Machines, model.HiredMachine{Key: "hired_" + class, Ability: ability})
		study.Tools = append(study.Tools, model.Tool{Key: "own_" + class, Ability: ability})
		for _, condition := range []string{"new", "used"} {
			study.Machines = append(study.Machines, model.Machine{
				Key: condition + "_" + class, Condition: condition, Ability: ability, Price: 3000, Resale: model.ResaleTable})
		}
		for _, material := range study.Materials {
			study.JobTypes = append(study.JobTypes, model.JobType{Key: "job_" + class + "_" + material.Key, PerYear: 5, Material: material.Key,
				Operations: []model.Operation{{Key: "work", Class: class}}})
		}
	}
	study.JobTypes[1].Operations = append(study.JobTypes[1].Operations, model.Operation{Key: "sand", Class: model.WideBelt,
		Grits: []model.Grit{{Key: "60"}, {Key: "80"}, {Key: "100"}, {Key: "120"}, {Key: "150"}, {Key: "180"}, {Key: "220"}}})
	return study
}

func TestEveryInputLeftOutIsAssumedWithASourceAndARange(t *testing.T) {
	for name, study := range map[string]*model.Study{"short": short(), "every class": broad()} {
		t.Run(name, func(t *testing.T) {
			given := givenWhereSet(study)
			defaults.Fill(study, given)
			count := 0
			model.Walk(study, func(leaf model.Leaf) {
				if given(leaf.Path) {
					assert.NotContains(t, study.Origins, leaf.Path)
					return
				}
				count++
				origin, ok := study.Origins[leaf.Path]
				if assert.True(t, ok, "nothing is assumed for %s", leaf.Path) {
					assert.True(t, origin.Assumed, leaf.Path)
					assert.NotEmpty(t, origin.Source, leaf.Path)
				}
				assertWithinLimits(t, leaf, origin)
			})
			assert.Greater(t, count, 100)
		})
	}
}

func assertWithinLimits(t *testing.T, leaf model.Leaf, origin model.Origin) {
	t.Helper()
	dim, measured := leaf.Dimension()
	if !measured {
		assertWord(t, leaf)
		return
	}
	values := []float64{leaf.Number()}
	if origin.HasRange {
		assert.LessOrEqual(t, origin.Low, leaf.Number(), leaf.Path)
		assert.GreaterOrEqual(t, origin.High, leaf.Number(), leaf.Path)
		values = append(values, origin.Low, origin.High)
	}
	for _, x := range values {
		assertLimit(t, leaf, dim, "least", func(limit float64) bool { return x >= limit })
		assertLimit(t, leaf, dim, "most", func(limit float64) bool { return x <= limit })
		assertLimit(t, leaf, dim, "above", func(limit float64) bool { return x > limit })
		if leaf.Has("whole") {
			assert.Equal(t, float64(int(x)), x, "%s is a whole number", leaf.Path)
		}
	}
}

func assertLimit(t *testing.T, leaf model.Leaf, dim quantity.Dimension, tag string, holds func(float64) bool) {
	t.Helper()
	text := leaf.Tag.Get(tag)
	if text == "" {
		return
	}
	limit, _, err := quantity.Parse(dim, limitText(dim, text))
	require.NoError(t, err, leaf.Path)
	assert.True(t, holds(limit), "%s is %g, limit %s %s", leaf.Path, leaf.Number(), tag, text)
}

// limitText lets a limit of zero stand without its unit, as the tags of rates do.
func limitText(dim quantity.Dimension, text string) string {
	if text != "0" || dim == quantity.DimMoney || dim == quantity.DimCount || dim == quantity.DimShare {
		return text
	}
	_, unit, _ := strings.Cut(dim.Example(), " ")
	unit, _, _ = strings.Cut(unit, " or ")
	return "0 " + unit
}

func assertWord(t *testing.T, leaf model.Leaf) {
	t.Helper()
	allowed := strings.Fields(leaf.Tag.Get("oneof"))
	if len(allowed) == 0 || leaf.Key() == "fallback" {
		return
	}
	if leaf.Value.Kind() == reflect.String {
		assert.Contains(t, allowed, leaf.Value.String(), leaf.Path)
		return
	}
	assert.NotZero(t, leaf.Value.Len(), leaf.Path)
	for i := range leaf.Value.Len() {
		assert.Contains(t, allowed, leaf.Value.Index(i).String(), leaf.Path)
	}
}

func TestWhatTheStudySaysIsNeverTouched(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		study := broad()
		said := map[string]float64{}
		model.Walk(study, func(leaf model.Leaf) {
			if _, measured := leaf.Dimension(); measured && rapid.Bool().Draw(t, "say") {
				leaf.SetNumber(float64(rapid.IntRange(1, 3).Draw(t, "value")))
				said[leaf.Path] = leaf.Number()
			}
		})
		filled(study)
		model.Walk(study, func(leaf model.Leaf) {
			if x, ok := said[leaf.Path]; ok && leaf.Number() != x {
				t.Fatalf("%s was %g and became %g", leaf.Path, x, leaf.Number())
			}
		})
	})
}

func TestFillingTwiceChangesNothing(t *testing.T) {
	once := filled(broad())
	twice := once.Clone()
	defaults.Fill(twice, func(path string) bool { _, assumed := once.Origins[path]; return !assumed })
	assert.Equal(t, once, twice)
}

func TestValuesGoByClassWidthAndCondition(t *testing.T) {
	study := short()
	study.Machines[0].MaxWidth = quantity.Millimetres(910)
	study.Machines[0].Condition = "used"
	study.Machines = append(study.Machines, model.Machine{Key: "rail_saw", Ability: model.Ability{Class: model.TrackSaw}, Price: 1400})
	filled(study)
	wide, saw := study.Machines[0], study.Machines[1]
	assert.InDelta(t, 8, wide.Feed.MetresPerMinute(), 1e-9, "a planer over 610 mm, trade section 1")
	assert.InDelta(t, 1.0, wide.DepthPerPass.Millimetres(), 1e-9)
	assert.InDelta(t, 13, wide.Motor.Kilowatts(), 1e-9)
	assert.InDelta(t, 0.08, float64(wide.UpkeepShare), 1e-9, "old industrial, trade section 8")
	assert.InDelta(t, 1500, float64(wide.Rigging), 1e-9)
	assert.Zero(t, saw.Rigging)
	assert.Zero(t, saw.FootprintLength)
	assert.InDelta(t, 5, float64(saw.YearsKept), 1e-9)
}

func TestAThreePhaseMotorOnASinglePhaseSupplyNeedsAConverter(t *testing.T) {
	for _, row := range []struct {
		name      string
		motor     float64 // kW
		phases    quantity.Count
		converter float64
	}{
		{"small motor", 3.7, 1, 0},
		{"7.5 kW is still single phase", 7.5, 1, 0},
		{"large motor, single-phase supply", 13, 1, 4500},
		{"large motor, three-phase supply", 13, 3, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			study := short()
			study.Studio.Phases = row.phases
			study.Machines[0].Motor = quantity.Kilowatts(row.motor)
			filled(study)
			assert.InDelta(t, row.converter, float64(study.Machines[0].Converter), 1e-9)
			assert.Equal(t, row.converter > 0, study.Origins["machines.planer20.converter"].HasRange)
		})
	}
}

func TestTheNewPriceOfAUsedMachineIsReckonedBack(t *testing.T) {
	for _, row := range []struct {
		age, want float64
		how       string
	}{
		{0, 4500, "as good as new"},
		{1, 4500 / 0.7, "first year"},
		{5, 4500 / (0.7 * 0.91 * 0.91 * 0.91 * 0.91), "first year and four more"},
		{15, 4500 / (0.7 * 0.26704), "0.91^14 = 0.26704"},
		{40, 4500 / (0.7 * 0.26704), "no further than fifteen years"},
	} {
		study := short()
		study.Machines[0].Condition = "used"
		study.Machines[0].Age = quantity.Years(row.age)
		defaults.Fill(study, func(path string) bool {
			return path == "machines.planer20.age" || path == "machines.planer20.condition" || path == "machines.planer20.price"
		})
		assert.InDelta(t, row.want, float64(study.Machines[0].NewPrice), row.want*1e-4, row.how)
	}
}

func TestMembersThatTheMethodNeedsAreAdded(t *testing.T) {
	study := short()
	job := &study.JobTypes[0]
	job.Operations = append(job.Operations, model.Operation{Key: "sand", Class: model.WideBelt},
		model.Operation{Key: "timed", Class: model.WideBelt, Measured: 60})
	study.Tools = []model.Tool{{Key: "sled", Ability: model.Ability{Class: model.RouterSled}}, {Key: "disc", Ability: model.Ability{Class: model.Orbital}}}
	filled(study)

	job = &study.JobTypes[0]
	assert.Equal(t, "hardwood", job.Material)
	assert.Equal(t, "shop", job.Shop)
	assert.Equal(t, "piece", job.Pieces[0].Key)
	assert.Len(t, job.Operations[1].Grits, 4)
	assert.Empty(t, job.Operations[2].Grits, "measured minutes need no grits")
	assert.Equal(t, model.RouterSled, job.Operations[0].Fallback)
	assert.Equal(t, model.Orbital, job.Operations[1].Fallback)
	for _, class := range []string{model.WideBelt, model.Orbital} {
		for _, grit := range job.Operations[1].Grits {
			abrasive, ok := model.Find(study.Abrasives, "assumed_"+class+"_"+grit.Key)
			if assert.True(t, ok, class+grit.Key) {
				assert.Equal(t, class, abrasive.Class)
				assert.Positive(t, abrasive.Life)
			}
		}
	}
	assert.Equal(t, "assumed_planer_edge", study.Machines[0].Edge)
	assert.GreaterOrEqual(t, model.Index(study.Edges, "assumed_router_sled_edge"), 0)
	assert.Equal(t, []string{model.Planer}, study.Machines[0].Does)
}

func TestAMemberThatIsThereIsNotAddedAgain(t *testing.T) {
	study := short()
	study.JobTypes[0].Operations = []model.Operation{{Key: "sand", Class: model.WideBelt, Grits: []model.Grit{{Key: "80"}}}}
	study.Abrasives = []model.Abrasive{{Key: "coarse", Class: model.WideBelt, Grit: 80}}
	study.Edges = []model.Edge{{Key: "knives"}}
	study.Machines[0].Edge = "knives"
	study.Shops[0].Machines[0].Edge = "knives"
	filled(study)
	assert.Len(t, study.Abrasives, 1)
	assert.Len(t, study.Edges, 1)
	assert.InDelta(t, 4000, float64(study.Edges[0].Life), 1e-9, "knives of a planer")
}

func TestNoFallbackIsAssumedForAToolThatTheStudioDoesNotOwn(t *testing.T) {
	assert.Empty(t, filled(short()).JobTypes[0].Operations[0].Fallback)
}

func TestAShopWithRatesForItsMachinesHasAClockForEach(t *testing.T) {
	study := short()
	study.Shops[0].Machines[0].HourlyRate = 80
	filled(study)
	assert.Equal(t, model.PerMachine, study.Shops[0].Tariff.Basis)
	assert.Zero(t, study.Shops[0].Tariff.HourlyRate)
}

func TestLoadingTimeGoesByTheMassOfEachPiece(t *testing.T) {
	for _, row := range []struct {
		name                     string
		count                    quantity.Count
		length, width, thickness float64 // mm
		minutes                  float64
	}{
		{"22.7 kg at 700 kg/m3", 1, 1800, 400, 45, 4},
		{"six light parts", 6, 1800, 400, 45, 24},
		{"75.6 kg", 1, 1800, 1000, 60, 20},
		{"two heavy halves of 168 kg", 2, 2400, 1000, 100, 70},
	} {
		t.Run(row.name, func(t *testing.T) {
			study := short()
			study.JobTypes[0].Pieces = []model.Piece{{Key: "top", Count: row.count, Length: quantity.Millimetres(row.length),
				Width: quantity.Millimetres(row.width), Thickness: quantity.Millimetres(row.thickness)}}
			assert.InDelta(t, row.minutes, filled(study).JobTypes[0].LoadingTime.Minutes(), 1e-9)
		})
	}
}

func TestResinShortensLivesAndMakesReworkLikelier(t *testing.T) {
	study := filled(broad())
	river, oak := study.Materials[1], study.Materials[0]
	assert.Less(t, float64(river.AbrasiveLife), float64(oak.AbrasiveLife))
	assert.InDelta(t, 800, float64(river.Density), 1e-9)
	assert.InDelta(t, 0.30, float64(study.JobTypes[2].ReworkChance), 1e-9, study.JobTypes[2].Material)
	assert.InDelta(t, 0.10, float64(study.JobTypes[1].ReworkChance), 1e-9, study.JobTypes[1].Material)
}

func TestMoneyOfAnotherCurrencyIsFlagged(t *testing.T) {
	study := short()
	study.Currency = "EUR"
	filled(study)
	assert.Equal(t, defaults.ForeignMoney, study.Origins["studio.labour_rate"].Note)
	assert.Equal(t, defaults.ForeignMoney, study.Origins["machines.planer20.rigging"].Note)
	assert.Empty(t, study.Origins["shops.shop.tolls"].Note, "nothing is nothing in any money")
	assert.Empty(t, study.Origins["machines.planer20.new_price"].Note, "reckoned from the owner's own price")
	assert.Empty(t, study.Origins["studio.heavy_over"].Note)
	assert.Equal(t, model.TaxStraightLine, study.Machines[0].Tax.Method)
	assert.Empty(t, filled(short()).Origins["studio.labour_rate"].Note)
}

func TestAReckonedValueIsHeldAtItsLimitAndSaysSo(t *testing.T) {
	study := short()
	study.Shops[0].Distance = quantity.Kilometres(2000)
	filled(study)
	assert.InDelta(t, 1440, study.Shops[0].DriveTime.Minutes(), 1e-9)
	assert.Equal(t, defaults.AtLimit, study.Origins["shops.shop.drive_time"].Note)
}

func TestAnEmptyOrBrokenStudyDoesNoHarm(t *testing.T) {
	for _, study := range []*model.Study{
		{},
		{JobTypes: []model.JobType{{Key: "", Operations: []model.Operation{{Class: "nonsense", Grits: []model.Grit{{Key: "x"}}}}}}},
		{Machines: []model.Machine{{Key: "a.b", Resale: model.ResaleTable, Condition: "used"}}, Shops: []model.Shop{{}}},
		{Abrasives: []model.Abrasive{{Key: "x"}}, Edges: []model.Edge{{}}, Tools: []model.Tool{{}, {}}},
	} {
		assert.NotPanics(t, func() { filled(study) })
	}
}

func BenchmarkFill(b *testing.B) {
	for b.Loop() {
		filled(broad())
	}
}
