package visitplan

import "math/bits"

// reach is how many later jobs a mask can tell apart.
const reach = 128

// mask holds which of the later jobs are done: bit k for the job k+1 places on.
type mask [2]uint64

func (m mask) has(k int) bool { return m[k>>6]>>(k&63)&1 != 0 }

func (m mask) with(k int) mask {
	m[k>>6] |= 1 << (k & 63)
	return m
}

// meets tells whether the two have a job in common.
func (m mask) meets(other mask) bool { return m[0]&other[0]|m[1]&other[1] != 0 }

// holds tells whether all jobs of the other one are in this one.
func (m mask) holds(other mask) bool { return other[0]&^m[0]|other[1]&^m[1] == 0 }

func (m mask) or(other mask) mask { return mask{m[0] | other[0], m[1] | other[1]} }

// next moves to the first later job that is not done: how many places on it
// stands, and the mask seen from there.
func (m mask) next() (places int, rest mask) {
	done := bits.TrailingZeros64(^m[0])
	if done == 64 {
		done += bits.TrailingZeros64(^m[1])
	}
	return done + 1, m.down(done + 1)
}

// lowest finds the first later job that is done: how many places on it stands,
// and the mask seen from there.
func (m mask) lowest() (places int, rest mask) {
	free := bits.TrailingZeros64(m[0])
	if free == 64 {
		free += bits.TrailingZeros64(m[1])
	}
	return free + 1, m.down(free + 1)
}

// down is the mask seen from so many places on.
func (m mask) down(by int) mask {
	if by >= 64 {
		return mask{m[1] >> (by - 64), 0}
	}
	return mask{m[0]>>by | m[1]<<(64-by), m[1] >> by}
}
