package gas

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// Nitrogen and argon in balance with moist air at one atmosphere: A0 to A3, B0 to
// B2 of [HE04] table 4.
var (
	nitrogenA = [...]float64{6.42931, 2.92704, 4.32531, 4.69149}
	nitrogenB = [...]float64{-7.44129e-3, -8.02566e-3, -1.46775e-2}
	argonA    = [...]float64{2.79150, 3.17609, 4.13116, 4.90379}
	argonB    = [...]float64{-6.96233e-3, -7.66670e-3, -1.16888e-2}
)

// NitrogenHammeEmerson returns the nitrogen in water that is in balance with moist
// air at one atmosphere.
//
//	symbol   ln C = Σ Ai Tsⁱ + S Σ Bi Tsⁱ, Ts = ln((298.15 - t)/(273.15 + t))
//	source   [HE04] eq. 1 and table 4
//	units    S PSS-78, t °C ITS-90, result µmol/kg
//	range    1 <= t <= 30 °C, 0 <= S <= 35; errors of the fit 0.14 %
//	outside  extrapolates (CheckRange tells); no such water: NaN
func NitrogenHammeEmerson(s units.PracticalSalinity, t units.Temperature) units.AmountPerKilogram {
	return hammeEmerson(s, t, &nitrogenA, &nitrogenB)
}

// ArgonHammeEmerson is NitrogenHammeEmerson for argon.
func ArgonHammeEmerson(s units.PracticalSalinity, t units.Temperature) units.AmountPerKilogram {
	return hammeEmerson(s, t, &argonA, &argonB)
}

func hammeEmerson(s units.PracticalSalinity, t units.Temperature, a *[4]float64,
	b *[3]float64) units.AmountPerKilogram {
	if !possible(s, t) {
		return units.AmountPerKilogram(math.NaN())
	}
	y := scaled(t.Celsius())
	return units.AmountPerKilogram(math.Exp(poly.P3(y, a) + s.Value()*poly.P2(y, b)))
}
