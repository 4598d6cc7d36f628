package mix

import (
	"cmp"
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Drifting is water left to the room: a tank in a power cut, a batch that stands, a
// tank in summer.
type Drifting struct {
	Water       seawater.Portion
	Room        units.Temperature
	Loss        units.ThermalConductance // of the tank, from LossOf or known; less with blankets around it
	Power       units.Power              // that pumps and lamps leave in the water; 0 in a power cut
	Evaporation units.Flow               // fresh water that the surface loses, if it is known and Loss leaves it out

	To    units.Temperature // of which the time is asked; optional
	After time.Duration     // after which the temperature is asked; optional
}

// DriftPlan is the answer to a Drifting.
type DriftPlan struct {
	Time        time.Duration     // until To; 0 if it was not asked
	Temperature units.Temperature // after After; not set if it was not asked
	Ends        units.Temperature // where it comes to rest; not set without Loss
	Evaporating units.Power       // that the evaporation takes
	Assumptions []string
	Cautions    []advice.Caution
}

// Drift works out how a water cools or warms by itself. With the loss U of the tank to
// the room, a steady power P, the heat Q that a known evaporation takes, and the
// mean heat capacity C,
//
//	C dT/dt = P - Q - U (T - T_room),   T at rest = T_room + (P - Q)/U
//
// This is Newton's law of cooling: the last degrees take longest. Evaporation cools
// below the room. A temperature that the water does not pass on its way is an
// *units.InputError that says where it ends.
func Drift(d Drifting) (DriftPlan, error) {
	to := d.Water.Sample
	var noTo error
	if d.To.IsSet() {
		to, noTo = d.Water.At(d.To)
	}
	err := input.Join(
		input.Positive("water", float64(d.Water.Mass), "g"),
		cmp.Or(input.Set("water.temperature", d.Water.Temperature()), input.As("to", noTo)),
		input.NotNegative("loss", float64(d.Loss), "W/K"), checkRoom(d.Room, d.Loss),
		input.NotNegative("power", float64(d.Power), "W"),
		checkEvaporation(d.Evaporation, d.Water.Temperature().Celsius()),
		input.NotNegative("after", d.After.Hours(), "h"))
	if err == nil && d.Loss == 0 && d.Power == 0 && d.Evaporation == 0 {
		err = input.Bad("loss", d.Loss.String(), "above zero, or a power or an evaporation that moves the temperature")
	}
	if err != nil {
		return DriftPlan{}, err
	}
	p := DriftPlan{Evaporating: latent(d.Evaporation, d.Water.Sample, to), Assumptions: []string{
		"Room, power and evaporation stay as they are; the water is stirred. Still water is warmer at the top.",
	}}
	b := balance{capacity(d.Water, to), float64(d.Loss), float64(d.Power - p.Evaporating), d.Room.Celsius()}
	if d.Loss > 0 {
		p.Ends = units.Celsius(b.ends())
	}
	from := d.Water.Temperature().Celsius()
	if d.To.IsSet() {
		if p.Time, err = b.until(from, d.To); err != nil {
			return DriftPlan{}, err
		}
	}
	if d.After > 0 {
		p.Temperature = units.Celsius(b.after(from, d.After.Seconds()))
	}
	if d.Power == 0 && b.ends() < from {
		p.Cautions = append(p.Cautions, airFirst)
	}
	p.Cautions = append(p.Cautions, hotCautions(d.Water.Temperature(), d.Water.Sample)...)
	return p, nil
}

// until returns the time to a temperature, which must lie on the way.
func (b balance) until(from float64, goal units.Temperature) (time.Duration, error) {
	to, ends := goal.Celsius(), b.ends()
	if to == from {
		return 0, nil
	}
	if !(from < to && to < ends || from > to && to > ends) {
		want := "between the " + input.Fixed(from, 1) + " °C of the water and the " + input.Fixed(ends, 1) +
			" °C where it comes to rest"
		if !(b.loss > 0) {
			want = "above the " + input.Fixed(from, 1) + " °C of the water, which warms"
			if b.gain < 0 {
				want = "below the " + input.Fixed(from, 1) + " °C of the water, which cools"
			}
		}
		return 0, input.Bad("to", goal.String(), want)
	}
	seconds := b.time(from, to)
	if !(seconds < math.MaxInt64/1e9) {
		return 0, input.Bad("to", goal.String(), "a temperature that it comes to within centuries")
	}
	return time.Duration(seconds * 1e9), nil
}

// Cooled are two readings of a water that was left to the room, such as of one night
// with the heater unplugged.
type Cooled struct {
	Water       seawater.Portion  // at the first reading
	To          units.Temperature // the second reading
	In          time.Duration     // between them
	Room        units.Temperature // its mean meanwhile
	Power       units.Power       // that pumps left in the water, which run on
	Evaporation units.Flow        // if it is known and to be left out of the loss

	Doubt units.TemperatureDifference // standard uncertainty of each reading, the room's too; optional
}

// HeatLoss is what a tank loses to the room.
type HeatLoss struct {
	Loss        units.ThermalConductance
	Uncertainty units.ThermalConductance // standard, of the doubt in the readings; 0 without
}

// LossOf works out what a tank loses to the room, per kelvin between them, from two
// readings. Without power and evaporation,
//
//	U = (C/t) ln((T1 - T_room)/(T2 - T_room))
//
// The loss that comes of it holds the evaporation of that night, unless it is
// given. Unplug the heater, not the pump. A fall that the thermometer can hardly tell
// makes a wide uncertainty; a change that no loss explains is an *units.InputError.
func LossOf(c Cooled) (HeatLoss, error) {
	none := HeatLoss{input.NaN[units.ThermalConductance](), input.NaN[units.ThermalConductance]()}
	to, noTo := c.Water.At(c.To)
	err := input.Join(
		input.Positive("water", float64(c.Water.Mass), "g"),
		cmp.Or(input.Set("water.temperature", c.Water.Temperature()), input.Set("to", c.To), input.As("to", noTo)),
		input.Positive("in", c.In.Hours(), "h"), checkRoom(c.Room, 1),
		input.NotNegative("power", float64(c.Power), "W"),
		checkEvaporation(c.Evaporation, c.Water.Temperature().Celsius()),
		input.NotNegative("doubt", float64(c.Doubt), "K"))
	if err != nil {
		return none, err
	}
	heats := capacity(c.Water, to) // J/K
	gain := float64(c.Power - latent(c.Evaporation, c.Water.Sample, to))
	// The loss that takes the water from a to b beside a room.
	loss := func(a, b, room float64) (float64, bool) {
		return solve.Brent(func(u float64) float64 {
			return balance{heats, u, gain, room}.after(a, c.In.Seconds()) - b
		}, 0, 100*heats/c.In.Seconds(), 0)
	}
	a, b, room := c.Water.Temperature().Celsius(), c.To.Celsius(), c.Room.Celsius()
	u, ok := loss(a, b, room)
	if !ok || !(u > 0) {
		return none, input.Bad("to", c.To.String(), "a reading between the "+input.Fixed(a, 2)+
			" °C of the water and the room, which a loss of heat can explain")
	}
	found := HeatLoss{Loss: units.ThermalConductance(u)}
	if doubt := float64(c.Doubt); doubt > 0 {
		var squares float64
		for _, by := range [...][3]float64{{doubt, 0, 0}, {0, doubt, 0}, {0, 0, doubt}} {
			more, ok1 := loss(a+by[0], b+by[1], room+by[2])
			less, ok2 := loss(a-by[0], b-by[1], room-by[2])
			if !(ok1 && ok2) {
				return none, input.Bad("doubt", c.Doubt.String(), "less than the readings differ: wait longer")
			}
			squares += (more - less) / 2 * (more - less) / 2
		}
		found.Uncertainty = units.ThermalConductance(math.Sqrt(squares))
	}
	return found, nil
}
