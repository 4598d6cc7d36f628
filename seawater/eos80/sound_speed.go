package eos80

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// SoundSpeed returns the speed of sound in seawater.
//
//	symbol   U(S,T,P) = Cw(T,P) + A(T,P) S + B(T,P) S^(3/2) + D(P) S²
//	source   [CM77], [U44]
//	units    S PSS-78, p dbar above the surface, result m/s
//	range    0 <= S <= 40, 0 <= t <= 40 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRangeSoundSpeed tells); S < 0, NaN or Inf: NaN
func SoundSpeed(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) units.Speed {
	if !possible(s, t, p) {
		return units.Speed(math.NaN())
	}
	return units.Speed(soundSpeed(published(s, t, p)))
}

// U in powers of T [CM77, U44], U in m/s, P in bar.
var (
	soundCoef   = [...]float64{1402.388, 5.03711, -5.80852e-2, 3.3420e-4, -1.47800e-6, 3.1464e-9}
	soundPCoef  = [...]float64{0.153563, 6.8982e-4, -8.1788e-6, 1.3621e-7, -6.1185e-10}
	soundP2Coef = [...]float64{3.1260e-5, -1.7107e-6, 2.5974e-8, -2.5335e-10, 1.0405e-12}
	soundP3Coef = [...]float64{-9.7729e-9, 3.8504e-10, -2.3643e-12}

	soundSCoef   = [...]float64{1.389, -1.262e-2, 7.164e-5, 2.006e-6, -3.21e-8}
	soundPSCoef  = [...]float64{9.4742e-5, -1.2580e-5, -6.4885e-8, 1.0507e-8, -2.0122e-10}
	soundP2SCoef = [...]float64{-3.9064e-7, 9.1041e-9, -1.6002e-10, 7.988e-12}
	soundP3SCoef = [...]float64{1.100e-10, 6.649e-12, -3.389e-13}

	soundS32Coef  = [...]float64{-1.922e-2, -4.42e-5}
	soundPS32Coef = [...]float64{7.3637e-5, 1.7945e-7}

	soundS2Coef = [...]float64{1.727e-3, -7.9836e-6} // powers of P, not of T
)

func soundSpeed(s, t68, bar float64) float64 {
	water, salt := poly.P5(t68, &soundCoef), poly.P4(t68, &soundSCoef)
	b, d := soundS32Coef[0]+t68*soundS32Coef[1], soundS2Coef[0]
	if bar != 0 {
		water += bar * (poly.P4(t68, &soundPCoef) +
			bar*(poly.P4(t68, &soundP2Coef)+bar*poly.P2(t68, &soundP3Coef)))
		salt += bar * (poly.P4(t68, &soundPSCoef) +
			bar*(poly.P3(t68, &soundP2SCoef)+bar*poly.P2(t68, &soundP3SCoef)))
		b += bar * (soundPS32Coef[0] + t68*soundPS32Coef[1])
		d += bar * soundS2Coef[1]
	}
	return water + s*(salt+math.Sqrt(s)*b+s*d)
}
