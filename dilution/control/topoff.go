package control

import (
	"math"
	"time"

	"example.org/wellmixed/units"
)

// TopOffSettings describe a tank whose evaporation is replaced by a pump from a reservoir.
// Levels are heights above the level to hold, where the sensor says 0.
type TopOffSettings struct {
	Watchdog time.Duration // after which hardware turns the pump off if no step came

	Tank        units.Volume // net, for what fresh water does to the salinity
	Area        units.Area   // of the water where the level is held: 1 mm on 0.1 m² is 0.1 L
	Salinity    units.PracticalSalinity
	Temperature units.Temperature
	Headroom    units.Volume // above the level to hold until water runs over

	Reservoir       units.Volume // what it holds when full: the last bound of all
	Flow            units.Flow   // of the pump, measured: dilution.CalibratePump
	FlowUncertainty units.Flow   // standard; two of it are counted in every promise

	Band   units.Length  // the pump starts so far below 0 and stops at 0
	Notice units.Length  // the least change of level that is surely none of waves and noise
	MaxRun time.Duration // of the pump at a time
	DayCap units.Volume  // in any 24 h; what is learned of the evaporation lowers it

	Switched bool // the level comes from a switch, FromSwitch: a rise cannot be followed

	Second       units.Length // height of a second, independent level switch; 0 without
	SalinityBand float64      // practical, up and down from Salinity; 0 without a salinity guard

	// SalinityUncertainty is the standard uncertainty of its probe, practical; two of it are
	// counted in every promise.
	SalinityUncertainty float64

	EmptySwitch bool // the reservoir has a switch
	LeakSwitch  bool // there is a leak detector

	// PHMost is for a top-off of lime water: no pump at or above it, nor without a good reading
	// of the pH; 0 for fresh water. Tell the Interlock of its runs with Dosing(Lime), and Hold
	// while May(Lime) says no.
	PHMost float64

	// What is built in besides, for the worst case.
	Valve       units.Length // height at which a float valve in series shuts; 0 without
	SecondRelay bool         // a second relay in series, closed only while Decision.Enable says so
	AirGap      bool         // the outlet ends above any water: no siphon either way
}

// Check returns what is wrong with the settings: what is no number or out of all bounds,
// and what contradicts itself, such as a longest run that is too short to fill the band.
func (s TopOffSettings) Check() Refusal {
	flow, watchdog := s.Flow.LitresPerHour(), s.Watchdog.Seconds()
	band, notice := litresOf(s.Band, s.Area), s.Notice.Millimetres()
	leastBand, leastSecond, mostSecond := notice, 0.0, 0.0
	if s.Switched {
		leastBand = 0.01
	}
	if s.Second != 0 { // above what a late step brings, and below the rim
		leastSecond, mostSecond = notice+flow*watchdog/3600/s.Area.SquareMetres(), s.Headroom.Litres()/s.Area.SquareMetres()
	}
	d := [...]demand{
		{SetWatchdog, watchdog, quick, watchful},
		{SetTank, s.Tank.Litres(), 1, much},
		{SetArea, s.Area.SquareMetres(), 1e-4, 1e4},
		{SetSalinity, s.Salinity.Value(), 1, 42},
		{SetTemperature, celsius(s.Temperature), 1, 40},
		{SetHeadroom, s.Headroom.Litres(), 0, much},
		{SetReservoir, s.Reservoir.Litres(), little, much},
		{SetFlow, flow, little, much},
		{SetFlowUncertainty, s.FlowUncertainty.LitresPerHour(), 0, flow / 2},
		{SetNotice, notice, 0.01, 1000},
		{SetBand, s.Band.Millimetres(), leastBand, 1000}, // a run that fills it is seen to rise
		// A run fills the band within its time, with a step of the watchdog to spare, and the cap
		// lets it.
		{SetMaxRun, s.MaxRun.Seconds(), band/flow*3600 + 2*watchdog, 86400},
		{SetDayCap, s.DayCap.Litres(), band + flow*watchdog/3600*2, much},
		{SetSecond, s.Second.Millimetres(), leastSecond, mostSecond},
		{SetSalinityBand, s.SalinityBand, 0, s.Salinity.Value() / 3},
		{SetSalinityUncertainty, s.SalinityUncertainty, 0, max(s.SalinityBand, 0) / 2},
		{SetPHMost, s.PHMost, 0, 14},
		{SetValve, s.Valve.Millimetres(), 0, 1e5},
	}
	return first(d[:])
}

// celsius is NaN for a temperature that nobody set.
func celsius(t units.Temperature) float64 {
	if !t.IsSet() {
		return math.NaN()
	}
	return t.Celsius()
}

// litresOf returns the volume under a change of level: a mm on a m² is a litre.
func litresOf(h units.Length, a units.Area) float64 { return h.Millimetres() * a.SquareMetres() }

