package teos10

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// FreezingTemperature returns the temperature at which ice forms in seawater,
// as a thermometer shows it: where water in seawater and in ice has the same
// chemical potential. Dissolved air lowers it by 2.4 mK at most.
//
//	symbol   µ_W(SA, t_f, p) = g_ice(t_f, p); then t_f - f · 10⁻³ K · (2.4 - SA/70.33008)
//	source   [R13]; [R10]; [TEOS10] section 3.33
//	units    SA g/kg, p dbar, air f as a share of saturation; result °C ITS-90
//	range    0 <= SA <= 120, p <= 9989 (100 MPa), t_f >= -12.15, 0 <= f <= 1
//	outside  extrapolates (CheckRangeFreezing tells); NaN if there is no such temperature;
//	         f < 0 or meaningless input: NaN
func FreezingTemperature(sa units.AbsoluteSalinity, p units.SeaPressure, air units.Fraction) units.Temperature {
	t := freezing(sa, p)
	if !(air.Value() >= 0 && air.Value()-air.Value() == 0) {
		t = math.NaN()
	}
	return units.Celsius(t - air.Value()*1e-3*(2.4-sa.GramsPerKilogram()*(0.5/standardSalinity)))
}

// freezing returns the freezing temperature of air-free seawater in °C.
func freezing(sa units.AbsoluteSalinity, p units.SeaPressure) float64 {
	x, _, z := reduce(sa, 0, p.Decibars())
	if math.IsNaN(x) {
		return x
	}
	var c column
	c.waterPotential(x, z)
	t := freezingSeries(math.Sqrt(sa.GramsPerKilogram()*0.01), z,
		&freezingT0, &freezingT2, &freezingT3, &freezingT4, &freezingT5, &freezingT6, &freezingT7)
	// Halley's rule; the first guess is right to 1e-3 K.
	const enough, steps = 2e-3, 30
	for range steps {
		y := t / kelvinUnit
		g, gT, gTT := ice(t+zeroCelsius, z*pascalUnit)
		f := c.value(y) - g
		f1 := c.slope(y)/kelvinUnit - gT
		f2 := c.curvature(y)/(kelvinUnit*kelvinUnit) - gTT
		d := f * f1 / (f1*f1 - 0.5*f*f2)
		t -= d
		if math.Abs(d) < enough {
			return t
		}
	}
	return math.NaN()
}

// FreezingConservative returns the Conservative Temperature at which ice forms
// in seawater: that of FreezingTemperature.
//
//	symbol   CT(SA, t_f, p)
//	source   [R13]; [R10]; [TEOS10] section 3.33
//	units    SA g/kg, p dbar, air f as a share of saturation; result °C
//	range    0 <= SA <= 120, p <= 9989 (100 MPa), t_f >= -12.15, 0 <= f <= 1
//	outside  as FreezingTemperature
func FreezingConservative(sa units.AbsoluteSalinity, p units.SeaPressure, air units.Fraction) ConservativeTemperature {
	return ConservativeFromInSitu(sa, FreezingTemperature(sa, p, air), p)
}

// FreezingConservativePolynomial returns the Conservative Temperature at which ice forms
// in seawater, from a polynomial: ten times as fast as FreezingConservative, which is exact.
//
//	symbol   CT_f = Σ c_ik (SA/100)^(i/2) (p/10⁴)ᵏ - f · 10⁻³ K · (2.4 - a SA)(1 + b (1 - SA/35.16504))
//	source   [TEOS10], toolbox
//	units    SA g/kg, p dbar, air f as a share of saturation; result °C
//	range    0 <= SA <= 120, p <= 9989 (100 MPa), t_f >= -12.15, 0 <= f <= 1;
//	         within 7e-4 K of FreezingTemperature
//	outside  extrapolates (CheckRangeFreezing tells); f < 0 or meaningless input: NaN
func FreezingConservativePolynomial(sa units.AbsoluteSalinity, p units.SeaPressure,
	air units.Fraction) ConservativeTemperature {
	s, z := sa.GramsPerKilogram(), p.Decibars()/dbarUnit
	if !(possible(s, 0, z) && air.Value() >= 0 && air.Value()-air.Value() == 0) {
		return ConservativeTemperature{math.NaN()}
	}
	t := freezingSeries(math.Sqrt(s*0.01), z,
		&freezingCT0, &freezingCT2, &freezingCT3, &freezingCT4, &freezingCT5, &freezingCT6, &freezingCT7)
	t -= air.Value() * 1e-3 * (2.4 - freezingAirA*s) * (1 + freezingAirB*(1-s/standardSalinity))
	return ConservativeTemperature{t}
}

// freezingSeries is Σ c_ik xⁱ zᵏ; no fit has a term i = 1.
func freezingSeries(x, z float64, c0, c2, c3, c4 *[4]float64, c5 *[3]float64, c6, c7 *[2]float64) float64 {
	return poly.P3(z, c0) + x*x*(poly.P3(z, c2)+x*(poly.P3(z, c3)+x*(poly.P3(z, c4)+
		x*(poly.P2(z, c5)+x*(polyP1(z, c6)+x*polyP1(z, c7))))))
}

// MeltingHeat returns the heat that melts a kilogram of ice in so much
// seawater, at its freezing temperature, that the salinity does not change.
//
//	symbol   L = µ_W - T ∂µ_W/∂T - (g_ice - T ∂g_ice/∂T) at t_f, air-free
//	source   [TEOS10] section 3.34
//	units    SA g/kg, p dbar; result J/kg
//	range    0 <= SA <= 120, p <= 9989 (100 MPa), t_f >= -12.15
//	outside  extrapolates (CheckRangeFreezing tells); meaningless input: NaN
func MeltingHeat(sa units.AbsoluteSalinity, p units.SeaPressure) float64 {
	t := freezing(sa, p)
	x, y, z := reduce(sa, t, p.Decibars())
	var c column
	c.waterPotential(x, z)
	g, gT, _ := ice(t+zeroCelsius, z*pascalUnit)
	return c.value(y) - (y+zeroCelsius/kelvinUnit)*c.slope(y) - (g - (t+zeroCelsius)*gT)
}
