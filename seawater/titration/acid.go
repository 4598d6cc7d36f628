package titration

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Coefficients of the density of hydrochloric acid and sodium chloride at 25 °C: molar mass, and
// apparent molar volume φ = φ0 + φ1 m^(1/2) + φ2 m in cm³/mol, m mol per kg of water
// [DSC, chapter 5].
var (
	hydrochloricAcid = [...]float64{36.46, 17.854, 1.460, -0.307}
	sodiumChloride   = [...]float64{58.44, 16.613, 1.811, 0.094}
)

// waterAt25 is the density of water at 25 °C in g/cm³ [DSC, chapter 5].
const waterAt25 = 0.99704

// AcidDensity returns the density at 25 °C of hydrochloric acid made up with sodium
// chloride, as alkalinity is titrated with: what takes a burette's volume to a mass.
//
//	symbol   ρ = ρw (1000 + Σ M m)/(1000 + ρw Σ φ m), φ = φ0 + φ1 mt^(1/2) + φ2 mt,
//	         m mol per kg of water, mt = Σ m
//	source   [DSC] chapter 5
//	units    arguments per kg of solution
//	range    25 °C, up to the ionic strength of seawater. A check value of the guide,
//	         1.02056 g/cm³ for 0.2 and 0.5 mol per kg of water (from memory), is
//	         2e-4 above this: weigh the acid if 0.02 % of the alkalinity matters
//	outside  extrapolates; negative, NaN, infinite or more than the solution
//	         weighs: NaN
func AcidDensity(acid, salt units.AmountPerKilogram) units.Density {
	a, s := acid.MolesPerKilogram(), salt.MolesPerKilogram()
	water := 1 - (a*hydrochloricAcid[0]+s*sodiumChloride[0])/1000 // kg in a kg of solution
	if !(a >= 0 && s >= 0 && water > 0) {
		return input.NaN[units.Density]()
	}
	a, s = a/water, s/water
	m := a + s
	volume := func(c *[4]float64) float64 { return c[1] + c[2]*math.Sqrt(m) + c[3]*m }
	return units.GramPerMillilitre * units.Density(waterAt25*
		(1000+a*hydrochloricAcid[0]+s*sodiumChloride[0])/
		(1000+waterAt25*(a*volume(&hydrochloricAcid)+s*volume(&sodiumChloride))))
}
