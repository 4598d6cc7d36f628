package pitzer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Solid is a compound that can lie undissolved on the ground. The zero value is none.
type Solid uint8

// The solids of the table. Not among them, because the source has no constant: hydrates of
// calcium chloride, of strontium chloride and of sodium hydroxide, potassium and sodium
// bromide, hydrohalite, the monohydrate of soda, ikaite, and fluorite: a stock that holds
// much of their ions can be limited by what is not seen here.
const (
	Halite                        Solid = iota + 1 // NaCl
	Sylvite                                        // KCl
	Gypsum                                         // CaSO4·2H2O
	Anhydrite                                      // CaSO4
	Celestite                                      // SrSO4
	Mirabilite                                     // Na2SO4·10H2O
	Thenardite                                     // Na2SO4
	Epsomite                                       // MgSO4·7H2O
	Hexahydrite                                    // MgSO4·6H2O
	Kieserite                                      // MgSO4·H2O
	Leonhardite                                    // MgSO4·4H2O
	Pentahydrite                                   // MgSO4·5H2O
	Bischofite                                     // MgCl2·6H2O
	MagnesiumChlorideDihydrate                     // MgCl2·2H2O
	MagnesiumChlorideTetrahydrate                  // MgCl2·4H2O
	Carnallite                                     // KMgCl3·6H2O
	Kainite                                        // KMgClSO4·3H2O
	Arcanite                                       // K2SO4
	Glaserite                                      // NaK3(SO4)2
	Schoenite                                      // K2Mg(SO4)2·6H2O
	Leonite                                        // K2Mg(SO4)2·4H2O
	Syngenite                                      // K2Ca(SO4)2·H2O
	Polyhalite                                     // K2MgCa2(SO4)4·2H2O
	Glauberite                                     // Na2Ca(SO4)2
	LabileSalt                                     // Na4Ca(SO4)3·2H2O
	Goergeyite                                     // K2Ca5(SO4)6·H2O
	Bloedite                                       // Na2Mg(SO4)2·4H2O
	Aragonite                                      // CaCO3
	Calcite                                        // CaCO3
	Dolomite                                       // CaMg(CO3)2
	Magnesite                                      // MgCO3
	Nesquehonite                                   // MgCO3·3H2O
	Huntite                                        // CaMg3(CO3)4
	Artinite                                       // Mg2CO3(OH)2·3H2O
	Brucite                                        // Mg(OH)2
	Portlandite                                    // Ca(OH)2
	Nahcolite                                      // NaHCO3
	Natron                                         // Na2CO3·10H2O
	Trona                                          // Na3H(CO3)2·2H2O
	Kalicinite                                     // KHCO3
	Gaylussite                                     // CaNa2(CO3)2·5H2O
	Pirssonite                                     // Na2Ca(CO3)2·2H2O
	Burkeite                                       // Na6CO3(SO4)2
	Misenite                                       // K8H6(SO4)7
	Borax                                          // Na2(B4O5(OH)4)·8H2O
	Teepleite                                      // Na2B(OH)4Cl
	Sassolite                                      // B(OH)3
	SodiumMetaborate                               // NaBO2·4H2O
	SodiumPentaborate                              // NaB5O8·5H2O
	PotassiumPentaborate                           // KB5O8·4H2O
	PotassiumTetraborate                           // K2B4O7·4H2O
	Barite                                         // BaSO4

	solidEnd
)

// grade tells how far a constant can be believed.
type grade uint8

const (
	sound      grade = iota
	only25           // no function of temperature: 25 °C
	neverForms       // an index can be given; does not form in days or years
	unsound          // the constant itself is wrong or doubtful
)

// solidRow describes a solid.
type solidRow struct {
	name, formula   string
	of              [4]share // the rest may be empty, n = 0
	hydrogen, water float64
	via             Species // so many times the reaction that gives this is in k
	times           float64
	k               constant
	grade           grade
}

// lnK returns ln K for the counted species, hydrogen ions and water.
func (r *solidRow) lnK(w *warmth, reactions *[len(reactions)]float64) float64 {
	ln := r.k.ln(w)
	if r.times != 0 {
		ln -= r.times * reactions[reactionOf(r.via)]
	}
	return ln
}

// reactionOf returns the number of the reaction that gives a species.
func reactionOf(s Species) int {
	for i := range reactions {
		if reactions[i].gives == s {
			return i
		}
	}
	return 0
}

// room is how far from 25 °C a constant without function of temperature is taken, in K.
const room = 1

// judged tells whether usable does not refuse a solid.
func (s Solid) judged(t units.Temperature) bool {
	g := solids[s].grade
	return g == sound || g == neverForms || g == only25 && math.Abs(t.Celsius()-25) <= room
}

// usable refuses a solid whose constant is unsound, or that has one for 25 °C only.
func (s Solid) usable(t units.Temperature) error {
	if s == 0 || s >= solidEnd {
		return input.Bad("solid", input.Number(float64(s)), "one of the solids of this package")
	}
	switch solids[s].grade {
	case unsound:
		return input.Bad("solid", s.String(), "one whose solubility product is sound: the source's for this one is not")
	case only25:
		return units.Range{
			Quantity: "temperature", Min: 25 - room, Max: 25 + room, Unit: "°C",
			Source: "the constant of " + s.String() + " holds at 25 °C only",
		}.Check(t.Celsius())
	}
	return nil
}

// Formula returns the chemical formula, "CaSO4·2H2O".
func (s Solid) Formula() string {
	if s == 0 || s >= solidEnd {
		return ""
	}
	return solids[s].formula
}

// MolarMass returns the mass of a mole, with the atomic weights of 2021.
func (s Solid) MolarMass() units.MolarMass {
	mass, err := weigh(s.Formula())
	if err != nil {
		return input.NaN[units.MolarMass]()
	}
	return mass
}

// String returns the name, "gypsum"; of none nothing.
func (s Solid) String() string {
	if s == 0 || s >= solidEnd {
		return ""
	}
	return solids[s].name
}

// MarshalText writes the name.
func (s Solid) MarshalText() ([]byte, error) { return input.WriteChoice("solid", s, Halite, solidEnd) }

// UnmarshalText reads the name.
func (s *Solid) UnmarshalText(text []byte) (err error) {
	*s, err = input.ReadChoice("solid", text, Halite, solidEnd)
	return err
}
