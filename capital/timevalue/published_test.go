package timevalue_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestTimeValueAgreesWithPublishedCases(t *testing.T) { conformance.Hold(t, "capital/timevalue") }
