package control

import (
	"math"

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Fault is one thing that can be broken. The text of each is words.Fault.
type Fault uint8

// The faults of a top-off that WorstCase knows.
const (
	LevelStuck     Fault = iota // the level stands still at low, whatever the water does
	LevelFalls                  // the level drifts down or reads ever lower, and follows the pump
	PumpStuckOn                 // the pump's relay does not open
	Siphon                      // water runs from the reservoir through the pump that is off
	ControllerHung              // no step comes any more, with the pump on
	ClockJumps                  // the clock stands, goes back or jumps, with the pump on
	SecondStuck                 // the second level never trips; everything else works
	SaltyReservoir              // the reservoir was filled with salt water

	faults
)

// Worst is the worst that comes of a fault before it is stopped, beyond the level to hold.
type Worst struct {
	Fault    Fault
	Volume   units.Volume // more than belongs into the tank
	Spill    units.Volume // of it what runs over
	From, To units.PracticalSalinity
	PerDay   bool // nothing but the cap stops it: so much in every 24 h, until a person looks
}

// WorstCase returns the worst that one fault can do with these settings, by the balance of
// mass and salt of seawater.Blend: the water that came too much is fresh and all of it
// stays in the tank. Flows count with two standard uncertainties.
//
// The tank stands at the level to hold when the fault comes, and at the salinity set; where
// the guard of the salinity is what stops it, the volume counts from the upper edge of the
// band, with two uncertainties of the probe at both, and the salinity is the lowest at which
// the guard trips. What runs over takes salt with it: then the salinity goes on falling as
// in a stirred tank. What is refused by Check gives NaN.
func (s TopOffSettings) WorstCase(f Fault) Worst {
	if !s.Check().OK() || f >= faults {
		nan := math.NaN()
		return Worst{f, units.Volume(nan), units.Volume(nan), units.Practical(nan), units.Practical(nan), false}
	}
	w := Worst{Fault: f, From: s.Salinity, To: s.Salinity}
	more := 1 + 2*float64(s.FlowUncertainty/s.Flow)
	watchdog := s.Flow.Volume(s.Watchdog).Litres() * more
	high := math.Inf(1) // until something other than the level stops a rise
	if s.Second > 0 {
		high = litresOf(s.Second, s.Area) + 2*watchdog
	}
	v := 0.0
	switch f {
	case LevelStuck:
		run := s.Flow.Volume(s.MaxRun).Litres() * more
		if !s.Switched {
			run = min(run, noRise*litresOf(s.Notice, s.Area)*more+2*watchdog)
		}
		v = min(run, high, s.DayCap.Litres()*more)
	case LevelFalls:
		v, w.PerDay = s.followed(high, more, watchdog)
	case PumpStuckOn:
		v = math.Inf(1)
		if s.SecondRelay {
			v = min(s.alone(more)+2*watchdog, high)
		}
		v = min(v, s.valve())
	case Siphon:
		v = s.valve()
		if s.AirGap {
			v = 0
		}
	case ControllerHung, ClockJumps:
		v = 2 * watchdog
	case SecondStuck:
		v = watchdog
	case SaltyReservoir:
		return s.salty(w)
	}
	v = min(v, s.Reservoir.Litres())
	w.PerDay = w.PerDay && v < s.Reservoir.Litres()
	w.Volume = units.Volume(v)
	w.Spill = max(0, w.Volume-s.Headroom)
	w.To = s.diluted(s.Salinity.Value(), w.Volume)
	if least, late := s.guarded(), units.Volume(2*watchdog); f == LevelFalls && least > 0 {
		w.To = units.Practical(max(w.To.Value(), s.diluted(least, late).Value()))
	}
	return w
}

// guarded returns the lowest salinity at which the guard still lets the pump run: the lower
// edge of the band, read too high by two uncertainties. It is 0 without a guard.
func (s TopOffSettings) guarded() float64 {
	if s.SalinityBand > 0 {
		return s.Salinity.Value() - s.SalinityBand - 2*s.SalinityUncertainty
	}
	return 0
}

// Worst returns the worst of all faults: that with the largest volume.
func (s TopOffSettings) Worst() Worst {
	worst := s.WorstCase(LevelStuck)
	for f := LevelStuck + 1; f < faults; f++ {
		if w := s.WorstCase(f); f != SaltyReservoir && w.Volume > worst.Volume {
			worst = w
		}
	}
	return worst
}

// followed is what a level that falls of its own lets into the tank before the second
// level, the salinity or the cap of a day stops it.
func (s TopOffSettings) followed(high, more, watchdog float64) (litres float64, perDay bool) {
	v := high
	if s.SalinityBand > 0 {
		highest := s.Salinity.Value() + s.SalinityBand + 2*s.SalinityUncertainty
		v = min(v, s.until(highest, s.guarded())+2*watchdog)
	}
	if cap := s.DayCap.Litres() * more; math.IsInf(v, 1) {
		return cap, true
	}
	return v, false
}

// until returns the litres of fresh water that take the salinity from a value down to
// another: M S/S' - M of water, because the salt stays; and once it runs over, as long as
// the salinity of a stirred tank falls exponentially.
func (s TopOffSettings) until(from, salinity float64) float64 {
	tank, err := seawater.FromPractical(units.Practical(from), s.Temperature)
	pure, err2 := seawater.PureWater(s.Temperature)
	if err != nil || err2 != nil || !(salinity > 0) {
		return math.Inf(1)
	}
	more := tank.OfVolume(s.Tank).Mass * units.Mass(from/salinity-1)
	v, room := pure.Density().Volume(more).Litres(), s.Headroom.Litres()
	if v <= room {
		return v
	}
	full := s.Tank.Litres() + room
	brim := s.mixed(from, s.Headroom).Value()
	return room + full*pure.Density().Volume(tank.Density().Mass(1)).Litres()*math.Log(max(brim/salinity, 1))
}

// alone is what a pump brings that does not stop, until the level is seen to rise.
func (s TopOffSettings) alone(more float64) float64 {
	if s.Switched {
		return math.Inf(1)
	}
	return litresOf(s.Notice, s.Area) + s.Flow.Volume(2*settleTime).Litres()*more
}

// valve is what comes until a float valve in series shuts.
func (s TopOffSettings) valve() float64 {
	if s.Valve > 0 {
		return litresOf(s.Valve, s.Area)
	}
	return math.Inf(1)
}

// salty is the worst of a reservoir of tank water: salt comes in for what evaporates, until
// the guard of the salinity stops it or, without, all of the reservoir is in.
func (s TopOffSettings) salty(w Worst) Worst {
	v := s.Reservoir
	if s.SalinityBand > 0 {
		// Each litre of it that replaces a litre of evaporation leaves its salt.
		up := s.SalinityBand + 2*s.SalinityUncertainty
		limit := units.Volume(up/s.Salinity.Value()*s.Tank.Litres()) * 1.01
		v = min(v, limit+2*s.Flow.Volume(s.Watchdog))
	}
	w.To = s.concentrated(v)
	return w
}

// diluted returns the salinity when a volume of fresh water comes into the tank of a salinity:
// mixed up to the brim, and what runs over after that is the water of a stirred tank.
//
//	symbol   S = S₁ exp(-(v - h)/(V + h))
//	source   the balance V dS/dt = -Q S; by volume, which is lower than by mass
func (s TopOffSettings) diluted(from float64, v units.Volume) units.PracticalSalinity {
	brim := s.mixed(from, min(v, s.Headroom))
	over := max(0, float64((v-s.Headroom)/(s.Tank+s.Headroom)))
	return units.Practical(brim.Value() * math.Exp(-over))
}

// mixed returns the salinity when a volume of fresh water is added to the tank of a salinity.
func (s TopOffSettings) mixed(from float64, v units.Volume) units.PracticalSalinity {
	tank, err := seawater.FromPractical(units.Practical(from), s.Temperature)
	added, err2 := seawater.PureWater(s.Temperature)
	if err != nil || err2 != nil {
		return units.Practical(math.NaN())
	}
	return seawater.Blend(tank.OfVolume(s.Tank), added.OfVolume(v)).Practical()
}

// concentrated returns the salinity when a volume of tank water has replaced as much that
// evaporated.
func (s TopOffSettings) concentrated(v units.Volume) units.PracticalSalinity {
	tank, err := seawater.FromPractical(s.Salinity, s.Temperature)
	if err != nil {
		return units.Practical(math.NaN())
	}
	mass, salt := tank.OfVolume(s.Tank).Mass, tank.OfVolume(s.Tank).Salt()+tank.OfVolume(v).Salt()
	return units.Practical(s.Salinity.Value() * float64(salt/mass) / (tank.Absolute().GramsPerKilogram() / 1000))
}
