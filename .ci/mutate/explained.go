package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// reasons are the changes that no test can notice, each with the sentence why: lines
//
//	PACKAGE<TAB>line of source, trimmed<TAB>change, e.g. "<= for <"<TAB>reason
//
// of the files explained*.txt. A line of source stands for itself wherever the
// package has it. Empty lines and lines that begin with # say nothing.
type reasons map[reasonKey]*reason

type reasonKey struct{ pkg, line, change string }

type reason struct {
	place string // in its file
	used  bool   // the source has such a change
}

func readReasons(folder string) (reasons, error) {
	files, err := filepath.Glob(filepath.Join(folder, "explained*.txt"))
	if err != nil {
		return nil, err
	}
	found := reasons{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		for i, line := range strings.Split(string(text), "\n") {
			if strings.TrimSpace(line) == "" || strings.HasPrefix(line, "#") {
				continue
			}
			place, parts := fmt.Sprintf("%s:%d", filepath.Base(file), i+1), strings.Split(line, "\t")
			if len(parts) != 4 || strings.TrimSpace(parts[3]) == "" {
				return nil, fmt.Errorf("%s: want package, line of source, change and reason, with tabs between", place)
			}
			key := reasonKey{parts[0], parts[1], parts[2]}
			if other, twice := found[key]; twice {
				return nil, fmt.Errorf("%s: explained before, in %s", place, other.place)
			}
			found[key] = &reason{place: place}
		}
	}
	return found, nil
}

// mark remembers which reasons stand for a change that the source can have.
func (r reasons) mark(p listed, changes []change) {
	for _, c := range changes {
		if one, ok := r[c.key(p)]; ok {
			one.used = true
		}
	}
}

// idle is an error that names the reasons given for these packages that stand for
// no change.
func (r reasons) idle(packages []listed) error {
	var places []string
	for key, one := range r {
		looked := slices.ContainsFunc(packages, func(p listed) bool { return p.name() == key.pkg })
		if looked && !one.used {
			places = append(places, one.place)
		}
	}
	if len(places) == 0 {
		return nil
	}
	slices.Sort(places)
	return fmt.Errorf("no such line or change in the source: %s", strings.Join(places, ", "))
}
