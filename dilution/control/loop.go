package control

import (
	"math"
	"time"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

// TwoPoint is a contact with hysteresis: it turns on at or beyond On and off at or beyond Off, and
// between them stays as it is. With Off above On it heats, with Off below On it cools.
type TwoPoint struct {
	On, Off       float64       // in the unit of the channel
	MinOn, MinOff time.Duration // a compressor wants minutes, a relay seconds

	tick    ticker
	on      bool
	since   time.Duration // in this state
	started bool
}

// Step decides. Unless may is true and the reading good it is off at once, whatever MinOn
// says; after a start, MinOff has to pass first. Longest is the longest time between two
// steps that is no gap: after one it is off.
func (p *TwoPoint) Step(now Clock, x Reading, may bool, longest time.Duration) (on bool) {
	s := p.tick.step(now, longest)
	p.since = min(p.since+s.credit, 366*day)
	if !may || s.odd || !x.good() || !(p.On != p.Off) || !finite(p.On) || !finite(p.Off) {
		if p.on || !p.started {
			p.on, p.started, p.since = false, true, 0
		}
		return false
	}
	sign := 1.0
	if p.Off < p.On {
		sign = -1
	}
	p.started = true
	switch {
	case p.on && sign*(x.Value-p.Off) >= 0 && p.since >= p.MinOn,
		!p.on && sign*(x.Value-p.On) <= 0 && p.since >= p.MinOff:
		p.on, p.since = !p.on, 0
	}
	return p.on
}

// Ramp moves a set value no faster than the animals bear: PerHour for temperature is
// advice.TemperaturePerHour, for salinity a twenty-fourth of advice.SalinityPerDay.
type Ramp struct {
	PerHour float64 // above zero, in the unit of the channel

	value   float64
	started bool
}

// Toward moves the set value toward a goal for a time, from what is measured now if it has not
// started, and returns it. It is never farther than lead from what is measured, so that it
// does not run ahead of a heater that is too weak.
func (r *Ramp) Toward(goal, measured, lead float64, d time.Duration) float64 {
	if !finite(goal) || !finite(measured) || !(r.PerHour > 0) || !(lead >= 0) {
		r.started = false
		return math.NaN()
	}
	if !r.started {
		r.started, r.value = true, measured
	}
	step := r.PerHour * hours(max(d, 0))
	r.value += min(max(goal-r.value, -step), step)
	r.value = max(min(r.value, measured+lead), measured-lead)
	return r.value
}

// Reset lets the ramp begin anew at what is measured.
func (r *Ramp) Reset() { r.started = false }

// ThermostatSettings describe a heater, and a cooler if there is one.
type ThermostatSettings struct {
	Watchdog time.Duration

	Target units.Temperature
	Band   units.TemperatureDifference // the heater goes on half of it below the target and off half above
	Dead   units.TemperatureDifference // the cooler does so about a target that is so much higher; above Band
	Cooler bool                        // there is one

	MinOn, MinOff time.Duration
	PerHour       units.TemperatureDifference // the most that the water is led an hour

	// Most is where something is wrong: heater off, both relays open, until a person
	// acknowledges. Least raises an alarm.
	Least, Most units.Temperature

	// Response is how long the heater or the cooler may be on without the temperature having
	// followed by Notice, the least change that is surely none of noise: it is broken, the
	// probe is not in the water, or the room is too cold for it. Nor may the heater be on for
	// twice as long, or below Least for as long, without having brought the reading to where
	// it turns off: so long a probe out of the water can heat the tank, while the room warms.
	Response time.Duration
	Notice   units.TemperatureDifference
}

// UsualThermostat are settings of a reef of 25 °C: 0.3 K about it, led at the usual limit of
// advice.TemperaturePerHour, with limits of 22 and 28 °C. Common practice.
func UsualThermostat() ThermostatSettings {
	return ThermostatSettings{
		Watchdog: 10 * time.Second,
		Target:   units.Celsius(25), Band: 0.3, Dead: 1,
		MinOn: 30 * time.Second, MinOff: 3 * time.Minute,
		PerHour: advice.TemperaturePerHour,
		Least:   units.Celsius(22), Most: units.Celsius(28),
		Response: 2 * time.Hour, Notice: 0.1,
	}
}

// Check returns what is wrong with the settings.
func (s ThermostatSettings) Check() Refusal {
	band, target := float64(s.Band), celsius(s.Target)
	d := [...]demand{
		{SetWatchdog, s.Watchdog.Seconds(), quick, watchful},
		{SetTarget, target, 1, 35},
		{SetBand, band, 0.01, 5},
		{SetDead, float64(s.Dead), band * 1.01, 10},
		{SetMinOn, s.MinOn.Seconds(), 0, 900},
		{SetMinOff, s.MinOff.Seconds(), 0, 3600},
		{SetPerHour, float64(s.PerHour), 0.01, 10},
		{SetLeast, celsius(s.Least), 0.5, target - band},
		{SetMost, celsius(s.Most), target + band + float64(s.Dead), 40},
		{SetResponse, s.Response.Seconds(), 60 + s.MinOn.Seconds(), 86400},
		{SetNotice, float64(s.Notice), 0.001, 2},
	}
	return first(d[:])
}

// ThermostatInput is what the firmware knows at a step.
type ThermostatInput struct {
	Temperature Reading // °C

	// Covered is that heater and probe are surely under water that moves: the level is known
	// and high enough, and the return pump runs.
	Covered bool
}

// Heat is what to switch until the next step. Heater and Cooler are never both true.
type Heat struct {
	Heater, Cooler bool
	Enable         bool // close the second relay of the heater; open, the first may be stuck
	EnableCooler   bool // the same of the cooler: closed only while it cools and in water warmer than the target
	Save           bool // write the state now
}

// Thermostat holds a temperature. Make it with NewThermostat; its zero value is off.
type Thermostat struct {
	s    ThermostatSettings
	sane bool
	tick ticker

	alarms  Alarms
	ramp    Ramp
	state   int8          // 1 heats, -1 cools
	since   time.Duration // in this state
	from    float64       // °C at the begin of the response that is awaited
	awaited time.Duration
	tired   time.Duration // that the heater was on in vain, less a third of the time off
	written time.Duration // of it, as it was saved last
	blind   time.Duration // without a good reading
	trough  float64       // °C, what the room can have made of the least since the heater went off
	cooled  time.Duration
}

// onItsOwn is how many times of Notice the water may rise with the heater off, above the
// target and beyond what the room does, before it counts as heated by something else. A
// warm afternoon moves a tank by less than afternoon, K in an hour (common practice: 8 W/K
// of 200 L and ten kelvins are 0.35 W/L, 0.3 K in an hour at the begin and less later).
const (
	onItsOwn  = 10
	afternoon = 0.3
)

// patience is how many times Response the heater may be on in all, see there; an anew is how
// long a doubt lasts until the ramp begins at what is measured then; a quarter of an hour of
// heating is what a power cut may hide.
const (
	patience = 2
	anew     = 10 * time.Minute
	hidden   = 15 * time.Minute
)

// NewThermostat returns a thermostat that does not know what latched before: it does not heat
// until it is restored or a person acknowledges, nor before MinOff has passed.
func NewThermostat(s ThermostatSettings) (Thermostat, Refusal) {
	r := s.Check()
	t := Thermostat{s: s, sane: r.OK(), ramp: Ramp{PerHour: float64(s.PerHour)}, trough: math.NaN()}
	if !t.sane {
		t.alarms.raise(Refused, float64(r.Setting), 0)
		return t, r
	}
	t.alarms.raise(StateLost, 0, 0)
	t.alarms.begin(0) // its cause is over, and it latches
	return t, r
}

// Alarms returns its alarms.
func (t *Thermostat) Alarms() *Alarms { return &t.alarms }

// Acknowledge is a person's word that what raised the alarms has been looked at.
func (t *Thermostat) Acknowledge() {
	t.alarms.acknowledge()
	t.awaited, t.tired, t.trough = 0, 0, math.NaN()
	t.from = math.NaN()
}

// Step decides what heater and cooler do until the next step.
func (t *Thermostat) Step(now Clock, in ThermostatInput) Heat {
	if !t.sane {
		return Heat{}
	}
	p := t.tick.step(now, t.s.Watchdog)
	t.alarms.begin(p.credit)
	t.since = min(t.since+p.credit, 366*day)
	x := in.Temperature.Value
	known := in.Temperature.good()
	if p.odd {
		t.alarms.raise(ClockOdd, p.charge.Seconds(), t.s.Watchdog.Seconds())
	}
	t.tire(p)
	if !known {
		t.alarms.raise(TemperatureDoubtful, x, t.s.Target.Celsius())
		t.blind += p.credit
	} else {
		if t.blind >= anew {
			t.ramp.Reset()
		}
		t.blind = 0
		t.guard(x, p.credit)
	}
	if !in.Covered {
		t.alarms.raise(Uncovered, 0, 0)
	}
	t.alarms.end()
	wanted := int8(0)
	if known && !p.odd {
		wanted = t.wanted(x, p.credit)
		if wanted > 0 && !t.mayHeat(in) || wanted < 0 && !t.mayCool() {
			wanted = 0
		}
	}
	t.turn(wanted, x, known && !p.odd && (t.state <= 0 || t.mayHeat(in)))
	out := Heat{Heater: t.state > 0, Cooler: t.state < 0}
	out.Enable = known && !p.odd && t.mayHeat(in)
	out.EnableCooler = t.state < 0 || t.s.Cooler && known && !p.odd && t.mayCool() && x >= t.s.Target.Celsius()
	out.Save = t.save()
	return out
}

// tire counts how long the heater is on in vain.
func (t *Thermostat) tire(p span) {
	if t.state > 0 {
		t.tired = min(t.tired+p.charge, 366*day)
	} else {
		t.tired = max(t.tired-p.credit/3, 0) // doubts may break off every run of a sound heater
	}
}

// save tells whether the state has to be written.
func (t *Thermostat) save() bool {
	save := t.alarms.save() || t.tired >= t.written+hidden
	if save || t.tired < t.written {
		t.written = t.tired
	}
	return save
}

func (t *Thermostat) mayHeat(in ThermostatInput) bool {
	for _, c := range [...]Code{StateLost, TooWarm, NoEffect, OnItsOwn} {
		if t.alarms.Has(c) {
			return false
		}
	}
	return in.Covered
}

// mayCool: a cooler hurts nobody in water that is too warm.
func (t *Thermostat) mayCool() bool { return !t.alarms.Has(NoEffect) }

// wanted is what hysteresis about the led target asks for.
func (t *Thermostat) wanted(x float64, credit time.Duration) int8 {
	half := float64(t.s.Band) / 2
	dead, lead := float64(t.s.Dead), 2*half
	if x > t.s.Target.Celsius() {
		lead += dead
	}
	led := t.ramp.Toward(t.s.Target.Celsius(), x, lead, credit)
	switch {
	case t.state > 0 && x < led+half, t.state <= 0 && x <= led-half:
		return 1
	case !t.s.Cooler:
		return 0
	case t.state < 0 && x > led+dead-half, t.state >= 0 && x >= led+dead+half:
		return -1
	}
	return 0
}

// turn changes the state, in its own time unless it must be off: MinOn heats nothing above
// the band.
func (t *Thermostat) turn(wanted int8, x float64, may bool) {
	if beyond := x - t.s.Target.Celsius(); t.state > 0 && wanted <= 0 && beyond > float64(t.s.Band) {
		may, t.tired = false, 0
	}
	switch {
	case t.state != 0 && !may,
		t.state != 0 && wanted != t.state && t.since >= t.s.MinOn:
		if t.state > 0 && may {
			t.tired = 0 // the reading has come to where it turns off
		}
		t.state, t.since, t.trough, t.cooled = 0, 0, math.NaN(), 0
	case t.state == 0 && wanted != 0 && t.since >= t.s.MinOff:
		t.state, t.since, t.from, t.awaited = wanted, 0, x, 0
	}
}

// guard holds the temperature against its limits and what heater and cooler do.
func (t *Thermostat) guard(x float64, credit time.Duration) {
	if most := t.s.Most.Celsius(); x > most {
		t.alarms.raise(TooWarm, x, most)
	}
	if least := t.s.Least.Celsius(); x < least {
		t.alarms.raise(TooCold, x, least)
	}
	notice := float64(t.s.Notice)
	if t.state != 0 {
		t.awaited += credit
		if !finite(t.from) {
			t.from = x
		}
		if gained := (x - t.from) * float64(t.state); gained >= notice {
			t.from, t.awaited = x, 0
		} else if t.awaited > t.s.Response {
			t.alarms.raise(NoEffect, gained, notice)
		}
		most := patience * t.s.Response
		if x < t.s.Least.Celsius() {
			most = t.s.Response
		}
		if t.state > 0 && t.tired > most {
			t.alarms.raise(NoEffect, x-t.s.Target.Celsius(), -float64(t.s.Band))
		}
		return
	}
	// What the heater has still to give off is over after MinOff at the latest.
	if t.cooled += credit; t.cooled < t.s.MinOff {
		return
	}
	t.trough += afternoon * hours(credit)
	if !(t.trough <= x) {
		t.trough = x
	}
	above := t.s.Target.Celsius() + float64(t.s.Band)
	if rise := x - t.trough; rise > onItsOwn*notice && x > above {
		t.alarms.raise(OnItsOwn, rise, onItsOwn*notice)
	}
}

// Save writes what has to outlast a power cut: the alarms, and how long it has heated in vain.
func (t *Thermostat) Save(b *[ThermostatState]byte) {
	c := create(b[:], stateOfThermostat)
	t.fields(&c)
	c.seal(b[:])
}

func (t *Thermostat) fields(c *coder) {
	cooler := 0.0
	if t.s.Cooler {
		cooler = 1
	}
	c.identity(celsius(t.s.Least), celsius(t.s.Most), cooler)
	c.alarms(&t.alarms)
	c.duration(&t.tired)
}

// Restore takes a state that Save wrote and tells whether it was one. A state that is
// refused changes nothing.
func (t *Thermostat) Restore(b *[ThermostatState]byte) bool {
	next := *t
	c := open(b[:], stateOfThermostat)
	next.fields(&c)
	if c.failed || !t.sane {
		return false
	}
	next.alarms.unsaved, next.alarms.acked = false, false
	next.tick, next.state, next.since, next.written = ticker{}, 0, 0, next.tired
	*t = next
	return true
}
