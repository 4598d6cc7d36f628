package ions

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Settled returns the water after carbon and boron have come to equilibrium
// with the alkalinity that the strong ions leave, without exchange with air:
// what becomes of salts poured together. An acid is poured in as its anion
// alone, a base as its hydroxide or its cation alone; the charge that is missing
// then is found in the weak acids.
//
//	source   package carbonate with the measured boron, sulfate, fluoride, calcium and
//	         magnesium; salinity for its constants from the mass dissolved
//	errors   no water: *units.InputError; so acid a water that its free hydrogen ions,
//	         which are not among the species, would count: *units.InputError
//
// The charges of the result balance, its carbon and boron are unchanged.
// Ammonium, silicate and phosphate stay in the one form in which they are
// counted; that shifts the forms of carbon by some µmol/kg in water with much
// silicate, and nothing that an instrument would show. For pH and saturation
// ask package carbonate.
func (c Composition) Settled(t units.Temperature) (Composition, error) {
	k, err := c.constants(t)
	if err != nil {
		return invalid(), err
	}
	weak := c.Alkalinity() - c.content[Acetate]
	s, err := k.FromAlkalinityDIC(weak-c.content[Phosphate], c.Carbon(), carbonate.Nutrients{})
	if err != nil {
		return invalid(), err
	}
	forms := s.Species()
	c.content[Bicarbonate], c.content[Carbonate], c.content[CarbonDioxide] = forms.HCO3, forms.CO3, forms.CO2
	c.content[BoricAcid], c.content[Borate] = forms.BOH3, forms.BOH4
	c.content[Hydroxide] = forms.OH

	// What is left of the charge are hydrogen ions, some nmol/kg, HSO4 and HF,
	// still less, and the last bits. Bicarbonate takes it; without carbon, and
	// where rounding is all that is left, hydroxide.
	if free := -c.Charge(); free > 0 && c.content[Bicarbonate] >= free {
		c.content[Bicarbonate] -= free
		c.content[CarbonDioxide] += free
	}
	c.content[Hydroxide] += c.Charge()
	if oh := c.content[Hydroxide]; oh < 0 && oh > -1e-9 {
		c.content[Hydroxide] = 0
	}
	if !(c.content[Hydroxide] >= 0) {
		return invalid(), input.Bad("alkalinity", input.Number(float64(weak))+" µmol/kg",
			"a water that is not acid by its free hydrogen ions")
	}
	return c, nil
}

// AtPH returns the settled water with as much carbon as gives it a pH at the
// alkalinity that the strong ions leave. Its own carbon does not matter.
//
//	errors   as Settled, and those of carbonate for a pair that no water has
func (c Composition) AtPH(ph carbonate.TotalPH, t units.Temperature) (Composition, error) {
	k, err := c.constants(t)
	if err != nil {
		return invalid(), err
	}
	s, err := k.Solve(carbonate.Alkalinity(c.Alkalinity()-c.content[Acetate]), carbonate.PH(ph), carbonate.Nutrients{
		Phosphate: c.content[Phosphate],
		Silicate:  c.content[Silicate],
		Ammonia:   c.content[Ammonium],
	})
	if err != nil {
		return invalid(), err
	}
	return c.withCarbon(s.DIC()).Settled(t)
}

// withCarbon replaces all forms of carbon.
func (c Composition) withCarbon(dic units.AmountPerKilogram) Composition {
	return c.With(Bicarbonate, dic).With(Carbonate, 0).With(CarbonDioxide, 0)
}

// constants are those of the water for package carbonate.
func (c Composition) constants(t units.Temperature) (carbonate.Constants, error) {
	if err := c.Check(); err != nil {
		return carbonate.Constants{}, err
	}
	if err := input.Set("temperature", t); err != nil {
		return carbonate.Constants{}, err
	}
	return carbonate.At(c.saltiness(), t, carbonate.Options{
		Boron:     carbonate.Measured(c.Boron()),
		Sulfate:   carbonate.Measured(c.content[Sulfate]),
		Fluoride:  carbonate.Measured(c.content[Fluoride]),
		Calcium:   carbonate.Measured(c.content[Calcium]),
		Magnesium: carbonate.Measured(c.content[Magnesium]),
	}), nil
}

// saltiness is the practical salinity for the constants of equilibrium: that of
// reference water with the same mass of solutes, whatever forms carbon and
// boron happen to be in.
func (c Composition) saltiness() units.PracticalSalinity {
	boron := c.Boron()
	c = c.withCarbon(c.Carbon())
	c.content[Hydroxide], c.content[Borate], c.content[BoricAcid] = 0, 0, boron
	return practicalOf(c.grams())
}
