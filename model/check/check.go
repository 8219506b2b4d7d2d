// Package check holds the rules that a study keeps as a whole: references that
// lead somewhere, numbers that do not contradict each other, and everything the
// methods need in order to price the work.
//
// Limits of one input stand in the model's tags and are kept by the readers;
// here are only the rules that look at several inputs. A rule reports paths; who
// read the study knows where they stand.
package check

import (
	"shopstint/model"
	"shopstint/model/problem"
)

// Rule is one thing that must hold of a whole study.
type Rule struct {
	Name  string   // the rule as a sentence
	Reads []string // paths the rule looks at, with * for any one part; see Without
	Check func(*model.Study) []problem.Problem
}

// Rules lists every rule, in the order of a study. It is a table of constants.
var Rules = []Rule{
	{"a supply has one or three phases", []string{"studio.phases", "machines.*.machine_phases"}, supplyPhases},
	{"a reference names a member that exists", referenceReads, referencesExist},
	{"a machine neither needs nor excludes itself", relationReads, relationsAreToOthers},
	{"a machine can be owned with all that it needs", relationReads, needsCanBeMet},
	{"a material has a density or a specific gravity", []string{"materials.*.density", "materials.*.specific_gravity"}, densityOnce},
	{"a job type says its material where there are several", []string{"materials.*", "job_types.*.material", "comparisons.*.material"}, materialSaid},

	{"a machine room by the hour has a rate", tariffReads("hourly_rate"), roomHasRate},
	{"a clock for each machine has a rate for each", append(tariffReads(), "shops.*.machines.*.hourly_rate"), machinesHaveRates},
	{"a half day is shorter than a day", tariffReads("half_day", "day"), halfDayShorter},
	{"a half day costs no more than a day", tariffReads("half_day_price", "day_price"), halfDayCheaper},
	{"a minimum block is no longer than a day", tariffReads("minimum_block", "day"), blockWithinDay},
	{"a membership has a fee", tariffReads("membership_fee", "membership_time", "member_discount"), membershipHasFee},

	{"a machine that is fed has a feed speed", abilityReads("feed"), fedMachinesFeed},
	{"a machine that is fed takes a depth in each pass", abilityReads("depth_per_pass"), fedMachinesTakeDepth},
	{"a machine moved over the face has a time for each area", abilityReads("area_time"), movedMachinesTakeTime},
	{"a knife-mark figure needs head speed and knives", abilityReads("head_speed", "knives"), knifeMarksComplete},
	{"a candidate takes over some work", []string{"machines.*.does", "machines.*.does.*"}, candidatesDoWork},
	{"a candidate takes over work of its own kind", []string{"machines.*.class", "machines.*.does", "machines.*.does.*"}, candidatesDoTheirKind},
	{"a candidate of class other takes over measured work", append(operationReads(), "machines.*.class", "machines.*.does", "machines.*.does.*"), othersAreMeasured},

	{"a new machine has no age and no hours", []string{"machines.*.condition", "machines.*.age", "machines.*.hours"}, newMachinesAreNew},
	{"a used machine has hours left", []string{"machines.*.hours", "machines.*.life_hours"}, hoursAreLeft},
	{"a machine is sold before it is sixty", []string{"machines.*.age", "machines.*.years_kept"}, soldInTime},
	{"a value table never rises", []string{"machines.*.resale", "machines.*.value_table.*"}, valueTableFalls},
	{"a remaining value starts above zero", []string{"machines.*.resale", "machines.*.value_c1"}, remainingValueStarts},
	{"hours sold have a price", []string{"machines.*.hours_sold", "machines.*.sold_rate"}, hoursSoldPriced},
	{"a percentage table has the class of life", []string{"machines.*.tax.method", "machines.*.tax.life"}, taxTableHasLife},

	{"an operation works on a piece of its job", []string{"job_types.*.pieces.*", "job_types.*.operations.*.piece"}, piecesExist},
	{"some machine does each operation", append(offerReads, "machines.*.class", "machines.*.does", "machines.*.does.*"), someMachineDoes},
	{"each operation can be rented or done with an own tool", append(offerReads, "machines.*.class", "machines.*.does", "machines.*.does.*"), eachCanBeRented},
	{"a fallback is another class", []string{"job_types.*.operations.*.class", "job_types.*.operations.*.fallback"}, fallbackDiffers},
	{"some machine does each fallback", offerReads, someMachineFallsBack},
	{"sanding has its grits", operationReads("grits.*"), sandingHasGrits},
	{"planing and flattening have stock to take off", operationReads("stock"), planingHasStock},
	{"sawing and routing have cuts", operationReads("cut_length", "cuts"), sawingHasCuts},
	{"other work has measured minutes", operationReads(), otherIsMeasured},
	{"grits run from coarse to fine", []string{"job_types.*.operations.*.grits.*"}, gritsRunFine},
	{"each grit has an abrasive", append(operationReads("grits.*"), "abrasives.*.class", "abrasives.*.grit", "abrasives.*.only_compared"), gritsHaveAbrasives},
	{"an operation leaves some of the piece", append(operationReads("stock", "faces", "piece", "grits.*.stock"), "job_types.*.pieces.*.thickness"), pieceRemains},
	{"a shop is open on some day", []string{"shops.*.open_days"}, shopsOpen},
	{"a dated job is due when it is ready or later", []string{"dated_jobs.*.ready", "dated_jobs.*.due"}, dueAfterReady},
	{"dated jobs are at most a thousand", []string{"dated_jobs.*.count"}, datedJobsFew},
	{"a rework repeats something", []string{"job_types.*.rework_chance", "job_types.*.rework_visits", "job_types.*.operations.*.repeat"}, reworkRepeats},

	{"a comparison counts its work by length or by area", comparisonReads(), workIsCounted},
	{"a comparison has several ways", []string{"comparisons.*.ways", "comparisons.*.ways.*"}, waysAreSeveral},
	{"a way runs what its work is counted by", comparisonReads("edge", "abrasives", "feed", "area_time"), waysRunTheirKind},
	{"a way that runs something has a pace", comparisonReads("edge", "abrasives", "feed", "area_time", "piece_time"), waysHaveAPace},
	{"what is counted by the piece has a size of piece", comparisonReads("piece_time", "rework_share"), piecesHaveSize},
	{"a way has a machine or a price of its own", comparisonReads("machine", "price", "resale", "yearly_upkeep"), waysBuyOnce},

	{"a range is what its shape asks for", rangeReads, rangesFitTheirShape},
	{"a correlation ties inputs that are drawn from ranges", []string{"correlations.*.a", "correlations.*.b"}, correlationsTieRanges},
	{"a correlation ties two inputs and no other ties them", []string{"correlations.*.a", "correlations.*.b"}, correlationsTieTwo},
	{"correlations can all hold together", []string{"correlations.*"}, correlationsAgree},
}

