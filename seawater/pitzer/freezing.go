package pitzer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// Of ice and water at 0 °C and one atmosphere, for the activity that ice gives to water.
//
//	source   IAPWS R10-06 (ice), IAPWS-95 (water); J/kg, J/(kg K), J/(kg K)
const (
	meltingHeat  = 333426.5
	moreHeat     = 4219.4 - 2096.7 // heat capacity of water less that of ice
	waterSpecial = 461.52309       // gas constant of water
	meltingPoint = 273.1525        // K, under air-free atmospheric pressure
)

// iceActivity is ln of the activity at which water is in equilibrium with ice.
//
//	symbol   ln a = -(1/R) ∫ L/T² dT from T to T0, L = L0 + Δcp (T-T0)
//	range    -25 to 0 °C; 1e-5 from TEOS-10 at -6 °C, 1e-4 at -13 °C
func iceActivity(t float64) float64 {
	l := meltingHeat - moreHeat*meltingPoint
	return -(l*(1/t-1/meltingPoint) + moreHeat*math.Log(meltingPoint/t)) / waterSpecial
}

// coldest is the lowest temperature at which a freezing point is looked for.
const coldest = -25.

// FreezingPoint returns the temperature at which ice begins to form in the brine, if no salt
// falls out before.
//
//	symbol   a(T) of the brine = a of water in equilibrium with ice
//	source   the parameters, extrapolated below 0 °C
//	range    0 to 40 g/kg of sea salt within 0.005 K of TEOS-10; NaCl to -16 °C within 0.15 K
//	errors   none above -25 °C: *units.InputError
func (s *Solution) FreezingPoint() (units.Temperature, error) {
	n := s.brine.totals()
	var k model
	var cold state
	over := func(t float64) float64 {
		k.set(t)
		if !k.speciate(&n, &cold) {
			return math.NaN()
		}
		return cold.water - iceActivity(t)
	}
	t, ok := solve.Brent(over, coldest+273.15, meltingPoint, 1e-6)
	if !ok {
		return units.Temperature{}, input.Bad("brine", "ionic strength "+input.Number(s.strength),
			"one that freezes above -25 °C")
	}
	return units.Kelvin(t), nil
}

// vapourCoef is the pressure of saturated vapour over pure water.
//
//	source   [WP02] equation 2.5, IAPWS SR1-86
var vapourCoef = [...]float64{-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502}

// VapourPressure returns the pressure of water vapour over the brine.
//
//	symbol   p = a p0
//	source   [WP02] equation 2.5 for pure water
func (s *Solution) VapourPressure() units.AirPressure {
	const critical, criticalPressure = 647.096, 220640 // K, hPa
	t := s.warmth.t
	x := 1 - t/critical
	root := math.Sqrt(x)
	a := &vapourCoef
	cube := x * x * x
	ln := x*(a[0]+root*a[1]) + cube*(a[2]+root*a[3]+x*a[4]) + cube*cube*x*root*a[5]
	return units.AirPressure(criticalPressure*math.Exp(ln*critical/t)) * units.AirPressure(s.WaterActivity())
}
