package eos80

import (
	"math"

	"example.org/wellmixed/units"
)

// FreezingPoint returns the temperature at which ice forms in seawater that is
// saturated with air.
//
//	symbol   T_f = a0 S + a1 S^(3/2) + a2 S² + b p
//	source   [M78], [U44]
//	units    S PSS-78, p dbar above the surface, result °C ITS-90
//	range    4 <= S <= 40, 0 <= p <= 500 dbar
//	outside  extrapolates (CheckRangeFreezing tells); S < 0, NaN or Inf: NaN
func FreezingPoint(s units.PracticalSalinity, p units.SeaPressure) units.Temperature {
	if !possible(s, units.Temperature{}, p) {
		return units.Celsius(math.NaN())
	}
	x := s.Value()
	t68 := x*(freezingCoef[0]+math.Sqrt(x)*freezingCoef[1]+x*freezingCoef[2]) +
		freezingPCoef*p.Decibars()
	return units.Celsius(t68 / t68PerT90)
}

// freezingCoef belongs to S, S^(3/2) and S² [M78], result °C IPTS-68.
var freezingCoef = [...]float64{-0.0575, 1.710523e-3, -2.154996e-4}

const freezingPCoef = -7.53e-4 // p in dbar
