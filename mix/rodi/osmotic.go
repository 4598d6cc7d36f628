package rodi

import (
	"math"

	"example.org/wellmixed/seawater/conductivity"
	"example.org/wellmixed/units"
)

// OsmoticPressure returns the pressure that holds back a membrane when so many
// dissolved particles, ions each counted, are in a kilogram of water on its feed
// side.
//
//	symbol   π = 1.12 (273 + t) Σm
//	source   design rule, read second hand; van 't Hoff's law with an osmotic
//	         coefficient of 0.93
//	units    Σm mol per kg of water, t °C ITS-90; the rule is in psi
//	range    fresh to sea water; within 6 % of Pitzer's equations, computed with
//	         PHREEQC 3, for sodium chloride to 0.6 mol/kg and sea salt to 40 g/kg
//	outside  extrapolates; Σm < 0, t <= -273 °C, NaN or Inf: NaN
//
// Of seawater, package teos10 has the exact one.
func OsmoticPressure(particles units.AmountPerKilogram, t units.Temperature) units.GaugePressure {
	c := t.Celsius()
	p := units.GaugePressure(1.12*(273+c)*particles.MolesPerKilogram()) * units.PSIGauge
	if !(particles >= 0 && c > -273 && p <= math.MaxFloat64) {
		return units.GaugePressure(math.NaN())
	}
	return p
}

// Dissolved returns what a reading amounts to as sodium chloride.
//
//	source   conductivity.Solution.Content
//	units    result mg per litre
//	range    0 to 40 g/L, within 1 % if it is sodium chloride; tap water of calcium
//	         and hydrogen carbonate holds a third to a half more
//	outside  extrapolates; meaningless reading: NaN
func Dissolved(r units.TDS) units.MassPerLitre {
	return conductivity.SodiumChloride.Content(r.Conductivity())
}

// commonSalt is the molar mass of sodium chloride, two particles each.
const commonSalt = units.AsSodium + units.AsChloride

// osmotic returns the osmotic pressure of water of a reading, as sodium
// chloride and a kilogram to the litre.
func osmotic(r units.TDS, t units.Temperature) units.GaugePressure {
	moles := commonSalt.AmountPerLitre(Dissolved(r))
	return OsmoticPressure(2*units.AmountPerKilogram(moles)*units.MillimolePerKilogram, t)
}
