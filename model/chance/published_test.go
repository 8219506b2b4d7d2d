package chance_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestShapesAgreeWithPublishedCases(t *testing.T) { conformance.Hold(t, "model/chance") }
