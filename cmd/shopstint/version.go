package main

import "github.com/spf13/cobra"

// version is the program's own number.
const version = "0.1.0"

func newVersion(s *session) *cobra.Command {
	return &cobra.Command{
		Use: "version", Short: "print the version", Long: "Prints the version.",
		Args: func(_ *cobra.Command, args []string) error { return noMore(args) },
		RunE: func(*cobra.Command, []string) error { return s.version() },
	}
}

func (s *session) version() error { return s.say("shopstint " + version + "\n") }

// noMore refuses arguments where none is taken.
func noMore(args []string) error {
	if len(args) > 0 {
		return usage(`"`+args[0]+`" is one word too many`, "take it out")
	}
	return nil
}
