// Package spread carries standard uncertainties through a calculation by
// first-order differences, the law of propagation of JCGM 100:2008, 5.1.2, for
// inputs that do not depend on one another.
package spread

import (
	"errors"
	"math"
)

// ErrCount is a function that returns more or fewer results when an input is moved.
var ErrCount = errors.New("spread: another number of results than at the estimate")

// Through calls f for the estimate, where all offsets are zero, and then with each
// input moved up and down by its standard uncertainty u. It returns the
// results at the estimate, the standard uncertainty of each, and the number of
// the input that contributes most to it, -1 if none does. f returns as many
// results each time.
//
//	u²(y) = Σ ((f(x + u) - f(x - u))/2)²
//
// An input at the edge of what can be, such as a level of zero, can be moved one
// way only, and counts with f(x ± u) - f(x). If it can be moved neither way, the
// error of f is returned.
func Through(u []float64,
	f func(offsets []float64) ([]float64, error)) (value, uncertainty []float64, most []int, err error) {
	offsets := make([]float64, len(u))
	if value, err = f(offsets); err != nil {
		return nil, nil, nil, err
	}
	uncertainty = make([]float64, len(value))
	most = make([]int, len(value))
	largest := make([]float64, len(value))
	for k := range most {
		most[k] = -1
	}
	for i := range u {
		if u[i] == 0 {
			continue
		}
		offsets[i] = u[i]
		up, upErr := f(offsets)
		offsets[i] = -u[i]
		down, downErr := f(offsets)
		offsets[i] = 0
		if upErr == nil && len(up) != len(value) || downErr == nil && len(down) != len(value) {
			return nil, nil, nil, ErrCount
		}
		span := 2.0
		switch {
		case upErr != nil && downErr != nil:
			return nil, nil, nil, upErr
		case upErr != nil:
			up, span = value, 1
		case downErr != nil:
			down, span = value, 1
		}
		for k := range value {
			half := math.Abs(up[k]-down[k]) / span
			uncertainty[k] = math.Hypot(uncertainty[k], half)
			if half > largest[k] {
				largest[k], most[k] = half, i
			}
		}
	}
	return value, uncertainty, most, nil
}
