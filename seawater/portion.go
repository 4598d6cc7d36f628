package seawater

import (
	"math"

	"example.org/wellmixed/units"
)

// Portion is so much of a Sample: a bucket, a tank, a litre. What it keeps is
// the mass, because mass adds up and volume does not.
type Portion struct {
	Sample
	Mass units.Mass
}

// OfMass returns a mass of the water.
func (s Sample) OfMass(m units.Mass) Portion { return Portion{s, m} }

// OfVolume returns a volume of the water, measured at its temperature.
func (s Sample) OfVolume(v units.Volume) Portion { return Portion{s, s.Density().Mass(v)} }

// Volume returns the volume of the portion at its temperature.
func (p Portion) Volume() units.Volume {
	if p.Mass == 0 {
		return 0
	}
	return p.Density().Volume(p.Mass)
}

// Salt returns the mass of dissolved salt.
func (p Portion) Salt() units.Mass {
	return units.Mass(p.salinity.GramsPerKilogram() / 1000 * float64(p.Mass))
}

// Water returns the mass of the water without the salt.
func (p Portion) Water() units.Mass { return p.Mass - p.Salt() }

// Blend pours portions together: mass adds up, salt adds up, and heat adds up
// as conservative temperature, the measure of heat content of TEOS-10
// (McDougall 2003), which [HotWater] continues. That mixing salt water and fresh cools them a little, by 0.01
// K for seawater at 25 °C and 0.05 K at 0 °C, is in it; heat from the vessel and
// the air is not. Brine and fresh water near freezing can end below the range of
// a Sample: the numbers hold, but such a blend cannot be written as text.
//
// Portions of no mass do not count, and nothing but those gives an empty
// Portion. A negative mass or one that is not a number gives NaN in all that is
// asked of the blend.
func Blend(portions ...Portion) Portion {
	var mass, salt, heat float64
	freshest, saltiest := math.Inf(1), math.Inf(-1)
	only := -1
	for i, p := range portions {
		m := float64(p.Mass)
		switch {
		case m == 0:
			continue
		case !(m > 0) || math.IsInf(m, 1):
			return Portion{invalid(), units.Mass(math.NaN())}
		}
		if mass == 0 {
			only = i
		} else {
			only = -1
		}
		freshest = min(freshest, p.salinity.GramsPerKilogram())
		saltiest = max(saltiest, p.salinity.GramsPerKilogram())
		mass += m
		salt += m * p.salinity.GramsPerKilogram()
		heat += m * p.heat()
	}
	switch {
	case mass == 0:
		return Portion{}
	case only >= 0: // nothing to blend, no digit to lose
		return portions[only]
	}
	// No rounding may take the blend past its saltiest or freshest part.
	s := units.Absolute(min(max(salt/mass, freshest), saltiest))
	return Portion{ofHeat(s, heat/mass), units.Mass(mass)}
}
