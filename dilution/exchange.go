package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"

	"example.org/wellmixed/units"
)

// Remaining is the share of a tank's old water that is still in it after water
// was changed: 1 is all of it. It says everything about what a change does
// to a conservative solute, so the ways of changing water are ways to make a
// Remaining: [Once], [Repeated], [Continuous], and, backwards from a goal, [For].
//
// The water is taken as well mixed, and the fresh water as taking the room of
// what was drawn.
type Remaining float64

// Once draws a share of the tank and refills it: 1 - x remains.
func Once(share units.Fraction) Remaining { return Repeated(share, 1) }

// Repeated does so n times: (1 - x)^n remains. Two changes of a quarter do less
// than one of a half, because the second draws fresh water too.
func Repeated(share units.Fraction, n int) Remaining {
	if !(share.Value() >= 0 && share.Value() <= 1) || n < 0 {
		return Remaining(math.NaN())
	}
	return Remaining(math.Pow(1-share.Value(), float64(n)))
}

// Continuous feeds fresh water in while tank water runs off at the same rate,
// the stirred tank of chemical engineering (Levenspiel 1999, Chemical Reaction
// Engineering, chapter 13): exp(-v/V) remains.
func Continuous(swapped, tank units.Volume) Remaining {
	if !(swapped >= 0 && tank > 0) {
		return Remaining(math.NaN())
	}
	return Remaining(math.Exp(-float64(swapped / tank)))
}

// For returns how much of the old water may remain for a level to come from old
// to goal by changing it for water of the level fresh. A goal that is not between the two is
// an error: no change of water gets beyond the fresh water.
func For[Q ~float64](old, fresh, goal Q) (Remaining, error) {
	r := Remaining(float64(goal-fresh) / float64(old-fresh))
	if old == goal {
		r = 1
	}
	if !(r >= 0 && r <= 1) || math.IsInf(float64(old), 0) || math.IsInf(float64(fresh), 0) {
		return Remaining(math.NaN()), input.Bad("goal", input.Number(float64(goal)),
			"between the tank at "+input.Number(float64(old))+" and the fresh water at "+input.Number(float64(fresh)))
	}
	return r, nil
}

// Level returns what becomes of a level when the rest of the water is fresh.
// Any quantity per litre will do, mg/L as well as dKH; both must be of one
// kind, or the call does not compile.
//
//	fresh + (old - fresh) r
func Level[Q ~float64](old, fresh Q, r Remaining) Q { return fresh + (old-fresh)*Q(r) }

// Share returns the share to change at one go.
func (r Remaining) Share() units.Fraction { return units.Share(float64(1 - r)) }

// ShareEach returns the share to change n times for the same effect.
func (r Remaining) ShareEach(n int) units.Fraction {
	if n < 1 {
		return units.Share(math.NaN())
	}
	return units.Share(1 - math.Pow(float64(r), 1/float64(n)))
}

// Times returns how often a share has to be changed until no more than r of the
// old water remains. It is an error if that never comes: a share of zero, or
// nothing that may remain.
func (r Remaining) Times(share units.Fraction) (int, error) {
	switch {
	case r >= 1:
		return 0, nil
	case share.Value() == 1 && r >= 0:
		return 1, nil
	case !(r > 0):
		return 0, input.Bad("remaining", input.Number(float64(r)), "above zero: the last of the old water never leaves")
	case !(share.Value() > 0 && share.Value() < 1):
		return 0, input.Bad("share", share.String(), "above 0 and up to 100 %")
	}
	// A hair below the whole number counts as the whole number.
	n := math.Ceil(math.Log(float64(r))/math.Log1p(-share.Value()) - 1e-9)
	if !(n < math.MaxInt32) {
		return 0, input.Bad("share", share.String(), "a share that gets there in fewer than two thousand million changes")
	}
	return int(n), nil
}

// Feed returns the volume to feed through a tank at a constant rate.
func (r Remaining) Feed(tank units.Volume) units.Volume {
	return units.Volume(math.Abs(math.Log(float64(r)))) * tank
}
