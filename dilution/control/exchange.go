package control

import (
	"math"
	"time"

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// ExchangeSettings describe a change of water by two pumps, one that draws and one that
// fills, on two motors or matched on one. The top-off holds meanwhile, see TopOffInput.Hold.
type ExchangeSettings struct {
	Watchdog time.Duration

	Tank        units.Volume
	Salinity    units.PracticalSalinity // of the tank
	NewSalinity units.PracticalSalinity // of the new water
	Temperature units.Temperature       // of both

	Swap                          units.Volume
	Out, In                       units.Flow // measured; equal if Matched
	OutUncertainty, InUncertainty units.Flow // standard; of matched pumps those against each other
	Matched                       bool       // on one motor: both run, or none

	MostImbalance units.Volume // more in than out, or less, by the level, until both stop
	Area          units.Area   // of the water where the level is seen; 0 without a level
	Notice        units.Length // the least change of level that is surely none of waves and noise
	SecondRelay   bool         // a second relay in series with both, closed only while Pumps.Enable says so
}

// Check returns what is wrong with the settings.
func (s ExchangeSettings) Check() Refusal {
	watchdog := s.Watchdog.Seconds()
	out, in := s.Out.LitresPerHour(), s.In.LitresPerHour()
	fastest := max(out, in) * watchdog / 3600
	area := s.Area.SquareMetres()
	least := 2*fastest + 2*litresOf(s.Notice, s.Area)
	leastIn, mostIn := little, much
	if s.Matched { // on one motor the swap ends for both at once
		leastIn, mostIn = out*(1-1e-9), out*(1+1e-9)
	}
	leastNotice := 0.0
	if s.Area > 0 {
		leastNotice = 0.01
	}
	d := [...]demand{
		{SetWatchdog, watchdog, quick, watchful},
		{SetTank, s.Tank.Litres(), 1, much},
		{SetSalinity, s.Salinity.Value(), 1, 42},
		{SetNewSalinity, s.NewSalinity.Value(), 1, 42},
		{SetTemperature, celsius(s.Temperature), 1, 40},
		{SetSwap, s.Swap.Litres(), little, s.Tank.Litres() * 0.9},
		{SetOut, out, little, much},
		{SetIn, in, leastIn, mostIn},
		{SetOutUncertainty, s.OutUncertainty.LitresPerHour(), 0, out / 2},
		{SetInUncertainty, s.InUncertainty.LitresPerHour(), 0, in / 2},
		{SetArea, area, 0, 1e4},
		{SetNotice, s.Notice.Millimetres(), leastNotice, 1000},
		{SetMostImbalance, s.MostImbalance.Litres(), least, s.Tank.Litres() * 0.5},
	}
	return first(d[:])
}

// Imbalance returns the most that may have come more in than out, or less, when a change
// has ended or was stopped: by the flows with two standard uncertainties, by the level if
// one is seen, and by a step of the watchdog.
func (s ExchangeSettings) Imbalance() units.Volume {
	if !s.Check().OK() {
		return units.Volume(math.NaN())
	}
	// Not the root of squares: two pumps measured in one cup share its error, with either sign.
	relative := 2 * (s.OutUncertainty/s.Out + s.InUncertainty/s.In)
	late := 2 * max(s.Out, s.In).Volume(s.Watchdog)
	counted := s.Swap*units.Volume(relative) + late
	if s.Area > 0 {
		return min(counted, s.seen())
	}
	return counted
}

// seen is the imbalance at which the level stops both pumps, whatever they do: one may
// stand still or the other run at twice its flow.
func (s ExchangeSettings) seen() units.Volume {
	return s.MostImbalance + units.Volume(litresOf(s.Notice, s.Area)) + 2*max(s.Out, s.In).Volume(s.Watchdog)
}

// StuckOn returns the most that comes more in than out, or less, if a pump does not stop
// when it is told to, be it within a change or at its end: with a second relay and a level
// until that is seen to move. Without either it is the whole tank.
func (s ExchangeSettings) StuckOn() units.Volume {
	switch {
	case !s.Check().OK():
		return units.Volume(math.NaN())
	case s.SecondRelay && s.Area > 0:
		return s.seen() + 2*units.Volume(litresOf(s.Notice, s.Area)) + 2*max(s.Out, s.In).Volume(s.Watchdog)
	}
	return s.Tank
}

// Salinities returns between what the salinity of the tank ends when the level has been set
// right again by the top-off or by evaporation, and what it is without any imbalance. A
// change as such does not move the salinity where the new water has that of the tank; an
// imbalance does, because a level that fell is filled with fresh water and one that rose
// evaporates.
//
//	symbol   S = (S0 (V - v) + S1 (v ± i))/V, by mass: seawater.Blend
//
// Broken is the same with a pump that stands still from the beginning, found by the level;
// without a level nothing finds it, and all of the swap is the imbalance.
func (s ExchangeSettings) Salinities(broken bool) (low, planned, high units.PracticalSalinity) {
	i := s.Imbalance()
	switch {
	case broken && s.Area > 0:
		i = s.seen()
	case broken:
		i = s.Swap
	}
	more := min(s.Swap+i, s.Tank)
	a, b := s.end(s.Swap, s.Swap-i).Value(), s.end(more, s.Swap).Value() // less in, or more out
	c, d := s.end(s.Swap, more).Value(), s.end(s.Swap-i, s.Swap).Value() // more in, or less out
	return units.Practical(min(a, b)), s.end(s.Swap, s.Swap), units.Practical(max(c, d))
}

// end returns the salinity after drawing and filling and setting the level right.
func (s ExchangeSettings) end(out, in units.Volume) units.PracticalSalinity {
	nan := units.Practical(math.NaN())
	tank, err := seawater.FromPractical(s.Salinity, s.Temperature)
	fresh, err2 := seawater.FromPractical(s.NewSalinity, s.Temperature)
	pure, err3 := seawater.PureWater(s.Temperature)
	if err != nil || err2 != nil || err3 != nil || !(in >= -s.Tank) {
		return nan
	}
	mixed := seawater.Blend(tank.OfVolume(s.Tank-out), fresh.OfVolume(max(in, 0)))
	missing := s.Tank - mixed.Volume()
	left := mixed.Mass + pure.OfVolume(missing).Mass
	end, err := seawater.FromAbsolute(units.Absolute(float64(mixed.Salt()/left)*1000), s.Temperature)
	if err != nil {
		return nan
	}
	return end.Practical()
}

// ExchangeInput is what the firmware knows at a step.
type ExchangeInput struct {
	Level    Reading // mm, where Area is seen
	High     Switch  // trips when the tank is too full
	NewWater Switch  // trips when there is none left
	Drain    Switch  // trips when the drain or its bucket is full
	Leak     Switch
}

// Pumps is what to switch until the next step, and no longer than For.
type Pumps struct {
	Out, In bool
	For     time.Duration
	Enable  bool // close the second relay: while a change runs, and after it until the level is seen to stand
	Done    bool // the change has come to its end
	Save    bool // write the state now, and before the pumps are switched on
}

// Exchange changes water. Make it with NewExchange; it runs when Begin was called, and once.
type Exchange struct {
	s    ExchangeSettings
	sane bool
	tick ticker

	alarms    Alarms
	running   bool
	out, in   float64 // L by count
	level     float64 // mm at the begin
	levelSet  bool
	drawing   bool
	filling   bool
	lasted    time.Duration
	completed bool
	after     time.Duration // since the end, while the level is watched
	watching  bool
}

// NewExchange returns a change that has not begun and does not know whether one was cut short:
// it waits for Restore, or for a person to Acknowledge.
func NewExchange(s ExchangeSettings) (Exchange, Refusal) {
	r := s.Check()
	x := Exchange{s: s, sane: r.OK()}
	if !x.sane {
		x.alarms.raise(Refused, float64(r.Setting), 0)
		return x, r
	}
	x.alarms.raise(StateLost, 0, 0)
	x.alarms.begin(0) // its cause is over, and it latches
	return x, r
}

// Alarms returns its alarms.
func (x *Exchange) Alarms() *Alarms { return &x.alarms }

// Begin starts a change from nothing. It does nothing while one runs or an alarm stands.
func (x *Exchange) Begin() {
	if x.sane && !x.running && (x.alarms.Len() == 0 || x.alarms.acked) {
		x.running, x.completed, x.out, x.in, x.lasted, x.levelSet = true, false, 0, 0, 0, false
		x.watching = false
	}
}

// Stop ends a change; what was moved stays in Moved.
func (x *Exchange) Stop() {
	if x.running {
		x.running, x.watching, x.after, x.levelSet, x.alarms.unsaved = false, x.s.Area > 0, 0, false, true
	}
}

// Acknowledge is a person's word that the tank has been looked at and its level set right.
func (x *Exchange) Acknowledge() { x.alarms.acknowledge() }

// Moved returns what was drawn and filled, by count.
func (x *Exchange) Moved() (out, in units.Volume) { return units.Volume(x.out), units.Volume(x.in) }

// Step decides what both pumps do until the next step.
func (x *Exchange) Step(now Clock, in ExchangeInput) Pumps {
	if !x.sane {
		return Pumps{}
	}
	p := x.tick.step(now, x.s.Watchdog)
	x.alarms.begin(p.credit)
	ran := x.drawing || x.filling
	if x.drawing {
		x.out += x.s.Out.Volume(p.charge).Litres()
	}
	if x.filling {
		x.in += x.s.In.Volume(p.charge).Litres()
	}
	if p.odd {
		x.alarms.raise(ClockOdd, p.charge.Seconds(), x.s.Watchdog.Seconds())
	}
	x.guardSwitches(in)
	switch {
	case x.running:
		x.lasted += p.credit
		x.guard(in)
	case x.watching:
		x.guardEnd(in, p.credit)
	}
	x.drawing, x.filling = false, false
	quiet := x.alarms.end()
	if x.running && quiet {
		x.choose()
	} else if x.running && x.latched() {
		x.Stop()
		x.watching = false
	}
	on := x.drawing || x.filling
	out := Pumps{Out: x.drawing, In: x.filling, Done: x.completed, Save: x.alarms.save() || ran != on}
	out.Enable = quiet && (x.running || x.watching)
	if on {
		out.For = x.s.Watchdog
	}
	return out
}

// latched tells that an alarm stands that a person has to acknowledge.
func (x *Exchange) latched() bool {
	for i := range x.alarms.Len() {
		if x.alarms.At(i).Latched {
			return true
		}
	}
	return false
}

// choose runs both pumps, and lets the one that is ahead by more than a step of the other
// wait, unless they are on one motor.
func (x *Exchange) choose() {
	swap := x.s.Swap.Litres()
	x.drawing, x.filling = x.out < swap, x.in < swap
	if x.s.Matched {
		both := x.drawing && x.filling
		x.drawing, x.filling = both, both
	} else if step := max(x.s.Out, x.s.In).Volume(x.s.Watchdog).Litres() / 2; x.drawing && x.filling {
		x.drawing, x.filling = x.out-x.in <= step, x.in-x.out <= step
	}
	if !x.drawing && !x.filling {
		x.Stop()
		x.completed = true
	}
}

// guardSwitches looks at the switches that are looked at always, whether a change runs or not.
func (x *Exchange) guardSwitches(in ExchangeInput) {
	if !in.High.clear() {
		x.alarms.raise(HighLevel, in.Level.Value, 0)
	}
	if !in.Leak.clear() {
		x.alarms.raise(Leak, 0, 0)
	}
}

// guardEnd watches the level after a change for as long as a pump that did not stop needs to
// move it by twice the notice, and a while for the waves. The hold of a top-off has to last
// as long: until Pumps.Enable is false.
func (x *Exchange) guardEnd(in ExchangeInput, credit time.Duration) {
	if !in.Level.good() {
		x.alarms.raise(LevelDoubtful, in.Level.Value, 0)
		return
	}
	if !x.levelSet {
		x.level, x.levelSet = in.Level.Value, true
	}
	twice := 2 * litresOf(x.s.Notice, x.s.Area)
	if off := x.off(in.Level.Value); math.Abs(off) > twice {
		x.alarms.raise(Imbalance, off, twice)
	}
	slower := min(x.s.Out, x.s.In)
	if x.after += credit; x.after > settleTime+2*slower.Time(units.Volume(twice)) {
		x.watching = false
	}
}

// off returns the litres by which a level is off that at the begin.
func (x *Exchange) off(level float64) float64 {
	return litresOf(units.Length(level-x.level)*units.Millimetre, x.s.Area)
}

// guard stops a change that goes wrong.
func (x *Exchange) guard(in ExchangeInput) {
	if !in.NewWater.clear() {
		x.alarms.raise(NoNewWater, 0, 0)
	}
	if !in.Drain.clear() {
		x.alarms.raise(DrainFull, 0, 0)
	}
	// Four times of what the slower pump takes is no delay any more.
	longest := 4 * (x.s.Out.Time(x.s.Swap) + x.s.In.Time(x.s.Swap))
	if x.lasted > longest+time.Hour {
		x.alarms.raise(TooLong, x.lasted.Seconds(), longest.Seconds())
	}
	if x.s.Area == 0 {
		return
	}
	if !in.Level.good() {
		x.alarms.raise(LevelDoubtful, in.Level.Value, 0)
		return
	}
	if !x.levelSet {
		x.level, x.levelSet = in.Level.Value, true
	}
	most := x.s.MostImbalance.Litres()
	if off := x.off(in.Level.Value); !(math.Abs(off) <= most) {
		x.alarms.raise(Imbalance, off, most)
	}
}

// Save writes what has to outlast a power cut.
func (x *Exchange) Save(b *[ExchangeState]byte) {
	c := create(b[:], stateOfExchange)
	x.fields(&c)
	c.seal(b[:])
}

// Restore takes a state that Save wrote and tells whether it was one. A change that ran is
// not taken up again: it latches ChangeInterrupted with the imbalance by count, for a
// person to look at the level. A state that is refused changes nothing.
func (x *Exchange) Restore(b *[ExchangeState]byte) bool {
	next := *x
	c := open(b[:], stateOfExchange)
	next.fields(&c)
	if c.failed || !x.sane {
		return false
	}
	next.alarms.unsaved, next.alarms.acked = false, false
	if next.running {
		next.running = false
		next.alarms.raise(ChangeInterrupted, next.in-next.out, 0)
		next.alarms.begin(0) // its cause is over, and it latches
	}
	next.watching = false
	next.tick, next.drawing, next.filling = ticker{}, false, false
	*x = next
	return true
}

func (x *Exchange) fields(c *coder) {
	c.identity(x.s.Tank.Litres(), x.s.Out.LitresPerHour(), x.s.In.LitresPerHour())
	c.alarms(&x.alarms)
	c.flag(&x.running)
	c.amount(&x.out)
	c.amount(&x.in)
	c.duration(&x.lasted)
}
