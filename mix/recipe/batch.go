package recipe

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Weighed is so much of a reagent in a batch.
type Weighed struct {
	Reagent salts.Reagent
	Mass    units.Mass  // out of the jar
	Moles   float64     // of the pure compound
	Cost    units.Money // no currency if no price was given
}

// Batch is a finished mix and what it is made of. The masses of the items and
// of the water add up to its mass.
type Batch struct {
	Items       []Weighed
	Water       units.Mass // pure water to add, beside what the reagents bring
	WaterVolume units.Volume
	Mass        units.Mass
	Volume      units.Volume
	Temperature units.Temperature
	Composition ions.Composition // as the compounds release it; Settled says what becomes of it
}

// batch makes a volume of what the items hold, their Moles given per kilogram
// of solution.
func batch(items []Weighed, v units.Volume, t units.Temperature) (Batch, error) {
	if err := input.Positive("volume", v.Litres(), "L"); err != nil {
		return Batch{}, err
	}
	pure, err := seawater.PureWater(t)
	if err != nil {
		return Batch{}, err
	}
	var c ions.Composition
	for _, item := range items {
		c = c.Plus(item.Reagent.Compound.Dose(units.AmountPerKilogram(item.Moles) * units.MolePerKilogram))
	}
	density, err := densityOf(c, t)
	if err != nil {
		return Batch{}, err
	}
	b := Batch{Items: items, Mass: density.Mass(v), Volume: v, Temperature: t, Composition: c}
	b.Water = b.Mass
	for i := range b.Items {
		item := &b.Items[i]
		item.Moles *= b.Mass.Kilograms()
		if item.Mass, err = item.Reagent.Weigh(item.Reagent.Compound.Mass(item.Moles)); err != nil {
			return Batch{}, err
		}
		b.Water -= item.Mass
	}
	if !(b.Water > 0) {
		return Batch{}, input.Bad("salts", input.Number((b.Mass-b.Water).Kilograms())+" kg",
			"less than the whole batch of "+input.Number(b.Mass.Kilograms())+" kg")
	}
	b.WaterVolume = pure.Density().Volume(b.Water)
	return b, nil
}

// densityOf is the density of a mix, or why there is none.
func densityOf(c ions.Composition, t units.Temperature) (units.Density, error) {
	settled, err := settle(c, t)
	switch {
	case err == nil:
		c = settled
	case c.Alkalinity() < 0: // nor is it a water as released
		return input.NaN[units.Density](), input.Bad("mix.alkalinity",
			input.Number(c.Alkalinity().MillimolesPerKilogram())+" mmol/kg", "zero or more: less acid, or a "+
				"target of alkalinity and NaHCO3 on the shelf to meet it")
	case c.Check() != nil:
		return input.NaN[units.Density](), input.In("mix", err)
	}
	if d := c.Density(t); !math.IsNaN(float64(d)) {
		return d, nil
	}
	if err := ions.CheckRange(c, t); err != nil {
		return input.NaN[units.Density](), input.In("mix", err)
	}
	return input.NaN[units.Density](), input.Bad("mix", input.Number(c.SolutionSalinity().GramsPerKilogram())+" g/kg",
		"a water whose density is known")
}

// settle lets carbon and boron find their balance, if there are any. What the
// compounds released of hydroxide, or took, is in the alkalinity already.
func settle(c ions.Composition, t units.Temperature) (ions.Composition, error) {
	if c.Carbon() == 0 && c.Boron() == 0 && math.Abs(float64(c.Alkalinity())) <= rounding {
		return c, nil
	}
	return c.With(ions.Hydroxide, 0).Settled(t)
}

// Salinity returns the salinity by chlorinity, see [Recipe.Salinity].
func (b Batch) Salinity() units.PracticalSalinity { return byChlorinity(b.Composition) }

// Settled returns the water that becomes of the mix once carbon and boron have
// found their balance, still closed to the air. A mix without either has
// nothing to settle.
func (b Batch) Settled() (ions.Composition, error) { return settle(b.Composition, b.Temperature) }

// Carbonate returns the mix as package carbonate takes it. Its System is that of
// the salts poured together; aired it is another one:
//
//	water, err := batch.Carbonate()
//	poured, err := water.System()                           // pH, saturation of aragonite
//	aired, err := water.Equilibrate(420, units.Atmosphere)  // and System again
//
// Acetate counts as salt here, as it does until bacteria have burnt it. The
// error is that of Settled.
func (b Batch) Carbonate() (carbonate.Water, error) {
	c, err := b.Settled()
	if err != nil {
		return carbonate.Water{}, err
	}
	return carbonate.Water{
		Salinity:    teos10.PracticalFromAbsolute(c.SolutionSalinity()),
		Temperature: b.Temperature,
		Alkalinity:  c.Alkalinity() - c.Amount(ions.Acetate),
		DIC:         c.Carbon(),
		Nutrients: carbonate.Nutrients{
			Phosphate: c.Amount(ions.Phosphate),
			Silicate:  c.Amount(ions.Silicate),
			Ammonia:   c.Amount(ions.Ammonium),
		},
		Options: carbonate.Options{
			Boron: carbonate.Measured(c.Boron()), Sulfate: carbonate.Measured(c.Amount(ions.Sulfate)),
			Fluoride: carbonate.Measured(c.Amount(ions.Fluoride)),
			Calcium:  carbonate.Measured(c.Amount(ions.Calcium)), Magnesium: carbonate.Measured(c.Amount(ions.Magnesium)),
		},
	}, nil
}

// Deviations compares the settled mix with the reference composition of the
// same salinity by chlorinity, species by species.
func (b Batch) Deviations() ([]ions.Deviation, error) {
	settled, err := b.Settled()
	if err != nil {
		return nil, err
	}
	return settled.Deviations(b.Salinity()), nil
}
