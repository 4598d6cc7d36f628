package refractometer

import (
	"math"

	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Sucrose returns the index of a solution of sucrose at the sodium D line: the
// liquid that a Brix scale is drawn for, and that many instruments compensate
// for.
//
//	symbol   LL(w, t) = ρ(w, t) ((1-w) LL_w(t)/ρ_w(t) + r(w)),
//	         r from n(w, 20 °C) = n_w + what the table adds to its row of water
//	source   [I74] at 20 °C, linear between its rows; ρ [L09]; n_w [MS90]; ρ_w TEOS-10
//	units    w mass of sucrose per mass of solution, t °C ITS-90
//	range    0 <= w <= 30 %, 15 <= t <= 30 °C, where [L09] begins
//	outside  extrapolates (CheckRangeSucrose tells); w < 0 or above 1, below absolute
//	         zero, NaN or Inf: NaN
//
// Drift with temperature assumes that the refraction per kilogram of sucrose
// does not change. In seawater, where [MS90] can tell, such an assumption makes
// the index fall 3.0e-5 too far from 20 to 25 °C.
func Sucrose(w units.Fraction, t units.Temperature) AirIndex {
	if !fractionPossible(w) || !temperaturePossible(t) {
		return AirIndex{math.NaN()}
	}
	return AirIndex{sucrose(float64(w), t)}
}

// sucrose is Sucrose, going on smoothly to strengths just below zero.
func sucrose(w float64, t units.Temperature) float64 {
	t0 := units.Celsius(scaleTemperature)
	n20 := AirIndex{Seawater(units.PracticalSalinity{}, t0).value + sugarIndex(100*w)}
	sugar := refraction(n20, sucroseDensity(w, t0)) - (1-w)*waterRefraction(t0)
	return unrefract(float64(sucroseDensity(w, t)) * ((1-w)*waterRefraction(t) + sugar)).Air(SodiumD).value
}

// SucroseStrength returns the strength of a solution of sucrose of an index at
// the sodium D line; it undoes Sucrose.
//
//	source   [I74], [MS90], [L09]
//	units    t °C ITS-90, result mass per mass of solution, inverse to 1e-12
//	range    as Sucrose
//	outside  an index below that of pure water or above that of 32 %, or any
//	         other input that Sucrose answers with NaN: NaN
func SucroseStrength(n AirIndex, t units.Temperature) units.Fraction {
	w := sucroseContent(n.value, t)
	if w < 0 && w > -roundOff {
		w = 0
	}
	if !fractionPossible(units.Fraction(w)) {
		w = math.NaN()
	}
	return units.Fraction(w)
}

func sucroseContent(n float64, t units.Temperature) float64 {
	w, ok := solve.Brent(func(w float64) float64 { return sucrose(w, t) - n }, -0.01, 0.32, 1e-14)
	if !ok {
		return math.NaN()
	}
	return w
}

// refraction returns LL/ρ of a liquid, in m³/kg.
func refraction(n AirIndex, rho units.Density) float64 {
	return lorentzLorenz(n.Vacuum(SodiumD)) / float64(rho)
}

func waterRefraction(t units.Temperature) float64 {
	return refraction(Seawater(units.PracticalSalinity{}, t), teos10.DensityExact(units.Absolute(0), t, 0))
}

// sugarTable is the index at 20 °C, relative to air, of 0, 1, 2 ... 30 % sucrose [I74].
var sugarTable = [...]float64{
	1.33299, 1.33442, 1.33586, 1.33732, 1.33879, 1.34026, 1.34175, 1.34325, 1.34477, 1.34629,
	1.34782, 1.34937, 1.35093, 1.3525, 1.35408, 1.35568, 1.35729, 1.35891, 1.36054, 1.36218,
	1.36384, 1.36551, 1.3672, 1.36889, 1.3706, 1.37233, 1.37406, 1.37582, 1.37758, 1.37936,
	1.38115,
}

// sugarIndex returns what sucrose adds to the index of water at 20 °C. Beyond
// the table its first and last steps go on.
func sugarIndex(percent float64) float64 {
	i := 0
	if percent >= 1 {
		i = int(math.Min(percent, float64(len(sugarTable)-2)))
	}
	return sugarTable[i] - sugarTable[0] + (percent-float64(i))*(sugarTable[i+1]-sugarTable[i])
}
