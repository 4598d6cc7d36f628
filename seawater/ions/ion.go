package ions

import (
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Ion is one dissolved species that a [Composition] counts: an ion, or one of
// the few neutral molecules that belong to seawater. The zero value is sodium.
type Ion uint8

// The species. Weak acids are counted in the form that prevails in seawater of
// pH 8; [Composition.Settled] distributes carbon and boron over their forms.
const (
	Sodium Ion = iota
	Magnesium
	Calcium
	Potassium
	Strontium
	Lithium
	Barium
	Ammonium  // all ammonia
	Manganese // Mn(II), a trace
	Zinc      // a trace
	Copper    // Cu(II), a trace
	Chloride
	Sulfate // all sulfate, HSO4- too
	Bicarbonate
	Carbonate
	Bromide
	Borate   // B(OH)4-
	Fluoride // all fluoride, HF too
	Hydroxide
	Iodide
	Iodate
	Nitrate
	Nitrite
	Phosphate // all orthophosphate, as HPO4--
	Molybdate // a trace
	Acetate
	BoricAcid     // B(OH)3
	CarbonDioxide // CO2 and H2CO3
	Silicate      // all dissolved silicate, as Si(OH)4
	Iron          // all dissolved iron, as the hydrolysed Fe(OH)3: a trace without charge, counted as Fe

	count
)

// Atomic weights, IUPAC 2021 abridged: the set of [units.MolarMass] and of package
// salts, by which laboratories report and balances weigh. How the older set of the
// reference composition goes with it, [Composition.SolutionSalinity] says.
//
//	source   [AW21] table 1; the conventional value where the standard weight is an interval
const (
	massH  = 1.0080
	massLi = 6.94
	massB  = float64(units.AsBoron)
	massC  = float64(units.AsCarbon)
	massN  = float64(units.AsNitrogen)
	massO  = float64(units.AsOxygen) / 2
	massF  = float64(units.AsFluoride)
	massNa = float64(units.AsSodium)
	massMg = float64(units.AsMagnesium)
	massSi = float64(units.AsSilicon)
	massP  = float64(units.AsPhosphorus)
	massS  = float64(units.AsSulfur)
	massCl = float64(units.AsChloride)
	massK  = float64(units.AsPotassium)
	massCa = float64(units.AsCalcium)
	massMn = 54.938
	massFe = float64(units.AsIron)
	massCu = 63.546
	massZn = 65.38
	massBr = float64(units.AsBromide)
	massSr = float64(units.AsStrontium)
	massMo = 95.95
	massI  = float64(units.AsIodine)
	massBa = 137.33
)

// species describes each Ion.
//
// protons is the charge of the form at the zero level of protons, by which
// alkalinity is defined: for a strong ion its charge, for an acid the charge of
// the form that holds at pH 4.5 (H2PO4-, CO2, B(OH)3, acetic acid). So
// alkalinity is the sum of protons times content [WG07].
var species = [count]struct {
	symbol    string // with its charge
	name      string
	charge    int8
	protons   int8
	molarMass float64 // g/mol
}{
	Sodium:        {"Na+", "sodium", 1, 1, massNa},
	Magnesium:     {"Mg++", "magnesium", 2, 2, massMg},
	Calcium:       {"Ca++", "calcium", 2, 2, massCa},
	Potassium:     {"K+", "potassium", 1, 1, massK},
	Strontium:     {"Sr++", "strontium", 2, 2, massSr},
	Lithium:       {"Li+", "lithium", 1, 1, massLi},
	Barium:        {"Ba++", "barium", 2, 2, massBa},
	Ammonium:      {"NH4+", "ammonium", 1, 1, massN + 4*massH},
	Manganese:     {"Mn++", "manganese", 2, 2, massMn},
	Zinc:          {"Zn++", "zinc", 2, 2, massZn},
	Copper:        {"Cu++", "copper", 2, 2, massCu},
	Chloride:      {"Cl-", "chloride", -1, -1, massCl},
	Sulfate:       {"SO4--", "sulfate", -2, -2, massS + 4*massO},
	Bicarbonate:   {"HCO3-", "bicarbonate", -1, 0, massH + massC + 3*massO},
	Carbonate:     {"CO3--", "carbonate", -2, 0, massC + 3*massO},
	Bromide:       {"Br-", "bromide", -1, -1, massBr},
	Borate:        {"B(OH)4-", "borate", -1, 0, massB + 4*(massO+massH)},
	Fluoride:      {"F-", "fluoride", -1, -1, massF},
	Hydroxide:     {"OH-", "hydroxide", -1, 0, massO + massH},
	Iodide:        {"I-", "iodide", -1, -1, massI},
	Iodate:        {"IO3-", "iodate", -1, -1, massI + 3*massO},
	Nitrate:       {"NO3-", "nitrate", -1, -1, massN + 3*massO},
	Nitrite:       {"NO2-", "nitrite", -1, -1, massN + 2*massO},
	Phosphate:     {"HPO4--", "phosphate", -2, -1, massH + massP + 4*massO},
	Molybdate:     {"MoO4--", "molybdate", -2, -2, massMo + 4*massO},
	Acetate:       {"CH3COO-", "acetate", -1, 0, 2*massC + 3*massH + 2*massO},
	BoricAcid:     {"B(OH)3", "boric acid", 0, 0, massB + 3*(massO+massH)},
	CarbonDioxide: {"CO2", "carbon dioxide", 0, 0, massC + 2*massO},
	Silicate:      {"Si(OH)4", "silicate", 0, 0, massSi + 4*(massO+massH)},
	Iron:          {"Fe", "iron", 0, 0, massFe},
}

// Symbol returns the formula with the charge, "Na+" or "SO4--".
func (i Ion) Symbol() string {
	if i >= count {
		return "?"
	}
	return species[i].symbol
}

// Name returns the English name, "sodium".
func (i Ion) Name() string {
	if i >= count {
		return "no ion"
	}
	return species[i].name
}

// String returns the symbol.
func (i Ion) String() string { return i.Symbol() }

// Charge returns the charge in units of that of a proton: -2 for sulfate.
func (i Ion) Charge() int {
	if i >= count {
		return 0
	}
	return int(species[i].charge)
}

// MolarMass returns the mass of a mole by which it is weighed and reported, with the
// atomic weights of 2021 [AW21]. It is NaN for what is no Ion.
func (i Ion) MolarMass() units.MolarMass {
	if i >= count {
		return input.NaN[units.MolarMass]()
	}
	return units.MolarMass(species[i].molarMass)
}

// MarshalText writes the symbol.
func (i Ion) MarshalText() ([]byte, error) {
	if i >= count {
		return nil, input.Bad("ion", input.Number(float64(i)), "one of the ions of this package")
	}
	return []byte(i.Symbol()), nil
}

// UnmarshalText reads what Lookup finds.
func (i *Ion) UnmarshalText(text []byte) error {
	found, ok := Lookup(string(text))
	if !ok {
		return input.Bad("ion", input.Quoted(string(text)), `a formula or a name such as "Na", "SO4--" or "calcium"`)
	}
	*i = found
	return nil
}

// otherNames are further formulas and names under which a species goes.
var otherNames = [...]struct {
	text string
	ion  Ion
}{
	{"PO4", Phosphate},
	{"PO4---", Phosphate},
	{"NH3", Ammonium},
	{"H3BO3", BoricAcid},
	{"H4SiO4", Silicate},
	{"SiO2", Silicate},
	{"Fe+++", Iron},
	{"Fe++", Iron},
	{"CH3CO2-", Acetate},
	{"sulphate", Sulfate},
	{"hydrogen carbonate", Bicarbonate},
	{"ammonia", Ammonium},
	{"silica", Silicate},
}

// Lookup finds a species by its formula, with or without the charge in any of
// the usual spellings ("Na", "Na+", "SO4", "SO4--", "SO4-2", "SO4 2-", "SO₄²⁻"), or
// by its English name. An element that several species share, such as N or S,
// is none.
func Lookup(text string) (Ion, bool) {
	if len(text) > 40 { // no species has so long a name
		return 0, false
	}
	text = plain(text)
	for i := Ion(0); i < count; i++ {
		if sameSpecies(text, species[i].symbol) || strings.EqualFold(text, plain(species[i].name)) {
			return i, true
		}
	}
	for _, other := range otherNames {
		if sameSpecies(text, other.text) || strings.EqualFold(text, plain(other.text)) {
			return other.ion, true
		}
	}
	return 0, false
}

// plain writes raised and lowered characters on the line and drops spaces.
func plain(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r >= '₀' && r <= '₉':
			r += '0' - '₀'
		case r >= '⁴' && r <= '⁹':
			r += '4' - '⁴'
		case r == '²' || r == '³':
			r += '2' - '²'
		case r == '⁺':
			r = '+'
		case r == '⁻' || r == '−' || r == '–':
			r = '-'
		case r == ' ' || r == '^' || r == '\t':
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}

// sameSpecies tells whether text is the symbol, its charge written any way or
// left out.
func sameSpecies(text, symbol string) bool {
	formula := strings.TrimRight(symbol, "+-")
	signs := symbol[len(formula):]
	rest, found := strings.CutPrefix(text, formula)
	if !found {
		return false
	}
	if rest == "" || rest == signs {
		return true
	}
	if signs == "" {
		return false
	}
	sign, n := signs[:1], string(rune('0'+len(signs)))
	return rest == sign+n || rest == n+sign
}
