package gas

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// Oxygen in balance with moist air at one atmosphere, by [GG92] table 1, the
// columns fitted to the data of Benson and Krause: A0 to A5, then B0 to B3, then
// C0. The term A3 Ts² that eq. 8 of the paper prints before A3 Ts³ is a misprint
// (erratum, Limnol. Oceanogr. 38, 656).
var (
	garciaGordonA = [...]float64{5.80871, 3.20291, 4.17887, 5.10006, -9.86643e-2, 3.80369}
	garciaGordonB = [...]float64{-7.01577e-3, -7.70028e-3, -1.13864e-2, -9.51519e-3}

	garciaGordonLitreA = [...]float64{2.00907, 3.22014, 4.05010, 4.94457, -2.56847e-1, 3.88767}
	garciaGordonLitreB = [...]float64{-6.24523e-3, -7.37614e-3, -1.03410e-2, -8.17083e-3}
)

const (
	garciaGordonC      = -2.75915e-7
	garciaGordonLitreC = -4.88682e-7
)

// OxygenGarciaGordon returns the oxygen in water that is in balance with moist air
// at one atmosphere: the recommended formula, on which Oxygen.Saturation rests.
//
//	symbol   ln C = Σ Ai Tsⁱ + S Σ Bi Tsⁱ + C0 S², Ts = ln((298.15 - t)/(273.15 + t))
//	source   [GG92] eq. 8 and table 1, coefficients for the data of [BK84], µmol/kg
//	units    S PSS-78, t °C IPTS-68 in the formula (t68 = 1.00024 t90)
//	range    freezing point <= t <= 40 °C, 0 <= S <= 42
//	outside  extrapolates (CheckRange tells); no such water: NaN
func OxygenGarciaGordon(s units.PracticalSalinity, t units.Temperature) units.AmountPerKilogram {
	return units.AmountPerKilogram(garciaGordon(s, t, &garciaGordonA, &garciaGordonB, garciaGordonC))
}

// OxygenGarciaGordonPerLitre is the fit of the same data per litre of water at
// its own temperature. The two differ by up to 0.02 % once a density is between
// them.
//
//	symbol   as OxygenGarciaGordon, in mL(STP)/L; over 22391.6 mL/mol
//	source   [GG92] eq. 8 and table 1, coefficients for the data of [BK84], cm³/dm³
func OxygenGarciaGordonPerLitre(s units.PracticalSalinity, t units.Temperature) units.AmountPerLitre {
	return Oxygen.FromMillilitresPerLitre(garciaGordon(s, t, &garciaGordonLitreA, &garciaGordonLitreB, garciaGordonLitreC))
}

func garciaGordon(s units.PracticalSalinity, t units.Temperature, a *[6]float64, b *[4]float64, c float64) float64 {
	if !possible(s, t) {
		return math.NaN()
	}
	x, y := s.Value(), scaled(t68(t))
	return math.Exp(poly.P5(y, a) + x*(poly.P3(y, b)+x*c))
}

// scaled is Ts = ln((298.15 - t)/(273.15 + t)), a way of turning 1/T into a number
// near zero.
func scaled(t float64) float64 { return math.Log((298.15 - t) / (273.15 + t)) }

// bensonKrauseA and B: ln C = a + b/T + c/T² + d/T³ + e/T⁴ - S (f + g/T + h/T²) [BK84].
var (
	bensonKrauseA = [...]float64{-139.34411, 1.575701e5, -6.642308e7, 1.243800e10, -8.621949e11}
	bensonKrauseB = [...]float64{0.017674, -10.754, 2140.7}
)

// OxygenBensonKrause returns the oxygen in water that is in balance with moist air
// at one atmosphere, as the tables of water works give it.
//
//	symbol   ln C = a + b/T + c/T² + d/T³ + e/T⁴ - S (f + g/T + h/T²)
//	source   [BK84]
//	units    S PSS-78, T K, IPTS-68 in the formula
//	range    0 <= t <= 40 °C, 0 <= S <= 40; within 0.04 % of OxygenGarciaGordonPerLitre
//	outside  extrapolates; no such water: NaN
func OxygenBensonKrause(s units.PracticalSalinity, t units.Temperature) units.MassPerLitre {
	if !possible(s, t) {
		return units.MassPerLitre(math.NaN())
	}
	y := 1 / (t68(t) + zeroCelsius)
	return units.MassPerLitre(math.Exp(poly.P4(y, &bensonKrauseA) - s.Value()*poly.P2(y, &bensonKrauseB)))
}

// realGasCoef: theta = a + b t + c t² per atmosphere, how much oxygen falls short of
// Henry's law [BK84].
var realGasCoef = [...]float64{0.000975, -1.426e-5, 6.436e-8}
