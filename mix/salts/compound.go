package salts

import (
	"iter"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Compound is a pure substance as it is weighed, its water of crystallisation
// included. It is found by Find, written as its formula, and compared with ==.
// The zero value is no compound: it has no mass and releases nothing.
type Compound struct {
	index uint8 // into compounds
}

// Release is one species that a compound sets free, in moles per mole of
// compound. It is negative for what is used up: an acid takes hydroxide.
type Release struct {
	Ion   ions.Ion
	Moles int8
}

// Find returns the compound of a formula ("CaCl2.2H2O", "CaCl₂·2H₂O"), of a
// name ("calcium chloride dihydrate"), of a common name ("baking soda", "Epsom salt") or of
// a CAS number. A formula is compared by its atoms, so H3BO3 and B(OH)3 are the same compound; a
// hydrate is another one than its anhydrous salt: washing soda is crystals, Na2CO3.10H2O,
// and soda ash is Na2CO3.
//
// What is not found is an *units.InputError.
func Find(text string) (Compound, error) {
	text = fromCommon(strings.TrimSpace(text))
	for i := 1; i < len(compounds); i++ {
		if text == compounds[i].formula || text == compounds[i].cas || strings.EqualFold(text, compounds[i].name) {
			return Compound{uint8(i)}, nil
		}
	}
	wanted, err := ParseFormula(text)
	if err != nil {
		return Compound{}, input.Bad("compound", input.Quoted(text), `a formula, name or CAS number such as "MgSO4.7H2O"`)
	}
	for c := range All() {
		if c.parsed().counts.Atoms == wanted.counts.Atoms {
			return c, nil
		}
	}
	want := `one of the compounds of this package, such as "MgSO4.7H2O"`
	if near := hydratesOf(wanted); near != "" {
		want = near
	}
	return Compound{}, input.Bad("compound", input.Quoted(text), want)
}

// hydratesOf lists the compounds that differ from a formula only by water.
func hydratesOf(f Formula) string {
	var list []string
	for c := range All() {
		if c.parsed().dry() == f.dry() {
			list = append(list, c.Formula())
		}
	}
	return strings.Join(list, " or ")
}

// All returns every compound of the package, a parent before its hydrates.
func All() iter.Seq[Compound] {
	return func(yield func(Compound) bool) {
		for i := 1; i < len(compounds); i++ {
			if !yield(Compound{uint8(i)}) {
				return
			}
		}
	}
}

// Exists tells whether there is a compound: whether it is not the zero value.
func (c Compound) Exists() bool { return c.index != 0 }

// Formula returns the formula, "CaCl2.2H2O".
func (c Compound) Formula() string { return compounds[c.index].formula }

// Name returns the name, "calcium chloride dihydrate".
func (c Compound) Name() string { return compounds[c.index].name }

// CAS returns the registry number by which chemicals are ordered.
func (c Compound) CAS() string { return compounds[c.index].cas }

// String returns the formula, or "no compound".
func (c Compound) String() string {
	if !c.Exists() {
		return c.Name()
	}
	return c.Formula()
}

// MarshalText writes the formula.
func (c Compound) MarshalText() ([]byte, error) {
	if !c.Exists() {
		return nil, input.Bad("compound", "none", "a compound")
	}
	return []byte(c.Formula()), nil
}

// UnmarshalText reads what Find finds.
func (c *Compound) UnmarshalText(text []byte) error {
	var err error
	*c, err = Find(string(text))
	return err
}

func (c Compound) parsed() Formula {
	f, _ := ParseFormula(c.Formula()) // of the table; the tests read them all
	return f
}

// MolarMass returns the molar mass, water of crystallisation included; NaN
// for no compound.
//
//	source  IUPAC 2021 abridged standard atomic weights, see Formula.MolarMass
func (c Compound) MolarMass() units.MolarMass {
	if !c.Exists() {
		return input.NaN[units.MolarMass]()
	}
	return c.parsed().MolarMass()
}

// Waters returns the moles of water of crystallisation per mole.
func (c Compound) Waters() int { return c.parsed().Waters() }

// Anhydrous returns the compound without its water of crystallisation, which
// is the compound itself if there is none.
func (c Compound) Anhydrous() Compound {
	if compounds[c.index].parent == "" {
		return c
	}
	for d := range All() {
		if d.Formula() == compounds[c.index].parent {
			return d
		}
	}
	return c
}

// Moles returns how many moles a mass of the compound is.
func (c Compound) Moles(m units.Mass) float64 { return m.Grams() / c.MolarMass().GramsPerMole() }

// Mass returns the mass of so many moles of the compound.
func (c Compound) Mass(moles float64) units.Mass {
	return units.Mass(moles*c.MolarMass().GramsPerMole()) * units.Gram
}

// Releases returns the species that one mole sets free in seawater, before
// carbon and boron find their balance there. Their charges sum to zero.
func (c Compound) Releases() iter.Seq[Release] {
	return func(yield func(Release) bool) {
		for _, r := range compounds[c.index].release {
			if !yield(r) {
				return
			}
		}
	}
}

// Gives returns the moles of one species per mole of the compound.
func (c Compound) Gives(i ions.Ion) float64 {
	for _, r := range compounds[c.index].release {
		if r.Ion == i {
			return float64(r.Moles)
		}
	}
	return 0
}

// Dose returns what so much of the compound adds to a water, both per kilogram
// of the finished solution.
func (c Compound) Dose(amount units.AmountPerKilogram) ions.Composition {
	var dose ions.Composition
	for _, r := range compounds[c.index].release {
		dose = dose.Add(r.Ion, units.AmountPerKilogram(r.Moles)*amount)
	}
	return dose
}

// Alkalinity returns by how many equivalents a mole of the compound changes
// total alkalinity on dissolving: 1 for NaHCO3, 2 for Na2CO3, -1 for HCl, 0 for
// CaCl2. Acetate counts 1 until bacteria have burnt it and leave bicarbonate;
// iron(III) chloride counts -3, as its hydrolysis in seawater is immediate.
//
//	source  definition of total alkalinity with its zero level at pK 4.5: Dickson 1981,
//	        Deep-Sea Res. 28A, 609-623; Wolf-Gladrow et al. 2007, Mar. Chem. 106, 287-300
func (c Compound) Alkalinity() float64 { return float64(c.Dose(1).Alkalinity()) }
