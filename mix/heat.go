package mix

import (
	"cmp"
	"math"
	"time"

	"example.org/wellmixed/internal/input"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Heating is water to be warmed by an electric heater.
type Heating struct {
	Water       seawater.Portion // hot water of seawater.HotWater is welcome
	To          units.Temperature
	Heater      units.Power
	Loss        units.ThermalConductance // of the vessel; 0 if it is not known
	Room        units.Temperature        // matters only with Loss
	Evaporation units.Flow               // fresh water that the surface loses, if it is known and Loss leaves it out
}

// HeatPlan is the answer to a Heating.
type HeatPlan struct {
	Time     time.Duration
	Energy   units.Energy      // that the heater draws
	Hold     units.Power       // to keep the water at the temperature asked for
	Limit    units.Temperature // the warmest that this heater can hold in this room; not set without Loss
	Cautions []advice.Caution
}

// Heat works out how long a heater takes and what it draws. With the loss U of the
// vessel to the room, the heat Q that a known evaporation takes, and the heat
// capacity C of the water, its mean on the way,
//
//	C dT/dt = P - Q - U (T - T_room)
//
// A temperature that the heater can never reach is an *units.InputError that names
// the limit and the power that it would take. Water that is warm enough already
// takes no time; how long water that is too warm takes to cool by itself is what
// [Drift] tells, and [Chill] how much ice spares it the wait.
func Heat(h Heating) (HeatPlan, error) {
	warm, noWarm := seawater.HotWater(h.Water.Absolute(), h.To)
	unset := input.Set("water.temperature", h.Water.Temperature())
	if unset != nil {
		noWarm = nil // which it does not tell better
	}
	err := input.Join(
		input.Positive("water", float64(h.Water.Mass), "g"),
		input.Positive("heater", float64(h.Heater), "W"),
		input.NotNegative("loss", float64(h.Loss), "W/K"),
		unset, cmp.Or(input.Set("to", h.To), input.As("to", noWarm)), checkRoom(h.Room, h.Loss),
		checkEvaporation(h.Evaporation, max(h.To.Celsius(), h.Water.Temperature().Celsius())))
	if err != nil {
		return HeatPlan{}, err
	}
	evaporating := latent(h.Evaporation, h.Water.Sample, warm)
	b := balance{
		capacity: capacity(h.Water, warm), loss: float64(h.Loss), room: h.Room.Celsius(),
		gain: float64(h.Heater - evaporating),
	}
	from, to := h.Water.Temperature().Celsius(), h.To.Celsius()
	p := HeatPlan{
		Cautions: h.cautions(),
		Hold:     units.Power(math.Max(0, float64(evaporating)+b.lost(to))),
	}
	if h.Loss > 0 {
		p.Limit = units.Celsius(b.ends())
	}
	if !(p.Hold < h.Heater) {
		return HeatPlan{}, h.tooWeak(b, p.Hold)
	}
	if to <= from {
		return p, nil
	}
	seconds := b.time(from, to)
	if !(seconds < math.MaxInt64/1e9) {
		return HeatPlan{}, input.Bad("heater", h.Heater.String(), "more power: this takes centuries")
	}
	p.Time = time.Duration(seconds * 1e9)
	p.Energy = units.Energy(float64(h.Heater) * seconds)
	return p, nil
}

// tooWeak names the limit of the heater and the power that it would take.
func (h Heating) tooWeak(b balance, needed units.Power) error {
	power := "a heater of more than " + input.Fixed(needed.Watts(), 0) + " W"
	if !(b.loss > 0) {
		return input.Bad("heater", h.Heater.String(), power+", which evaporation takes alone")
	}
	return input.Bad("to", h.To.String(), "below "+input.Fixed(b.ends(), 1)+" °C, the most that "+h.Heater.String()+
		" reach in this room: take "+power+" or insulate")
}

func (h Heating) cautions() []advice.Caution {
	warmer := h.To
	if t := h.Water.Temperature(); t.Celsius() > warmer.Celsius() {
		warmer = t
	}
	return append([]advice.Caution{heaterDry, mainsNearWater}, hotCautions(warmer, h.Water.Sample)...)
}

// balance is the heat of a well stirred water: C dT/dt = G - U (T - T_room).
type balance struct {
	capacity, loss, gain, room float64 // J/K, W/K, W, °C
}

// lost returns what passes through the walls at a temperature, in W.
func (b balance) lost(t float64) float64 {
	if !(b.loss > 0) {
		return 0
	}
	return b.loss * (t - b.room)
}

// ends returns the temperature that the water comes to rest at, in °C; without a
// loss there is none, and it is infinite.
func (b balance) ends() float64 {
	if !(b.loss > 0) {
		return math.Inf(cmp.Compare(b.gain, 0))
	}
	return b.room + b.gain/b.loss
}

// time returns the seconds from one temperature to another on its way to rest.
func (b balance) time(from, to float64) float64 {
	if !(b.loss > 0) {
		return b.capacity * (to - from) / b.gain
	}
	return b.capacity / b.loss * math.Log((b.ends()-from)/(b.ends()-to))
}

// after returns the temperature after so many seconds.
func (b balance) after(from, seconds float64) float64 {
	if !(b.loss > 0) {
		return from + b.gain*seconds/b.capacity
	}
	return from - (b.ends()-from)*math.Expm1(-b.loss*seconds/b.capacity)
}

// capacity returns the heat capacity of a water between two temperatures, in J/K: the
// heat that it takes up on the way, per kelvin.
func capacity(from seawater.Portion, to seawater.Sample) float64 {
	perKilogram := (float64(from.HeatCapacity()) + float64(to.HeatCapacity())) / 2
	const near = 0.1 // K, where the difference of enthalpies would lose digits and the mean has them all
	if d := float64(to.Temperature().Sub(from.Temperature())); math.Abs(d) > near {
		perKilogram = (to.Enthalpy() - from.Enthalpy()) / d
	}
	return perKilogram * from.Mass.Kilograms()
}

// latent returns the heat that a known evaporation takes, midway between two
// temperatures: the flow is counted as cool fresh water.
func latent(evaporation units.Flow, from, to seawater.Sample) units.Power {
	if evaporation == 0 {
		return 0
	}
	const kilogramsPerLitre = 0.998 // water of 20 °C, as it is poured after
	heat := (from.EvaporationHeat() + to.EvaporationHeat()) / 2
	return units.Power(evaporation.LitresPerHour() * kilogramsPerLitre / 3600 * heat)
}

// checkEvaporation refuses an evaporation that is none, and any of hot water, whose
// heat is not known here.
func checkEvaporation(evaporation units.Flow, warmest float64) error {
	if evaporation > 0 && warmest > 40 {
		return input.Bad("evaporation", evaporation.String(), "none: its heat is known up to 40 °C")
	}
	return input.NotNegative("evaporation", float64(evaporation), "L/h")
}

// checkRoom refuses a room that nobody set, if it matters, and one where nobody is.
func checkRoom(room units.Temperature, loss units.ThermalConductance) error {
	if !(loss > 0) {
		return nil
	}
	if err := input.Set("room", room); err != nil {
		return err
	}
	if !(math.Abs(room.Celsius()) <= 60) {
		return input.Bad("room", room.String(), "-60 to 60 °C")
	}
	return nil
}
