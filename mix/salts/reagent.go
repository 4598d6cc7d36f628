package salts

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Reagent is a compound as it comes in a jar: so much of the mass is the
// compound, the rest is taken as water and as nothing else. A salt that
// attracts water, such as CaCl2 or MgCl2.6H2O, loses purity on the shelf.
type Reagent struct {
	Compound Compound
	Purity   units.Fraction // mass of the compound, its crystal water included, in the mass in the jar
}

// Check returns an error if there is no compound, or a purity that is not
// above 0 and up to 100 %.
func (r Reagent) Check() error {
	if !r.Compound.Exists() {
		return input.Bad("compound", "none", "a compound")
	}
	return input.In(r.Compound.Formula(), input.Share("purity", r.Purity))
}

// Weigh returns the mass out of the jar that holds so much of the pure
// compound. A negative mass is an *units.InputError.
func (r Reagent) Weigh(pure units.Mass) (units.Mass, error) {
	if err := r.Check(); err != nil {
		return input.NaN[units.Mass](), err
	}
	if err := input.NotNegative("mass", pure.Grams(), "g"); err != nil {
		return input.NaN[units.Mass](), err
	}
	return pure / units.Mass(r.Purity.Value()), nil
}

// Pure returns the pure compound in a mass out of the jar.
func (r Reagent) Pure(weighed units.Mass) (units.Mass, error) {
	if err := r.Check(); err != nil {
		return input.NaN[units.Mass](), err
	}
	if err := input.NotNegative("mass", weighed.Grams(), "g"); err != nil {
		return input.NaN[units.Mass](), err
	}
	return weighed * units.Mass(r.Purity.Value()), nil
}

// Exchange returns the mass of one hydrate of a salt that does what a mass of
// another does: 100 g of anhydrous CaCl2 are 132.5 g of CaCl2.2H2O. Two
// compounds that are not the same salt are an *units.InputError.
//
//	symbol  m_to = m_from M_to / M_from
func Exchange(m units.Mass, from, to Compound) (units.Mass, error) {
	if !from.Exists() || from.Anhydrous() != to.Anhydrous() {
		return input.NaN[units.Mass](), input.Bad("to", to.String(), "another hydrate of the same salt")
	}
	if err := input.NotNegative("mass", m.Grams(), "g"); err != nil {
		return input.NaN[units.Mass](), err
	}
	return to.Mass(from.Moles(m)), nil
}
