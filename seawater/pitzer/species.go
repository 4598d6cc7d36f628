package pitzer

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Species is one kind of particle in the solution. The zero value is the hydrogen ion.
type Species uint8

// The species of the model. There are no others: what other models write as pairs of
// ions, such as CaCO3 or MgSO4, is in the interaction of the ions here.
const (
	Hydrogen Species = iota
	Sodium
	Potassium
	Magnesium
	Calcium
	Strontium
	Lithium
	Barium
	Manganese // Mn(II)
	Iron      // Fe(II)
	Ammonium  // of single salts, 25 °C
	MagnesiumHydroxide
	MagnesiumBorate
	CalciumBorate

	Chloride
	Bromide
	Sulfate
	Carbonate
	Nitrate  // of single salts, 25 °C
	Fluoride // of single salts, 25 °C
	Iodide   // of single salts, 25 °C
	Hydroxide
	Bicarbonate
	Bisulfate
	Borate
	Triborate
	Tetraborate
	TrihydrogenSilicate
	DihydrogenSilicate

	BoricAcid
	CarbonDioxide
	MagnesiumCarbonate
	SilicicAcid

	speciesEnd
)

const (
	firstAnion   = Chloride
	firstNeutral = BoricAcid
)

// speciesTable gives the formula with the charge, as package ions writes it, and the
// charge.
var speciesTable = [speciesEnd]struct {
	symbol string
	charge float64
}{
	Hydrogen:            {"H+", 1},
	Sodium:              {"Na+", 1},
	Potassium:           {"K+", 1},
	Magnesium:           {"Mg++", 2},
	Calcium:             {"Ca++", 2},
	Strontium:           {"Sr++", 2},
	Lithium:             {"Li+", 1},
	Barium:              {"Ba++", 2},
	Manganese:           {"Mn++", 2},
	Iron:                {"Fe++", 2},
	Ammonium:            {"NH4+", 1},
	MagnesiumHydroxide:  {"MgOH+", 1},
	MagnesiumBorate:     {"MgB(OH)4+", 1},
	CalciumBorate:       {"CaB(OH)4+", 1},
	Chloride:            {"Cl-", -1},
	Bromide:             {"Br-", -1},
	Sulfate:             {"SO4--", -2},
	Carbonate:           {"CO3--", -2},
	Nitrate:             {"NO3-", -1},
	Fluoride:            {"F-", -1},
	Iodide:              {"I-", -1},
	Hydroxide:           {"OH-", -1},
	Bicarbonate:         {"HCO3-", -1},
	Bisulfate:           {"HSO4-", -1},
	Borate:              {"B(OH)4-", -1},
	Triborate:           {"B3O3(OH)4-", -1},
	Tetraborate:         {"B4O5(OH)4--", -2},
	TrihydrogenSilicate: {"H3SiO4-", -1},
	DihydrogenSilicate:  {"H2SiO4--", -2},
	BoricAcid:           {"B(OH)3", 0},
	CarbonDioxide:       {"CO2", 0},
	MagnesiumCarbonate:  {"MgCO3", 0},
	SilicicAcid:         {"Si(OH)4", 0},
}

// Charge returns the charge in units of that of a proton.
func (s Species) Charge() int {
	if s >= speciesEnd {
		return 0
	}
	return int(speciesTable[s].charge)
}

// String returns the formula with its charge, "SO4--".
func (s Species) String() string {
	if s >= speciesEnd {
		return "?"
	}
	return speciesTable[s].symbol
}

// MarshalText writes the formula.
func (s Species) MarshalText() ([]byte, error) {
	if s >= speciesEnd {
		return nil, input.Bad("species", input.Number(float64(s)), "one of the species of this package")
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads what MarshalText writes.
func (s *Species) UnmarshalText(text []byte) error {
	for i := range speciesEnd {
		if speciesTable[i].symbol == string(text) {
			*s = i
			return nil
		}
	}
	*s = speciesEnd
	return input.Bad("species", input.Quoted(string(text)), `a formula with its charge such as "Na+" or "SO4--"`)
}

// constant is an equilibrium constant and its function of temperature.
type constant struct {
	a    [6]float64
	at25 float64 // log K at 25 °C, where a has nothing
	heat float64 // of reaction, kJ/mol, where a has nothing
}

// ln returns the natural logarithm of the constant.
//
//	symbol   log K = A1 + A2 T + A3/T + A4 log T + A5/T² + A6 T², or
//	         log K = log K(25) - ΔH (298.15 - T)/(R T 298.15 ln 10)
//	source   [PHREEQC]
func (c *constant) ln(w *warmth) float64 {
	if c.a == [6]float64{} {
		return ln10*c.at25 + c.heat*w.f[1]/-gasConstant
	}
	a := &c.a
	return ln10*(a[0]+a[1]*w.t+a[2]/w.t+a[4]/(w.t*w.t)+a[5]*w.t*w.t) + a[3]*w.ln
}

// share is so many of a species in one of another or in a solid.
type share struct {
	of Species
	n  float64
}

// reaction makes a species of those that are counted.
type reaction struct {
	gives           Species
	of              [2]share // the second may be empty, n = 0
	hydrogen, water float64
	k               constant
}

// number returns how many of the counted species the reaction takes.
func (r *reaction) number(of Species) float64 {
	for _, s := range r.of {
		if s.of == of && s.n != 0 {
			return s.n
		}
	}
	return 0
}

// MolarMass returns the mass of a mole, with the atomic weights of 2021.
func (s Species) MolarMass() units.MolarMass {
	if s >= speciesEnd {
		return input.NaN[units.MolarMass]()
	}
	mass, _ := weigh(speciesTable[s].symbol)
	return mass
}
