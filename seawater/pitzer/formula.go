package pitzer

import (
	"math"

	"example.org/wellmixed/internal/formula"
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// elements are what a formula may be made of beside hydrogen, oxygen and nitrogen, and as which
// species each is counted.
var elements = [...]struct {
	symbol string
	as     Species
}{
	{"Na", Sodium},
	{"K", Potassium},
	{"Mg", Magnesium},
	{"Ca", Calcium},
	{"Sr", Strontium},
	{"Cl", Chloride},
	{"Br", Bromide},
	{"S", Sulfate},
	{"C", Carbonate},
	{"B", BoricAcid},
	{"Li", Lithium},
	{"Ba", Barium},
	{"Mn", Manganese},
	{"Fe", Iron},
	{"Si", SilicicAcid},
	{"F", Fluoride},
	{"I", Iodide},
}

// compound is one taken apart: so many moles of each counted species, of hydrogen ions and of
// water in a mole.
type compound struct {
	totals
	hydrogen, water float64
	mass            float64 // g/mol
}

// parseFormula takes a formula apart. Sulfur is taken for sulfate, carbon for carbonate,
// boron for borate, silicon for silicate, iron and manganese for divalent, nitrogen for
// ammonium or nitrate as the charges have it: the oxygen that is left is water, the hydrogen
// that is left is acid, and the charges have to be zero then. So a sulfite, an organic carbon,
// an iodate or a nitrite does not pass.
func parseFormula(text string) (compound, error) {
	f, err := formula.Parse(text)
	if err != nil {
		return compound{}, err
	}
	atoms := func(symbol string) float64 { return float64(f.Atoms[formula.Index(symbol)]) }
	hydrogen, oxygen, nitrogen := atoms("H"), atoms("O"), atoms("N")
	rest := -hydrogen - oxygen - nitrogen
	for _, n := range f.Atoms {
		rest += float64(n)
	}
	c := compound{mass: f.MolarMass().GramsPerMole()}
	for _, e := range elements {
		n := atoms(e.symbol)
		rest -= n
		c.add(e.as, n)
		switch e.as {
		case Sulfate:
			oxygen -= 4 * n
		case Carbonate:
			oxygen -= 3 * n
		case BoricAcid:
			oxygen, hydrogen = oxygen-3*n, hydrogen-3*n
		case SilicicAcid:
			oxygen, hydrogen = oxygen-4*n, hydrogen-4*n
		}
	}
	if nitrogen > 0 {
		// excess + x - (n-x) + H - 4x - 2(O - 3(n-x)) = 0
		x := (c.excess() + hydrogen - 2*oxygen + 5*nitrogen) / 8
		if x != math.Trunc(x) || x < 0 || x > nitrogen || atoms("H") < 4*x {
			return compound{}, noCompound(text)
		}
		c.add(Ammonium, x)
		c.add(Nitrate, nitrogen-x)
		oxygen, hydrogen = oxygen-3*(nitrogen-x), hydrogen-4*x
	}
	c.water = oxygen
	c.hydrogen = hydrogen - 2*oxygen
	if rest != 0 || c.excess()+c.hydrogen != 0 {
		return compound{}, noCompound(text)
	}
	return c, nil
}

// add adds to what is counted as a species.
func (c *compound) add(as Species, n float64) {
	for i, s := range counted {
		if s == as {
			c.n[i] += n
		}
	}
}

func noCompound(text string) error {
	return input.Bad("formula", input.Quoted(text),
		"a salt, acid or base of sulfate, carbonate, borate, silicate, halides, nitrate and metals of the model")
}

// CheckFormula returns an *units.InputError of what is no compound of the model's ions.
func CheckFormula(text string) error {
	_, err := parseFormula(text)
	return err
}

// weigh returns the mass of a mole, also of an ion with its charge.
func weigh(text string) (units.MolarMass, error) {
	for len(text) > 0 && (text[len(text)-1] == '+' || text[len(text)-1] == '-') {
		text = text[:len(text)-1]
	}
	f, err := formula.Parse(text)
	if err != nil {
		return input.NaN[units.MolarMass](), err
	}
	return f.MolarMass(), nil
}
