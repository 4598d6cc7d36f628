package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// AbsoluteFromPractical returns the absolute salinity of seawater of reference
// composition, called reference salinity S_R: what the salt weighs if its ions
// stand in the proportions of standard seawater.
//
//	symbol   SA = S_R = (35.16504/35) SP
//	source   [MFWM08]
//	units    SP PSS-78, SA g/kg
//	range    2 <= SP <= 42, the range of PSS-78
//	outside  extrapolates; SP < 0, NaN or infinite, or contents that leave a negative salinity: NaN
func AbsoluteFromPractical(sp units.PracticalSalinity) units.AbsoluteSalinity {
	s := sp.Value()
	if !(s >= 0 && s-s == 0) {
		s = math.NaN()
	}
	return units.Absolute(s * practicalUnit)
}

// PracticalFromAbsolute returns the practical salinity of seawater of
// reference composition; it undoes AbsoluteFromPractical.
//
//	symbol   SP = (35/35.16504) SA
//	source   [MFWM08]
//	units    SA g/kg, SP PSS-78
//	range    2 <= SP <= 42, the range of PSS-78
//	outside  extrapolates; SA < 0, above 1000 or NaN: NaN
func PracticalFromAbsolute(sa units.AbsoluteSalinity) units.PracticalSalinity {
	s := sa.GramsPerKilogram()
	if !possible(s, 0, 0) {
		s = math.NaN()
	}
	return units.Practical(s / practicalUnit)
}

// Solutes are the contents that most often differ between a water and
// standard seawater diluted to its conductivity.
type Solutes struct {
	Alkalinity units.AmountPerKilogram
	Carbon     units.AmountPerKilogram // dissolved inorganic carbon
	Nitrate    units.AmountPerKilogram
	Silicate   units.AmountPerKilogram
}

// Coefficients of the density salinity [PWM11] [TEOS10, appendix A.4], g/mol,
// and the contents of standard seawater that they start from, mol/kg.
const (
	anomalyAlkalinity = 55.6
	anomalyCarbon     = 4.7
	anomalyNitrate    = 38.9
	anomalySilicate   = 50.7

	standardAlkalinity = 0.0023
	standardCarbon     = 0.00208
)

// SalinityAnomaly returns how much more salt a water holds, as its density
// feels it, than its conductivity tells. Contents like those of standard
// seawater give nearly zero; zero contents do not.
//
//	symbol   δSA = 55.6 (TA - 0.0023 SP/35) + 4.7 (DIC - 0.00208 SP/35) + 38.9 NO3 + 50.7 Si(OH)4
//	source   [PWM11]; [TEOS10] appendix A.4
//	units    SP PSS-78, contents mol/kg in the formula; result g/kg
//	range    the small changes of ocean water; for tank water an estimate. Calcium,
//	         magnesium or sulphate off their proportions are not in it
//	outside  extrapolates; SP < 0 or NaN: NaN
func SalinityAnomaly(sp units.PracticalSalinity, w Solutes) float64 {
	share := AbsoluteFromPractical(sp).GramsPerKilogram() * (1 / standardSalinity)
	return w.salt() - share*(anomalyAlkalinity*standardAlkalinity+anomalyCarbon*standardCarbon)
}

// DensitySalinity returns the absolute salinity that makes the density right
// for a water of known contents: reference salinity plus SalinityAnomaly.
//
//	symbol   SA = (35.16504/35) SP + δSA
//	source   [PWM11]; [TEOS10] appendix A.4
//	units    SP PSS-78, SA g/kg
//	range    as SalinityAnomaly
//	outside  extrapolates; SP < 0, NaN or infinite, or contents that leave a negative salinity: NaN
func DensitySalinity(sp units.PracticalSalinity, w Solutes) units.AbsoluteSalinity {
	return salinityResult(AbsoluteFromPractical(sp).GramsPerKilogram() + SalinityAnomaly(sp, w))
}

// PracticalFromDensitySalinity returns the practical salinity of a water of known
// contents; it undoes DensitySalinity.
//
//	source   [PWM11]; [TEOS10] appendix A.4
//	units    SA g/kg, SP PSS-78
//	range    as SalinityAnomaly
//	outside  extrapolates; SA < 0, above 1000 or NaN, or contents that leave a negative salinity: NaN
func PracticalFromDensitySalinity(sa units.AbsoluteSalinity, w Solutes) units.PracticalSalinity {
	s := sa.GramsPerKilogram()
	if !possible(s, 0, 0) {
		s = math.NaN()
	}
	const perUnit = practicalUnit - (anomalyAlkalinity*standardAlkalinity+anomalyCarbon*standardCarbon)/35
	sp := (s - w.salt()) / perUnit
	if !(sp >= 0) {
		sp = math.NaN()
	}
	return units.Practical(sp)
}

// salt returns what the contents weigh in the density, in g/kg.
func (w Solutes) salt() float64 {
	return anomalyAlkalinity*w.Alkalinity.MolesPerKilogram() + anomalyCarbon*w.Carbon.MolesPerKilogram() +
		anomalyNitrate*w.Nitrate.MolesPerKilogram() + anomalySilicate*w.Silicate.MolesPerKilogram()
}

// Properties of the salt of standard seawater [MFWM08].
const (
	saltMolarMass = 0.0314038218 // kg/mol, mole-weighted
	saltValence   = 1.2452898    // mole-weighted square of the charges
)

// Molality returns the amount of sea-salt particles per kilogram of water,
// in mol/kg.
//
//	symbol   m = SA/(M_S (1000 g/kg - SA)), M_S = 31.4038218 g/mol
//	source   [MFWM08]
//	units    SA g/kg; result mol per kg of water
//	outside  SA < 0, above 1000 or NaN: NaN
func Molality(sa units.AbsoluteSalinity) float64 {
	s := sa.GramsPerKilogram()
	if !possible(s, 0, 0) {
		return math.NaN()
	}
	return s / (saltMolarMass * (1000 - s))
}

// IonicStrength returns the ionic strength on the molality scale, in mol/kg.
//
//	symbol   I = m/2 · Σ X z² , Σ X z² = 1.2452898
//	source   [MFWM08]
//	units    SA g/kg; result mol per kg of water
//	outside  SA < 0, above 1000 or NaN: NaN
func IonicStrength(sa units.AbsoluteSalinity) float64 { return 0.5 * saltValence * Molality(sa) }
