package jsonout

import "shopstint/reports"

type jointly struct {
	Best     set          `json:"best"`
	NextBest []set        `json:"next_best"`
	Single   set          `json:"best_single"`
	Gap      *float64     `json:"gap"`
	Ranked   bool         `json:"next_best_proven"`
	Limits   []limit      `json:"limits"`
	Worth    []worthOfOne `json:"worth"`
	Supply   supply       `json:"supply"`
	Says     []string     `json:"says"`
}

type set struct {
	Machines []string `json:"machines"`
	Cost     worth    `json:"cost"`
	Saving   worth    `json:"saving"`
	Over     worth    `json:"over_best"`
	Close    bool     `json:"too_close_to_best"`
	Cash     *float64 `json:"cash_needed"`
	Floor    *float64 `json:"floor_m2"`
	Amps     *float64 `json:"amps"`
}

type limit struct {
	On       string   `json:"on"`
	Path     string   `json:"path"`
	Unit     string   `json:"unit"`
	Most     *float64 `json:"most"`
	Used     *float64 `json:"used"`
	Binds    *bool    `json:"binds"`
	More     *float64 `json:"more"`
	Gain     worth    `json:"gain"`
	Machines []string `json:"machines"`
}

type worthOfOne struct {
	Key    string     `json:"key"`
	Alone  *float64   `json:"alone"`
	InBest *float64   `json:"in_best"`
	After  []*float64 `json:"after"`
}

type supply struct {
	Draw   *float64 `json:"draw_amps"`
	Free   *float64 `json:"free_amps"`
	Limits bool     `json:"limits"`
}

func jointOf(j *reports.Joint) jointly {
	says := []string{}
	for _, said := range append([]string{j.Verdict, j.Saving, j.Next, j.Proof}, j.Limits...) {
		if said != "" {
			says = append(says, said)
		}
	}
	return jointly{
		Best: setOf(&j.Best), NextBest: each(j.Others, setOf), Single: setOf(&j.Single),
		Gap: figure(j.Gap), Ranked: j.Ranked, Limits: each(j.Held, limitOf), Worth: each(j.Worths, worthOfMachine),
		Supply: supply{number(j.Draw), number(j.Free), j.Limited}, Says: says,
	}
}

func setOf(s *reports.Set) set {
	return set{
		Machines: append([]string{}, s.Machines...), Cost: worthOf(s.CostAnnual, s.CostPresent),
		Saving: worthOf(s.SavingAnnual, s.SavingPresent), Over: worthOf(s.OverAnnual, s.OverPresent), Close: s.Close,
		Cash: number(s.Cash), Floor: number(s.Area), Amps: number(s.Amps),
	}
}

func limitOf(h *reports.Held) limit {
	said := limit{
		On: h.On, Path: h.Path, Unit: h.Unit, Most: number(h.Most), Used: number(h.Used), More: figure(h.More),
		Gain: worthOf(h.GainAnnual, h.GainPresent), Machines: append([]string{}, h.Machines...),
	}
	if h.Known {
		said.Binds = &h.Binds
	}
	return said
}

func worthOfMachine(w *reports.Worth) worthOfOne {
	return worthOfOne{Key: w.Key, Alone: number(w.Alone), InBest: number(w.InBest), After: numbers(w.After)}
}
