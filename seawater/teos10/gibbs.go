package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// Derivatives is the specific Gibbs energy with its first and second
// derivatives in absolute salinity (per g/kg), temperature (per K) and
// pressure (per Pa). IAPWS tables give the derivatives in salinity per kg/kg:
// 1000 times S, ST and SP, a million times SS.
//
// Everything else follows from these ten numbers by the rules of
// thermodynamics [R13]; the functions with Exact in their names do that, and
// work out no more of the ten than they need.
type Derivatives struct {
	G          units.Scalar // J/kg
	S, T, P    units.Scalar
	SS, ST, SP units.Scalar
	TT, TP, PP units.Scalar
}

// Gibbs returns the Gibbs function of seawater: that of liquid water and the
// saline part together.
//
//	symbol   g = gW + gS
//	source   [SR7] and [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result J/kg and its derivatives
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
//	         S and ST are -Inf and SS is +Inf at SA = 0
func Gibbs(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) Derivatives {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	if math.IsNaN(x) {
		return noDerivatives()
	}
	d := gibbs(x, y, z)
	ln, logTerm := 2*math.Log(x), squareLog(x)
	d.G += units.Scalar(logTerm * (s100 + s110*y))
	d.T += units.Scalar(logTerm * s110 / kelvinUnit)

	var c column
	c.salineS(x, z)
	d.S = units.Scalar((c.value(y) + ln*(s100+s110*y)) / (2 * salinityUnit))
	d.ST = units.Scalar((c.slope(y) + ln*s110) / (2 * salinityUnit * kelvinUnit))
	c.salineSP(x, z)
	d.SP = units.Scalar(c.value(y) / (2 * salinityUnit * pascalUnit))
	c.salineSS(x, z)
	d.SS = units.Scalar(c.value(y) / (4 * salinityUnit * sa.GramsPerKilogram()))
	return d
}

// GibbsWater returns the Gibbs function of liquid pure water; its derivatives
// in salinity are zero.
//
//	symbol   gW = Σ w_jk τʲ πᵏ
//	source   [SR7] table 1
//	units    t °C ITS-90, p dbar; result J/kg and its derivatives
//	range    from the freezing point of seawater to 40 °C, p <= 9989 (100 MPa)
//	outside  extrapolates; meaningless input: NaN
func GibbsWater(t units.Temperature, p units.SeaPressure) Derivatives {
	x, y, z := reduce(units.AbsoluteSalinity{}, t.Celsius(), p.Decibars())
	if math.IsNaN(x) {
		return noDerivatives()
	}
	return gibbs(x, y, z)
}

// GibbsSaline returns the saline part of the Gibbs function of seawater.
//
//	symbol   gS = ξ² ln ξ Σ s1jk τʲ πᵏ + Σ s_ijk ξⁱ τʲ πᵏ
//	source   [R13] table 2
//	units    SA g/kg, t °C ITS-90, p dbar; result J/kg and its derivatives
//	range    0 <= SA <= 120, -12.15 <= t <= 80, p <= 9989 (100 MPa)
//	outside  extrapolates; meaningless input: NaN
//	         S and ST are -Inf and SS is +Inf at SA = 0
func GibbsSaline(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) Derivatives {
	d := Gibbs(sa, t, p)
	w := GibbsWater(t, p)
	d.G -= w.G
	d.T -= w.T
	d.P -= w.P
	d.TT -= w.TT
	d.TP -= w.TP
	d.PP -= w.PP
	return d
}

// gibbs returns gW + gS and its derivatives but those in salinity, without
// the logarithm.
func gibbs(x, y, z float64) Derivatives {
	var d Derivatives
	var c column
	c.seawater(x, z)
	d.G = units.Scalar(c.value(y))
	d.T = units.Scalar(c.slope(y) / kelvinUnit)
	d.TT = units.Scalar(c.curvature(y) / (kelvinUnit * kelvinUnit))
	c.seawaterP(x, z)
	d.P = units.Scalar(c.value(y) / pascalUnit)
	d.TP = units.Scalar(c.slope(y) / (kelvinUnit * pascalUnit))
	c.seawaterPP(x, z)
	d.PP = units.Scalar(c.value(y) / (pascalUnit * pascalUnit))
	return d
}

func noDerivatives() Derivatives {
	n := units.Scalar(math.NaN())
	return Derivatives{n, n, n, n, n, n, n, n, n, n}
}

// squareLog returns x² ln x with its limit 0 at x = 0.
func squareLog(x float64) float64 {
	if x == 0 {
		return 0
	}
	return x * x * math.Log(x)
}
