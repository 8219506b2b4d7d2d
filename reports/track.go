package reports

import (
	"math"
	"strconv"
	"strings"

	"shopstint/capital/decision/track"
)

// Tracked is a logbook beside its study, in figures and in words.
type Tracked struct {
	Title    string
	Currency string // ISO 4217
	Units    string // metric or inch
	Bad      int    // lines that were left out because they are wrong
	Result   *track.Result

	InWords     string
	Machines    []TrackedMachine
	Visits      []TrackedSentences
	Wear        []TrackedSentences
	Jobs        []TrackedJob
	Drift       []string
	Suggestions []TrackedSuggestion
	Notes       []string
	Caution     string
}

// TrackedMachine is a row for each operation of a machine, and what they say together.
type TrackedMachine struct {
	Name string
	Rows []TrackedRow
	Says string // "" where its minutes are as the study reckons
}

// TrackedRow is the minutes of one operation.
type TrackedRow struct{ Label, Lines, Predicted, Actual, Ratio string }

// TrackedSentences is what is said about one thing.
type TrackedSentences struct {
	Name string
	Says []string
}

// TrackedJob is a row of jobs: how many, and how many again.
type TrackedJob struct{ Name, Done, PerYear, Study, Share, Chance, Waiting string }

// TrackedSuggestion is a new figure for an input, as it would be written.
type TrackedSuggestion struct {
	Path             string
	Old              string
	New, Low, High   string
	Because, InWords string
}

// trackWording words one result.
type trackWording struct {
	wording
	written map[string]string // values of the study as they stand there
	result  *track.Result
}

// Track words a result. Written holds values as the study writes them, by path, so that
// new ones are written alike; bad is how many wrong lines were left out.
func Track(result *track.Result, written map[string]string, bad int, numbers Numbers) Tracked {
	w := trackWording{wording: studyWording(result.Study, numbers), written: written, result: result}
	t := Tracked{
		Title: w.title(), Currency: w.study.Money.Code(), Units: w.study.Units, Bad: bad, Result: result,
		InWords: w.trackHead(), Drift: w.drift(), Notes: w.trackNotes(bad), Caution: TrackCaution,
	}
	for i := range result.Machines {
		t.Machines = append(t.Machines, w.trackedMachine(&result.Machines[i]))
	}
	for i := range result.Visits {
		t.Visits = append(t.Visits, TrackedSentences{result.Visits[i].Name, w.trackedVisits(&result.Visits[i])})
	}
	for i := range result.Wear {
		t.Wear = append(t.Wear, TrackedSentences{result.Wear[i].Name, w.trackedWear(&result.Wear[i])})
	}
	for i := range result.Jobs {
		t.Jobs = append(t.Jobs, w.trackedJob(&result.Jobs[i]))
	}
	for i := range result.Suggestions {
		t.Suggestions = append(t.Suggestions, w.suggestion(&result.Suggestions[i]))
	}
	return t
}

// TrackedPaths are the inputs that a result would change.
func TrackedPaths(result *track.Result) []string {
	paths := make([]string, len(result.Suggestions))
	for i := range result.Suggestions {
		paths[i] = result.Suggestions[i].Path
	}
	return paths
}

func (w trackWording) trackHead() string {
	if w.result.Lines == 0 {
		return "the logbook has no line"
	}
	return w.counted(float64(w.result.Lines), "line") + " of the logbook, from " + string(w.result.First) + " to " + string(w.result.Last) +
		", beside the study; ranges in brackets hold the truth nine times in ten"
}

// estimate writes a figure with its range in brackets.
func (w trackWording) estimate(e track.Estimate, say func(float64) string) string {
	if !e.Known {
		return say(e.Value)
	}
	return say(e.Value) + " (" + say(e.Low) + " to " + upTo(e.High, say) + ")"
}

func upTo(x float64, say func(float64) string) string {
	if math.IsInf(x, 1) {
		return "any"
	}
	return say(x)
}

func factor(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }

func (w trackWording) trackedMachine(m *track.Machine) TrackedMachine {
	out := TrackedMachine{Name: m.Name, Says: w.bias(m)}
	for _, one := range m.Operations {
		out.Rows = append(out.Rows, w.minutesRow(OperationName(one.Key), one))
	}
	if len(m.Operations) > 1 && m.All.Lines > 0 {
		out.Rows = append(out.Rows, w.minutesRow("all but set-up", m.All))
	}
	return out
}

