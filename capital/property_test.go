package capital_test

import (
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

const seeds = 80

// population makes the studies once; each use takes clones.
var population = sync.OnceValue(func() []*model.Study { return studygen.Studies(seeds) })

// machines calls each with every candidate of the generated studies and some
// work for it.
func machines(each func(seed int, s *model.Study, m *model.Machine, profile capital.Profile)) {
	for seed, made := range population() {
		s := made.Clone()
		rng := rand.New(rand.NewPCG(uint64(seed), 1))
		for i := range s.Machines {
			profile := level(int(s.Studio.Horizon), 400*rng.Float64(), 600*rng.Float64(), 900*rng.Float64())
			for t := range profile.Hours {
				grown := math.Pow(0.9+0.2*rng.Float64(), float64(t))
				profile.Hours[t] *= grown
				profile.OwnHours[t] *= grown
			}
			each(seed, s, &s.Machines[i], profile)
		}
	}
}

// memo lines are shown and not added up.
var memo = map[capital.Line]bool{
	capital.Age: true, capital.Value: true, capital.Running: true, capital.Owed: true, capital.TaxShare: true, capital.Deducted: true,
	capital.Book: true, capital.Gain: true, capital.Net: true, capital.Discount: true, capital.Present: true,
}

func TestTheNetOfEachYearIsTheSumOfItsLinesAndThePresentTheirDiscountedSum(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		owned := capital.Own(s, m, profile)
		present := 0.0
		for year := range owned.Table[capital.Net] {
			sum := 0.0
			for line := range capital.Lines {
				if !memo[line] {
					sum += owned.Table[line][year]
				}
			}
			assert.InDelta(t, sum, owned.Table[capital.Net][year], studygen.Dust(float64(m.Price)), "seed %d %s year %d", seed, m.Key, year)
			present += sum / math.Pow(1+float64(s.Studio.DiscountRate), float64(year))
		}
		assert.InDelta(t, present, owned.Present, studygen.Dust(present), "seed %d %s", seed, m.Key)
	})
}

func TestNoMoreThanTheBasisIsEverDeducted(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		owned := capital.Own(s, m, profile)
		sum := 0.0
		for year := 1; year < len(owned.Table[capital.Age]); year++ {
			share := owned.Table[capital.TaxShare][year]
			if owned.Table[capital.Age][year] == 1 {
				sum = 0
			}
			sum += share
			assert.GreaterOrEqual(t, share, 0.0, "seed %d %s year %d", seed, m.Key, year)
			assert.LessOrEqual(t, sum, 1+1e-9, "seed %d %s year %d by %s", seed, m.Key, year, m.Tax.Method)
			assert.GreaterOrEqual(t, owned.Table[capital.Book][year], -1e-6, "seed %d %s year %d", seed, m.Key, year)
		}
	})
}

// What was paid for a machine and not deducted yet comes off the gain: over the
// whole time, taxed income is what came in less what went out.
func TestOverTheHorizonTheTaxIsOnTheSumOfEverythingThatIsNoLoan(t *testing.T) {
	untaxed := map[capital.Line]bool{capital.Borrowed: true, capital.Principal: true, capital.Tax: true}
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		owned := capital.Own(s, m, profile)
		tax, rest := 0.0, 0.0
		for year := range owned.Table[capital.Net] {
			tax += owned.Table[capital.Tax][year]
			for line := range capital.Lines {
				if !memo[line] && !untaxed[line] {
					rest += owned.Table[line][year]
				}
			}
		}
		assert.InDelta(t, -float64(s.Studio.TaxRate)*rest, tax, studygen.Dust(rest+float64(m.Price)), "seed %d %s by %s", seed, m.Key, m.Tax.Method)
	})
}

func TestALoanIsPaidBackWhole(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		owned := capital.Own(s, m, profile)
		borrowed, repaid := 0.0, 0.0
		for year := range owned.Table[capital.Net] {
			borrowed -= owned.Table[capital.Borrowed][year]
			repaid += owned.Table[capital.Principal][year]
			assert.GreaterOrEqual(t, owned.Table[capital.Interest][year], -1e-9, "seed %d %s year %d", seed, m.Key, year)
		}
		assert.InDelta(t, borrowed, repaid, studygen.Dust(borrowed), "seed %d %s", seed, m.Key)
	})
}

func TestAFreeLoanChangesNothingWhereMoneyCostsNothing(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		s.Studio.DiscountRate, m.Loan = 0, model.Loan{Months: 1}
		cash := capital.Own(s, m, profile).Present
		m.Loan = model.Loan{Share: 1, Months: 36}
		assert.InDelta(t, cash, capital.Own(s, m, profile).Present, studygen.Dust(cash+float64(m.Price)), "seed %d %s", seed, m.Key)
	})
}

// scaled is the present cost with the wanted part of the prices scaled.
func scaled(s *model.Study, machine int, profile capital.Profile, scale float64, wanted func(path string) bool) float64 {
	twin := s.Clone()
	model.Walk(twin, func(leaf model.Leaf) {
		if dim, ok := leaf.Dimension(); ok && dim.IsMoney() && wanted(leaf.Path) {
			leaf.SetNumber(leaf.Number() * scale)
		}
	})
	if wanted("wear") {
		wear := make([]float64, len(profile.Wear))
		for t := range wear {
			wear[t] = profile.Wear[t] * scale
		}
		profile.Wear = wear
	}
	return capital.Own(twin, &twin.Machines[machine], profile).Present
}

