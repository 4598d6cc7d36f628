package refractometer

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// Seawater returns the index of seawater at the sodium D line and the surface:
// MillardSeaver at p = 0 and λ = SodiumD.
func Seawater(s units.PracticalSalinity, t units.Temperature) AirIndex {
	return MillardSeaver(s, t, 0, SodiumD)
}

// SeawaterSalinity returns the salinity of seawater of an index at the sodium
// D line and the surface; it undoes Seawater.
func SeawaterSalinity(n AirIndex, t units.Temperature) units.PracticalSalinity {
	return MillardSeaverSalinity(n, t, 0, SodiumD)
}

// MillardSeaver returns the index of seawater at any pressure.
//
//	symbol   n = n_I(T, λ) + n_II(S, T, λ) + n_III(p, T, λ) + n_IV(S, p, T), 27 terms
//	source   [MS90]
//	units    S PSS-78, p dbar, λ µm
//	range    0 <= S <= 40, 0 <= t <= 30 °C, 0 <= p <= 11000 dbar, 500 to 700 nm;
//	         0.4 ppm in pure water at the surface, 80 ppm in the deep
//	outside  extrapolates (CheckRangeMillardSeaver tells); S < 0, below absolute
//	         zero, less than no pressure, λ <= 0, NaN or Inf: NaN
func MillardSeaver(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure, w Wavelength) AirIndex {
	if !amountPossible(s.Value()) {
		return AirIndex{math.NaN()}
	}
	fresh, slope := millardSeaver(t, p, w)
	return AirIndex{fresh + s.Value()*slope}
}

// MillardSeaverSalinity returns the salinity of seawater of an index. The
// formula is linear in salinity, so this is its exact inverse.
//
//	source   [MS90]
//	units    p dbar, λ µm, result PSS-78
//	range    as MillardSeaver
//	outside  extrapolates; an index below that of pure water, or any other
//	         input that MillardSeaver answers with NaN: NaN
func MillardSeaverSalinity(n AirIndex, t units.Temperature, p units.SeaPressure, w Wavelength) units.PracticalSalinity {
	return saltOf(n, fromSlope(millardSeaver(t, p, w)))
}

// QuanFry returns the index of seawater at the surface.
//
//	symbol   n = n0 + (n1 + n2 T + n3 T²) S + n4 T² + (n5 + n6 S + n7 T)/λ + n8/λ² + n9/λ³
//	source   [QF95], a fit to [AH76]
//	units    S PSS-78, λ nm
//	range    0 <= S <= 35, 0 <= t <= 30 °C, 400 to 700 nm; within 5.8e-5 of [AH76].
//	         It is linear in S, and to S = 40 stays within 5e-5 of MillardSeaver
//	outside  extrapolates (CheckRangeQuanFry tells); S < 0, below absolute zero,
//	         λ <= 0, NaN or Inf: NaN
func QuanFry(s units.PracticalSalinity, t units.Temperature, w Wavelength) AirIndex {
	if !amountPossible(s.Value()) {
		return AirIndex{math.NaN()}
	}
	fresh, slope := quanFry(t, w)
	return AirIndex{fresh + s.Value()*slope}
}

// QuanFrySalinity returns the salinity of seawater of an index; it undoes
// QuanFry exactly.
//
//	source   [QF95]
//	units    λ nm, result PSS-78
//	range    as QuanFry
//	outside  extrapolates; an index below that of pure water, or any other
//	         input that QuanFry answers with NaN: NaN
func QuanFrySalinity(n AirIndex, t units.Temperature, w Wavelength) units.PracticalSalinity {
	return saltOf(n, fromSlope(quanFry(t, w)))
}

// line is an index that is linear in what is dissolved.
type line struct{ fresh, slope float64 }

func fromSlope(fresh, slope float64) line { return line{fresh, slope} }

