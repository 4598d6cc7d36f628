package dilution

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Routine is how a tank is kept: what it adds to its water and uses of it, what
// evaporates and is topped off, what is dosed, and when water is changed.
//
// What is said per litre of Tank is an amount: so much for each litre that the
// tank holds at the start, whatever it holds later. Of what falls on the same moment
// the top-off by hand comes first, then the changes in their order, then the doses.
type Routine struct {
	Tank        State  // at the start; its level is the mark that is topped off to
	PerDay      Levels // what the tank adds in a day, negative for what it uses, per litre of Tank
	Losses      []Loss // what goes in proportion to what there is
	Evaporation units.Flow
	TopOff      TopOff
	Pumped      Levels // what pumps that always run add in a day, per litre of Tank
	Doses       []Dose
	Changes     []Renewal
	Stream      Stream
}

// Loss is a level that falls in proportion to itself, as nitrate does to bacteria
// that find enough of everything else. Either the half-life or the share is to be
// given.
type Loss struct {
	Of       string         // the level, by the name that results have for it: "Nitrate", or that of a Solute
	HalfLife time.Duration  // after which half is gone
	PerDay   units.Fraction // of what there is, gone after a day
}

// TopOff is what takes the place of the water that evaporates. The zero value is
// pure water, added as fast as it goes.
type TopOff struct {
	Water Levels        // dissolved in the top-off water: its residue, or lime water; not known is none
	Hand  time.Duration // filled up to the mark by hand, every so often; 0: automatically
	None  bool          // nobody tops off, and the water falls
}

// Dose is an addition that comes back every so often.
type Dose struct {
	Levels               // per litre of Tank
	Salt   units.Mass    // that a dose leaves in the tank besides, if any
	First  time.Duration // from the start; 0 is the start itself
	Every  time.Duration // 0: once
}

// Renewal is a change of water that comes back every so often: Swap is drawn from
// the tank, and the same volume of the batch poured in, each measured at its own
// temperature.
type Renewal struct {
	Batch State // its volume does not count: a new batch is mixed each time
	Swap  units.Volume
	First time.Duration // from the start; 0 is the start itself
	Every time.Duration // 0: once
}

// Stream is a change of water that never stops: Flow of the batch runs in, and
// what is too much runs off. A flow of zero is none.
type Stream struct {
	Batch State
	Flow  units.Flow
}

// motion is a routine in numbers: every amount in the tank obeys
//
//	dN/dt = gain - rate N
//
// from one event to the next, with constants that differ from amount to amount,
// and a mass that stands still or falls in a straight line. Amounts stand in one
// row: the mass of everything and that of the salt, in g, then every level, in its
// base unit times litre.
type motion struct {
	levels      Levels // their names, as many as there are in the row
	number      []int  // which of them, from the third of the row on
	temperature units.Temperature
	litres      float64 // of the tank at the start
	mark        float64 // mass of the tank at the start, g
	held        bool    // the mass stays there: a float valve or an overflow sees to it
	fall        float64 // or else falls by so much, g/day
	evaporates  float64 // g/day
	perLitre    float64 // mass of a litre of top-off water, g
	runsOff     float64 // by the overflow, share of the tank a day

	gain []float64 // of each amount, a day: the sum of the next four
	made []float64
	dose []float64
	pour []float64
	top  []float64
	rate []float64 // of each amount, a day; what runs off included

	paces []pace // of the amounts, without the mass: those of one rate stand together

	calendar []event
}

// pace is how one amount goes between events.
type pace struct {
	place      int
	gain, rate float64
	rest       float64 // where it tends to
}

// Places in a row.
const (
	rowMass   = 0
	rowSalt   = 1
	rowLevels = 2
)

// event is what happens at one time or every so often.
type event struct {
	from     source
	at       time.Duration
	every    time.Duration // 0: once
	draw     float64       // L
	add      []float64     // a row
	perLitre []float64     // of what fills up to the mark; nil if nothing does
}

// source tells where an addition comes from.
type source uint8

const (
	byTopOff source = iota // in the order in which they take place at the same time
	byChange
	byDose
)

