package formula

import "example.org/wellmixed/units"

// Element is a chemical element with its atomic weight.
type Element struct {
	Symbol string
	Weight units.MolarMass
}

// Elements holds the abridged standard atomic weights, in g/mol, as printed;
// the conventional value where the standard weight is an interval.
//
//	source  Prohaska et al. 2022, Pure Appl. Chem. 94, 573-600, Table 1: IUPAC 2021
var Elements = [...]Element{
	{"H", 1.0080},
	{"He", 4.0026},
	{"Li", 6.94},
	{"Be", 9.0122},
	{"B", 10.81},
	{"C", 12.011},
	{"N", 14.007},
	{"O", 15.999},
	{"F", 18.998},
	{"Na", 22.990},
	{"Mg", 24.305},
	{"Al", 26.982},
	{"Si", 28.085},
	{"P", 30.974},
	{"S", 32.06},
	{"Cl", 35.45},
	{"K", 39.098},
	{"Ca", 40.078},
	{"V", 50.942},
	{"Cr", 51.996},
	{"Mn", 54.938},
	{"Fe", 55.845},
	{"Co", 58.933},
	{"Ni", 58.693},
	{"Cu", 63.546},
	{"Zn", 65.38},
	{"As", 74.922},
	{"Se", 78.971},
	{"Br", 79.904},
	{"Rb", 85.468},
	{"Sr", 87.62},
	{"Mo", 95.95},
	{"Ag", 107.87},
	{"Cd", 112.41},
	{"Sn", 118.71},
	{"Sb", 121.76},
	{"I", 126.90},
	{"Cs", 132.91},
	{"Ba", 137.33},
	{"W", 183.84},
	{"Hg", 200.59},
	{"Pb", 207.2},
	{"U", 238.03},
}

// Index returns the place of an element in the table, or -1.
func Index(symbol string) int {
	for i := range Elements {
		if Elements[i].Symbol == symbol {
			return i
		}
	}
	return -1
}