// OperationName words the key of an operation.
func OperationName(key string) string {
	if key == track.Setup {
		return "set-up"
	}
	return strings.ReplaceAll(key, "_", " ")
}

func (w trackWording) minutesRow(label string, one track.Operation) TrackedRow {
	return TrackedRow{
		label, w.whole(float64(one.Lines)), w.whole(one.Predicted.Minutes()), w.whole(one.Actual.Minutes()), w.estimate(one.Ratio, factor),
	}
}

// bias says where minutes differ from the study's.
func (w trackWording) bias(m *track.Machine) string {
	f := m.Factors
	of := func(value, low, high float64) string {
		return w.estimate(track.Estimate{Value: value, Low: low, High: high, Known: true}, factor) + " times as long"
	}
	switch m.Bias {
	case track.Unsplit:
		return "takes " + w.estimate(m.Reckoned.Ratio, factor) + " times as long as reckoned; the lines do not tell cutting from handling"
	case track.Alike:
		return "takes " + of(f.Alike, f.OfAlike.Low, f.OfAlike.High) + " as reckoned, in cutting and handling alike"
	case track.InCutting:
		return "cutting takes " + of(f.OnlyA, f.OfOnlyA.Low, f.OfOnlyA.High) + " as reckoned, handling does not"
	case track.InHandling:
		return "handling takes " + of(f.OnlyB, f.OfOnlyB.Low, f.OfOnlyB.High) + " as reckoned, cutting does not"
	case track.InBoth:
		return "cutting takes " + of(f.A, f.OfA.Low, f.OfA.High) + " as reckoned, handling " + of(f.B, f.OfB.Low, f.OfB.High)
	}
	return ""
}

func (w trackWording) trackedVisits(v *track.Visits) []string {
	head := w.counted(float64(v.Lines), "visit")
	if v.Compared == 0 {
		return []string{head + ", none of which could be priced"}
	}
	says := []string{head + "; on " + w.counted(float64(v.Compared), "invoice") + " " + w.amount(v.Paid) + " was paid where the study's tariff makes it " +
		w.amount(v.Priced) + ": " + w.estimate(v.Ratio, thousandths) + " of it"}
	for _, step := range v.Steps {
		says = append(says, "from "+string(step.Date)+" on "+w.rate(v, step.After)+", before "+w.rate(v, step.Before)+
			"; a step as clear comes by chance "+rarely(step.P))
	}
	if len(v.Steps) == 0 && v.Since > 0 {
		says = append(says, "no change of the tariff shows; the invoices imply "+w.rate(v, v.Now.Value)+", and the study has "+w.rate(v, v.Study))
	}
	return says
}

func thousandths(x float64) string { return strconv.FormatFloat(x, 'f', 3, 64) }

// rate writes what invoices imply of the tariff.
func (w trackWording) rate(v *track.Visits, x float64) string {
	if v.Hourly {
		return w.posted(x) + " an hour"
	}
	return percent(x) + " of the study's rates"
}

// rarely says a small probability.
func rarely(p float64) string {
	switch {
	case p < 1e-6:
		return "less than once in a million times"
	case p < 1e-3:
		return "less than once in a thousand times"
	}
	return "less than once in a hundred times"
}

func (w trackWording) trackedJob(j *track.Jobs) TrackedJob {
	out := TrackedJob{
		Name: j.Name, Done: w.number(j.Done), PerYear: w.estimate(j.PerYear, w.number), Study: w.number(j.Study), Chance: wholePercent(j.Chance),
	}
	if j.Done > 0 {
		out.Share = w.estimate(j.Share, wholePercent)
	}
	if j.Waits > 0 {
		out.Waiting = w.number(j.Waiting.Value/60) + " h"
	}
	return out
}

func wholePercent(share float64) string { return strconv.FormatFloat(share*100, 'f', 0, 64) + " %" }

// RunUnit names the unit in which a run is told, and its size.
func (t *Tracked) RunUnit(measure track.Measure) (name string, size float64) {
	return runUnit(t.Units == "inch", measure)
}

func runUnit(inch bool, measure track.Measure) (name string, size float64) {
	switch {
	case measure == track.ByHours:
		return "h", 3600
	case measure == track.ByArea && inch:
		return "ft²", 0.3048 * 0.3048
	case measure == track.ByArea:
		return "m²", 1
	case inch:
		return "ft", 0.3048
	}
	return "m", 1
}
