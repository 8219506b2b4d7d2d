package studygen

import (
	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/quantity"
)

// Round returns a small study in round figures, for examples that are worked by
// hand: dollars and metric, three years at 10 %, no tax, no growth, no range.
// One shop lets its room at 75 the half hour; a candidate of each kind can be
// bought; one job type is one oak top of 2.4 m by 0.9 m by 50 mm, or 75.6 kg.
// Each call gives its own.
func Round() *model.Study {
	currency, _ := money.ParseCurrency("USD") // known: a test reads it
	return &model.Study{
		Title: "round figures", Currency: "USD", Units: "metric", StartYear: 2026, Money: currency,
		Origins: map[string]model.Origin{},
		Studio: model.Studio{
			People: 2, LabourRate: 60, HelperRate: 30, LiftLimit: 25, HeavyOver: 40,
			Vehicle:      model.Vehicle{Cost: 0.5, Payload: 500, BedLength: 3},
			EndClearance: 0.6, SideClearance: 0.9, FloorCost: 100,
			Phases: 1, Volts: 230, Amps: 60, EnergyPrice: 0.2,
			DiscountRate: 0.10, Horizon: 3, CloseCall: 0.05,
		},
		Shops:     []model.Shop{roundShop()},
		Tools:     roundTools(),
		Machines:  []model.Machine{roundPlaner(), roundSander()},
		Edges:     []model.Edge{{Key: "knives", Name: "knives", Price: 160, Life: 4000, Sharpenings: 3, SharpeningPrice: 60, Errand: 20}, {Key: "blade", Name: "blade", Price: 80, Life: 200}},
		Abrasives: roundAbrasives(),
		Materials: []model.Material{{Key: "oak", Name: "oak", Density: 700, FeedFactor: 1, DepthFactor: 1, EdgeLife: 1, AbrasiveLife: 1, PlaningEnergy: 55e6, SandingEnergy: 250e6}},
		JobTypes:  []model.JobType{roundJob()},
	}
}

func roundShop() model.Shop {
	return model.Shop{
		Key: "mill", Name: "mill", OpenDays: []string{"mon", "tue", "wed", "thu", "fri"}, Distance: quantity.Kilometres(20), DriveTime: quantity.Minutes(30),
		Tariff: model.Tariff{
			Basis: model.WholeShop, HourlyRate: 150, MinimumBlock: quantity.Minutes(30), Increment: quantity.Minutes(15),
			HalfDay: quantity.Hours(4), Day: quantity.Hours(8),
		},
		Machines: []model.HiredMachine{
			{Key: "planer", Name: "planer", HourlyRate: 90, Inducted: true, Ability: planerOf("included")},
			{Key: "belt", Name: "belt", HourlyRate: 60, Inducted: true, Ability: beltOf("included")},
		},
	}
}

// planerOf: 6 m/min, 1 mm a pass and one finish pass; wide enough for the top.
func planerOf(consumables string) model.Ability {
	return model.Ability{
		Class: model.Planer, MaxWidth: 1, MaxOpening: 0.2, LeastLength: 0.3, TakesResin: true,
		Feed: quantity.MetresPerMinute(6), DepthPerPass: quantity.Millimetres(1), FinishPasses: 1,
		HandlingPerPass: quantity.Minutes(0.5), HandlingHeavy: quantity.Minutes(1.5), Turning: quantity.Minutes(1),
		Setup: quantity.Minutes(10), PeakLoad: 0.75, Edge: "knives", Consumables: consumables,
	}
}

// beltOf: 5 m/min, 0.4 mm a pass.
func beltOf(consumables string) model.Ability {
	return model.Ability{
		Class: model.WideBelt, MaxWidth: 1.1, MaxOpening: 0.15, LeastLength: 0.4, TakesResin: true,
		Feed: quantity.MetresPerMinute(5), DepthPerPass: quantity.Millimetres(0.4),
		HandlingPerPass: quantity.Minutes(0.8), HandlingHeavy: quantity.Minutes(1.5), Turning: quantity.Minutes(1),
		Setup: quantity.Minutes(8), GritChange: quantity.Minutes(6), PeakLoad: 0.75, Consumables: consumables,
	}
}

