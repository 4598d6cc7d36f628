package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// Levels of NH3 itself (mg/L of NH3, not of nitrogen) above which saltwater
// animals suffer, by the ambient water quality criteria for ammonia in saltwater
// of the US EPA (1989, EPA 440/5-88-004; from memory). They were set to protect
// most species of a community, not each animal of a tank: stay well below.
const (
	ChronicAmmonia = 0.035 * units.MilligramPerLitre // mean of four days
	AcuteAmmonia   = 0.233 * units.MilligramPerLitre // mean of one hour
)

// FreeAmmonia returns the share of the total ammonia (NH3 and NH4+) that is
// NH3, the poisonous part. Multiply the total by it, in whatever unit that is,
// per litre or per kilogram.
//
//	symbol   NH3/(NH3 + NH4+) = KNH4/(KNH4 + [H])
//	source   [CW95] eq. 18, fitted on the total scale
//	units    pH on the total scale, S PSS-78, t °C ITS-90
//	range    -2 <= t <= 40 °C, 0 <= S <= 40
//	outside  extrapolates (CheckRangeAmmonia tells); S < 0, NaN, Inf, or a temperature or a
//	         pH that nobody set: NaN
//
// A pH on another scale must be turned into one on this first (NBSPH.Total and
// the like): at salinity 35 a pH on the free scale would give a quarter too much.
// Constants.FreeAmmonia works with the other fits.
func FreeAmmonia(s units.PracticalSalinity, t units.Temperature, ph TotalPH) units.Fraction {
	if !possible(s, t) || !isSet(ph.value) {
		return units.Share(math.NaN())
	}
	c := conditionsAt(s.Value(), t.Celsius())
	return freeShare(c.water*fromPK(cleggWhitfield(&c)), ph)
}

// FreeAmmonia returns the share of the total ammonia that is NH3, by the
// constant of ammonium among the constants.
// A pH that nobody set gives NaN.
func (c *Constants) FreeAmmonia(ph TotalPH) units.Fraction {
	if !isSet(ph.value) {
		return units.Share(math.NaN())
	}
	return freeShare(float64(c.KNH4), ph)
}

// freeShare is written so that an infinite pH is 0 or 1, as it should be.
func freeShare(k float64, ph TotalPH) units.Fraction {
	return units.Share(1 / (1 + fromPK(ph.value)/k))
}

// logarithm returns ln KNH4 as the authors gave it.
func (k KNH4) logarithm(c *conditions) float64 {
	switch k {
	case KNH4CleggWhitfield1995:
		return ofPK(cleggWhitfield(c))
	case KNH4CleggWhitfield1995Free:
		return ofPK(cleggWhitfieldFree(c))
	case KNH4Bell2008:
		return ofPK(bell(c))
	case KNH4YaoMillero1995:
		return yaoMillero(c)
	}
	return math.NaN()
}

// factor takes KNH4 from there to the total scale, mol/kg. free is [H] on the
// total scale over [H] on the free one, sea [H] on the total over that on the
// seawater scale.
func (k KNH4) factor(c *conditions, free, sea float64) float64 {
	switch k {
	case KNH4CleggWhitfield1995Free, KNH4Bell2008:
		return free * c.water
	case KNH4YaoMillero1995:
		return sea
	}
	return c.water
}

// cleggWhitfield returns pK on the total scale, per kg of water:
//
//	pK = a + b (1/298.15 - 1/T) + (c + d/T) S^(1/4) + (e + f T^(1/2) + g T + h/T) S^(1/2)
//	     + (i + j T^(1/2) + k T + l/T) S^(3/2) + (m + n T^(1/2) + o/T) S² + (p + q/T) S^(5/2)
func cleggWhitfield(c *conditions) float64 {
	a, rootT := &cleggWhitfieldCoef, math.Sqrt(c.k)
	return a[0] + a[1]*(1/298.15-c.inverse) + (a[2]+a[3]*c.inverse)*math.Sqrt(c.root) +
		c.root*(a[4]+a[5]*rootT+a[6]*c.k+a[7]*c.inverse+
			c.s*(a[8]+a[9]*rootT+a[10]*c.k+a[11]*c.inverse+
				c.s*(a[15]+a[16]*c.inverse))) +
		c.s*c.s*(a[12]+a[13]*rootT+a[14]*c.inverse)
}

// cleggWhitfieldFree returns pK on the free scale, per kg of water:
//
//	pK = a + b (1/298.15 - 1/T) + (a1 + a2/T + a3 T²) S^(1/2) + (a4 + a5 T + a6/T) S
//	     + (a7 + a8/T) S² + (a9 + a10/T) S³
func cleggWhitfieldFree(c *conditions) float64 {
	a := &cleggWhitfieldFreeCoef
	return a[0] + a[1]*(1/298.15-c.inverse) + (a[2]+a[3]*c.inverse+a[4]*c.k*c.k)*c.root +
		c.s*(a[5]+a[6]*c.k+a[7]*c.inverse+
			c.s*(a[8]+a[9]*c.inverse+c.s*(a[10]+a[11]*c.inverse)))
}

// bell returns pK per kg of water: pK = a + b t + c S.
func bell(c *conditions) float64 { return bellCoef[0] + bellCoef[1]*c.t + bellCoef[2]*c.s }

// yaoMillero returns ln K on the seawater scale, mol/kg:
//
//	ln K = a + b/T + c T + (d + e/T) S^(1/2) + (f + g/T) S
func yaoMillero(c *conditions) float64 {
	a := &yaoMilleroCoef
	return a[0] + a[1]*c.inverse + a[2]*c.k + c.root*(a[3]+a[4]*c.inverse) + c.s*(a[5]+a[6]*c.inverse)
}
