package logbook

import (
	"strings"

	"shopstint/model"
	"shopstint/model/problem"
)

// keys are the names that a study knows, for looking up those of a logbook.
type keys struct {
	currency string
	subjects map[Kind]names
	jobs     names
	// operations are those of each job type, and those of all under "".
	operations map[string]names
}

// names are the keys that may stand in a column.
type names struct {
	noun  string // what one of them is, with its article
	list  []string
	known map[string]bool
}

func newNames(noun string, lists ...[]string) names {
	n := names{noun: noun, known: map[string]bool{}}
	for _, list := range lists {
		for _, key := range list {
			if !n.known[key] {
				n.known[key] = true
				n.list = append(n.list, key)
			}
		}
	}
	return n
}

// wrong tells what is wrong with a key, "" when nothing is.
func (n names) wrong(key string) (what, right string) {
	if n.known == nil || n.known[key] {
		return "", ""
	}
	return quoted(key) + " is not " + n.noun, problem.Suggest(key, n.list)
}

// keysOf collects the names of a study; without one every name will do.
func keysOf(study *model.Study) *keys {
	if study == nil {
		return &keys{}
	}
	shops, doers := []string{}, []string{}
	for s := range study.Shops {
		shops = append(shops, study.Shops[s].Key)
		for m := range study.Shops[s].Machines {
			doers = append(doers, study.Shops[s].Machines[m].Key)
		}
	}
	for m := range study.Machines {
		doers = append(doers, study.Machines[m].Key)
	}
	for t := range study.Tools {
		doers = append(doers, study.Tools[t].Key)
	}
	worn := newNames("an edge or abrasive of the study", edgesOf(study), abrasivesOf(study))
	known := &keys{currency: study.Currency, operations: map[string]names{}, subjects: map[Kind]names{
		Visit: newNames("a shop of the study", shops), Work: newNames("a machine or tool of the study", doers),
		Use: worn, Sharpen: newNames("an edge of the study", edgesOf(study)), Replace: worn,
	}}
	known.addJobs(study)
	return known
}

func (k *keys) addJobs(study *model.Study) {
	var jobs []string
	for j := range study.JobTypes {
		kind := &study.JobTypes[j]
		jobs = append(jobs, kind.Key)
		var operations []string
		for o := range kind.Operations {
			operation := &kind.Operations[o]
			operations = append(operations, operation.Key)
			for g := range operation.Grits {
				operations = append(operations, operation.Key+"/"+operation.Grits[g].Key)
			}
		}
		k.operations[kind.Key] = newNames("an operation of "+kind.Key, operations)
	}
	k.jobs = newNames("a job type of the study", jobs)
}

func edgesOf(study *model.Study) []string {
	list := make([]string, len(study.Edges))
	for e := range study.Edges {
		list[e] = study.Edges[e].Key
	}
	return list
}

func abrasivesOf(study *model.Study) []string {
	list := make([]string, len(study.Abrasives))
	for a := range study.Abrasives {
		list[a] = study.Abrasives[a].Key
	}
	return list
}

// check adds what the study does not know of an entry.
func (k *keys) check(e *Entry, faults []fault) []fault {
	if e.Subject != "" {
		what, right := k.subjects[e.Kind].wrong(e.Subject)
		faults = addFault(faults, colSubject, what, right)
	}
	if e.Job == "" {
		return faults
	}
	if what, right := k.jobs.wrong(e.Job); what != "" {
		return addFault(faults, colJob, what, right)
	}
	if e.Operation != "" && (e.Kind != Work || e.Operation != Setup) {
		what, right := k.operations[e.Job].wrong(e.Operation)
		faults = addFault(faults, colOperation, what, right)
	}
	return faults
}

func addFault(faults []fault, at column, what, right string) []fault {
	if what == "" {
		return faults
	}
	return append(faults, fault{at, what, right})
}

// mostShown is how much of a strange text a message shows, in runes.
const mostShown = 40

// quoted shows a text as it was written, cut when it is long.
func quoted(text string) string {
	if runes := []rune(text); len(runes) > mostShown {
		text = string(runes[:mostShown]) + "…"
	}
	return `"` + strings.ToValidUTF8(text, "?") + `"`
}
