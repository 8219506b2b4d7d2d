package jsonout

import (
	"io"

	"shopstint/capital/decision/track"
	"shopstint/reports"
)

// TrackShape is the name of the shape that WriteTrack writes. Minutes, metres, square
// metres and hours whatever the study is shown in; shares are parts of one; an
// estimate's low and high are null where there is too little for them.
//
//	{
//	  "shape": "shopstint.track/1",
//	  "title": text, "currency": ISO 4217 code, "confidence": 0.9,
//	  "lines": number, "bad_lines": number, "first": date | null, "last": date | null, "years": number,
//	  "minutes": [{
//	    "machine": path, "name": text,
//	    "operations": [{"operation": key | "setup", "lines", "predicted", "actual", "ratio": ESTIMATE}],
//	    "all": {"lines", "predicted", "actual", "ratio": ESTIMATE},          without set-up
//	    "bias": "too_few" | "as_reckoned" | "unsplit" | "alike" | "cutting" | "handling" | "both",
//	    "cutting": ESTIMATE | null, "handling": ESTIMATE | null             actual for each predicted
//	  }],
//	  "visits": [{
//	    "shop": key, "visits", "compared", "paid", "priced", "ratio": ESTIMATE,
//	    "rate_is": "per_hour" | "share_of_the_study", "study_rate", "rate": ESTIMATE, "days": number,
//	    "changes": [{"date", "before", "after", "chance"}]
//	  }],
//	  "wear": [{
//	    "path", "name", "run_in": "m" | "m2" | "h" | null, "run",
//	    "lives": {"ended", "by_damage", "going", "left_out"},
//	    "study": {"life", "low", "high", "range_is_assumed": true | false} | null,
//	    "life": ESTIMATE | null, "learnt": number,          with the study's range, in plain hardwood
//	    "enough_lives": true | false,
//	    "weibull": {"mean": ESTIMATE, "shape": ESTIMATE, "aic"} | null,
//	    "exponential": {"mean": ESTIMATE, "aic"} | null,
//	    "without_damage": ESTIMATE | null,
//	    "damage": ESTIMATE | null, "study_damage": number,  share of lives that damage ends
//	    "curve": [{"run", "at_risk", "ended", "survival", "error", "low", "high"}],
//	    "cost": ESTIMATE, "study_cost": number | null,      for each of run_in
//	    "sharpening": ESTIMATE | null, "price": ESTIMATE | null
//	  }],
//	  "jobs": [{
//	    "job": key, "done", "a_year": ESTIMATE, "study_a_year",
//	    "again", "rework": ESTIMATE, "study_rework", "waiting": ESTIMATE | null
//	  }],
//	  "drift": [{"of": "minutes" | "invoices" | "jobs" | "rework" | "wear", "path", "before", "now",
//	    "chance", "more_than_chance": true | false}],
//	  "suggestions": [{"path", "old": text, "new": text, "low": text, "high": text, "because": text}],
//	  "left_out": [{"lines", "why"}], "caution": text,
//	  "workbook": path | null, "applied": {"study": path, "before": path} | null
//	}
//	ESTIMATE is {"value", "low", "high"}
const TrackShape = "shopstint.track/1"

type trackDocument struct {
	Shape       string            `json:"shape"`
	Title       string            `json:"title"`
	Currency    string            `json:"currency"`
	Confidence  float64           `json:"confidence"`
	Lines       int               `json:"lines"`
	Bad         int               `json:"bad_lines"`
	First       *string           `json:"first"`
	Last        *string           `json:"last"`
	Years       *float64          `json:"years"`
	Minutes     []trackMachine    `json:"minutes"`
	Visits      []trackVisits     `json:"visits"`
	Wear        []trackWear       `json:"wear"`
	Jobs        []trackJobs       `json:"jobs"`
	Drift       []trackDrift      `json:"drift"`
	Suggestions []trackSuggestion `json:"suggestions"`
	LeftOut     []trackLeftOut    `json:"left_out"`
	Caution     string            `json:"caution"`
	Workbook    *string           `json:"workbook"`
	Applied     *TrackApplied     `json:"applied"`
}

