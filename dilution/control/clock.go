package control

import "time"

// Clock is the time since the controller started, in milliseconds. It wraps after 49.7
// days, which nothing here minds.
type Clock uint32

// Since returns the time from an earlier count to this one, across a wrap. Counts that are
// more than 24.8 days apart look like a clock that was set back: the result is negative.
func (c Clock) Since(earlier Clock) time.Duration {
	return time.Duration(int32(c-earlier)) * time.Millisecond
}

// ticker measures the time between the steps of one part.
type ticker struct {
	last    Clock
	started bool
}

// span is the time that a step covers.
type span struct {
	credit time.Duration // may be counted for what time allows: nothing if the clock is odd
	charge time.Duration // must be counted against a pump that was on: it cannot have run longer
	odd    bool          // the clock stands, went back, or no step came for longer than the watchdog waits
}

// step returns the span since the step before. Outputs that were on went off by the
// watchdog if no step came, so no charge is longer than that; a clock that went back may
// hide as much.
func (t *ticker) step(now Clock, watchdog time.Duration) span {
	d := now.Since(t.last)
	first := !t.started
	t.last, t.started = now, true
	switch {
	case first:
		return span{}
	case d <= 0 || d > watchdog:
		return span{charge: watchdog, odd: true}
	}
	return span{credit: d, charge: d}
}

// forward returns the time since the step before for what is only a measure of age: a
// clock that went back counts nothing.
func (t *ticker) forward(now Clock) time.Duration {
	d := now.Since(t.last)
	first := !t.started
	t.last, t.started = now, true
	if first || d < 0 {
		return 0
	}
	return d
}

// day is the time that caps are for.
const day = 24 * time.Hour

// dayTotal sums what was pumped in the last 24 h, in 24 hours that are over and the one
// that runs: so no 24 h, wherever they begin, hold more than the sum.
type dayTotal struct {
	hours [25]float64 // L
	at    uint8
	into  time.Duration // the hour that runs
}

// pass moves the hours on. Time that nobody is sure of is not credited; the window is then
// longer than a day.
func (d *dayTotal) pass(credit time.Duration) {
	d.into += credit
	for n := 0; d.into >= time.Hour && n < len(d.hours); n++ {
		d.into -= time.Hour
		d.at = (d.at + 1) % uint8(len(d.hours))
		d.hours[d.at] = 0
	}
	if d.into >= time.Hour {
		d.into = 0
	}
}

func (d *dayTotal) add(litres float64) { d.hours[d.at%uint8(len(d.hours))] += litres }

func (d *dayTotal) sum() (litres float64) {
	for _, h := range d.hours {
		litres += h
	}
	return litres
}

// finite tells numbers from NaN and infinity.
func finite(x float64) bool { return x-x == 0 }

// positive tells finite numbers above zero.
func positive(x float64) bool { return x > 0 && finite(x) }
