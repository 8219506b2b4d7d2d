// Command mutate changes one constant, sign or comparison of a package at a time
// and tells which changes the tests do not notice. The files stay as they are: the
// go tool is given an overlay (see switch.go).
//
//	go run ./.ci/mutate -n 40 ./capital/... ./rental/...
//
// The draw and the seed of the random tests are fixed, so the same call tells the
// same on every machine. With -deep a change that the package's own tests let pass
// is tried on the packages that import it, nearest first; with -scripts on the whole
// command, as the scripts of some names run it. A change that does not
// compile is not counted; tests that take ten times as long as without it, and over
// ten seconds, have noticed. A change that no test can notice is explained in a file
// explained*.txt beside this one (see explained.go) and counted apart; such a line
// that explains nothing in the source any more is an error.
package main

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

type options struct {
	n           int
	seed        uint64
	deep        bool
	only, tests string
	scripts     string
}

func main() {
	var o options
	flag.IntVar(&o.n, "n", 30, "changes tried in each package, drawn at random (0: all)")
	flag.Uint64Var(&o.seed, "seed", 1, "what is drawn")
	flag.BoolVar(&o.deep, "deep", false, "try what was let pass on the packages that import it")
	flag.StringVar(&o.only, "only", "", "try only changes that are printed with one of these beginnings: visit.go:99,lines.go:12:5")
	flag.StringVar(&o.scripts, "scripts", "", "try what was let pass on the command's scripts of these names: 'decide_demo|spend_demo'")
	flag.StringVar(&o.tests, "run", "", "run only these tests of the package, as go test -run")
	flag.Parse()
	if err := o.run(flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

// listed is a package as the go tool sees it.
type listed struct {
	ImportPath, Dir           string
	Module                    struct{ Path, Dir string }
	GoFiles                   []string
	TestGoFiles, XTestGoFiles []string
	TestImports, XTestImports []string
	Imports, Deps             []string
}

// name is the package's folder below the module.
func (p listed) name() string { return strings.TrimPrefix(p.ImportPath, p.Module.Path+"/") }

func (p listed) tested() bool { return len(p.TestGoFiles)+len(p.XTestGoFiles) > 0 }

func (o options) run(patterns []string) error {
	packages, err := list(patterns)
	if err != nil {
		return err
	}
	everything, err := list([]string{"./..."})
	if err != nil {
		return err
	}
	known, err := readReasons(filepath.Join(everything[0].Module.Dir, ".ci", "mutate"))
	if err != nil {
		return err
	}
	folder, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	var all tally
	for _, p := range packages {
		result, err := o.try(p, everything, known, folder)
		if err != nil {
			return err
		}
		fmt.Printf("%-36s %s\n", p.name(), result)
		all = all.plus(result)
	}
	fmt.Printf("%-36s %s\n", "all", all)
	return known.idle(packages)
}

func list(patterns []string) ([]listed, error) {
	fields := "-json=ImportPath,Dir,Module,GoFiles,TestGoFiles,XTestGoFiles,TestImports,XTestImports,Imports,Deps"
	out, err := exec.Command("go", append([]string{"list", fields}, patterns...)...).Output()
	if err != nil {
		return nil, fmt.Errorf("go list %s: %w", strings.Join(patterns, " "), err)
	}
	var found []listed
	for decoder := json.NewDecoder(bytes.NewReader(out)); decoder.More(); {
		var p listed
		if err := decoder.Decode(&p); err != nil {
			return nil, err
		}
		found = append(found, p)
	}
	return found, nil
}

// tally counts what became of the changes of a package.
type tally struct{ tried, noticed, explained int }

func (t tally) plus(other tally) tally {
	return tally{t.tried + other.tried, t.noticed + other.noticed, t.explained + other.explained}
}

// String gives the share noticed of all changes, and of those that are not explained.
func (t tally) String() string {
	if t.tried == 0 {
		return "nothing to change"
	}
	share := func(of int) float64 { return 100 * float64(t.noticed) / float64(max(of, 1)) }
	return fmt.Sprintf("%4d tried, %4d noticed (%5.1f %%), %3d explained, %5.1f %% of the rest",
		t.tried, t.noticed, share(t.tried), t.explained, share(t.tried-t.explained))
}

func (o options) try(p listed, everything []listed, known reasons, folder string) (tally, error) {
	changes, err := changesOf(p)
	if err != nil {
		return tally{}, err
	}
	known.mark(p, changes)
	built, err := buildAll(p, changes, folder)
	if err != nil {
		return tally{}, err
	}
	asItIs := func(q listed, only string) (bool, error) { return built.passes(0, q, only) }
	if noticed, err := o.notices(asItIs, p, everything); noticed || err != nil {
		return tally{}, cmp.Or(err, fmt.Errorf("%s: its tests fail as it is", p.name()))
	}
	random := rand.New(rand.NewPCG(o.seed, 0))
	random.Shuffle(len(changes), func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
	var result tally
	for _, change := range changes {
		if o.n > 0 && result.tried == o.n {
			break
		}
		passes, ok := o.attempt(p, change, built, folder)
		if !ok {
			continue
		}
		noticed, err := o.notices(passes, p, everything)
		if err != nil {
			return tally{}, err
		}
		result = result.plus(judge(p, change, known, noticed))
	}
	return result, nil
}

// attempt is a change as something to run tests on: they pass or not. False where
// it is not asked for or does not compile.
func (o options) attempt(p listed, c change, built *switched, folder string) (func(listed, string) (bool, error), bool) {
	if !slices.ContainsFunc(strings.Split(o.only, ","), func(one string) bool { return strings.HasPrefix(c.String(), one) }) {
		return nil, false
	}
	if number := built.number(c); number > 0 {
		return func(q listed, only string) (bool, error) { return built.passes(number, q, only) }, true
	}
	overlay, ok := c.overlay(folder)
	if !ok || !builds(p, overlay) {
		return nil, false
	}
	return func(q listed, only string) (bool, error) { return passes(overlay, q, only, built.limit(q)), nil }, true
}

// judge counts a change, and prints it when nobody noticed and nobody explains it,
// or when it is explained and yet noticed.
func judge(p listed, c change, known reasons, noticed bool) tally {
	_, explained := known[c.key(p)]
	result := tally{tried: 1}
	switch {
	case noticed:
		result.noticed = 1
		if explained {
			fmt.Println("    explained, yet noticed:", c)
		}
	case explained:
		result.explained = 1
	default:
		fmt.Println("    let pass:", c)
	}
	return result
}

// notices tells whether the package's own tests notice, or others that are asked for.
func (o options) notices(passes func(listed, string) (bool, error), p listed, everything []listed) (bool, error) {
	if p.tested() {
		if ok, err := passes(p, o.tests); !ok || err != nil {
			return !ok, err
		}
	}
	if o.scripts != "" {
		command := everything[slices.IndexFunc(everything, func(p listed) bool { return p.name() == "cmd/shopstint" })]
		if ok, err := passes(command, "ScriptsSay/("+o.scripts+")"); !ok || err != nil {
			return !ok, err
		}
	}
	if !o.deep {
		return false, nil
	}
	for _, other := range importers(p, everything) {
		if ok, err := passes(other, ""); !ok || err != nil {
			return !ok, err
		}
	}
	return false, nil
}

// importers are the tested packages that import one, near ones before far ones, but
// for the command, whose tests take long.
func importers(p listed, everything []listed) []listed {
	var near, far []listed
	for _, other := range everything {
		switch {
		case !other.tested() || strings.HasPrefix(other.name(), "cmd/"):
		case slices.Contains(other.Imports, p.ImportPath):
			near = append(near, other)
		case slices.Contains(other.Deps, p.ImportPath):
			far = append(far, other)
		}
	}
	return append(near, far...)
}

func builds(p listed, overlay string) bool {
	return exec.Command("go", "build", "-overlay", overlay, p.ImportPath).Run() == nil
}

// passes tells whether a package's tests notice nothing within a time.
func passes(overlay string, p listed, only string, within time.Duration) bool {
	limit, release := context.WithTimeout(context.Background(), within+time.Minute) // building them included
	defer release()
	arguments := []string{"test", "-vet=off", "-failfast", "-ldflags=-s -w", "-timeout", within.String(), "-run", only, "-overlay", overlay, p.ImportPath}
	command := exec.CommandContext(limit, "go", append(arguments, p.flags()...)...)
	command.Env = append(os.Environ(), "SHOPSTINT_NO_OFFICE=1")
	command.WaitDelay = time.Second
	return command.Run() == nil
}

// flags make a package's random tests the same every time, and short when they fail.
func (p listed) flags() []string {
	if imports := slices.Concat(p.TestImports, p.XTestImports); slices.Contains(imports, "pgregory.net/rapid") {
		return []string{"-rapid.seed=1", "-rapid.nofailfile", "-rapid.shrinktime=0s"}
	}
	return nil
}
