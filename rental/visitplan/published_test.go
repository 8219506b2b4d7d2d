package visitplan_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestLotsBySizeAgreeWithPublishedCases(t *testing.T) { conformance.Hold(t, "rental/visitplan") }
