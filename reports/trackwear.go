package reports

import (
	"strconv"
	"strings"

	"shopstint/capital/decision/track"
	"shopstint/model/quantity"
)

// trackedWear says how long an edge or abrasive lasted and what it cost.
func (w trackWording) trackedWear(one *track.Wear) []string {
	unit, size := runUnit(w.system == quantity.Inch, one.Measure)
	run := func(x float64) string { return w.number(x / size) }
	var says []string
	says = append(says, w.livesSeen(one, unit, run))
	if life := w.lasts(one, unit, run); life != "" {
		says = append(says, life)
	}
	alone := "by the lives alone "
	if one.Damaged > 0 {
		alone = "by the lives alone, however they ended, "
	}
	if one.Weibull != nil {
		says = append(says, alone+w.estimate(one.Mean, run)+" "+unit+", "+wearing(one))
	} else if one.Ended > 0 {
		says = append(says, alone+w.estimate(one.SuddenMean, run)+" "+unit+", as if they ended at random")
	}
	if one.Dull.Known {
		says = append(says, "by the lives alone, damage set aside, "+w.estimate(one.Dull, run)+" "+unit)
	}
	return append(says, w.costs(one, unit, size)...)
}

// livesSeen counts the lives.
func (w trackWording) livesSeen(one *track.Wear, unit string, run func(float64) string) string {
	said := w.lives(one.Ended) + " ended"
	if one.Damaged > 0 {
		said += ", " + w.number(one.Damaged) + " by damage: " + w.estimate(one.ByDamage, wholePercent) + ", in the study " + wholePercent(one.StudyDamage)
	}
	if one.Going > 0 {
		said += "; " + w.number(one.Going) + " still going"
	}
	if one.LeftOut > 0 {
		said += "; " + w.lives(one.LeftOut) + " left out that began before the logbook"
	}
	if one.Run > 0 {
		said += "; " + run(one.Run) + " " + unit + " run"
	}
	return said
}

func (w trackWording) lives(n float64) string {
	if n == 1 {
		return "1 life"
	}
	return w.number(n) + " lives"
}

// lasts says what is to be believed of the life, and whose word it mostly is.
func (w trackWording) lasts(one *track.Wear, unit string, run func(float64) string) string {
	if one.Belief == nil {
		return ""
	}
	study := run(one.Study) + " (" + run(one.StudyLow) + " to " + run(one.StudyHigh) + ")"
	if one.FromLog {
		study += ", whose own range is from these lines and would count twice,"
	}
	if !one.Belief.Told() || one.Ended == 0 {
		return "the lives tell too little so far: in plain hardwood until dull " + w.estimate(one.Lasts, run) + " " + unit + " is mostly the study's own word, " + study
	}
	return "lasts " + w.estimate(one.Lasts, run) + " " + unit + " in plain hardwood until dull, the study's " + study + " counted in"
}

// wearing says which of the fits is to be preferred.
func wearing(one *track.Wear) string {
	shape := strconv.FormatFloat(one.Shape.Value, 'f', 1, 64)
	switch {
	case one.Fits == track.Sudden:
		return "which end about as often early as late (shape " + shape + ")"
	case one.Shape.Value < 1:
		return "which end early more often than late (shape " + shape + ")"
	}
	return "which end by wear (shape " + shape + ")"
}

// costs says what a unit of run cost, and what was paid.
func (w trackWording) costs(one *track.Wear, unit string, size float64) []string {
	var says []string
	if one.Run > 0 {
		said := "costs " + w.estimate(one.Cost, func(x float64) string { return w.small(x * size) }) + " a " + unit
		if one.StudyCost > 0 {
			said += ", in the study " + w.small(one.StudyCost*size)
		}
		says = append(says, said)
	}
	if one.Sharpened > 0 && one.Sharpening.Value > 0 {
		says = append(says, "a sharpening cost "+w.estimate(one.Sharpening, w.posted)+" with its errand")
	}
	return says
}

// small writes an amount that may be far under the places of its currency.
func (w trackWording) small(x float64) string { return w.number(x) }

// suggestedDigits is how many digits of a suggested figure count.
const suggestedDigits = 3

// suggestion writes a new figure as the study writes the old one.
func (w trackWording) suggestion(s *track.Suggestion) TrackedSuggestion {
	text := w.written[s.Path]
	out := TrackedSuggestion{Path: s.Path, Old: text, Because: w.because(s)}
	if text == "" {
		out.Old = quantity.Brief(s.Dimension, s.Old, w.system)
		text = w.usual(s)
	}
	out.New, out.Low, out.High = w.alike(s, text, s.New), w.alike(s, text, s.Low), w.alike(s, text, s.High)
	out.InWords = out.New + " (" + unitless(out.Low, out.New) + " to " + unitless(out.High, out.New) + "), now " + out.Old + "; " + out.Because
	return out
}

