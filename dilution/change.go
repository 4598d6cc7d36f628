package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Change is one water change: draw Swap from the tank, pour the same volume of
// the batch in, each measured at its own temperature.
type Change struct {
	Tank, Batch State
	Swap        units.Volume
}

// ChangePlan is the answer to a Change.
type ChangePlan struct {
	Before, Batch State // as they were given
	After         State
	Share         units.Fraction // of the tank's water that was swapped
	BatchLeft     units.Volume   // what is left of the batch
	Assumptions   []string
	Cautions      []advice.Caution
}

// Move is what a change does to one parameter, in a unit of the trade. What was
// not measured is NaN.
type Move struct {
	Name, Unit           string
	Before, Batch, After float64
}

// PlanChange works out what one water change does to everything in the tank.
// Salt moves by mass, heat by conservative temperature, and every solute and
// the alkalinity by amount; none of them is lost. A level that is not known in
// both waters is not known afterwards. pH does not mix: it is computed from the
// alkalinity and DIC of the mixture.
func PlanChange(c Change) (ChangePlan, error) {
	tank, batch := c.Tank.Water, c.Batch.Water
	if err := input.Positive("tank", float64(tank.Volume()), "L"); err != nil {
		return ChangePlan{}, err
	}
	if err := inside("swap", c.Swap, tank.Volume()); err != nil {
		return ChangePlan{}, err
	}
	if !(c.Swap <= batch.Volume()*(1+1e-12)) {
		return ChangePlan{}, input.Bad("swap", c.Swap.String(),
			"at most the "+input.Fixed(batch.Volume().Litres(), 2)+" L of the batch")
	}
	for _, s := range [...]struct {
		name string
		State
	}{{"tank", c.Tank}, {"batch", c.Batch}} {
		if err := s.check(s.name); err != nil {
			return ChangePlan{}, err
		}
	}
	water, err := Swap(tank, batch.Sample, c.Swap)
	if err != nil {
		return ChangePlan{}, err
	}
	p := ChangePlan{
		Before:    c.Tank,
		Batch:     c.Batch,
		Share:     units.Fraction(c.Swap / tank.Volume()),
		BatchLeft: max(0, batch.Volume()-c.Swap),
	}
	p.After = after(&c.Tank, &c.Batch, c.Swap, water)
	p.Assumptions = []string{
		"The tank is well mixed, and what was drawn is tank water, not a mixture of old and new.",
		"No heat goes to the air or the glass, no gas is exchanged and nothing reacts while the water is swapped.",
	}
	for _, m := range p.Moves() {
		if math.IsNaN(m.After) && !(math.IsNaN(m.Before) && math.IsNaN(m.Batch)) {
			p.Assumptions = append(p.Assumptions, m.Name+" is not known in both waters, so it is not known after the change.")
		}
	}
	p.Cautions = cautions(c, p)
	return p, nil
}

// after returns the state of a tank that swapped a volume for the batch and
// became this water. Amounts add up; the volume they end up in is that of the
// blend.
func after(tank, batch *State, swap units.Volume, water seawater.Portion) State {
	kept := float64((tank.Water.Volume() - swap) / water.Volume())
	poured := float64(swap / water.Volume())
	out := State{Water: water, Levels: tank.names(&batch.Levels)}
	for i := range out.count() {
		out.set(i, blend(kept, out.find(&tank.Levels, i), poured, out.find(&batch.Levels, i)))
	}
	mass := float64(batch.Water.OfVolume(swap).Mass / water.Mass) // DIC is per kilogram
	dic := blend(1-mass, plain(tank.DIC), mass, plain(batch.DIC))
	out.DIC = Measured[units.AmountPerKilogram]{units.AmountPerKilogram(dic.value), dic.known}
	return out
}

// blend adds x of one level and y of another.
func blend(x float64, a Measured[float64], y float64, b Measured[float64]) Measured[float64] {
	if !a.known || !b.known {
		return Measured[float64]{}
	}
	return Known(x*a.value + y*b.value)
}

// Moves lists what the change does, parameter by parameter.
func (p ChangePlan) Moves() []Move { return moves(&p.Before, &p.Batch, &p.After) }

func moves(before, batch, after *State) []Move {
	list := []Move{
		{"Salinity", "PSS-78", before.Water.Practical().Value(), batch.Water.Practical().Value(), after.Water.Practical().Value()},
		{"Temperature", "°C", before.Water.Temperature().Celsius(), batch.Water.Temperature().Celsius(), after.Water.Temperature().Celsius()},
	}
	all := before.names(&batch.Levels, &after.Levels)
	for i := range all.count() {
		name, unit, one := all.name(i)
		in := func(s *State) float64 { x, _ := all.find(&s.Levels, i).Value(); return x / one }
		list = append(list, Move{name, unit, in(before), in(batch), in(after)})
	}
	// An error is a chemistry that is not known, NaN throughout.
	b, berr := before.Chemistry()
	f, ferr := batch.Chemistry()
	a, aerr := after.Chemistry()
	if berr != nil && ferr != nil && aerr != nil {
		return list
	}
	free := func(c Chemistry) float64 { x, _ := c.FreeAmmonia.Value(); return x.MilligramsPerLitre() }
	return append(list,
		Move{"pH", "total scale", b.PH.Value(), f.PH.Value(), a.PH.Value()},
		Move{"Aragonite saturation", "", b.Aragonite, f.Aragonite, a.Aragonite},
		Move{"Free ammonia", "mg/L N", free(b), free(f), free(a)},
	)
}
