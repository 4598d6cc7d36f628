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
// 2009, J. Chem. Eng. Data 54, 1725. Alkalinity: Dickson 1981, Deep-Sea Res. 28A,
// 609; Wolf-Gladrow et al. 2007, Mar. Chem. 106, 287. Common names: CRC Handbook, and trivial
// names of older IUPAC usage.
package salts
