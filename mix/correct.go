package mix

import (
	"cmp"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Mixed is a batch that was mixed, measured, and found off its target.
type Mixed struct {
	Present          seawater.Portion // salinity and temperature as measured, and how much there is
	Target           units.PracticalSalinity
	Salt             Salt
	Scoop            Scoop             // optional
	Most             units.Volume      // that the vessel may hold; 0 if there is room for any
	WaterTemperature units.Temperature // of the pure water at hand; matters only to a mix that is too salt
}

// Correction is what brings a mix to its target: in this order take out Remove,
// pour AddWater, dissolve AddSalt. What is not needed is zero.
type Correction struct {
	Remove   units.Volume // of the mix, when the vessel would overflow
	AddWater units.Volume
	AddSalt  units.Mass
	Scoops   float64
	Mix      seawater.Portion // what there is afterwards
	Volume   units.Volume
	Cautions []advice.Caution
}

// Correct works out how to bring a measured mix to its target: too salt, it is
// diluted, and first drawn down if the vessel is too full for the water; too
// weak, it gets salt. The mass balance is exact, the water that the product
// brings included.
//
// Correct the mix in its own vessel, before it goes near animals, and measure
// again: a correction is no better than the reading it starts from.
func Correct(m Mixed) (Correction, error) {
	share, noShare := m.Salt.SeaSaltShare()
	scoop, noScoop := m.Scoop.holds(m.Salt)
	target, noTarget := saltAt("target", m.Target, "present.temperature", m.Present.Temperature())
	var water seawater.Sample
	var noWater error
	if m.WaterTemperature.IsSet() || noTarget == nil && m.tooSalt(target) {
		water, noWater = pureAt("waterTemperature", m.WaterTemperature)
	}
	err := input.Join(noShare, noScoop,
		input.Positive("present", float64(m.Present.Mass), "g"),
		cmp.Or(input.Join(input.Positive("target", m.Target.Value(), ""),
			input.Set("present.temperature", m.Present.Temperature())), noTarget), noWater,
		input.NotNegative("most", float64(m.Most), "L"))
	if err != nil {
		return Correction{}, err
	}
	has, right := m.Present.Absolute().GramsPerKilogram(), target.Absolute().GramsPerKilogram()
	if math.Abs(has-right) <= rounding*right {
		target = m.Present.Sample // as it should be: no last bit makes a correction
	}
	var c Correction
	if m.tooSalt(target) {
		c = m.dilute(target, water)
	} else {
		c = m.strengthen(target, share)
	}
	c.Volume = c.Mix.Volume()
	if !(float64(c.Volume) <= math.MaxFloat64 && float64(c.AddWater) <= math.MaxFloat64) {
		return Correction{}, input.Bad("target", m.Target.String(), "a salinity that this much can be diluted to")
	}
	if scoop > 0 {
		c.Scoops = float64(c.AddSalt / scoop)
	}
	c.Cautions = []advice.Caution{saltIntoWater, mixUntilClear, mainsNearWater}
	if c.Scoops > 0 {
		c.Cautions = append(c.Cautions, settledSalt)
	}
	return c, nil
}

// tooSalt tells whether the mix needs water, and not salt.
func (m Mixed) tooSalt(target seawater.Sample) bool {
	has, right := m.Present.Absolute().GramsPerKilogram(), target.Absolute().GramsPerKilogram()
	return has > right && has-right > rounding*right
}

// rounding is the part of a quantity that its last digits can be off.
const rounding = 1e-12

// dilute balances kept·S = final·target, with as much kept as the vessel
// allows.
func (m Mixed) dilute(target, water seawater.Sample) Correction {
	ratio := m.Present.Absolute().GramsPerKilogram() / target.Absolute().GramsPerKilogram()
	after := func(kept units.Mass) (all, added seawater.Portion) {
		added = water.OfMass(units.Mass(float64(kept) * (ratio - 1)))
		return seawater.Blend(m.Present.OfMass(kept), added), added
	}
	kept := m.Present.Mass
	all, added := after(kept)
	if m.Most > 0 && all.Volume() > m.Most {
		// The volume of a given recipe goes with its mass: one step is exact.
		kept = units.Mass(float64(kept) * float64(m.Most/all.Volume()))
		all, added = after(kept)
	}
	return Correction{
		Remove:   m.Present.OfMass(m.Present.Mass - kept).Volume(),
		AddWater: added.Volume(),
		Mix:      all,
	}
}

// strengthen balances kept·S + share·m = (kept + m)·target.
func (m Mixed) strengthen(target seawater.Sample, share units.Fraction) Correction {
	kept := m.Present.Mass
	after := func(kept units.Mass) (seawater.Portion, units.Mass) {
		salt := dissolve(m.Present.OfMass(kept), share, target)
		return target.OfMass(kept + salt), salt
	}
	all, salt := after(kept)
	if m.Most > 0 && all.Volume() > m.Most {
		kept = units.Mass(float64(kept) * float64(m.Most/all.Volume()))
		all, salt = after(kept)
	}
	return Correction{
		Remove:  m.Present.OfMass(m.Present.Mass - kept).Volume(),
		AddSalt: salt,
		Mix:     all,
	}
}
