// Package spread says how sure a result is whose inputs are not: of any function
// of readings, to first order ([Of], [Through]) and by draws ([Draw], [Within]).
// Instruments and planners take their uncertainties from it.
//
// Inputs are independent of one another, and uncertainties are standard ones:
// half an interval that holds two thirds of all cases, d/√12 for a display of the
// step d [JCGM 100:2008, 4.3.7].
//
// The numbers are in the unit of whatever kind the function makes of them: a volume
// goes in as float64(40*units.Litre) and is made again in the function by
// units.Volume(x[0]).
//
// Of, Draw and Within allocate nothing.
package spread

import (
	"errors"
	"math"
	"slices"
)

// ErrCount is a function that returns more or fewer results when an input is moved.
var ErrCount = errors.New("spread: another number of results than at the estimate")

// Of returns what f makes of the inputs x, the standard uncertainty of that where x have
// the standard uncertainties u, and the number of the input that contributes most to it, -1
// if none does. f reads x, which Of moves and puts back: it takes no argument so that x may
// lie on the stack.
//
//	symbol   u²(y) = Σ ((f(x + u) - f(x - u))/2)², with one input moved at a time
//	source   JCGM 100:2008, 5.1.2 and the second note of 5.1.3
//	outside  an input at the edge of what can be, such as a level of zero, counts
//	         with f(x ± u) - f(x) if f is NaN on one side of it; NaN if on both, and
//	         where x and u differ in number
func Of(x, u []float64, f func() float64) (y, uncertainty float64, most int) {
	if len(x) != len(u) {
		return math.NaN(), math.NaN(), -1
	}
	y, most = f(), -1
	var largest float64
	for i, at := range x {
		if u[i] == 0 {
			continue
		}
		x[i] = at + u[i]
		up := f()
		x[i] = at - u[i]
		down := f()
		x[i] = at
		part := half(y, up, down, math.IsNaN(up), math.IsNaN(down))
		uncertainty = math.Hypot(uncertainty, part)
		if part > largest {
			largest, most = part, i
		}
	}
	return y, uncertainty, most
}

// half returns the part of one input: half of what its moves make of the result, or all
// of what the one move makes that can be.
func half(at, up, down float64, noUp, noDown bool) float64 {
	switch {
	case noUp && noDown:
		return math.NaN()
	case noUp:
		return math.Abs(at - down)
	case noDown:
		return math.Abs(up - at)
	}
	return math.Abs(up-down) / 2
}

// Through is Of for a function of several results that can fail. It gives f offsets
// from the estimate, zero at first, and returns the results, the standard uncertainty of
// each, and for each the number of the input that contributes most. f returns as many
// results each time, or else the error is [ErrCount]; where an input can be moved neither
// way, the error is that of f.
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
		if upErr != nil && downErr != nil {
			return nil, nil, nil, upErr
		}
		if upErr == nil && len(up) != len(value) || downErr == nil && len(down) != len(value) {
			return nil, nil, nil, ErrCount
		}
		for k, at := range value {
			above, below := at, at
			if upErr == nil {
				above = up[k]
			}
			if downErr == nil {
				below = down[k]
			}
			part := half(at, above, below, upErr != nil, downErr != nil)
			uncertainty[k] = math.Hypot(uncertainty[k], part)
			if part > largest[k] {
				largest[k], most[k] = part, i
			}
		}
	}
	return value, uncertainty, most, nil
}

// Draw fills y with what f makes of inputs that are drawn about x from normal distributions
// of the standard deviations u, and returns the mean and the standard deviation of that. f
// reads x, which Draw moves and puts back.
//
//	source   JCGM 101:2008, 7.2 to 7.6
//	normal   draws from the standard normal distribution: rand.New(...).NormFloat64 of
//	         math/rand/v2
//	outside  NaN for fewer than two draws, and where x and u differ in number; draws of
//	         which f is NaN, an impossible input, are left out of both, and stay in y
//
// A thousand draws give the deviation to 2 %, a hundred thousand to 0.2 %. It takes up to
// 32 inputs, and NaN says that there were more.
func Draw(y, x, u []float64, normal, f func() float64) (mean, deviation float64) {
	var at [32]float64
	if len(x) != len(u) || len(x) > len(at) {
		return math.NaN(), math.NaN()
	}
	copy(at[:], x)
	n, sum := 0.0, 0.0
	for k := range y {
		for i := range x {
			x[i] = at[i] + float64(u[i]*normal())
		}
		y[k] = f()
		if math.IsNaN(y[k]) {
			continue
		}
		// Welford's update: no difference of large sums.
		n++
		off := y[k] - mean
		mean += off / n
		sum += float64(off * (y[k] - mean))
	}
	copy(x, at[:])
	if n < 2 {
		return math.NaN(), math.NaN()
	}
	return mean, math.Sqrt(sum / (n - 1))
}

// Within returns the interval that holds a share of the draws y, with as many beyond the
// one end as beyond the other. It sorts y.
//
//	source   JCGM 101:2008, 7.7.2: the probabilistically symmetric coverage interval
//	outside  NaN for a share outside 0 to 1, and where no draw is a number
func Within(y []float64, share float64) (low, high float64) {
	slices.Sort(y) // NaN first
	for len(y) > 0 && math.IsNaN(y[0]) {
		y = y[1:]
	}
	if len(y) == 0 || !(share >= 0 && share <= 1) {
		return math.NaN(), math.NaN()
	}
	tail := int(math.Round(float64((1 - share) / 2 * float64(len(y)))))
	tail = min(tail, (len(y)-1)/2)
	return y[tail], y[len(y)-1-tail]
}
