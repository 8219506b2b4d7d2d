package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"shopstint/reports/text"
)

// newHelp is "shopstint help COMMAND".
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use: "help [COMMAND]", Short: "explain a command",
		RunE: func(cmd *cobra.Command, args []string) error {
			topic, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return unknownCommand(cmd.Root(), args[0])
			}
			return topic.Help()
		},
	}
}

// help lays a help page out: what it does, how it is called, the commands or
// flags, the exit statuses.
func (s *session) help(cmd *cobra.Command, _ []string) {
	var b strings.Builder
	b.WriteString(cmd.Long + "\n\nUsage: ")
	if cmd.HasParent() {
		b.WriteString(cmd.Parent().Name() + " " + cmd.Use + "\n")
	} else {
		b.WriteString(cmd.Name() + " COMMAND\n\nCommands:\n")
		for _, command := range cmd.Commands() {
			entry(&b, command.Name(), command.Short)
		}
	}
	b.WriteString(flagEntries(cmd.Flags()))
	b.WriteString("\n" + exitHelp + "\n")
	s.unsaid = s.say(b.String())
}

// flagEntries lists the flags. --help is left out: whoever reads this has it.
func flagEntries(flags *pflag.FlagSet) string {
	var b strings.Builder
	flags.VisitAll(func(flag *pflag.Flag) {
		if flag.Name != "help" {
			form, about := flagForm(flag)
			entry(&b, form, about)
		}
	})
	if b.Len() == 0 {
		return ""
	}
	return "\nFlags:\n" + b.String()
}

// flagForm writes how a flag is given, as "-o, --output FILE", and what it
// does. What it takes stands in back quotes in its usage.
func flagForm(flag *pflag.Flag) (form, about string) {
	takes, about := pflag.UnquoteUsage(flag)
	form = "--" + flag.Name
	if flag.Shorthand != "" {
		form = "-" + flag.Shorthand + ", " + form
	}
	if flag.NoOptDefVal == "" {
		form += " " + takes
	}
	return form, about
}

// entryColumn is where explanations begin.
const entryColumn = 30

func entry(b *strings.Builder, name, about string) {
	for i, line := range text.Wrap(about, text.Width-entryColumn) {
		if i > 0 {
			name = ""
		}
		fmt.Fprintf(b, "  %-*s%s\n", entryColumn-2, name, line)
	}
}
