package roadmap

import "slices"

// How a cheaper roadmap is guessed at.
const (
	agreed  = 0.75 // share of late from which the years at the root agree with the best roadmap
	guesses = 0.5  // work that may go into it, as a share of that before it
)

// guess looks first at the roadmaps near the best one so far: what it finds
// there cuts the search through all of them short. The prices stay as they were.
//
// Source: E. Danna, E. Rothberg and C. Le Pape, Exploring Relaxation Induced
// Neighborhoods to Improve MIP Solutions, 2005.
func (s *search) guess(d domain) {
	if s.found == nil {
		return
	}
	mean, prices := slices.Clone(s.climb.mean), slices.Clone(s.climb.prices)
	bound, most := s.bound, s.most
	s.most = min(most, s.climb.work+int(guesses*float64(s.climb.work)))
	s.node(s.near(d), s.climb.bound)
	s.bound, s.most = bound, most // all of it is looked through again
	copy(s.climb.mean, mean)
	copy(s.climb.prices, prices)
}

// near is the part of a domain in which a machine is owned, or not, as in the
// best roadmap in the years in which it mostly was so of late.
func (s *search) near(d domain) domain {
	d = d.clone()
	owned := make([]uint32, len(s.p.machines))
	for _, span := range s.found {
		owned[span.machine] |= years(span.from, span.to)
	}
	for m := range owned {
		for t := range s.p.years {
			switch mean, bit := s.climb.mean[s.climb.row(m)+t], uint32(1)<<t; {
			case (d.never[m]|d.always[m])&bit != 0:
			case owned[m]&bit != 0 && mean > agreed:
				d.always[m] |= bit
			case owned[m]&bit == 0 && mean < 1-agreed:
				d.never[m] |= bit
			}
		}
	}
	return d
}
