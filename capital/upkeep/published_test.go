package upkeep_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestUpkeepAgreesWithPublishedCases(t *testing.T) { conformance.Hold(t, "capital/upkeep") }
