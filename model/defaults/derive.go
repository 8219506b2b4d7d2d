package defaults

import (
	"fmt"
	"math"
	"strings"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// derive gives a leaf the value that follows from other inputs, all of which
// have theirs by now.
func (f *filling) derive(leaf model.Leaf) {
	if f.settled(leaf.Path) {
		return
	}
	part, rest := f.partOf(leaf.Path)
	if rest == "name" {
		f.name(leaf)
		return
	}
	switch below(part.at, rest) {
	case "shops.drive_time":
		f.driveTime(leaf)
	case "machines.does":
		f.does(leaf)
	case "machines.excludes", "machines.needs", "machines.fixtures":
		f.study.Origins[leaf.Path] = model.Origin{Assumed: true, Source: "none named"}
	case "machines.new_price":
		f.newPrice(leaf)
	case "machines.converter":
		f.converter(leaf)
	case "job_types.loading_time":
		f.loadingTime(leaf)
	case "job_types.operations.cut_length":
		f.cutLength(leaf)
	case "comparisons.ways.feed", "comparisons.ways.area_time", "comparisons.ways.spares", "comparisons.ways.yearly_upkeep":
		f.wayOf(leaf)
	}
}

// name speaks of a member by its key.
func (f *filling) name(leaf model.Leaf) {
	leaf.Value.SetString(strings.ReplaceAll(keyAt(leaf.Path, 1), "_", " "))
	f.study.Origins[leaf.Path] = model.Origin{Assumed: true, Source: "its key in the study"}
}

// keyAt returns the part of a path that stands so many places before its end.
func keyAt(path string, before int) string {
	parts := strings.Split(path, ".")
	return parts[max(0, len(parts)-1-before)]
}

func (f *filling) driveTime(leaf model.Leaf) {
	shop, _ := model.Find(f.study.Shops, keyAt(leaf.Path, 1))
	for _, entry := range f.entries["shops.drive_time.per_km"] {
		f.set(leaf, entry, shop.Distance.Kilometres())
	}
	f.hold(leaf, "reckoned from the distance at about 50 km/h: "+Practice)
}

func (f *filling) does(leaf model.Leaf) {
	machine, ok := model.Find(f.study.Machines, keyAt(leaf.Path, 1))
	if !ok {
		return
	}
	if does, ok := leaf.Value.Addr().Interface().(*[]string); ok {
		*does = []string{machine.Class}
		f.study.Origins[leaf.Path] = model.Origin{Assumed: true, Source: "its own class"}
	}
}

// oldest is the age from which a machine is taken to lose no more when the price
// of a new one is reckoned back: the trade's table of resale ends there, and
// heavy old machines hold what they fetch.
const oldest = 15

// newPrice reckons the price of a new machine back from what a used one costs.
func (f *filling) newPrice(leaf model.Leaf) {
	machine, ok := model.Find(f.study.Machines, keyAt(leaf.Path, 1))
	if !ok {
		return
	}
	leaf.SetNumber(float64(machine.Price))
	f.study.Origins[leaf.Path] = model.Origin{Assumed: true}
	source := "its own price"
	if age := math.Min(float64(machine.Age), oldest); age > 0 {
		kept := retained(&machine, age)
		leaf.SetNumber(float64(machine.Price) / kept)
		source = fmt.Sprintf("reckoned from its price, as %.0f %% of a new one after %.3g years", 100*kept, age)
	}
	f.hold(leaf, source)
}

// retained returns the share of a new machine's price that is left at an age:
// the first year's share, then the yearly share each later year.
//
// Source: common practice, no source.
func retained(machine *model.Machine, age float64) float64 {
	first, yearly := float64(machine.FirstYearValue), float64(machine.YearlyValue)
	kept := math.Pow(first, math.Min(age, 1)) * math.Pow(yearly, math.Max(age-1, 0))
	if !(kept > 0) {
		return 1 // only where a share is out of its limits, which the checks report
	}
	return math.Min(kept, 1)
}

// converter is needed where a three-phase motor meets a single-phase supply.
func (f *filling) converter(leaf model.Leaf) {
	path := "machines.converter.needless"
	machine, ok := model.Find(f.study.Machines, keyAt(leaf.Path, 1))
	if ok && machine.MachinePhases == 3 && f.study.Studio.Phases == 1 {
		path = "machines.converter.needed"
	}
	for _, entry := range f.entries[path] {
		f.set(leaf, entry, 1)
	}
}

// loadingTime adds up the trade's minutes for each piece, by its mass.
func (f *filling) loadingTime(leaf model.Leaf) {
	job, ok := model.Find(f.study.JobTypes, keyAt(leaf.Path, 1))
	if !ok {
		return
	}
	material, _ := model.Find(f.study.Materials, job.Material)
	origin := model.Origin{Assumed: true, HasRange: true}
	total, heaviest := 0.0, 0.0
	for _, piece := range job.Pieces {
		mass := float64(work.PieceMass(&piece, &material))
		typical, low, high := f.loadingOf(mass)
		count := float64(piece.Count)
		total, origin.Low, origin.High = total+count*typical, origin.Low+count*low, origin.High+count*high
		heaviest = max(heaviest, mass)
	}
	leaf.SetNumber(total)
	f.study.Origins[leaf.Path] = origin
	f.hold(leaf, fmt.Sprintf("by mass of each piece, the heaviest %.0f kg: %s", heaviest, Practice))
}

// loadingOf returns the seconds to load and unload one piece of a mass in kg.
func (f *filling) loadingOf(mass float64) (typical, low, high float64) {
	for _, entry := range f.entries["job_types.loading_time.per_piece"] {
		if mass < entry.Till {
			return entry.numbers(quantity.DimDuration)
		}
	}
	return
}

// cutLength follows the piece: a saw cuts along it, a router goes around it.
func (f *filling) cutLength(leaf model.Leaf) {
	job, found := model.Find(f.study.JobTypes, keyAt(leaf.Path, 3))
	operation, ok := model.Find(job.Operations, keyAt(leaf.Path, 1))
	if !found || !ok {
		return
	}
	source := "this class cuts no line"
	piece := longest(job.Pieces, operation.Piece)
	switch operation.Class {
	case model.PanelSaw, model.TrackSaw:
		leaf.SetNumber(float64(piece.Length))
		source = "along the piece"
	case model.Router:
		leaf.SetNumber(2 * float64(piece.Length+piece.Width))
		source = "around the piece"
	}
	f.study.Origins[leaf.Path] = model.Origin{Assumed: true}
	f.hold(leaf, source)
}

// longest returns the piece with that key or, without a key, the longest one.
func longest(pieces []model.Piece, key string) model.Piece {
	if piece, ok := model.Find(pieces, key); ok {
		return piece
	}
	var found model.Piece
	for _, piece := range pieces {
		if piece.Length > found.Length {
			found = piece
		}
	}
	return found
}

// hold keeps a reckoned value and its range inside the limits of its input, says
// so where it had to, and notes the source.
func (f *filling) hold(leaf model.Leaf, source string) {
	origin := f.study.Origins[leaf.Path]
	origin.Source = source
	if dim, ok := leaf.Dimension(); ok {
		most, _, err := quantity.Parse(dim, leaf.Tag.Get("most"))
		if err == nil && leaf.Number() > most {
			leaf.SetNumber(most)
			origin.Note = AtLimit
		}
		if err == nil {
			origin.Low, origin.High = math.Min(origin.Low, most), math.Min(origin.High, most)
		}
	}
	f.study.Origins[leaf.Path] = origin
}
