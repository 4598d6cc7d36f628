package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// SalinityFromDensity returns the absolute salinity of seawater from its
// density; it undoes Density.
//
//	symbol   ρ(SA, CT, p) = ρ
//	source   [RMMB15]
//	units    ρ kg/m³, CT °C, p dbar; result g/kg, inverse to the last bits of ρ, 3e-12 g/kg
//	range    0 <= SA <= 42, freezing <= CT <= 40, 0 <= p <= 8000, narrower in the deep
//	outside  extrapolates (CheckRange of the result tells); NaN if no salinity has
//	         this density, lighter than pure water for one; meaningless input: NaN
func SalinityFromDensity(rho units.Density, ct ConservativeTemperature, p units.SeaPressure) units.AbsoluteSalinity {
	w, y, z := reduceConservative(units.Absolute(20), ct, p)
	c0, c1, c2, c3, c4, c5, c6 := volumeTerms(y, z)
	v := 1 / rho.KilogramsPerCubicMetre()
	// Newton's rule with its second-order term, in s from the middle of the
	// range; after a step of 1e-5 the rest is below the last bit.
	s := math.Sqrt(w)
	const enough, steps = 1e-5, 30
	for range steps {
		w = s * s
		f := c0 + w*(c2+w*(c4+w*c6)) + s*(c1+w*(c3+w*c5)) - v
		r := 1 / (c1 + w*(3*c3+w*5*c5) + s*(2*c2+w*(4*c4+w*6*c6)))
		bend := r * (2*c2 + w*(12*c4+w*30*c6) + s*(6*c3+w*20*c5))
		d := r * f
		d *= 1 + 0.5*d*bend
		s -= d
		if math.Abs(d) < enough {
			return salinityResult(s*s*salinityUnit - specvolOffset)
		}
	}
	return units.Absolute(math.NaN())
}

// SalinityFromDensityExact returns the absolute salinity of seawater from its
// density and in-situ temperature; it undoes DensityExact.
//
//	symbol   1/g_P(SA, t, p) = ρ
//	source   [R13]
//	units    ρ kg/m³, t °C ITS-90, p dbar; result g/kg, inverse to the last bits of ρ, 3e-12 g/kg
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact of the result tells); NaN if no salinity
//	         has this density, lighter than pure water for one; meaningless input: NaN
func SalinityFromDensityExact(rho units.Density, t units.Temperature, p units.SeaPressure) units.AbsoluteSalinity {
	s := guessSalinity(rho.KilogramsPerCubicMetre(), t.Celsius(), p.Decibars())
	x, y, z := reduce(units.Absolute(s), t.Celsius(), p.Decibars())
	v := pascalUnit / rho.KilogramsPerCubicMetre()
	// Newton's rule in SA, in which the volume is almost straight: of a step d there is
	// less than 0.001 d²/x left.
	const enough, steps = 1e-10, 60 // of d²/x, g²/kg²
	for range steps {
		var c column
		c.seawaterP(x, z)
		f := c.value(y) - v
		c.salineSP(x, z)
		d := f * (2 * salinityUnit) / c.value(y)
		if d*d < enough*x || math.Abs(d) < 1e-8 {
			return salinityResult(s - d)
		}
		// No salinity is below zero: try pure water before giving up.
		if s -= d; s < 0 {
			s = 0
		}
		x = math.Sqrt(s / salinityUnit)
	}
	return units.Absolute(math.NaN())
}

// guessSalinity returns a salinity within 1 g/kg in the ocean and a tank, and any that
// is possible elsewhere.
func guessSalinity(rho, t, p float64) float64 {
	c := &guessCoef
	s := (rho - c[0] - t*(c[1]+t*c[2]) - p*c[3]) / (c[4] + t*c[5])
	if !(s >= 0 && s <= 1000) {
		return 0
	}
	return s
}

// guessCoef: ρ = c0 + c1 t + c2 t² + c3 p + (c4 + c5 t) SA, fitted here to DensityExact for 0
// to 42 g/kg, -2 to 40 °C and 0 to 1000 dbar; within 0.6 kg/m³.
var guessCoef = [...]float64{1000.18, -0.00679, -0.004793, 0.004481, 0.7943, -0.001762}

// salinityResult drops what no water can have, and takes what is below zero
// by rounding alone for zero.
func salinityResult(s float64) units.AbsoluteSalinity {
	const rounding = 1e-11
	switch {
	case s < 0 && s > -rounding:
		s = 0
	case !(s >= 0 && s <= 1000):
		s = math.NaN()
	}
	return units.Absolute(s)
}