var (
	referenceReads = []string{
		"shops.*.machines.*.edge", "tools.*.edge", "machines.*.edge", "job_types.*.shop", "job_types.*.material", "dated_jobs.*.job_type",
		"comparisons.*.material", "comparisons.*.ways.*.edge", "comparisons.*.ways.*.abrasives", "comparisons.*.ways.*.machine",
		"edges.*", "abrasives.*", "shops.*", "materials.*", "job_types.*", "machines.*", "fixtures.*", "machines.*.fixtures", "machines.*.excludes", "machines.*.needs",
	}
	relationReads = []string{"machines.*", "machines.*.excludes", "machines.*.needs"}
	rangeReads    = []string{"studio", "growth", "shops", "tools", "machines", "fixtures", "edges", "abrasives", "materials", "job_types", "comparisons"}
	offerReads    = []string{
		"job_types.*.operations.*.class", "job_types.*.operations.*.fallback",
		"job_types.*.shop", "shops.*.machines.*.class", "tools.*.class",
	}
)

func tariffReads(keys ...string) []string {
	return under("shops.*.tariff.", append(keys, "basis"))
}

func abilityReads(keys ...string) []string {
	keys = append(keys, "class")
	reads := under("shops.*.machines.*.", keys)
	reads = append(reads, under("tools.*.", keys)...)
	return append(reads, under("machines.*.", keys)...)
}

func operationReads(keys ...string) []string {
	return under("job_types.*.operations.*.", append(keys, "class", "fallback", "measured"))
}

// comparisonReads are inputs of ways with those that say how the work is counted.
func comparisonReads(keys ...string) []string {
	counted := under("comparisons.*.", []string{"yearly_length", "yearly_area", "piece_length", "piece_area"})
	return append(counted, under("comparisons.*.ways.*.", keys)...)
}

func under(path string, keys []string) []string {
	list := make([]string, len(keys))
	for i, key := range keys {
		list[i] = path + key
	}
	return list
}

// Study returns every problem of the study as a whole, rule by rule. Problems
// have a path and no place. The study must have its defaults filled in.
//
// Source: common practice, no source.
func Study(study *model.Study) []problem.Problem {
	return Without(study, nil)
}