// unitless leaves the unit of a figure out where another one has the same.
func unitless(figure, other string) string {
	number, unit, _ := strings.Cut(figure, " ")
	if _, same, _ := strings.Cut(other, " "); same == unit {
		return number
	}
	return figure
}

// usual is how the old figure would be written where the study does not write it: a
// life in metres, all else in the unit that is shown.
func (w trackWording) usual(s *track.Suggestion) string {
	if s.Dimension == quantity.DimDistance && s.Old < 1000 {
		return strconv.FormatFloat(s.Old, 'f', -1, 64) + " m"
	}
	return quantity.Format(s.Dimension, s.Old, w.system)
}

func (w trackWording) alike(s *track.Suggestion, text string, si float64) string {
	if written, ok := quantity.Like(s.Dimension, text, si, suggestedDigits); ok {
		return written
	}
	unit := quantity.Display(s.Dimension, w.system)
	rounded := quantity.Rounded(quantity.Shown(s.Dimension, si, w.system), suggestedDigits)
	if unit.Symbol == "" {
		return strconv.FormatFloat(rounded, 'f', -1, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64) + " " + unit.Symbol
}

// because says what a suggestion rests on.
func (w trackWording) because(s *track.Suggestion) string {
	count := float64(s.Count)
	times := w.estimate(s.Seen, factor) + " times the minutes reckoned"
	switch s.Ground {
	case track.OfMinutes:
		return w.counted(count, "measured line") + " took " + times
	case track.OfCutting:
		return "in " + w.counted(count, "measured line") + " cutting took " + times
	case track.OfHandling:
		return "in " + w.counted(count, "measured line") + " handling took " + times
	case track.OfLives:
		return w.lives(count) + " ended, joined with the study's range"
	case track.OfInvoices:
		return "implied by the invoices of " + w.counted(count, "day")
	case track.OfRework:
		return "of " + w.counted(count, "job") + " " + w.estimate(s.Seen, wholePercent) + " were done again"
	case track.OfJobs:
		return w.counted(count, "job") + " done, " + w.estimate(s.Seen, w.number) + " a year"
	case track.OfSharpenings:
		return w.counted(count, "sharpening") + " at " + w.posted(s.Seen.Value) + ", errand included"
	}
	if s.Ground == track.OfDamage {
		return "of " + w.lives(count) + " damage ended " + w.estimate(s.Seen, wholePercent)
	}
	return w.number(count) + " bought at " + w.posted(s.Seen.Value)
}

// drift tells what has changed since last year, and how much was looked at.
func (w trackWording) drift() []string {
	if len(w.result.Drift) == 0 {
		return []string{"the logbook does not reach far enough back to compare two years; it takes the last twelve months and 90 days before"}
	}
	var says []string
	for _, d := range w.result.Drift {
		if d.Told {
			says = append(says, w.driftOf(&d))
		}
	}
	looked := w.counted(float64(len(w.result.Drift)), "figure")
	if len(says) == 0 {
		return []string{"none of " + looked + " differs from the year before by more than chance"}
	}
	return append(says, "of "+looked+" compared with the twelve months before the others differ by no more than chance")
}

func (w trackWording) driftOf(d *track.Drift) string {
	now, before := "", ""
	switch d.What {
	case track.DriftMinutes:
		return d.Name + ": " + factor(d.Now) + " times the minutes reckoned, the year before " + factor(d.Before)
	case track.DriftInvoices:
		now, before = thousandths(d.Now)+" of what the study's tariff makes of the minutes", thousandths(d.Before)
	case track.DriftJobs:
		now, before = w.number(d.Now)+" jobs a year", w.number(d.Before)
	case track.DriftRework:
		now, before = wholePercent(d.Now)+" done again", wholePercent(d.Before)
	case track.DriftWear:
		if d.Before == 0 {
			return d.Name + ": lives end that did not the year before"
		}
		return d.Name + ": lives end " + factor(d.Now/d.Before) + " times as often for the same run as the year before"
	}
	return d.Name + ": " + now + ", the year before " + before
}

func (w trackWording) trackNotes(bad int) []string {
	var notes []string
	if bad > 0 {
		said := w.whole(float64(bad)) + " bad lines were left out"
		if bad == 1 {
			said = "1 bad line was left out"
		}
		notes = append(notes, said)
	}
	for _, one := range w.result.LeftOut {
		notes = append(notes, w.counted(float64(one.Lines), "line")+": "+one.Why)
	}
	return notes
}
