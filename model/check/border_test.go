package check

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// border is a study on one side of what a rule allows: where it is found, or
// nowhere. Every rule has both sides, as near to each other as they can be.
type border struct {
	what   string
	change func(*model.Study)
	at     []string
}

func at(paths ...string) []string { return paths }

var nowhere []string

// judge holds a rule to its borders, starting from the study in round figures.
func judge(t *testing.T, name string, borders []border) {
	t.Helper()
	for _, rule := range Rules {
		if rule.Name != name {
			continue
		}
		assert.Empty(t, rule.Check(studygen.Round()), "%s: the study in round figures", name)
		for _, row := range borders {
			study := studygen.Round()
			row.change(study)
			var paths []string
			for _, found := range rule.Check(study) {
				paths = append(paths, found.Path)
			}
			assert.Equal(t, row.at, paths, "%s: %s", name, row.what)
		}
		return
	}
	t.Fatalf("no rule %q", name)
}

func assume(s *model.Study, paths ...string) {
	for _, path := range paths {
		s.Origins[path] = model.Origin{Assumed: true}
	}
}

func planer(s *model.Study) *model.Machine { return &s.Machines[0] }
func belt(s *model.Study) *model.Machine   { return &s.Machines[1] }
func tariff(s *model.Study) *model.Tariff  { return &s.Shops[0].Tariff }
func job(s *model.Study) *model.JobType    { return &s.JobTypes[0] }

const (
	plane, sand, cut, edge = 0, 1, 2, 3 // operations of the study in round figures
	operationsOfTop        = "job_types.top.operations."
)

func step(s *model.Study, index int) *model.Operation { return &s.JobTypes[0].Operations[index] }

func TestTheStudyInRoundFiguresHoldsEveryRule(t *testing.T) {
	assert.Empty(t, Study(studygen.Round()))
	assert.Empty(t, Fits(studygen.Round()))
}

func TestASupplyHasOnePhaseOrThree(t *testing.T) {
	judge(t, "a supply has one or three phases", []border{
		{"three", func(s *model.Study) { s.Studio.Phases, belt(s).MachinePhases = 3, 3 }, nowhere},
		{"two", func(s *model.Study) { s.Studio.Phases = 2 }, at("studio.phases")},
		{"a machine of two", func(s *model.Study) { belt(s).MachinePhases = 2 }, at("machines.belt_own.machine_phases")},
		{"four", func(s *model.Study) { s.Studio.Phases = 4 }, at("studio.phases")},
	})
}

func TestANameLeadsToAMember(t *testing.T) {
	judge(t, "a reference names a member that exists", []border{
		{"no edge", func(s *model.Study) { s.Tools[0].Edge = "" }, nowhere},
		{"another edge", func(s *model.Study) { s.Tools[0].Edge = "blades" }, at("tools.saw.edge")},
		{"one of several", func(s *model.Study) { planer(s).Needs = []string{"belt_own", "beltown"} }, at("machines.planer_own.needs")},
		{"a shop", func(s *model.Study) { job(s).Shop = "yard" }, at("job_types.top.shop")},
	})
	study := studygen.Round()
	study.Tools[0].Edge, planer(study).Fixtures = "blades", []string{"duct"}
	var said []string
	for _, found := range referencesExist(study) {
		said = append(said, found.Right)
	}
	assert.Equal(t, []string{`did you mean "blade"?`, "add it there, or leave this out"}, said, "what there is, or that there is none")
	judge(t, "an operation works on a piece of its job", []border{
		{"it", func(s *model.Study) { step(s, cut).Piece = "top" }, nowhere},
		{"another", func(s *model.Study) { step(s, cut).Piece = "leg" }, at(operationsOfTop + "cut.piece")},
	})
}

