// Package refractometer answers what a refractometer shows in a given water,
// and which water it is when it shows something: the refractive index of
// water, seawater, sodium chloride and sucrose solutions, and the instrument
// that makes a reading of it.
//
// # Indices
//
// An index is relative to air or to vacuum, and mixing them up costs 2 g/kg of
// salinity, so they are two types: [AirIndex] and [VacuumIndex]. Every
// refractometer scale and every formula for solutions here is relative to air;
// that of pure water by IAPWS is relative to vacuum. A function without a
// wavelength among its arguments is meant for the sodium D line.
//
// # The instrument
//
// An [Instrument] is a graduation, a zeroing and a compensation. The drop on
// the prism bends light by its index n; the screw has shifted the scale by a
// constant, the bimetal shifts it by what its temperature tells:
//
//	mark = G(n(S, t) + z + c(tp))
//	z    = G⁻¹(mark set) - (n of the standard + c) when it was zeroed
//	c(tp) = n(T0) - n(tp) of the liquid that it compensates for
//
// G is the scale as it was drawn, for one solute at one temperature T0; G⁻¹ is
// the index that belongs to a mark. All the known faults follow from this alone.
// A scale drawn for sodium chloride reads high in seawater. Zeroing with pure
// water leaves that in place, and what a compensation made for water misses in
// seawater too. A drop that has not yet taken the temperature of the prism is
// compensated for a temperature that it does not have.
//
// # Warm water
//
// The measurements of seawater end at 30 °C and practical salinity 40, and so do
// the instruments here: anything outside is a *units.RangeError. A reef of 24 to
// 29 °C lies inside. What counts, though, is the temperature of prism and drop
// when the line is read, not that of the tank: a drop takes the temperature of the
// prism within half a minute (common practice), so water of 31 °C too can be
// measured in a room of 25.
//
// # Symbols
//
//	n    refractive index
//	S    practical salinity
//	w    mass fraction of solute, per solution
//	t    temperature, °C ITS-90; T is on IPTS-68, T = 1.00024 t [S90]
//	T0   temperature that a scale was drawn for, 20 °C unless said otherwise
//	tp   temperature of the prism
//	p    sea pressure, dbar
//	λ    wavelength, nm or µm
//	ρ    density, kg/m³
//	LL   (n² - 1)/(n² + 2), the Lorentz-Lorenz function of the vacuum index
//
// # How good
//
// [MS90] and [QF95] differ by up to 4.2e-5, 0.23 g/kg. The table behind the
// sodium chloride scale has four decimals, 0.3 g/kg. Drift with temperature is
// measured for water and seawater; for sodium chloride and sucrose it is
// modelled, see [SodiumChloride] and [Sucrose]. The glass of the prism is taken
// not to drift, and a compensation to be perfect for its liquid.
//
// # Sources
//
//	[R9]   IAPWS R9-97, Release on the Refractive Index of Ordinary Water
//	       Substance as a Function of Wavelength, Temperature and Pressure;
//	       Harvey, Gallagher, Levelt Sengers 1998, J. Phys. Chem. Ref. Data 27, 761.
//	[C96]  Ciddor 1996, Refractive index of air: new equations for the visible
//	       and near infrared, Applied Optics 35, 1566-1573.
//	[QF95] Quan and Fry 1995, Empirical equation for the index of refraction of
//	       seawater, Applied Optics 34, 3477-3480.
//	[MS90] Millard and Seaver 1990, An index of refraction algorithm for
//	       seawater over temperature, pressure, salinity, density, and
//	       wavelength, Deep-Sea Research 37, 1909-1926.
//	[AH76] Austin and Halikas 1976, The index of refraction of seawater, SIO
//	       Reference 76-1.
//	[CRC]  CRC Handbook of Chemistry and Physics, 102nd edition 2021,
//	       Concentrative Properties of Aqueous Solutions.
//	[I74]  ICUMSA 1974, refractive index scale of sucrose at 20 °C.
//	[L09]  Laliberté 2009, J. Chem. Eng. Data 54, 1725-1760; Laliberté and
//	       Cooper 2004, J. Chem. Eng. Data 49, 1141-1151.
//	[RP82] Rogers and Pitzer 1982, J. Phys. Chem. Ref. Data 11, 15.
//	[K75]  Kell 1975, J. Chem. Eng. Data 20, 97-105.
//	[S90]  Saunders 1990, The International Temperature Scale of 1990, ITS-90,
//	       WOCE Newsletter 10.
package refractometer
