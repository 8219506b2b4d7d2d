package timevalue

// SimplePayback returns the years until the running sum of flows, flows[0]
// at time 0 and the rest at year ends, first comes back from below zero to
// zero or more. Within a year the flow is taken as even, so the answer may
// fall between two year ends. A sum that is never below zero is paid back at
// once: 0, true. ok is false when the sum stays below zero, or there are no
// flows.
//
// Source: C. S. Park, Contemporary Engineering Economics, conventional
// payback period (from memory, page not seen).
func SimplePayback(flows []float64) (years float64, ok bool) {
	if len(flows) == 0 {
		return 0, false
	}
	sum, below := 0.0, false
	for t, flow := range flows {
		before := sum
		sum += flow
		switch {
		case sum < 0:
			below = true
		case below:
			return float64(t-1) + before/(before-sum), true
		}
	}
	return 0, !below
}

// DiscountedPayback is SimplePayback of the flows brought to time 0 at rate:
// the years until the investment has come back with interest.
//
// Source: C. S. Park, Contemporary Engineering Economics, discounted payback
// period (from memory, page not seen).
func DiscountedPayback(rate float64, flows []float64) (years float64, ok bool) {
	discounted := make([]float64, len(flows))
	for t, flow := range flows {
		discounted[t] = flow * DiscountFactor(rate, float64(t))
	}
	return SimplePayback(discounted)
}
