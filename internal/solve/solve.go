// Package solve finds roots of one unknown. Every solver works inside a
// bracket, takes a bounded number of steps and never panics; ok is false if
// the bracket holds no change of sign or a value was not a number.
package solve

import "math"

// steps bounds the work; smooth functions take about ten.
const steps = 300

// Brent finds x in [a, b] with f(x) = 0 to within accuracy, or to the last
// bits of x where accuracy is finer than those, by inverse quadratic
// interpolation that falls back to bisection (Brent 1973, Algorithms for
// Minimization without Derivatives, chapter 4).
func Brent(f func(float64) float64, a, b, accuracy float64) (x float64, ok bool) {
	fa, fb := f(a), f(b)
	if fa == 0 {
		return a, true
	}
	if fb == 0 {
		return b, true
	}
	if !(fa < 0 && fb > 0 || fa > 0 && fb < 0) {
		return math.NaN(), false
	}
	c, fc := a, fa
	d := b - a
	e := d
	for i := 0; i < steps; i++ {
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		tol := 2*epsilon*math.Abs(b) + accuracy/2
		m := (c - b) / 2
		if math.Abs(m) <= tol || fb == 0 {
			return b, true
		}
		if math.Abs(e) < tol || math.Abs(fa) <= math.Abs(fb) {
			d, e = m, m
		} else {
			s := fb / fa
			var p, q float64
			if a == c {
				p, q = 2*m*s, 1-s
			} else {
				q = fa / fc
				r := fb / fc
				p = s * (2*m*q*(q-r) - (b-a)*(r-1))
				q = (q - 1) * (r - 1) * (s - 1)
			}
			if p > 0 {
				q = -q
			} else {
				p = -p
			}
			if 2*p < math.Min(3*m*q-math.Abs(tol*q), math.Abs(e*q)) {
				e, d = d, p/q
			} else {
				d, e = m, m
			}
		}
		a, fa = b, fb
		switch {
		case math.Abs(d) > tol:
			b += d
		case m > 0:
			b += tol
		default:
			b -= tol
		}
		fb = f(b)
		if math.IsNaN(fb) {
			return math.NaN(), false
		}
		if fb > 0 == (fc > 0) {
			c, fc = a, fa
			d = b - a
			e = d
		}
	}
	return math.NaN(), false
}

// epsilon is half the distance from 1 to the next float64.
const epsilon = 1. / (1 << 53)

// Maximum returns where in [lo, hi] a function with one maximum has it, to within
// accuracy, by golden section (Kiefer 1953, Proc. Amer. Math. Soc. 4, 502-506). It
// ends early where the function is above zero: who looks for that needs no more.
func Maximum(f func(float64) float64, lo, hi, accuracy float64) float64 {
	const golden = 0.618033988749894848
	a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fa, fb := f(a), f(b)
	for hi-lo > accuracy && fa <= 0 && fb <= 0 {
		if fa > fb {
			hi, b, fb = b, a, fa
			a = hi - golden*(hi-lo)
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + golden*(hi-lo)
			fb = f(b)
		}
		if !(a > lo && b < hi) {
			break
		}
	}
	if fa > fb {
		return a
	}
	return b
}
