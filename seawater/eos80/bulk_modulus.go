package eos80

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// SecantBulkModulus returns the mean stiffness of seawater between the surface
// and a pressure, in bar: the pressure divided by the part of its volume that
// the water has lost.
//
//	symbol   K(S,T,P) = K(S,T,0) + A(S,T) P + B(S,T) P²
//	source   [MCBS], [U44]
//	units    S PSS-78, p dbar above the surface, result bar
//	range    0 <= S <= 42, -2 <= t <= 40 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRange tells); S < 0, NaN or Inf: NaN
func SecantBulkModulus(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) float64 {
	if !possible(s, t, p) {
		return math.NaN()
	}
	return bulkModulus(published(s, t, p))
}

// K in powers of T [MCBS], K and P in bar.
var (
	modulusCoef    = [...]float64{19652.21, 148.4206, -2.327105, 1.360477e-2, -5.155288e-5}
	modulusSCoef   = [...]float64{54.6746, -0.603459, 1.09987e-2, -6.1670e-5}
	modulusS32Coef = [...]float64{7.944e-2, 1.6483e-2, -5.3009e-4}

	modulusPCoef  = [...]float64{3.239908, 1.43713e-3, 1.16092e-4, -5.77905e-7}
	modulusPSCoef = [...]float64{2.2838e-3, -1.0981e-5, -1.6078e-6}

	modulusP2Coef  = [...]float64{8.50935e-5, -6.12293e-6, 5.2787e-8}
	modulusP2SCoef = [...]float64{-9.9348e-7, 2.0816e-8, 9.1697e-10}
)

const modulusPS32Coef = 1.91075e-4 // P S^(3/2)

func bulkModulus(s, t68, bar float64) float64 {
	root := math.Sqrt(s)
	k := poly.P4(t68, &modulusCoef) +
		s*(poly.P3(t68, &modulusSCoef)+root*poly.P2(t68, &modulusS32Coef))
	a := poly.P3(t68, &modulusPCoef) +
		s*(poly.P2(t68, &modulusPSCoef)+root*modulusPS32Coef)
	b := poly.P2(t68, &modulusP2Coef) + s*poly.P2(t68, &modulusP2SCoef)
	return k + bar*(a+bar*b)
}