// FromSwitch makes a reading of the level from a switch that trips when the water is below
// it: 0 is the level to hold, and below it is taken for low enough to pump. Use it with
// TopOffSettings.Switched. A switch that says nothing makes a bad reading.
func (s TopOffSettings) FromSwitch(below Switch) Reading {
	switch below {
	case Clear:
		return Known(0)
	case Tripped:
		return Known(-s.Band.Millimetres())
	}
	return Reading{Reason: Silent}
}

// TopOffInput is what the firmware knows at a step.
type TopOffInput struct {
	Level    Reading // mm above the level to hold
	Second   Switch  // trips when the water is too high
	Empty    Switch  // trips when the reservoir is
	Leak     Switch  // trips when the floor is wet
	Salinity Reading // practical
	PH       Reading // of the tank, with lime water

	// Hold is that a person works at the tank, that water is changed, or that the return pump
	// stands, which moves the level: the pump is off, and the level is taken anew after it.
	Hold bool
}

// Decision is what to do until the next step, and no longer than For: firmware sets a timer
// of its own, so that a run ends in time however late the next step comes. For is zero if
// the pump is off.
type Decision struct {
	Pump   bool
	For    time.Duration
	Enable bool // close the second relay; open, the first may be stuck. Of a Doser: only while it doses
	Save   bool // write the state now, and before the pump is switched on
}

// TopOff replaces what evaporates. Make it with NewTopOff, restore it, and step it. Its
// zero value never pumps.
type TopOff struct {
	s    TopOffSettings
	sane bool
	tick ticker

	alarms  Alarms
	today   dayTotal
	learned evaporation
	left    float64 // L in the reservoir, by count; NaN if nobody said

	pumping bool
	ran     time.Duration // this run
	unseen  time.Duration // that the pump was on since the level was seen to rise, over all runs
	from    float64       // mm, the lowest level at which any of it began; NaN if none did
	held    bool          // reference is taken
	ref     float64       // mm, level after the pump stopped or the hold ended
	refAge  time.Duration
	calm    time.Duration // since the pump stopped or the hold ended
}

// settleTime is how long the level may go on moving when the pump has stopped: the hose
// empties, the waves die.
const settleTime = time.Minute

// noRise is how many times of TopOffSettings.Notice the pump has to have brought before a
// level that has not risen by one of them is no wave.
const noRise = 3

// NewTopOff returns a top-off that does not know what it has pumped today: it waits for
// Restore, or for a person to Acknowledge. One of settings that are refused never pumps.
func NewTopOff(s TopOffSettings) (TopOff, Refusal) {
	r := s.Check()
	t := TopOff{s: s, sane: r.OK(), left: math.NaN(), from: math.NaN()}
	if !t.sane {
		t.alarms.raise(Refused, float64(r.Setting), 0)
		return t, r
	}
	t.alarms.raise(StateLost, 0, 0)
	t.alarms.begin(0) // its cause is over, and it latches
	return t, r
}

// Alarms returns its alarms.
func (t *TopOff) Alarms() *Alarms { return &t.alarms }

// Acknowledge is a person's word that what raised the alarms has been looked at: those
// whose cause is over at the next step are dropped in it, and the pump may run again when
// none is left. The level is taken anew.
func (t *TopOff) Acknowledge() {
	t.alarms.acknowledge()
	t.held, t.calm = false, 0
	t.unseen, t.from = 0, math.NaN()
}

// Refilled tells what is in the reservoir now.
func (t *TopOff) Refilled(v units.Volume) {
	t.left, t.alarms.unsaved = math.NaN(), true
	if x := v.Litres(); x >= 0 && finite(x) {
		t.left = x
	}
}

// Left returns what should be left in the reservoir by count, NaN if nobody told Refilled.
func (t *TopOff) Left() units.Volume { return units.Volume(t.left) }

// Pumped returns what was pumped in the last 24 h, at the flow of the settings.
func (t *TopOff) Pumped() units.Volume { return units.Volume(t.today.sum()) }

// Cap returns the most for 24 h: of the settings, or what the evaporation learned leaves of
// it, but always enough for one run.
func (t *TopOff) Cap() units.Volume {
	least := litresOf(t.s.Band, t.s.Area) + 2*t.litres(t.s.Watchdog)
	return units.Volume(min(t.s.DayCap.Litres(), max(least, t.learned.cap(t.s.DayCap.Litres()))))
}

func (t *TopOff) litres(d time.Duration) float64 { return t.s.Flow.LitresPerHour() * hours(d) }

