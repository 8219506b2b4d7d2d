// Command shopstint answers, machine by machine, whether a small studio should
// rent a bigger shop's machines by the hour or own them, and writes a workbook
// with live formulas that shows why.
package main

import (
	"cmp"
	"io"
	"os"
	"runtime/debug"
	"time"

	"github.com/spf13/afero"
	"golang.org/x/term"

	"shopstint/reports/text"
)

// world is everything outside that a run may look at or write to.
type world struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	environ        []string               // NAME=value
	configFolder   func() (string, error) // where a user's settings live
	columns        int                    // of the terminal behind stdout; 0 when there is none
	now            func() time.Time       // by the clock of this machine
	disk           afero.Fs               // what files are written to
	watched        bool                   // whether stderr is a terminal
}

// collectAt lets a run, which is short, spend memory in place of time on
// collecting garbage; GOGC still has the last word.
const collectAt = 400

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(collectAt)
	}
	os.Exit(run(os.Args[1:], world{
		stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr,
		environ: os.Environ(), configFolder: os.UserConfigDir, columns: terminalColumns(os.Stdout),
		now: time.Now, disk: afero.NewOsFs(), watched: term.IsTerminal(int(os.Stderr.Fd())),
	}))
}

// Exit statuses.
const (
	exitDone   = 0
	exitFailed = 1 // the work failed
	exitBad    = 2 // bad input or usage
)

// run runs one command line and returns the exit status.
func run(args []string, outside world) int {
	s := newSession(args, outside)
	root := newRoot(s)
	root.SetArgs(args)
	root.SetIn(outside.stdin)
	root.SetOut(outside.stdout)
	root.SetErr(outside.stderr)
	err := root.Execute()
	return s.report(cmp.Or(err, s.unsaid))
}

// terminalColumns is the width of a terminal, 0 for a pipe or a file.
func terminalColumns(file *os.File) int {
	if !term.IsTerminal(int(file.Fd())) {
		return 0
	}
	columns, _, err := term.GetSize(int(file.Fd()))
	if err != nil || columns <= 0 {
		return text.Width
	}
	return columns
}
