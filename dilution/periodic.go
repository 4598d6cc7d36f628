package dilution

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"

	"example.org/wellmixed/units"
)

// Periodic is a level in a tank that is fed at a steady rate, or used up, and
// pulled back by regular water changes: nitrate from feeding, calcium into
// corals. Between changes the level moves along a straight line; each change
// brings it towards the fresh water.
type Periodic[Q ~float64] struct {
	Share  units.Fraction // of the water at each change
	Every  time.Duration  // from change to change
	Fresh  Q              // level in the new water
	PerDay Q              // what the tank adds per day; negative for what it uses

	// Rate is the constant k, per day, of what is lost in proportion to what there is, as
	// by bacteria or a skimmer: N' = PerDay - k N. See Loss; 0 for none.
	Rate float64
}

// decay returns what a unit of the level is after a time between changes, and what a unit
// of PerDay a day has brought by then, in days.
//
//	q = exp(-k t),   (1 - q)/k
func (p Periodic[Q]) decay(days float64) (keeps, gains float64) {
	if p.Rate == 0 {
		return 1, days
	}
	return math.Exp(-p.Rate * days), -math.Expm1(-p.Rate*days) / p.Rate
}

// keeps returns what a unit of the level is just before the next change.
func (p Periodic[Q]) keeps() Q {
	q, _ := p.decay(p.Every.Hours() / 24)
	return Q(q)
}

// gain returns what the tank adds between two changes, less what is lost of that.
func (p Periodic[Q]) gain() Q {
	_, t := p.decay(p.Every.Hours() / 24)
	return p.PerDay * Q(t)
}

// Steady returns where the level settles after many changes, right before and
// right after one. With gain g between changes of a share x, of which q is kept,
//
//	after = (x fresh + (1 - x) g)/(1 - (1 - x) q),   before = q after + g
//
// and before = fresh + g/x, after = before - g where nothing is lost by a rate:
// the steady state of periodic dosing in pharmacokinetics (Rowland and Tozer
// 2011, Clinical Pharmacokinetics and Pharmacodynamics, chapter 11), with
// dilution in the place of elimination.
func (p Periodic[Q]) Steady() (before, after Q, err error) {
	if err := p.check(); err != nil {
		return input.NaN[Q](), input.NaN[Q](), err
	}
	after = p.settled()
	before = after*p.keeps() + p.gain()
	if err := p.empty(before); err != nil {
		return input.NaN[Q](), input.NaN[Q](), err
	}
	return before, after, nil
}

// Mean returns the mean of the level over time once it has settled: of the saw-tooth that
// changes make, what an animal lives in.
//
//	symbol   N0 h + PerDay T (1 - h)/z, z = k T, h = (1 - exp(-z))/z, N0 after a change
//	source   the integral of N' = PerDay - k N over one period T
//	units    those of the level
//
// Without a rate the teeth are straight, and it is half-way between before and after.
func (p Periodic[Q]) Mean() (Q, error) {
	_, after, err := p.Steady()
	if err != nil {
		return input.NaN[Q](), err
	}
	days := p.Every.Hours() / 24
	z := p.Rate * days
	h, rest := 1-z/2+z*z/6-z*z*z/24, 0.5-z/6+z*z/24-z*z*z/120 // where (1 - h)/z loses digits
	if z > 1e-3 {
		h = -math.Expm1(-z) / z
		rest = (1 - h) / z
	}
	return after*Q(h) + p.PerDay*Q(days*rest), nil
}

// After returns the level right after the nth change from now, if it is start
// now and a change was just made.
func (p Periodic[Q]) After(start Q, n int) (Q, error) {
	if err := p.check(); err != nil {
		return input.NaN[Q](), err
	}
	if n < 0 {
		return input.NaN[Q](), input.Bad("changes", input.Number(float64(n)), "zero or more")
	}
	if err := input.NotNegative("start", float64(start), ""); err != nil {
		return input.NaN[Q](), err
	}
	if n == 0 {
		return start, nil
	}
	// The distance from the settled level shrinks by (1-x)q at each change, so
	// the lowest level before a change is the first or the last.
	settled := p.settled()
	last := Level(start, settled, Repeated(p.shrinks(), n-1))
	if err := p.empty(min(start, last)*p.keeps() + p.gain()); err != nil {
		return input.NaN[Q](), err
	}
	return Level(start, settled, Repeated(p.shrinks(), n)), nil
}

