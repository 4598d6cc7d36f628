package electrode

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// SeawaterBuffer is a buffer in artificial seawater, on the total scale. Tris,
// TrisMueller2018 and Aminopyridine make one. Choose the salinity of the
// water that is to be measured, to within a few units: then the junction of the
// electrode does not notice the change.
type SeawaterBuffer struct {
	formula  formula
	salinity float64
	molality float64 // of tris, mol per kg of water
}

type formula uint8

const (
	tris1998 formula = iota + 1
	tris2018
	aminopyridine2007
)

// seawaterUncertainty is the standard uncertainty of the pH of a buffer made up
// with care (from memory); certified tris is some times better.
const seawaterUncertainty = 0.005

// Tris returns the equimolal buffer of 0.04 mol tris and 0.04 mol of its
// hydrochloride per kg of water, in artificial seawater of salinity s: pH 8.094 at
// salinity 35 and 25 °C. It is not the Buffer TrisInWater.
//
//	symbol   pH = (a0 + a1 S + a2 S²)/T + b0 + b1 S + b2 S² + (c0 + c1 S) ln T + d0 T
//	source   [DD98], [DSC] SOP 6a
//	units    S PSS-78, t °C ITS-90; total scale, mol per kg of solution
//	range    20 <= S <= 40, 0 <= t <= 45 °C
//	outside  extrapolates (CheckRange tells); S < 0, S > 120, t < -100 °C, t > 400 °C or NaN: NaN
func Tris(s units.PracticalSalinity) SeawaterBuffer {
	return SeawaterBuffer{formula: tris1998, salinity: s.Value(), molality: 0.04}
}

// TrisMueller2018 returns the equimolal tris buffer of another molality of tris, per
// kilogram of water, down to brackish salinities. At 0.04 mol/kg it agrees with
// Tris within 0.0012.
//
//	symbol   pH = p0(S) + p1(S) T + p2(S) ln T + k/T
//	              + b (k_b + k_bS S + k_bT T + k_bST S T) + b² (k_b2 + k_b2S S),
//	         p0, p1, p2 cubic
//	source   [M18]
//	units    S PSS-78, t °C ITS-90, b mol/kg water; total scale, mol per kg of solution
//	range    5 <= S <= 40, 5 <= t <= 45 °C, 0.01 <= b <= 0.04, 0.04 for S >= 20 only
//	outside  extrapolates (CheckRange tells); as Tris, b < 0: NaN
func TrisMueller2018(s units.PracticalSalinity, molality units.AmountPerKilogram) SeawaterBuffer {
	return SeawaterBuffer{formula: tris2018, salinity: s.Value(), molality: molality.MolesPerKilogram()}
}

// Aminopyridine returns the equimolal buffer of 2-aminopyridine, 0.04 mol/kg, in
// artificial seawater of salinity s: pH 6.787 at salinity 35 and 25 °C. With Tris it
// gives the slope on the total scale.
//
//	symbol   pH = (a0 + a1 S)/T + b0 + b1 S + c0 ln T - lg(1 + d0 S)
//	source   [DSC] SOP 6a
//	units    S PSS-78, t °C ITS-90; total scale, mol per kg of solution
//	range    30 <= S <= 40, 5 <= t <= 40 °C (from memory)
//	outside  extrapolates (CheckRange tells); as Tris
func Aminopyridine(s units.PracticalSalinity) SeawaterBuffer {
	return SeawaterBuffer{formula: aminopyridine2007, salinity: s.Value()}
}

// tris1998Coef: a0 a1 a2, b0 b1 b2, c0 c1, d0 of Tris [DD98].
var (
	tris1998A = [...]float64{11911.08, -18.2499, -0.039336}
	tris1998B = [...]float64{-366.27059, 0.53993607, 0.00016329}
	tris1998C = [...]float64{64.52243, -0.084041}
	tris1998D = -0.11149858
)

