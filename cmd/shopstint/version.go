package main

import (
	"github.com/spf13/cobra"

	"shopstint/cmd/shopstint/early"
)

func newVersion(s *session) *cobra.Command {
	return &cobra.Command{
		Use: "version", Short: "print the version", Long: "Prints the version.",
		Args: func(_ *cobra.Command, args []string) error { return noMore(args) },
		RunE: func(*cobra.Command, []string) error { return s.version() },
	}
}

func (s *session) version() error { return s.say("shopstint " + early.Version + "\n") }

// noMore refuses arguments where none is taken.
func noMore(args []string) error {
	if len(args) > 0 {
		return usage(`"`+args[0]+`" is one word too many`, "take it out")
	}
	return nil
}
