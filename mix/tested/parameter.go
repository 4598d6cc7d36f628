package tested

import (
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Parameter is what a test measures: alkalinity, or a constituent of the water in
// all its dissolved forms. The zero value is none. A name that is none of these
// constants stands for a further solute that is conserved, counted by its own
// mass: Parameter("copper").
type Parameter string

// The parameters whose ways of counting are known.
const (
	Alkalinity Parameter = "alkalinity"
	Calcium    Parameter = "calcium"
	Magnesium  Parameter = "magnesium"
	Potassium  Parameter = "potassium"
	Strontium  Parameter = "strontium"
	Bromide    Parameter = "bromide"
	Boron      Parameter = "boron"
	Fluoride   Parameter = "fluoride"
	Iodine     Parameter = "iodine" // iodide and iodate together
	Iron       Parameter = "iron"
	Nitrate    Parameter = "nitrate"
	Phosphate  Parameter = "phosphate"
	Silicate   Parameter = "silicate"
	Ammonia    Parameter = "ammonia" // NH₃ and NH₄⁺ together

	// OrganicAlkalinity is what the bases of organic acids add to the alkalinity that a
	// kit counts, in mmol/L: see carbonate.Nutrients.
	OrganicAlkalinity Parameter = "organic alkalinity"
)

// counting is a way to count a parameter: what stands behind "mg/L", and the mass
// of a mole counted so.
type counting struct {
	symbol string
	mass   units.MolarMass
}

// itself counts a further solute by its own mass: a "mole" of one gram.
const itself = 1 * units.GramPerMole

// facts are what there is to know of a parameter.
type facts struct {
	name      Parameter
	ions      []ions.Ion // whose contents add up to it
	countings []counting // the usual one first
	bare      bool       // "mg/L" alone can mean only the first of them
}

var known = [...]facts{
	{name: Alkalinity},
	{Calcium, []ions.Ion{ions.Calcium}, []counting{{"Ca", units.AsCalcium}, {"CaCO3", units.AsCalciumCarbonate}}, true},
	{
		Magnesium,
		[]ions.Ion{ions.Magnesium},
		[]counting{{"Mg", units.AsMagnesium}, {"CaCO3", units.AsCalciumCarbonate}},
		true,
	},
	{Potassium, []ions.Ion{ions.Potassium}, []counting{{"K", units.AsPotassium}}, true},
	{Strontium, []ions.Ion{ions.Strontium}, []counting{{"Sr", units.AsStrontium}}, true},
	{Bromide, []ions.Ion{ions.Bromide}, []counting{{"Br", units.AsBromide}}, true},
	{Boron, []ions.Ion{ions.BoricAcid, ions.Borate}, []counting{{"B", units.AsBoron}, {"H3BO3", units.AsBoricAcid}}, true},
	{Fluoride, []ions.Ion{ions.Fluoride}, []counting{{"F", units.AsFluoride}}, true},
	{Iodine, []ions.Ion{ions.Iodide, ions.Iodate}, []counting{{"I", units.AsIodine}, {"IO3", units.AsIodate}}, true},
	{Iron, []ions.Ion{ions.Iron}, []counting{{"Fe", units.AsIron}}, true},
	{Nitrate, []ions.Ion{ions.Nitrate}, []counting{{"NO3", units.AsNitrate}, {"NO3-N", units.AsNitrogen}}, false},
	{Phosphate, []ions.Ion{ions.Phosphate}, []counting{{"PO4", units.AsPhosphate}, {"PO4-P", units.AsPhosphorus}}, false},
	{Silicate, []ions.Ion{ions.Silicate}, []counting{{"SiO2", units.AsSilica}, {"Si", units.AsSilicon}}, false},
	{
		Ammonia,
		[]ions.Ion{ions.Ammonium},
		[]counting{{"NH3-N", units.AsNitrogen}, {"NH3", units.AsAmmonia}, {"NH4", units.AsAmmonium}},
		false,
	},
	{OrganicAlkalinity, nil, nil, false},
	{FreeAmmonia, nil, []counting{{"free NH3", units.AsAmmonia}, {"free NH3-N", units.AsNitrogen}}, false},
}

// facts returns what is known of a parameter; nil for a further solute.
func (p Parameter) facts() *facts {
	for i := range known {
		if known[i].name == p {
			return &known[i]
		}
	}
	return nil
}

// Exists tells whether it is a parameter at all.
func (p Parameter) Exists() bool { return p != "" }

// Parameters lists those whose ways of counting are known.
func Parameters() []Parameter {
	list := make([]Parameter, len(known))
	for i := range known {
		list[i] = known[i].name
	}
	return list
}

// UnmarshalText reads a name in any case. One that is not known stands for a
// further solute.
func (p *Parameter) UnmarshalText(text []byte) error {
	*p = ""
	name := strings.TrimSpace(string(text))
	if name == "" || strings.ContainsAny(name, "\"\n\r\t") || len(name) > longestName {
		return input.Bad("parameter", input.Quoted(name), `a name such as "calcium" or "nitrate"`)
	}
	*p = Parameter(name)
	if lower := Parameter(strings.ToLower(name)); lower.facts() != nil {
		*p = lower
	}
	return nil
}

const longestName = 64

// MarshalText writes the name.
func (p Parameter) MarshalText() ([]byte, error) { return []byte(p), nil }

// In returns how much of the parameter a composition holds, in the base unit of its
// levels times a litre per kilogram of water: mmol/kg, of alkalinity, which is taken
// from the strong ions, meq/kg. A further solute is in no composition: zero.
func (p Parameter) In(c ions.Composition) units.AmountPerKilogram {
	if p == Alkalinity {
		return c.Alkalinity()
	}
	sum := units.AmountPerKilogram(0)
	if f := p.facts(); f != nil {
		for _, i := range f.ions {
			sum += c.Amount(i)
		}
	}
	return sum
}

// Ions lists the species whose contents add up to the parameter; none for
// alkalinity and for a further solute.
func (p Parameter) Ions() []ions.Ion {
	if f := p.facts(); f != nil {
		return append([]ions.Ion(nil), f.ions...)
	}
	return nil
}

// example writes the ways of counting a parameter, for error messages.
func (p Parameter) example() string {
	f := p.facts()
	switch {
	case p == Alkalinity:
		return `"8.2 dKH", "2.9 meq/L" or "146 mg/L CaCO3 of alkalinity"`
	case f == nil:
		return `"0.2 mg/L of ` + string(p) + `"`
	}
	var list []string
	for _, way := range f.countings {
		list = append(list, `"mg/L `+way.symbol+`"`)
	}
	return strings.Join(append(list, `"mmol/L of `+string(p)+`"`), " or ")
}