func TestAMachineNeedsAndExcludesOthers(t *testing.T) {
	judge(t, "a machine neither needs nor excludes itself", []border{
		{"others", func(s *model.Study) { planer(s).Needs, belt(s).Excludes = []string{"belt_own"}, []string{"planer_own"} }, nowhere},
		{"itself", func(s *model.Study) { planer(s).Excludes, belt(s).Needs = []string{"planer_own"}, []string{"belt_own"} },
			at("machines.planer_own.excludes", "machines.belt_own.needs")},
	})
	third := func(s *model.Study, needs, excludes []string) {
		more := *belt(s)
		more.Key, more.Needs, more.Excludes = "third", needs, excludes
		s.Machines = append(s.Machines, more)
	}
	judge(t, "a machine can be owned with all that it needs", []border{
		{"needs one that excludes none", func(s *model.Study) { planer(s).Needs = []string{"belt_own"} }, nowhere},
		{"each needs the other", func(s *model.Study) { planer(s).Needs, belt(s).Needs = []string{"belt_own"}, []string{"planer_own"} }, nowhere},
		{"needs one that excludes it", func(s *model.Study) { planer(s).Needs, belt(s).Excludes = []string{"belt_own"}, []string{"planer_own"} }, at("machines.planer_own.needs")},
		{"needs two of which one excludes the other", func(s *model.Study) {
			planer(s).Needs = []string{"belt_own", "third"}
			third(s, nil, []string{"belt_own"})
		}, at("machines.planer_own.needs")},
		{"excluded at third hand", func(s *model.Study) {
			planer(s).Needs, belt(s).Needs = []string{"belt_own"}, []string{"third"}
			third(s, nil, []string{"planer_own"})
		}, at("machines.planer_own.needs")},
		{"excluded by what it does not need", func(s *model.Study) {
			planer(s).Needs = []string{"belt_own"}
			third(s, nil, []string{"planer_own"})
		}, nowhere},
		{"one that excludes itself", func(s *model.Study) { planer(s).Needs, belt(s).Excludes = []string{"belt_own"}, []string{"belt_own"} }, nowhere},
	})
}

func TestAMaterialIsSaidAndWeighedOnce(t *testing.T) {
	judge(t, "a material has a density or a specific gravity", []border{
		{"both", func(s *model.Study) { s.Materials[0].SpecificGravity = 0.6 }, at("materials.oak.specific_gravity")},
		{"a density that is assumed", func(s *model.Study) { s.Materials[0].SpecificGravity = 0.6; assume(s, "materials.oak.density") }, nowhere},
		{"a gravity that is assumed", func(s *model.Study) {
			s.Materials[0].SpecificGravity = 0.6
			assume(s, "materials.oak.specific_gravity")
		}, nowhere},
	})
	two := func(s *model.Study) {
		more := s.Materials[0]
		more.Key = "ash"
		s.Materials = append(s.Materials, more)
		s.Comparisons = []model.Comparison{{Key: "trim"}}
	}
	judge(t, "a job type says its material where there are several", []border{
		{"one material", func(s *model.Study) { job(s).Material = "" }, nowhere},
		{"two, said", two, nowhere},
		{"two, not said", func(s *model.Study) { two(s); job(s).Material = "" }, at("job_types.top.material")},
		{"two, assumed", func(s *model.Study) { two(s); assume(s, "job_types.top.material") }, at("job_types.top.material")},
		{"of a comparison", func(s *model.Study) { two(s); assume(s, "comparisons.trim.material") }, at("comparisons.trim.material")},
	})
}

