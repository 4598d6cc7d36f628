package mix

import (
	"cmp"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Chilling is water to be cooled with ice of pure water.
type Chilling struct {
	Water  seawater.Portion // hot water of seawater.HotWater is welcome
	To     units.Temperature
	Ice    units.Temperature // as it comes: about -18 °C out of a freezer, 0 °C when it drips
	Vessel Vessel            // optional

	// Bag says that the ice is in a closed bag or bottle and is taken out again, when its
	// melt water is as warm as TakenOut; as warm as To, if that is not set.
	Bag      bool
	TakenOut units.Temperature
}

// ChillPlan is the answer to a Chilling.
type ChillPlan struct {
	Ice       units.Mass
	IceVolume units.Volume     // of the solid ice
	Mix       seawater.Portion // afterwards, the melt water in it unless it is taken out
	Volume    units.Volume     // of the mix

	Before  units.Length // level of the water, if a vessel was given
	Highest units.Length // with the ice floating or its melt water in it
	After   units.Length // at the end

	Assumptions []string
	Cautions    []advice.Caution
}

// Chill works out how much ice brings a water down to a temperature. Loose ice melts
// into the water, which it makes more and fresher; ice in a bag leaves it as it was.
// With h the enthalpies at the pressure of the air, M the mass of the water, S' the
// salinity that loose ice ends at,
//
//	loose:  M h(S, T) + m h_ice = (M + m) h(S', T')
//	bagged: M h(S, T) + m h_ice = M h(S, T') + m h(0, T_out)
//
// A temperature below the freezing point of what comes of it is an *units.InputError;
// ice in a bag has to melt, and ends at 0 °C.
func Chill(c Chilling) (ChillPlan, error) {
	out := c.TakenOut
	if !out.IsSet() {
		out = c.To
	}
	goal, noGoal := seawater.HotWater(c.Water.Absolute(), c.To)
	err := input.Join(
		input.Positive("water", float64(c.Water.Mass), "g"),
		cmp.Or(input.Set("water.temperature", c.Water.Temperature()), input.Set("to", c.To), input.As("to", noGoal)),
		input.Set("ice", c.Ice), input.As("ice", teos10.CheckRangeIce(c.Ice, 0)))
	if err == nil && !(c.To.Celsius() <= c.Water.Temperature().Celsius()) {
		err = input.Bad("to", c.To.String(), "no warmer than the "+input.Fixed(c.Water.Temperature().Celsius(), 1)+
			" °C of the water")
	}
	if err == nil && c.Bag && !(out.Celsius() >= 0 && out.Celsius() <= c.To.Celsius()) {
		err = input.Bad("takenOut", out.String(), "0 °C, where the ice has melted, up to what the water comes to")
	}
	if err != nil {
		return ChillPlan{}, err
	}
	p := ChillPlan{}
	if c.Bag {
		p, err = c.bagged(goal, out)
	} else {
		p, err = c.loose(goal)
	}
	if err != nil {
		return ChillPlan{}, err
	}
	p.IceVolume = teos10.IceDensity(c.Ice, 0).Volume(p.Ice)
	p.Volume = p.Mix.Volume()
	if !(p.Volume <= math.MaxFloat64 && p.IceVolume <= math.MaxFloat64) {
		return ChillPlan{}, input.Bad("water", c.Water.Mass.String(), "a mass of ordinary size")
	}
	if err := c.fit(&p); err != nil {
		return ChillPlan{}, err
	}
	p.Assumptions = c.assumptions(out)
	p.Cautions = c.cautions(p)
	return p, nil
}

// bagged balances ice that is taken out again, at a temperature.
func (c Chilling) bagged(goal seawater.Sample, out units.Temperature) (ChillPlan, error) {
	melt, err := seawater.HotWater(units.Absolute(0), out)
	if err != nil {
		return ChillPlan{}, input.As("takenOut", err)
	}
	given := c.Water.Enthalpy() - goal.Enthalpy()
	taken := melt.Enthalpy() - teos10.IceEnthalpy(c.Ice, 0)
	return ChillPlan{Ice: c.Water.Mass * units.Mass(max(given, 0)/taken), Mix: goal.OfMass(c.Water.Mass)}, nil
}

// loose balances ice that stays in the water.
func (c Chilling) loose(goal seawater.Sample) (ChillPlan, error) {
	ice := teos10.IceEnthalpy(c.Ice, 0)
	after := func(x float64) (seawater.Sample, error) { // with x of ice to one of water
		return seawater.HotWater(units.Absolute(c.Water.Absolute().GramsPerKilogram()/(1+x)), c.To)
	}
	spare := func(x float64) float64 {
		mixed, err := after(x)
		if err != nil {
			return math.NaN()
		}
		return c.Water.Enthalpy() - mixed.Enthalpy() + x*(ice-mixed.Enthalpy())
	}
	// The enthalpy of a mix goes little with salinity: twice what it takes without is enough.
	most := 2*(c.Water.Enthalpy()-goal.Enthalpy())/(goal.Enthalpy()-ice) + 1e-6
	x, ok := solve.Brent(spare, 0, most, 0)
	if !ok {
		x = 0 // not even the first grain: it is as cold as wanted already
	}
	mixed, err := after(x)
	if err != nil {
		return ChillPlan{}, input.As("to", err)
	}
	if freezing := mixed.FreezingPoint(); c.To.Celsius() < freezing.Celsius()-untold {
		return ChillPlan{}, input.Bad("to", c.To.String(), "at least "+input.Fixed(freezing.Celsius(), 2)+
			" °C, where what comes of it freezes")
	}
	m := units.Mass(x) * c.Water.Mass
	return ChillPlan{Ice: m, Mix: mixed.OfMass(c.Water.Mass + m)}, nil
}

// untold is what no thermometer tells of 0 °C, in K: the air in the water moves its freezing
// point by half of it.
const untold = 0.005

// fit works out the levels and refuses what the vessel cannot hold. What floats
// takes the room of as much water as it weighs.
func (c Chilling) fit(p *ChillPlan) error {
	if !c.Vessel.Exists() {
		return nil
	}
	before := c.Water.Volume()
	highest := max(c.Water.OfMass(c.Water.Mass+p.Ice).Volume(), p.Volume)
	if most := c.Vessel.SafeFill(); !(highest <= most*(1+1e-12)) {
		return input.Bad("vessel", input.Fixed(most.Litres(), 2)+" L of safe fill", "room for "+
			input.Fixed(highest.Litres(), 2)+" L with the ice in it: draw "+
			input.Fixed((highest-most).Litres(), 2)+" L of water or more first")
	}
	var err error
	for _, l := range [...]struct {
		level  *units.Length
		volume units.Volume
	}{{&p.Before, before}, {&p.Highest, highest}, {&p.After, p.Volume}} {
		if *l.level, err = c.Vessel.LevelOf(min(l.volume, c.Vessel.Brim())); err != nil {
			return err
		}
	}
	return nil
}

func (c Chilling) assumptions(out units.Temperature) []string {
	list := []string{"No heat comes from the room, the pump and the vessel meanwhile: what does takes more ice."}
	if c.Bag {
		return append(list, "The bag is left in until its melt water is at "+input.Number(out.Celsius())+
			" °C; the plastic takes up no heat.")
	}
	return append(list, "The ice is pure and all of it melts; what drips off before is not counted.")
}

func (c Chilling) cautions(p ChillPlan) []advice.Caution {
	var list []advice.Caution
	if c.Water.Temperature().Sub(c.To) > advice.TemperaturePerHour {
		list = append(list, coolSlowly)
	}
	if c.Bag {
		list = append(list, tightBag)
	} else {
		list = append(list, pureIce)
		if c.Water.Practical().Value()-p.Mix.Practical().Value() > advice.SalinityPerDay {
			list = append(list, freshened)
		}
	}
	return append(list, hotCautions(c.Water.Temperature(), c.Water.Sample)...)
}
