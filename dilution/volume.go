package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
)

// Basin is one vessel of a system, filled to a level: the display, the sump.
type Basin struct {
	Name   string
	Vessel mix.Vessel // from inside measures
	Level  units.Length
}

// Solid is what stands in the water and takes its room: rock, sand. Density is
// that of the solid itself without its pores, because water fills those: 2930
// kg/m³ for aragonite, 2710 for calcite, 2650 for quartz (CRC Handbook of
// Chemistry and Physics, physical constants of minerals; from memory).
type Solid struct {
	Name    string
	Mass    units.Mass
	Density units.Density
}

// NetVolume returns the volume of water in a system from its measures: what the
// basins hold up to their levels, less what the solids in them displace.
func NetVolume(basins []Basin, solids []Solid) (units.Volume, error) {
	var net units.Volume
	for _, b := range basins {
		v, err := b.Vessel.VolumeAt(b.Level)
		if err != nil {
			return input.NaN[units.Volume](), input.In("basins."+b.Name, err)
		}
		net += v
	}
	for _, s := range solids {
		if err := input.NotNegative("solids."+s.Name+".mass", float64(s.Mass), "g"); err != nil {
			return input.NaN[units.Volume](), err
		}
		if !(s.Density > 1000) || math.IsInf(float64(s.Density), 0) {
			return input.NaN[units.Volume](), input.Bad("solids."+s.Name+".density", s.Density.String(),
				"the density of the solid without pores, above 1000 kg/m³")
		}
		net -= s.Density.Volume(s.Mass)
	}
	if !(net > 0) {
		return input.NaN[units.Volume](), input.Bad("netVolume", net.String(),
			"above zero: the solids displace more than the basins hold")
	}
	return net, nil
}

// Tracer is a weighed addition of dry salt to a tank, dissolved and mixed in,
// with the salinity before and after: the tank's own measure of its volume.
// Dissolve the salt in tank water outside the tank and add it over days, at most
// 1 in practical salinity a day (common practice).
type Tracer struct {
	Salt          mix.Salt
	Added         units.Mass // of the product
	Before, After units.PracticalSalinity
	Reading       units.PracticalSalinity // standard uncertainty of one salinity reading; 0 if not known
	Temperature   units.Temperature
}

// Volume returns the net volume of the tank before the addition, and its
// standard uncertainty from that of the two readings. With m of product of a
// share f of sea salt, and absolute salinities S0 and S1 as mass fractions,
//
//	M = m (f - S1) / (S1 - S0)
//
// A rise of 1 read to 0.1 gives the volume to no better than 15 %.
func (t Tracer) Volume() (volume, uncertainty units.Volume, err error) {
	fail := func(err error) (units.Volume, units.Volume, error) {
		return input.NaN[units.Volume](), input.NaN[units.Volume](), err
	}
	share, err := t.Salt.SeaSaltShare()
	if err != nil {
		return fail(err)
	}
	if err := input.Positive("added", float64(t.Added), "g"); err != nil {
		return fail(err)
	}
	if err := input.NotNegative("reading", t.Reading.Value(), "PSS-78"); err != nil {
		return fail(err)
	}
	if err := input.Set("temperature", t.Temperature); err != nil {
		return fail(err)
	}
	if _, err := seawater.PureWater(t.Temperature); err != nil {
		return fail(err)
	}
	before, err := seawater.FromPractical(t.Before, t.Temperature)
	if err != nil {
		return fail(input.As("before", err))
	}
	after, err := seawater.FromPractical(t.After, t.Temperature)
	if err != nil {
		return fail(input.As("after", err))
	}
	s0, s1 := before.Absolute().GramsPerKilogram()/1000, after.Absolute().GramsPerKilogram()/1000
	rise, f := s1-s0, share.Value()
	if !(rise > 0) {
		return fail(input.Bad("after", t.After.String(), "more than before, "+t.Before.String()))
	}
	volume = before.OfMass(units.Mass(float64(t.Added) * (f - s1) / rise)).Volume()
	// dM/dS1 = -m (f - S0)/rise², dM/dS0 = m (f - S1)/rise² (JCGM 100, 5.1.2)
	u := t.Reading.Value() / t.After.Value() * s1
	relative := u / rise * math.Hypot((f-s0)/(f-s1), 1)
	return volume, units.Volume(relative) * volume, nil
}

