package control

import "time"

// Quality is how far a reading can be trusted. The zero value is Bad.
type Quality uint8

// The qualities. Only what is Good may turn something on.
const (
	Bad     Quality = iota // no reading: silent, or not what the water can be
	Suspect                // a number that may be wrong
	Good
)

// Reason is why a reading is not good, or what is to be said about it.
type Reason uint8

// The reasons. The text of each is words.Reason.
const (
	Fine        Reason = iota // nothing to say
	Unset                     // the settings of the channel are refused
	Silent                    // no answer of the sensor for longer than Channel.Gap
	OutOfRange                // outside Channel.Min and Max, or no number
	Settling                  // first readings after a start or a gap
	Jumped                    // farther from the last than water can go in the time
	Moved                     // a jump that lasted: until a person accepts it
	Stuck                     // the same digits for longer than Channel.Still
	Noisy                     // more than four times the usual noise
	Overdue                   // not calibrated for longer than Channel.Calibrate
	Held                      // an answer is missing, the last one is younger than Channel.Gap
	InAir                     // conductivity fell and temperature jumped together
	Drifted                   // not what the balance of salt says
	Alone                     // others of the same thing have failed: nothing to compare with
	Disagreeing               // sensors of one thing contradict each other, and it is open which is wrong
	Outvoted                  // good, but one sensor of three stands apart
)

// Reading is what is known of a quantity now. The zero value is a bad reading.
type Reading struct {
	Value   float64 // in the unit of the channel
	Quality Quality
	Reason  Reason
}

// good is the one place that decides whether a reading may turn something on: no number is
// none, whatever its quality says.
func (r Reading) good() bool { return r.Quality == Good && finite(r.Value) }

// Known returns a reading that is good because the caller says so: a set value, a test
// that a person made, a number from elsewhere that was judged there.
func Known(x float64) Reading {
	if !finite(x) {
		return Reading{Value: x, Quality: Bad, Reason: OutOfRange}
	}
	return Reading{Value: x, Quality: Good}
}

// Switch is a contact: a float, an optical level, a leak detector. The zero value is not
// known, which counts as tripped.
type Switch uint8

// The states of a Switch.
const (
	Unknown Switch = iota
	Clear          // says that all is well
	Tripped
)

// clear tells that a switch says that all is well.
func (s Switch) clear() bool { return s == Clear }

// Sample is one answer of a sensor.
type Sample struct {
	Value float64 // in the unit of the channel
	OK    bool    // there was an answer; false for a bus error or a sensor that is gone
}

// Thousandths makes a sample of a whole number as sensors send it: thousandths of a degree
// for a channel in °C, µS/cm for one in mS/cm.
func Thousandths(n int32) Sample { return Sample{Value: float64(n) / 1000, OK: true} }

// InThousandths is the way back, for a display without decimals: rounded to the nearest.
// ok is false for what is no number or beyond an int32.
func InThousandths(x float64) (n int32, ok bool) {
	x *= 1000
	if !(x > -2147483647 && x < 2147483647) {
		return 0, false
	}
	if x < 0 {
		return int32(x - 0.5), true
	}
	return int32(x + 0.5), true
}

// hours is what rates count in.
func hours(d time.Duration) float64 { return float64(d) / float64(time.Hour) }
