// Package poly evaluates polynomials by Horner's rule. Coefficients stand in
// rising powers, as the tables of this library print them; arrays are passed
// by pointer, so nothing is copied or allocated.
//
// The fixed-length forms are straight-line code that the compiler inlines;
// Horner takes any length.
package poly

// Horner returns c[0] + c[1] x + c[2] x² + ...
func Horner(x float64, c []float64) float64 {
	y := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		y = y*x + c[i]
	}
	return y
}

// Derivative returns c[1] + 2 c[2] x + 3 c[3] x² + ..., the slope of Horner.
func Derivative(x float64, c []float64) float64 {
	y := 0.0
	for i := len(c) - 1; i >= 1; i-- {
		y = y*x + float64(i)*c[i]
	}
	return y
}

// P2 is the quadratic with the coefficients c.
func P2(x float64, c *[3]float64) float64 { return c[0] + x*(c[1]+x*c[2]) }

// P3 is the cubic with the coefficients c.
func P3(x float64, c *[4]float64) float64 { return c[0] + x*(c[1]+x*(c[2]+x*c[3])) }

// P4 is the quartic with the coefficients c.
func P4(x float64, c *[5]float64) float64 {
	return c[0] + x*(c[1]+x*(c[2]+x*(c[3]+x*c[4])))
}

// P5 is the quintic with the coefficients c.
func P5(x float64, c *[6]float64) float64 {
	return c[0] + x*(c[1]+x*(c[2]+x*(c[3]+x*(c[4]+x*c[5]))))
}
