package recipe

import (
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Component is what a target is set for: an ion that stays what it is, made by
// Of, or one of the totals Alkalinity, Boron and Carbon, whose species change
// into each other. The zero value is no component.
type Component struct {
	kind kind
	ion  ions.Ion
}

type kind uint8

const (
	nothing kind = iota
	oneIon
	alkalinity
	boron
	carbon
)

// Alkalinity is the total alkalinity, in equivalents: see [ions.Composition.Alkalinity].
func Alkalinity() Component { return Component{kind: alkalinity} }

// Boron is boric acid and borate together.
func Boron() Component { return Component{kind: boron} }

// Carbon is the dissolved inorganic carbon right after mixing; the air soon
// changes it.
func Carbon() Component { return Component{kind: carbon} }

// Of returns the component that is one ion. Carbonate, bicarbonate, carbon
// dioxide and hydroxide turn into each other and have Alkalinity and Carbon
// instead, boric acid and borate have Boron: for these, Of returns no
// component, which Solve refuses.
func Of(i ions.Ion) Component {
	switch i {
	case ions.Bicarbonate, ions.Carbonate, ions.CarbonDioxide, ions.Hydroxide, ions.BoricAcid, ions.Borate:
		return Component{}
	}
	if i.Charge() == 0 && i.Symbol() == "?" {
		return Component{}
	}
	return Component{oneIon, i}
}

// In returns the content of the component in a water.
func (c Component) In(water ions.Composition) units.AmountPerKilogram {
	switch c.kind {
	case oneIon:
		return water.Amount(c.ion)
	case alkalinity:
		return water.Alkalinity()
	case boron:
		return water.Boron()
	case carbon:
		return water.Carbon()
	}
	return input.NaN[units.AmountPerKilogram]()
}

// perMole is what a mole of a compound brings of the component.
func (c Component) perMole(of salts.Compound) float64 { return float64(c.In(of.Dose(1))) }

// String returns the name, "calcium" or "alkalinity".
func (c Component) String() string {
	switch c.kind {
	case oneIon:
		return c.ion.Name()
	case alkalinity:
		return "alkalinity"
	case boron:
		return "boron"
	case carbon:
		return "carbon"
	}
	return "no component"
}

// MarshalText writes the name.
func (c Component) MarshalText() ([]byte, error) {
	if c.kind == nothing {
		return nil, input.Bad("component", "none", componentWant)
	}
	return []byte(c.String()), nil
}

const componentWant = `an ion such as "Ca" or "sulfate", "alkalinity", "boron" or "carbon"`

// UnmarshalText reads a name or the formula of an ion.
func (c *Component) UnmarshalText(text []byte) error {
	*c = Component{}
	for _, total := range [...]Component{Alkalinity(), Boron(), Carbon()} {
		if strings.EqualFold(string(text), total.String()) {
			*c = total
			return nil
		}
	}
	i, ok := ions.Lookup(string(text))
	if !ok {
		return input.Bad("component", input.Quoted(string(text)), componentWant)
	}
	if *c = Of(i); c.kind == nothing {
		return input.Bad("component", i.Name(), `"alkalinity", "carbon" or "boron", as it turns into other species`)
	}
	return nil
}
