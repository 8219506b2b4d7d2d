package decision_test

import (
	"bufio"
	"encoding/json"
	"io"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// general is testdata/baselines.py, which general-purpose programs answer through.
type general struct {
	python  string
	command *exec.Cmd
	in      io.WriteCloser
	lines   chan []byte
}

// generalOf finds an interpreter that has the programs; the test is left out without.
func generalOf(t *testing.T) *general {
	t.Helper()
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import numpy, scipy.optimize; scipy.optimize.milp").Run() == nil {
			return &general{python: python}
		}
	}
	t.Skip("no python3 with numpy and scipy 1.9 or newer: the baselines are left out")
	return nil
}

// start begins a process anew after one was ended for being late.
func (g *general) start(t *testing.T) {
	t.Helper()
	g.command = exec.Command(g.python, "-B", "testdata/baselines.py")
	var err error
	g.in, err = g.command.StdinPipe()
	require.NoError(t, err)
	out, err := g.command.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, g.command.Start())
	g.lines = make(chan []byte)
	go func(lines chan<- []byte) {
		defer close(lines)
		reader := bufio.NewReader(out)
		for {
			line, err := reader.ReadBytes('\n')
			if err != nil {
				return
			}
			lines <- line
		}
	}(g.lines)
}

// ask puts a question and reads the answer; false when it takes longer than the
// outer time-out, which a solver that forgets its own limit needs.
func (g *general) ask(t *testing.T, question string, outer time.Duration, answer any) bool {
	t.Helper()
	if g.command == nil {
		g.start(t)
	}
	_, err := io.WriteString(g.in, question+"\n")
	require.NoError(t, err, question)
	select {
	case line, more := <-g.lines:
		require.True(t, more, "%s: the script ended", question)
		require.NoError(t, json.Unmarshal(line, answer), question)
		return true
	case <-time.After(outer):
		g.stop()
		return false
	}
}

// stop ends the process.
func (g *general) stop() {
	if g.command == nil {
		return
	}
	_ = g.command.Process.Kill() // it may have ended by itself
	for range g.lines {
	}
	_ = g.command.Wait() // it was killed
	g.command = nil
}
