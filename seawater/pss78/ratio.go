package pss78

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// StandardConductivity is C(35, 15, 0), the conductivity of seawater of
// practical salinity 35 at 15 °C (IPTS-68) under one atmosphere [CS80].
const StandardConductivity = 42.9140 * units.MillisiemensPerCentimetre

// Ratio is a conductivity divided by StandardConductivity: the R of the
// published tables. The scale needs no more than that, so an instrument set in
// standard seawater can work without knowing any mS/cm.
type Ratio float64

// RatioOf returns the ratio of a conductivity.
func RatioOf(c units.Conductivity) Ratio { return Ratio(c / StandardConductivity) }

// Conductivity returns the conductivity of the ratio.
func (r Ratio) Conductivity() units.Conductivity {
	return units.Conductivity(r) * StandardConductivity
}

// t68PerT90 turns a temperature on ITS-90 into one on IPTS-68 [S90].
const t68PerT90 = 1.00024

// rtCoef is rt against temperature, powers 0 to 4 of T [PL80, U44].
var rtCoef = [...]float64{
	0.6766097,
	2.00564e-2,
	1.104259e-4,
	-6.9698e-7,
	1.0031e-9,
}

// rt returns the conductivity of seawater of salinity 35 over that at 15 °C.
// The pairs of terms do not wait for each other, as they would in Horner's
// rule.
func rt(t68 float64) float64 {
	t2 := t68 * t68
	return rtCoef[0] + rtCoef[1]*t68 + t2*(rtCoef[2]+rtCoef[3]*t68+rtCoef[4]*t2)
}

// The effect of pressure [PL80, U44]:
//
//	Rp = 1 + p (e1 + e2 p + e3 p²) / (1 + d1 T + d2 T² + (d3 + d4 T) R)
var (
	rpPressureCoef = [...]float64{2.070e-5, -6.370e-10, 3.989e-15} // e1, e2, e3: per dbar, dbar², dbar³
	rpSquareCoef   = [...]float64{1, 3.426e-2, 4.464e-4}           // 1, d1, d2
	rpRatioCoef    = [...]float64{4.215e-1, -3.107e-3}             // d3, d4
)

// rp returns Rp at conductivity ratio r, as the fraction over/under.
func rp(r, t68, p float64) (over, under float64) {
	under = poly.P2(t68, &rpSquareCoef) + (rpRatioCoef[0]+rpRatioCoef[1]*t68)*r
	return under + p*poly.P2(p, &rpPressureCoef), under
}

// atPressure returns the ratio R at p of water whose ratio at the surface is
// r0. R = r0 Rp(R) is a quadratic, A R² + (B - A r0) R = r0 (B + p e(p)) with
// A = d3 + d4 T and B = 1 + d1 T + d2 T²; this form of its positive root takes
// no difference of nearly equal numbers in dilute water.
func atPressure(r0, t68, p float64) float64 {
	if p == 0 {
		return r0
	}
	a := rpRatioCoef[0] + rpRatioCoef[1]*t68
	b := poly.P2(t68, &rpSquareCoef)
	d := b - a*r0
	e := r0 * (b + p*poly.P2(p, &rpPressureCoef))
	return 2 * e / (d + math.Sqrt(d*d+4*a*e))
}
