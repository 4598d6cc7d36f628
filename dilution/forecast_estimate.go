package dilution

import (
	"math"
	"slices"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
)

// RoutineDoubts are the standard uncertainties of what a forecast starts from.
// Those that are zero or not known are left out.
type RoutineDoubts struct {
	Tank        units.Fraction // of the volume of the tank; doses and pumps are then out by as much
	Swap        units.Fraction // of the volume of all changes, as one jug gives them
	Evaporation units.Fraction
	Salinity    units.PracticalSalinity // of the reading in the tank
	PerDay      tested.Levels           // of what the tank adds or uses in a day
	Levels      tested.Levels           // of each reading in the tank
}

// Estimates returns what the tank comes to at the end of the span, and the days
// until each bound that it leaves on the way, with standard uncertainties and the
// input that contributes most. A bound that may never be left for all that is
// known has an infinite uncertainty.
//
// They are first-order: where a routine goes up and down from change to change, the
// day on which a bound is left can jump from one week to the next.
func (r Routine) Estimates(span time.Duration, b Bounds, d RoutineDoubts) ([]advice.Estimate, error) {
	f, err := r.Forecast(span)
	if err != nil {
		return nil, err
	}
	list, err := f.Until(b)
	if err != nil {
		return nil, err
	}
	out := f.ends()
	for _, c := range list {
		if c.Crosses() {
			out = append(out, advice.Estimate{Name: c.String(), Unit: "days"})
		}
	}
	knobs, err := d.knobs(&r)
	if err != nil {
		return nil, err
	}
	u := make([]float64, len(knobs))
	for i, k := range knobs {
		u[i] = k.u
	}
	value, uncertainty, most, err := spread.Through(u, func(offsets []float64) ([]float64, error) {
		moved := r.clone()
		for i, k := range knobs {
			if offsets[i] == 0 {
				continue
			}
			if err := k.move(&moved, offsets[i]); err != nil {
				return nil, err
			}
		}
		f, err := moved.Forecast(span)
		if err != nil {
			return nil, err
		}
		values := make([]float64, 0, len(out))
		for _, e := range f.ends() {
			values = append(values, float64(e.Value))
		}
		return moved.days(&f, b, list, values)
	})
	if err != nil {
		return nil, input.In("doubts", err)
	}
	for i := range out {
		out[i].Value, out[i].Uncertainty = units.Scalar(value[i]), units.Scalar(uncertainty[i])
		if math.IsNaN(uncertainty[i]) {
			out[i].Uncertainty = units.Scalar(math.Inf(1))
		}
		if most[i] >= 0 {
			out[i].Mostly = knobs[most[i]].name
		}
	}
	return out, nil
}

// ends lists the parameters at the end of a forecast.
func (f *Forecast) ends() []advice.Estimate {
	list := []advice.Estimate{
		{Name: "Salinity", Unit: "PSS-78", Value: units.Scalar(f.End.Portion.Practical().Value())},
		{Name: "Volume", Unit: "L", Value: units.Scalar(f.End.Portion.Volume().Litres())},
	}
	for _, l := range f.End.Levels {
		x, unit := l.Counted()
		list = append(list, advice.Estimate{Name: capital(string(l.Parameter())), Unit: unit, Value: units.Scalar(x)})
	}
	return list
}

// beyondSpan is how many spans ahead is looked for a bound that is left within the
// first of them if nothing is in doubt.
const beyondSpan = 4

// days appends the days until the bounds that are left in the list.
func (r *Routine) days(f *Forecast, b Bounds, list []Crossing, values []float64) ([]float64, error) {
	now, err := f.Until(b)
	if err != nil {
		return nil, err
	}
	var longer []Crossing
	for _, c := range list {
		if !c.Crosses() {
			continue
		}
		after := find(now, c)
		if after < 0 && longer == nil && f.Span < math.MaxInt64/beyondSpan {
			// A tank that goes beyond the standard in that time leaves nothing to compare.
			if far, err := r.Forecast(beyondSpan * f.Span); err == nil {
				if longer, err = far.Until(b); err != nil {
					return nil, err
				}
			}
		}
		if after < 0 {
			after = find(longer, c)
		}
		if after < 0 {
			values = append(values, math.Inf(1))
		} else {
			values = append(values, inDays(after))
		}
	}
	return values, nil
}

// find returns when the same bound is left in another list.
func find(list []Crossing, c Crossing) time.Duration {
	for _, x := range list {
		if x.Name == c.Name && x.High == c.High {
			return x.After
		}
	}
	return -1
}

// routineKnob is one input of a forecast that is in doubt.
type routineKnob struct {
	name string
	u    float64
	move func(r *Routine, by float64) error
}

// knobs lists what is in doubt.
func (d *RoutineDoubts) knobs(r *Routine) ([]routineKnob, error) {
	list := []routineKnob{
		{"the volume of the tank", d.Tank.Value(), func(r *Routine, by float64) error {
			r.Tank.Portion.Mass *= units.Mass(1 + by)
			r.Pumped = scaled(r.Pumped, 1/(1+by))
			for i := range r.Doses {
				r.Doses[i].Levels = scaled(r.Doses[i].Levels, 1/(1+by))
			}
			return nil
		}},
		{"the volume swapped", d.Swap.Value(), func(r *Routine, by float64) error {
			for i := range r.Changes {
				r.Changes[i].Swap *= units.Volume(1 + by)
			}
			return nil
		}},
		{"the evaporation", d.Evaporation.Value(), func(r *Routine, by float64) error {
			r.Evaporation *= units.Flow(1 + by)
			return nil
		}},
		{"the salinity of the tank", d.Salinity.Value(), func(r *Routine, by float64) error {
			p := r.Tank.Portion
			return read(&r.Tank, p.Practical().Value()+by, p.Temperature())
		}},
	}
	for _, l := range r.Tank.Levels {
		if doubt, has := d.Levels.Of(l.Parameter()); has {
			list = append(list, routineKnob{capital(string(l.Parameter())) +
				" of the tank", doubt.Base(), func(r *Routine, by float64) error {
				r.Tank = r.Tank.With(l.WithBase(l.Base() + by))
				return nil
			}})
		}
	}
	for _, l := range r.PerDay {
		if doubt, has := d.PerDay.Of(l.Parameter()); has {
			list = append(list, routineKnob{capital(string(l.Parameter())) +
				" a day", doubt.Base(), func(r *Routine, by float64) error {
				r.PerDay = r.PerDay.With(l.WithBase(l.Base() + by))
				return nil
			}})
		}
	}
	errs := []error{d.Levels.Check("doubts"), d.PerDay.Check("doubts.perDay")}
	for _, k := range list {
		errs = append(errs, checkDoubt(k.name, k.u))
	}
	return list, input.Join(errs...)
}

// scaled returns so many times the levels.
func scaled(l tested.Levels, by float64) tested.Levels {
	out := make(tested.Levels, len(l))
	for i := range l {
		out[i] = l[i].WithBase(l[i].Base() * by)
	}
	return out
}

// clone returns a routine whose doses and changes can be altered.
func (r Routine) clone() Routine {
	r.Doses = slices.Clone(r.Doses)
	r.Changes = slices.Clone(r.Changes)
	return r
}
