package control

import (
	"math"
	"time"
)

// Channel describes one sensor in the water it measures. All numbers are in the unit of
// the channel, which the caller chooses: °C, mS/cm, practical salinity, mm of level, pH.
type Channel struct {
	Min, Max float64 // what the water can be: outside is a broken sensor

	// PerHour is the most that the water can change in an hour. A heater of 300 W moves
	// 200 L by 1.3 K an hour; three times of what the strongest device does is usual.
	PerHour float64
	Noise   float64 // standard deviation of readings of a steady water
	Step    float64 // the last digit of the meter

	Spike  time.Duration // a jump that lasts longer is no disturbance: it counts until Accept
	Settle time.Duration // readings after a start or a gap are suspect for so long
	Gap    time.Duration // a reading that is older is none

	// Still is how long a living sensor can show the same digits, see StillTime; 0 if it
	// cannot be told.
	Still time.Duration

	Calibrate time.Duration // time between calibrations; 0 for a sensor without
}

// Check returns what is wrong with the settings.
func (c Channel) Check() Refusal {
	d := [...]demand{
		{SetMin, c.Min, -much, much},
		{SetMax, c.Max, c.Min, much},
		{SetPerHour, c.PerHour, 0, much},
		{SetNoise, c.Noise, 0, much},
		{SetStep, c.Step, 0, much},
		{SetSpike, c.Spike.Seconds(), 0, longest},
		{SetSettle, c.Settle.Seconds(), 0, longest},
		{SetGap, c.Gap.Seconds(), quick, longest},
		{SetStill, c.Still.Seconds(), 0, longest},
		{SetCalibrate, c.Calibrate.Seconds(), 0, 10 * longest},
	}
	return first(d[:])
}

// StillTime returns how long a living sensor can show the same digits, so that one that
// shows them longer is stuck: in all but one of 10¹⁰ such times, a false alarm in centuries,
// the noise has moved the last digit, or the water itself has moved it by two, whichever
// comes first.
//
//	symbol   p = erf(q/(2√2 σ)), n = ln 10⁻¹⁰/ln p readings; 2 q/r
//	source   normal noise about the middle of a digit, the worst place
//	units    step q and noise σ of the channel, moves r of the channel an hour
//
// Every is the time between readings that do not depend on each other: no less than the
// sensor's own time constant. Moves is the least that the water always moves, up or down,
// as by the hysteresis of a heater; 0 if it may stand still. A coarse meter in a steady
// water may be still for good: then the result is 0, which is never.
func StillTime(step, noise float64, every time.Duration, moves float64) time.Duration {
	const never = 366 * day
	if !(step > 0 && noise >= 0 && moves >= 0 && every > 0) {
		return 0
	}
	best := math.Inf(1) // s
	if p := math.Erf(step / (2 * math.Sqrt2 * noise)); p < 1 && noise > 0 {
		best = max(1, math.Log(1e-10)/math.Log(p)) * every.Seconds()
	}
	if moves > 0 {
		best = min(best, 2*step/moves*3600)
	}
	if !(best < never.Seconds()) {
		return 0
	}
	return time.Duration(best * float64(time.Second))
}

// Signal judges the samples of one sensor. Make it with NewSignal.
type Signal struct {
	c     Channel
	sane  bool
	noise float64 // standard deviation with the rounding to a step; a square root is slow without a floating-point unit
	free  float64 // what two readings may differ by noise alone
	tick  ticker

	last     Reading       // as it was returned
	accepted float64       // the last value that water can have come to
	running  bool          // there is one
	marks    [2]mark       // accepted some minutes ago, the older first: what PerHour counts from
	newRow   bool          // the next reading is the first after a gap: its distance is no noise
	settled  time.Duration // since the first of a row
	silent   time.Duration // without an answer that can be
	unheard  time.Duration // of it before a jump
	jumping  bool          // the last answers are farther off than water goes
	strange  time.Duration // for how long
	moved    bool          // it lasted
	anchor   float64       // the digits shown
	still    time.Duration // for how long

	variance float64 // of successive differences, halved
	counted  uint8   // differences in it, up to enough
	age      time.Duration
	saved    float64 // accepted, as it was written last
	unsaved  bool
}

// mark is a value that was accepted, and how old it is.
type mark struct {
	value float64
	age   time.Duration
}

