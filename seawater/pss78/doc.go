// Package pss78 turns a conductivity into a practical salinity and back: what
// salinity is the water in which a meter shows 53.06 mS/cm at 25 °C, and what
// should the meter show in water of salinity 35?
//
// It is the Practical Salinity Scale of 1978, which defines salinity by
// conductivity, with the extension of Hill, Dauphinee and Woods below
// salinity 2, scaled so that the two meet there. The scale was made for
// seawater and its dilutions; of any other salt, and of tap or purified water,
// it gives the salinity of the seawater that conducts as well.
//
// Conductivities are those at the temperature of the water. A meter set to
// show "conductivity at 25 °C" has changed its reading; switch that off, or
// undo it, before asking here.
//
// # Symbols
//
//	S     practical salinity, a pure number
//	C     conductivity, mS/cm
//	R     C over C(35, 15, 0), type Ratio
//	rt    C(35, T, 0) over C(35, 15, 0)
//	Rp    C(S, T, p) over C(S, T, 0)
//	Rt    C(S, T, 0) over C(35, T, 0), so R = Rp rt Rt
//	x     square root of Rt
//	T     temperature on IPTS-68, °C; T = 1.00024 t
//	t     temperature on ITS-90, °C, the one that the functions take
//	ft    (T - 15) / (1 + k (T - 15))
//	p     sea pressure, dbar
//
// # Sources
//
//	[U37]  UNESCO Technical Papers in Marine Science 37 (1981): Background
//	       papers and supporting data on the Practical Salinity Scale 1978.
//	[U44]  Fofonoff and Millard (1983), Algorithms for computation of
//	       fundamental properties of seawater, UNESCO Technical Papers in
//	       Marine Science 44.
//	[PL80] Perkin and Lewis (1980), The Practical Salinity Scale 1978: fitting
//	       the data, IEEE J. Oceanic Eng. OE-5, 9-16.
//	[CS80] Culkin and Smith (1980), Determination of the concentration of
//	       potassium chloride solution having the same electrical
//	       conductivity, at 15 °C and infinite frequency, as standard seawater
//	       of salinity 35.0000 ‰, IEEE J. Oceanic Eng. OE-5, 22-23.
//	[HDW]  Hill, Dauphinee and Woods (1986), The extension of the Practical
//	       Salinity Scale 1978 to low salinities, IEEE J. Oceanic Eng. OE-11,
//	       109-112.
//	[S90]  Saunders (1990), The International Temperature Scale of 1990,
//	       ITS-90, WOCE Newsletter 10.
//	[T10]  IOC, SCOR and IAPSO (2010), The international thermodynamic
//	       equation of seawater - 2010, appendices A.1 and E.
package pss78
