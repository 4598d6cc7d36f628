// Package control is what the firmware of a tank's controller must get right: whether a
// sensor can be believed, when a pump or a heater may run, what stops it, and what the
// worst is that can happen before it is stopped.
//
// # This is no protective device
//
// Mains beside salt water kills. A residual-current device (RCD, GFCI) before everything,
// an over-temperature cut-out that is independent of the controller, a float valve in
// series with the pump of a top-off, a reservoir no larger than the tank can take, an air
// gap or siphon break at every outlet, and local codes and licensed electricians come
// first; software comes last. Where to look: IEC 60730 (automatic electrical controls,
// with its classes of software) and IEC 60335-2-55 (electrical appliances for aquariums
// and garden ponds). No conformity with either is claimed.
//
// # What it asks of the hardware
//
//   - An output is on only while it is told so: a watchdog in hardware turns all off when
//     no step came for the time that the settings call Watchdog. What is promised below
//     counts on it. Step at least twice per watchdog: a step that is late by a millisecond
//     counts as a clock that is odd, and turns all off. With the longest watchdog, a minute,
//     samples that come once a minute are too few.
//   - A second relay in series is closed only while Enable says so, of [Decision], [Heat] and
//     [Pumps]: whatever else happens, be it a watchdog, a power cut or an error of the
//     firmware that leaves the zero value, opens it.
//   - Whenever Save says so the state is written, before a pump is switched on: at every new
//     alarm that latches, at every word of a person, at both ends of a run. [Signal.Unsaved]
//     says the same of a signal; a [SaltBalance] is written with every Add and Draw.
//   - [Clock] counts milliseconds since start, may wrap and may jump; it has to run true
//     within a few per cent. Step every part no more than once at one count: a step in
//     which no time has passed is taken for a clock that stands, and everything is off.
//   - Settings that [TopOffSettings.Check] and its like refuse make a part that never
//     turns anything on.
//
// # What it does
//
// A [Signal] judges samples of one sensor good, suspect or bad, with the [Reason]; [Median]
// and [Smooth] filter and know their delay; [Agree] weighs two or three sensors, and a
// [SaltBalance] tells what the salinity has to be. [TwoPoint], [Thermostat] and [Ramp] are
// the loops, [TopOff] replaces what evaporates, [Doser] and [Interlock] dose, [Exchange]
// changes water with two pumps. Each has its [Alarms], as data, and what has to outlast a
// power cut is saved by Save and read by Restore, with a version and a check word. Texts
// stand apart, in package words.
//
// Whatever is doubtful means pump off and heater off. The zero value of every kind is the
// doubtful one: a [Reading] is bad, a [Switch] is unknown, a part that was not made by its
// New function is off for good. A part that has not been restored does not know what it
// pumped today nor what latched: it waits, with [StateLost], until a person acknowledges.
// Only a cooler goes on. A signal that is restored believes no reading that is farther from
// the last one than water goes in an hour: after a long power cut a person has to accept it.
//
// What a top-off learns of the evaporation lowers its cap, from days with no more than two
// hours of pauses. A quiet season lowers it too: the first hot or dry days after it, or a
// long hold that is made up, may reach the cap, which a person acknowledges.
//
// # Promises
//
// With one fault, of whatever [TopOff.WorstCase] lists, no more comes into the tank than it
// says. In any 24 h of its clock no pump runs for more than its cap. Heater and cooler are
// never on together. What latches stays until [TopOff.Acknowledge] and its like, which
// firmware calls when a person pressed a key and never by itself. The simulated tank of the
// tests holds all of this over years, with single and double faults; its table, with what
// is not found, is testdata/faults.txt.
//
// # What is not found
//
//   - An old state that was valid, read again after every power cut: the caps and the latches
//     are then those of its time. Only a memory that cannot go back would tell.
//   - A probe that hangs out of the water from the first start on. Least, and the time that a
//     heater may be on in vain, bound what it heats: ThermostatSettings.Response.
//   - A probe of the salinity that is wrong within its band, and a level that drifts: the
//     second level or the other guard has to find it. WorstCase counts both.
//   - A temperature that drifts slowly, with a single probe.
//   - A level that flickers, good and doubtful by turns, beside another fault: what was brought
//     without a rise is counted on, but nothing is promised of two faults but the reservoir.
//   - A clock that is slow, or fast while no step is late: all times and caps go with it.
//   - A second level, an empty switch, a second relay or a cut-out that never had to work, and
//     a doser that sticks: no sensor sees an additive. [DosedLess] is by count.
//
// Everything here allocates nothing, does not panic, and takes a bounded time. Numbers in
// state and readings are float64 in the unit that the field names; the wire format of
// sensors and displays may be whole numbers, see the examples.
//
// # Sources
//
//	[NIST] NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4, upper
//	       critical values of chi-square
package control
