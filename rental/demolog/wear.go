package demolog

import (
	"math"

	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
)

// wear is one kind of edge or abrasive that the studio wears out.
type wear struct {
	key      string
	mean     float64 // true life, in metres or square metres
	byArea   bool
	price    quantity.Money
	most     int  // sharpenings of one item, 0 for what is thrown away
	shared   bool // whether use is written down; else the life stands in the line that ends it
	items    int  // bought so far
	inUse    []item
	lifeLeft float64
	run      float64 // of the present life, where it is not written down
	damaged  bool
}

// item is one of several alike.
type item struct {
	name      string
	sharpened int
}

// beginWear buys the first items.
func (w *writer) beginWear() {
	w.worn = map[string]*wear{}
	for _, one := range []struct {
		key    string
		factor float64
		first  int
		shared bool
	}{
		{"small_blade", SmallBlade, 2, true}, {"rail_blade", RailBlade, 1, true}, {"flush_bit", FlushBit, 1, true},
		{"belt80", Belt80, 1, true}, {"disc180", Disc180, 1, false},
	} {
		kind := &wear{key: one.key, shared: one.shared}
		if w.day = FirstDay; one.key == "rail_blade" {
			w.day = railFrom
		}
		if edge, ok := model.Find(w.study.Edges, one.key); ok {
			kind.mean, kind.price, kind.most = one.factor*float64(edge.Life), edge.Price, int(edge.Sharpenings)
		} else if abrasive, ok := model.Find(w.study.Abrasives, one.key); ok {
			kind.mean, kind.price, kind.byArea = one.factor*float64(abrasive.Life), abrasive.Price, true
		}
		w.worn[one.key] = kind
		if !one.shared {
			w.add(logbook.Entry{Kind: logbook.Buy, Subject: one.key, Jobs: 50, Amount: 50 * kind.price, Given: logbook.HasAmount | logbook.HasJobs, Note: "a box of 50"})
		}
		for range one.first {
			w.buy(kind)
		}
		w.beginLife(kind)
	}
}

func (w *writer) buy(kind *wear) {
	kind.items++
	one := item{name: number(kind.items)}
	kind.inUse = append(kind.inUse, one)
	if kind.shared {
		w.add(logbook.Entry{Kind: logbook.Buy, Subject: kind.key, Item: one.name, Amount: kind.price, Given: logbook.HasAmount})
	}
}

// beginLife draws how long the item in front will last, and whether damage
// ends it before it is dull.
func (w *writer) beginLife(kind *wear) {
	scale := kind.mean / math.Gamma(1+1/Shape)
	kind.lifeLeft = scale * math.Pow(-math.Log(1-w.rng.Float64()), 1/Shape)
	kind.run = 0
	if kind.damaged = w.rng.Float64() < Damage; kind.damaged {
		kind.lifeLeft *= w.rng.Float64()
	}
}

// wearBy puts the run of a step on what it wears.
func (w *writer) wearBy(s step) {
	key, run := s.edge, s.metres
	if s.grit != "" {
		key, run = "belt"+s.grit, s.area
		if s.class == model.Orbital {
			key = "disc" + s.grit
		}
	}
	kind, ok := w.worn[key]
	if !ok || run == 0 || s.class == model.WideBelt && !w.resin(s.entry.Job) {
		return // the shop's own belts serve for wood without resin
	}
	if !kind.shared {
		w.wearOut(kind, run)
		return
	}
	for run > kind.lifeLeft { // it became dull within the step: the rest is for the next one
		run -= kind.lifeLeft
		w.use(kind, kind.lifeLeft)
		w.end(kind)
	}
	kind.lifeLeft -= run
	w.use(kind, run)
}

// use writes a run on the item in use.
func (w *writer) use(kind *wear, run float64) {
	e := logbook.Entry{Kind: logbook.Use, Subject: kind.key, Item: kind.inUse[0].name}
	kind.put(&e, tenths(run))
	if tenths(run) > 0 {
		w.add(e)
	}
}

func (w *writer) resin(job string) bool {
	return w.study.Materials[max(0, model.Index(w.study.Materials, w.study.JobTypes[model.Index(w.study.JobTypes, job)].Material))].Resin
}

// put writes a run into the column that it is measured in.
func (k *wear) put(e *logbook.Entry, run float64) {
	if k.byArea {
		e.Area, e.Given = quantity.Area(run), e.Given|logbook.HasArea
	} else {
		e.Length, e.Given = quantity.Distance(run), e.Given|logbook.HasLength
	}
}

// end ends the life of the item in use: it is sharpened and goes behind the
// others, or it is replaced.
func (w *writer) end(kind *wear) {
	one := kind.inUse[0]
	reason := logbook.Dull
	if kind.damaged {
		reason = logbook.Damage
	}
	if one.sharpened < kind.most {
		one.sharpened++
		kind.inUse = append(kind.inUse[1:], one)
		w.add(logbook.Entry{Kind: logbook.Sharpen, Subject: kind.key, Item: one.name, Amount: Sharpening, Given: logbook.HasAmount, Reason: reason})
		w.beginLife(kind)
		return
	}
	kind.inUse = kind.inUse[1:]
	if kind.most > 0 && !kind.damaged {
		reason = logbook.Spent
	}
	w.add(logbook.Entry{Kind: logbook.Replace, Subject: kind.key, Item: one.name, Reason: reason})
	w.buy(kind)
	w.beginLife(kind)
}

// discsNoted is how likely the owner notes when a disc is worn out.
const discsNoted = 0.1

// wearOut wears discs, several in one step, and notes few of them.
func (w *writer) wearOut(kind *wear, run float64) {
	for run > kind.lifeLeft {
		run -= kind.lifeLeft
		kind.run += kind.lifeLeft
		e := logbook.Entry{Kind: logbook.Replace, Subject: kind.key, Reason: logbook.Dull}
		if kind.damaged {
			e.Reason = logbook.Damage
		}
		kind.put(&e, max(0.01, math.Round(kind.run*100)/100))
		if w.rng.Float64() < discsNoted {
			w.add(e)
		}
		w.beginLife(kind)
	}
	kind.lifeLeft -= run
	kind.run += run
}
