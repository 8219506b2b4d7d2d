package reports

import (
	"shopstint/capital/decision"
	"shopstint/capital/decision/single"
)

// Edit is an input that was changed in a decision workbook since it was solved.
// Values are written with their unit, as in a study.
type Edit struct {
	Path     string
	Label    string // in words, with the names of the study
	Was, Now string
	InWords  string
}

// Move is how one machine's answer changed. Amounts are equal amounts a year;
// positive favours buying.
type Move struct {
	Key, Name           string
	WasVerdict, Verdict single.Verdict
	WasAnnual, Annual   float64
	InWords             string
}

// Again is what a decision workbook that was edited and solved again says beside
// its new answer. Machines are in the order of the study.
type Again struct {
	Edits    []Edit
	Moves    []Move
	Together SetMove
	InWords  string // leads up to the edits
}

// SetMove is how the set of machines to own together changed. Savings are
// against renting everything, as equal amounts a year.
type SetMove struct {
	Was, Now             []string // keys
	WasSaving, NowSaving float64
	InWords              string
}

// Compare says which inputs were edited and how each machine's answer moved.
// Before and after are the answers to the study as it was solved and as it is now.
func Compare(before, after *decision.Answer, edits []Edit, numbers Numbers) Again {
	w, was := wordingOf(after, numbers), wordingOf(before, numbers)
	again := Again{InWords: "no input was edited since the workbook was solved; the answer is as it was"}
	if len(edits) > 0 {
		again.InWords = w.counted(float64(len(edits)), "input") + " edited since the workbook was solved"
	}
	for _, edit := range edits {
		edit.Label = w.inputs.label(edit.Path)
		edit.InWords = edit.Label + ": " + edit.Was + ", now " + edit.Now
		again.Edits = append(again.Edits, edit)
	}
	for i := range after.Machines {
		result := &after.Machines[i]
		machine := &after.Study.Machines[result.Machine]
		move := Move{Key: machine.Key, Name: machine.Name, Verdict: result.Verdict, Annual: result.Annual}
		move.InWords = machine.Name + ": " + w.standing(result)
		if old := resultOf(before, machine.Key); old != nil {
			move.WasVerdict, move.WasAnnual = old.Verdict, old.Annual
			move.InWords = machine.Name + ": was " + was.standing(old) + "; now " + w.standing(result)
			if was.standing(old) == w.standing(result) {
				move.InWords = machine.Name + ": as before, " + w.standing(result)
			}
		}
		again.Moves = append(again.Moves, move)
	}
	again.Together = setMove(was, w, before, after)
	return again
}

func setMove(was, now wording, before, after *decision.Answer) SetMove {
	old, fresh := was.joint(&before.Joint), now.joint(&after.Joint)
	standing := func(w wording, said *Joint) string {
		if len(said.Best.Machines) == 0 {
			return said.Verdict
		}
		return said.Verdict + ", " + w.amount(said.Best.SavingAnnual) + " a year better than renting everything"
	}
	move := SetMove{Was: old.Best.Machines, Now: fresh.Best.Machines, WasSaving: old.Best.SavingAnnual, NowSaving: fresh.Best.SavingAnnual}
	first, second := standing(was, &old), standing(now, &fresh)
	move.InWords = "together: was " + first + "; now " + second
	if first == second {
		move.InWords = "together: as before, " + second
	}
	return move
}

// standing is a machine's answer in a few words.
func (w wording) standing(result *single.Result) string {
	return result.Verdict.String() + ", " + w.difference(result)
}

func resultOf(answer *decision.Answer, key string) *single.Result {
	for i := range answer.Machines {
		if answer.Study.Machines[answer.Machines[i].Machine].Key == key {
			return &answer.Machines[i]
		}
	}
	return nil
}
