package refractometer

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// SodiumChloride returns the index of a solution of sodium chloride at the
// sodium D line: what most "salinity" scales were drawn for, and the usual
// calibration fluid.
//
//	symbol   n = n_w(t) + (c1 w + c2 w² + c3 w³) k(t)/k(20 °C), w in percent
//	source   c fitted here to [CRC], 20 °C; n_w and k = dn/dS by [MS90]
//	units    w mass of salt per mass of solution, t °C ITS-90
//	range    0 <= w <= 26 %, 0 <= t <= 30 °C; at 20 °C within 5e-5, the rounding of
//	         the table
//	outside  extrapolates (CheckRangeSodiumChloride tells); w < 0 or above 1, below
//	         absolute zero, NaN, Inf, or an index below 1, that of nothing: NaN
//
// That what the salt adds falls with temperature as it does for sea salt, which
// is 86 % sodium and chloride, is an assumption. Keeping the refraction per
// kilogram of salt constant instead (Lorentz-Lorenz with the densities of [L09])
// gives 2.4e-5 less at 25 °C and 6.9e-5 less at 30 °C for 3.5 %, that is 0.13 and
// 0.4 g/kg. In seawater, where [MS90] can tell, that falls 3.0e-5 and 7.6e-5 too
// far.
func SodiumChloride(w units.Fraction, t units.Temperature) AirIndex {
	if !fractionPossible(w) {
		return AirIndex{math.NaN()}
	}
	fresh, perSalt := saltScale(t)
	return ofLiquid(fresh + perSalt*saltIndex(100*w.Value()))
}

// SodiumChlorideStrength returns the strength of a solution of sodium chloride
// of an index at the sodium D line; it undoes SodiumChloride.
//
//	source   [CRC], [MS90]
//	units    t °C ITS-90, result mass per mass of solution, inverse to 1e-14
//	range    as SodiumChloride
//	outside  extrapolates; an index below that of pure water or beyond any
//	         strength, or any other input that SodiumChloride answers with NaN: NaN
func SodiumChlorideStrength(n AirIndex, t units.Temperature) units.Fraction {
	fresh, perSalt := saltScale(t)
	w := saltPercent((n.value-fresh)/perSalt) / 100
	if w < 0 && w > -roundOff {
		w = 0
	}
	if !fractionPossible(units.Share(w)) || !(n.value >= 1) {
		w = math.NaN()
	}
	return units.Share(w)
}

// ofLiquid returns an index, or NaN if a fit that was left far behind made one
// that nothing has.
func ofLiquid(n float64) AirIndex {
	if !(n >= 1) {
		n = math.NaN()
	}
	return AirIndex{n}
}

func fractionPossible(w units.Fraction) bool { return w.Value() >= 0 && w.Value() <= 1 }

// scaleTemperature is the temperature of the tables of solutions, and the one
// that refractometers are drawn for (common practice).
const scaleTemperature = 20

// saltScale returns the index of water at t, and by what the addition of salt
// at 20 °C has to be multiplied.
func saltScale(t units.Temperature) (fresh, perSalt float64) {
	fresh, slope := millardSeaver(t, 0, SodiumD)
	_, slope20 := millardSeaver(units.Celsius(scaleTemperature), 0, SodiumD)
	return fresh, slope / slope20
}

// saltCoef is what sodium chloride adds to the index of water at 20 °C, powers
// 1 to 3 of the mass percent: a least-squares fit, made for this library, to the
// 35 rows of [CRC] from 0.1 to 26 %, which have four decimals. The fit itself
// starts at 1.33299, 3.5e-6 above the water of [MS90] to which it is added here so
// that no salt is water exactly; that is 0.02 g/kg. No row is missed by more than
// 5e-5.
var saltCoef = [...]float64{0.0017574528519499661, -1.0871736447460288e-06, 8.717177995786996e-08}

func saltIndex(percent float64) float64 { return percent * poly.P2(percent, &saltCoef) }

// saltPercent undoes saltIndex, which rises everywhere, by Newton's rule.
func saltPercent(d float64) float64 {
	percent := d / saltCoef[0]
	const enough, steps = 1e-7, 60
	for range steps {
		f := saltIndex(percent) - d
		f1 := saltCoef[0] + percent*(2*saltCoef[1]+percent*3*saltCoef[2])
		step := f / f1
		percent -= step
		if math.Abs(step) <= enough*(1+math.Abs(percent)) {
			return percent
		}
	}
	return math.NaN()
}
