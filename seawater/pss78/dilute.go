package pss78

import "math"

// dilute is the salinity below which the extension of [HDW] holds.
const dilute = 2

// diluteSalinity returns the salinity by [HDW] where the scale of 1978 gives
// s < 2 at x.
//
//	symbol   S = H (s - a0/(1 + 1.5 X + X²) - b0 ft/(1 + Y^(1/2) + Y + Y^(3/2)))
//	         X = 400 Rt, Y = 100 Rt
//	source   [HDW]; H, which makes the two scales meet at 2, [T10]
//
// H is 1 in [HDW], where the scales miss each other by up to 0.0004.
func diluteSalinity(s, x, ft float64) float64 {
	excess, _ := hill(x, ft)
	s = (s - excess) * dilute / (dilute - hillAtJoin(ft))
	if s < roundOff {
		return 0
	}
	return s
}

// roundOff covers what is left of a0 and b0 ft when they cancel at x = 0, which
// is a few 1e-18 where the processor fuses multiplication and addition.
const roundOff = 1e-17

// hill returns what [HDW] takes away from the scale of 1978 and its derivative
// with respect to x, in terms of y = Y^(1/2) = 10 x.
func hill(x, ft float64) (excess, slope float64) {
	y := 10 * x
	y2 := y * y
	u := 1 / (1 + y2*(6+16*y2))
	v := 1 / ((1 + y) * (1 + y2))
	au, bv := aCoef[0]*u, bCoef[0]*ft*v
	return au + bv, -10 * (au*u*y*(12+64*y2) + bv*v*(1+y*(2+3*y)))
}

// scale returns the salinity of the scale of 1978 at x and its derivative with
// respect to x.
func scale(x, ft float64) (s, slope float64) {
	bath := x * x
	c1, c3, c5 := aCoef[1]+ft*bCoef[1], aCoef[3]+ft*bCoef[3], aCoef[5]+ft*bCoef[5]
	c0, c2, c4 := aCoef[0]+ft*bCoef[0], aCoef[2]+ft*bCoef[2], aCoef[4]+ft*bCoef[4]
	return c0 + bath*(c2+bath*c4) + x*(c1+bath*(c3+bath*c5)),
		c1 + bath*(3*c3+bath*(5*c5)) + x*(2*c2+bath*(4*c4))
}

// joinCoef starts the search for the x at which the scale of 1978 is 2:
// powers 0 to 2 of ft. It is fitted here to the scale itself, over -2 to 35 °C,
// and is good to 6e-8; the Newton step that follows leaves 1e-14.
var joinCoef = [...]float64{2.664510e-1, 1.175663e-4, 6.351921e-8}

// hillAtJoin returns the excess at the x where the scale of 1978 is 2.
func hillAtJoin(ft float64) float64 {
	x := joinCoef[0] + ft*(joinCoef[1]+ft*joinCoef[2])
	s, slope := scale(x, ft)
	excess, _ := hill(x-(s-dilute)/slope, ft)
	return excess
}

// diluteX returns the x at which diluteSalinity is s, for 0 < s < 2, or NaN.
//
// The first guess is the positive root of the quadratic that the extension
// becomes as x goes to 0. Each Newton step then doubles the good digits: after
// one shorter than 1e-8 of x there are none left to mend.
func diluteX(s, ft float64) float64 {
	s *= (dilute - hillAtJoin(ft)) / dilute
	a1 := aCoef[1] + ft*(bCoef[1]+10*bCoef[0])
	a2 := aCoef[2] + 600*aCoef[0] + ft*bCoef[2]
	x := (math.Sqrt(a1*a1+4*a2*s) - a1) / (2 * a2)
	for range maxSteps {
		plain, slope := scale(x, ft)
		excess, excessSlope := hill(x, ft)
		dx := (plain - excess - s) / (slope - excessSlope)
		x -= dx
		if math.Abs(dx) <= 1e-8*x {
			return x
		}
	}
	return math.NaN()
}