func TestATariffHasItsRates(t *testing.T) {
	judge(t, "a machine room by the hour has a rate", []border{
		{"little", func(s *model.Study) { tariff(s).HourlyRate = 0.01 }, nowhere},
		{"none", func(s *model.Study) { tariff(s).HourlyRate = 0 }, at("shops.mill.tariff.hourly_rate")},
		{"none, by the machine", func(s *model.Study) { tariff(s).HourlyRate, tariff(s).Basis = 0, model.PerMachine }, nowhere},
	})
	judge(t, "a clock for each machine has a rate for each", []border{
		{"both", func(s *model.Study) { tariff(s).Basis = model.PerMachine }, nowhere},
		{"one little", func(s *model.Study) { tariff(s).Basis, s.Shops[0].Machines[1].HourlyRate = model.PerMachine, 0.01 }, nowhere},
		{"one none", func(s *model.Study) { tariff(s).Basis, s.Shops[0].Machines[1].HourlyRate = model.PerMachine, 0 }, at("shops.mill.machines.belt.hourly_rate")},
		{"one none, the room by the hour", func(s *model.Study) { s.Shops[0].Machines[1].HourlyRate = 0 }, nowhere},
	})
	judge(t, "a half day costs no more than a day", []border{
		{"as much", func(s *model.Study) { tariff(s).HalfDayPrice, tariff(s).DayPrice = 300, 300 }, nowhere},
		{"more", func(s *model.Study) { tariff(s).HalfDayPrice, tariff(s).DayPrice = 300.01, 300 }, at("shops.mill.tariff.half_day_price")},
		{"and no day", func(s *model.Study) { tariff(s).HalfDayPrice = 300 }, nowhere},
		{"cents", func(s *model.Study) { tariff(s).HalfDayPrice, tariff(s).DayPrice = 0.6, 0.5 }, at("shops.mill.tariff.half_day_price")},
	})
	study := studygen.Round()
	tariff(study).HalfDayPrice, tariff(study).DayPrice = 320, 300
	assert.Equal(t, "shops.mill.tariff.half_day_price is 320 and day_price is 300, 20 less", halfDayCheaper(study)[0].What)
	judge(t, "a membership has a fee", []border{
		{"a fee", func(s *model.Study) { tariff(s).MembershipTime, tariff(s).MembershipFee = 60, 0.5 }, nowhere},
		{"hours only", func(s *model.Study) { tariff(s).MembershipTime = 0.5 }, at("shops.mill.tariff.membership_time")},
		{"a discount only", func(s *model.Study) { tariff(s).MemberDiscount = 0.1 }, at("shops.mill.tariff.member_discount")},
		{"hours that are assumed", func(s *model.Study) {
			tariff(s).MembershipTime = 60
			assume(s, "shops.mill.tariff.membership_time")
		}, nowhere},
		{"a discount that is assumed", func(s *model.Study) {
			tariff(s).MemberDiscount = 0.1
			assume(s, "shops.mill.tariff.member_discount")
		}, nowhere},
	})
}

func TestAStretchOfATariffFitsIntoItsDay(t *testing.T) {
	judge(t, "a half day is shorter than a day", []border{
		{"by a minute", func(s *model.Study) { tariff(s).HalfDay = tariff(s).Day - quantity.Minutes(1) }, nowhere},
		{"not at all", func(s *model.Study) { tariff(s).HalfDay = tariff(s).Day }, at("shops.mill.tariff.half_day")},
		{"the day is the owner's, the half day is not", func(s *model.Study) {
			tariff(s).Day = tariff(s).HalfDay
			assume(s, "shops.mill.tariff.half_day")
		}, at("shops.mill.tariff.day")},
		{"neither is", func(s *model.Study) {
			tariff(s).Day = tariff(s).HalfDay
			assume(s, "shops.mill.tariff.half_day", "shops.mill.tariff.day")
		}, at("shops.mill.tariff.half_day")},
	})
	judge(t, "a minimum block is no longer than a day", []border{
		{"as long", func(s *model.Study) { tariff(s).MinimumBlock = tariff(s).Day }, nowhere},
		{"longer", func(s *model.Study) { tariff(s).MinimumBlock = tariff(s).Day + quantity.Minutes(1) }, at("shops.mill.tariff.minimum_block")},
	})
	study := studygen.Round()
	tariff(study).HalfDay = quantity.Hours(8)
	assert.Equal(t, "shops.mill.tariff.half_day is 480 min and day is 480 min", halfDayShorter(study)[0].What)
	tariff(study).HalfDay = quantity.Hours(10)
	assert.Equal(t, "shops.mill.tariff.half_day is 600 min and day is 480 min, 120 min longer", halfDayShorter(study)[0].What)
}

