package loan_test

import (
	"testing"

	"shopstint/capital/decision/conformance"
)

func TestLoansAgreeWithPublishedCases(t *testing.T) { conformance.Hold(t, "capital/loan") }
