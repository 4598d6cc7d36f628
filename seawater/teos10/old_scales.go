package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// This page reads old books and silver titrations. Before 1978 salinity was
// computed from chlorinity, and temperatures were on IPTS-48 (to 1967) and IPTS-68
// (to 1989). Each scale has a type or a name of its own; all lead to the practical
// salinity and the ITS-90 temperature that the rest of the library takes.

// Chlorinity is what the chloride, bromide and iodide of a kilogram of seawater
// weigh if bromine and iodine are replaced by chlorine, in g/kg; since 1940 it is
// 0.3285234 times the mass of silver that precipitates them [JK40] (from memory). It is made by
// Cl. Standard seawater of practical salinity 35 has 19.374 g/kg.
type Chlorinity struct{ gramsPerKilogram float64 }

// Cl returns the chlorinity of x g/kg.
func Cl(x float64) Chlorinity { return Chlorinity{x} }

// GramsPerKilogram returns the chlorinity in g/kg, in old books ‰.
func (c Chlorinity) GramsPerKilogram() float64 { return c.gramsPerKilogram }

// Chlorosity is chlorinity per litre of water of 20 °C, in g/L: what a titration of
// a measured volume gives, about 2.5 percent more in number. It is made by ClPerLitre.
type Chlorosity struct{ gramsPerLitre float64 }

// ClPerLitre returns the chlorosity of x g/L.
func ClPerLitre(x float64) Chlorosity { return Chlorosity{x} }

// GramsPerLitre returns the chlorosity in g/L.
func (c Chlorosity) GramsPerLitre() float64 { return c.gramsPerLitre }

// KnudsenSalinity is salinity as Knudsen's tables of 1901 have it, in ‰. It is
// made by Knudsen.
type KnudsenSalinity struct{ perMille float64 }

// Knudsen returns the salinity of s ‰ by Knudsen's tables.
func Knudsen(s float64) KnudsenSalinity { return KnudsenSalinity{s} }

// PerMille returns the salinity in ‰.
func (s KnudsenSalinity) PerMille() float64 { return s.perMille }

const (
	salinityPerChlorinity = 1.80655 // [W69], and by definition on PSS-78 at 35
	knudsenSlope          = 1.8050  // [K01]
	knudsenAtZero         = 0.030   // [K01] ‰
)

// PracticalFromChlorinity returns the practical salinity of seawater of standard
// composition.
//
//	symbol   S = 1.80655 Cl
//	source   [W69]; [TEOS10] appendix A.3
//	units    Cl g/kg, S PSS-78
//	range    seawater of standard composition; an artificial salt with other shares
//	         of chloride does not have it
//	outside  extrapolates; Cl < 0, NaN or infinite: NaN
func PracticalFromChlorinity(c Chlorinity) units.PracticalSalinity {
	return units.Practical(salinityPerChlorinity * oldScale(c.gramsPerKilogram))
}

// ChlorinityFromPractical undoes PracticalFromChlorinity.
func ChlorinityFromPractical(s units.PracticalSalinity) Chlorinity {
	return Chlorinity{oldScale(s.Value()) / salinityPerChlorinity}
}

// KnudsenFromChlorinity returns the salinity in Knudsen's tables.
//
//	symbol   S = 0.030 + 1.8050 Cl
//	source   [K01]
//	units    Cl g/kg, S ‰
//	range    2.69 <= S <= 40.18 ‰, the water that it was made from (from memory)
//	outside  extrapolates, to 0.030 ‰ for pure water; Cl < 0, NaN or infinite: NaN
func KnudsenFromChlorinity(c Chlorinity) KnudsenSalinity {
	return KnudsenSalinity{knudsenAtZero + knudsenSlope*oldScale(c.gramsPerKilogram)}
}

// ChlorinityFromKnudsen undoes KnudsenFromChlorinity. A salinity below 0.030 ‰ is
// on no row of Knudsen's tables and gives NaN.
func ChlorinityFromKnudsen(s KnudsenSalinity) Chlorinity {
	return Chlorinity{oldScale(s.perMille-knudsenAtZero) / knudsenSlope}
}

// PracticalFromKnudsen returns the practical salinity of water of the same
// chlorinity. At 35 the two are one; fresh water differs by 0.030.
//
//	symbol   S = (SK - 0.030) 1.80655/1.8050
//	source   [TEOS10] appendix A.3
//	units    SK ‰, S PSS-78
//	range    2.69 <= SK <= 40.18 ‰
//	outside  extrapolates; SK < 0.030, NaN or infinite: NaN
func PracticalFromKnudsen(s KnudsenSalinity) units.PracticalSalinity {
	return units.Practical(oldScale(s.perMille-knudsenAtZero) * (salinityPerChlorinity / knudsenSlope))
}

