package check

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

func TestWorkCanBeRented(t *testing.T) {
	second := func(s *model.Study) {
		shop := s.Shops[0]
		shop.Key, shop.Machines = "yard", []model.HiredMachine{{Key: "big_saw", Ability: model.Ability{Class: model.PanelSaw}}}
		s.Shops = append(s.Shops, shop)
	}
	judge(t, "some machine does each operation", []border{
		{"nobody", func(s *model.Study) { step(s, cut).Class = model.PanelSaw }, at(operationsOfTop + "cut.class")},
		{"a tool", func(s *model.Study) { s.Tools[3].Class, step(s, cut).Class = model.PanelSaw, model.PanelSaw }, nowhere},
		{"its shop", func(s *model.Study) {
			s.Shops[0].Machines[1].Class, step(s, cut).Class = model.PanelSaw, model.PanelSaw
			step(s, sand).Class = model.Orbital
		}, nowhere},
		{"another shop", func(s *model.Study) { second(s); step(s, cut).Class = model.PanelSaw }, at(operationsOfTop + "cut.class")},
		{"that shop", func(s *model.Study) {
			second(s)
			s.JobTypes[0].Shop, step(s, cut).Class = "yard", model.PanelSaw
			step(s, plane).Class, step(s, sand).Class = model.RouterSled, model.Orbital
		}, nowhere},
		{"the first shop when none is named", func(s *model.Study) { second(s); job(s).Shop = "" }, nowhere},
		{"a candidate", func(s *model.Study) { planer(s).Does, step(s, cut).Class = []string{model.PanelSaw}, model.PanelSaw }, nowhere},
	})
	buy := func(s *model.Study) { belt(s).Does, step(s, cut).Class = []string{model.PanelSaw}, model.PanelSaw }
	judge(t, "each operation can be rented or done with an own tool", []border{
		{"bought only", buy, at(operationsOfTop + "cut.class")},
		{"bought, or another way", func(s *model.Study) { buy(s); step(s, cut).Fallback = model.TrackSaw }, nowhere},
		{"bought, and the other way is nobody's", func(s *model.Study) { buy(s); step(s, cut).Fallback = model.Other }, at(operationsOfTop + "cut.class")},
		{"nobody's: another rule tells", func(s *model.Study) { step(s, cut).Class = model.PanelSaw }, nowhere},
	})
	judge(t, "a fallback is another class", []border{
		{"none", func(s *model.Study) { step(s, plane).Fallback = "" }, nowhere},
		{"the same", func(s *model.Study) { step(s, plane).Fallback = model.Planer }, at(operationsOfTop + "plane.fallback")},
	})
	judge(t, "some machine does each fallback", []border{
		{"nobody", func(s *model.Study) { step(s, plane).Fallback = model.PanelSaw }, at(operationsOfTop + "plane.fallback")},
		{"the same: another rule tells", func(s *model.Study) {
			step(s, cut).Class, step(s, cut).Fallback = model.PanelSaw, model.PanelSaw
		}, nowhere},
	})
}

func TestAnOperationHasWhatItsMinutesComeFrom(t *testing.T) {
	measured := func(index int, change func(*model.Operation)) func(*model.Study) {
		return func(s *model.Study) { change(step(s, index)); step(s, index).Measured = 0.5 }
	}
	only := func(index int, change func(*model.Operation)) func(*model.Study) {
		return func(s *model.Study) { change(step(s, index)) }
	}
	noGrits := func(o *model.Operation) { o.Grits = nil }
	judge(t, "sanding has its grits", []border{
		{"one", only(sand, func(o *model.Operation) { o.Grits = o.Grits[:1] }), nowhere},
		{"none", only(sand, noGrits), at(operationsOfTop + "sand.grits")},
		{"none, measured", measured(sand, noGrits), nowhere},
		{"none by hand", only(plane, func(o *model.Operation) { o.Fallback = model.Orbital }), at(operationsOfTop + "plane.grits")},
	})
	noStock := func(o *model.Operation) { o.Stock = 0 }
	judge(t, "planing and flattening have stock to take off", []border{
		{"little", only(plane, func(o *model.Operation) { o.Stock = 1e-6 }), nowhere},
		{"none", only(plane, noStock), at(operationsOfTop + "plane.stock")},
		{"none, measured", measured(plane, noStock), nowhere},
		{"grit by grit", func(s *model.Study) { step(s, sand).Fallback = model.RouterSled }, nowhere},
		{"flattened instead", only(cut, func(o *model.Operation) { o.Fallback = model.RouterSled }), at(operationsOfTop + "cut.stock")},
	})
	judge(t, "sawing and routing have cuts", []border{
		{"little", only(cut, func(o *model.Operation) { o.CutLength, o.Cuts = 1e-3, 0.5 }), nowhere},
		{"no length", only(cut, func(o *model.Operation) { o.CutLength = 0 }), at(operationsOfTop + "cut.cut_length")},
		{"no cut", only(edge, func(o *model.Operation) { o.Cuts = 0 }), at(operationsOfTop + "edge.cuts")},
		{"neither, measured", measured(cut, func(o *model.Operation) { o.CutLength, o.Cuts = 0, 0 }), nowhere},
	})
	judge(t, "other work has measured minutes", []border{
		{"measured", measured(cut, func(o *model.Operation) { o.Class = model.Other }), nowhere},
		{"not", only(cut, func(o *model.Operation) { o.Class = model.Other }), at(operationsOfTop + "cut.measured")},
	})
}