// roundTools: a usual rail saw, a router, a sled and a hand-held sander.
func roundTools() []model.Tool {
	return []model.Tool{
		{Key: "saw", Name: "saw", Ability: model.Ability{
			Class: model.TrackSaw, MaxOpening: quantity.Millimetres(54), TakesResin: true,
			Feed: quantity.MetresPerMinute(1), DepthPerPass: quantity.Millimetres(20),
			HandlingPerPass: quantity.Minutes(8), HandlingHeavy: quantity.Minutes(8), Setup: quantity.Minutes(5),
			PeakLoad: 0.75, Edge: "blade", Consumables: "own"}},
		{Key: "router", Name: "router", Ability: model.Ability{
			Class: model.Router, TakesResin: true, Feed: quantity.MetresPerMinute(1.2), DepthPerPass: quantity.Millimetres(12),
			HandlingPerPass: quantity.Minutes(2), HandlingHeavy: quantity.Minutes(2), Setup: quantity.Minutes(15),
			PeakLoad: 0.75, Edge: "blade", Consumables: "own"}},
		{Key: "sled", Name: "sled", Ability: model.Ability{
			Class: model.RouterSled, TakesResin: true, AreaTime: quantity.AreaTime(25 * 60), DepthPerPass: quantity.Millimetres(3),
			Stride: quantity.Millimetres(40), Turning: quantity.Minutes(10), Setup: quantity.Minutes(60),
			PeakLoad: 0.75, Edge: "blade", Consumables: "own"}},
		{Key: "disc", Name: "disc", Ability: model.Ability{
			Class: model.Orbital, TakesResin: true, AreaTime: quantity.AreaTime(10 * 60), Turning: quantity.Minutes(3),
			Setup: quantity.Minutes(3), GritChange: quantity.Minutes(0.5), PeakLoad: 0.75, Consumables: "own"}},
	}
}

func roundAbrasives() []model.Abrasive {
	var list []model.Abrasive
	for _, grit := range []struct {
		key    string
		number quantity.Count
	}{{"80", 80}, {"120", 120}, {"150", 150}, {"180", 180}} {
		list = append(list,
			model.Abrasive{Key: "belt" + grit.key, Name: "belt", Class: model.WideBelt, Grit: grit.number, Price: 80, Life: 800},
			model.Abrasive{Key: "disc" + grit.key, Name: "disc", Class: model.Orbital, Grit: grit.number, Price: 0.60, Life: 1.2})
	}
	return list
}

// owned is what both candidates share: kept for the three years, worth 70 % of
// the price after the first and 90 % of that each later year.
func owned(key string, ability model.Ability, price quantity.Money) model.Machine {
	return model.Machine{
		Key: key, Name: key, Condition: "new", Ability: ability, Does: []string{ability.Class},
		Price: price, NewPrice: price, YearsKept: 3, LifeHours: quantity.Hours(10000),
		Resale: model.ResaleDeclining, FirstYearValue: 0.7, YearlyValue: 0.9, ValueC1: 0.94,
		Upkeep: model.UpkeepShare, UpkeepShare: 0.04, RepairFactor: 0.007, RepairPower: 2,
		MachinePhases: 1, MeanLoad: 0.5, Efficiency: 1, PowerFactor: 1,
		Tax:  model.Depreciation{Method: model.TaxNone, Life: 3, Factor: 2, Quarter: 1},
		Loan: model.Loan{Months: 36},
	}
}

func roundPlaner() model.Machine { return owned("planer_own", planerOf("own"), 4000) }
func roundSander() model.Machine { return owned("belt_own", beltOf("own"), 9000) }

func roundJob() model.JobType {
	grit := func(key string, stock float64) model.Grit {
		return model.Grit{Key: key, Stock: quantity.Millimetres(stock)}
	}
	return model.JobType{
		Key: "top", Name: "top", Shop: "mill", Material: "oak", PerYear: 20, JobsPerVisit: 1, ArrivesFlat: true,
		LoadingTime: quantity.Minutes(20),
		Pieces:      []model.Piece{{Key: "top", Count: 1, Length: 2.4, Width: 0.9, Thickness: 0.05}},
		Operations: []model.Operation{
			{Key: "plane", Name: "plane", Class: model.Planer, Faces: 2, Stock: quantity.Millimetres(2.5), SetupPer: model.PerJob, Fallback: model.RouterSled},
			{Key: "sand", Name: "sand", Class: model.WideBelt, Faces: 2, SetupPer: model.PerJob, Fallback: model.Orbital, Repeat: true,
				Grits: []model.Grit{grit("80", 0.6), grit("120", 0.3), grit("150", 0.1), grit("180", 0.05)}},
			{Key: "cut", Name: "cut", Class: model.TrackSaw, Faces: 1, CutLength: 2.4, Cuts: 3, BothSides: true, SetupPer: model.PerJob},
			{Key: "edge", Name: "edge", Class: model.Router, Faces: 1, CutLength: 6.6, Cuts: 1, SetupPer: model.PerJob},
		},
	}
}
