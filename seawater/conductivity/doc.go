// Package conductivity answers what a conductivity, salinity or dissolved-solids
// meter shows in a water, and what water it is in which the meter shows so much.
//
// A meter measures one thing, the conductivity of the water at its temperature,
// and shows another: it refers the conductivity to 25 or 20 °C by one of several
// rules, multiplies it by the factor of some salt, or works out a salinity. To
// get at the water all of that has to be undone, by the rule of that meter. A
// [Meter] shows conductivity, a [SalinityMeter] practical salinity, a [TDSMeter]
// and a [SaltMeter] dissolved solids, the one by a fixed factor, the other by the
// curve of a salt.
//
// For purified water the package knows how little pure water conducts, how much
// more it does after standing in air, and how much residue a reading leaves room
// for. For setting a meter it knows the potassium chloride standards.
//
// Seawater here is PSS-78 (package pss78), which is defined up to practical
// salinity 42 and from -2 to 35 °C: outside, the instruments return an error. Of
// another salt a meter cannot know; what it shows is the seawater that conducts
// as well.
//
// # Symbols
//
//	κ    conductivity, mS/cm; κ25 referred to 25 °C
//	t    temperature of the water, °C ITS-90
//	SP   practical salinity; SA absolute salinity, g/kg, of reference composition
//	c    concentration, mol/L; m molality, mol/kg water; I ionic strength
//	Λ    molar or equivalent conductivity of a salt, S cm²/mol; Λ° in infinite dilution
//	λ    the same of an ion
//	Kw   ion product of water on the molal scale, pKw = -lg Kw
//
// # Sources
//
//	[I7888]  ISO 7888:1985 (EN 27888), Water quality - Determination of electrical
//	         conductivity: the correction of natural waters.
//	[PKWB]   Pratt, Koch, Wu and Berezansky (2001), Molality-based primary standards
//	         of electrolytic conductivity (IUPAC technical report), Pure Appl. Chem.
//	         73, 1783-1793, with the table of the CRC Handbook, Standard KCl
//	         Solutions for Calibrating Conductivity Cells.
//	[R56]    OIML R 56, Standard solutions reproducing the conductivity of
//	         electrolytes: the demal solutions. The values here are those of a
//	         national list of standards that agrees with it.
//	[MC11]   McCleskey (2011), Electrical conductivity of electrolytes found in
//	         natural waters from (5 to 90) °C, J. Chem. Eng. Data 56, 317-327.
//	[M97]    Marcus (1997), Ion Properties, limiting molar conductivities of ions.
//	[V]      Vanysek, Ionic conductivity and diffusion at infinite dilution, CRC
//	         Handbook of Chemistry and Physics.
//	[RS59]   Robinson and Stokes (1959), Electrolyte Solutions, 2nd ed., chapter 7:
//	         the equation of Onsager with ions of a size.
//	[R11]    IAPWS R11-24, Revised release on the ionization constant of H2O.
//	[LLBM]   Light, Licht, Bevilacqua and Morash (2005), The fundamental conductivity
//	         and resistivity of water, Electrochem. Solid-State Lett. 8, E16-E19.
//	[GUM]    JCGM 100:2008, Guide to the expression of uncertainty in measurement.
package conductivity
