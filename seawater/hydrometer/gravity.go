package hydrometer

import (
	"math"

	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Gravity returns the specific gravity of seawater for a pair of temperatures.
// The temperature that the water happens to have does not enter.
//
//	symbol   SG = ρ(SA, Ta)/ρw(Tb)
//	source   [E100], densities [R13]
//	units    SA g/kg, the pair °C ITS-90; result a pure number with its pair
//	range    0 <= SA <= 120, both temperatures -2 <= t <= 40
//	outside  extrapolates (CheckRange tells); meaningless input: NaN
func Gravity(sa units.AbsoluteSalinity, pair units.GravityPair) units.SpecificGravity {
	liquid := teos10.DensityExact(sa, pair.Liquid, 0)
	return units.Gravity(float64(liquid/pureWater(pair.Water)), pair)
}

// Salinity returns the absolute salinity of seawater of a specific gravity. It
// is the inverse of Gravity: for a number that is a specific gravity, as from a
// table or a laboratory. What a hydrometer shows is one only at the temperature
// of its pair; otherwise ask the Hydrometer.
//
//	symbol   SA such that ρ(SA, Ta) = SG ρw(Tb)
//	source   [E100], densities [R13]
//	units    result g/kg, inverse to 1e-11 g/kg
//	range    of the result, 0 <= SA <= 120; both temperatures -2 <= t <= 40
//	outside  extrapolates (CheckRange tells); lighter than pure water: NaN
func Salinity(g units.SpecificGravity) units.AbsoluteSalinity {
	rho := units.Density(g.Ratio()) * pureWater(g.Pair().Water)
	if !(rho > 0 && rho <= math.MaxFloat64) {
		return units.Absolute(math.NaN())
	}
	return teos10.SalinityFromDensityExact(rho, g.Pair().Liquid, 0)
}

func pureWater(t units.Temperature) units.Density {
	return teos10.DensityExact(units.Absolute(0), t, 0)
}
