package dilution

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater/teos10"
)

// Bounds are what a tank should stay between. What is not known has no bound, nor
// has a salinity of zero.
type Bounds struct{ Low, High Goal }

// Crossing tells when a parameter leaves its bounds for the first time.
type Crossing struct {
	Name, Unit string
	Bound      float64 // in that unit
	High       bool    // goes above; otherwise it falls below
	After      time.Duration
}

// Crosses tells whether the bound is left at all in the span of the forecast. If
// not, After is negative.
func (c Crossing) Crosses() bool { return c.After >= 0 }

// field names the bound as errors do.
func (c Crossing) field() string {
	if c.High {
		return "bounds.high." + c.Name
	}
	return "bounds.low." + c.Name
}

// String writes the bound: "Nitrate at most 20 mg/L".
func (c Crossing) String() string {
	side := "at least "
	if c.High {
		side = "at most "
	}
	text := c.Name + " " + side + input.Number(c.Bound)
	if c.Unit != "" {
		text += " " + c.Unit
	}
	return text
}

// Until returns when each bound is left, the first to be left first, to a
// millisecond of the exact solution. What stays within its bounds comes last.
func (f *Forecast) Until(b Bounds) ([]Crossing, error) {
	if f.motion == nil {
		return nil, noForecast()
	}
	list, err := f.watches(&b)
	if err != nil {
		return nil, err
	}
	// The first row is after what happens at once; the tank as it was given counts too.
	given := make([]float64, f.width())
	given[rowMass], given[rowSalt] = f.Start.Portion.Mass.Grams(), f.Start.Portion.Salt().Grams()
	litres := f.Start.Volume().Litres()
	f.fill(given, f.Start.Levels, litres)
	for i := range list {
		if list[i].beyond(given, litres) > 0 {
			list[i].After = 0
		}
	}
	f.leave(list)
	out := make([]Crossing, len(list))
	for i := range list {
		out[i] = list[i].Crossing
	}
	slices.SortStableFunc(out, func(a, b Crossing) int { // what never crosses is last
		if a.Crosses() && b.Crosses() {
			return cmp.Compare(a.After, b.After)
		}
		return -cmp.Compare(a.After, b.After)
	})
	return out, nil
}

// watch is a bound with the place in the row that it watches.
type watch struct {
	Crossing
	place int
	bound float64 // of the amount in a litre, or of the salt in a gram of water
}

// watches turns bounds into a list.
func (m *motion) watches(b *Bounds) ([]watch, error) {
	var list []watch
	for _, side := range [...]struct {
		field string
		goal  *Goal
		high  bool
	}{{"bounds.low", &b.Low, false}, {"bounds.high", &b.High, true}} {
		if err := side.goal.check(side.field); err != nil {
			return nil, err
		}
		if s := side.goal.Salinity; s.Value() > 0 {
			bound := teos10.AbsoluteFromPractical(s).GramsPerKilogram() / 1000
			list = append(list, watch{Crossing{"Salinity", "PSS-78", s.Value(), side.high, -1}, rowSalt, bound})
		}
		for _, l := range side.goal.Levels {
			place := -1
			for k := range m.levels {
				if m.levels[k].Parameter() == l.Parameter() {
					place = rowLevels + k
				}
			}
			if place < 0 {
				return nil, l.Must(side.field, false, "a level that is known in the tank and in all new water")
			}
			x, unit := l.Counted()
			list = append(list, watch{Crossing{capital(string(l.Parameter())), unit, x, side.high, -1}, place, l.Base()})
		}
	}
	return list, nil
}

// leave finds out when each bound is left.
func (t *track) leave(list []watch) {
	row, now := make([]float64, t.width()), make([]float64, t.width())
	litres := t.water(t.row(0)).Volume().Litres()
	for node, at := range t.times {
		start := t.row(node)
		startLitres := litres
		days := 0.0
		copy(row, start)
		if node+1 < len(t.times) {
			days = inDays(t.times[node+1] - at)
			t.flow(row, start, days)
			litres = t.water(row).Volume().Litres()
		}
		for i := range list {
			w := &list[i]
			if w.Crosses() {
				continue
			}
			beyond := func(days float64) float64 {
				t.flow(now, start, days)
				return w.beyond(now, t.water(now).Volume().Litres())
			}
			x := -1.0
			switch {
			case w.beyond(start, startLitres) > 0:
				x = 0
			case days > 0 && w.mayLeave(start, row, startLitres, litres):
				x = leaves(beyond, days)
			}
			if x >= 0 {
				w.After = at - t.from + time.Duration(x*float64(24*time.Hour))
			}
		}
		if node+1 < len(t.times) {
			litres = t.water(t.row(node + 1)).Volume().Litres()
		}
	}
}

// hair is how far beyond a bound, as a share of it, counts as rounding.
const hair = 1e-12

// beyond returns how far a row is beyond the bound; negative is within.
func (w *watch) beyond(row []float64, litres float64) float64 {
	x := row[w.place] / litres
	if w.place == rowSalt {
		x = row[rowSalt] / row[rowMass]
	}
	return w.signed(x)
}

func (w *watch) signed(x float64) float64 {
	d := x - w.bound
	if !w.High {
		d = -d
	}
	return d - hair*(math.Abs(x)+math.Abs(w.bound))
}

// mayLeave tells whether a row can be beyond the bound between two others.
// Amounts, mass and volume all go one way between events, so the level is
// never beyond the most of the one in the least of the other.
func (w *watch) mayLeave(a, b []float64, litresA, litresB float64) bool {
	if w.place == rowSalt {
		litresA, litresB = a[rowMass], b[rowMass]
	}
	amounts := [...]float64{a[w.place], b[w.place]}
	for _, n := range amounts {
		if w.signed(n/litresA) > 0 || w.signed(n/litresB) > 0 {
			return true
		}
	}
	return false
}

// looks is how many moments between two events are looked at for a bound that may
// be left there.
const looks = 8

// leaves returns when a function that is negative at zero first gets above zero,
// or -1. It turns at most once: a maximum between two looks is searched for.
func leaves(beyond func(float64) float64, days float64) float64 {
	last, highest, best := 0.0, 0, math.Inf(-1)
	for i := 1; i <= looks; i++ {
		x := days * float64(i) / looks
		y := beyond(x)
		if y > 0 {
			return crossing(beyond, last, x)
		}
		if y > best {
			highest, best = i, y
		}
		last = x
	}
	lo, hi := days*max(0, float64(highest-1)/looks), days*min(1, float64(highest+1)/looks)
	if top := solve.Maximum(beyond, lo, hi, 1e-9); beyond(top) > 0 {
		return crossing(beyond, lo, top)
	}
	return -1
}

func crossing(beyond func(float64) float64, lo, hi float64) float64 {
	if x, ok := solve.Brent(beyond, lo, hi, 1e-9); ok {
		return x
	}
	return hi
}
