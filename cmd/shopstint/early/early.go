// Package early answers shopstint --help and --version before the libraries
// that only the other commands need have set themselves up, which takes longer
// than the answer.
//
// It works in its init: packages are initialised in the order of their import
// paths once what they import is (language specification, Program
// initialization), and this one imports next to nothing.
package early

import (
	"cmp"
	_ "embed" // for the help page
	"errors"
	"os"
)

// Version is the program's own number.
const Version = "0.1.0"

// Help is the help page of the program. A test holds it against the commands.
//
//go:embed help.txt
var Help string

func init() {
	if len(os.Args) != 2 {
		return
	}
	var answer string
	switch os.Args[1] {
	case "--help", "-h", "help":
		answer = Help
	case "--version":
		answer = "shopstint " + Version + "\n"
	default:
		return
	}
	if _, err := os.Stdout.WriteString(answer); err != nil {
		os.Stderr.WriteString("shopstint: could not write to standard output: " + cmp.Or(errors.Unwrap(err), err).Error() + "\n")
		os.Exit(1)
	}
	os.Exit(0)
}
