package studygen

import "math"

// Dust is how far two sums of amounts up to size may lie apart by the rounding of
// float64 alone, with room to spare: a billionth of the size, and of one.
func Dust(size float64) float64 { return 1e-9 * (1 + math.Abs(size)) }
