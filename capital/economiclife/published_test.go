package economiclife_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestEconomicLivesAgreeWithPublishedCases(t *testing.T) {
	conformance.Hold(t, "capital/economiclife")
}
