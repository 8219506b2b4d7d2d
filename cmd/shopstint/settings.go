package main

import (
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"shopstint/capital/decision/futures"
	"shopstint/model/problem"
	"shopstint/reports"
)

// settings are the tool's own, from defaults, file, environment and flags.
type settings struct {
	outputFolder string
	units        string // "" as the study says
	colour       string // auto, always or never
	numbers      reports.Numbers
	discountRate *float64 // for studies that give none; nil without
	closeCall    *float64
	json         bool
	seed         uint64
	futures      int  // drawn at most; 0 for none
	futuresSaid  bool // the number was given, and is not the default
}

// values are the settings as written, all layers merged.
type values struct {
	OutputFolder string `mapstructure:"output_folder"`
	Units        string `mapstructure:"units"`
	Colour       string `mapstructure:"colour"`
	NumberFormat string `mapstructure:"number_format"`
	DiscountRate string `mapstructure:"discount_rate"`
	CloseCall    string `mapstructure:"close_call"`
	JSON         string `mapstructure:"json"`
	Seed         string `mapstructure:"seed"`
	Futures      string `mapstructure:"futures"`
}

// setting is one setting: its key in the file, its default, and its flag. The
// variable is SHOPSTINT_ and the key in capitals.
type setting struct{ key, fallback, about string }

func (s setting) flag() string     { return strings.ReplaceAll(s.key, "_", "-") }
func (s setting) variable() string { return variablePrefix + strings.ToUpper(s.key) }

// catalogue lists every setting.
func catalogue() []setting {
	return []setting{
		{"output_folder", "", "`FOLDER` for the workbook (default: beside the study)"},
		{"units", "study", "show in `UNITS`: metric, inch, or study (as the study says)"},
		{"colour", "auto", "`WHEN` to use colour: auto, always or never; auto minds NO_COLOR"},
		{"number_format", "grouped", "`FORMAT` of numbers on the terminal: grouped (1,234) or plain (1234)"},
		{"discount_rate", "", "discount `RATE` where a study gives none, such as 8 %"},
		{"close_call", "", "`SHARE` under which it is too close to call, where a study gives none, such as 5 %"},
		{"json", "no", "write the answer as JSON"},
		{"seed", strconv.Itoa(futures.Seed), "`NUMBER` to draw with: the same one draws the same"},
		{"futures", "0", "draw futures until their error is small, at most `NUMBER`; 0 for none"},
	}
}

// addSettings gives a command the flags of the settings that concern it; all
// of them when none is named.
func addSettings(cmd *cobra.Command, keys ...string) {
	cmd.Flags().String("settings", "", "read settings from this YAML `FILE`")
	for _, one := range catalogue() {
		if len(keys) > 0 && !slices.Contains(keys, one.key) {
			continue
		}
		cmd.Flags().String(one.flag(), "", one.about)
		if one.key == "json" {
			cmd.Flags().Lookup(one.flag()).NoOptDefVal = "yes"
		}
	}
}

// settings merges the layers: defaults, file, environment, flags.
func (s *session) settings(cmd *cobra.Command) (settings, error) {
	layers := newLayers()
	var problems problem.List
	for _, add := range []func(*session, *cobra.Command) problem.List{layers.file, layers.environment, layers.flags} {
		problems = append(problems, add(s, cmd)...)
	}
	if len(problems) > 0 {
		return settings{}, problems
	}
	read, err := layers.read()
	s.json = read.json || s.json
	return read, err
}

// read turns the merged layers into settings, or tells all that is wrong.
func (l *layers) read() (settings, error) {
	var written values
	if err := l.merged.UnmarshalExact(&written); err != nil {
		return settings{}, usage("the settings cannot be read: "+oneLine(err), "write one setting a line, such as units: metric")
	}
	return written.read(l)
}