func TestPresentCostIsLinearInPrices(t *testing.T) {
	all := func(string) bool { return true }
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		machine := model.Index(s.Machines, m.Key)
		part := func(scale float64, wanted func(string) bool) float64 {
			return scaled(s, machine, profile, scale, wanted)
		}
		once := part(1, all)
		size := math.Abs(once) + float64(m.Price)
		assert.InDelta(t, 2*once, part(2, all), studygen.Dust(size), "seed %d %s: twice the prices", seed, m.Key)
		assert.InDelta(t, 0, part(0, all), studygen.Dust(size), "seed %d %s: no prices", seed, m.Key)
		labour := func(path string) bool { return path == "studio.labour_rate" }
		rest := func(path string) bool { return !labour(path) }
		assert.InDelta(t, once, part(0, labour)+part(0, rest), studygen.Dust(size), "seed %d %s: labour and the rest add up", seed, m.Key)
		price := func(path string) bool { return path == "machines."+m.Key+".price" }
		assert.InDelta(t, part(2, price)-part(1, price), part(3, price)-part(2, price), studygen.Dust(3*size), "seed %d %s: each more of price", seed, m.Key)
	})
}

func TestADearerMachineIsNeverCheaperToOwn(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		before := capital.Own(s, m, profile).Present
		m.YearlyOther += 100
		m.Insurance += 0.01
		m.UpkeepShare += 0.01
		assert.GreaterOrEqual(t, capital.Own(s, m, profile).Present, before, "seed %d %s", seed, m.Key)
	})
}

func TestValueNeverRisesWithAge(t *testing.T) {
	machines(func(seed int, _ *model.Study, m *model.Machine, profile capital.Profile) {
		last := 1.0
		for years := 0.0; years <= 20; years++ {
			share := capital.ValueShare(m, years, profile.Hours[0])
			assert.GreaterOrEqual(t, share, 0.0, "seed %d %s after %v years", seed, m.Key, years)
			assert.LessOrEqual(t, share, last+1e-12, "seed %d %s after %v years", seed, m.Key, years)
			last = share
		}
	})
}

func TestTheBestLifeIsTheLeastOfTheCurve(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		life := capital.EconomicLife(s, m, profile)
		assert.Len(t, life.Annual, len(profile.Hours))
		for _, cost := range life.Annual {
			assert.GreaterOrEqual(t, cost, life.Least-1e-9, "seed %d %s", seed, m.Key)
		}
		assert.InDelta(t, life.Least, life.Annual[life.Best-1], 0)
	})
}

func TestUnitsOfProductionSpreadOverTheHoursThatAreLeft(t *testing.T) {
	s := studygen.Round()
	m := &s.Machines[0]
	m.Hours, m.LifeHours, m.Tax.Method, m.Tax.Salvage = quantity.Hours(2000), quantity.Hours(6000), model.TaxUnitsOfProduction, 0.1
	shares := capital.Schedule(m, []float64{1000, 500, 4000})
	// 90 % of the basis over 4000 h: 1000 and 500 of them, then the 2500 that remain.
	assert.InDeltaSlice(t, []float64{0.225, 0.1125, 0.5625}, shares, 1e-12)
}

func TestAMachineSoldForGoodEarlierCostsWhatTheShorterHorizonSays(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		horizon := int(s.Studio.Horizon)
		to := 1 + seed%horizon
		early := capital.OwnBetween(s, m, profile, 0, to)
		s.Studio.Horizon = quantity.Years(to)
		assert.InDelta(t, capital.Own(s, m, profile).Present, early.Present, studygen.Dust(early.Present+float64(m.Price)), "seed %d %s", seed, m.Key)
		for year := to + 1; year <= horizon; year++ {
			assert.Zero(t, early.Table[capital.Net][year], "seed %d %s year %d", seed, m.Key, year)
		}
	})
}

func TestWhereNothingGrowsAMachineBoughtLaterCostsTheSameLater(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		s.Growth = model.Growth{}
		horizon := int(s.Studio.Horizon)
		steady := level(horizon, 210, 330, 440)
		from := seed % horizon
		later := capital.OwnBetween(s, m, steady, from, horizon)
		now := capital.OwnBetween(s, m, steady, 0, horizon-from)
		waited := math.Pow(1+float64(s.Studio.DiscountRate), float64(from))
		assert.InDelta(t, now.Present, later.Present*waited, studygen.Dust(now.Present+float64(m.Price)), "seed %d %s", seed, m.Key)
		assert.InDeltaSlice(t, now.Table[capital.Net][:horizon-from+1], later.Table[capital.Net][from:], studygen.Dust(float64(m.Price)), "seed %d %s", seed, m.Key)
	})
}

func TestWhatIsPaidForMachinesIsTheCashOfTheDayOfPurchase(t *testing.T) {
	machines(func(seed int, s *model.Study, m *model.Machine, profile capital.Profile) {
		owned := capital.Own(s, m, profile)
		assert.InDelta(t, owned.Table[capital.Net][0], owned.Paid()[0], studygen.Dust(float64(m.Price)), "seed %d %s", seed, m.Key)
		for year, paid := range owned.Paid() {
			if year > 0 && owned.Table[capital.Price][year] == 0 {
				assert.Zero(t, paid, "seed %d %s year %d", seed, m.Key, year)
			}
		}
	})
}
