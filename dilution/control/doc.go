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
//     counts on it.
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
// New function is off for good. A [TopOff] and a [Doser] that have not been restored do not
// know what they pumped today: they wait, with [StateLost], until a person acknowledges.
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
// Everything here allocates nothing, does not panic, and takes a bounded time. Numbers in
// state and readings are float64 in the unit that the field names; the wire format of
// sensors and displays may be whole numbers, see the examples.
//
// # Sources
//
//	[NIST] NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4, upper
//	       critical values of chi-square
package control
