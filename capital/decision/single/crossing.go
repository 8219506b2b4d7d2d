package single

import (
	"math"
	"slices"
)

// Crossings returns every place in [low, high] where difference changes sign,
// ascending. Between two neighbouring corners the function must be monotone or
// nearly so; each interval between corners is looked at in a few steps.
func Crossings(difference func(float64) float64, low, high float64, corners []float64) []float64 {
	points := grid(low, high, corners)
	var found []float64
	left := difference(points[0])
	if left == 0 {
		found = append(found, points[0])
	}
	for i := 1; i < len(points); i++ {
		right := difference(points[i])
		switch {
		case right == 0:
			found = append(found, points[i])
		case left*right < 0:
			found = append(found, falsePosition(difference, points[i-1], points[i], left))
		}
		left = right
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
// form: on a straight piece the first guess is already right.
//
// Source: M. Dowell and P. Jarratt, A modified regula falsi method for
// computing the root of an equation, BIT 11, 1971, pp. 168-174.
func falsePosition(difference func(float64) float64, a, b, atA float64) float64 {
	atB := difference(b)
	last := math.Inf(1)
	for range 80 {
		x := (a*atB - b*atA) / (atB - atA)
		if math.Abs(x-last) <= 1e-12*math.Max(1, math.Abs(x)) {
			return x
		}
		last = x
		atX := difference(x)
		switch {
		case atX == 0:
			return x
		case atX*atB < 0:
			a, atA = b, atB
		default:
			atA /= 2
		}
		b, atB = x, atX
	}
	return last
}
