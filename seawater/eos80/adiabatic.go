package eos80

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// AdiabaticLapseRate returns how much seawater warms when it is pressed
// without gaining or losing heat, in kelvin (IPTS-68) per dbar.
//
//	symbol   Gamma = sum of T^i (S - 35)^j p^k
//	source   [B73], [U44]
//	units    S PSS-78, p dbar above the surface, result K/dbar
//	range    30 <= S <= 40, 2 <= t <= 30 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRangeAdiabatic tells); S < 0, NaN or Inf: NaN
func AdiabaticLapseRate(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) float64 {
	if !possible(s, t, p) {
		return math.NaN()
	}
	return lapseRate(s.Value(), t68PerT90*t.Celsius(), p.Decibars())
}

// PotentialTemperature returns the temperature that seawater takes when it is
// brought to a reference pressure without gaining or losing heat.
//
//	symbol   theta = T + integral of Gamma from p to the reference, in one step
//	source   [F77], Gamma [B73], [U44]
//	units    S PSS-78, pressures dbar above the surface, result °C ITS-90
//	range    30 <= S <= 40, 2 <= t <= 30 °C, 0 <= p <= 10000 dbar
//	outside  extrapolates (CheckRangeAdiabatic tells); S < 0, NaN or Inf: NaN
func PotentialTemperature(s units.PracticalSalinity, t units.Temperature,
	p, reference units.SeaPressure) units.Temperature {
	if !possible(s, t, p) || !possible(s, t, reference) {
		return units.Celsius(math.NaN())
	}
	t68 := t68PerT90 * t.Celsius()
	change := warming(s.Value(), t68, p.Decibars(), reference.Decibars())
	return t.Add(units.TemperatureDifference(change / t68PerT90))
}

// Gamma in powers of T [B73, U44], K/dbar, p in dbar.
var (
	lapseCoef   = [...]float64{3.5803e-5, 8.5258e-6, -6.836e-8, 6.6228e-10}
	lapseSCoef  = [...]float64{1.8932e-6, -4.2393e-8} // S - 35
	lapsePCoef  = [...]float64{1.8741e-8, -6.7795e-10, 8.733e-12, -5.4481e-14}
	lapsePSCoef = [...]float64{-1.1351e-10, 2.7759e-12} // p (S - 35)
	lapseP2Coef = [...]float64{-4.6206e-13, 1.8676e-14, -2.1687e-16}
)

func lapseRate(s, t68, p float64) float64 {
	s -= 35
	return poly.P3(t68, &lapseCoef) + s*(lapseSCoef[0]+t68*lapseSCoef[1]) +
		p*(poly.P3(t68, &lapsePCoef)+s*(lapsePSCoef[0]+t68*lapsePSCoef[1])+
			p*poly.P2(t68, &lapseP2Coef))
}

// The fractions of Gill's form of the fourth-order Runge-Kutta step, 1 - 1/√2
// and its kin, with the digits that [F77] and [U44] print.
const (
	gill1 = 0.29289322
	gill2 = 0.58578644
	gill3 = 0.121320344
	gill4 = 1.707106781
	gill5 = 3.414213562
	gill6 = 4.121320344
)

// warming returns theta - T in kelvin of IPTS-68, by one Runge-Kutta-Gill step
// from p to the reference.
func warming(s, t68, p, reference float64) float64 {
	h := reference - p
	middle := p + h/2
	k := h * lapseRate(s, t68, p)
	d := k / 2
	q := k
	k = h * lapseRate(s, t68+d, middle)
	d += gill1 * (k - q)
	q = gill2*k + gill3*q
	k = h * lapseRate(s, t68+d, middle)
	d += gill4 * (k - q)
	q = gill5*k - gill6*q
	k = h * lapseRate(s, t68+d, reference)
	return d + (k-2*q)/6
}
