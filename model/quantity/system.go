package quantity

// System is the set of units a shop is used to.
type System int

// The two systems. Metric is the zero value.
const (
	Metric System = iota
	Inch
)

// ParseSystem reads "metric" or "inch", exactly so written; anything else is a
// *ParseError.
func ParseSystem(text string) (System, error) {
	switch text {
	case "metric":
		return Metric, nil
	case "inch":
		return Inch, nil
	}
	return Metric, &ParseError{
		Text:  text,
		What:  quote(text) + " is not a system of units",
		Right: "write metric or inch",
	}
}

// String is the word that ParseSystem reads.
func (s System) String() string {
	if s == Inch {
		return "inch"
	}
	return "metric"
}
