package replenish

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Parameter is what a test measures and an additive raises: alkalinity, or an
// element in one of its dissolved forms. The zero value is none.
type Parameter uint8

// The parameters that a reef uses up, and the two nutrients of which a tank can
// have too little.
const (
	_ Parameter = iota
	Alkalinity
	Calcium
	Magnesium
	Potassium
	Strontium
	Bromide
	Boron
	Fluoride
	Iodine // iodide and iodate together
	Iron
	Nitrate
	Phosphate

	parameters // one more than the last
)

// counting is a way to count a parameter: the text that says so behind the
// number, and the mass of a mole of it.
type counting struct {
	text string
	mass units.MolarMass
}

// parameter is what there is to know of a Parameter.
type parameter struct {
	name      string
	ions      []ions.Ion // whose contents add up to it
	countings []counting // the usual one first
	ambiguous bool       // a bare mass could mean two of them
	perDay    float64    // usual limit of the change in a day, see advice
}

// about holds the parameters. The limits per day are those of advice, in mg/L by
// the first counting, of alkalinity in dKH.
var about = [parameters]parameter{
	Alkalinity: {name: "alkalinity", perDay: advice.AlkalinityPerDay.DKH()},
	Calcium: {name: "calcium", ions: []ions.Ion{ions.Calcium}, perDay: float64(advice.CalciumPerDay),
		countings: []counting{{"Ca", units.AsCalcium}, {"CaCO3", units.AsCalciumCarbonate}}},
	Magnesium: {name: "magnesium", ions: []ions.Ion{ions.Magnesium}, perDay: float64(advice.MagnesiumPerDay),
		countings: []counting{{"Mg", units.AsMagnesium}, {"CaCO3", units.AsCalciumCarbonate}}},
	Potassium: {name: "potassium", ions: []ions.Ion{ions.Potassium}, perDay: float64(advice.PotassiumPerDay),
		countings: []counting{{"K", units.AsPotassium}}},
	Strontium: {name: "strontium", ions: []ions.Ion{ions.Strontium}, perDay: float64(advice.StrontiumPerDay),
		countings: []counting{{"Sr", units.AsStrontium}}},
	Bromide: {name: "bromide", ions: []ions.Ion{ions.Bromide}, perDay: float64(advice.BromidePerDay),
		countings: []counting{{"Br", units.AsBromide}}},
	Boron: {name: "boron", ions: []ions.Ion{ions.BoricAcid, ions.Borate}, perDay: float64(advice.BoronPerDay),
		countings: []counting{{"B", units.AsBoron}, {"H3BO3", units.AsBoricAcid}}},
	Fluoride: {name: "fluoride", ions: []ions.Ion{ions.Fluoride}, perDay: float64(advice.FluoridePerDay),
		countings: []counting{{"F", units.AsFluoride}}},
	Iodine: {name: "iodine", ions: []ions.Ion{ions.Iodide, ions.Iodate}, perDay: float64(advice.IodinePerDay),
		countings: []counting{{"I", units.AsIodine}, {"IO3", units.AsIodate}}},
	Iron: {name: "iron", ions: []ions.Ion{ions.Iron}, perDay: float64(advice.IronPerDay),
		countings: []counting{{"Fe", units.AsIron}}},
	Nitrate: {name: "nitrate", ions: []ions.Ion{ions.Nitrate}, perDay: float64(advice.NitratePerDay), ambiguous: true,
		countings: []counting{{"NO3", units.AsNitrate}, {"N", units.AsNitrogen}}},
	Phosphate: {name: "phosphate", ions: []ions.Ion{ions.Phosphate}, perDay: float64(advice.PhosphatePerDay), ambiguous: true,
		countings: []counting{{"PO4", units.AsPhosphate}, {"P", units.AsPhosphorus}}},
}

// exists tells whether p is one of the parameters.
func (p Parameter) exists() bool { return p > 0 && p < parameters }

// String returns the name, "calcium".
func (p Parameter) String() string {
	if !p.exists() {
		return "no parameter"
	}
	return about[p].name
}

// MarshalText writes the name.
func (p Parameter) MarshalText() ([]byte, error) {
	if !p.exists() {
		return nil, input.Bad("parameter", "none", "one of the parameters")
	}
	return []byte(p.String()), nil
}

// UnmarshalText reads a name.
func (p *Parameter) UnmarshalText(text []byte) error {
	for *p = 1; *p < parameters; *p++ {
		if p.String() == string(text) {
			return nil
		}
	}
	*p = 0
	return input.Bad("parameter", `"`+string(text)+`"`, `one such as "alkalinity", "calcium" or "nitrate"`)
}

// of returns how much of the parameter a composition holds, in the unit in which
// that counts; alkalinity by its strong ions.
func (p Parameter) of(c ions.Composition) float64 {
	if p == Alkalinity {
		return float64(c.Alkalinity())
	}
	sum := 0.0
	for _, i := range about[p].ions {
		sum += float64(c.Amount(i))
	}
	return sum
}
