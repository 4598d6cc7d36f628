package weighing

import (
	"math"

	"example.org/wellmixed/units"
)

// steel is the conventional density of the weights with which balances are set,
// kg/m³ [D28].
const steel = 8000

// TrueMass returns the mass of a thing of the density rho for which a balance
// in this air shows so much.
//
//	symbol   m = W (1 - ρa/ρb)/(1 - ρa/ρ)
//	source   [D28]
//	units    any mass; densities kg/m³
//	range    things much denser than air: water +0.105 %, sea salt +0.040 %
//	outside  a density not above that of the air, NaN or Inf: NaN
func TrueMass(shown units.Mass, rho, air units.Density) units.Mass {
	return finite(shown) * units.Mass(steelLift(air)/lift(rho, air))
}

// Shown returns what a balance shows for a thing of the mass m. It is the inverse
// of TrueMass.
//
//	symbol   W = m (1 - ρa/ρ)/(1 - ρa/ρb)
//	source   [D28]
func Shown(m units.Mass, rho, air units.Density) units.Mass {
	return finite(m) * units.Mass(lift(rho, air)/steelLift(air))
}

// Volume returns the volume of a liquid of the density rho for which a balance in
// this air shows so much.
//
//	symbol   V = W/ρb (ρb - ρa)/(ρ - ρa)
//	source   [I4787]
//	units    any volume; densities kg/m³
//	outside  a density not above that of the air, NaN or Inf: NaN
func Volume(shown units.Mass, rho, air units.Density) units.Volume {
	return rho.Volume(TrueMass(shown, rho, air))
}

// finite returns a mass, or NaN if it is one without end.
func finite(m units.Mass) units.Mass { return m + (m - m) }

// lift returns what the air leaves of the weight of a thing.
func lift(rho, air units.Density) float64 {
	if !(rho > air && air >= 0 && rho <= math.MaxFloat64) {
		return math.NaN()
	}
	return 1 - float64(air/rho)
}

func steelLift(air units.Density) float64 { return lift(steel, air) }
