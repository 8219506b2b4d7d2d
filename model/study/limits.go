package study

import (
	"math"
	"reflect"
	"strconv"
	"strings"

	"shopstint/model/quantity"
)

// limits is the interval in which an input makes sense. The texts are as they
// are shown; an empty one means no limit.
type limits struct {
	least, above, most             float64
	leastText, aboveText, mostText string
}

// Limits says between which values an input makes sense, by its tags and in the
// units of the system: "from 0 mm to 5000 mm"; "" for an input without limits.
func Limits(dim quantity.Dimension, tag reflect.StructTag, system quantity.System) string {
	r := reader{system: system}
	return strings.TrimSpace(r.limitsOf(dim, field{tag: tag}).interval())
}

// Beyond says what would be right for a value, in SI units, that is outside the limits
// of an input by its tags; "" for one within.
func Beyond(dim quantity.Dimension, tag reflect.StructTag, si float64, system quantity.System) string {
	r := reader{system: system}
	if l := r.limitsOf(dim, field{tag: tag}); !l.hold(si) {
		return l.say()
	}
	return ""
}

// limitsOf reads the interval from a field's tags.
func (r *reader) limitsOf(dim quantity.Dimension, f field) limits {
	var l limits
	l.least, l.leastText = r.limit(dim, f.tag.Get("least"), math.Ceil)
	l.above, l.aboveText = r.limit(dim, f.tag.Get("above"), math.Ceil)
	l.most, l.mostText = r.limit(dim, f.tag.Get("most"), math.Floor)
	return l
}

// limit reads one limit and shows it in the study's units. What has to be
// converted is rounded to four digits, inwards, so that what is shown holds.
func (r *reader) limit(dim quantity.Dimension, tag string, inwards func(float64) float64) (float64, string) {
	if tag == "" {
		return 0, ""
	}
	si := tagValue(dim, tag)
	metric, shown := quantity.Display(dim, quantity.Metric), quantity.Display(dim, r.system)
	if metric.Symbol == shown.Symbol {
		return si, tag
	}
	number := rounded(quantity.Shown(dim, si, r.system), inwards)
	return si, strconv.FormatFloat(number, 'f', -1, 64) + " " + shown.Symbol
}

// rounded keeps four digits of a number.
func rounded(number float64, inwards func(float64) float64) float64 {
	if number == 0 {
		return 0
	}
	step := math.Floor(math.Log10(math.Abs(number))) - 3
	digits := inwards(number / math.Pow(10, step))
	// By way of text, so that 787.4 is not shown as 787.4000000000001.
	clean, err := strconv.ParseFloat(strconv.FormatFloat(digits, 'f', 0, 64)+"e"+strconv.Itoa(int(step)), 64)
	if err != nil {
		return number
	}
	return clean
}

// tagValue reads the text of a limit; a rate of zero is written as a bare 0.
func tagValue(dim quantity.Dimension, tag string) float64 {
	if tag == "0" {
		return 0
	}
	si, _, err := quantity.Parse(dim, tag)
	if err != nil {
		return math.NaN() // never in our tags: a test reads them all
	}
	return si
}

// hold tells whether a value lies within.
func (l limits) hold(x float64) bool {
	return (l.leastText == "" || x >= l.least) && (l.aboveText == "" || x > l.above) && (l.mostText == "" || x <= l.most)
}

// say tells what would be right.
func (l limits) say() string { return "give a value" + l.interval() }

// interval is the allowed interval, to be put behind a noun.
func (l limits) interval() string {
	switch {
	case l.aboveText != "" && l.mostText != "":
		return " over " + l.aboveText + " and at most " + l.mostText
	case l.leastText != "" && l.mostText != "":
		return " from " + l.leastText + " to " + l.mostText
	}
	return ""
}