// NewSignal returns a signal of a channel. One of settings that are refused is always bad.
func NewSignal(c Channel) (Signal, Refusal) {
	r := c.Check()
	noise := math.Sqrt(float64(c.Noise*c.Noise) + float64(c.Step*c.Step)*uniform)
	return Signal{c: c, sane: r.OK(), noise: noise, free: sigmas * math.Sqrt2 * noise}, r
}

// How noise is watched, common practice: a mean over some 32 differences, four times the
// usual; a jump is six standard deviations of a difference beyond what water does, since the
// reading before and since a mark that is one to two times marking old: a reading that
// creeps away a little at each of many samples is as far from its mark as one that jumps.
// After a power cut of unknown length water has gone on for an outage.
const (
	enough  = 32
	grown   = 4
	sigmas  = 6
	uniform = 1. / 12 // variance of rounding to a whole step
	marking = 5 * time.Minute
	outage  = time.Hour
)

// Judge takes a sample and returns what is known now. Call it at every turn, also when the
// sensor gave no answer.
func (g *Signal) Judge(now Clock, s Sample) Reading {
	if !g.sane {
		return Reading{Reason: Unset}
	}
	d := g.tick.forward(now)
	g.age += d
	for i := range g.marks {
		g.marks[i].age = min(g.marks[i].age+d, 366*day)
	}
	g.last = g.judge(d, s)
	return g.last
}

func (g *Signal) judge(d time.Duration, s Sample) Reading {
	x := s.Value
	silent := g.silent + d
	if !s.OK || !(x >= g.c.Min && x <= g.c.Max) {
		return g.missing(silent, s)
	}
	g.silent = 0
	if silent > g.c.Gap {
		g.settled, g.still, g.counted, g.newRow = 0, 0, 0, true
	}
	if !g.running {
		g.running, g.accepted, g.anchor, g.still = true, x, x, 0
		g.marks = [2]mark{{x, 0}, {x, 0}}
		g.counted, g.variance, g.unsaved = 0, 0, true
		return g.verdict(x)
	}
	free := g.c.PerHour * hours(g.unheard+silent+g.strange)
	slow := g.c.PerHour * hours(g.marks[0].age)
	if g.moved || math.Abs(x-g.accepted) > free+g.free || math.Abs(x-g.marks[0].value) > slow+g.free {
		return g.jump(x, d, silent)
	}
	if !g.jumping { // what lay between the jump and now was not watched
		g.settled += d
	}
	g.watch(x, silent)
	g.accepted, g.jumping, g.strange, g.unheard = x, false, 0, 0
	if g.marks[1].age >= marking {
		g.marks = [2]mark{g.marks[1], {x, 0}}
	}
	if v := g.verdict(x); v.Quality != Good {
		return v
	}
	if most := grown*g.noise + float64(g.c.PerHour*hours(silent)); g.counted >= enough && g.variance > float64(most*most) {
		return Reading{x, Suspect, Noisy}
	}
	return Reading{Value: x, Quality: Good}
}

// jump counts how long readings are farther off than water goes. Up to the first of them the
// water could go on for as long as there was no answer.
func (g *Signal) jump(x float64, d, silent time.Duration) Reading {
	if g.jumping {
		g.strange += d
	} else {
		g.jumping, g.unheard = true, g.unheard+silent
	}
	if !g.moved && g.strange > g.c.Spike {
		g.moved, g.unsaved = true, true
	}
	if g.moved {
		return Reading{x, Suspect, Moved}
	}
	return Reading{x, Suspect, Jumped}
}

// watch follows the noise and the digits.
func (g *Signal) watch(x float64, d time.Duration) {
	if !g.newRow {
		half := float64((x-g.accepted)*(x-g.accepted)) / 2
		if g.counted < enough {
			g.counted++
		}
		g.variance += (half - g.variance) / float64(g.counted)
	}
	g.newRow = false
	if math.Abs(x-g.anchor) > g.c.Step/2 || g.noise == 0 && x != g.anchor {
		g.anchor, g.still = x, 0
	} else {
		g.still += d
	}
}

// verdict judges what does not depend on the noise.
func (g *Signal) verdict(x float64) Reading {
	switch {
	case g.moved:
		return Reading{x, Suspect, Moved}
	case g.settled < g.c.Settle:
		return Reading{x, Suspect, Settling}
	case g.c.Still > 0 && g.still >= g.c.Still:
		return Reading{x, Suspect, Stuck}
	case g.c.Calibrate > 0 && g.age >= g.c.Calibrate:
		return Reading{x, Suspect, Overdue}
	}
	return Reading{Value: x, Quality: Good}
}

