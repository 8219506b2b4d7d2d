package wear

import (
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// load is the year's work of one item on one machine.
type load struct {
	Use

	materials []bool // by the study's materials: whether it works in it
}

// Counts tells whether a row is in a year's work: a candidate does what it can
// take, every other machine what it does when all else is rented.
func Counts(row *work.Row) bool {
	if row.Site == work.AtStudio {
		return row.Fit.OK()
	}
	return row.Used
}

// Times is how often a job does a row's step, reworks included: at a shop as
// often as a rework needs a visit.
func Times(kind *model.JobType, row *work.Row) float64 {
	if row.Site == work.AtShop && kind.Operations[row.Operation].Repeat {
		return 1 + float64(kind.ReworkChance)*float64(kind.ReworkVisits)
	}
	return work.TimesDone(kind, row)
}

// loadsOf gathers the plan's rows by what they wear and by machine, in the
// order in which the plan first names them. The keys are edges and abrasives.
func loadsOf(study *model.Study, plan *work.Plan) map[any][]load {
	loads := map[any][]load{}
	for i := range plan.Rows {
		row := &plan.Rows[i]
		switch edge, abrasive := row.Wears(study); {
		case edge != nil:
			loads[edge] = add(loads[edge], study, row)
		case abrasive != nil:
			loads[abrasive] = add(loads[abrasive], study, row)
		}
	}
	return loads
}

// add counts a row's year to the load of its machine.
func add(list []load, study *model.Study, row *work.Row) []load {
	at := place(&list, study, row)
	run, life := row.Worn(study)
	if !Counts(row) || run == 0 {
		return list
	}
	kind := &study.JobTypes[row.Job]
	times := float64(kind.PerYear) * Times(kind, row)
	one := &list[at]
	one.Run += times * run
	one.Plain += times * run / life
	one.Hours += times * quantity.Duration(row.Rubbing(study)).Hours()
	if times > 0 {
		one.materials[max(0, model.Index(study.Materials, kind.Material))] = true
	}
	return list
}

// place finds the load of a row's machine, or makes it.
func place(list *[]load, study *model.Study, row *work.Row) int {
	shop := 0
	if row.Site == work.AtShop {
		shop = work.ShopOf(study, row.Job)
	}
	for i := range *list {
		if one := &(*list)[i]; one.Site == row.Site && one.Machine == row.Machine && one.Shop == shop {
			return i
		}
	}
	*list = append(*list, load{Use: Use{Site: row.Site, Shop: shop, Machine: row.Machine}, materials: make([]bool, len(study.Materials))})
	return len(*list) - 1
}

// Path returns the path in the study of the machine that a use is on.
func (u *Use) Path(study *model.Study) string {
	return work.MachinePath(study, u.Site, u.Shop, u.Machine)
}
