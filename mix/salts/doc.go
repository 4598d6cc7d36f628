// Package salts knows the pure compounds of which sea salt, supplements and
// stock solutions are made: formula and hydrate, molar mass, what a mole sets
// free, alkalinity, solubility, the density of solutions, and what to mind.
//
//	salt, err := salts.Find("CaCl2.2H2O")
//	salt.MolarMass()                                             // 147.008 g/mol
//	raised := salt.Raises(ions.Calcium, 10*units.Gram, 100*units.Litre)
//	units.AsCalcium.MassPerLitre(raised)                         // 27.3 mg/L
//	salts.Saturated(salt, units.Celsius(20))                     // the strongest stock
//
// A [Bottle] holds several compounds: its Strongest and Judge tell by the ion-interaction model
// of package pitzer what falls out first between two temperatures, and which may share it.
// [Compound.Bound] tells what stands behind the strongest solution of one: a tabulated
// solubility, that model, or, for acids, ethanol and sugar, the densities that were measured.
//
// In pure water the model differs from the tabulated solubilities by, in percent: NaCl -0.4 at
// 25 °C, KCl 0.1 (-4.4 at 0 °C), MgCl2·6H2O 2.1, MgSO4·7H2O -4.9, Na2SO4 0.3, K2SO4 -7.8, gypsum
// -0.3 at 20 °C; NaHCO3 5.9, Na2CO3 0.4, KHCO3 -1.8, boric acid 6.3 and borax -0.3 at 25 °C. The
// tables are good to 2 or 3 %, and stay.
//
// Masses are always those of the compound as it lies in the jar, crystal water
// included; a [Reagent] adds the purity. Hydrates are other compounds than the
// anhydrous salt: MgCl2.6H2O taken for MgCl2 loses half of the magnesium.
//
//	M    molar mass                                  g/mol
//	ν    moles of a species per mole of compound
//	s    solubility, anhydrous compound              g in 100 g of water
//	w    mass fraction of anhydrous solute
//	ρ    density                                     kg/m³
//
// # Errors
//
// What cannot be found, dissolved or reached is an [units.InputError]; a
// temperature or content outside the measurements is a [units.RangeError]. The
// number beside an error is NaN.
//
// # Sources
//
// Atomic weights: Prohaska et al. 2022, Pure Appl. Chem. 94, 573 (IUPAC 2021).
// CAS numbers and solubilities: CRC Handbook of Chemistry and Physics, 98th ed.,
// and general solubility tables, which are secondary. Densities: Laliberté
// 2009, J. Chem. Eng. Data 54, 1725; of mixtures Laliberté and Cooper 2004, J. Chem. Eng.
// Data 49, 1141. Alkalinity: Dickson 1981, Deep-Sea Res. 28A,
// 609; Wolf-Gladrow et al. 2007, Mar. Chem. 106, 287. Common names: CRC Handbook, and trivial
// names of older IUPAC usage.
package salts