// KnudsenFromPractical undoes PracticalFromKnudsen.
func KnudsenFromPractical(s units.PracticalSalinity) KnudsenSalinity {
	return KnudsenFromChlorinity(ChlorinityFromPractical(s))
}

// ChlorinityFromChlorosity returns the chlorinity of water of this density at 20 °C.
//
//	symbol   Cl = (Cl/L)/ρ20
//	units    Cl/L g/L at 20 °C, ρ20 kg/m³, Cl g/kg
//	outside  Cl/L < 0, ρ <= 0, NaN or infinite: NaN; so is more than 300 g/kg, which no
//	         water dissolves: a density of 1.024 kg/m³ was one in kg/L
func ChlorinityFromChlorosity(c Chlorosity, at20 units.Density) Chlorinity {
	rho := at20.GramsPerMillilitre()
	if !(rho > 0) {
		rho = math.NaN()
	}
	return Chlorinity{dissolved(oldScale(c.gramsPerLitre) / oldScale(rho))}
}

// PracticalFromChlorosity returns the practical salinity of seawater of standard
// composition: the S at which 1.80655 (Cl/L)/ρ20 is S.
//
//	source   [W69], ρ20 = DensityExact at 20 °C [R13]
//	units    Cl/L g/L at 20 °C, S PSS-78
//	range    0 <= S <= 119, that of the density
//	outside  extrapolates; Cl/L < 0 or above 300, NaN or infinite: NaN
func PracticalFromChlorosity(c Chlorosity) units.PracticalSalinity {
	perLitre := dissolved(oldScale(c.gramsPerLitre))
	s := units.Practical(salinityPerChlorinity * perLitre)
	// One round leaves a thirtieth of the error in seawater, a third at the most.
	for range 40 {
		next := PracticalFromChlorinity(ChlorinityFromChlorosity(c, densityAt20(s)))
		if math.Abs(next.Value()-s.Value()) <= 1e-14*s.Value() {
			break
		}
		s = next
	}
	return s
}

// ChlorosityFromPractical undoes PracticalFromChlorosity.
func ChlorosityFromPractical(s units.PracticalSalinity) Chlorosity {
	return Chlorosity{ChlorinityFromPractical(s).gramsPerKilogram * densityAt20(s).GramsPerMillilitre()}
}

func densityAt20(s units.PracticalSalinity) units.Density {
	return DensityExact(AbsoluteFromPractical(s), units.Celsius(20), 0)
}

// oldScale returns x, or NaN if nothing can have so much.
func oldScale(x float64) float64 {
	if !(x >= 0 && x-x == 0) {
		return math.NaN()
	}
	return x
}

// dissolved returns x g/kg or g/L of chloride, or NaN if no salt dissolves so well.
func dissolved(x float64) float64 {
	if x > 300 {
		return math.NaN()
	}
	return x
}

const (
	t68PerT90 = 1.00024 // [S90]
	t48Bend   = 4.4e-6  // 1/°C, difference of IPTS-68 and IPTS-48 [TEOS10]
)

// IPTS68 returns the ITS-90 temperature of what the scale of 1968 calls t68 °C.
//
//	symbol   t = t68/1.00024
//	source   [S90]; [TEOS10] appendix A.1
//	units    °C
//	range    -2 <= t68 <= 40 °C, to 0.5 mK
//	outside  extrapolates
func IPTS68(t68 float64) units.Temperature { return units.Celsius(t68 / t68PerT90) }

// IPTS48 returns the ITS-90 temperature of what the scale of 1948 calls t48 °C.
//
//	symbol   t = (t48 - 4.4e-6 t48 (100 - t48))/1.00024
//	source   the conversion of the toolbox of [TEOS10]; [S90]
//	units    °C
//	range    -2 <= t48 <= 40 °C, to 1 mK
//	outside  extrapolates
func IPTS48(t48 float64) units.Temperature {
	return units.Celsius((t48 - t48Bend*t48*(100-t48)) / t68PerT90)
}

// OnIPTS68 returns what the scale of 1968 calls this temperature, in °C. It undoes
// IPTS68.
func OnIPTS68(t units.Temperature) float64 { return t.Celsius() * t68PerT90 }

// OnIPTS48 returns what the scale of 1948 calls this temperature, in °C. It undoes
// IPTS48.
func OnIPTS48(t units.Temperature) float64 {
	const linear = 1 - 100*t48Bend // t68 = linear t48 + bend t48²
	t68 := OnIPTS68(t)
	return 2 * t68 / (linear + math.Sqrt(linear*linear+4*t48Bend*t68))
}
