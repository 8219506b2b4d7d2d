package chance

import (
	"fmt"
	"math"
)

// Correlation says how two figures, by their index, go together: the
// correlation of their normal scores, from −1 to 1.
type Correlation struct {
	A, B int
	Rho  float64
}

// Contradiction is the error of correlations that cannot all hold: what the
// other figures ask of this one is more than it can give.
type Contradiction struct{ Figure int }

func (c *Contradiction) Error() string {
	return fmt.Sprintf("the correlations contradict each other at figure %d", c.Figure)
}

// Copula makes independent figures go together.
type Copula struct {
	members []int       // figures that take part
	root    [][]float64 // lower triangle: its rows mix independent normal scores
}

// NewCopula returns the Gaussian copula of correlations. They must leave every
// mix of the figures a variance that is not negative, else the error is a
// *Contradiction.
//
// Source: R. B. Nelsen, An Introduction to Copulas, 2006; the root by the
// factorisation of A.-L. Cholesky, where a zero on the diagonal is left out, as
// in N. J. Higham, Analysis of the Cholesky Decomposition of a Semi-Definite
// Matrix, 1990.
func NewCopula(correlations []Correlation) (*Copula, error) {
	c := &Copula{}
	place := map[int]int{}
	at := func(figure int) int {
		i, known := place[figure]
		if !known {
			i = len(c.members)
			place[figure] = i
			c.members = append(c.members, figure)
		}
		return i
	}
	for _, one := range correlations {
		at(one.A)
		at(one.B)
	}
	matrix := make([][]float64, len(c.members))
	for i := range matrix {
		matrix[i] = make([]float64, len(c.members))
		matrix[i][i] = 1
	}
	for _, one := range correlations {
		a, b := place[one.A], place[one.B]
		matrix[a][b], matrix[b][a] = one.Rho, one.Rho
	}
	failed := 0
	if c.root, failed = rootOf(matrix); failed >= 0 {
		return nil, &Contradiction{c.members[failed]}
	}
	return c, nil
}

// dust is what is left of a zero on the diagonal, from rounding.
const dust = 1e-10

// rootOf returns the lower triangle whose product with its mirror image is the
// matrix, and -1; or the first row at which a variance would be negative.
func rootOf(matrix [][]float64) (root [][]float64, failed int) {
	root = make([][]float64, len(matrix))
	for i := range matrix {
		root[i] = make([]float64, i+1)
		for j := range i + 1 {
			left := matrix[i][j]
			for k := range j {
				left -= root[i][k] * root[j][k]
			}
			switch {
			case i == j && left < -dust:
				return nil, i
			case i == j:
				root[i][i] = math.Sqrt(math.Max(0, left))
			case root[j][j] > math.Sqrt(dust):
				root[i][j] = left / root[j][j]
			case math.Abs(left) > math.Sqrt(dust):
				return nil, i
			}
		}
	}
	return root, -1
}

// mix makes column i of the probabilities go together.
func (c *Copula) mix(probabilities [][]float64, i int, scores []float64) {
	for k, figure := range c.members {
		scores[k] = Score(probabilities[figure][i])
	}
	for k := len(c.members) - 1; k >= 0; k-- {
		mixed := 0.0
		for j, share := range c.root[k] {
			mixed += share * scores[j]
		}
		probabilities[c.members[k]][i] = inside(Below(mixed))
	}
}

// inside keeps a probability off 0 and 1.
func inside(u float64) float64 { return math.Min(math.Max(u, 1e-16), 1-1e-16) }
