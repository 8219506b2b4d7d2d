package quantity_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestUnitsAgreeWithPublishedCases(t *testing.T) { conformance.Hold(t, "model/quantity") }