// motion checks a routine and puts it into numbers.
func (r *Routine) motion() (*motion, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	tank := r.Tank.Water
	pure, err := seawater.PureWater(tank.Temperature())
	if err != nil {
		return nil, err
	}
	m := &motion{
		temperature: tank.Temperature(),
		litres:      tank.Volume().Litres(),
		mark:        tank.Mass.Grams(),
		perLitre:    pure.Density().Mass(1).Grams(),
	}
	m.choose(r)
	width := rowLevels + len(m.number)
	rows := 6 + len(r.Doses) + len(r.Changes) + 1
	flat := make([]float64, rows*width)
	row := func() []float64 {
		next := flat[:width:width]
		flat = flat[width:]
		return next
	}
	m.gain, m.made, m.dose, m.pour, m.top, m.rate = row(), row(), row(), row(), row(), row()

	m.evaporates = r.Evaporation.LitresPerDay() * m.perLitre
	flow := r.Stream.Flow.LitresPerDay()
	streams := flow * r.Stream.Batch.Water.Density().Mass(1).Grams()
	automatic := !r.TopOff.None && r.TopOff.Hand == 0
	switch {
	case automatic:
		m.held = true
		m.runsOff = streams / m.mark
		m.top[rowMass] = m.evaporates
		m.fill(m.top, &r.TopOff.Water, r.Evaporation.LitresPerDay())
	case flow > 0 && streams >= m.evaporates:
		m.held = true
		m.runsOff = (streams - m.evaporates) / m.mark
	default:
		m.fall = m.evaporates - streams
	}
	m.pour[rowMass] = streams
	m.pour[rowSalt] = streams * r.Stream.Batch.Water.Absolute().GramsPerKilogram() / 1000
	m.fill(m.pour, &r.Stream.Batch.Levels, flow)
	m.fill(m.made, &r.PerDay, m.litres)
	m.fill(m.dose, &r.Pumped, m.litres)
	for i := range m.gain {
		m.gain[i] = m.made[i] + m.dose[i] + m.pour[i] + m.top[i]
		m.rate[i] = m.runsOff
	}
	for _, l := range r.Losses {
		for k := range m.number {
			if m.name(k) == l.Of {
				m.rate[rowLevels+k] += l.rate()
			}
		}
	}

	m.paces = make([]pace, width-rowSalt)
	for k := range m.paces {
		c := pace{place: rowSalt + k, gain: m.gain[rowSalt+k], rate: m.rate[rowSalt+k]}
		if c.rate > 0 {
			c.rest = c.gain / c.rate
		}
		for ; k > 0 && m.paces[k-1].rate > c.rate; k-- {
			m.paces[k] = m.paces[k-1]
		}
		m.paces[k] = c
	}

	if r.TopOff.Hand > 0 {
		e := event{from: byTopOff, at: r.TopOff.Hand, every: r.TopOff.Hand, add: row()}
		e.perLitre = e.add
		m.fill(e.perLitre, &r.TopOff.Water, 1)
		m.calendar = append(m.calendar, e)
	}
	for i := range r.Changes {
		c := &r.Changes[i]
		e := event{from: byChange, at: c.First, every: c.Every, draw: c.Swap.Litres(), add: row()}
		poured := c.Batch.Water.OfVolume(c.Swap)
		e.add[rowMass], e.add[rowSalt] = poured.Mass.Grams(), poured.Salt().Grams()
		m.fill(e.add, &c.Batch.Levels, e.draw)
		m.calendar = append(m.calendar, e)
	}
	for i := range r.Doses {
		d := &r.Doses[i]
		e := event{from: byDose, at: d.First, every: d.Every, add: row()}
		e.add[rowMass], e.add[rowSalt] = d.Salt.Grams(), d.Salt.Grams()
		m.fill(e.add, &d.Levels, m.litres)
		m.calendar = append(m.calendar, e)
	}
	return m, nil
}

// choose takes the levels that are known in the tank and in all new water.
func (m *motion) choose(r *Routine) {
	m.levels = r.Tank.names()
	for i := range m.levels.count() {
		if r.known(&m.levels, i) {
			m.number = append(m.number, i)
		}
	}
}

// known tells whether a level of the list can be foretold.
func (r *Routine) known(list *Levels, i int) bool {
	known := list.find(&r.Tank.Levels, i).known
	for k := range r.Changes {
		known = known && list.find(&r.Changes[k].Batch.Levels, i).known
	}
	return known && (r.Stream.Flow == 0 || list.find(&r.Stream.Batch.Levels, i).known)
}

// fill puts so many times the levels into a row.
func (m *motion) fill(row []float64, of *Levels, times float64) {
	for k, i := range m.number {
		row[rowLevels+k] = m.levels.find(of, i).value * times
	}
}

// name returns what the level at a place in the row, counted from the first
// level, is called.
func (m *motion) name(k int) string {
	name, _, _ := m.levels.name(m.number[k])
	return name
}

// begin returns the row at the start.
func (m *motion) begin(r *Routine) []float64 {
	v := make([]float64, rowLevels+len(m.number))
	v[rowMass], v[rowSalt] = m.mark, r.Tank.Water.Salt().Grams()
	m.fill(v, &r.Tank.Levels, m.litres)
	return v
}