func TestAMachineHasThePaceOfItsClass(t *testing.T) {
	judge(t, "a machine that is fed has a feed speed", []border{
		{"slow", func(s *model.Study) { s.Tools[1].Feed = 1e-6 }, nowhere},
		{"a hired one, an own one and a candidate that stand", func(s *model.Study) {
			s.Shops[0].Machines[1].Feed, s.Tools[0].Feed, s.Tools[1].Feed, planer(s).Feed = 0, 0, 0, 0
		}, at("shops.mill.machines.belt.feed", "tools.saw.feed", "tools.router.feed", "machines.planer_own.feed")},
	})
	study := studygen.Round()
	study.Tools[1].Feed = 0
	assert.Equal(t, "tools.router.feed is 0 m/min, and the minutes of class router come from it", fedMachinesFeed(study)[0].What)
	judge(t, "a machine that is fed takes a depth in each pass", []border{
		{"little", func(s *model.Study) { s.Tools[1].DepthPerPass = 1e-6 }, nowhere},
		{"none", func(s *model.Study) { s.Tools[1].DepthPerPass, belt(s).DepthPerPass = 0, 0 }, at("tools.router.depth_per_pass", "machines.belt_own.depth_per_pass")},
		{"none over the face", func(s *model.Study) { s.Tools[2].DepthPerPass = 0 }, nowhere},
	})
	judge(t, "a machine moved over the face has a time for each area", []border{
		{"little", func(s *model.Study) { s.Tools[2].AreaTime, s.Tools[3].AreaTime = 0.5, 0.5 }, nowhere},
		{"none", func(s *model.Study) { s.Tools[2].AreaTime, s.Tools[3].AreaTime = 0, 0 }, at("tools.sled.area_time", "tools.disc.area_time")},
	})
	judge(t, "a knife-mark figure needs head speed and knives", []border{
		{"both", func(s *model.Study) { planer(s).HeadSpeed, planer(s).Knives = 75, 1 }, nowhere},
		{"a slow head", func(s *model.Study) { planer(s).HeadSpeed = 0.5 }, at("machines.planer_own.head_speed")},
		{"one knife", func(s *model.Study) { planer(s).Knives = 1 }, at("machines.planer_own.knives")},
		{"head speed that is assumed", func(s *model.Study) { planer(s).HeadSpeed = 75; assume(s, "machines.planer_own.head_speed") }, nowhere},
		{"knives that are assumed", func(s *model.Study) { planer(s).Knives = 2; assume(s, "machines.planer_own.knives") }, nowhere},
	})
}

func TestACandidateDoesWorkThatItsKindCanDo(t *testing.T) {
	judge(t, "a candidate takes over some work", []border{
		{"none", func(s *model.Study) { belt(s).Does = nil }, at("machines.belt_own.does")},
	})
	judge(t, "a candidate takes over work of its own kind", []border{
		{"faces all", func(s *model.Study) {
			planer(s).Does = []string{model.Planer, model.WideBelt, model.RouterSled, model.Orbital}
		}, nowhere},
		{"cuts all", func(s *model.Study) {
			planer(s).Class, planer(s).Does = model.PanelSaw, []string{model.PanelSaw, model.TrackSaw, model.Router}
		}, nowhere},
		{"a planer that saws", func(s *model.Study) { planer(s).Does = append(planer(s).Does, model.TrackSaw) }, at("machines.planer_own.does")},
		{"a saw that planes", func(s *model.Study) { planer(s).Class = model.PanelSaw }, at("machines.planer_own.does")},
		{"other work", func(s *model.Study) { planer(s).Class, planer(s).Does = model.Router, []string{model.Other} }, nowhere},
		{"a machine of class other", func(s *model.Study) { planer(s).Class, planer(s).Does = model.Other, []string{model.Router} }, nowhere},
	})
	judge(t, "a candidate of class other takes over measured work", []border{
		{"from the geometry", func(s *model.Study) { planer(s).Class = model.Other }, at("machines.planer_own.does")},
		{"measured", func(s *model.Study) { planer(s).Class = model.Other; step(s, plane).Measured = 1 }, nowhere},
		{"other work", func(s *model.Study) { planer(s).Class, planer(s).Does = model.Other, []string{model.Other} }, nowhere},
		{"other work of the geometry", func(s *model.Study) {
			planer(s).Class, planer(s).Does, step(s, plane).Class = model.Other, []string{model.Other}, model.Other
		}, nowhere},
		{"work that no job has", func(s *model.Study) { planer(s).Class, planer(s).Does = model.Other, []string{model.PanelSaw} }, nowhere},
	})
}

