package replenish

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/tested"
)

// swing returns by how much one dose may move the pH of the whole tank, with the
// origin of that; infinity if nothing limits it. The limit counts from the pH that
// the tank has, low or not: what raises it fast sets ammonia free.
func swing(l tested.Held) (by float64, origin string) {
	by, origin, _ = l.PH(0)
	return by, origin
}

// passes tells whether a dose moves the pH by more than the limit. An unknown pH
// does not move.
func passes(l tested.Held, tank found, now, aired tested.Chemistry) bool {
	by, _ := swing(l)
	return tank.moved(now, aired) > by
}

// found is the tank as a dose finds it, and as it would be in balance with its air
// without the dose.
type found struct{ now, aired tested.Chemistry }

// moved is by how much a dose moves the pH: at once, or for good, whichever is more.
func (f found) moved(now, aired tested.Chemistry) float64 {
	return max(apart(f.now, now), apart(f.aired, aired))
}

// apart is the distance of two pH.
func apart(a, b tested.Chemistry) float64 { return math.Abs(a.PH.Value() - b.PH.Value()) }

// saySwing writes the limit of the pH.
func saySwing(l tested.Held) string {
	by, origin := swing(l)
	if math.IsInf(by, 1) {
		return "none for pH"
	}
	return "pH " + input.Number(by) + " at a dose (" + origin + ")"
}

// sayLimits writes the limits that hold for what a dose raises, and for the pH.
func sayLimits(l tested.Held, raises []tested.Level) string {
	text := ""
	for _, r := range raises {
		limit, origin, limited := l.PerDay(r.Parameter())
		if !limited {
			continue
		}
		text += string(r.Parameter()) + " " + counted(limit) + " a day (" + origin + "), "
	}
	return text + saySwing(l)
}

// counted writes the number and the unit of a level, without what it is of.
func counted(l tested.Level) string {
	x, unit := l.Counted()
	return input.Number(x) + " " + unit
}