// rate returns the share that goes in a short time, per day of it:
//
//	ln 2 / half-life,   or -ln(1 - share gone after a day)
func (l *Loss) rate() float64 {
	if l.HalfLife > 0 {
		return math.Ln2 / inDays(l.HalfLife)
	}
	return -math.Log1p(-float64(l.PerDay))
}

func inDays(d time.Duration) float64 { return float64(d) / float64(24*time.Hour) }

// check refuses a routine that no tank can be kept by.
func (r *Routine) check() error {
	if err := input.Positive("tank", float64(r.Tank.Water.Volume()), "L"); err != nil {
		return err
	}
	if err := r.Tank.check("tank"); err != nil {
		return err
	}
	if err := r.PerDay.checkRates("perDay"); err != nil {
		return err
	}
	if err := input.NotNegative("evaporation", float64(r.Evaporation), "L/h"); err != nil {
		return err
	}
	if err := r.TopOff.check(); err != nil {
		return err
	}
	if err := r.Pumped.check("pumped"); err != nil {
		return err
	}
	for i := range r.Doses {
		if err := r.Doses[i].check(); err != nil {
			return err
		}
	}
	for i := range r.Changes {
		if err := r.Changes[i].check(r.Tank.Water.Volume()); err != nil {
			return err
		}
	}
	if err := input.NotNegative("stream.flow", float64(r.Stream.Flow), "L/h"); err != nil {
		return err
	}
	if r.Stream.Flow > 0 {
		if err := r.Stream.Batch.checkWater("stream.batch"); err != nil {
			return err
		}
	}
	for i := range r.Losses {
		if err := r.Losses[i].check(r); err != nil {
			return err
		}
	}
	return nil
}

// checkWater refuses a batch whose water cannot be; how much there is of it does
// not matter.
func (s *State) checkWater(of string) error {
	if err := input.Set(of+".temperature", s.Water.Temperature()); err != nil {
		return err
	}
	if err := input.Positive(of+".density", float64(s.Water.Density()), "kg/m³"); err != nil {
		return err
	}
	return s.check(of)
}

// checkRates refuses rates that are no numbers. They may be negative.
func (l *Levels) checkRates(of string) error {
	size := l.names()
	for i := range l.count() {
		m := l.get(i)
		if m.known && !(math.Abs(m.value) < 1e9) {
			return input.Bad(of+"."+l.field(i), input.Number(m.value), "a number of ordinary size, below zero for what is used up")
		}
		m.value = math.Abs(m.value)
		size.set(i, m)
	}
	return size.check(of)
}

func (t *TopOff) check() error {
	switch {
	case t.Hand < 0:
		return input.Bad("topOff.hand", t.Hand.String(), "the time from one filling up to the next, or zero for a top-off that is automatic")
	case t.None && t.Hand > 0:
		return input.Bad("topOff", "none and by hand", "one of them")
	}
	return t.Water.check("topOff.water")
}

func (d *Dose) check() error {
	if err := d.Levels.check("dose"); err != nil {
		return err
	}
	if err := input.NotNegative("dose.salt", float64(d.Salt), "g"); err != nil {
		return err
	}
	return times("dose", d.First, d.Every)
}

func (c *Renewal) check(tank units.Volume) error {
	if err := inside("change.swap", c.Swap, tank); err != nil {
		return err
	}
	if err := c.Batch.checkWater("change.batch"); err != nil {
		return err
	}
	return times("change", c.First, c.Every)
}

func times(of string, first, every time.Duration) error {
	if first < 0 {
		return input.Bad(of+".first", first.String(), "a time from the start")
	}
	if every < 0 {
		return input.Bad(of+".every", every.String(), "a time above zero, or zero for once")
	}
	return nil
}

func (l *Loss) check(r *Routine) error {
	list := r.Tank.names()
	number := -1
	for i := range list.count() {
		if name, _, _ := list.name(i); name == l.Of && r.known(&list, i) {
			number = i
		}
	}
	switch {
	case number < 0:
		return input.Bad("loss.of", `"`+l.Of+`"`, `the name of a level that is known in the tank and in all new water, such as "Nitrate"`)
	case l.HalfLife < 0:
		return input.Bad("loss.halfLife", l.HalfLife.String(), "a time above zero")
	case l.HalfLife == 0 && !(l.PerDay > 0 && l.PerDay < 1):
		return input.Bad("loss.perDay", l.PerDay.String(), "above 0 and below 100 %, or a half-life")
	case l.HalfLife > 0 && l.PerDay != 0:
		return input.Bad("loss", "a half-life and a share", "one of them")
	}
	return nil
}
