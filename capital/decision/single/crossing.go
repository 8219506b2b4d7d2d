package single

import (
	"math"
	"slices"
)

// Crossings returns every place in [low, high] where difference changes sign,
// ascending. Between two neighbouring corners the function must be monotone or
// nearly so; each interval between corners is looked at in a few steps. Touching
// zero is no crossing; a level stretch at zero between two sides is one.
func Crossings(difference func(float64) float64, low, high float64, corners []float64) []float64 {
	points := grid(low, high, corners)
	var found []float64
	from, left := points[0], difference(points[0]) // the last point that has a side
	var level float64                              // where a level stretch began
	onLevel := false
	for _, x := range points[1:] {
		right := difference(x)
		if right == 0 {
			if !onLevel {
				level, onLevel = x, true
			}
			continue
		}
		switch {
		case left*right < 0 && onLevel:
			found = append(found, level)
		case left*right < 0:
			found = append(found, falsePosition(difference, from, x, left))
		}
		from, left, onLevel = x, right, false
	}
	return found
}

const gridSteps = 32

func grid(low, high float64, corners []float64) []float64 {
	points := make([]float64, 0, gridSteps+1+len(corners))
	for i := range gridSteps + 1 {
		points = append(points, low+(high-low)*float64(i)/gridSteps)
	}
	for _, corner := range corners {
		if corner > low && corner < high {
			points = append(points, corner)
		}
	}
	slices.Sort(points)
	return slices.Compact(points)
}

// falsePosition narrows a change of sign down by false position in the Illinois
// form: on a straight piece the first guess is already right. On a jump it only
// creeps, so every third step halves.
//
// Source: M. Dowell and P. Jarratt, A modified regula falsi method for
// computing the root of an equation, BIT 11, 1971, pp. 168-174.
func falsePosition(difference func(float64) float64, a, b, atA float64) float64 {
	atB := difference(b)
	nothing := 1e-13 * math.Max(math.Abs(atA), math.Abs(atB))
	x := a
	for step := range 150 {
		if x = (a*atB - b*atA) / (atB - atA); step%3 == 2 {
			x = (a + b) / 2
		}
		atX := difference(x)
		if math.Abs(atX) <= nothing || math.Abs(b-a) <= 1e-12*math.Max(1, math.Abs(x)) {
			return x
		}
		if atX*atB < 0 {
			a, atA = b, atB
		} else {
			atA /= 2
		}
		b, atB = x, atX
	}
	return x
}