// settled returns the level right after a change in the long run.
func (p Periodic[Q]) settled() Q {
	x := Q(p.Share.Value())
	if p.Rate == 0 {
		return p.Fresh + p.gain()/x - p.gain()
	}
	return (x*p.Fresh + (1-x)*p.gain()) / (1 - (1-x)*p.keeps())
}

// shrinks returns the share by which the distance from the settled level shrinks from
// change to change: that of the change, and what is lost by then.
func (p Periodic[Q]) shrinks() units.Fraction {
	if p.Rate == 0 {
		return p.Share
	}
	return units.Share(1 - (1-p.Share.Value())*float64(p.keeps()))
}

// Changes returns how many changes bring the level from start to goal or past
// it, right after a change. It is an error if the level settles before the
// goal.
func (p Periodic[Q]) Changes(start, goal Q) (int, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	settled := p.settled()
	r, err := For(start, settled, goal)
	if err != nil {
		return 0, input.Bad("goal", input.Number(float64(goal)),
			"between "+input.Number(float64(start))+" now and "+input.Number(float64(settled))+", where this routine settles")
	}
	n, err := r.Times(p.shrinks())
	if err != nil {
		return 0, err
	}
	if _, err = p.After(start, n); err != nil { // is the tank ever empty on the way?
		return 0, err
	}
	return n, nil
}

// ShareToHold returns the share to change each time for the level to settle at
// the limit right before a change.
func ShareToHold[Q ~float64](fresh, perDay, limit Q, every time.Duration) (units.Fraction, error) {
	p := Periodic[Q]{Share: units.Share(1), Every: every, Fresh: fresh, PerDay: perDay}
	if err := p.check(); err != nil {
		return units.Share(math.NaN()), err
	}
	share := units.Share(float64(p.gain() / (limit - fresh)))
	if !(share.Value() >= 0 && share.Value() <= 1) {
		return units.Share(math.NaN()), input.Bad("limit", input.Number(float64(limit)),
			"beyond "+input.Number(float64(fresh+p.gain()))+", which even a full change every time leaves")
	}
	return share, nil
}

// ShareToHoldAfter returns the share to change each time for the level to settle at the
// limit right after a change, where a test on the evening of the change finds it.
//
//	x = g/(limit + g - fresh)
//
// It is less water than for the level to be there before each change: see [ShareToHold].
func ShareToHoldAfter[Q ~float64](fresh, perDay, limit Q, every time.Duration) (units.Fraction, error) {
	p := Periodic[Q]{Share: units.Share(1), Every: every, Fresh: fresh, PerDay: perDay}
	if err := p.check(); err != nil {
		return units.Share(math.NaN()), err
	}
	g := p.gain()
	share := units.Share(float64(g / (limit + g - fresh)))
	if g == 0 && limit == fresh {
		share = units.Share(0)
	}
	if !(share.Value() >= 0 && share.Value() <= 1) || (limit+g < 0) {
		side := "above "
		if g < 0 {
			side = "below "
		}
		return units.Share(math.NaN()), input.Bad("limit", input.Number(float64(limit)),
			side+input.Number(float64(fresh))+", which even a full change every time leaves")
	}
	return share, nil
}

func (p Periodic[Q]) check() error {
	if err := input.Share("share", p.Share); err != nil {
		return err
	}
	if !(p.Every > 0) {
		return input.Bad("every", p.Every.String(), "a time above zero")
	}
	if !(p.Fresh >= 0) || math.IsInf(float64(p.Fresh), 0) {
		return input.Bad("fresh", input.Number(float64(p.Fresh)), "zero or more")
	}
	if math.IsNaN(float64(p.PerDay)) || math.IsInf(float64(p.PerDay), 0) {
		return input.Bad("perDay", input.Number(float64(p.PerDay)), "a finite number")
	}
	if !(p.Rate >= 0) || math.IsInf(p.Rate, 0) {
		return input.Bad("rate", input.Number(p.Rate), "zero or more a day")
	}
	return nil
}

// empty refuses a level that the tank would have to bring below zero.
func (p Periodic[Q]) empty(lowest Q) error {
	if lowest >= 0 {
		return nil
	}
	return input.Bad("perDay", input.Number(float64(p.PerDay)),
		"a use that the water can supply: this one would leave "+input.Number(float64(lowest))+" before a change")
}
