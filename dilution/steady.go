package dilution

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/tested"
)

// Settled is where a tank comes to in the long run, when every day, or every week,
// goes as the one before.
type Settled struct {
	Period time.Duration // after which all changes, doses and top-offs come round again; 0 if there are none

	// Before and After are the tank around the first of its changes, or around the
	// first dose or top-off if there is no change. They are alike if there is neither.
	Before, After tested.Water

	// Round is the forecast of one period, or of a day if there is none, from a moment
	// of it on.
	Round Forecast
}

// mostRounds is how often the fixed point is looked for.
const mostRounds = 100

// atRest is a share that counts as no move.
const atRest = 1e-11

// Settles returns the steady state of a routine, the fixed point of one of its
// periods: the steady state of periodic dosing in pharmacokinetics (Rowland and
// Tozer 2011, Clinical Pharmacokinetics and Pharmacodynamics, chapter 11). What
// happens once does not count. An amount that nothing takes out does not settle
// if anything puts it in, nor does a tank that nobody tops off: an error names
// which.
//
// With an amount N at the start of a period and F(N) at its end, F is a straight line
// but for what runs out on the way, and but for the volume of a changed litre,
// which depends on its salt. Newton's rule,
//
//	N' = N + (F(N) - N)/(1 - dF/dN)
//
// therefore is there at once, or after a few rounds.
func (r Routine) Settles() (Settled, error) {
	m, err := r.motion()
	if err != nil {
		return Settled{}, err
	}
	if !m.held && m.fall > 0 && r.TopOff.Hand == 0 {
		return Settled{}, input.Bad("topOff", "none", "water for what evaporates: a tank without it does not settle")
	}
	regular := m.calendar[:0]
	for _, e := range m.calendar {
		if e.every > 0 {
			regular = append(regular, e)
		}
	}
	m.calendar = regular
	period, from, err := m.period()
	if err != nil {
		return Settled{}, err
	}
	s := Settled{Period: period}
	if period == 0 {
		period = 24 * time.Hour
	}

	row := m.begin(&r)
	gone := make([]float64, m.width())
	var t track
	last := math.Inf(1)
	for round := 0; ; round++ {
		if t, err = m.run(row, from, from+period, false, nil); err != nil {
			return Settled{}, input.When("in the long run", err)
		}
		m.goes(&t, gone)
		moved, err := m.step(row, t.last(), gone)
		if err != nil {
			return Settled{}, err
		}
		if moved == 0 || moved < atRest && moved >= last { // rounding is all that still moves
			break
		}
		if round == mostRounds {
			return Settled{}, input.Bad("routine", "a tank that still moves after many rounds", "a routine that settles")
		}
		last = moved
	}
	book := m.ledger(append([]float64(nil), row...))
	if t, err = m.run(row, from, from+period, false, book); err != nil {
		return Settled{}, input.When("in the long run", err)
	}
	s.Round = Forecast{Span: period, track: t, Balances: book.balances(m, t.last())}
	s.Round.Start, s.Round.End = m.state(row), m.state(t.last())
	s.Round.Assumptions = r.assumptions(m)
	s.Round.Cautions = r.cautions(&s.Round, book)
	s.Before, s.After = s.Round.Start, s.Round.Start
	if e := m.foremost(); e != nil {
		at := e.after(from, from+period) - from
		if s.Before, err = s.Round.Before(at); err != nil {
			return Settled{}, err
		}
		if s.After, err = s.Round.At(at); err != nil {
			return Settled{}, err
		}
	}
	return s, nil
}

// foremost returns the event that the steady state is shown around.
func (m *motion) foremost() *event {
	for i := range m.calendar {
		if e := &m.calendar[i]; e.from == byChange {
			return e
		}
	}
	if len(m.calendar) > 0 {
		return &m.calendar[0]
	}
	return nil
}

// period returns the time after which the calendar repeats, and when to begin with
// it: all events have begun, and if the tank is topped off by hand, it just was.
func (m *motion) period() (period, from time.Duration, err error) {
	for i := range m.calendar {
		e := &m.calendar[i]
		from = max(from, e.at)
		if period == 0 {
			period = e.every
			continue
		}
		common := e.every / commonDivisor(period, e.every)
		if common > math.MaxInt64/4/period {
			return 0, 0, input.Bad("every", e.every.String(), "a time that has a common multiple with the others within "+
				"a lifetime")
		}
		period *= common
	}
	for i := range m.calendar {
		if e := &m.calendar[i]; e.from == byTopOff && !e.takesPlace(from) {
			from = e.after(from, math.MaxInt64)
		}
	}
	if from > math.MaxInt64/4 {
		return 0, 0, input.Bad("first", from.String(), "a time within a lifetime")
	}
	return period, from, nil
}

func commonDivisor(a, b time.Duration) time.Duration {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// goes works out 1 - dF/dN of each amount along a track: what part of it is gone by
// the end, all of it if it ran out on the way.
func (m *motion) goes(t *track, gone []float64) {
	end := make([]float64, m.width())
	for i := range gone {
		gone[i] = 0
	}
	for node := 0; node+1 < len(t.times); node++ {
		days := inDays(t.times[node+1] - t.times[node])
		m.flow(end, t.row(node), days)
		now := t.times[node+1]
		share, fills := 0.0, false
		mass := end[rowMass]
		for i := range m.calendar {
			e := &m.calendar[i]
			if !e.takesPlace(now) {
				continue
			}
			switch e.from {
			case byTopOff:
				fills = true
				mass = max(mass, m.massOf(end[rowSalt], end[rowMass]))
			case byChange:
				// The row of the moment is not kept, and the density hardly depends on it.
				drawn := e.draw / m.water(end).Volume().Litres() * (end[rowMass] / mass)
				share += (1 - share) * min(drawn, 1)
			}
		}
		for i := range gone {
			if i > rowMass {
				gone[i] += (1 - gone[i]) * -math.Expm1(-m.rate[i]*days)
			}
			if i > rowMass && m.gain[i] < 0 && end[i] == 0 {
				gone[i] = 1
			}
			if i > rowMass { // the litres that are drawn do not depend on the mass
				gone[i] += (1 - gone[i]) * share
			}
		}
		if fills || m.held {
			gone[rowMass], gone[rowOver] = 1, 1
		}
	}
}

// step moves a row to where its period leads back to it, and returns by how much,
// as a share.
func (m *motion) step(row, end, gone []float64) (moved float64, err error) {
	for i := range row {
		by := end[i] - row[i]
		scale := math.Max(math.Abs(row[i]), math.Abs(end[i]))
		if scale == 0 {
			continue
		}
		switch {
		case gone[i] > 0:
			by /= gone[i]
		case math.Abs(by) <= 1e-13*scale:
			by = 0
		case by > 0, i < rowLevels, m.levels[max(0, i-rowLevels)].Parameter() == tested.Alkalinity && row[i] < 0:
			name := "The water"
			if i == rowSalt {
				name = "Salinity"
			} else if i > rowSalt {
				name = m.name(i - rowLevels)
			}
			return 0, input.Bad("routine", name+" changing by "+input.Number(by/scale*100)+" % a round for good",
				"a change of water or a loss that brings it to rest")
		default:
			by = -row[i] // to nothing, where it runs out
		}
		to := row[i] + by
		if to < 0 && row[i] >= 0 && m.gain[i] < 0 {
			to = 0
		}
		moved = math.Max(moved, math.Abs(to-row[i])/math.Max(scale, math.Abs(to)))
		row[i] = to
	}
	return moved, nil
}
