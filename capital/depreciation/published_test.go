package depreciation_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestDepreciationAgreesWithPublishedCases(t *testing.T) {
	conformance.Hold(t, "capital/depreciation")
}
