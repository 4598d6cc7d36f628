package salts

import (
	"example.org/wellmixed/internal/formula"
	"example.org/wellmixed/units"
)

// Formula is a chemical formula, as its count of atoms: B(OH)3 and H3BO3 are
// equal. It is made by ParseFormula; the zero value is no formula and weighs
// nothing.
type Formula struct{ counts formula.Formula }

// ParseFormula reads a formula: elements, counts, groups in round or square
// brackets, and parts joined by a dot or colon with a leading count, "Ca(OH)2",
// "CaCl2.2H2O", "CaCl₂·2H₂O". A half hydrate is written doubled,
// "2CaSO4.H2O". Charges are not part of a formula.
//
// What cannot be read is an *units.InputError that says where. So is an element
// outside the table of weights, which has the 43 of salts, stocks and their
// usual impurities: no noble gas but helium, no rare earths, no titanium or gold.
func ParseFormula(text string) (Formula, error) {
	f, err := formula.Parse(text)
	return Formula{f}, err
}

// Atoms returns how many atoms of an element the formula has, 0 for an unknown
// symbol.
func (f Formula) Atoms(symbol string) int {
	if i := formula.Index(symbol); i >= 0 {
		return int(f.counts.Atoms[i])
	}
	return 0
}

// Waters returns the water of crystallisation: 7 for MgSO4.7H2O.
func (f Formula) Waters() int { return int(f.counts.Water) }

// MolarMass returns the molar mass of the formula.
//
//	symbol  M = Σ n A
//	source  atomic weights A: IUPAC 2021, abridged (Prohaska et al. 2022)
func (f Formula) MolarMass() units.MolarMass { return f.counts.MolarMass() }

// dry returns the formula without its water of crystallisation, which is the
// same for all hydrates of a salt.
func (f Formula) dry() Formula { return Formula{f.counts.Dry()} }
