package mix

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Freezing is a batch that is kept where it may freeze.
type Freezing struct {
	Water   seawater.Portion
	Coldest units.Temperature // that the place comes to
}

// FreezePlan is the answer to a Freezing: what there is at the most, once all of it
// is as cold as the place.
type FreezePlan struct {
	Point units.Temperature // at which the first ice forms

	Ice      units.Mass
	Share    units.Fraction         // of the batch that is ice
	Left     units.Mass             // that stays liquid
	Salinity units.AbsoluteSalinity // of what is left: brine; 0 where nothing is
	Volume   units.Volume           // of ice and brine together, at Coldest
	Swells   units.Fraction         // by which they take more room than the batch did

	Heat     units.Energy // that has to leave the batch until then
	Cautions []advice.Caution
}

// Freeze works out how much of a batch can freeze at a temperature, and what is left.
// Ice is pure; the salt stays in the brine, which freezes at a lower and lower
// temperature, so the place alone sets its salinity S_b and with it all masses:
//
//	t_f(S_b) = t,   M S = (M - m) S_b
//
// One cold night seldom gets there: Heat has to pass through the walls first, and
// [Drift] tells how fast it does. Seawater colder than -7.7 °C is an *units.InputError: its
// brine is beyond the standard.
func Freeze(f Freezing) (FreezePlan, error) {
	err := input.Join(
		input.Positive("water", float64(f.Water.Mass), "g"),
		input.Set("water.temperature", f.Water.Temperature()), input.Set("coldest", f.Coldest),
		input.As("water.temperature", f.Water.CheckTank()))
	if err == nil && !(f.Coldest.Celsius() >= -60 && f.Coldest.Celsius() <= 40) {
		err = input.Bad("coldest", f.Coldest.String(), "-60 to 40 °C")
	}
	if err != nil {
		return FreezePlan{}, err
	}
	p := FreezePlan{Point: f.Water.FreezingPoint(), Left: f.Water.Mass, Salinity: f.Water.Absolute()}
	if f.Coldest.Celsius() < p.Point.Celsius() {
		if err := f.divide(&p); err != nil {
			return FreezePlan{}, err
		}
		p.Cautions = append(p.Cautions, iceBursts)
		if p.Left > 0 {
			p.Cautions = append(p.Cautions, thawAndStir)
		}
		if p.Left > 0 && f.Coldest.Celsius() < carbonateFalls {
			p.Cautions = append(p.Cautions, saltsFall)
		}
	}
	p.Volume = teos10.IceDensity(f.Coldest, 0).Volume(p.Ice)
	heat := p.Ice.Kilograms() * teos10.IceEnthalpy(f.Coldest, 0)
	if p.Left > 0 {
		p.Volume += teos10.DensityExact(p.Salinity, f.Coldest, 0).Volume(p.Left)
		heat += p.Left.Kilograms() * teos10.EnthalpyExact(p.Salinity, f.Coldest, 0)
	}
	p.Heat = units.Energy(f.Water.Mass.Kilograms()*f.Water.Enthalpy() - heat)
	p.Swells = units.Share(float64(p.Volume/f.Water.Volume()) - 1)
	if !(p.Volume <= math.MaxFloat64 && math.Abs(float64(p.Heat)) <= math.MaxFloat64) {
		return FreezePlan{}, input.Bad("water", f.Water.Mass.String(), "a mass of ordinary size")
	}
	return p, nil
}

// carbonateFalls is where the first salt falls out of freezing seawater, in °C: calcium
// carbonate, as ikaite; sodium sulphate follows at -6.4 (sea ice, Assur 1958, from memory).
const carbonateFalls = -2.2

// divide works out ice and brine below the freezing point.
func (f Freezing) divide(p *FreezePlan) error {
	s := f.Water.Absolute().GramsPerKilogram()
	brine := 0.0 // of pure water nothing is left
	if s > 0 {
		if brine = teos10.FreezingSalinity(f.Coldest, 0, units.Share(1)).GramsPerKilogram(); !(brine >= s) {
			const end = 120 // g/kg, of IAPWS R13-08
			t := teos10.FreezingTemperature(units.Absolute(end), 0, units.Share(1))
			return input.Bad("coldest", f.Coldest.String(), "no colder than "+input.Fixed(t.Celsius(), 1)+" °C, where "+
				input.Fixed(100*(1-s/end), 0)+" % are ice and the brine has "+input.Number(end)+
				" g/kg: below, count all of it as frozen")
		}
		p.Left = f.Water.Mass * units.Mass(s/brine)
	} else {
		p.Left = 0
	}
	p.Salinity = units.Absolute(brine)
	p.Ice = f.Water.Mass - p.Left
	p.Share = units.Share(float64(p.Ice / f.Water.Mass))
	return nil
}
