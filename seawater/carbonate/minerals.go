package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// calciteCoef and aragoniteCoef [MUC]:
//
//	log Ksp = a + b T + c/T + d log T + (e + f T + g/T) S^(1/2) + h S + i S^(3/2)
//
// in (mol/kg)².
var (
	calciteCoef = [...]float64{
		-171.9065, -0.077993, 2839.319, 71.595,
		-0.77712, 0.0028426, 178.34, -0.07711, 0.0041249,
	}
	aragoniteCoef = [...]float64{
		-171.945, -0.077993, 2903.293, 71.595,
		-0.068393, 0.0017276, 88.135, -0.10018, 0.0059415,
	}
)

// solubilityProduct returns ln Ksp of the one or the other.
func solubilityProduct(c *conditions, a *[9]float64) float64 {
	return math.Ln10*(a[0]+a[1]*c.k+a[2]*c.inverse+
		c.root*(a[4]+a[5]*c.k+a[6]*c.inverse+a[8]*c.s)+a[7]*c.s) + a[3]*c.ln
}

// calciumCarbonateMass is the molar mass of CaCO3 in g/mol (IUPAC 2021: Ca
// 40.078, C 12.011, O 15.999).
const calciumCarbonateMass = 100.086

// CalciumCarbonate returns the content that a mass of calcium carbonate makes
// in a mass of water: what a growing coral takes from the tank. No water: NaN.
func CalciumCarbonate(solid, water units.Mass) units.AmountPerKilogram {
	if !(water > 0 && water <= math.MaxFloat64) {
		return units.AmountPerKilogram(math.NaN())
	}
	return units.AmountPerKilogram(solid.Grams()/calciumCarbonateMass/water.Kilograms()) * units.MolePerKilogram
}