func TestSandingGoesFromCoarseToFineWithAbrasives(t *testing.T) {
	grits := func(keys ...string) func(*model.Study) {
		return func(s *model.Study) {
			step(s, sand).Grits = nil
			for _, key := range keys {
				step(s, sand).Grits = append(step(s, sand).Grits, model.Grit{Key: key, Stock: 1e-4})
			}
		}
	}
	judge(t, "grits run from coarse to fine", []border{
		{"by one", grits("80", "81"), nowhere},
		{"twice the same", grits("80", "80"), at(operationsOfTop + "sand.grits.80")},
		{"backwards at once", grits("80", "60", "120"), at(operationsOfTop + "sand.grits.60")},
		{"backwards in the end", grits("80", "120", "100"), at(operationsOfTop + "sand.grits.100")},
		{"no number comes first", grits("fine", "1"), nowhere},
	})
	judge(t, "each grit has an abrasive", []border{
		{"for neither machine", grits("80", "100"), at(operationsOfTop+"sand.grits.100", operationsOfTop+"sand.grits.100")},
		{"measured", func(s *model.Study) { grits("100")(s); step(s, sand).Measured = 1 }, nowhere},
		{"not by hand", func(s *model.Study) { s.Abrasives[1].Class = model.WideBelt }, at(operationsOfTop + "sand.grits.80")},
		{"only compared", func(s *model.Study) { s.Abrasives[0].OnlyCompared = true }, at(operationsOfTop + "sand.grits.80")},
	})
	study := studygen.Round()
	study.Abrasives[1].Class = model.WideBelt
	assert.Contains(t, gritsHaveAbrasives(study)[0].What, "has no abrasive of grit 80 for class orbital")
}

func TestAnOperationLeavesSomeOfThePiece(t *testing.T) {
	judge(t, "an operation leaves some of the piece", []border{
		{"some", func(s *model.Study) { step(s, plane).Stock = 0.0249 }, nowhere},
		{"nothing", func(s *model.Study) { step(s, plane).Stock = 0.025 }, at(operationsOfTop + "plane")},
		{"some, of one face", func(s *model.Study) { step(s, plane).Stock, step(s, plane).Faces = 0.049, 1 }, nowhere},
		{"nothing, grit by grit", func(s *model.Study) { step(s, sand).Grits[0].Stock, step(s, sand).Grits[1].Stock = 0.0125, 0.0125 }, at(operationsOfTop + "sand")},
		{"grits and not the stock", func(s *model.Study) { step(s, sand).Stock = 1 }, nowhere},
		{"nothing, measured", func(s *model.Study) { step(s, plane).Stock, step(s, plane).Measured = 1, 0.5 }, nowhere},
		{"cut through", func(s *model.Study) { step(s, cut).Stock = 1 }, nowhere},
		{"another piece", func(s *model.Study) {
			job(s).Pieces = append(job(s).Pieces, model.Piece{Key: "leg", Thickness: 1e-3})
			step(s, plane).Piece, step(s, sand).Piece = "top", "top"
		}, nowhere},
		{"no thickness and nothing taken off", func(s *model.Study) {
			job(s).Pieces[0].Thickness, step(s, plane).Stock, step(s, sand).Grits = 0, 0, nil
		}, nowhere},
	})
	judge(t, "a rework repeats something", []border{
		{"a step", func(s *model.Study) { job(s).ReworkChance = 0.5 }, nowhere},
		{"never", func(s *model.Study) { step(s, sand).Repeat = false }, nowhere},
		{"nothing", func(s *model.Study) { job(s).ReworkChance, step(s, sand).Repeat = 0.01, false }, at("job_types.top.rework_chance")},
		{"nothing, assumed", func(s *model.Study) {
			job(s).ReworkChance, step(s, sand).Repeat = 0.01, false
			assume(s, "job_types.top.rework_chance")
		}, nowhere},
		{"a visit", func(s *model.Study) {
			job(s).ReworkChance, job(s).ReworkVisits, step(s, sand).Repeat = 0.01, 0.5, false
		}, nowhere},
	})
}

