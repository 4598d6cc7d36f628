package teos10

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// EvaporationHeat returns the heat that turns a kilogram of water into vapour
// out of so much seawater at the surface that the salinity does not change.
// For a thermometer's reading t, ct is ConservativeFromInSitu(sa, t, 0).
//
//	symbol   L = Σ c_ij ξⁱ yʲ
//	source   [TEOS10] section 3.39, toolbox
//	units    SA g/kg, CT °C; result J/kg
//	range    0 <= SA <= 42, 0 <= CT <= 40; within 0.6 J/kg of the Gibbs functions
//	outside  extrapolates (CheckRangeEvaporation tells); meaningless input: NaN
func EvaporationHeat(sa units.AbsoluteSalinity, ct ConservativeTemperature) float64 {
	x, y, _ := reduce(sa, ct.celsius, 0)
	return polyP6(y, &evaporation0) + x*(poly.P5(y, &evaporation1)+x*(poly.P4(y, &evaporation2)+
		x*(poly.P3(y, &evaporation3)+x*(poly.P2(y, &evaporation4)+x*(polyP1(y, &evaporation5)+x*evaporation6[0])))))
}

// Saturation pressure of pure water [WP02]: six pairs of factor and
// power of 1 - T/T_c.
const (
	criticalTemperature = 647.096  // K
	criticalPressure    = 22.064e6 // Pa

	saturationA1 = -7.85951783 // power 1
	saturationA2 = 1.84408259  // 1.5
	saturationA3 = -11.7866497 // 3
	saturationA4 = 22.6807411  // 3.5
	saturationA5 = -15.9618719 // 4
	saturationA6 = 1.80122502  // 7.5
)

const waterMolarMass = 0.018015268 // kg/mol [R13]

// VapourPressure returns the pressure of water vapour in balance with
// seawater at the surface, without air.
//
//	symbol   p_v = p_s(T) exp(-φ m M_W); ln(p_s/p_c) = (T_c/T) Σ a_i (1 - T/T_c)^e_i
//	source   [WP02] for pure water; [R13] for φ; vapour taken as an ideal gas
//	units    SA g/kg, t °C ITS-90; result Pa
//	range    0 <= SA <= 120, 0 <= t <= 40; within 1e-4 of the Gibbs functions, relative
//	outside  extrapolates; above the critical temperature and for meaningless input: NaN
func VapourPressure(sa units.AbsoluteSalinity, t units.Temperature) float64 {
	u := 1 - t.Kelvin()/criticalTemperature
	r := math.Sqrt(u)
	u3 := u * u * u
	ln := (saturationA1*u + saturationA2*u*r + u3*(saturationA3+saturationA4*r+saturationA5*u+
		saturationA6*u3*u*r)) / (1 - u)
	return criticalPressure * math.Exp(ln-OsmoticCoefficient(sa, t, 0)*Molality(sa)*waterMolarMass)
}