// TrackApplied says where suggestions were written, and what kept the study as it was.
type TrackApplied struct {
	Study  string `json:"study"`
	Before string `json:"before"`
}

type interval struct {
	Value *float64 `json:"value"`
	Low   *float64 `json:"low"`
	High  *float64 `json:"high"`
}

type trackMachine struct {
	Machine    string           `json:"machine"`
	Name       string           `json:"name"`
	Operations []trackOperation `json:"operations"`
	All        trackSum         `json:"all"`
	Bias       string           `json:"bias"`
	Cutting    *interval        `json:"cutting"`
	Handling   *interval        `json:"handling"`
}

type trackOperation struct {
	Operation string `json:"operation"`
	trackSum
}

type trackSum struct {
	Lines     int      `json:"lines"`
	Predicted *float64 `json:"predicted"`
	Actual    *float64 `json:"actual"`
	Ratio     interval `json:"ratio"`
}

type trackVisits struct {
	Shop     string       `json:"shop"`
	Visits   int          `json:"visits"`
	Compared int          `json:"compared"`
	Paid     *float64     `json:"paid"`
	Priced   *float64     `json:"priced"`
	Ratio    interval     `json:"ratio"`
	RateIs   string       `json:"rate_is"`
	Study    *float64     `json:"study_rate"`
	Rate     interval     `json:"rate"`
	Days     int          `json:"days"`
	Changes  []trackRates `json:"changes"`
}

type trackRates struct {
	Date   string   `json:"date"`
	Before *float64 `json:"before"`
	After  *float64 `json:"after"`
	Chance *float64 `json:"chance"`
}

type trackWear struct {
	Path       string       `json:"path"`
	Name       string       `json:"name"`
	RunIn      *string      `json:"run_in"`
	Run        *float64     `json:"run"`
	Lives      trackLives   `json:"lives"`
	Study      *trackLife   `json:"study"`
	Life       *interval    `json:"life"`
	Learnt     *float64     `json:"learnt"`
	Enough     bool         `json:"enough_lives"`
	Weibull    *trackFit    `json:"weibull"`
	Sudden     *trackSudden `json:"exponential"`
	Dull       *interval    `json:"without_damage"`
	ByDamage   *interval    `json:"damage"`
	Damage     *float64     `json:"study_damage"`
	Curve      []trackStep  `json:"curve"`
	Cost       interval     `json:"cost"`
	StudyCost  *float64     `json:"study_cost"`
	Sharpening *interval    `json:"sharpening"`
	Price      *interval    `json:"price"`
}

type trackLives struct {
	Ended   *float64 `json:"ended"`
	Damaged *float64 `json:"by_damage"`
	Going   *float64 `json:"going"`
	LeftOut *float64 `json:"left_out"`
}

type trackLife struct {
	Life    *float64 `json:"life"`
	Low     *float64 `json:"low"`
	High    *float64 `json:"high"`
	Assumed bool     `json:"range_is_assumed"`
}

type trackFit struct {
	Mean  interval `json:"mean"`
	Shape interval `json:"shape"`
	AIC   *float64 `json:"aic"`
}

type trackSudden struct {
	Mean interval `json:"mean"`
	AIC  *float64 `json:"aic"`
}

type trackStep struct {
	Run      *float64 `json:"run"`
	AtRisk   *float64 `json:"at_risk"`
	Ended    *float64 `json:"ended"`
	Survival *float64 `json:"survival"`
	Error    *float64 `json:"error"`
	Low      *float64 `json:"low"`
	High     *float64 `json:"high"`
}

type trackJobs struct {
	Job     string    `json:"job"`
	Done    *float64  `json:"done"`
	PerYear interval  `json:"a_year"`
	Study   *float64  `json:"study_a_year"`
	Again   *float64  `json:"again"`
	Rework  interval  `json:"rework"`
	Chance  *float64  `json:"study_rework"`
	Waiting *interval `json:"waiting"`
}

