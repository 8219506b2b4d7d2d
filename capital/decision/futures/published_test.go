package futures_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestWorthOfKnowingAgreesWithPublishedCases(t *testing.T) {
	conformance.Hold(t, "capital/decision/futures")
}