// The coefficients of TrisMueller2018 [M18]: in powers of S, the constant term, that
// of T and that of ln T; that of 1/T; those with the molality.
var (
	tris2018One     = [...]float64{-327.3307, -2.40027, 0.0812463, -0.0009635344}
	tris2018T       = [...]float64{-0.09103207, -0.001963311, 6.430229e-05, -7.510992e-07}
	tris2018LogT    = [...]float64{56.92797, 0.5235889, -0.017602, 0.0002082387}
	tris2018Inverse = 11382.97
	tris2018B       = [...]float64{-2.417045, 0.07645221}
	tris2018BT      = [...]float64{0.01122392, -0.0003248381}
	tris2018B2      = [...]float64{-4.161537, 0.06143395}
)

// The coefficients of Aminopyridine [DSC]: a0 a1, b0 b1, c0, d0.
var (
	aminopyridineA = [...]float64{111.35, 5.44875}
	aminopyridineB = [...]float64{41.6775, -0.015683}
	aminopyridineC = -6.20815
	aminopyridineD = -0.00106
)

// PH returns the pH of the fresh buffer at a temperature, by the formula that is
// with the function that made it.
func (b SeawaterBuffer) PH(t units.Temperature) carbonate.TotalPH {
	return carbonate.PHTotal(b.ph(t))
}

func (b SeawaterBuffer) ph(t units.Temperature) float64 {
	s, c, k := b.salinity, t.Celsius(), t.Kelvin()
	if !(s >= 0 && s <= 120 && c >= -100 && c <= 400) {
		return math.NaN()
	}
	logT := math.Log(k)
	switch b.formula {
	case tris1998:
		return poly.Horner(s, tris1998A[:])/k + poly.Horner(s, tris1998B[:]) +
			poly.Horner(s, tris1998C[:])*logT + tris1998D*k
	case tris2018:
		m := b.molality
		if !(m >= 0 && m <= math.MaxFloat64) {
			return math.NaN()
		}
		return poly.Horner(s, tris2018One[:]) + poly.Horner(s, tris2018T[:])*k +
			poly.Horner(s, tris2018LogT[:])*logT + tris2018Inverse/k +
			m*(poly.Horner(s, tris2018B[:])+poly.Horner(s, tris2018BT[:])*k+m*poly.Horner(s, tris2018B2[:]))
	case aminopyridine2007:
		return poly.Horner(s, aminopyridineA[:])/k + poly.Horner(s, aminopyridineB[:]) +
			aminopyridineC*logT - math.Log10(1+aminopyridineD*s)
	}
	return math.NaN()
}

// CheckRange returns a *units.RangeError for a salinity, temperature or molality
// that the formula was not made for, an *units.InputError for the zero
// SeawaterBuffer, and otherwise nil.
func (b SeawaterBuffer) CheckRange(t units.Temperature) error {
	switch b.formula {
	case tris1998:
		return firstError(tris1998Salinity.Check(b.salinity), tris1998Temperature.Check(t.Celsius()))
	case tris2018:
		molality := tris2018Molality
		if b.salinity < 20 {
			molality = tris2018Brackish
		}
		return firstError(tris2018Salinity.Check(b.salinity), tris2018Temperature.Check(t.Celsius()),
			molality.Check(b.molality))
	case aminopyridine2007:
		return firstError(aminopyridineSalinity.Check(b.salinity), aminopyridineTemperature.Check(t.Celsius()))
	}
	return input.Bad("buffer", "nothing", "one that Tris, TrisMueller2018 or Aminopyridine made")
}

// Point returns the calibration point of an electrode that gives reading in the
// fresh buffer at the temperature t of the buffer. Salinity or temperature outside
// the formula make Calibrate fail.
func (b SeawaterBuffer) Point(reading units.Voltage, t units.Temperature) Point[carbonate.TotalPH] {
	return Point[carbonate.TotalPH]{
		PH: b.PH(t), PHUncertainty: seawaterUncertainty, PerKelvin: perKelvin(b.PH, t),
		Reading: reading, Temperature: t,
		refused: firstError(input.Set("temperature of the buffer", t), b.CheckRange(t)),
	}
}
