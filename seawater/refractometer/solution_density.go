package refractometer

import (
	"math"

	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// The coefficients c0 to c4 of [L09]: sodium chloride from 0 °C and to 26.6 %,
// sucrose from 15 °C and to 50 %.
var (
	saltDensityCoef  = [...]float64{-0.00324112223655149, 0.0636354335906616, 1.01371399467365, 0.0145951015210159, 3317.34854426537}
	sugarDensityCoef = [...]float64{532.919899042424, 13692.5881480438, 12.6127261369233, 0.0266415899284128, 649.049186827162}
)

// solutionDensity returns the density of a solution of one solute.
//
//	symbol   1/ρ = (1-w)/ρ_w + w (w + c2 + c3 t) / ((c0 w + c1) exp(1e-6 (t + c4)²))
//	source   [L09]
//	units    w mass fraction, t °C, ρ_w and ρ kg/m³
//
// [L09] takes the density of water from [K75]; callers here take it from
// TEOS-10, so that a solution without solute is water exactly. Sodium chloride
// then lies within 0.26 kg/m³ of [RP82] from 20 to 30 °C and is up to 0.94 too
// light at 0 °C.
func solutionDensity(w, celsius, water float64, c *[5]float64) float64 {
	warm := celsius + c[4]
	return 1 / ((1-w)/water + w*(w+c[2]+c[3]*celsius)/((c[0]*w+c[1])*math.Exp(1e-6*warm*warm)))
}

func saltDensity(w float64, t units.Temperature) units.Density {
	return units.Density(solutionDensity(w, t.Celsius(), waterDensityAt(t), &saltDensityCoef))
}

func sucroseDensity(w float64, t units.Temperature) units.Density {
	return units.Density(solutionDensity(w, t.Celsius(), waterDensityAt(t), &sugarDensityCoef))
}

func waterDensityAt(t units.Temperature) float64 {
	return float64(teos10.DensityExact(units.Absolute(0), t, 0))
}

// saltFromDensity returns the mass fraction of a sodium chloride solution of a
// density. It undoes saltDensity from a little below zero to a little above the
// range.
func saltFromDensity(rho units.Density, t units.Temperature) float64 {
	water := waterDensityAt(t)
	w, ok := solve.Brent(func(w float64) float64 {
		return solutionDensity(w, t.Celsius(), water, &saltDensityCoef) - float64(rho)
	}, -0.01, 0.3, 1e-15)
	if !ok {
		return math.NaN()
	}
	return w
}
