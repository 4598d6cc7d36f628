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
}

// gain returns what the tank adds between two changes.
func (p Periodic[Q]) gain() Q { return p.PerDay * Q(p.Every.Hours()/24) }

// Steady returns where the level settles after many changes, right before and
// right after one. With gain g between changes of a share x,
//
//	before = fresh + g/x,   after = before - g
//
// the steady state of periodic dosing in pharmacokinetics (Rowland and Tozer
// 2011, Clinical Pharmacokinetics and Pharmacodynamics, chapter 11), with
// dilution in the place of elimination.
func (p Periodic[Q]) Steady() (before, after Q, err error) {
	if err := p.check(); err != nil {
		return input.NaN[Q](), input.NaN[Q](), err
	}
	g := p.gain()
	before = p.Fresh + g/Q(p.Share.Value())
	if err := p.empty(before); err != nil {
		return input.NaN[Q](), input.NaN[Q](), err
	}
	return before, before - g, nil
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
	// The distance from the settled level shrinks by 1-x at each change, so
	// the lowest level before a change is the first or the last.
	settled := p.settled()
	last := Level(start, settled, Repeated(p.Share, n-1))
	if err := p.empty(min(start, last) + p.gain()); err != nil {
		return input.NaN[Q](), err
	}
	return Level(start, settled, Repeated(p.Share, n)), nil
}

// settled returns the level right after a change in the long run.
func (p Periodic[Q]) settled() Q { return p.Fresh + p.gain()/Q(p.Share.Value()) - p.gain() }

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
	n, err := r.Times(p.Share)
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
