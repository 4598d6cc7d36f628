package pitzer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// element is what a formula is made of: an element, or ammonium or nitrate as a whole.
type element struct {
	symbol string
	mass   float64
	as     Species // as which it is counted; Hydrogen for what is not
}

// elements are tried in this order, so that the longer symbol comes first.
//
//	source   IUPAC atomic weights 2021, Prohaska et al. 2022, Pure Appl. Chem. 94, 573
var elements = [...]element{
	{"NH4", float64(units.AsAmmonium), Ammonium},
	{"NO3", float64(units.AsNitrate), Nitrate},
	{"Na", float64(units.AsSodium), Sodium},
	{"Mg", float64(units.AsMagnesium), Magnesium},
	{"Mn", 54.938, Manganese},
	{"Ca", float64(units.AsCalcium), Calcium},
	{"Cl", float64(units.AsChloride), Chloride},
	{"Br", float64(units.AsBromide), Bromide},
	{"Ba", 137.33, Barium},
	{"Sr", float64(units.AsStrontium), Strontium},
	{"Si", float64(units.AsSilicon), SilicicAcid},
	{"Li", 6.94, Lithium},
	{"Fe", float64(units.AsIron), Iron},
	{"H", 1.008, Hydrogen},
	{"O", float64(units.AsOxygen) / 2, Hydrogen},
	{"K", float64(units.AsPotassium), Potassium},
	{"S", float64(units.AsSulfur), Sulfate},
	{"C", float64(units.AsCarbon), Carbonate},
	{"B", float64(units.AsBoron), BoricAcid},
	{"F", float64(units.AsFluoride), Fluoride},
	{"I", float64(units.AsIodine), Iodide},
}

const (
	hydrogenElement = 13
	oxygenElement   = 14
)

// formula is a compound taken apart: so many moles of each counted species, of hydrogen ions
// and of water in a mole.
type formula struct {
	totals
	hydrogen, water float64
	mass            float64 // g/mol
}

// atoms are counts of elements.
type atoms [len(elements)]float64

// longest bounds a formula; its brackets nest so deep at most.
const (
	longest = 100
	nested  = 4
)

// parseFormula takes a formula apart. Sulfur is taken for sulfate, carbon for carbonate,
// boron for borate, silicon for silicate, iron and manganese for divalent: the oxygen that
// is left is water, the hydrogen that is left is acid, and the charges have to be zero
// then. So a sulfite, an organic carbon or an iodate does not pass.
func parseFormula(text string) (formula, error) {
	a, err := count(text)
	if err != nil {
		return formula{}, err
	}
	var f formula
	oxygen, hydrogen := a[oxygenElement], a[hydrogenElement]
	for i, n := range a {
		f.mass += n * elements[i].mass
		for j, s := range counted {
			if elements[i].as == s {
				f.n[j] += n
			}
		}
		switch elements[i].as {
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
	f.water = oxygen
	f.hydrogen = hydrogen - 2*oxygen
	if math.Abs(f.excess()+f.hydrogen) > 1e-9 {
		return formula{}, input.Bad("formula", input.Quoted(text),
			"a salt, acid or base of sulfate, carbonate, borate, silicate, halides, nitrate and metals of the model")
	}
	return f, nil
}

// CheckFormula returns an *units.InputError of what is no compound of the model's ions.
func CheckFormula(text string) error {
	_, err := parseFormula(text)
	return err
}

// weigh returns the mass of a mole in g, also of an ion with its charge.
func weigh(text string) (float64, error) {
	for len(text) > 0 && (text[len(text)-1] == '+' || text[len(text)-1] == '-') {
		text = text[:len(text)-1]
	}
	a, err := count(text)
	if err != nil {
		return math.NaN(), err
	}
	var mass float64
	for i, n := range a {
		mass += n * elements[i].mass
	}
	return mass, nil
}

// count counts the atoms of a formula, parts of which are joined by a dot.
func count(text string) (a atoms, err error) {
	wrong := func() error {
		return input.Bad("formula", input.Quoted(text), `a chemical formula of the model's elements such as "CaCl2·2H2O"`)
	}
	if text == "" || len(text) > longest {
		return a, wrong()
	}
	for rest := text; rest != ""; {
		n := 1.
		if isDigit(rest[0]) {
			n, rest = number(rest)
		}
		part, left, ok := group(rest, 0)
		if !ok || len(left) == len(rest) {
			return atoms{}, wrong()
		}
		for i := range a {
			a[i] += n * part[i]
		}
		rest = left
		if rest != "" {
			var joined bool
			if rest, joined = afterDot(rest); !joined || rest == "" {
				return atoms{}, wrong()
			}
		}
	}
	return a, nil
}

// afterDot cuts one of the signs that join a salt and its water.
func afterDot(text string) (rest string, ok bool) {
	for _, dot := range [...]string{"·", "•", ".", "*", ":"} {
		if len(text) >= len(dot) && text[:len(dot)] == dot {
			return text[len(dot):], true
		}
	}
	return text, false
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// number reads the digits with which a text begins; without any it is 1.
func number(text string) (n float64, rest string) {
	i := 0
	for i < len(text) && i < 3 && isDigit(text[i]) {
		n = 10*n + float64(text[i]-'0')
		i++
	}
	if i == 0 {
		n = 1
	}
	return n, text[i:]
}

// group counts the atoms up to the end, a dot or the bracket that closes.
func group(text string, depth int) (a atoms, rest string, ok bool) {
	if depth > nested {
		return a, text, false
	}
	for text != "" {
		if _, dot := afterDot(text); dot || text[0] == ')' {
			return a, text, true
		}
		if text[0] == '(' {
			inner, left, ok := group(text[1:], depth+1)
			if !ok || left == "" || left[0] != ')' {
				return a, text, false
			}
			var n float64
			n, text = number(left[1:])
			for i := range a {
				a[i] += n * inner[i]
			}
			continue
		}
		i, left := symbol(text)
		if i < 0 {
			return a, text, false
		}
		var n float64
		n, text = number(left)
		a[i] += n
	}
	return a, text, depth == 0
}

// symbol finds the element with which a text begins, or -1.
func symbol(text string) (i int, rest string) {
	for i := range elements {
		s := elements[i].symbol
		if len(text) >= len(s) && text[:len(s)] == s {
			return i, text[len(s):]
		}
	}
	return -1, text
}