// missing is what is known without an answer that can be.
func (g *Signal) missing(silent time.Duration, s Sample) Reading {
	g.silent = silent
	reason := Silent
	if s.OK {
		reason = OutOfRange
	}
	if silent > g.c.Gap || !g.running {
		g.settled, g.still, g.counted, g.newRow = 0, 0, 0, true
		return Reading{s.Value, Bad, reason}
	}
	if g.last.Quality == Good {
		return Reading{g.last.Value, Good, Held}
	}
	return Reading{g.last.Value, g.last.Quality, g.last.Reason}
}

// restart forgets all readings, but not that it moved.
func (g *Signal) restart() {
	g.running, g.jumping, g.settled, g.strange, g.unheard, g.still = false, false, 0, 0, 0, 0
	g.newRow = false
}

// Last returns the reading of the last call of Judge.
func (g *Signal) Last() Reading { return g.last }

// Accepted returns the last value that water can have come to, which a jump leaves as it
// was; NaN before the first.
func (g *Signal) Accepted() float64 {
	if !g.running {
		return math.NaN()
	}
	return g.accepted
}

// Accept says that a person has looked at the sensor and takes a jump that lasted for
// what the water does: the readings begin anew.
func (g *Signal) Accept() {
	g.moved, g.unsaved = false, true
	g.restart()
}

// Unsaved tells that the state has to be written: a jump that lasts or was accepted, a
// calibration, or a value that has gone by a quarter of PerHour since it was written last.
func (g *Signal) Unsaved() bool {
	return g.unsaved || g.running && math.Abs(g.accepted-g.saved) > g.c.PerHour/4+g.free
}

// Calibrated says that the sensor was calibrated now. Its readings begin anew.
func (g *Signal) Calibrated() {
	g.age = 0
	g.Accept()
}

// Age returns the time since the last calibration.
func (g *Signal) Age() time.Duration { return g.age }

// InWater compares a conductivity with the temperature beside it. Air at a probe, or one
// that hangs out of the water, lets the conductivity fall and the temperature go to that of
// the room at once: if both are doubted and the conductivity is below half of what it was
// last when good, which Signal.Accepted tells, the reason of both is InAir. Salt that creeps or a bubble moves the
// conductivity alone: that is Jumped, or Drifted by a SaltBalance.
func InWater(conductivity, temperature Reading, lastGood float64) (c, t Reading) {
	if !conductivity.good() && !temperature.good() && conductivity.Value < lastGood/2 {
		conductivity.Reason, temperature.Reason = InAir, InAir
	}
	return conductivity, temperature
}

// Save writes what has to outlast a power cut: the age of the calibration, that a jump
// waits for Accept, and the last value that water can have come to. Write it hourly, and
// whenever Unsaved says so.
func (g *Signal) Save(b *[SignalState]byte) {
	c := create(b[:], stateOfSignal)
	g.fields(&c)
	c.seal(b[:])
	g.saved, g.unsaved = g.accepted, false
}

// Restore takes a state that Save wrote and tells whether it was one. A first reading that
// is farther from the saved one than water goes in an hour is a jump: a probe that hangs in
// air since is not believed, and after a long power cut a person has to Accept. A state
// that is refused changes nothing.
func (g *Signal) Restore(b *[SignalState]byte) bool {
	next := *g
	c := open(b[:], stateOfSignal)
	next.fields(&c)
	if c.failed || !next.sane || !finite(next.accepted) {
		return false
	}
	running := next.running
	next.restart()
	next.tick, next.silent, next.last = ticker{}, 0, Reading{}
	next.running, next.newRow, next.unheard = running, running, outage
	next.marks = [2]mark{{next.accepted, outage}, {next.accepted, outage}}
	next.anchor, next.counted, next.variance = next.accepted, 0, 0
	next.saved, next.unsaved = next.accepted, false
	*g = next
	return true
}

func (g *Signal) fields(c *coder) {
	c.identity(g.c.Min, g.c.Max, g.c.Step)
	c.duration(&g.age)
	c.flag(&g.moved)
	c.flag(&g.running)
	c.float(&g.accepted)
}
