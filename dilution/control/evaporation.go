package control

import (
	"math"
	"time"

	"example.org/wellmixed/units"
)

// evaporation learns what a tank loses in a day from what was pumped in days without an
// alarm: mean and scatter, the last fortnight counting most.
type evaporation struct {
	days     uint16 // learned from, at most mostDays
	mean     float64
	variance float64
	pumped   float64 // in the day that runs
	into     time.Duration
	paused   time.Duration // of it under an alarm or in service
	spoilt   bool          // a gap in it, or a longer pause than is made up within the day
}

const (
	fewDays  = 5  // before the estimate says anything
	mostDays = 14 // a mean over the last fortnight or so
	// A pause shifts what is pumped into the next day by no more than its own share of a day,
	// a twelfth, which is less than days differ by.
	longestPause = 2 * time.Hour
)

// pass counts a step. At the end of a sound day it learns.
func (e *evaporation) pass(credit time.Duration, sound, odd bool) {
	e.into += credit
	if !sound {
		e.paused += credit
	}
	e.spoilt = e.spoilt || odd || e.paused > longestPause
	if e.into < day {
		return
	}
	if !e.spoilt && finite(e.pumped) {
		e.days = min(e.days+1, mostDays)
		off := e.pumped - e.mean
		w := 1 / float64(e.days)
		e.mean += float64(w * off)
		if e.days > 1 {
			e.variance += w * (float64(off*off)*(1-w) - e.variance)
		}
	}
	e.into, e.pumped, e.paused, e.spoilt = 0, 0, 0, false
}

// perDay returns the mean and the standard deviation of a day in L; ok is false while
// too few days are known.
func (e *evaporation) perDay() (mean, deviation float64, ok bool) {
	return e.mean, math.Sqrt(max(e.variance, 0)), e.days >= fewDays
}

// cap returns the most for 24 h: twice the mean and four standard deviations, which a dry
// hot day does not pass (common practice: a factor of two), and never beyond what a person
// has set. A quiet season lowers it: the first hot days may reach it, and a person
// acknowledges. Until enough is known it is what was set.
func (e *evaporation) cap(set float64) float64 {
	mean, u, ok := e.perDay()
	if !ok {
		return set
	}
	return min(set, 2*mean+4*u)
}

// Evaporation returns what the tank loses in a day, as learned from the days without an
// alarm, and the standard deviation of one day. known is false until five such days.
func (t *TopOff) Evaporation() (perDay, deviation units.Flow, known bool) {
	m, u, ok := t.learned.perDay()
	return units.Flow(m) * units.LitrePerDay, units.Flow(u) * units.LitrePerDay, ok
}
