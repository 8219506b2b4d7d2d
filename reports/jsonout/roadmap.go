package jsonout

import "shopstint/reports"

type roadmap struct {
	WhyNot       *string       `json:"why_not"`
	Budget       *float64      `json:"yearly_budget"`
	Cost         worth         `json:"cost"`
	Saved        worth         `json:"saved"`
	Years        []roadmapYear `json:"years"`
	RunnerUp     *runnerUp     `json:"runner_up"`
	Waiting      *float64      `json:"waiting_a_year"`
	Gap          *float64      `json:"gap"`
	Approximated bool          `json:"approximated"`
}

type roadmapYear struct {
	Year    int      `json:"year"`
	Buy     []string `json:"buy"`
	Replace []string `json:"replace"`
	Sell    []string `json:"sell"`
	Spent   *float64 `json:"spent"`
	Fetched *float64 `json:"fetched"`
}

type runnerUp struct {
	Buy    []string `json:"buy"`
	Year   *int     `json:"year"`
	Dearer *float64 `json:"dearer"`
}

func roadmapOf(r *reports.Roadmap) roadmap {
	out := roadmap{
		Cost: worthOf(r.Annual, r.Present), Saved: worthOf(r.SavedAnnual, r.SavedPresent),
		Years: each(r.Years, roadmapYearOf), Waiting: number(r.WaitingDearer), Gap: number(r.Gap), Approximated: r.Loose,
	}
	if r.Why != "" {
		out.WhyNot = &r.Why
	}
	if r.Budget > 0 {
		out.Budget = number(r.Budget)
	}
	if r.RunnerUpDearer.Known {
		out.RunnerUp = &runnerUp{Buy: words(r.RunnerUp), Dearer: figure(r.RunnerUpDearer)}
		if len(r.RunnerUp) > 0 {
			out.RunnerUp.Year = &r.RunnerUpYear
		}
	}
	return out
}

func roadmapYearOf(y *reports.RoadmapYear) roadmapYear {
	return roadmapYear{y.Year, words(y.Buy), words(y.Replace), words(y.Sell), number(y.Spent), number(y.Fetched)}
}

// words is never null: an empty list is [].
func words(list []string) []string { return append([]string{}, list...) }
