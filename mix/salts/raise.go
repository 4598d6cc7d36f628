package salts

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Raises returns by how much a mass of the pure compound raises one ion in a
// volume of water: 1 g of CaCl2.2H2O in 100 L raises calcium by 0.0680 mmol/L,
// which is 2.726 mg/L. The volume is that after the dose.
//
//	symbol   Δc = ν m / (M V)
//	outside  a volume of zero or below, NaN: NaN
func (c Compound) Raises(i ions.Ion, m units.Mass, in units.Volume) units.AmountPerLitre {
	return units.AmountPerLitre(c.Gives(i)*c.perLitre(m, in)) * units.MolePerLitre
}

// RaisesAlkalinity returns by how much a mass of the pure compound raises the
// alkalinity of a volume of water: 1 g of NaHCO3 in 100 L by 0.1190 meq/L, which
// is 0.334 dKH. An acid lowers it, so the result is negative.
func (c Compound) RaisesAlkalinity(m units.Mass, in units.Volume) units.Alkalinity {
	return units.MilliequivalentsPerLitre((c.Alkalinity() * c.perLitre(m, in) * 1000))
}

// RaisesBoron returns by how much a mass of the pure compound raises the boron of a volume
// of water, boric acid and borate together: 1 g of Na2B4O7.10H2O in 100 L by 0.1049 mmol/L,
// which is 1.134 mg/L. In seawater the two turn into one another until they fit its pH,
// so neither by itself is what the dose brings.
func (c Compound) RaisesBoron(m units.Mass, in units.Volume) units.AmountPerLitre {
	return units.AmountPerLitre(c.boron()*c.perLitre(m, in)) * units.MolePerLitre
}

// boron returns the moles of boron in a mole, in both of its species.
func (c Compound) boron() float64 { return c.Gives(ions.BoricAcid) + c.Gives(ions.Borate) }

// perLitre is m/(M V) in mol/L.
func (c Compound) perLitre(m units.Mass, in units.Volume) float64 {
	if !(in > 0) {
		return input.NaN[float64]()
	}
	return c.Moles(m) / in.Litres()
}

// ToRaise returns the mass of the pure compound that raises an ion by so much
// in a volume of water. A compound without that ion is an *units.InputError;
// so is a rise that would take a negative mass, as nothing lowers calcium by
// adding calcium.
func (c Compound) ToRaise(i ions.Ion, by units.AmountPerLitre, in units.Volume) (units.Mass, error) {
	return c.toRaise(i.Name(), c.Gives(i), by.MillimolesPerLitre(), in)
}

// ToRaiseAlkalinity returns the mass of the pure compound that raises the
// alkalinity of a volume of water by so much. It is an *units.InputError if the
// compound cannot.
func (c Compound) ToRaiseAlkalinity(by units.Alkalinity, in units.Volume) (units.Mass, error) {
	return c.toRaise("alkalinity", c.Alkalinity(), by.MilliequivalentsPerLitre(), in)
}

// ToRaiseBoron returns the mass of the pure compound that raises the boron of a volume of
// water by so much, boric acid and borate together. It is an *units.InputError if the
// compound cannot.
func (c Compound) ToRaiseBoron(by units.AmountPerLitre, in units.Volume) (units.Mass, error) {
	return c.toRaise("boron", c.boron(), by.MillimolesPerLitre(), in)
}

// toRaise takes the rise in mmol or meq per litre.
func (c Compound) toRaise(what string, perMole, by float64, in units.Volume) (units.Mass, error) {
	if err := input.Positive("volume", in.Litres(), "L"); err != nil {
		return input.NaN[units.Mass](), err
	}
	if !c.Exists() || perMole == 0 {
		return input.NaN[units.Mass](), input.Bad("compound", c.String(), "one that changes "+what)
	}
	m := c.Mass(by / 1000 / perMole * in.Litres())
	if input.NotNegative("", m.Grams(), "") != nil {
		return input.NaN[units.Mass](), input.Bad(what, input.Number(by), "one that "+c.Formula()+" can bring")
	}
	return m, nil
}
