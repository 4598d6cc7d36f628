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

// Heating is water to be warmed by an electric heater.
type Heating struct {
	Water  seawater.Portion
	To     units.Temperature
	Heater units.Power
	Loss   units.ThermalConductance // of the vessel; 0 if it is not known
	Room   units.Temperature        // matters only with Loss
}

// HeatPlan is the answer to a Heating.
type HeatPlan struct {
	Time     time.Duration
	Energy   units.Energy // that the heater draws
	Hold     units.Power  // to keep the water at the temperature asked for
	Cautions []advice.Caution
}

// Heat works out how long a heater takes and what it draws. With the loss U of
// the vessel to the room, and the heat capacity C of the water taken midway,
//
//	C dT/dt = P - U (T - T_room)
//
// A temperature that the heater can never reach is an *units.InputError that
// names the limit. Water that is warm enough already takes no time; water that
// is too warm has to be left to cool.
func Heat(h Heating) (HeatPlan, error) {
	warm, noWarm := h.Water.At(h.To)
	unset := input.Set("water.temperature", h.Water.Temperature())
	if unset != nil {
		noWarm = nil // which it does not tell better
	}
	err := input.Join(
		input.Positive("water", float64(h.Water.Mass), "g"),
		input.Positive("heater", float64(h.Heater), "W"),
		input.NotNegative("loss", float64(h.Loss), "W/K"),
		unset, cmp.Or(input.Set("to", h.To), input.As("to", noWarm)), h.checkRoom())
	if err != nil {
		return HeatPlan{}, err
	}
	from, to, room := h.Water.Temperature().Celsius(), h.To.Celsius(), h.Room.Celsius()
	p := HeatPlan{Cautions: []advice.Caution{heaterDry, mainsNearWater}}
	limit := math.Inf(1) // the temperature that this heater never passes
	if h.Loss > 0 {
		limit = room + float64(h.Heater)/float64(h.Loss)
		p.Hold = units.Power(math.Max(0, float64(h.Loss)*(to-room)))
	}
	if !(to < limit) {
		return HeatPlan{}, input.Bad("to", h.To.String(),
			"below "+input.Fixed(limit, 1)+" °C, the most that "+h.Heater.String()+
				" reach in this room: take a stronger heater or insulate")
	}
	if to <= from {
		return p, nil
	}
	midway := (float64(h.Water.HeatCapacity()) + float64(warm.HeatCapacity())) / 2
	capacity := midway * h.Water.Mass.Kilograms() // J/K
	var seconds float64
	if h.Loss > 0 {
		seconds = capacity / float64(h.Loss) * math.Log((limit-from)/(limit-to))
	} else {
		seconds = capacity * (to - from) / float64(h.Heater)
	}
	if !(seconds < math.MaxInt64/1e9) {
		return HeatPlan{}, input.Bad("heater", h.Heater.String(), "more power: this takes centuries")
	}
	p.Time = time.Duration(seconds * 1e9)
	p.Energy = units.Energy(float64(h.Heater) * seconds)
	return p, nil
}

// checkRoom refuses a room that nobody set, if it matters, and one where nobody is.
func (h Heating) checkRoom() error {
	if !(h.Loss > 0) {
		return nil
	}
	if err := input.Set("room", h.Room); err != nil {
		return err
	}
	if !(math.Abs(h.Room.Celsius()) <= 60) {
		return input.Bad("room", h.Room.String(), "-60 to 60 °C")
	}
	return nil
}

// Temper returns how much of a hot and of a cold water make a total volume of
// a wanted temperature, the total measured at that temperature. Both are
// poured at their own temperatures. The wanted temperature must lie between
// theirs; either may be salt.
//
// Water hotter than 40 °C is outside the standards this library computes
// with, so no Sample can be made of it.
func Temper(hot, cold seawater.Sample, want units.Temperature,
	total units.Volume) (ofHot, ofCold units.Volume, err error) {
	err = input.Join(
		input.Set("hot.temperature", hot.Temperature()),
		input.Set("cold.temperature", cold.Temperature()),
		input.Set("want", want),
		input.Positive("total", float64(total), "L"))
	if err != nil {
		return input.NaN[units.Volume](), input.NaN[units.Volume](), err
	}
	if !(cold.Temperature().Celsius() <= want.Celsius() && want.Celsius() <= hot.Temperature().Celsius()) {
		return input.NaN[units.Volume](), input.NaN[units.Volume](), input.Bad("want", want.String(),
			"between "+cold.Temperature().String()+" and "+hot.Temperature().String())
	}
	if hot.Temperature() == cold.Temperature() {
		return 0, total, nil
	}
	blend := func(share float64) seawater.Portion { // of one gram
		return seawater.Blend(hot.OfMass(units.Mass(share)), cold.OfMass(units.Mass(1-share)))
	}
	share, ok := solve.Brent(func(x float64) float64 {
		return blend(x).Temperature().Celsius() - want.Celsius()
	}, 0, 1, 1e-14)
	if !ok {
		return input.NaN[units.Volume](), input.NaN[units.Volume](), units.ErrNoConvergence
	}
	grams := float64(total / blend(share).Volume())
	ofHot, ofCold = hot.OfMass(units.Mass(share*grams)).Volume(), cold.OfMass(units.Mass((1-share)*grams)).Volume()
	if !(ofHot+ofCold <= math.MaxFloat64) {
		return input.NaN[units.Volume](), input.NaN[units.Volume](), input.Bad("total", total.String(),
			"a volume of ordinary size")
	}
	return ofHot, ofCold, nil
}
