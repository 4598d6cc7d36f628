package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
)

// Doubts are the standard uncertainties of what a change of water starts from.
// Those that are zero or not in a list are left out. The volume of a tank is
// never known well: 5 to 10 % where it was only measured out (common practice), and
// [Tracer] does better.
//
// The readings of the two waters err apart: pure water and weighed salt have no
// nitrate for certain, and an old tank does not tell its nitrate so.
type Doubts struct {
	Volume      units.Fraction // of the tank
	Swap        units.Fraction // of the volume that is swapped
	Tank, Batch tested.Doubts
}

// Estimates returns the state after the change, parameter by parameter, with its
// standard uncertainty and the input that contributes most to it. Readings of
// the tank and of the batch err independently of one another; where alkalinity
// and pH are both in doubt, the DIC follows each.
func (c Change) Estimates(d Doubts) ([]advice.Estimate, error) {
	plan, err := PlanChange(c)
	if err != nil {
		return nil, err
	}
	knobs, err := d.knobs(&c)
	if err != nil {
		return nil, err
	}
	u := make([]float64, len(knobs))
	for i, k := range knobs {
		u[i] = k.u
	}
	value, uncertainty, most, err := spread.Through(u, func(offsets []float64) ([]float64, error) {
		moved := c
		for i, k := range knobs {
			if offsets[i] == 0 {
				continue
			}
			if err := k.move(&moved, offsets[i]); err != nil {
				return nil, err
			}
		}
		moved.Batch.Portion.Mass *= 2 // the batch lasts, whatever the jug says
		p, err := PlanChange(moved)
		if err != nil {
			return nil, err
		}
		list := p.Moves()
		after := make([]float64, len(list))
		for i, m := range list {
			after[i] = float64(m.After)
		}
		return after, nil
	})
	if err != nil {
		return nil, input.In("doubts", err)
	}
	var out []advice.Estimate
	for i, m := range plan.Moves() {
		e := advice.Estimate{
			Name: m.Name, Unit: m.Unit, Value: units.Scalar(value[i]), Uncertainty: units.Scalar(uncertainty[i]),
		}
		if most[i] >= 0 {
			e.Mostly = knobs[most[i]].name
		}
		if e.Value == e.Value { // known
			out = append(out, e)
		}
	}
	return out, nil
}

// knob is one input that is in doubt: its standard uncertainty, and how to move
// it.
type knob struct {
	name string
	u    float64
	move func(c *Change, by float64) error
}

// knobs lists what is in doubt.
func (d *Doubts) knobs(c *Change) ([]knob, error) {
	list := []knob{
		{"the volume of the tank", d.Volume.Value(), func(c *Change, by float64) error {
			c.Tank.Portion.Mass *= units.Mass(1 + by)
			return nil
		}},
		{"the volume swapped", d.Swap.Value(), func(c *Change, by float64) error {
			c.Swap *= units.Volume(1 + by)
			return nil
		}},
	}
	for _, w := range [...]struct {
		name string
		of   func(*Change) *tested.Water
		is   *tested.Water
		d    *tested.Doubts
	}{
		{"tank", func(c *Change) *tested.Water { return &c.Tank }, &c.Tank, &d.Tank},
		{"batch", func(c *Change) *tested.Water { return &c.Batch }, &c.Batch, &d.Batch},
	} {
		list = append(list,
			knob{"the salinity of the " + w.name, w.d.Salinity.Value(), func(c *Change, by float64) error {
				p := w.of(c).Portion
				return read(w.of(c), p.Practical().Value()+by, p.Temperature())
			}},
			knob{"the temperature of the " + w.name, float64(w.d.Temperature), func(c *Change, by float64) error {
				p := w.of(c).Portion
				return read(w.of(c), p.Practical().Value(), p.Temperature().Add(units.TemperatureDifference(by)))
			}})
		chemistry, err := w.is.CarbonChemistry()
		knownPH := err == nil
		if knownPH {
			list = append(list, knob{"the pH of the " + w.name, w.d.PH, func(c *Change, by float64) error {
				w.of(c).Carbon = carbonate.PH(carbonate.PHTotal(chemistry.PH.Value() + by))
				return nil
			}})
		}
		for _, l := range w.is.Levels {
			doubt, has := w.d.Levels.Of(l.Parameter())
			if !has {
				continue
			}
			list = append(list, knob{"the " + string(l.Parameter()) + " of the " +
				w.name, doubt.Base(), func(c *Change, by float64) error {
				moved := w.of(c)
				*moved = moved.With(l.WithBase(l.Base() + by))
				if l.Parameter() == tested.Alkalinity && knownPH {
					moved.Carbon = carbonate.PH(chemistry.PH)
				}
				return nil
			}})
		}
	}
	return list, checkDoubts(list, d.Tank.Levels, d.Batch.Levels)
}

// checkDoubt refuses an uncertainty that is none.
func checkDoubt(of string, u float64) error {
	if u >= 0 && !math.IsInf(u, 0) {
		return nil
	}
	return input.Bad("doubts", input.Number(u)+" of "+of, "zero or more")
}

// checkDoubts refuses uncertainties that are none.
func checkDoubts(list []knob, levels ...tested.Levels) error {
	var errs []error
	for _, k := range list {
		errs = append(errs, checkDoubt(k.name, k.u))
	}
	for _, l := range levels {
		errs = append(errs, l.Check("doubts"))
	}
	return input.Join(errs...)
}

// read gives a water another salinity and temperature in the same volume, as if
// the instruments had shown those. What is known of the carbon stays per kilogram.
func read(w *tested.Water, salinity float64, t units.Temperature) error {
	s, err := seawater.FromPractical(units.Practical(salinity), t)
	if err != nil {
		return err
	}
	if settled, err := w.WithDIC(); err == nil {
		*w = settled
	}
	w.Portion = s.OfVolume(w.Volume())
	return nil
}
