package conductivity

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// PureWater returns the conductivity of water that holds nothing but water and
// its own ions. Its Resistivity is how purified water is graded: 18.18 MΩ·cm at
// 25 °C.
//
//	symbol   κ = ρ Kw^(1/2) (λ(H+) + λ(OH-)), Λ°(t) = Λ°(25) L(t)/L(25),
//	         L = Λ°(HCl) + Λ°(NaOH) - Λ°(NaCl)
//	source   [LLBM] for the equation; Kw [R11], Λ°(25) [M97], L [MC11], ρ of package teos10
//	units    t °C ITS-90
//	range    0 <= t <= 40 °C. At 25 °C it is the 0.0550 ± 0.0001 µS/cm of [LLBM]; elsewhere
//	         within 1.1 % of the transport model of PHREEQC 3
//	outside  extrapolates (CheckRangePureWater tells); t < -5 °C, t > 90 °C or NaN: NaN
//
// It rises by 5 % per kelvin, so a meter that compensates with 2 % shows too much
// in warm purified water and too little in cold.
func PureWater(t units.Temperature) units.Conductivity {
	c := t.Celsius()
	if !(c >= -5 && c <= 90) {
		return units.Conductivity(math.NaN())
	}
	rho := teos10.DensityExact(units.Absolute(0), t, 0).GramsPerMillilitre()
	ions := math.Pow(10, -ionProduct(t, rho)/2) // mol of each per kg
	limiting := (protonConductivity + hydroxideConductivity) * ownIons(c) / ownIons(25)
	return units.Conductivity(rho * ions * limiting) // mol/L times S cm²/mol is mS/cm
}

// Limiting molar conductivities at 25 °C, S cm²/mol [M97].
const (
	protonConductivity    = 349.8
	hydroxideConductivity = 198.3
)

// Limiting molar conductivities of the three salts, S cm²/mol in powers 0 to 2 of
// t in °C [MC11]: the c3, c2, c1 of the source. At 25 °C their sum is 0.5 % below
// [M97], so only its course is taken from them.
var (
	hydrochloricCoef = [...]float64{262.4, 6.614, -0.006766}
	lyeCoef          = [...]float64{148.3, 3.872, 0.006936}
	saltCoef         = [...]float64{67.03, 2.196, 0.008967}
)

// ownIons returns L.
func ownIons(celsius float64) float64 {
	return poly.P2(celsius, &hydrochloricCoef) + poly.P2(celsius, &lyeCoef) - poly.P2(celsius, &saltCoef)
}

// ionProduct returns pKw of water of the density rho, kg/L.
//
//	symbol   pKw = -2n [lg(1 + Q) - Q/(1 + Q) ρ (β0 + β1/T + β2 ρ)] + pKwG + 2 lg(Mw/1000)
//	         Q = ρ exp(α0 + α1/T + α2 ρ^(2/3)/T²), pKwG = γ0 + γ1/T + γ2/T² + γ3/T³
//	source   [R11]
//	units    T kelvin, ρ g/cm³, Kw (mol/kg)²
func ionProduct(t units.Temperature, rho float64) float64 {
	k := 1 / t.Kelvin()
	q := rho * math.Exp(alphaCoef[0]+k*(alphaCoef[1]+k*alphaCoef[2]*math.Cbrt(rho*rho)))
	b := betaCoef[0] + betaCoef[1]*k + betaCoef[2]*rho
	return -2*coordination*(math.Log10(1+q)-q/(1+q)*rho*b) + poly.P3(k, &gasCoef) + 2*math.Log10(waterMolarMass/1000)
}

// Coefficients of [R11], from memory; the tests hold them to 1e-12 of pKw against an
// independent implementation of the release.
var (
	alphaCoef = [...]float64{-0.702132, 8681.05, -24145.1}                     // 1, K, K² (g/cm³)^(-2/3)
	betaCoef  = [...]float64{0.813876, -51.4471, -0.469920}                    // (g/cm³)^-1, K (g/cm³)^-1, (g/cm³)^-2
	gasCoef   = [...]float64{6.141500e-1, 4.825133e4, -6.770793e4, 1.010210e7} // 1, K, K², K³
)

const (
	coordination   = 6         // n
	waterMolarMass = 18.015268 // g/mol
)

// AeratedWater returns the conductivity of water that is pure but for the carbon
// dioxide of the air: the least that purified water shows after standing open.
//
//	symbol   κ = d0 + d1 (t - 25) + d2 (t - 25)²
//	source   [PKWB]; the polynomial is fitted here to its twelve values and gives each back
//	units    t °C ITS-90
//	range    0 <= t <= 50 °C
//	outside  extrapolates (CheckRangeAeratedWater tells); t < -25 °C, t > 100 °C or NaN: NaN
//
// It follows the square root of the carbon dioxide in the air, so a closed room
// makes it half as much again.
func AeratedWater(t units.Temperature) units.Conductivity {
	x := t.Celsius() - 25
	if !(x >= -50 && x <= 75) {
		return units.Conductivity(math.NaN())
	}
	return units.Conductivity(poly.P2(x, &aeratedCoef)) * units.MicrosiemensPerCentimetre
}

// aeratedCoef is d0, d1, d2 in µS/cm, fitted to the table of [PKWB].
var aeratedCoef = [...]float64{1.09614, 2.05571e-2, -2.8571e-6}

// Residue returns the most of a salt that can be left in purified water of the
// conductivity c at the temperature t: as much as explains all that pure water does not.
// Part of that is usually carbon dioxide, see AeratedWater.
//
//	symbol   the content of the solution whose κ25 is (κ - κ(pure water)) f25(t)
//	source   PureWater, NaturalWater25 and Solution.Content
//	units    c at t; result mg/L
//	range    0 <= t <= 35.9 °C
//	outside  extrapolates; less conductive than pure water, or meaningless: NaN
func Residue(c units.Conductivity, t units.Temperature, s Solution) units.MassPerLitre {
	return s.Content(NaturalWater25(c-PureWater(t), t))
}
