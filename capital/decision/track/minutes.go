package track

import (
	"math"
	"slices"
	"strings"

	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// Machine is how long a machine takes beside what the study reckons.
type Machine struct {
	Path       string // in the study, such as tools.router
	Name       string
	Operations []Operation
	All        Operation         // of all its operations but set-up
	Reckoned   Operation         // of these, the ones without measured minutes: no others tell of feed and handling
	Factors    *evidence.Factors // of cutting and handling; nil where they cannot be told apart
	Bias       Bias              // what the minutes say of the study's

	Light, Heavy, Turned bool // whether light pieces, heavy ones, and turning were in its lines
	PlainSetup           bool // whether its set-up lines name no job, so that no grit is changed in them
}

// Operation is the minutes of one operation on a machine, or of its set-up.
type Operation struct {
	Key               string
	Lines             int
	Predicted, Actual quantity.Duration
	Ratio             Estimate // actual for each predicted
}

// Bias is where minutes differ from the study's.
type Bias int

// What the minutes of a machine say.
const (
	TooFew     Bias = iota // not enough lines for an interval
	AsReckoned             // the interval holds the study's minutes
	Unsplit                // they differ; cutting and handling cannot be told apart
	Alike                  // they differ, cutting and handling by the same factor
	InCutting              // cutting takes another time, handling as reckoned
	InHandling             // handling takes another time, cutting as reckoned
	InBoth                 // both do, by different factors
)

// Setup is the operation whose minutes are those of setting up alone.
const Setup = logbook.Setup

// cell is what a line of work is looked up by.
type cell struct{ subject, job, operation string }

// prediction is what the study reckons for the work of one cell, in seconds.
type prediction struct {
	cutting, handling float64 // of one job
	once              float64 // of the line
	machine           *machineSums
	operation         *sums
	measured          bool // the study has minutes in place of geometry
	lines             evidence.Ratio
	job, at           int // indexes of job type and operation, of measured ones
}

// machineSums is what the lines of one machine add up to.
type machineSums struct {
	path, name string
	ability    *model.Ability
	all        evidence.Ratio
	reckoned   evidence.Ratio // of all, without what the study has measured
	months     map[int]*evidence.Ratio
	parts      evidence.Parts
	operations []*sums
	withJobs   bool // some of its set-up lines name a job: grits are changed in them

	light, heavy, turned bool
}

type sums struct {
	key   string
	ratio evidence.Ratio
}

// operation finds or makes the sums of an operation.
func (m *machineSums) operation(key string) *sums {
	for _, one := range m.operations {
		if one.key == key {
			return one
		}
	}
	one := &sums{key: strings.Clone(key)}
	m.operations = append(m.operations, one)
	return one
}

// Lines that have no part in a comparison of minutes.
const (
	noSuchWork = "the study has no such work on that machine, so that there are no minutes to compare with"
	noMinutes  = "the study reckons no minutes for the work"
)

// addWork takes the minutes of a line of work.
func (t *Tracker) addWork(entry *logbook.Entry, month int) {
	key := cell{entry.Subject, entry.Job, entry.Operation}
	known, ok := t.cells[key]
	if !ok {
		key = cell{strings.Clone(key.subject), strings.Clone(key.job), strings.Clone(key.operation)}
		known = t.predict(key)
		t.cells[key] = known
	}
	if known.machine == nil {
		t.leave(noSuchWork)
		return
	}
	jobs := entry.Jobs
	cutting, handling := known.cutting*jobs, known.handling*jobs
	should, was := cutting+handling+known.once, float64(entry.Minutes)
	if should <= 0 {
		t.leave(noMinutes)
		return
	}
	known.lines.Add(should, was)
	known.operation.ratio.Add(should, was)
	if known.operation.key == Setup {
		return
	}
	known.machine.all.Add(should, was)
	add(known.machine.months, month, should, was)
	if !known.measured {
		known.machine.reckoned.Add(should, was)
		known.machine.parts.Add(cutting, handling, was)
	}
}

func add(months map[int]*evidence.Ratio, month int, should, was float64) {
	at, ok := months[month]
	if !ok {
		at = &evidence.Ratio{}
		months[month] = at
	}
	at.Add(should, was)
}

// predict reckons a cell through the plan of the study's work.
func (t *Tracker) predict(key cell) *prediction {
	job := model.Index(t.study.JobTypes, key.job)
	site, machine, shop := t.machineOf(key.subject, job)
	if machine < 0 || job < 0 && key.operation != Setup {
		return &prediction{}
	}
	sums := t.sumsOf(site, shop, machine)
	p := &prediction{machine: sums, operation: sums.operation(key.operation), job: job}
	if key.operation == Setup {
		p.once = float64(sums.ability.Setup)
		sums.withJobs = sums.withJobs || job >= 0
	}
	if job < 0 {
		return p
	}
	name, grit, _ := strings.Cut(key.operation, "/")
	found := false
	for i := t.plan.Jobs[job].First; i < t.plan.Jobs[job].End; i++ {
		row := &t.plan.Rows[i]
		if row.Site != site || row.Machine != machine {
			continue
		}
		found = t.addRow(p, row, &t.bare.Rows[i], name, grit) || found
	}
	if !found && key.operation != Setup {
		return &prediction{}
	}
	return p
}

// addRow adds what one row of the plan reckons; false when the row is of another
// operation or grit.
func (t *Tracker) addRow(p *prediction, row, bare *work.Row, name, grit string) bool {
	operation := &t.study.JobTypes[row.Job].Operations[row.Operation]
	switch {
	case p.operation.key == Setup:
		p.once += float64(row.PerVisit)
		p.handling += float64(row.PerJob)
	case operation.Key != name, grit != "" && (row.Grit < 0 || operation.Grits[row.Grit].Key != grit):
		return false
	case operation.Measured > 0:
		p.measured, p.at = true, row.Operation
		p.cutting += float64(row.Run)
	default:
		p.at = row.Operation
		p.cutting += float64(bare.Run)
		p.handling += float64(row.Run - bare.Run)
		_, _, piece, material := row.Parts(t.study)
		heavy := work.PieceMass(piece, material) > t.study.Studio.HeavyOver
		p.machine.heavy, p.machine.light = p.machine.heavy || heavy, p.machine.light || !heavy
		p.machine.turned = p.machine.turned || operation.Faces > 1
	}
	return true
}

// machineOf finds who does the work: a machine of the job's shop, a tool, or a
// candidate; of a line without a job, a machine of any shop. Below zero is none.
func (t *Tracker) machineOf(subject string, job int) (site work.Site, machine, shop int) {
	for s := range t.study.Shops {
		if job >= 0 && s != work.ShopOf(t.study, job) {
			continue
		}
		if m := model.Index(t.study.Shops[s].Machines, subject); m >= 0 {
			return work.AtShop, m, s
		}
	}
	if m := model.Index(t.study.Tools, subject); m >= 0 {
		return work.AtBench, m, -1
	}
	return work.AtStudio, model.Index(t.study.Machines, subject), -1
}

// sumsOf finds or makes the sums of a machine.
func (t *Tracker) sumsOf(site work.Site, shop, machine int) *machineSums {
	sums := &machineSums{months: map[int]*evidence.Ratio{}}
	switch site {
	case work.AtShop:
		at := &t.study.Shops[shop]
		offer := &at.Machines[machine]
		sums.path, sums.name, sums.ability = "shops."+at.Key+".machines."+offer.Key, nameOr(offer.Name, offer.Key), &offer.Ability
	case work.AtBench:
		tool := &t.study.Tools[machine]
		sums.path, sums.name, sums.ability = "tools."+tool.Key, nameOr(tool.Name, tool.Key), &tool.Ability
	default:
		own := &t.study.Machines[machine]
		sums.path, sums.name, sums.ability = "machines."+own.Key, nameOr(own.Name, own.Key), &own.Ability
	}
	for _, known := range t.machines {
		if known.path == sums.path {
			return known
		}
	}
	t.machines = append(t.machines, sums)
	return sums
}

func nameOr(name, key string) string {
	if name == "" {
		return key
	}
	return name
}

// machineResults words nothing: it brings the sums of every machine to their ratios,
// machines and operations by their keys.
func (t *Tracker) machineResults() []Machine {
	var results []Machine
	for _, sums := range t.machines {
		m := Machine{Path: sums.path, Name: sums.name, All: operationOf("", sums.all)}
		for _, one := range sums.operations {
			if one.ratio.N > 0 {
				m.Operations = append(m.Operations, operationOf(one.key, one.ratio))
			}
		}
		if len(m.Operations) == 0 {
			continue
		}
		slices.SortFunc(m.Operations, func(a, b Operation) int { return strings.Compare(a.Key, b.Key) })
		if sums.reckoned.N > 0 {
			m.Reckoned = operationOf("", sums.reckoned)
		}
		m.Bias, m.Factors = biasOf(m.Reckoned.Ratio, sums.parts)
		m.Light, m.Heavy, m.Turned, m.PlainSetup = sums.light, sums.heavy, sums.turned, !sums.withJobs
		results = append(results, m)
	}
	slices.SortFunc(results, func(a, b Machine) int { return strings.Compare(a.Path, b.Path) })
	return results
}

func operationOf(key string, ratio evidence.Ratio) Operation {
	return Operation{
		Key: key, Lines: int(math.Round(ratio.N)), Predicted: quantity.Duration(ratio.Should), Actual: quantity.Duration(ratio.Was),
		Ratio: estimated(ratio.Value(), ratio.Interval),
	}
}

// chance is how likely a difference must not be to be told.
const chance = 0.05

// biasOf says where minutes differ from the study's: of cutting and handling the
// simplest that the lines do not speak against.
func biasOf(reckoned Estimate, parts evidence.Parts) (Bias, *evidence.Factors) {
	factors, ok := parts.Fit(Level)
	if !ok {
		switch {
		case !reckoned.Known:
			return TooFew, nil
		case reckoned.Excludes(1):
			return Unsplit, nil
		}
		return AsReckoned, nil
	}
	sure, _ := parts.Fit(Sure)
	cutting, handling := surelyOff(sure.A, sure.OfA, 1), surelyOff(sure.B, sure.OfB, 1)
	switch {
	case factors.Same > chance:
		if surelyOff(sure.Alike, sure.OfAlike, 1) {
			return Alike, &factors
		}
	case cutting && handling:
		return InBoth, &factors
	case handling || !cutting && surelyOff(sure.OnlyB, sure.OfOnlyB, 1):
		return InHandling, &factors
	case cutting:
		return InCutting, &factors
	}
	return AsReckoned, &factors
}
