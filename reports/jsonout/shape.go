package jsonout

import "shopstint/reports"

type document struct {
	Shape        string    `json:"shape"`
	Title        string    `json:"title"`
	Currency     string    `json:"currency"`
	Units        string    `json:"units"`
	StartYear    int       `json:"start_year"`
	HorizonYears *float64  `json:"horizon_years"`
	Renting      worth     `json:"renting_everything"`
	Machines     []machine `json:"machines"`
	Assumed      assumed   `json:"assumed"`
	Notes        []note    `json:"notes"`
	NotPriced    []string  `json:"not_priced"`
	Cautions     []string  `json:"cautions"`
	Workbook     *string   `json:"workbook"`
	Joint        jointly   `json:"joint"`
	Roadmap      roadmap   `json:"roadmap"`

	Futures     *drawnFutures `json:"futures,omitempty"`      // where they were asked for
	SolvedAgain *solvedAgain  `json:"solved_again,omitempty"` // of an edited decision workbook only
}

type worth struct {
	Annual  *float64 `json:"annual"`
	Present *float64 `json:"present"`
}

type machine struct {
	Key         string      `json:"key"`
	Name        string      `json:"name"`
	Verdict     string      `json:"verdict"`
	Reason      string      `json:"reason"`
	Difference  worth       `json:"difference"`
	CloseCall   *float64    `json:"close_call"`
	Saved       worth       `json:"saved"`
	Owning      worth       `json:"owning"`
	CashNeeded  *float64    `json:"cash_needed"`
	Jobs        *float64    `json:"jobs_a_year"`
	Hours       *float64    `json:"hours_a_year"`
	CostPerHour *float64    `json:"cost_per_hour"`
	CostPerJob  *float64    `json:"cost_per_job"`
	Payback     payback     `json:"payback_years"`
	Returns     []*float64  `json:"rates_of_return"`
	Life        life        `json:"economic_life"`
	BreakEvens  []breakEven `json:"break_evens"`
	TurnedBy    turnedBy    `json:"turned_by"`
}

type payback struct {
	Simple     *float64 `json:"simple"`
	Discounted *float64 `json:"discounted"`
}

type life struct {
	Years        int      `json:"years"`
	AnnualCost   *float64 `json:"annual_cost"`
	StillFalling bool     `json:"still_falling"`
}

type breakEven struct {
	In        string     `json:"in"`
	Unit      string     `json:"unit"`
	Now       *float64   `json:"now"`
	Crossings []*float64 `json:"crossings"`
	From      *float64   `json:"from"`
	To        *float64   `json:"to"`
}

type turnedBy struct {
	BreakEvens []flip `json:"break_evens"`
	Inputs     []flip `json:"inputs"`
}

type flip struct {
	What string   `json:"what"`
	Unit string   `json:"unit"`
	Now  *float64 `json:"now"`
	At   *float64 `json:"at"`
	Says string   `json:"says"`
}

type assumed struct {
	Count int            `json:"count"`
	First []assumedInput `json:"first"`
}

type assumedInput struct {
	Path    string   `json:"path"`
	Label   string   `json:"label"`
	About   string   `json:"about"`
	Unit    string   `json:"unit"`
	Value   *float64 `json:"value"`
	Low     *float64 `json:"low"`
	High    *float64 `json:"high"`
	Machine string   `json:"machine"`
	AtLow   *float64 `json:"present_at_low"`
	AtHigh  *float64 `json:"present_at_high"`
	Flips   bool     `json:"flips"`
}

type note struct {
	Path string `json:"path"`
	Text string `json:"text"`
}

func documentOf(summary *reports.Summary, workbook string) document {
	out := document{
		Shape: Shape, Title: summary.Title, Currency: summary.Currency, Units: summary.Units,
		StartYear: summary.StartYear, HorizonYears: number(summary.Horizon),
		Renting:   worthOf(summary.RentedAnnual, summary.RentedPresent),
		Machines:  each(summary.Machines, machineOf),
		Assumed:   assumed{summary.AssumedCount, each(summary.Assumed, assumedOf)},
		Notes:     each(summary.Notes, func(n *reports.Note) note { return note{n.Path, n.Text} }),
		NotPriced: append([]string{}, summary.NotPriced...), Cautions: append([]string{}, summary.Cautions...),
		Futures: futuresOf(summary.Futures),
		Roadmap: roadmapOf(&summary.Roadmap),
	}
	out.Joint = jointOf(&summary.Joint)
	if workbook != "" {
		out.Workbook = &workbook
	}
	return out
}

func worthOf(annual, present float64) worth { return worth{number(annual), number(present)} }

func machineOf(m *reports.Machine) machine {
	return machine{
		Key: m.Key, Name: m.Name, Verdict: verdict(m.Verdict), Reason: m.Reason,
		Difference: worthOf(m.AnnualDifference, m.PresentDifference), CloseCall: number(m.CloseCall),
		Saved: worthOf(m.SavedAnnual, m.SavedPresent), Owning: worthOf(m.OwningAnnual, m.OwningPresent),
		CashNeeded: number(m.CashNeeded), Jobs: number(m.Jobs), Hours: number(m.Hours),
		CostPerHour: figure(m.PerHour), CostPerJob: figure(m.PerJob),
		Payback: payback{figure(m.Payback.Simple), figure(m.Payback.Discounted)}, Returns: numbers(m.Returns),
		Life:       life{m.Life.Years, number(m.Life.Annual), m.Life.StillFalling},
		BreakEvens: each(m.BreakEvens, breakEvenOf),
		TurnedBy:   turnedBy{each(m.Crossings, flipOf), each(m.Inputs, flipOf)},
	}
}

func breakEvenOf(b *reports.BreakEven) breakEven {
	return breakEven{b.In, b.Unit, number(b.Now), numbers(b.Crossings), number(b.From), number(b.To)}
}

func flipOf(f *reports.Flip) flip {
	return flip{f.What, f.Unit, number(f.Now), number(f.At), f.InWords}
}

func assumedOf(a *reports.Assumed) assumedInput {
	return assumedInput{
		Path: a.Path, Label: a.Label, About: a.About, Unit: a.Unit,
		Value: number(a.Value), Low: number(a.Low), High: number(a.High),
		Machine: a.Machine, AtLow: number(a.AtLow), AtHigh: number(a.AtHigh), Flips: a.Flips,
	}
}
