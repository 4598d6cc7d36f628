package dilution

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/spread"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Doubts are the standard uncertainties of what a change of water starts from.
// Those that are zero or not known are left out. The volume of a tank is never
// known well: 5 to 10 % where it was only measured out (common practice), and
// [Tracer] does better.
type Doubts struct {
	Tank        units.Fraction // of the volume of the tank
	Swap        units.Fraction // of the volume that is swapped
	Salinity    units.PracticalSalinity
	Temperature units.TemperatureDifference
	PH          float64 // of each pH that the DIC was taken from
	Levels              // of each reading, in the tank and in the batch
}

// Estimates returns the state after the change, parameter by parameter, with its
// standard uncertainty and the input that contributes most to it. Readings of
// the tank and of the batch err independently of one another; where alkalinity
// and pH are both in doubt, the DIC follows each.
func (c Change) Estimates(d Doubts) ([]advice.Estimate, error) {
	knobs, err := d.knobs(&c)
	if err != nil {
		return nil, err
	}
	plan, err := PlanChange(c)
	if err != nil {
		return nil, err
	}
	u := make([]float64, len(knobs))
	for i, k := range knobs {
		u[i] = k.u
	}
	value, uncertainty, most, err := spread.Through(u, func(offsets []float64) ([]float64, error) {
		moved := Change{Tank: c.Tank.clone(), Batch: c.Batch.clone(), Swap: c.Swap}
		for i, k := range knobs {
			if offsets[i] == 0 {
				continue
			}
			if err := k.turn(&moved, offsets[i]); err != nil {
				return nil, err
			}
		}
		moved.Batch.Water.Mass *= 2 // the batch lasts, whatever the jug says
		p, err := PlanChange(moved)
		if err != nil {
			return nil, err
		}
		list := p.Moves()
		after := make([]float64, len(list))
		for i, m := range list {
			after[i] = m.After
		}
		return after, nil
	})
	if err != nil {
		return nil, input.In("doubts", err)
	}
	var out []advice.Estimate
	for i, m := range plan.Moves() {
		e := advice.Estimate{Name: m.Name, Unit: m.Unit, Value: value[i], Uncertainty: uncertainty[i]}
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
	turn func(c *Change, by float64) error
}

// knobs lists what is in doubt.
func (d *Doubts) knobs(c *Change) ([]knob, error) {
	list := []knob{
		{"the volume of the tank", float64(d.Tank), func(c *Change, by float64) error {
			c.Tank.Water.Mass *= units.Mass(1 + by)
			return nil
		}},
		{"the volume swapped", float64(d.Swap), func(c *Change, by float64) error {
			c.Swap *= units.Volume(1 + by)
			return nil
		}},
	}
	for _, w := range [...]struct {
		name string
		of   func(*Change) *State
		is   *State
	}{
		{"tank", func(c *Change) *State { return &c.Tank }, &c.Tank},
		{"batch", func(c *Change) *State { return &c.Batch }, &c.Batch},
	} {
		list = append(list,
			knob{"the salinity of the " + w.name, d.Salinity.Value(), func(c *Change, by float64) error {
				s := w.of(c)
				return s.read(s.Water.Practical().Value()+by, s.Water.Temperature())
			}},
			knob{"the temperature of the " + w.name, float64(d.Temperature), func(c *Change, by float64) error {
				s := w.of(c)
				return s.read(s.Water.Practical().Value(), s.Water.Temperature().Add(units.TemperatureDifference(by)))
			}})
		chemistry, err := w.is.Chemistry()
		knownPH := err == nil
		if knownPH {
			list = append(list, knob{"the pH of the " + w.name, d.PH, func(c *Change, by float64) (err error) {
				s := w.of(c)
				*s, err = s.WithPH(carbonate.PHTotal(chemistry.PH.Value() + by))
				return err
			}})
		}
		all := w.is.names()
		for i := range all.count() {
			m, doubt := w.is.get(i), all.find(&d.Levels, i)
			if !m.known || !doubt.known {
				continue
			}
			list = append(list, knob{"the " + all.field(i) + " of the " + w.name, doubt.value, func(c *Change, by float64) (err error) {
				s := w.of(c)
				s.set(i, Known(m.value+by))
				if i == alkalinity && knownPH {
					*s, err = s.WithPH(chemistry.PH)
				}
				return err
			}})
		}
	}
	for _, k := range list {
		if err := input.NotNegative("doubts: "+k.name, k.u, ""); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// read gives a state another salinity and temperature in the same volume, as if
// the instruments had shown those.
func (s *State) read(salinity float64, t units.Temperature) error {
	w, err := seawater.FromPractical(units.Practical(salinity), t)
	if err != nil {
		return err
	}
	s.Water = w.OfVolume(s.Water.Volume())
	return nil
}

// clone returns a state that shares no list with the first.
func (s State) clone() State {
	s.Others = append([]Solute(nil), s.Others...)
	return s
}
