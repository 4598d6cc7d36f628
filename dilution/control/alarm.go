package control

import (
	"time"

	"example.org/wellmixed/mix/advice"
)

// Code is what an alarm is about. The text of each is words.Code.
type Code uint8

// The codes. What latches stays until a person acknowledges it. Value and limit of the
// alarm are in the unit that stands behind.
const (
	NoAlarm Code = iota

	Refused   // settings that Check refuses; Setting
	ClockOdd  // the clock stood or jumped, or steps did not come: off for this step; s
	StateLost // nothing is known of what was pumped; latches

	LevelDoubtful    // no good reading of the level
	HighLevel        // the second level has tripped or says nothing; latches
	Leak             // the leak detector; latches
	ReservoirEmpty   // latches
	LongRun          // the pump ran for the longest time allowed; s, latches
	DayCap           // the cap of 24 h; L, latches
	NotRising        // pump on without the level rising; mm, latches
	RisingAlone      // level rising without the pump: siphon, stuck relay, water from elsewhere; mm, latches
	FallingFast      // level falling faster than water evaporates: leak, back-siphon; mm, latches
	SalinityLow      // practical, latches
	SalinityHigh     // practical, latches
	SalinityDoubtful // no good reading of the salinity

	TemperatureDoubtful // no good reading of the temperature
	Uncovered           // heater not surely under moving water
	TooWarm             // °C, latches
	TooCold             // °C
	NoEffect            // heater or cooler on without the temperature following; K, latches
	OnItsOwn            // temperature rising with the heater off: stuck relay, hot room; K, latches

	PHHigh         // no additive that raises pH; pH
	PHDoubtful     // no good reading of the pH
	AlkalinityHigh // dKH
	ContainerEmpty // by count of what was pumped; L, latches
	Waiting        // a dose waits for its time apart from another

	Imbalance         // two pumps of a change; L, latches
	ChangeInterrupted // a change of water was cut short; L, latches
	TooLong           // a change that does not end; s, latches
	DrainFull         // of a change; latches
	NoNewWater        // for a change; latches

	DosedLess // less than set in the day that ended, the value; L

	codes
)

// latching are the codes that stay until a person acknowledges.
const latching uint64 = 1<<StateLost | 1<<HighLevel | 1<<Leak | 1<<ReservoirEmpty | 1<<LongRun | 1<<DayCap |
	1<<NotRising |
	1<<RisingAlone | 1<<FallingFast | 1<<SalinityLow | 1<<SalinityHigh | 1<<TooWarm | 1<<NoEffect | 1<<OnItsOwn |
	1<<ContainerEmpty | 1<<Imbalance | 1<<ChangeInterrupted | 1<<TooLong | 1<<DrainFull | 1<<NoNewWater

// dangers are those in which people can be hurt or the whole tank can die; of the others
// Waiting and DosedLess are notes, which stop nothing, and the rest wants care.
const dangers uint64 = 1<<HighLevel | 1<<Leak | 1<<RisingAlone | 1<<FallingFast | 1<<TooWarm | 1<<OnItsOwn |
	1<<SalinityLow

// Latches tells whether an alarm of the code stays until a person acknowledges it.
func (c Code) Latches() bool { return c < codes && latching>>c&1 == 1 }

// Severity returns how grave the code is.
func (c Code) Severity() advice.Severity {
	switch {
	case c < codes && dangers>>c&1 == 1:
		return advice.Danger
	case c == Waiting || c == DosedLess || c == NoAlarm || c >= codes:
		return advice.Note
	}
	return advice.Care
}

// Alarm is one alarm, as data.
type Alarm struct {
	Code    Code
	Active  bool          // what raised it is still so
	Latched bool          // it stays until a person acknowledges it
	Since   time.Duration // on the running time of its part, see Alarms.Running
	Value   float64       // that raised it, in the unit of its code
	Limit   float64       // that it passed
}

// Severity returns how grave it is.
func (a Alarm) Severity() advice.Severity { return a.Code.Severity() }

// mostAlarms is more than any part has codes.
const mostAlarms = 16

// Alarms are those of one part, the oldest first.
type Alarms struct {
	list    [mostAlarms]Alarm
	n       uint8
	acked   bool // a person spoke since the last step
	unsaved bool // what has to outlast a power cut has changed
	running time.Duration
}

// Len returns how many alarms there are.
func (a *Alarms) Len() int { return min(int(a.n), mostAlarms) }

// At returns one of them, from 0 on; beyond the last an alarm of no code.
func (a *Alarms) At(i int) Alarm {
	if i < 0 || i >= a.Len() {
		return Alarm{}
	}
	return a.list[i]
}

// Has tells whether there is an alarm of a code.
func (a *Alarms) Has(c Code) bool { return a.find(c) != nil }

// Running returns how long the part has run, by the time between its steps; Alarm.Since
// counts on it. Saved and restored, it goes on.
func (a *Alarms) Running() time.Duration { return a.running }

func (a *Alarms) find(c Code) *Alarm {
	for i := range a.list[:a.Len()] {
		if a.list[i].Code == c {
			return &a.list[i]
		}
	}
	return nil
}

// begin starts a step: what is still so is raised again in it.
func (a *Alarms) begin(credit time.Duration) {
	a.running += credit
	for i := range a.list[:a.Len()] {
		a.list[i].Active = false
	}
}

// raise raises an alarm. One that stands already keeps its time, and its value and limit
// while it was so all along.
func (a *Alarms) raise(c Code, value, limit float64) {
	if old := a.find(c); old != nil {
		old.Active, old.Latched = true, c.Latches()
		return
	}
	if n := a.Len(); n < mostAlarms {
		a.list[n] = Alarm{Code: c, Active: true, Latched: c.Latches(), Since: a.running, Value: value, Limit: limit}
		a.n = uint8(n + 1)
		a.unsaved = a.unsaved || c.Latches()
	}
}

// end drops what is over and not latched, or acknowledged, and tells whether anything but notes is left.
func (a *Alarms) end() (quiet bool) {
	acked := a.acked
	a.acked = false
	a.drop(func(x Alarm) bool { return !x.Active && (!x.Latched || acked) })
	return a.quiet()
}

// quiet tells that nothing but notes is left.
func (a *Alarms) quiet() bool {
	for i := range a.list[:a.Len()] {
		if a.list[i].Severity() != advice.Note {
			return false
		}
	}
	return true
}

// acknowledge lets the next step drop what is over then; what is still so stays, latched.
func (a *Alarms) acknowledge() { a.acked = true }

func (a *Alarms) drop(over func(Alarm) bool) {
	kept := 0
	for i := range a.list[:a.Len()] {
		if over(a.list[i]) {
			a.unsaved = a.unsaved || a.list[i].Latched
		} else {
			a.list[kept] = a.list[i]
			kept++
		}
	}
	for i := kept; i < mostAlarms; i++ {
		a.list[i] = Alarm{}
	}
	a.n = uint8(kept)
}

// save tells whether the state has to be written, once.
func (a *Alarms) save() bool {
	u := a.unsaved
	a.unsaved = false
	return u
}
