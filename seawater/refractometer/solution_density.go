package refractometer

import (
	"math"

	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// The coefficients c0 to c4 of [L09]: sodium chloride from 0 °C and to 26.6 %,
// sucrose from 15 °C and to 50 %.
var (
	saltDensityCoef = [...]float64{
		-0.00324112223655149,
		0.0636354335906616,
		1.01371399467365,
		0.0145951015210159,
		3317.34854426537,
	}
	sugarDensityCoef = [...]float64{
		532.919899042424,
		13692.5881480438,
		12.6127261369233,
		0.0266415899284128,
		649.049186827162,
	}
)

// solution is what the density of solutions of one solute depends on at one
// temperature.
//
//	symbol   1/ρ = (1-w)/ρ_w + w (w + a)/(b0 w + b1)
//	         a = c2 + c3 t, b0 = c0 E, b1 = c1 E, E = exp(1e-6 (t + c4)²)
//	source   [L09]
//	units    w mass fraction, t °C, ρ_w and ρ kg/m³
//
// [L09] takes the density of water from [K75]; here it is that of TEOS-10, so
// that a solution without solute is water exactly. Sodium chloride then lies
// within 0.26 kg/m³ of [RP82] from 20 to 30 °C and is up to 0.94 too light at
// 0 °C.
type solution struct{ water, a, b0, b1 float64 }

func solutionAt(t units.Temperature, c *[5]float64) solution {
	warm := t.Celsius() + c[4]
	e := math.Exp(1e-6 * warm * warm)
	return solution{waterDensityAt(t), c[2] + c[3]*t.Celsius(), c[0] * e, c[1] * e}
}

// of returns the density of a mass fraction.
func (s *solution) of(w float64) float64 {
	return 1 / ((1-w)/s.water + w*(w+s.a)/(s.b0*w+s.b1))
}

// content returns the mass fraction of a density. Free of fractions, the formula is
// a quadratic in w:
//
//	(1 - b0/ρ_w) w² + (a + (b0 - b1)/ρ_w - b0/ρ) w + b1 (1/ρ_w - 1/ρ) = 0
func (s *solution) content(rho float64) float64 {
	a2 := 1 - s.b0/s.water
	a1 := s.a + (s.b0-s.b1)/s.water - s.b0/rho
	a0 := s.b1 * (rho - s.water) / (rho * s.water)
	// With sodium chloride a1 is negative, and this root is the one that goes through 0.
	return 2 * a0 / (math.Sqrt(a1*a1-4*a2*a0) - a1)
}

func waterDensityAt(t units.Temperature) float64 {
	return float64(teos10.DensityExact(units.Absolute(0), t, 0))
}

func saltDensity(w float64, t units.Temperature) units.Density {
	s := solutionAt(t, &saltDensityCoef)
	return units.Density(s.of(w))
}

// saltFromDensity returns the mass fraction of a sodium chloride solution of a
// density. It undoes saltDensity from a little below zero to a little above the
// range.
func saltFromDensity(rho units.Density, t units.Temperature) float64 {
	s := solutionAt(t, &saltDensityCoef)
	w := s.content(float64(rho))
	if !(w >= -0.01 && w <= 0.3) {
		return math.NaN()
	}
	return w
}
