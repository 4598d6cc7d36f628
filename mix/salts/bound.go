package salts

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Basis is what is known of how much of a compound dissolves.
type Basis uint8

// The bases, from the best. The zero value is none.
const (
	ByHandbook Basis = iota + 1 // tabulated solubility
	ByModel                     // solubility by the ion-interaction model of package pitzer
	ByDensity                   // no solubility: the strongest solution whose density was measured
	basisEnd
)

var basisNames = [basisEnd]string{"", "handbook", "ion-interaction model", "measured densities"}

// String returns "handbook", "ion-interaction model" or "measured densities"; of none nothing.
func (b Basis) String() string {
	if b >= basisEnd {
		return "?"
	}
	return basisNames[b]
}

// MarshalText writes what String returns.
func (b Basis) MarshalText() ([]byte, error) {
	return input.WriteChoice("basis", b, ByHandbook, basisEnd)
}

// UnmarshalText reads what MarshalText writes.
func (b *Basis) UnmarshalText(text []byte) (err error) {
	*b, err = input.ReadChoice("basis", text, ByHandbook, basisEnd)
	return err
}

// Bound is the strongest solution of a compound that is known to be one.
type Bound struct {
	Content units.MassPerKilogram // of the compound as weighed, in the solution
	By      Basis
	Within  units.Fraction // largest known deviation of that from measurements; NaN: not known
}

// String writes "102.9 g/kg, by handbook within 3 %".
func (b Bound) String() string {
	text := input.Number(b.Content.GramsPerKilogram()) + " g/kg, by " + b.By.String()
	if w := b.Within.Percent(); w >= 0 {
		return text + " within " + input.Number(w) + " %"
	}
	return text
}

// Bound returns the strongest solution in pure water that is known to be one, and by what: the
// tabulated solubility; where there is none that by the ion-interaction model, in a closed
// bottle, if it has a sound constant for the solid; else the strongest solution whose density
// was measured, such as those of acids, ethanol and sucrose, which are not saturated.
//
//	source   [Compound.Solubility]; [pitzer.Stock]; the ranges of [Solution.Density]
//	range    tables and densities theirs, the model 0 to 50 °C
//	outside  as [Compound.Solubility]
//
// Densities were measured over a range of contents and one of temperatures, perhaps not in its
// corners: hot strong hydrochloric acid gives off its gas.
func (c Compound) Bound(t units.Temperature) (Bound, error) {
	content, err := c.Solubility(t)
	if err == nil {
		within := tabulated
		if c.Anhydrous().Formula() == "Ca(OH)2" {
			within = tabulatedLime
		}
		return Bound{content, ByHandbook, units.Share(within)}, nil
	}
	none := Bound{Content: input.NaN[units.MassPerKilogram](), Within: units.Share(math.NaN())}
	if input.Set("temperature", t) != nil {
		return none, err
	}
	if b, ok := c.modelled(t); ok {
		return b, nil
	}
	fit, known := c.Anhydrous().laliberte()
	curve, _ := c.curve()
	if known && len(curve) == 0 && t.Celsius() >= fit.coldest && t.Celsius() <= fit.hottest {
		return Bound{c.content(fit.most), ByDensity, none.Within}, nil
	}
	return none, err
}

// What the tables can be taken for, see [Compound.Solubility].
const tabulated, tabulatedLime = 0.03, 0.05

// modelled asks the ion-interaction model, which has to name a solid of the compound.
func (c Compound) modelled(t units.Temperature) (Bound, bool) {
	s, err := Bottle{Parts: []Part{{c, units.Gram}}, Water: units.Kilogram, Cold: t, Warm: t}.Strongest()
	if err != nil || s.Open {
		return Bound{}, false
	}
	solid, err := ParseFormula(s.By.Formula())
	if err != nil || solid.dry() != c.parsed().dry() {
		return Bound{}, false
	}
	grams := s.Parts[0].Mass.Grams()
	return Bound{units.MassPerKilogram(grams/(1000+grams)*1000) * units.GramPerKilogram, ByModel, s.Within}, true
}
