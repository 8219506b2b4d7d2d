package main

import (
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const scripts = "../../testdata/script"

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"shopstint": main, "shopstint-stopped": stopped})
}

// TestCommandsDoWhatTheScriptsSay runs every script; SHOPSTINT_UPDATE=1 writes
// the outputs that differ back into them.
func TestCommandsDoWhatTheScriptsSay(t *testing.T) {
	found, err := filepath.Glob(filepath.Join(scripts, "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, found)
	testscript.Run(t, testscript.Params{
		Dir:                 scripts,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       os.Getenv(variableUpdate) == "1",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": status, "narrow": narrow, "json": isJSON, "edit": edit, "undo": undo,
			"everywhere": everywhere,
		},
	})
}

// status N command… runs a command and checks its exact exit status.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command args...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("could not run %s: %v", args[1], err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// narrow N FILE checks that no line has more than N characters.
func narrow(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: narrow N FILE")
	}
	most, err := strconv.Atoi(args[0])
	ts.Check(err)
	text := ts.ReadFile(args[1])
	if text == "" {
		ts.Fatalf("%s is empty", args[1])
	}
	for line := range strings.Lines(text) {
		if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > most {
			ts.Fatalf("a line has %d characters: %s", n, line)
		}
	}
}

// json FILE checks that a file is one JSON value.
func isJSON(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: json FILE")
	}
	if !json.Valid([]byte(ts.ReadFile(args[0]))) {
		ts.Fatalf("%s is not JSON", args[0])
	}
}

// places are worlds that no result hangs on: cores, memory, language and time zone,
// known to this machine or not.
var places = [][]string{
	{"GOMAXPROCS=2", "LC_ALL=C", "LANG=C", "TZ=UTC"},
	{"GOMAXPROCS=1", "LC_ALL=de_DE.UTF-8", "LANG=de_DE.UTF-8", "TZ=Pacific/Kiritimati"},
	{"GOMAXPROCS=8", "LC_ALL=tr_TR.UTF-8", "LANG=tr_TR.UTF-8", "TZ=America/Sao_Paulo", "GOGC=20"},
	{"GOMAXPROCS=3", "LC_ALL=ar", "LANG=", "TZ=No/Such_Zone"},
}

// everywhere FILE command… runs a command in every place and wants the same bytes on both
// outputs and in FILE, or in none where it is -.
func everywhere(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 2 {
		ts.Fatalf("usage: everywhere FILE|- command args...")
	}
	var first string
	same := true
	for i, place := range places {
		for _, setting := range place {
			name, value, _ := strings.Cut(setting, "=")
			ts.Setenv(name, value)
		}
		if args[0] != "-" {
			ts.Check(os.RemoveAll(ts.MkAbs(args[0])))
		}
		ts.Check(ts.Exec(args[1], args[2:]...))
		found := ts.ReadFile("stdout") + "\x00" + ts.ReadFile("stderr")
		if args[0] != "-" {
			found += "\x00" + ts.ReadFile(args[0])
		}
		if i == 0 {
			first = found
		}
		same = same && found == first
	}
	if same == neg {
		ts.Fatalf("the same bytes everywhere: %t", same)
	}
}

// undo STUDY puts back what the first write of suggestions kept of STUDY.yaml, whatever
// the day.
func undo(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: undo STUDY")
	}
	kept, err := filepath.Glob(ts.MkAbs(args[0] + ".before-????-??-??.yaml"))
	ts.Check(err)
	if len(kept) != 1 {
		ts.Fatalf("kept: %v", kept)
	}
	was, err := os.ReadFile(kept[0])
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]+".yaml"), was, 0o600))
}

func TestEachScriptSaysWhyFirst(t *testing.T) {
	found, err := filepath.Glob(filepath.Join(scripts, "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, found)
	for _, name := range found {
		script, err := os.ReadFile(name)
		require.NoError(t, err)
		commands, _, _ := strings.Cut(string(script), "\n-- ")
		for block := range strings.SplitSeq(strings.TrimSpace(commands), "\n\n") {
			assert.True(t, strings.HasPrefix(block, "# "), "%s: %s", name, block)
		}
	}
}
