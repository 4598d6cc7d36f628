package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
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
