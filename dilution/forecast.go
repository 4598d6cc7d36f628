package dilution

import (
	"iter"
	"math"
	"slices"
	"sort"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Forecast is what becomes of a tank that is kept by a routine.
type Forecast struct {
	Span        time.Duration
	Start, End  tested.Water // Start is the tank as it was given, before anything happens
	Balances    []Balance
	Assumptions []string
	Cautions    []advice.Caution

	track
}

// Balance is where an amount in the tank came from and where it went:
//
//	Before + Made + Dosed + Poured + Topped = Drawn + Lost + After
//
// The first is that of everything in the tank, in g; what it loses is what
// evaporates. The second is that of the salt, in g; the levels follow, in mg as
// they are counted, or mmol, and meq of alkalinity.
type Balance struct {
	Name, Unit string
	Before     float64
	Made       float64 // by the tank; negative for what it used
	Dosed      float64 // by pumps and doses
	Poured     float64 // with new water
	Topped     float64 // with the top-off
	Drawn      float64 // with old water, what ran off included
	Lost       float64 // in proportion to what there was, or by evaporation
	After      float64
}

// Bounds of the work that a forecast does.
const (
	mostEvents = 100_000
	mostPoints = 10_000_000
	roomFor    = 16 // points whose levels are allocated at once
)

// Forecast works out what becomes of the tank in a span of time. Between events
// the solution is exact, whatever the times that it is asked for: salt and levels
// are amounts, which obey dN/dt = a - λN in a volume that is held or a mass that
// falls in a straight line, the stirred tank with first-order loss of chemical engineering
// (Levenspiel 1999, Chemical Reaction Engineering, chapters 3 and 13). Volumes
// come from the density of the water at each moment, and top-off holds the level, not
// the mass: a tank above its mark is not topped off before it has come down to it.
//
// Beside a [Stream] the overflow is taken to run off at one rate: the volume that flows
// in less what evaporates and is not topped off. What waters shrink by as they mix is
// left out of that rate, an error of up to 2e-4 of a level, and the only one: without a
// stream there is none.
//
// A use ends where nothing is left to use, and goes on when there is some again.
// A level is foretold if it is known in the tank and in all new water. A forecast
// that would leave the salinities of the standard is an error that says when.
func (r Routine) Forecast(span time.Duration) (Forecast, error) {
	var bad error
	if !(span > 0) {
		bad = input.Bad("span", span.String(), "a time above zero")
	}
	m, err := r.motion()
	if err = input.Join(bad, err); err != nil {
		return Forecast{}, err
	}
	begin := m.begin(&r)
	book := m.ledger(begin)
	track, err := m.run(begin, 0, span, true, book)
	if err != nil {
		return Forecast{}, err
	}
	f := Forecast{Span: span, Start: r.Tank, track: track}
	f.Start.Carbon = carbonate.Known{}
	f.End = f.state(f.last())
	f.Balances = book.balances(m, f.last())
	f.Assumptions = r.assumptions(m)
	f.Cautions = r.cautions(&f, book)
	return f, nil
}

// At returns the tank at a time from the start, after what happens at that time.
// Its DIC is not known: give it one with [tested.Water.Aired] for the pH.
func (f *Forecast) At(t time.Duration) (tested.Water, error) { return f.moment(t, true) }

// Before returns the tank at a time from the start, before what happens at that
// time.
func (f *Forecast) Before(t time.Duration) (tested.Water, error) { return f.moment(t, false) }

func (f *Forecast) moment(t time.Duration, after bool) (tested.Water, error) {
	if f.motion == nil {
		return tested.Water{}, noForecast()
	}
	if !(t >= 0 && t <= f.Span) {
		return tested.Water{}, input.Bad("time", t.String(), "zero to the "+f.Span.String()+" of the forecast")
	}
	if t == 0 && !after {
		return f.Start, nil
	}
	t += f.from
	row := make([]float64, f.width())
	f.flow(row, f.row(f.node(t, after)), inDays(t-f.times[f.node(t, after)]))
	return f.state(row), nil
}

// Points returns the tank at the start and after every step, as far as the
// forecast goes: range over it. Each point is as exact as if there were no other.
func (f *Forecast) Points(step time.Duration) (iter.Seq[Step], error) {
	if f.motion == nil {
		return nil, noForecast()
	}
	if !(step > 0 && f.Span/step < mostPoints) {
		return nil, input.Bad("step", step.String(), "a time that makes fewer than "+input.Number(mostPoints)+" points")
	}
	return func(yield func(Step) bool) {
		row := make([]float64, f.width())
		n := len(f.levels)
		var room tested.Levels // for the next points
		node := 0
		for at := time.Duration(0); at <= f.Span; at += step {
			for node+1 < len(f.times) && f.times[node+1] <= f.from+at {
				node++
			}
			f.flow(row, f.row(node), inDays(f.from+at-f.times[node]))
			if len(room) < n {
				room = slices.Repeat(f.ones, roomFor)
			}
			if !yield(Step{at, f.stateIn(row, room[:n:n])}) {
				return
			}
			room = room[n:]
		}
	}, nil
}

// noForecast is the error of a Forecast that nothing made.
func noForecast() error { return input.Bad("forecast", "nothing", "a forecast of a routine") }

// track is a motion that was followed: the row after each event. The start and the
// end count as events, with nothing happening.
type track struct {
	*motion
	from, until time.Duration
	times       []time.Duration
	rows        []float64 // one after another, as many as times
}

func (t *track) row(node int) []float64 {
	w := t.width()
	return t.rows[node*w : (node+1)*w : (node+1)*w]
}

func (t *track) last() []float64 { return t.row(len(t.times) - 1) }

// node returns the last event at a time or before it.
func (t *track) node(at time.Duration, included bool) int {
	after := sort.Search(len(t.times), func(i int) bool { return t.times[i] > at || !included && t.times[i] == at })
	return max(0, after-1)
}

func (m *motion) width() int { return len(m.gain) }

// state returns the water that a row stands for.
func (m *motion) state(row []float64) tested.Water {
	return m.stateIn(row, slices.Clone(m.ones))
}

// stateIn is state with room for the levels, filled with ones.
func (m *motion) stateIn(row []float64, room tested.Levels) tested.Water {
	w := m.water(row)
	perLitre := 1 / w.Volume().Litres()
	for k := range room {
		room[k].Scale(row[rowLevels+k] * perLitre)
	}
	return tested.Water{Portion: w, Levels: room}
}

func (m *motion) water(row []float64) seawater.Portion {
	w, _ := seawater.FromAbsolute(units.Absolute(1000*row[rowSalt]/row[rowMass]), m.temperature)
	return w.OfMass(units.Mass(row[rowMass]))
}

// run follows the motion from a row on. Events at the very start count if first is
// true.
func (m *motion) run(begin []float64, from, until time.Duration, first bool, book *ledger) (track, error) {
	events := 0.0
	for i := range m.calendar {
		if e := &m.calendar[i]; e.every > 0 {
			events += float64(until-from) / float64(e.every)
		}
	}
	if !(events < mostEvents) {
		return track{}, input.Bad("span", (until - from).String(),
			"a time with fewer than "+input.Number(mostEvents)+" changes, doses and top-offs")
	}
	w := m.width()
	room := int(events) + len(m.calendar) + 2
	t := track{
		motion: m,
		from:   from,
		until:  until,
		times:  make([]time.Duration, 0, room),
		rows:   make([]float64, 0, room*w),
	}
	row := append(make([]float64, 0, w), begin...)
	next := make([]float64, w)
	for now := from; ; {
		if err := m.sound(row, now); err != nil {
			return track{}, err
		}
		for i := range m.calendar {
			e := &m.calendar[i]
			if !e.takesPlace(now) || now == from && !first {
				continue
			}
			if err := m.happen(e, row, now, book); err != nil {
				return track{}, err
			}
			if err := m.sound(row, now); err != nil {
				return track{}, err
			}
		}
		t.times = append(t.times, now)
		t.rows = append(t.rows, row...)
		if now == until {
			return t, nil
		}
		then := until
		for i := range m.calendar {
			then = min(then, m.calendar[i].after(now, until))
		}
		if over := row[rowOver]; over > 0 && m.evaporates > 0 {
			if shut := math.Ceil(over / m.evaporates * float64(24*time.Hour)); shut < float64(then-now) {
				then = now + time.Duration(shut) // the valve opens
			}
		}
		days := inDays(then - now)
		m.flow(next, row, days)
		book.flow(m, row, next, now, days)
		row, next = next, row
		now = then
	}
}

// takesPlace tells whether an event is due at a time.
func (e *event) takesPlace(t time.Duration) bool {
	if e.every == 0 || t < e.at {
		return t == e.at
	}
	return (t-e.at)%e.every == 0
}

// after returns the next time of an event after now, or until if that is sooner.
func (e *event) after(now, until time.Duration) time.Duration {
	switch {
	case e.at > now:
		return min(e.at, until)
	case e.every == 0:
		return until
	}
	wait := e.every - (now-e.at)%e.every
	if wait > until-now {
		return until
	}
	return now + wait
}

// flow takes a row through so many days without an event:
//
//	N = N0 exp(-kt) + a/k (1 - exp(-kt)),   or N0 + a t where nothing is lost
//
// An amount that is used up stays at zero: dN/dt falls as N does, so it would go on
// falling. A float valve stays shut while the tank stands above its mark.
func (m *motion) flow(to, from []float64, days float64) {
	shut := from[rowOver] > 0
	rate, kept, gone := 0.0, 1.0, 0.0
	for i := range m.paces {
		c := &m.paces[i]
		n, gain := from[c.place], c.gain
		if shut {
			gain -= m.top[c.place]
		}
		x := n + float64(gain*days)
		if c.rate > 0 {
			if c.rate != rate {
				rate = c.rate
				kept, gone = decayed(rate * days)
			}
			x = float64(n*kept) + float64(gain/c.rate*gone)
		}
		if x < 0 && n >= 0 && gain < 0 {
			x = 0
		}
		to[c.place] = x
	}
	to[rowOver] = max(0, from[rowOver]-m.evaporates*days)
	switch {
	case !m.held:
		to[rowMass] = from[rowMass] - m.fall*days
	case to[rowSalt] != from[rowSalt]: // a stream
		to[rowMass] = m.massOf(to[rowSalt], from[rowMass]-from[rowOver]) + to[rowOver]
	default:
		to[rowMass] = from[rowMass] - (from[rowOver] - to[rowOver])
	}
}

// decayed returns exp(-x) and 1 - exp(-x), both to the last digit but one.
func decayed(x float64) (kept, gone float64) {
	if x < seriesEnd {
		gone = x * poly.Horner(-x, goneSeries[:])
		return 1 - gone, gone
	}
	kept = math.Exp(-x)
	return kept, 1 - kept
}

// goneSeries is that of (1 - exp(-x))/x in powers of -x. At its end the next term
// is 3e-16: a third of the time that math.Expm1 takes, and hours are short.
var goneSeries = [...]float64{1, 1. / 2, 1. / 6, 1. / 24, 1. / 120, 1. / 720, 1. / 5040, 1. / 40320, 1. / 362880}

const seriesEnd = 0.1

// happen lets an event take place.
func (m *motion) happen(e *event, row []float64, now time.Duration, book *ledger) error {
	if e.from == byTopOff {
		m.topUp(row, book)
		return nil
	}
	if e.draw > 0 {
		share := e.draw / m.water(row).Volume().Litres()
		if !(share <= 1+1e-12) {
			return input.Bad("changes.swap", units.Volume(e.draw).String(), "no more than the "+
				input.Fixed(m.water(row).Volume().Litres(), 2)+" L that the tank holds after "+sayDays(now)+": top it off")
		}
		m.take(row, min(share, 1), book)
	}
	for i, x := range e.add {
		book.add(e.from, i, x)
		row[i] += x
	}
	if m.held {
		m.level(row, book)
	}
	return nil
}

// take draws a share of everything.
func (m *motion) take(row []float64, share float64, book *ledger) {
	for i := range row {
		if i != rowOver {
			book.draw(i, share*row[i])
			row[i] -= share * row[i]
		}
	}
}

// topUp fills up to the mark with top-off water; a tank that is above it stays so.
func (m *motion) topUp(row []float64, book *ledger) {
	short := m.massOf(row[rowSalt], row[rowMass]) - row[rowMass]
	if !(short > 0) {
		return
	}
	for i := rowLevels; i < len(row); i++ {
		x := m.drop[i] * short / m.perLitre
		book.add(byTopOff, i, x)
		row[i] += x
	}
	book.add(byTopOff, rowMass, short)
	row[rowMass] += short
}

// level brings a tank that is held at its mark there after an event: a float valve
// tops up what is short, an overflow lets go of what is too much; without one that
// stands above the mark until it has evaporated. What a stream is short of comes with
// the stream.
func (m *motion) level(row []float64, book *ledger) {
	over := row[rowMass] - m.massOf(row[rowSalt], row[rowMass])
	if math.Abs(over) <= 1e-14*row[rowMass] {
		over = 0
	}
	row[rowOver] = 0
	switch {
	case over < 0 && m.valve:
		m.topUp(row, book)
	case over < 0:
		book.add(byChange, rowMass, -over)
		row[rowMass] -= over
	case m.overflow:
		m.take(row, 1-m.litres/m.water(row).Volume().Litres(), book)
	default:
		row[rowOver] = over
	}
}

// sound refuses a row that no water has.
func (m *motion) sound(row []float64, now time.Duration) error {
	for i := rowLevels; i < len(row); i++ {
		if math.IsNaN(row[i]) || math.IsInf(row[i], 0) {
			return input.Bad("tank", m.name(i-rowLevels)+" of "+input.Number(row[i])+" after "+sayDays(now),
				"levels and rates of ordinary size")
		}
	}
	if !(row[rowMass] > 0) {
		return input.Bad("topOff", "a dry tank after "+sayDays(now), "water in it: top off, or look less far ahead")
	}
	w, err := seawater.FromAbsolute(units.Absolute(1000*row[rowSalt]/row[rowMass]), m.temperature)
	if err != nil {
		return input.When("after "+sayDays(now), err)
	}
	return input.Positive("tank", w.OfMass(units.Mass(row[rowMass])).Volume().Litres(), "L")
}

func sayDays(t time.Duration) string { return input.Fixed(inDays(t), 1) + " days" }

// ledger writes down what comes and goes. A nil ledger writes nothing.
type ledger struct {
	before, made, drawn, lost []float64
	from                      [byDose + 1][]float64
	ranOut                    []time.Duration // when an amount was used up for the first time; -1: never
}

func (m *motion) ledger(before []float64) *ledger {
	w := m.width()
	flat := make([]float64, 6*w)
	row := func(i int) []float64 { return flat[i*w : (i+1)*w : (i+1)*w] }
	b := &ledger{before: before, made: row(0), drawn: row(1), lost: row(2), ranOut: make([]time.Duration, w)}
	for i := range b.from {
		b.from[i] = row(3 + i)
	}
	for i := range b.ranOut {
		b.ranOut[i] = -1
	}
	return b
}

func (b *ledger) add(from source, i int, x float64) {
	if b != nil {
		b.from[from][i] += x
	}
}

func (b *ledger) draw(i int, x float64) {
	if b != nil {
		b.drawn[i] += x
	}
}

// flow writes down what came and went between two rows.
func (b *ledger) flow(m *motion, from, to []float64, now time.Duration, days float64) {
	if b == nil {
		return
	}
	shut := from[rowOver] > 0
	topped := m.top[rowMass] * days
	if shut {
		topped = 0
	}
	b.lost[rowMass] += m.evaporates * days
	b.from[byTopOff][rowMass] += topped
	b.from[byChange][rowMass] += m.pour[rowMass] * days
	b.drawn[rowMass] += (m.pour[rowMass]-m.evaporates)*days + topped - (to[rowMass] - from[rowMass])
	for i := rowSalt; i < len(from); i++ {
		if i == rowOver {
			continue
		}
		top := m.top[i]
		if shut {
			top = 0
		}
		a, k, lasts := m.gain[i]-m.top[i]+top, m.rate[i], days
		if a < 0 && to[i] == 0 {
			lasts = min(untilNothing(a, k, from[i]), days)
			if b.ranOut[i] < 0 {
				b.ranOut[i] = now + time.Duration(lasts*float64(24*time.Hour))
			}
		}
		// While nothing is left, the tank uses what comes as it comes.
		came := m.dose[i] + m.pour[i] + top
		b.made[i] += m.made[i]*lasts - came*(days-lasts)
		b.from[byDose][i] += m.dose[i] * days
		b.from[byChange][i] += m.pour[i] * days
		b.from[byTopOff][i] += top * days
		if k > 0 {
			went := from[i] + a*lasts - to[i]
			b.drawn[i] += went * (m.runsOff / k)
			b.lost[i] += went * (1 - m.runsOff/k)
		}
	}
}

// untilNothing returns the days after which an amount that falls is used up.
func untilNothing(a, k, n float64) float64 {
	if k == 0 {
		return n / -a
	}
	return math.Log1p(n*k/-a) / k
}

func (b *ledger) balances(m *motion, end []float64) []Balance {
	var list []Balance
	for i := range end {
		name, unit, one := "Everything", "g", 1.0
		switch {
		case i == rowOver:
			continue
		case i == rowSalt:
			name = "Salt"
		case i >= rowLevels:
			name = m.name(i - rowLevels)
			unit, one = amountOf(m.levels[i-rowLevels])
		}
		list = append(list, Balance{
			Name: name, Unit: unit, Before: b.before[i] * one, Made: b.made[i] * one,
			Dosed: b.from[byDose][i] * one, Poured: b.from[byChange][i] * one, Topped: b.from[byTopOff][i] * one,
			Drawn: b.drawn[i] * one, Lost: b.lost[i] * one, After: end[i] * one,
		})
	}
	return list
}

// amountOf returns the unit in which an amount of a level is told, and the size of
// its base unit in it.
func amountOf(l tested.Level) (unit string, one float64) {
	x, counted := l.WithBase(1).Counted()
	switch {
	case l.Parameter() == tested.Alkalinity:
		return "meq", 1
	case counted == "mmol/L":
		return "mmol", 1
	}
	return "mg", x
}
