package reports

import (
	"math"
	"strconv"
	"strings"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/model/quantity"
)

// wording writes figures the way one study wants them.
type wording struct {
	answer  *decision.Answer
	study   *model.Study
	system  quantity.System
	numbers Numbers
	inputs  inputs
}

func (w wording) title() string {
	if w.study.Title != "" {
		return w.study.Title
	}
	return "rent or own"
}

// smallAmount is the size from which the minor unit of an amount says nothing
// to a decision.
const smallAmount = 100

// amount writes money for reading: whole units, or all places of a small one.
func (w wording) amount(x float64) string {
	if math.Abs(x) < smallAmount {
		return w.posted(x)
	}
	whole, _, _ := strings.Cut(w.posted(math.Round(x)), ".")
	return whole
}

// posted writes money with all its places.
func (w wording) posted(x float64) string {
	text := w.study.Money.FormatFloat(x + 0) // + 0 turns -0 into 0
	if w.numbers == Plain {
		return strings.ReplaceAll(text, ",", "")
	}
	return text
}

// smallRate is the size under which the places of the currency are too few to
// write a rate: 10 where there are two of them, 1000 where there are none.
func (w wording) smallRate() float64 { return math.Pow10(3 - w.study.Money.Places()) }

// measure writes a quantity with its unit, rounded for reading.
func (w wording) measure(dim quantity.Dimension, si float64) string {
	shown := quantity.Shown(dim, si, w.system)
	symbol := quantity.Display(dim, w.system).Symbol
	if dim == quantity.DimYears {
		return w.years(shown)
	}
	return strings.TrimSpace(w.bare(dim, shown) + " " + symbol)
}

// span writes a range, its unit once.
func (w wording) span(dim quantity.Dimension, low, high float64) string {
	return w.bare(dim, quantity.Shown(dim, low, w.system)) + " to " + w.measure(dim, high)
}

// bare writes a shown number without its unit.
func (w wording) bare(dim quantity.Dimension, shown float64) string {
	switch {
	case dim == quantity.DimMoney:
		return w.amount(shown)
	case dim.IsMoney() && math.Abs(shown) >= w.smallRate():
		return w.posted(shown)
	}
	return w.number(shown)
}

// unit names the unit of a quantity, money by its code.
func (w wording) unit(dim quantity.Dimension) string {
	symbol := quantity.Display(dim, w.system).Symbol
	if dim.IsMoney() {
		return strings.TrimSpace(w.study.Money.Code() + " " + symbol)
	}
	return symbol
}

func (w wording) years(x float64) string {
	if text := w.number(x); text != "1" {
		return text + " years"
	}
	return "1 year"
}

// percent writes a share with one place.
func percent(share float64) string {
	return strconv.FormatFloat(share*100+0, 'f', 1, 64) + " %"
}

// number writes three digits that count, or the whole of a longer number.
func (w wording) number(x float64) string {
	if math.Abs(x) >= 1000 {
		return w.whole(x)
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 2, 64), 64)
	if err != nil {
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	return strconv.FormatFloat(rounded+0, 'f', -1, 64)
}

// whole writes a number without places, grouped as amounts are.
func (w wording) whole(x float64) string {
	text := strconv.FormatFloat(math.Round(x)+0, 'f', 0, 64)
	if w.numbers == Plain {
		return text
	}
	digits, sign := strings.TrimPrefix(text, "-"), ""
	if len(digits) < len(text) {
		sign = "-"
	}
	for at := len(digits) - 3; at > 0; at -= 3 {
		digits = digits[:at] + "," + digits[at:]
	}
	return sign + digits
}

// counted writes a number with its noun: "1 job", "60 jobs".
func (w wording) counted(x float64, noun string) string {
	if text := w.number(x); text != "1" {
		return text + " " + noun + "s"
	}
	return "1 " + noun
}
