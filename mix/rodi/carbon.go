package rodi

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Filter is a sediment filter.
type Filter struct {
	Life  units.Volume // of feed that one cartridge takes; 0 if not known
	Price units.Money
}

// Carbon is a stage of activated carbon, which takes chlorine out of the water
// before it can destroy the membrane.
//
// The chlorine that a cartridge removes is what its label promises, for example
// 20000 US gallons of water with 1 mg/L:
//
//	Chlorine: (1 * units.MilligramPerLitre).Mass(20000 * units.USGallon)
//
// Free chlorine is not adsorbed but reduced to chloride at the surface of the carbon,
// in seconds; chloramine is destroyed much more slowly [HMM], so that a bed made
// for chlorine may let it through at the same flow long before it is used up.
// Its capacity is a number of its own, and more contact time the remedy: more
// carbon, catalytic carbon, or less flow.
type Carbon struct {
	Bed        units.Volume // of carbon; 0 if not known
	Chlorine   units.Mass   // free chlorine that it removes, as Cl₂; 0 if not known
	Chloramine units.Mass   // chloramine that it removes, as Cl₂; 0 if not known
	Life       units.Volume // of feed, as the box prints it, if it tells no capacity
	Price      units.Money
}

// Lasts returns how much feed the carbon takes: the capacities of chlorine and
// of chloramine are used up side by side. It is 0, not known, if the capacity
// for one that is there is not known, or if neither is there.
//
//	1/V = c/M + c'/M'
//
// Carbon of a printed Life lasts for that: the box means ordinary tap water with chlorine,
// and where there is chloramine nothing is certain but a test behind the carbon.
func (c Carbon) Lasts(chlorine, chloramine units.MassPerLitre) (units.Volume, error) {
	if err := c.check(); err != nil {
		return input.NaN[units.Volume](), err
	}
	if err := input.NotNegative("chlorine", float64(chlorine), "mg/L"); err != nil {
		return input.NaN[units.Volume](), err
	}
	if err := input.NotNegative("chloramine", float64(chloramine), "mg/L"); err != nil {
		return input.NaN[units.Volume](), err
	}
	if c.Life > 0 {
		return c.Life, nil
	}
	if chlorine > 0 && c.Chlorine == 0 || chloramine > 0 && c.Chloramine == 0 || chlorine+chloramine == 0 {
		return 0, nil
	}
	used := 0. // share of the carbon that a litre uses up
	if chlorine > 0 {
		used += float64(chlorine.Mass(1*units.Litre) / c.Chlorine)
	}
	if chloramine > 0 {
		used += float64(chloramine.Mass(1*units.Litre) / c.Chloramine)
	}
	return finite(1 / used), nil
}

func (c Carbon) check() error {
	var both error
	if c.Life != 0 && c.Chlorine+c.Chloramine > 0 {
		both = input.Bad("life", c.Life.String(), "a life or capacities, one of the two")
	}
	return input.Join(both,
		input.NotNegative("life", float64(c.Life), "L"),
		input.NotNegative("bed", float64(c.Bed), "L"),
		input.NotNegative("chlorine", float64(c.Chlorine), "g"),
		input.NotNegative("chloramine", float64(c.Chloramine), "g"),
		checkPrice(c.Price))
}

// AmmoniaFromChloramine returns the ammonia that carbon leaves of chloramine,
// counted as nitrogen: one NH₃ of each NH₂Cl. The membrane and the resin have to
// take it.
//
//	symbol   c(N) = c M(N)/M(Cl₂)
//	source   NH₂Cl + H₂O + C → NH₃ + H⁺ + Cl⁻ + CO (from memory)
//	units    chloramine in mg/L as Cl₂, as test kits and water suppliers give it
func AmmoniaFromChloramine(chloramine units.MassPerLitre) units.MassPerLitre {
	return units.AsNitrogen.MassPerLitre((2 * units.AsChloride).AmountPerLitre(chloramine))
}
