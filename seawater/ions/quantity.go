package ions

import (
	"math"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// kind is what the quantity of a Measurement is.
type kind uint8

const (
	content     kind = iota // of an ion; for boron and silicon of all forms
	trace                   // an element that counts for nothing
	alkalinity              // total alkalinity
	carbon                  // dissolved inorganic carbon
	acidity                 // pH
	temperature             // of all that depends on it
	bulk                    // of the water as a whole
)

// whole is a property of the water as a whole, to which all that is dissolved
// contributes. The first three are those of [Property], in its order.
type whole uint8

const (
	byDensity whole = iota
	byConductivity
	byIndex
	byPractical // practical salinity: a conductivity
	byChlorinity
	byGravity // specific gravity: a density at a temperature of its own
	byMass    // of all that is dissolved
)

// quantity is what the text of a Measurement means.
type quantity struct {
	kind    kind
	ion     Ion     // of a content
	counted float64 // g/mol by which a mass is counted; 0: the text does not tell
	whole   whole   // of a bulk kind
	assumed string  // what was read into the text
}

// bulkNames are the words for what is not an ion.
var bulkNames = [...]struct {
	names string // separated by bars
	is    quantity
}{
	{"temperature", quantity{kind: temperature}},
	{"alkalinity|total alkalinity|TA|KH|carbonate hardness", quantity{kind: alkalinity}},
	{"pH", quantity{kind: acidity}},
	{"DIC|TIC|dissolved inorganic carbon|C|carbon", quantity{kind: carbon, counted: massC}},
	{"salinity", quantity{kind: bulk, whole: byPractical}}, // or byMass, as the unit tells
	{"density", quantity{kind: bulk, whole: byDensity}},
	{"specific gravity|SG", quantity{kind: bulk, whole: byGravity}},
	{"conductivity|EC", quantity{kind: bulk, whole: byConductivity}},
	{"refractive index|index|nD", quantity{kind: bulk, whole: byIndex}},
	{"chlorinity", quantity{kind: bulk, whole: byChlorinity}},
}

// countings say as what the mass of a species may be counted.
var countings = [...]struct {
	ion  Ion
	as   string
	mass float64 // g per mole of the species
}{
	{Nitrate, "N", massN},
	{Nitrate, "NO3", massN + 3*massO},
	{Nitrite, "N", massN},
	{Nitrite, "NO2", massN + 2*massO},
	{Ammonium, "N", massN},
	{Ammonium, "NH4", massN + 4*massH},
	{Ammonium, "NH3", massN + 3*massH},
	{Phosphate, "P", massP},
	{Phosphate, "PO4", massP + 4*massO},
	{Phosphate, "HPO4", massH + massP + 4*massO},
	{Silicate, "Si", massSi},
	{Silicate, "SiO2", massSi + 2*massO},
	{Silicate, "Si(OH)4", massSi + 4*(massO+massH)},
	{Silicate, "H4SiO4", massSi + 4*(massO+massH)},
	{Sulfate, "S", massS},
	{Sulfate, "SO4", massS + 4*massO},
	{BoricAcid, "B", massB},
	{BoricAcid, "B(OH)3", massB + 3*(massO+massH)},
	{BoricAcid, "H3BO3", massB + 3*(massO+massH)},
	{Iodide, "I", massI},
	{Iodate, "I", massI},
	{Iodate, "IO3", massI + 3*massO},
	{Molybdate, "Mo", massMo},
	{Molybdate, "MoO4", massMo + 4*massO},
	{Calcium, "Ca", massCa},
	{Calcium, "CaCO3", massCa + massC + 3*massO},
	{Magnesium, "Mg", massMg},
	{Magnesium, "CaCO3", massCa + massC + 3*massO},
}

// elements are those that a report names where a composition holds another
// species.
var elements = [...]struct {
	names   string
	ion     Ion
	mass    float64
	assumed string
}{
	{"S|sulfur|sulphur", Sulfate, massS, "all sulfur is sulfate"},
	{"P|phosphorus", Phosphate, massP, "all phosphorus is phosphate"},
	{"Si|silicon", Silicate, massSi, ""},
	{"B|boron", BoricAcid, massB, ""},
	{"Mo|molybdenum", Molybdate, massMo, ""},
	{"I|iodine", Iodide, massI, "iodine is counted as iodide"},
	{"bromine", Bromide, massBr, ""},
	{"fluorine", Fluoride, massF, ""},
	{"chlorine", Chloride, massCl, ""},
}

// traces are elements of which seawater and tanks hold next to nothing.
const traces = "Ag|Al|As|Au|Be|Bi|Cd|Ce|Co|Cr|Cs|Ga|Ge|Hg|La|Nb|Ni|Pb|Rb|Sb|Sc|Se|Sn|Te|Ti|Tl|U|V|W|Y|Zr|" +
	"silver|aluminium|aluminum|arsenic|beryllium|bismuth|cadmium|cobalt|chromium|caesium|" +
	"cesium|mercury|lanthanum|nickel|lead|rubidium|antimony|scandium|selenium|tin|titanium|" +
	"thallium|uranium|vanadium|tungsten|yttrium|zirconium"

// mostTrace is how much of a trace is let pass: a mg/L adds 0.001 g/kg.
const mostTrace = 1 * units.MilligramPerLitre

// wantQuantity is said of a text without meaning.
const wantQuantity = `an element or ion such as "Ca" or "SO4", alkalinity, pH, DIC, temperature, ` +
	`salinity, density, specific gravity, conductivity, chlorinity or refractive index`

// meaning reads the quantity of a Measurement.
func meaning(text string) (quantity, error) {
	name := strings.TrimSpace(text)
	if len(text) > mostText {
		return quantity{}, input.Bad("quantity", input.Quoted(text), wantQuantity)
	}
	for _, b := range bulkNames {
		if named(b.names, name) {
			return b.is, nil
		}
	}
	base, as := countedAs(name)
	for _, e := range elements {
		if as == "" && named(e.names, base) {
			return quantity{ion: e.ion, counted: e.mass, assumed: e.assumed}, nil
		}
	}
	if as == "" && named(traces, base) {
		return quantity{kind: trace}, nil
	}
	ion, found := Lookup(base)
	for _, e := range elements {
		if !found && named(e.names, base) {
			ion, found = e.ion, true
		}
	}
	switch {
	case base == "N" || strings.EqualFold(base, "nitrogen"):
		return quantity{}, input.Bad("quantity", input.Quoted(text),
			`the ion that holds it: "nitrate as N", "nitrite as N" or "ammonium as N"`)
	case !found:
		return quantity{}, input.Bad("quantity", input.Quoted(text), wantQuantity)
	}
	switch ion {
	case Bicarbonate, Carbonate, CarbonDioxide, Hydroxide:
		return quantity{}, input.Bad("quantity", input.Quoted(text), "alkalinity together with pH or DIC, which tell it")
	case Borate:
		ion = BoricAcid // boron in all its forms
	}
	q := quantity{ion: ion}
	if as == "" {
		q.counted = unsaid(ion, base)
		return q, nil
	}
	if q.counted = massAs(ion, as); q.counted == 0 {
		return quantity{}, input.Bad("quantity", input.Quoted(text), choices(ion))
	}
	return q, nil
}

// massAs is the molar mass of one of the ways in which an ion is counted; 0: it is
// none of them.
func massAs(ion Ion, as string) float64 {
	for _, c := range countings {
		if c.ion == ion && c.as == as {
			return c.mass
		}
	}
	return 0
}

// unsaid is the molar mass by which an ion is counted where the text does not say; 0:
// nobody can tell.
func unsaid(ion Ion, base string) float64 {
	switch ion {
	case Nitrate, Nitrite, Ammonium, Phosphate, Molybdate:
		return 0
	case Silicate, BoricAcid: // a full formula tells
		switch {
		case strings.EqualFold(base, "boric acid"):
			return species[BoricAcid].molarMass
		case strings.EqualFold(base, "silica"):
			return massSi + 2*massO
		}
		return massAs(ion, plain(base))
	}
	return species[ion].molarMass
}

// countedAs takes "NO3 as N" and "NO3-N" apart.
func countedAs(name string) (base, as string) {
	if i := strings.Index(name, " as "); i >= 0 {
		return strings.TrimSpace(name[:i]), plain(name[i+4:])
	}
	if i := strings.LastIndexByte(name, '-'); i > 0 && i+1 < len(name) && name[i+1] >= 'A' && name[i+1] <= 'Z' {
		return strings.TrimSpace(name[:i]), plain(name[i+1:])
	}
	return name, ""
}

// choices lists as what a species may be counted: "nitrate as N" or "nitrate as
// NO3".
func choices(i Ion) string {
	text := ""
	for _, c := range countings {
		if c.ion == i {
			if text != "" {
				text += " or "
			}
			text += `"` + species[i].name + " as " + c.as + `"`
		}
	}
	if text == "" {
		return `"` + species[i].name + `"`
	}
	return text
}

// named tells whether one of the names, separated by bars, is name. Single
// letters are symbols and keep their case.
func named(names, name string) bool {
	for names != "" {
		var one string
		one, names, _ = strings.Cut(names, "|")
		if one == name || len(name) > 2 && strings.EqualFold(one, name) {
			return true
		}
	}
	return false
}

// scale is a unit of content: what one of it is.
type scale struct {
	size  float64 // in mg or mmol
	mass  bool    // mg
	litre bool    // per litre, otherwise per kilogram
}

const wantContent = `a unit such as "mg/L", "mg/kg", "mmol/L" or "umol/kg"`

// contentUnit reads the unit of a content.
func contentUnit(field, unit string) (scale, error) {
	one := "1 " + unit
	perLitre, err := units.Parse[units.MassPerLitre](one)
	if err == nil {
		return scale{perLitre.MilligramsPerLitre(), true, true}, nil
	}
	if x, err := units.Parse[units.MassPerKilogram](one); err == nil {
		return scale{x.MilligramsPerKilogram(), true, false}, nil
	}
	if x, err := units.Parse[units.AmountPerLitre](one); err == nil {
		return scale{float64(x / units.MillimolePerLitre), false, true}, nil
	}
	if x, err := units.Parse[units.AmountPerKilogram](one); err == nil {
		return scale{x.MillimolesPerKilogram(), false, false}, nil
	}
	if strings.HasPrefix(unit, "pp") {
		return scale{}, input.Bad(field+".unit", input.Quoted(unit),
			`"mg/L" or "mg/kg", "ug/L" or "ug/kg": the two differ by 2.5 % in seawater`)
	}
	return scale{}, input.Bad(field+".unit", input.Quoted(unit), wantContent)
}

// perKilogram is one of the unit in µmol per kg, counted by a molar mass, in
// water of a density.
func (s scale) perKilogram(counted float64, rho units.Density) float64 {
	x := s.size * 1000
	if s.mass {
		x /= counted
	}
	if s.litre {
		x /= rho.GramsPerMillilitre()
	}
	return x
}

// alkalinityUnit reads the unit of an alkalinity.
func alkalinityUnit(field, unit string) (scale, error) {
	if x, err := units.Parse[units.Alkalinity]("1 " + unit); err == nil {
		return scale{x.MilliequivalentsPerLitre(), false, true}, nil
	}
	s, err := contentUnit(field, unit)
	if err != nil || s.mass {
		return scale{}, input.Bad(field+".unit", input.Quoted(unit),
			`a unit such as "meq/L", "dKH", "ppm CaCO3" or "umol/kg"`)
	}
	return s, nil
}

// gravityPair reads the unit of a specific gravity, "25/25 °C" or "60/60 °F". Bare
// "25/25" can only be °C, at which 25 °F is ice: assumed says so.
func gravityPair(m Measurement) (pair units.GravityPair, assumed string, err error) {
	const one = "1.0264 "
	if g, err := units.Parse[units.SpecificGravity](one + m.Unit); err == nil {
		return g.Pair(), "", nil
	}
	g, bad := units.Parse[units.SpecificGravity](one + m.Unit + " °C")
	if pair = g.Pair(); bad != nil || pair.Liquid.Celsius() > 40 {
		return pair, "", input.Bad(m.Quantity+".unit", input.Quoted(m.Unit),
			`the temperatures of the water and of the pure water beside it, such as "25/25 °C" or "60/60 °F"`)
	}
	return pair, "the temperatures " + m.Unit + " of a specific gravity are °C", nil
}

// reader returns the function that turns the number of a bulk measurement into
// the salinity that stands for it, in g/kg: for what instruments feel that of the
// reference water, for the mass dissolved and the chlorinity the number itself.
// It also says which of the two salinities a report means. A specific gravity has its own
// temperature, which t then is.
func (q *quantity) reader(m Measurement, t units.Temperature) (whole, func(float64) float64, error) {
	wanted := func(want string) error {
		return input.Bad(m.Quantity+".unit", input.Quoted(m.Unit), want)
	}
	switch q.whole {
	case byPractical:
		if _, err := units.Parse[units.PracticalSalinity]("35 " + m.Unit); err == nil {
			return byPractical, func(v float64) float64 { return v * referenceUnit }, nil
		}
		if x, err := units.Parse[units.MassPerKilogram]("1 " + m.Unit); err == nil {
			return byMass, func(v float64) float64 { return v * x.GramsPerKilogram() }, nil
		}
		return 0, nil, wanted(`"PSS-78" for the practical salinity of a meter, ` +
			`or "g/kg" for the mass of all that is dissolved`)
	case byChlorinity:
		x, err := units.Parse[units.MassPerKilogram]("1 " + m.Unit)
		if err != nil {
			return 0, nil, wanted(`"g/kg"`)
		}
		return byChlorinity, func(v float64) float64 { return v * x.GramsPerKilogram() }, nil
	case byDensity:
		x, err := units.Parse[units.Density]("1 " + m.Unit)
		if err != nil {
			return 0, nil, wanted(`"kg/m3" or "g/mL"`)
		}
		return byDensity, func(v float64) float64 {
			return teos10.SalinityFromDensityExact(units.Density(v)*x, t, 0).GramsPerKilogram()
		}, nil
	case byGravity:
		pair, _, err := gravityPair(m)
		if err != nil {
			return 0, nil, err
		}
		pure := teos10.DensityExact(units.Absolute(0), pair.Water, 0)
		return byGravity, func(v float64) float64 {
			return teos10.SalinityFromDensityExact(units.Density(v)*pure, t, 0).GramsPerKilogram()
		}, nil
	case byIndex:
		if m.Unit != "" {
			return 0, nil, wanted("none")
		}
		return byIndex, func(v float64) float64 {
			return refractometer.SeawaterSalinity(refractometer.InAir(v), t).Value() * referenceUnit
		}, nil
	}
	x, err := units.Parse[units.Conductivity]("1 " + m.Unit)
	if err != nil {
		return 0, nil, wanted(`"mS/cm", not compensated`)
	}
	return byConductivity, func(v float64) float64 {
		return pss78.Salinity(units.Conductivity(v)*x, t, 0).Value() * referenceUnit
	}, nil
}

// property is the one that an instrument feels, if the whole is one.
func (w whole) property() (Property, bool) {
	switch w {
	case byPractical:
		return Conductivity, true
	case byGravity:
		return Density, true
	}
	return Property(w), w < whole(properties)
}

// of returns the salinity in g/kg that stands for the whole in a water.
func (w whole) of(c *Composition, t units.Temperature) float64 {
	if p, ok := w.property(); ok {
		return c.Shown(p, t).GramsPerKilogram()
	}
	if w == byChlorinity {
		return c.Chlorinity().GramsPerKilogram()
	}
	return c.grams()
}

// totalPH reads a pH on its scale.
func totalPH(m Measurement, k *carbonate.Constants) (carbonate.TotalPH, error) {
	scale := strings.ToLower(strings.TrimSuffix(strings.TrimSpace(m.Unit), " scale"))
	switch scale {
	case "total":
		return carbonate.PHTotal(m.Value), nil
	case "nbs":
		return carbonate.PHNBS(m.Value).Total(k), nil
	}
	return carbonate.PHTotal(math.NaN()), input.Bad(m.Quantity+
		".unit", input.Quoted(m.Unit), `the scale: "total", or "NBS" for an electrode set in dilute buffers`)
}
