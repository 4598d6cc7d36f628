package eos80

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// Density returns the density of seawater in situ.
//
//	symbol   rho(S,T,P) = rho(S,T,0) / (1 - P/K(S,T,P))
//	source   [MCBS], [U44]
//	units    S PSS-78, p dbar above the surface, result kg/m³
//	range    0 <= S <= 42, -2 <= t <= 40 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRange tells); S < 0, NaN or Inf: NaN
func Density(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) units.Density {
	if !possible(s, t, p) {
		return units.Density(math.NaN())
	}
	return units.Density(density(published(s, t, p)))
}

// SurfaceDensity returns the density of seawater under one atmosphere.
//
//	symbol   rho(S,T,0) = a(T) + b(T) S + c(T) S^(3/2) + d S²
//	source   [MP81], [U44]
//	units    S PSS-78, result kg/m³
//	range    0 <= S <= 42, -2 <= t <= 40 °C; standard error 0.0036 kg/m³ (from memory)
//	outside  extrapolates (CheckRange tells); S < 0, NaN or Inf: NaN
func SurfaceDensity(s units.PracticalSalinity, t units.Temperature) units.Density {
	return Density(s, t, 0)
}

// SurfaceDensities is SurfaceDensity for a log, such as one that pss78.Salinities has
// made of conductivities: it sets dst[i] to the density at s[i] and t[i]. It stops at
// the end of the shortest of the three and returns how many it set, as copy does. It
// allocates nothing.
func SurfaceDensities(dst []units.Density, s []units.PracticalSalinity, t []units.Temperature) int {
	n := min(len(dst), len(s), len(t))
	dst, s, t = dst[:n], s[:n], t[:n] // spares the loop its bounds checks
	for i := range dst {
		dst[i] = Density(s[i], t[i], 0)
	}
	return n
}

// SpecificVolumeAnomaly returns how much more room a kilogram of this seawater
// takes than one of salinity 35 and 0 °C at the same pressure, in m³/kg. Tables
// print it in units of 1e-8 m³/kg.
//
//	symbol   delta = 1/rho(S,T,P) - 1/rho(35,0,P)
//	source   [MCBS], [U44]
//	units    S PSS-78, p dbar above the surface, result m³/kg
//	range    0 <= S <= 42, -2 <= t <= 40 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRange tells); S < 0, NaN or Inf: NaN
func SpecificVolumeAnomaly(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) float64 {
	if !possible(s, t, p) {
		return math.NaN()
	}
	salinity, t68, bar := published(s, t, p)
	return 1/density(salinity, t68, bar) - 1/density(35, 0, bar)
}

// The density under one atmosphere, kg/m³, in powers of T [MP81]. Without
// salt it is that of Standard Mean Ocean Water.
var (
	densityCoef    = [...]float64{999.842594, 6.793952e-2, -9.095290e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9}
	densitySCoef   = [...]float64{8.24493e-1, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9}
	densityS32Coef = [...]float64{-5.72466e-3, 1.0227e-4, -1.6546e-6}
)

const densityS2Coef = 4.8314e-4 // S²

func density(s, t68, bar float64) float64 {
	surface := poly.P5(t68, &densityCoef) + s*(poly.P4(t68, &densitySCoef)+
		math.Sqrt(s)*poly.P2(t68, &densityS32Coef)+s*densityS2Coef)
	if bar == 0 {
		return surface
	}
	return surface / (1 - bar/bulkModulus(s, t68, bar))
}
