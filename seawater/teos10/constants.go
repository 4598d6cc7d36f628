package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// Constants that define the scales of TEOS-10 [TEOS10] [MFWM08].
const (
	standardSalinity = 35.16504           // SA of standard seawater, practical salinity 35, g/kg
	practicalUnit    = 35.16504 / 35      // g/kg per unit of practical salinity
	salinityUnit     = 40 * 35.16504 / 35 // SA_u of the polynomials, g/kg

	heatCapacity0 = float64(ConservativeHeatCapacity)
	zeroCelsius   = 273.15 // K
	atmosphere    = 101325 // Pa
)

// ConservativeHeatCapacity is c_p0, the heat that one degree of Conservative
// Temperature stands for: exact, because it defines the scale [TEOS10].
const ConservativeHeatCapacity units.SpecificHeat = 3991.86795711963

// The units of the reduced variables τ and π.
const (
	kelvinUnit = 40  // °C
	dbarUnit   = 1e4 // dbar
	pascalUnit = 1e8 // Pa, the same pressure
	pascalDbar = 1e4 // Pa per dbar
)

// possible tells whether water can have this salinity in g/kg, temperature in
// °C and pressure in dbar at all. NaN is impossible; so is an infinity: x - x
// is zero for numbers only.
func possible(sa, t, p float64) bool {
	return sa >= 0 && sa <= 1000 && t >= -zeroCelsius && (t-t)+(p-p) == 0
}

// reduce returns the variables of the Gibbs function: ξ, τ and π. ξ is NaN,
// and with it every sum, if water cannot be like that.
func reduce(sa units.AbsoluteSalinity, t, p float64) (x, y, z float64) {
	s := sa.GramsPerKilogram()
	x = math.Sqrt(s * (1 / salinityUnit))
	if !possible(s, t, p) {
		x = math.NaN()
	}
	return x, t * (1. / kelvinUnit), p * (1 / dbarUnit)
}

// reduceSquared is reduce with ξ² in the place of ξ: what can do without the root has it
// sooner.
func reduceSquared(sa units.AbsoluteSalinity, t, p float64) (w, y, z float64) {
	s := sa.GramsPerKilogram()
	w = s * (1 / salinityUnit)
	if !possible(s, t, p) {
		w = math.NaN()
	}
	return w, t * (1. / kelvinUnit), p * (1 / dbarUnit)
}