func TestAShopIsOpenAndDatesCanBeMet(t *testing.T) {
	judge(t, "a shop is open on some day", []border{
		{"one", func(s *model.Study) { s.Shops[0].OpenDays = s.Shops[0].OpenDays[:1] }, nowhere},
		{"none", func(s *model.Study) { s.Shops[0].OpenDays = nil }, at("shops.mill.open_days")},
	})
	dated := func(ready, due quantity.Date, counts ...quantity.Count) func(*model.Study) {
		return func(s *model.Study) {
			for i, count := range counts {
				s.DatedJobs = append(s.DatedJobs, model.DatedJob{Key: strconv.Itoa(i), JobType: "top", Ready: ready, Due: due, Count: count})
			}
		}
	}
	judge(t, "a dated job is due when it is ready or later", []border{
		{"on the day", dated("2026-03-02", "2026-03-02", 1), nowhere},
		{"a day before", dated("2026-03-02", "2026-03-01", 1), at("dated_jobs.0.due")},
	})
	judge(t, "dated jobs are at most a thousand", []border{
		{"a thousand", dated("2026-03-02", "2026-03-02", 999, 0), nowhere},
		{"one more", dated("2026-03-02", "2026-03-02", 999, 0, 0), at("dated_jobs")},
	})
}

func TestAPieceThatFitsNothingIsToldOnceWithEveryRefusal(t *testing.T) {
	study := studygen.Round()
	job(study).Pieces[0].Width, step(study, plane).Fallback, step(study, sand).Fallback = 1.5, "", ""
	var said []string
	for _, found := range Fits(study) {
		said = append(said, found.What)
	}
	assert.Equal(t, []string{
		"job_types.top.operations.plane: piece top fits nothing that could do it: planer takes up to 1000 mm and it is 1500 mm",
		"job_types.top.operations.sand: piece top fits nothing that could do it: belt takes up to 1100 mm and it is 1500 mm",
	}, said, "and four grits do not say it four times")

	study = studygen.Round()
	study.Units = "inch"
	hired := &study.Shops[0].Machines[0]
	hired.LeastLength, hired.MostMass, hired.TakesResin, study.Materials[0].Resin, step(study, plane).Fallback = 2.54, 20, false, true, ""
	require.Len(t, Fits(study), 1)
	assert.Equal(t, "job_types.top.operations.plane: piece top fits nothing that could do it: "+
		`planer needs at least 100 in and it is 94.49 in, planer takes up to 44.09 lb and it is 166.7 lb, planer refuses resin`, Fits(study)[0].What)

	study = studygen.Round()
	job(study).Pieces[0].Thickness, step(study, cut).BothSides = 0.06, false
	assert.Equal(t, "job_types.top.operations.cut: piece top fits nothing that could do it: saw takes up to 54 mm and it is 60 mm", Fits(study)[0].What)
}

func TestWhatAProblemShowsIsInTheUnitsOfTheStudy(t *testing.T) {
	study := studygen.Round()
	step(study, plane).Stock = 0.0254
	assert.Equal(t, []problem.Problem{{
		Path: operationsOfTop + "plane", What: operationsOfTop + "plane takes 50.8 mm off the faces of top, which is 50 mm thick", Right: "take off less than the thickness",
	}}, pieceRemains(study))
	study.Units = "inch"
	assert.Contains(t, pieceRemains(study)[0].What, "takes 2 in off")
	assert.Equal(t, "a", words([]string{"a"}))
	assert.Equal(t, "a or b", words([]string{"a", "b"}))
	assert.Equal(t, "a, b or c", words([]string{"a", "b", "c"}))
}