// TracerDoubts are the standard uncertainties of what a tracer is worked out from besides
// the two readings, which are in the tracer itself. Those that are zero are left out.
type TracerDoubts struct {
	Tank    units.Fraction // of the volume it is about to be added to; matters to [Tracer.ToAdd]
	Added   units.Fraction // of the mass as weighed: 0.3 % by a kitchen scale (common practice)
	SeaSalt units.Fraction // of the share of sea salt: moisture
}

// Estimate returns the volume as Volume does, with the doubt of the mass and the share of
// salt beside that of the readings, and what it is mostly from.
//
//	source   JCGM 100:2008, 5.1.2, by differences ([spread.Through])
func (t Tracer) Estimate(d TracerDoubts) (advice.Estimate, error) {
	share, err := t.Salt.SeaSaltShare()
	if err != nil {
		return advice.Estimate{}, err
	}
	return t.estimate("Volume", "L", d, func(off []float64) ([]float64, error) {
		moved := t
		moved.Before = units.Practical(t.Before.Value() + off[0])
		moved.After = units.Practical(t.After.Value() + off[1])
		moved.Added *= units.Mass(1 + off[3])
		moved.Salt.Label, moved.Salt.SeaSalt = mix.Label{}, units.Share(share.Value()*(1+off[4]))
		v, _, err := moved.Volume()
		return []float64{v.Litres()}, err
	})
}

// ToAdd returns how much of the product takes about so much tank water from Before to
// After, and how sure that is: the salt to weigh for a tracer. Added does not count.
//
//	symbol   m = M (S1 - S0)/(f - S1)
//	source   balance of salt, JCGM 100:2008, 5.1.2
//
// After the addition, [Tracer.Volume] tells the volume better than the guess that it
// began with.
func (t Tracer) ToAdd(about units.Volume, d TracerDoubts) (advice.Estimate, error) {
	if err := input.Positive("about", about.Litres(), "L"); err != nil {
		return advice.Estimate{}, err
	}
	share, err := t.Salt.SeaSaltShare()
	if err != nil {
		return advice.Estimate{}, err
	}
	return t.estimate("Salt to weigh", "g", d, func(off []float64) ([]float64, error) {
		moved := t
		moved.Before = units.Practical(t.Before.Value() + off[0])
		moved.Salt.Label, moved.Salt.SeaSalt = mix.Label{}, units.Share(share.Value()*(1+off[4]))
		moved.Added = 1 * units.Kilogram
		v, _, err := moved.Volume() // the volume goes with the mass
		return []float64{moved.Added.Grams() * float64(about/v) * (1 + off[2])}, err
	})
}

// estimate moves the readings, the volume, the mass and the share, in this order.
func (t Tracer) estimate(name, unit string, d TracerDoubts,
	f func(off []float64) ([]float64, error)) (advice.Estimate, error) {
	names := [...]string{
		"the salinity before", "the salinity after", "the volume of the tank", "the mass of salt",
		"the sea salt in the product",
	}
	u := []float64{t.Reading.Value(), t.Reading.Value(), d.Tank.Value(), d.Added.Value(), d.SeaSalt.Value()}
	for i, x := range u {
		if err := checkDoubt(names[i], x); err != nil {
			return advice.Estimate{}, err
		}
	}
	value, uncertainty, most, err := spread.Through(u, f)
	if err != nil {
		return advice.Estimate{}, err
	}
	e := advice.Estimate{Name: name, Unit: unit, Value: units.Scalar(value[0]), Uncertainty: units.Scalar(uncertainty[0])}
	if most[0] >= 0 {
		e.Mostly = names[most[0]]
	}
	return e, nil
}
