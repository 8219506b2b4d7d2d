package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/cmd/shopstint/early"
)

func TestTheEarlyHelpPageIsTheOneOfTheCommands(t *testing.T) {
	for _, words := range [][]string{{"--help"}, {"-h"}, {"help"}, {}} {
		var out, fault bytes.Buffer
		status := run(words, world{stdin: &bytes.Buffer{}, stdout: &out, stderr: &fault, configFolder: func() (string, error) { return "", nil }})
		assert.Zero(t, status)
		assert.Equal(t, early.Help, out.String())
	}
}
