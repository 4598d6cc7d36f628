package pss78

import (
	"math"

	"example.org/wellmixed/units"
)

// Conductivity returns the conductivity of water of a practical salinity: what
// a meter without temperature compensation shows. It is the inverse of
// Salinity.
//
//	symbol   C = C(35,15,0) Rp rt x², with x such that S(x, ft) = S
//	source   the scale of Salinity, solved; Salinity gives S back to 1e-12
//	units    result mS/cm at the temperature of the water, p dbar above the surface
//	range    2 <= S <= 42 (0 to 2 by the extension), -2 <= t <= 35 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRange tells); S < 0, S > 1000, t <= -46.7 °C, NaN or Inf: NaN
//
// Of salinity 0 it is 0. Of the least salinity above that it is 0.7 to 2.2 µS/cm,
// where the extension crosses zero.
func Conductivity(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) units.Conductivity {
	return RatioAt(s, t, p).Conductivity()
}

// RatioAt returns the conductivity ratio of water of a practical salinity. It
// is Conductivity over C(35,15,0), and the inverse of Ratio.Salinity.
func RatioAt(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) Ratio {
	if !possible(s.Value(), t, p) || s.Value() > saltAlone {
		return Ratio(math.NaN())
	}
	t68 := t68PerT90 * t.Celsius()
	ft := temperatureTerm(t68)
	var x float64
	switch {
	case s.Value() >= dilute:
		x = scaleX(s.Value(), ft)
	case s.Value() > 0:
		x = diluteX(s.Value(), ft)
	}
	return Ratio(atPressure(rt(t68)*(x*x), t68, float64(p)))
}

// saltAlone is a salinity that no water has: a kilogram of salt in a kilogram
// of seawater.
const saltAlone = 1000

// maxSteps bounds every search. Inside the published range one step is enough
// (four in dilute water); at salinity 1000 it takes ten.
const maxSteps = 16

// The first guess of x is a polynomial in q = S^(1/2), powers 0 to 5, and ft
// times another, powers 0 to 3. Both are fitted here to the scale itself, over
// 2 <= S <= 42 and -2 to 35 °C, and are good to 2e-5 in x; the step that
// follows leaves 2e-13 of salinity, so all they decide is the time it takes.
var (
	guessCoef     = [...]float64{2.68104e-3, 1.97042e-1, -8.97716e-3, 1.24409e-3, -1.16445e-4, 4.25579e-6}
	guessTermCoef = [...]float64{8.06865e-6, 1.02884e-4, -1.85235e-5, 1.55941e-7}
)

// scaleX returns the x at which the scale of 1978 is s, or NaN. It takes
// Halley's steps, of third order: after one shorter than 3e-5, less than 1e-12
// of salinity is left.
func scaleX(s, ft float64) float64 {
	c0, c2, c4 := aCoef[0]+ft*bCoef[0]-s, aCoef[2]+ft*bCoef[2], aCoef[4]+ft*bCoef[4]
	c1, c3, c5 := aCoef[1]+ft*bCoef[1], aCoef[3]+ft*bCoef[3], aCoef[5]+ft*bCoef[5]
	q := math.Sqrt(s)
	x := guessCoef[0] + s*(guessCoef[2]+s*guessCoef[4]) +
		q*(guessCoef[1]+s*(guessCoef[3]+s*guessCoef[5])) +
		ft*(guessTermCoef[0]+s*guessTermCoef[2]+q*(guessTermCoef[1]+s*guessTermCoef[3]))
	for range maxSteps {
		bath := x * x
		f := c0 + bath*(c2+bath*c4) + x*(c1+bath*(c3+bath*c5))
		f1 := c1 + bath*(3*c3+bath*(5*c5)) + x*(2*c2+bath*(4*c4))
		f2 := 2*c2 + bath*(12*c4) + x*(6*c3+bath*(20*c5))
		dx := 2 * f * f1 / (2*f1*f1 - f*f2)
		x -= dx
		if math.Abs(dx) <= 3e-5 {
			return x
		}
	}
	return math.NaN()
}
