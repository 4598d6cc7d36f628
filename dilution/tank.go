package dilution

import (
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Swap draws a volume from a tank and pours the same volume of fresh water in,
// each measured at its own temperature. Salt is balanced by mass and heat by
// conservative temperature; the volume of the result is up to its density.
func Swap(tank seawater.Portion, fresh seawater.Sample, swap units.Volume) (seawater.Portion, error) {
	if err := measured(tank, fresh); err != nil {
		return empty(), err
	}
	if err := inside("swap", swap, tank.Volume()); err != nil {
		return empty(), err
	}
	return seawater.Blend(rest(tank, swap), fresh.OfVolume(swap)), nil
}

// SwapToReach returns the volume to swap for the fresh water so that the tank
// comes to a practical salinity. With v swapped, ρ the densities and S the
// absolute salinities,
//
//	M S - v ρ S + v ρf Sf = S' (M - v ρ + v ρf)
func SwapToReach(tank seawater.Portion, fresh seawater.Sample, goal units.PracticalSalinity) (units.Volume, error) {
	if err := measured(tank, fresh); err != nil {
		return input.NaN[units.Volume](), err
	}
	want, err := seawater.FromPractical(goal, tank.Temperature())
	if err != nil {
		return input.NaN[units.Volume](), err
	}
	if err := input.Positive("tank", float64(tank.Mass), "g"); err != nil {
		return input.NaN[units.Volume](), err
	}
	s, sf := tank.Absolute().GramsPerKilogram(), fresh.Absolute().GramsPerKilogram()
	sw := want.Absolute().GramsPerKilogram()
	if s == sw {
		return 0, nil
	}
	if !(sw > s && sw <= sf || sw < s && sw >= sf) {
		return input.NaN[units.Volume](), input.Bad("goal", goal.String(),
			"between the tank at "+input.Fixed(tank.Practical().Value(), 2)+" and the fresh water at "+
				input.Fixed(fresh.Practical().Value(), 2))
	}
	d, df := float64(tank.Density()), float64(fresh.Density())
	v := units.Volume(float64(tank.Mass) * (s - sw) / (d*(s-sw) - df*(sf-sw)))
	return min(v, tank.Volume()), nil
}

// BlendTo returns how much of each of two waters make a volume of a practical salinity,
// which must lie between theirs.
//
//	symbol   M = V ρ', m = M (S' - Sb)/(Sa - Sb) of a, the rest of b
//	source   balance of salt by mass
//	units    V the volume of the blend, ρ' its density at the temperature that comes out
//
// The volumes of the two parts, each measured at its own temperature, do not quite add up
// to V: pour the one by its volume and fill up with the other.
func BlendTo(a, b seawater.Sample, goal units.PracticalSalinity,
	volume units.Volume) (ofA, ofB seawater.Portion, err error) {
	for _, w := range [...]struct {
		name string
		s    seawater.Sample
	}{{"a", a}, {"b", b}} {
		err = input.Join(err, input.Set(w.name+".temperature", w.s.Temperature()))
	}
	if err = input.Join(err, input.Positive("volume", volume.Litres(), "L")); err != nil {
		return empty(), empty(), err
	}
	want, err := seawater.FromPractical(goal, units.Celsius(25)) // salt by mass: no temperature matters
	if err != nil {
		return empty(), empty(), input.As("goal", err)
	}
	sa, sb, s := a.Absolute().GramsPerKilogram(), b.Absolute().GramsPerKilogram(), want.Absolute().GramsPerKilogram()
	share := (s - sb) / (sa - sb)
	if !(share >= 0 && share <= 1) {
		return empty(), empty(), input.Bad("goal", goal.String(), "between the two waters, "+
			input.Fixed(a.Practical().Value(), 2)+" and "+input.Fixed(b.Practical().Value(), 2))
	}
	// The volume of a given recipe goes with its mass: one step is exact.
	ofA, ofB = a.OfMass(units.Mass(share)), b.OfMass(units.Mass(1-share))
	scale := units.Mass(volume / seawater.Blend(ofA, ofB).Volume())
	return a.OfMass(ofA.Mass * scale), b.OfMass(ofB.Mass * scale), nil
}

// Refill draws a volume from a tank and fills it up to the line again, and returns how much
// of the fresh water that takes, measured at its own temperature. It is a little more or
// less than was drawn, because waters of two temperatures do not add up by volume; [Swap]
// pours the same volume and leaves the level where it comes to.
//
//	source   balance of salt by mass and of heat by conservative temperature, the volume of
//	         the blend solved for (tested.Water.FillTo)
func Refill(tank seawater.Portion, fresh seawater.Sample,
	drawn units.Volume) (poured units.Volume, full seawater.Portion, err error) {
	fail := func(err error) (units.Volume, seawater.Portion, error) {
		return input.NaN[units.Volume](), empty(), err
	}
	if err := measured(tank, fresh); err != nil {
		return fail(err)
	}
	if err := input.Positive("tank", float64(tank.Mass), "g"); err != nil {
		return fail(err)
	}
	if err := inside("drawn", drawn, tank.Volume()); err != nil {
		return fail(err)
	}
	line := tank.Volume()
	left := rest(tank, drawn)
	if left.Mass == 0 {
		return line, fresh.OfVolume(line), nil
	}
	poured, w, err := tested.Water{Portion: left}.FillTo(line, tested.Water{Portion: fresh.OfVolume(line)})
	if err != nil {
		return fail(err)
	}
	return poured, w.Portion, nil
}

// Evaporate takes pure water out of a tank: the salt stays.
func Evaporate(tank seawater.Portion, lost units.Volume) (seawater.Portion, error) {
	water, err := seawater.PureWater(tank.Temperature())
	if err != nil {
		return empty(), err
	}
	if err := inside("lost", lost, tank.Volume()); err != nil {
		return empty(), err
	}
	left := tank.Mass - water.OfVolume(lost).Mass
	if !(left > 0) {
		return empty(), input.Bad("lost", lost.String(), "less than the tank holds")
	}
	s, err := seawater.FromAbsolute(units.Absolute(float64(tank.Salt())/float64(left)*1000), tank.Temperature())
	if err != nil {
		return empty(), err
	}
	return s.OfMass(left), nil
}

// Unattended returns how long a tank may lose water to the air without
// top-off until its practical salinity reaches a limit. Salt stays, so the
// mass at the limit is M S/S'.
func Unattended(tank seawater.Portion, evaporation units.Flow, limit units.PracticalSalinity) (time.Duration, error) {
	if err := input.Positive("tank", float64(tank.Mass), "g"); err != nil {
		return 0, err
	}
	if err := input.Positive("evaporation", float64(evaporation), "L/h"); err != nil {
		return 0, err
	}
	at, err := seawater.FromPractical(limit, tank.Temperature())
	if err != nil {
		return 0, err
	}
	water, err := seawater.PureWater(tank.Temperature())
	if err != nil {
		return 0, err
	}
	s, sl := tank.Absolute().GramsPerKilogram(), at.Absolute().GramsPerKilogram()
	if !(sl >= s && s > 0) {
		return 0, input.Bad("limit", limit.String(), "above the salinity of the tank, "+
			input.Fixed(tank.Practical().Value(), 2))
	}
	t := evaporation.Time(water.OfMass(units.Mass(float64(tank.Mass) * (1 - s/sl))).Volume())
	if t < 0 {
		return 0, input.Bad("evaporation", evaporation.String(), "enough to matter within a lifetime")
	}
	return t, nil
}

// Residue returns by how much a solute in the top-off water has risen in a tank
// after a time: what evaporates leaves it behind.
//
//	Δc = c E t / V
func Residue(topOff units.MassPerLitre, evaporation units.Flow, tank units.Volume, d time.Duration) units.MassPerLitre {
	if !(topOff >= 0 && evaporation >= 0 && tank > 0) {
		return input.NaN[units.MassPerLitre]()
	}
	return topOff * units.MassPerLitre(evaporation.Volume(d)/tank)
}

// measured refuses waters that nobody described: a Sample that was not made would
// pass for pure water at 0 °C. A tank of no mass is refused elsewhere.
func measured(tank seawater.Portion, fresh seawater.Sample) error {
	if tank.Mass != 0 {
		if err := input.Set("tank.temperature", tank.Temperature()); err != nil {
			return err
		}
		if err := input.Positive("tank.density", float64(tank.Density()), "kg/m³"); err != nil {
			return err
		}
		if err := input.As("tank.temperature", tank.CheckTank()); err != nil {
			return err
		}
	}
	if err := input.Set("newWater.temperature", fresh.Temperature()); err != nil {
		return err
	}
	if err := input.Positive("newWater.density", float64(fresh.Density()), "kg/m³"); err != nil {
		return err
	}
	return input.As("newWater.temperature", fresh.CheckTank())
}

// rest returns what stays in a tank when a volume is drawn.
func rest(tank seawater.Portion, drawn units.Volume) seawater.Portion {
	left := tank.Mass - tank.OfVolume(drawn).Mass
	return tank.OfMass(max(left, 0)) // drawing all may leave a rounding error
}

// empty stands beside an error: every number asked of it is NaN.
func empty() seawater.Portion { return seawater.Blend(seawater.Sample{}.OfMass(-1)) }

// inside refuses a volume that is not between nothing and all of the tank.
func inside(field string, v, tank units.Volume) error {
	if v >= 0 && v <= tank*(1+1e-12) {
		return nil
	}
	return input.Bad(field, v.String(), "zero to the "+input.Fixed(tank.Litres(), 2)+" L of the tank")
}
