package eos80

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// HeatCapacity returns the heat that a kilogram of seawater takes up per
// kelvin at constant pressure.
//
//	symbol   cp(S,T,P) = cp(S,T,0) + D1(S,T) P + D2(S,T) P² + D3(S,T) P³
//	source   [MPD] at one atmosphere, [U44] under pressure
//	units    S PSS-78, p dbar above the surface, result J/(kg K)
//	range    0 <= S <= 40, 0 <= t <= 35 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRangeHeatCapacity tells); S < 0, NaN or Inf: NaN
func HeatCapacity(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) units.SpecificHeat {
	if !possible(s, t, p) {
		return units.SpecificHeat(math.NaN())
	}
	return units.SpecificHeat(heatCapacity(published(s, t, p)))
}

// cp in powers of T [U44], cp in J/(kg K), P in bar. The first coefficient of
// S is sometimes copied as -7.64357, which is 0.0002 J/(kg K) off at salinity
// 35.
var (
	heatCoef    = [...]float64{4217.4, -3.720283, 0.1412855, -2.654387e-3, 2.093236e-5}
	heatSCoef   = [...]float64{-7.643575, 0.1072763, -1.38385e-3}
	heatS32Coef = [...]float64{0.1770383, -4.07718e-3, 5.148e-5}

	heatPCoef    = [...]float64{-4.9592e-1, 1.45747e-2, -3.13885e-4, 2.0357e-6, 1.7168e-8}
	heatPSCoef   = [...]float64{4.9247e-3, -1.28315e-4, 9.802e-7, 2.5941e-8, -2.9179e-10}
	heatPS32Coef = [...]float64{-1.2331e-4, -1.517e-6, 3.122e-8}

	heatP2Coef  = [...]float64{2.4931e-4, -1.08645e-5, 2.87533e-7, -4.0027e-9, 2.2956e-11}
	heatP2SCoef = [...]float64{-2.9558e-6, 1.17054e-7, -2.3905e-9, 1.8448e-11}

	heatP3Coef  = [...]float64{-5.422e-8, 2.6380e-9, -6.5637e-11, 6.136e-13}
	heatP3SCoef = [...]float64{5.540e-10, -1.7682e-11, 3.513e-13}
)

const (
	heatP2S32Coef  = 9.971e-8    // P² S^(3/2)
	heatP3TS32Coef = -1.4300e-12 // P³ T S^(3/2)
)

func heatCapacity(s, t68, bar float64) float64 {
	root := math.Sqrt(s)
	surface := poly.P4(t68, &heatCoef) +
		s*(poly.P2(t68, &heatSCoef)+root*poly.P2(t68, &heatS32Coef))
	if bar == 0 {
		return surface
	}
	d1 := poly.P4(t68, &heatPCoef) +
		s*(poly.P4(t68, &heatPSCoef)+root*poly.P2(t68, &heatPS32Coef))
	d2 := poly.P4(t68, &heatP2Coef) +
		s*(poly.P3(t68, &heatP2SCoef)+root*heatP2S32Coef)
	d3 := poly.P3(t68, &heatP3Coef) +
		s*(poly.P2(t68, &heatP3SCoef)+root*t68*heatP3TS32Coef)
	return surface + bar*(d1+bar*(d2+bar*d3))
}
