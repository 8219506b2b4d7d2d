package studygen

import (
	"fmt"

	"shopstint/model"
	"shopstint/model/quantity"
)

// compare adds comparisons of ways now and then, after all other draws, so that
// the rest of a seed's study does not hang on them.
func (d *dice) compare() {
	if !d.chance(0.6) {
		return
	}
	for i := range d.between(1, 2) {
		d.study.Comparisons = append(d.study.Comparisons, d.comparison(i))
	}
	added := model.Study{Comparisons: d.study.Comparisons}
	model.Walk(&added, func(leaf model.Leaf) {
		d.frame[leaf.Path] = d.frame[leaf.Path] || !leaf.Value.IsZero()
		d.given[leaf.Path] = d.given[leaf.Path] || !leaf.Value.IsZero()
	})
}

func (d *dice) comparison(number int) model.Comparison {
	one := model.Comparison{Key: fmt.Sprintf("compare%d", number), Name: d.name(), Material: pick(d, d.study.Materials...).Key}
	if d.chance(0.5) {
		one.PieceName = pick(d, "top", "large top", "board")
	}
	byArea, pieces := d.chance(0.5), d.chance(0.7)
	switch {
	case byArea:
		one.YearlyArea = quantity.Area(d.within(quantity.DimArea, "5 m2", "900 m2"))
	default:
		one.YearlyLength = quantity.Distance(d.within(quantity.DimDistance, "0.02 km", "3 km"))
	}
	if pieces && byArea {
		one.PieceArea = quantity.Area(d.within(quantity.DimArea, "0.5 m2", "8 m2"))
	}
	if pieces && !byArea {
		one.PieceLength = quantity.Length(d.within(quantity.DimLength, "800 mm", "9000 mm"))
	}
	if d.chance(0.5) {
		one.WaitingRate = quantity.MoneyPerHour(d.within(quantity.DimMoneyPerHour, "0.1 per h", "3 per h"))
	}
	for i := range d.between(2, 4) {
		one.Ways = append(one.Ways, d.way(i, byArea, pieces))
	}
	return one
}

func (d *dice) way(number int, byArea, pieces bool) model.Way {
	way := model.Way{
		Key: fmt.Sprintf("way%d", number), Name: d.name(), Passes: quantity.Count(d.between(1, 5)), Spares: quantity.Count(d.between(0, 3)),
		LifeFactor: quantity.Share(d.within(quantity.DimShare, "20 %", "140 %")), YearsKept: quantity.Years(d.between(1, 12)),
	}
	if byArea {
		for _, abrasive := range some(d, 0.3, d.study.Abrasives...) {
			way.Abrasives = append(way.Abrasives, abrasive.Key)
		}
		way.AreaTime = quantity.AreaTime(d.within(quantity.DimAreaTime, "2 min/m2", "40 min/m2"))
	} else {
		if d.chance(0.8) {
			way.Edge = pick(d, d.study.Edges...).Key
		}
		way.Feed = quantity.Speed(d.within(quantity.DimSpeed, "0.3 m/min", "8 m/min"))
	}
	if pieces {
		way.PieceTime = quantity.Duration(d.within(quantity.DimDuration, "1 min", "40 min"))
		way.ReworkShare = quantity.Share(d.within(quantity.DimShare, "1 %", "60 %"))
		way.ReworkTime = quantity.Duration(d.within(quantity.DimDuration, "1 min", "60 min"))
		way.ReworkCost = quantity.Money(d.within(quantity.DimMoney, "1", "20"))
		way.ReworkWait = quantity.Duration(d.within(quantity.DimDuration, "6 min", "3000 min"))
	}
	switch {
	case d.chance(0.3):
		way.Machine = pick(d, d.study.Machines...).Key
	case d.chance(0.5):
		way.Price = quantity.Money(d.within(quantity.DimMoney, "20", "4000"))
		way.Resale = quantity.Money(d.within(quantity.DimMoney, "1", "900"))
		way.YearlyUpkeep = quantity.Money(d.within(quantity.DimMoney, "1", "90"))
	}
	return way
}
