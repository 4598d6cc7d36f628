package gas

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Saturation returns how much of the gas water holds in balance with air, under
// the barometer p where it stands, not one reduced to sea level
// (PressureAtAltitude, StationPressure). For mg/L there is MassPerLitre:
//
//	c := gas.Oxygen.Saturation(s, t, p)
//	gas.Oxygen.MassPerLitre(c, eos80.SurfaceDensity(s, t))
//
// It is NaN for carbon dioxide, of which air has no fixed share:
// CarbonDioxideSaturation asks for it.
//
//	symbol   C(p) = C(1) (p - pH2O)/(1 - pH2O), for oxygen times (1 - θ p)/(1 - θ)
//	source   C(1): O2 [GG92], N2 and Ar [HE04]; pH2O [WP80]; θ [BK84]
//	units    S PSS-78, t °C ITS-90, p hPa (atm in the formula), result µmol/kg
//	range    CheckRange tells
//	outside  extrapolates; no such water, pressure at or below that of the vapour (boiling) or
//	         above 10000 hPa: NaN
func (g Species) Saturation(s units.PracticalSalinity, t units.Temperature,
	p units.AirPressure) units.AmountPerKilogram {
	c := g.atOneAtmosphere(s, t)
	if c != c {
		return c
	}
	v, x := vapour(s, t), atmospheres(p)
	if !breathable(p, v) {
		return units.AmountPerKilogram(math.NaN())
	}
	factor := (x - v) / (1 - v)
	if g == Oxygen {
		theta := poly.P2(t68(t), &realGasCoef)
		factor *= (1 - theta*x) / (1 - theta)
	}
	return c * units.AmountPerKilogram(factor)
}

// Saturations is Saturation for a log: it sets dst[i] to the content at s[i] and t[i],
// all under one pressure. It stops at the end of the shortest of the three and returns
// how many it set, as copy does. It allocates nothing.
func (g Species) Saturations(dst []units.AmountPerKilogram, s []units.PracticalSalinity, t []units.Temperature,
	p units.AirPressure) int {
	n := min(len(dst), len(s), len(t))
	dst, s, t = dst[:n], s[:n], t[:n] // spares the loop its bounds checks
	for i := range dst {
		dst[i] = g.Saturation(s[i], t[i], p)
	}
	return n
}

func (g Species) atOneAtmosphere(s units.PracticalSalinity, t units.Temperature) units.AmountPerKilogram {
	switch g {
	case Oxygen:
		return OxygenGarciaGordon(s, t)
	case Nitrogen:
		return NitrogenHammeEmerson(s, t)
	case Argon:
		return ArgonHammeEmerson(s, t)
	}
	return units.AmountPerKilogram(math.NaN())
}

// Share returns a content as a share of saturation. A meter in percent was told
// its saturation when it was set: at another height, temperature or salinity its
// percent are not these. It is NaN for a saturation of 0 or below.
func Share(content, saturation units.AmountPerKilogram) units.Fraction {
	return ratio(float64(content), float64(saturation))
}

// ratio is a/b, NaN where b is not above zero.
func ratio(a, b float64) units.Fraction {
	if !(b > 0) {
		return units.Share(math.NaN())
	}
	return units.Share(a / b)
}

// PartialPressure returns the pressure of the gas with which a content is in
// balance, what an animal breathes against and what counts in supersaturation.
// Above the saturation of air it may exceed any that air has.
//
//	symbol   p = c/C(1) x (1 - pH2O), x the share in dry air; CO2: p = c/(K0 φ)
//	source   see Saturation and CarbonDioxideSaturation
//	units    S PSS-78, t °C ITS-90, c µmol/kg, result hPa
//	range    CheckRange tells
//	outside  extrapolates; no such water, an infinite content: NaN
func (g Species) PartialPressure(s units.PracticalSalinity, t units.Temperature,
	c units.AmountPerKilogram) units.AirPressure {
	if !possible(s, t) || math.IsInf(float64(c), 0) {
		return units.AirPressure(math.NaN())
	}
	k := carbonate.GasAt(s, t)
	return units.AirPressure(float64(c) / g.henry(s, t, &k))
}

// Dissolved returns the content that is in balance with a partial pressure of the
// gas. It is the inverse of PartialPressure.
func (g Species) Dissolved(s units.PracticalSalinity, t units.Temperature,
	p units.AirPressure) units.AmountPerKilogram {
	if !possible(s, t) || math.IsInf(float64(p), 0) {
		return units.AmountPerKilogram(math.NaN())
	}
	k := carbonate.GasAt(s, t)
	return units.AmountPerKilogram(float64(p) * g.henry(s, t, &k))
}

// henry returns the solubility in µmol/(kg hPa). k are the constants of gas of the water.
func (g Species) henry(s units.PracticalSalinity, t units.Temperature, k *carbonate.Gas) float64 {
	if g == CarbonDioxide {
		return float64(k.K0*k.FugacityRatio) * 1e6 / float64(units.Atmosphere)
	}
	return float64(g.atOneAtmosphere(s, t)) /
		(g.InDryAir().Value() * float64(1-k.VapourPressure) * float64(units.Atmosphere))
}