func TestAMachineIsAsOldAsItSays(t *testing.T) {
	judge(t, "a new machine has no age and no hours", []border{
		{"both", func(s *model.Study) { planer(s).Age, planer(s).Hours = 0.5, 0.5 }, at("machines.planer_own.age", "machines.planer_own.hours")},
		{"used", func(s *model.Study) { planer(s).Age, planer(s).Hours, planer(s).Condition = 1, 1, "used" }, nowhere},
		{"assumed", func(s *model.Study) {
			planer(s).Age, planer(s).Hours = 1, 1
			assume(s, "machines.planer_own.age", "machines.planer_own.hours")
		}, nowhere},
	})
	judge(t, "a used machine has hours left", []border{
		{"some", func(s *model.Study) { planer(s).Hours = planer(s).LifeHours - 1 }, nowhere},
		{"none", func(s *model.Study) { planer(s).Hours = planer(s).LifeHours }, at("machines.planer_own.hours")},
		{"no limit", func(s *model.Study) { planer(s).LifeHours = 0 }, nowhere},
		{"a short life", func(s *model.Study) { planer(s).Hours, planer(s).LifeHours = 1, 1 }, at("machines.planer_own.hours")},
		{"its life is the owner's, its hours are not", func(s *model.Study) {
			planer(s).Hours = planer(s).LifeHours
			assume(s, "machines.planer_own.hours")
		}, at("machines.planer_own.life_hours")},
	})
	judge(t, "a machine is sold before it is sixty", []border{
		{"at sixty", func(s *model.Study) { planer(s).Age = 57 }, nowhere},
		{"later", func(s *model.Study) { planer(s).Age = 57.5 }, at("machines.planer_own.age")},
	})
}

func TestAMachineKeepsAndEarnsItsValue(t *testing.T) {
	table := func(shares ...quantity.Share) func(*model.Study) {
		return func(s *model.Study) { planer(s).Resale, planer(s).ValueTable = model.ResaleTable, shares }
	}
	judge(t, "a value table never rises", []border{
		{"stays and falls", table(0.8, 0.8, 0.5), nowhere},
		{"rises at once", table(0.8, 0.81), at("machines.planer_own.value_table.2")},
		{"rises in the end", table(0.8, 0.7, 0.71), at("machines.planer_own.value_table.3")},
		{"is not used", func(s *model.Study) { planer(s).ValueTable = []quantity.Share{0.1, 0.2} }, nowhere},
	})
	judge(t, "a remaining value starts above zero", []border{
		{"hardly", func(s *model.Study) { planer(s).Resale, planer(s).ValueC1 = model.ResaleRemainingValue, 0.01 }, nowhere},
		{"not", func(s *model.Study) { planer(s).Resale, planer(s).ValueC1 = model.ResaleRemainingValue, 0 }, at("machines.planer_own.value_c1")},
		{"is not used", func(s *model.Study) { planer(s).ValueC1 = 0 }, nowhere},
	})
	judge(t, "hours sold have a price", []border{
		{"little", func(s *model.Study) { planer(s).HoursSold, planer(s).SoldRate = 1, 0.01 }, nowhere},
		{"none", func(s *model.Study) { planer(s).HoursSold = 1 }, at("machines.planer_own.sold_rate")},
	})
	for method, lives := range map[string][]int{model.TaxHalfYear: {3, 5, 7, 10, 15, 20}, model.TaxMidQuarter: {3, 5, 7}} {
		var borders []border
		for life := 1; life <= 40; life++ {
			is := border{strconv.Itoa(life), func(s *model.Study) { planer(s).Tax.Method, planer(s).Tax.Life = method, quantity.Years(life) }, at("machines.planer_own.tax.life")}
			for _, printed := range lives {
				if printed == life {
					is.at = nowhere
				}
			}
			borders = append(borders, is)
		}
		judge(t, "a percentage table has the class of life", borders)
	}
	study := studygen.Round()
	planer(study).Tax.Method, planer(study).Tax.Life = model.TaxMidQuarter, 4
	assert.Equal(t, "give 3, 5 or 7 years", taxTableHasLife(study)[0].Right)
}
