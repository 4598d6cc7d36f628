package replenish

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

// Limit is by how much a parameter may move in a day, up or down.
type Limit struct {
	PerDay Level
	Origin string // who says so
}

// Limits are what the steps of a plan respect. The zero value stands for the
// usual ones, which the plan then lists.
type Limits struct {
	PerDay   []Limit // replace the usual ones of their parameters
	PH       float64 // by which one dose may move the pH of the whole tank; 0: as usual
	PHOrigin string
}

const (
	// normalPH is where a pH is no longer low for a reef, total scale.
	normalPH = 7.8 // common practice
)

// usualLimit returns the usual limit for a parameter, counted as the trade
// does.
func usualLimit(p Parameter) Limit {
	x := about[p].perDay
	if p == Alkalinity {
		return Limit{AlkalinityOf(units.Alkalinity(x) * units.DKH).In(units.DKH), advice.CommonPractice}
	}
	return Limit{p.Of(units.MassPerLitre(x)*units.MilligramPerLitre, about[p].countings[0].mass), advice.CommonPractice}
}

// of returns the limit that holds for a parameter.
func (l Limits) of(p Parameter) Limit {
	for _, own := range l.PerDay {
		if own.PerDay.parameter == p {
			return own
		}
	}
	return usualLimit(p)
}

// ph returns the limit that holds for the pH, with its origin.
func (l Limits) ph() (swing float64, origin string) {
	if l.PH == 0 {
		return advice.PHPerHour, advice.CommonPractice
	}
	return l.PH, l.PHOrigin
}

// passes tells whether a move of the pH is more than the limit. Back towards
// that of the sea it counts from normalPH on only: what is acid may be helped
// fast. An unknown pH does not move.
func (l Limits) passes(before, after Chemistry) bool {
	swing, _ := l.ph()
	return moved(before, after) > swing
}

// moved is by how much a pH has moved, as passes counts it; a fall counts as well.
func moved(before, after Chemistry) float64 {
	from, to := before.PH.Value(), after.PH.Value()
	if to > from {
		from = max(from, min(to, normalPH))
	}
	return math.Abs(to - from)
}

// list writes the limits that hold for what a dose raises, and for the pH.
func (l Limits) list(raises []Level) string {
	text := ""
	for _, r := range raises {
		limit := l.of(r.parameter)
		text += r.parameter.String() + " " + limit.PerDay.String() + " a day (" + limit.Origin + "), "
	}
	swing, origin := l.ph()
	return text + "pH " + input.Number(swing) + " at a dose (" + origin + ")"
}

func (l Limits) check() error {
	for i, own := range l.PerDay {
		if err := own.PerDay.check("limits"); err != nil {
			return err
		}
		if err := own.PerDay.must("limits", own.PerDay.amount > 0, "a limit above zero"); err != nil {
			return err
		}
		if own.Origin == "" {
			return input.Bad("limits: "+own.PerDay.parameter.String(), "no origin", "who says so, such as \"common practice\"")
		}
		for _, other := range l.PerDay[:i] {
			if other.PerDay.parameter == own.PerDay.parameter {
				return input.Bad("limits: "+own.PerDay.parameter.String(), "two limits", "one")
			}
		}
	}
	if !(l.PH >= 0) || math.IsInf(l.PH, 0) {
		return input.Bad("limits: pH", input.Number(l.PH), "zero or more")
	}
	if l.PH > 0 && l.PHOrigin == "" {
		return input.Bad("limits: pH", "no origin", "who says so, such as \"common practice\"")
	}
	return nil
}
