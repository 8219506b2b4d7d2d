package main

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/reports"
)

// Inputs of a study that a setting stands in for.
const (
	pathDiscountRate = "studio.discount_rate"
	pathCloseCall    = "studio.close_call"
)

// read turns the written values into settings, or tells all that is wrong.
func (v values) read(layers *layers) (settings, error) {
	var problems problem.List
	refuse := func(key, value, right string) {
		problems = append(problems, problem.Problem{What: layers.blame(key) + ` is "` + value + `"`, Right: right})
	}
	word := func(key, value string, allowed ...string) string {
		if !slices.Contains(allowed, value) {
			refuse(key, value, problem.Suggest(value, allowed))
		}
		return value
	}
	share := func(key, value, path string) *float64 {
		parsed, right := shareWithin(value, path)
		if right != "" {
			refuse(key, value, right)
		}
		return parsed
	}
	count := func(key, value string, most uint64) uint64 {
		number, err := strconv.ParseUint(value, 10, 64)
		if err != nil || number > most {
			refuse(key, value, "give a whole number from 0 to "+strconv.FormatUint(most, 10))
		}
		return number
	}
	read := settings{
		seed: count("seed", v.Seed, mostSeed), futures: int(count("futures", v.Futures, mostFutures)),
		outputFolder: v.OutputFolder,
		units:        word("units", v.Units, "study", "metric", "inch"),
		colour:       word("colour", v.Colour, "auto", "always", "never"),
		discountRate: share("discount_rate", v.DiscountRate, pathDiscountRate),
		closeCall:    share("close_call", v.CloseCall, pathCloseCall),
		json:         saysYes(word("json", strings.ToLower(v.JSON), "yes", "no", "true", "false")),
	}
	_, read.futuresSaid = layers.from["futures"]
	if word("number_format", v.NumberFormat, "grouped", "plain") == "plain" {
		read.numbers = reports.Plain
	}
	return read, problems.Err()
}

// A seed is written back as a number of JSON, which keeps whole numbers up to
// this; so many futures keep within a gigabyte of memory.
const (
	mostSeed    = 1<<53 - 1
	mostFutures = 100_000
)

func saysYes(word string) bool {
	return slices.Contains([]string{"yes", "true"}, strings.ToLower(word))
}

// shareWithin reads a share that must lie in the limits of a study's input;
// right says what would be right when it does not. No text is no share.
func shareWithin(text, path string) (share *float64, right string) {
	if text == "" {
		return nil, ""
	}
	value, _, err := quantity.Parse(quantity.DimShare, text)
	var parse *quantity.ParseError
	if errors.As(err, &parse) {
		return nil, parse.Right
	}
	least, most := limitsOf(path)
	if !within(value, least, most) {
		return nil, "give a share from " + least + " to " + most
	}
	return &value, ""
}

// limitsOf reads the limits that the study's own input has.
func limitsOf(path string) (least, most string) {
	model.Walk(&model.Study{}, func(leaf model.Leaf) {
		if leaf.Path == path {
			least, most = leaf.Tag.Get("least"), leaf.Tag.Get("most")
		}
	})
	return least, most
}

func within(value float64, least, most string) bool {
	low, _, errLow := quantity.Parse(quantity.DimShare, least)
	high, _, errHigh := quantity.Parse(quantity.DimShare, most)
	return errLow == nil && errHigh == nil && value >= low && value <= high
}

// apply puts the settings into a study: units for showing, and rates where the
// study itself gives none.
func (s settings) apply(study *model.Study) {
	if s.units == "metric" || s.units == "inch" {
		study.Units = s.units
	}
	assume(study, pathDiscountRate, &study.Studio.DiscountRate, s.discountRate)
	assume(study, pathCloseCall, &study.Studio.CloseCall, s.closeCall)
}

// assume replaces an assumed input; it stays marked as assumed.
func assume(study *model.Study, path string, input *quantity.Share, value *float64) {
	origin := study.Origins[path]
	if value == nil || !origin.Assumed {
		return
	}
	*input = quantity.Share(*value)
	origin.Source = "settings"
	origin.HasRange = origin.HasRange && origin.Low <= *value && *value <= origin.High
	study.Origins[path] = origin
}

// coloured tells whether the answer is coloured: when told so, or else on a
// terminal that shows colours, unless NO_COLOR is set.
func (s *session) coloured(settings settings) bool {
	if settings.colour != "auto" {
		return settings.colour == "always"
	}
	return s.columns > 0 && s.env("NO_COLOR") == "" && s.env("TERM") != "dumb"
}