// saltOf returns where the line reaches n.
func saltOf(n AirIndex, l line) units.PracticalSalinity {
	s := (n.value - l.fresh) / l.slope
	if s < 0 && s > -roundOff {
		s = 0
	}
	if !amountPossible(s) {
		s = math.NaN()
	}
	return units.Practical(s)
}

// roundOff is a salinity that the last bits of an index cannot tell from zero.
const roundOff = 1e-11

// The terms of [MS90]: T in °C, p in dbar, λ in µm.
var (
	// 1, λ², λ⁻², λ⁻⁴, λ⁻⁶
	msLightCoef = [...]float64{1.3280657, -0.0045536802, 0.0025471707, 7.501966e-6, 2.802632e-6}
	msWarmCoef  = [...]float64{-5.2883907e-6, -3.0738272e-6, 3.0124687e-8, -2.0883178e-10} // T to T⁴
	msWarmLCoef = [...]float64{1.0508621e-5, 2.1282248e-7, -1.705881e-9}                   // λ times T to T³
	msSaltCoef  = [...]float64{1.9029121e-4, -7.3960297e-7, 8.9818478e-9, 1.2078804e-10}   // S times 1 to T³

	msPressCoef  = [...]float64{1.5868383e-6, -9.4834486e-9, 1.0100326e-10}   // p times 1 to T²
	msPress2Coef = [...]float64{-1.574074e-11, 0, 5.8085198e-15}              // p² times 1 to T²
	msPressSCoef = [...]float64{-1.1177517e-9, 5.7311268e-11, -1.5460458e-12} // p S times 1 to T²
)

// The terms of [MS90] that stand alone.
const (
	msSaltLMCoef  = 2.4239607e-6 // S λ⁻²
	msSaltTLCoef  = -3.589495e-7 // S T λ
	msPressLMCoef = 1.0712063e-8 // p λ⁻²
)

// millardSeaver returns the index without salt and what a unit of salinity
// adds.
func millardSeaver(t units.Temperature, p units.SeaPressure, w Wavelength) (fresh, slope float64) {
	if !(temperaturePossible(t) && pressurePossible(p) && lightPossible(w)) {
		return math.NaN(), math.NaN()
	}
	t68, um, dbar := t68PerT90*t.Celsius(), w.Micrometres(), p.Decibars()
	l2 := um * um
	lm2 := 1 / l2
	fresh = msLightCoef[0] + msLightCoef[1]*l2 + lm2*(msLightCoef[2]+lm2*(msLightCoef[3]+lm2*msLightCoef[4])) +
		t68*(poly.P3(t68, &msWarmCoef)+um*poly.P2(t68, &msWarmLCoef))
	slope = poly.P3(t68, &msSaltCoef) + lm2*msSaltLMCoef + t68*um*msSaltTLCoef
	if dbar == 0 {
		return fresh, slope
	}
	fresh += dbar * (poly.P2(t68, &msPressCoef) + lm2*msPressLMCoef + dbar*poly.P2(t68, &msPress2Coef))
	slope += dbar * poly.P2(t68, &msPressSCoef)
	return fresh, slope
}

// quanFryCoef is n0 to n9 [QF95]: T in °C, λ in nm.
var quanFryCoef = [...]float64{
	1.31405,
	1.779e-4,
	-1.05e-6,
	1.6e-8,
	-2.02e-6,
	15.868,
	0.01155,
	-0.00423,
	-4382,
	1.1455e6,
}

func quanFry(t units.Temperature, w Wavelength) (fresh, slope float64) {
	if !(temperaturePossible(t) && lightPossible(w)) {
		return math.NaN(), math.NaN()
	}
	c := &quanFryCoef
	t68, m := t68PerT90*t.Celsius(), 1/w.Nanometres()
	fresh = c[0] + c[4]*t68*t68 + m*(c[5]+c[7]*t68+m*(c[8]+m*c[9]))
	slope = c[1] + t68*(c[2]+t68*c[3]) + m*c[6]
	return fresh, slope
}