// Step decides what the pump does until the next step.
func (t *TopOff) Step(now Clock, in TopOffInput) Decision {
	if !t.sane {
		return Decision{}
	}
	p := t.tick.step(now, t.s.Watchdog)
	t.alarms.begin(p.credit)
	t.today.pass(p.credit)
	t.count(p)
	if p.odd {
		t.alarms.raise(ClockOdd, p.charge.Seconds(), t.s.Watchdog.Seconds())
	}
	t.guardWater(in)
	known := in.Level.good()
	if !known {
		t.alarms.raise(LevelDoubtful, in.Level.Value, 0)
	}
	t.refAge += p.credit
	if in.Hold { // a doubt that passes leaves the reference as it is
		t.held, t.calm = false, 0
	} else if known {
		t.guardLevel(in.Level.Value, p.credit)
	}
	may, before := t.alarms.end() && !in.Hold && !p.odd, t.pumping
	t.decide(may, in.Level.Value)
	t.learned.pass(p.credit, may, p.odd)
	out := Decision{Pump: t.pumping, Save: t.alarms.save() || t.pumping != before}
	out.Enable = may && t.alarms.quiet() // in a hold nobody watches the level
	if t.pumping {
		out.For = min(t.s.Watchdog, max(t.s.MaxRun-t.ran, 0))
	}
	return out
}

// count charges what the pump has brought since the step before.
func (t *TopOff) count(p span) {
	if !t.pumping {
		return
	}
	v := t.litres(p.charge)
	t.ran += p.charge
	t.unseen = min(t.unseen+p.charge, 366*day)
	t.today.add(v)
	t.left = max(t.left-v, 0)
	t.learned.pumped += v
}

// guardWater looks at everything but the level itself.
func (t *TopOff) guardWater(in TopOffInput) {
	if t.s.Second > 0 && !in.Second.clear() {
		high := t.s.Second.Millimetres() // the reading may say anything
		t.alarms.raise(HighLevel, high, high)
	}
	if t.s.LeakSwitch && !in.Leak.clear() {
		t.alarms.raise(Leak, 0, 0)
	}
	least := t.litres(t.s.Watchdog)
	if t.s.EmptySwitch && !in.Empty.clear() {
		t.alarms.raise(ReservoirEmpty, 0, least)
	}
	if t.left < least { // by count
		t.alarms.raise(ReservoirEmpty, t.left, least)
	}
	t.alarms.guardPH(in.PH, t.s.PHMost)
	if t.s.SalinityBand == 0 {
		return
	}
	set, band, x := t.s.Salinity.Value(), t.s.SalinityBand, in.Salinity.Value
	switch {
	case !in.Salinity.good():
		t.alarms.raise(SalinityDoubtful, x, set)
	case x < set-band:
		t.alarms.raise(SalinityLow, x, set-band)
	case x > set+band:
		t.alarms.raise(SalinityHigh, x, set+band)
	}
}

// high is the level in mm at which the reading itself says too high: at the second level,
// or, if that comes first, at what a pump that does not stop brings until it is noticed.
func (s TopOffSettings) high() float64 {
	h := s.Notice.Millimetres() + float64(s.Flow.Volume(2*settleTime).Litres()/s.Area.SquareMetres())
	if s.Second > 0 {
		h = min(h, s.Second.Millimetres())
	}
	return h
}

// guardLevel holds the level against what the pump does.
func (t *TopOff) guardLevel(level float64, credit time.Duration) {
	notice, area := t.s.Notice.Millimetres(), t.s.Area.SquareMetres()
	if most := t.s.high(); level > most {
		t.alarms.raise(HighLevel, level, most)
	}
	if !t.s.Switched && level-t.from >= notice || level >= 0 {
		t.unseen, t.from = 0, level
	}
	if t.pumping {
		if !t.s.Switched && t.litres(t.unseen)/area >= noRise*notice {
			t.alarms.raise(NotRising, level-t.from, notice)
		}
		// Over all runs that were broken off: a level that is doubtful now and then begins none anew.
		if longest := max(t.ran, t.unseen) + t.s.Watchdog; longest > t.s.MaxRun {
			t.alarms.raise(LongRun, longest.Seconds(), t.s.MaxRun.Seconds())
		}
		if v, most := t.today.sum()+t.litres(t.s.Watchdog), t.Cap().Litres(); v > most {
			t.alarms.raise(DayCap, v, most)
		}
		return
	}
	t.calm += credit
	if t.s.Switched || t.calm < settleTime {
		return
	}
	if !t.held {
		t.held, t.ref, t.refAge = true, level, 0
		return
	}
	// What evaporates at most, the cap of a day being twice of that.
	fall := t.s.DayCap.Litres() * float64(t.refAge) / float64(day) / area
	switch moved := level - t.ref; {
	case moved > notice:
		t.alarms.raise(RisingAlone, moved, notice)
	case moved < -notice-fall:
		t.alarms.raise(FallingFast, moved, -notice-fall)
	}
}

// decide starts and stops the pump.
func (t *TopOff) decide(may bool, level float64) {
	switch {
	case t.pumping && (!may || level >= 0):
		t.pumping, t.held, t.calm = false, false, 0
	case !t.pumping && may && level <= -t.s.Band.Millimetres() && t.calm >= settleTime:
		if v, most := t.today.sum()+2*t.litres(t.s.Watchdog), t.Cap().Litres(); v > most {
			t.alarms.raise(DayCap, v, most)
			return
		}
		t.pumping, t.ran = true, 0
		if !(t.from <= level) {
			t.from = level
		}
	}
}
