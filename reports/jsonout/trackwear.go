package jsonout

import (
	"shopstint/capital/decision/track"
	lives "shopstint/model/wear/life"
)

// runUnit is the unit of a measure, and its size.
func runUnit(measure track.Measure) (unit string, size float64) {
	switch measure {
	case track.ByLength:
		return "m", 1
	case track.ByArea:
		return "m2", 1
	case track.ByHours:
		return "h", 3600
	}
	return "", 1
}

func trackWearOf(one *track.Wear) trackWear {
	unit, size := runUnit(one.Measure)
	out := trackWear{
		Path: one.Path, Name: one.Name, RunIn: textOrNull(unit), Run: number(one.Run / size),
		Lives: trackLives{number(one.Ended), number(one.Damaged), number(one.Going), number(one.LeftOut)},
		Curve: each(one.Curve, func(s *lives.Step) trackStep {
			return trackStep{number(s.Run / size), number(s.AtRisk), number(s.Ended), number(s.Survival), number(s.Error), number(s.Low), number(s.High)}
		}),
		Cost: scaled(one.Cost, 1/size), Learnt: number(0),
	}
	if one.StudyCost > 0 {
		out.StudyCost = number(one.StudyCost * size)
	}
	if b := one.Belief; b != nil {
		out.Study = &trackLife{number(one.Study), number(one.StudyLow), number(one.StudyHigh), one.Assumed}
		out.Life, out.Learnt, out.Enough = within(one.Lasts, 1), number(b.Learnt), b.Told() && one.Ended > 0
	}
	if one.Weibull != nil {
		out.Weibull = &trackFit{scaled(one.Mean, size), intervalOf(one.Shape), number(one.Weibull.AIC())}
	}
	if one.Ended > 0 {
		out.Sudden = &trackSudden{scaled(one.SuddenMean, size), number(one.Sudden.AIC())}
	}
	out.ByDamage, out.Damage = within(one.ByDamage, 1), number(one.StudyDamage)
	out.Dull, out.Sharpening, out.Price = within(one.Dull, size), within(one.Sharpening, 1), within(one.Price, 1)
	return out
}

// within is null where there is no figure.
func within(e track.Estimate, size float64) *interval {
	if e.Value == 0 && !e.Known {
		return nil
	}
	out := scaled(e, size)
	return &out
}

func trackJobsOf(j *track.Jobs) trackJobs {
	out := trackJobs{j.Key, number(j.Done), intervalOf(j.PerYear), number(j.Study), number(j.Again), intervalOf(j.Share), number(j.Chance), nil}
	if j.Waits > 0 {
		out.Waiting = within(j.Waiting, 1)
	}
	return out
}

// drifts are the words of track.DriftOf.
var drifts = [...]string{
	track.DriftMinutes: "minutes", track.DriftInvoices: "invoices", track.DriftJobs: "jobs", track.DriftRework: "rework", track.DriftWear: "wear",
}

func trackDriftOf(d *track.Drift) trackDrift {
	return trackDrift{drifts[d.What], d.Path, number(d.Before), number(d.Now), number(d.P), d.Told}
}
