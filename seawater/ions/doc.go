// Package ions knows a water by what is dissolved in it, and what the
// instruments make of that.
//
// A refractometer, a hydrometer and a conductivity meter all tell salinity by a
// detour, and the detour is right for the salt of the sea. Salt of another make
// shows a different number on each of them, and none of these need be the mass
// that is dissolved:
//
//	mix := ions.Reference(units.Practical(35)).Add(ions.Sulfate, ...).Add(ions.Chloride, ...)
//	r, err := mix.Readings(units.Celsius(25))
//	r.Dissolved                           // the mass of all that is dissolved
//	r.By[ions.Conductivity].Shown         // what a conductivity meter shows
//	r.By[ions.Conductivity].Correction    // what to add to it
//	r.Closest()                           // which instrument to trust
//
// Shown is a salinity on the scale of reference seawater, which the instruments
// of the packages hydrometer, refractometer and conductivity take.
//
// A laboratory report is not a composition yet: it names elements, leaves sodium
// or chloride out, and its charges do not balance. [Report.Close] makes one of
// it, and lists all that it had to assume. [Report.Screen] holds each line against the sea before,
// and names what looks like a slipped point or another way of counting.
//
// # One principle
//
// The model of a property f need not be right, only its differences: what an
// instrument shows is the salinity S* of the reference seawater for which f is
// the same, and the property itself is that of the standard equation (TEOS-10,
// PSS-78, Millard and Seaver) at S*. Reference seawater is exact that way.
//
// # Two sets of atomic weights
//
// What laboratories report and balances weigh is counted with the IUPAC weights of
// 2021, as in packages units and salts: [Ion.MolarMass], [Report.Close], the water of
// [Composition.Water] and with it the ionic strength. The scale of salinity is defined with
// those of 2005 and keeps them: [Reference], [Composition.SolutionSalinity]. The two differ by
// 0.005 % of the mass of sea salt, less than the scatter of chlorine in nature.
//
// # How good
//
// The raw model is within 0.03 kg/m³ of TEOS-10 for the reference composition
// from 5 to 35 °C and salinity 5 to 40, and within 0.4 % of PSS-78 from salinity 20
// to 40; below, it conducts too well, by up to 1.2 % at salinity 5. Differences of
// composition at salinity 35 agree with two geochemical codes within 0.01 kg/m³ and
// 0.2 percentage points of conductivity. Solutions of sodium chloride alone come out
// within 0.1 kg/m³, and in conductivity low by 1.1 % at 0.05 mol/L, 1.0 % at 0.1, 0.7 %
// at 0.2 and 0.4 % at 0.5, what reference seawater of that dilution is too high in the
// model. Ion pairs that grow stronger with dilution, by Debye and Hückel, would halve
// that, and were left out: differences in seawater then agree less well with the codes
// (rms 0.048 instead of 0.034 points). It is a model for waters in which sodium chloride
// prevails, from 5 to 35 °C and ionic strength 0.05 to 1.1: not for Epsom salt, soda or
// dissolved organics. No measurement of the index of changed seawater is known.
//
// # Symbols
//
//	n      content, mol per kg of solution
//	m      n/w, mol per kg of water
//	w      kg of water per kg of solution
//	M      molar mass, g/mol
//	z      charge
//	I      ionic strength, ½ Σ m z²
//	TA     alkalinity
//	φ      apparent molal volume, cm³/mol
//	Λ      equivalent conductivity, S cm²/eq
//	R      molar refraction, cm³/mol
//	u      standard uncertainty
//
// # Sources
//
//	[MFWM08]  Millero, Feistel, Wright and McDougall 2008, The composition of Standard
//	          Seawater and the definition of the Reference-Composition Salinity
//	          Scale, Deep-Sea Research I 55, 50-72.
//	[AW21]    IUPAC atomic weights 2021: Prohaska et al. 2022, Pure Appl. Chem. 94, 573.
//	[WG07]    Wolf-Gladrow, Zeebe, Klaas, Körtzinger and Dickson 2007, Total
//	          alkalinity: the explicit conservative expression, Mar. Chem. 106, 287-300.
//	[WPMFW11] Wright, Pawlowicz, McDougall, Feistel and Marion 2011, Absolute Salinity,
//	          "Density Salinity" and the Reference-Composition Salinity Scale, Ocean Sci. 7, 1-26.
//	[PWM11]   Pawlowicz, Wright and Millero 2011, The effects of biogeochemical processes
//	          on oceanic conductivity/salinity/density relationships, Ocean Sci. 7, 363-387.
//	[APP14]   Appelo, Parkhurst and Post 2014, Equations for calculating hydrogeochemical
//	          reactions of minerals and gases, Geochim. Cosmochim. Acta 125, 49-67.
//	[PHREEQC] PHREEQC 3, commit 8176af0c, data bases pitzer.dat and phreeqc.dat.
//	[RW69]    Reilly and Wood 1969, The prediction of the properties of mixed
//	          electrolytes, J. Phys. Chem. 73, 4292-4297.
//	[P08]     Pawlowicz 2008, Calculating the conductivity of natural waters, Limnol.
//	          Oceanogr. Methods 6, 489-501.
//	[MC11]    McCleskey 2011, Electrical conductivity of electrolytes found in natural
//	          waters from 5 to 90 °C, J. Chem. Eng. Data 56, 317-327.
//	[CRC]     CRC Handbook of Chemistry and Physics: Concentrative properties of
//	          aqueous solutions; Ionic conductivity at infinite dilution.
//	[PSS-78]  The Practical Salinity Scale 1978, see package pss78.
//	[R13]     IAPWS R13-08, see package teos10.
//	[MS90]    Millard and Seaver 1990, see package refractometer.
//	[GUM1]    JCGM 100 and 102, Guide to the expression of uncertainty in measurement.
package ions