type trackDrift struct {
	Of     string   `json:"of"`
	Path   string   `json:"path"`
	Before *float64 `json:"before"`
	Now    *float64 `json:"now"`
	Chance *float64 `json:"chance"`
	Told   bool     `json:"more_than_chance"`
}

type trackSuggestion struct {
	Path    string `json:"path"`
	Old     string `json:"old"`
	New     string `json:"new"`
	Low     string `json:"low"`
	High    string `json:"high"`
	Because string `json:"because"`
}

type trackLeftOut struct {
	Lines int    `json:"lines"`
	Why   string `json:"why"`
}

// WriteTrack writes a logbook beside its study; workbook is the path of the workbook,
// "" for none, applied nil when nothing was written into the study.
func WriteTrack(w io.Writer, tracked *reports.Tracked, workbook string, applied *TrackApplied) error {
	r := tracked.Result
	return write(w, trackDocument{
		Shape: TrackShape, Title: tracked.Title, Currency: tracked.Currency, Confidence: track.Level,
		Lines: r.Lines, Bad: tracked.Bad, First: textOrNull(string(r.First)), Last: textOrNull(string(r.Last)), Years: number(r.Years),
		Minutes: each(r.Machines, trackMachineOf), Visits: each(r.Visits, trackVisitsOf), Wear: each(r.Wear, trackWearOf),
		Jobs: each(r.Jobs, trackJobsOf), Drift: each(r.Drift, trackDriftOf),
		Suggestions: each(tracked.Suggestions, func(s *reports.TrackedSuggestion) trackSuggestion {
			return trackSuggestion{s.Path, s.Old, s.New, s.Low, s.High, s.Because}
		}),
		LeftOut: each(r.LeftOut, func(l *track.LeftOut) trackLeftOut { return trackLeftOut{l.Lines, l.Why} }),
		Caution: tracked.Caution, Workbook: textOrNull(workbook), Applied: applied,
	})
}

func textOrNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// scaled is an estimate in units of a size.
func scaled(e track.Estimate, size float64) interval {
	out := interval{Value: number(e.Value / size)}
	if e.Known {
		out.Low, out.High = number(e.Low/size), number(e.High/size)
	}
	return out
}

func intervalOf(e track.Estimate) interval { return scaled(e, 1) }

func sumOf(o *track.Operation) trackSum {
	return trackSum{o.Lines, number(o.Predicted.Minutes()), number(o.Actual.Minutes()), intervalOf(o.Ratio)}
}

// biases are the words of track.Bias.
var biases = [...]string{
	track.TooFew: "too_few", track.AsReckoned: "as_reckoned", track.Unsplit: "unsplit", track.Alike: "alike",
	track.InCutting: "cutting", track.InHandling: "handling", track.InBoth: "both",
}

func trackMachineOf(m *track.Machine) trackMachine {
	out := trackMachine{
		Machine: m.Path, Name: m.Name, All: sumOf(&m.All), Bias: biases[m.Bias],
		Operations: each(m.Operations, func(o *track.Operation) trackOperation { return trackOperation{o.Key, sumOf(o)} }),
	}
	if f := m.Factors; f != nil {
		out.Cutting = &interval{number(f.A), number(f.OfA.Low), number(f.OfA.High)}
		out.Handling = &interval{number(f.B), number(f.OfB.Low), number(f.OfB.High)}
	}
	return out
}

func trackVisitsOf(v *track.Visits) trackVisits {
	rateIs := "share_of_the_study"
	if v.Hourly {
		rateIs = "per_hour"
	}
	return trackVisits{
		v.Shop, v.Lines, v.Compared, number(v.Paid), number(v.Priced), intervalOf(v.Ratio), rateIs, number(v.Study), intervalOf(v.Now), v.Since,
		each(v.Steps, func(s *track.RateStep) trackRates {
			return trackRates{string(s.Date), number(s.Before), number(s.After), number(s.P)}
		}),
	}
}
