package refractometer

import (
	"math"

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
//	         zero, NaN, Inf, or an index below 1, that of nothing: NaN
//
// Drift with temperature assumes that the refraction per kilogram of sucrose
// does not change. In seawater, where [MS90] can tell, such an assumption makes
// the index fall 3.0e-5 too far from 20 to 25 °C.
func Sucrose(w units.Fraction, t units.Temperature) AirIndex {
	if !fractionPossible(w) || !temperaturePossible(t) {
		return AirIndex{math.NaN()}
	}
	return ofLiquid(sucrose(w.Value(), t))
}

// sucrose is Sucrose, going on smoothly to strengths just below zero.
func sucrose(w float64, t units.Temperature) float64 {
	s := sugarAt(t)
	return s.index(w)
}

// sugared is what the index of sugared water depends on at one temperature.
type sugared struct {
	fresh              float64  // index of water at 20 °C
	water20, water     float64  // refraction of water at 20 °C and at t
	density20, density solution // of the sugared water
}

func sugarAt(t units.Temperature) sugared {
	t0 := units.Celsius(scaleTemperature)
	fresh := Seawater(units.PracticalSalinity{}, t0)
	s := sugared{fresh: fresh.value, density20: solutionAt(t0, &sugarDensityCoef)}
	s.water20 = refraction(fresh, s.density20.water)
	s.water, s.density = s.water20, s.density20
	if t != t0 {
		s.density = solutionAt(t, &sugarDensityCoef)
		s.water = refraction(Seawater(units.PracticalSalinity{}, t), s.density.water)
	}
	return s
}

// index returns the index of a strength, relative to air.
func (s *sugared) index(w float64) float64 {
	sugar := refraction(AirIndex{s.fresh + sugarIndex(100*w)}, s.density20.of(w)) - (1-w)*s.water20
	return unrefract(s.density.of(w) * ((1-w)*s.water + sugar)).Air(SodiumD).value
}

// refraction returns LL/ρ of a liquid, in m³/kg.
func refraction(n AirIndex, rho float64) float64 { return lorentzLorenz(n.Vacuum(SodiumD)) / rho }

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
	if !fractionPossible(units.Share(w)) || !(n.value >= 1) {
		w = math.NaN()
	}
	return units.Share(w)
}

// sucroseContent begins with the strength that has the index at 20 °C, with what
// the water has drifted taken away, and goes on by secants. As the index is almost a
// straight line, four are enough; the bends between the rows of the table cost one
// more at most.
func sucroseContent(n float64, t units.Temperature) float64 {
	s := sugarAt(t)
	w, slope := sugarStrengthOf(n - s.index(0))
	off := s.index(w) - n
	const enough, secants = 1e-10, 16 // of a step; a hundredth of it is left, and less between bends
	for range secants {
		step := off / slope
		w -= step
		if !(w >= -0.01 && w <= 0.32) {
			break
		}
		before := off
		off = s.index(w) - n
		if math.Abs(step) <= enough {
			return w - off/slope
		}
		slope = (before - off) / step
	}
	return math.NaN()
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

// sugarStrengthOf undoes sugarIndex, and returns the slope there as well, by the mass
// fraction.
func sugarStrengthOf(d float64) (w, slope float64) {
	i := 0
	for i < len(sugarTable)-2 && d >= sugarTable[i+1]-sugarTable[0] {
		i++
	}
	slope = 100 * (sugarTable[i+1] - sugarTable[i])
	return float64(i)/100 + (d-(sugarTable[i]-sugarTable[0]))/slope, slope
}
