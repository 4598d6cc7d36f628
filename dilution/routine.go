package dilution

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Routine is how a tank is kept: what it adds to its water and uses of it, what
// evaporates and is topped off, what is dosed, and when water is changed.
//
// What is said per litre of Tank is an amount: so much for each litre that the
// tank holds at the start, whatever it holds later. Of what falls on the same moment
// the top-off by hand comes first, then the changes in their order, then the doses.
type Routine struct {
	Tank        tested.Water  // at the start; its volume is the mark that is topped off to
	PerDay      tested.Levels // what the tank adds in a day, negative for what it uses, per litre of Tank
	Losses      []Loss        // what goes in proportion to what there is
	Evaporation units.Flow
	TopOff      TopOff
	Pumped      tested.Levels // what pumps that always run add in a day, per litre of Tank
	Doses       []Dose
	Changes     []Renewal
	Stream      Stream
}

// Loss is a level that falls in proportion to itself, as nitrate does to bacteria
// that find enough of everything else. One of the half-life, the share and the rate
// constant is to be given.
type Loss struct {
	Of       tested.Parameter
	HalfLife time.Duration  // after which half is gone
	PerDay   units.Fraction // of what there is, gone after a day
	Rate     float64        // constant k, per day: N' = -k N
}

// Remaining returns what is left after a time of a level that nothing adds to.
//
//	symbol   exp(-k t), k = ln 2/half-life = -ln(1 - share gone after a day)
//	source   definition of a reaction of the first order
//
// [Level] makes a level of it. What the tank adds meanwhile is in [Periodic] and [Routine].
func (l Loss) Remaining(after time.Duration) (Remaining, error) {
	if err := l.checkRate("loss"); err != nil {
		return Remaining(math.NaN()), err
	}
	if after < 0 {
		return Remaining(math.NaN()), input.Bad("after", after.String(), "zero or more")
	}
	return Remaining(math.Exp(-l.rate() * inDays(after))), nil
}

// TopOff is what takes the place of the water that evaporates. The zero value is
// pure water, added as fast as it goes.
type TopOff struct {
	Water tested.Levels // dissolved in the top-off water: its residue, or lime water; not known is none
	Hand  time.Duration // filled up to the mark by hand, every so often; 0: automatically
	None  bool          // nobody tops off, and the water falls
}

// Dose is an addition that comes back every so often.
type Dose struct {
	Levels tested.Levels // per litre of Tank
	Salt   units.Mass    // that a dose leaves in the tank besides, if any
	First  time.Duration // from the start; 0 is the start itself
	Every  time.Duration // 0: once
}

// Renewal is a change of water that comes back every so often: Swap is drawn from
// the tank, and the same volume of the batch poured in, each measured at its own
// temperature.
type Renewal struct {
	Batch tested.Water // its volume does not count: a new batch is mixed each time
	Swap  units.Volume
	First time.Duration // from the start; 0 is the start itself
	Every time.Duration // 0: once
}

// Stream is a change of water that never stops: Flow of the batch runs in, and
// what is too much runs off. A flow of zero is none.
type Stream struct {
	Batch tested.Water
	Flow  units.Flow
}

// motion is a routine in numbers: every amount in the tank obeys
//
//	dN/dt = gain - rate N
//
// from one event to the next, with constants that differ from amount to amount,
// and a volume that stands still or a mass that falls in a straight line. Amounts
// stand in one row: the mass of everything, that of the salt, and what stands above the mark, in
// g, then every level, in its base unit times litre.
type motion struct {
	levels      tested.Levels // as the tank counts them, from the third of the row on
	ones        tested.Levels // the same, each of 1 in base units
	temperature units.Temperature
	litres      float64 // of the tank at the start: the mark
	held        bool    // the volume stays there: a float valve or an overflow sees to it
	valve       bool    // a float valve tops off
	overflow    bool    // what stands above the mark runs off; or else it has to evaporate
	fall        float64 // what is not held falls by so much, g/day
	evaporates  float64 // g/day
	perLitre    float64 // mass of a litre of top-off water, g
	runsOff     float64 // by the overflow, share of the tank a day

	gain []float64 // of each amount, a day: the sum of the next four
	made []float64
	dose []float64
	pour []float64
	top  []float64
	drop []float64 // what a litre of top-off water holds
	rate []float64 // of each amount, a day; what runs off included

	paces []pace // of the amounts, without the mass: those of one rate stand together

	calendar []event
}

// pace is how one amount goes between events.
type pace struct {
	place      int
	gain, rate float64
}

// Places in a row.
const (
	rowMass   = 0
	rowSalt   = 1
	rowOver   = 2 // mass above the mark of a tank that is held there: it has to evaporate first
	rowLevels = 3
)

// event is what happens at one time or every so often.
type event struct {
	from  source
	at    time.Duration
	every time.Duration // 0: once
	draw  float64       // L
	add   []float64     // a row; nil if it fills up to the mark
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
	tank := r.Tank.Portion
	pure, err := seawater.PureWater(tank.Temperature())
	if err != nil {
		return nil, err
	}
	m := &motion{
		temperature: tank.Temperature(),
		litres:      tank.Volume().Litres(),
		perLitre:    pure.Density().Mass(1).Grams(),
	}
	m.choose(r)
	width := rowLevels + len(m.levels)
	rows := 7 + len(r.Doses) + len(r.Changes) + 1
	flat := make([]float64, rows*width)
	row := func() []float64 {
		next := flat[:width:width]
		flat = flat[width:]
		return next
	}
	m.gain, m.made, m.dose, m.pour, m.top, m.drop, m.rate = row(), row(), row(), row(), row(), row(), row()
	m.fill(m.drop, r.TopOff.Water, 1)

	m.evaporates = r.Evaporation.LitresPerDay() * m.perLitre
	flow := r.Stream.Flow.LitresPerDay()
	streams := flow * r.Stream.Batch.Portion.Density().Mass(1).Grams()
	switch {
	case !r.TopOff.None && r.TopOff.Hand == 0:
		m.held, m.valve = true, true
		m.top[rowMass] = m.evaporates
		m.fill(m.top, r.TopOff.Water, r.Evaporation.LitresPerDay())
	case flow > 0 && streams >= m.evaporates:
		m.held = true
	default:
		m.fall = m.evaporates - streams
	}
	if m.overflow = m.held && flow > 0; m.overflow { // as much as comes in, once it has the temperature of the tank
		in := streams / m.perLitre
		if w, err := r.Stream.Batch.Portion.At(m.temperature); err == nil {
			in = streams / w.Density().Mass(1).Grams()
		}
		m.runsOff = max(0, in+(m.top[rowMass]-m.evaporates)/m.perLitre) / m.litres
	}
	m.pour[rowMass] = streams
	m.pour[rowSalt] = streams * r.Stream.Batch.Portion.Absolute().GramsPerKilogram() / 1000
	m.fill(m.pour, r.Stream.Batch.Levels, flow)
	m.fill(m.made, r.PerDay, m.litres)
	m.fill(m.dose, r.Pumped, m.litres)
	for i := range m.gain {
		m.gain[i] = m.made[i] + m.dose[i] + m.pour[i] + m.top[i]
		m.rate[i] = m.runsOff
	}
	for _, l := range r.Losses {
		for k := range m.levels {
			if m.levels[k].Parameter() == l.Of {
				m.rate[rowLevels+k] += l.rate()
			}
		}
	}

	for place := rowSalt; place < width; place++ {
		if place != rowOver {
			m.paces = append(m.paces, pace{place, m.gain[place], m.rate[place]})
		}
	}
	slices.SortStableFunc(m.paces, func(a, b pace) int { return cmp.Compare(a.rate, b.rate) })

	if r.TopOff.Hand > 0 {
		m.calendar = append(m.calendar, event{from: byTopOff, at: r.TopOff.Hand, every: r.TopOff.Hand})
	}
	for i := range r.Changes {
		c := &r.Changes[i]
		e := event{from: byChange, at: c.First, every: c.Every, draw: c.Swap.Litres(), add: row()}
		poured := c.Batch.Portion.OfVolume(c.Swap)
		e.add[rowMass], e.add[rowSalt] = poured.Mass.Grams(), poured.Salt().Grams()
		m.fill(e.add, c.Batch.Levels, e.draw)
		m.calendar = append(m.calendar, e)
	}
	for i := range r.Doses {
		d := &r.Doses[i]
		e := event{from: byDose, at: d.First, every: d.Every, add: row()}
		e.add[rowMass], e.add[rowSalt] = d.Salt.Grams(), d.Salt.Grams()
		m.fill(e.add, d.Levels, m.litres)
		m.calendar = append(m.calendar, e)
	}
	return m, nil
}

// choose takes the levels that are known in the tank and in all new water.
func (m *motion) choose(r *Routine) {
	for _, l := range r.Tank.Levels {
		if r.known(l.Parameter()) {
			m.levels = append(m.levels, l)
			m.ones = append(m.ones, l.WithBase(1))
		}
	}
}

// known tells whether a level can be foretold.
func (r *Routine) known(p tested.Parameter) bool {
	_, known := r.Tank.Level(p)
	for k := range r.Changes {
		_, has := r.Changes[k].Batch.Level(p)
		known = known && has
	}
	_, has := r.Stream.Batch.Level(p)
	return known && (r.Stream.Flow == 0 || has)
}

// fill puts so many times the levels into a row.
func (m *motion) fill(row []float64, of tested.Levels, times float64) {
	for k, l := range m.levels {
		if x, has := of.Of(l.Parameter()); has {
			row[rowLevels+k] = x.Base() * times
		}
	}
}

// name returns what the level at a place in the row, counted from the first
// level, is called.
func (m *motion) name(k int) string { return capital(string(m.levels[k].Parameter())) }

// massOf returns the mass of as much water with so much salt in it, in g, as fills
// the tank to its mark, from a mass that is not far from it: M = ρ(S) V with
// S = salt/M, by Newton's method with the slope of the ocean's density,
//
//	dM/dsalt at one mass = V ∂ρ/∂S / M,   ∂ρ/∂S ≈ 0.76 kg/m³ per g/kg
//
// which is right to some per cent: each round gains three digits or four.
func (m *motion) massOf(salt, near float64) float64 {
	mass := near
	for range densityRounds {
		s := 1000 * salt / mass
		off := teos10.DensityExact(units.Absolute(s), m.temperature, 0).Mass(units.Volume(m.litres)).Grams() - mass
		step := off / (1 + densitySlope*s*m.litres/mass)
		mass += step
		if math.Abs(step) <= closeEnough*mass {
			break
		}
	}
	return mass
}

const (
	densityRounds = 12
	densitySlope  = 0.76  // g/L per g/kg
	closeEnough   = 1e-12 // after which a round is right to the last digits
)

// begin returns the row at the start.
func (m *motion) begin(r *Routine) []float64 {
	v := make([]float64, rowLevels+len(m.levels))
	v[rowMass], v[rowSalt] = r.Tank.Portion.Mass.Grams(), r.Tank.Portion.Salt().Grams()
	m.fill(v, r.Tank.Levels, m.litres)
	return v
}

// rate returns the share that goes in a short time, per day of it:
//
//	ln 2 / half-life,   or -ln(1 - share gone after a day)
func (l *Loss) rate() float64 {
	if l.Rate > 0 {
		return l.Rate
	}
	if l.HalfLife > 0 {
		return math.Ln2 / inDays(l.HalfLife)
	}
	return -math.Log1p(-l.PerDay.Value())
}

func inDays(d time.Duration) float64 { return float64(d) / float64(24*time.Hour) }

// check refuses a routine that no tank can be kept by, and says all that is wrong
// with it.
func (r *Routine) check() error {
	list := []error{
		r.Tank.Check("tank"),
		r.PerDay.CheckRates("perDay"),
		input.NotNegative("evaporation", float64(r.Evaporation), "L/h"),
		r.TopOff.check(),
		r.Pumped.Check("pumped"),
		input.NotNegative("stream.flow", float64(r.Stream.Flow), "L/h"),
	}
	for i := range r.Doses {
		list = append(list, r.Doses[i].check(input.At("doses", i)))
	}
	for i := range r.Changes {
		list = append(list, r.Changes[i].check(input.At("changes", i), r.Tank.Volume()))
	}
	if r.Stream.Flow > 0 {
		list = append(list, r.Stream.Batch.CheckKind("stream.batch"))
	}
	for i := range r.Losses {
		list = append(list, r.Losses[i].check(input.At("losses", i), r))
	}
	return input.Join(list...)
}

func (t *TopOff) check() error {
	switch {
	case t.Hand < 0:
		return input.Bad("topOff.hand", t.Hand.String(), "the time from one filling up to the next, or zero for a top-off "+
			"that is automatic")
	case t.None && t.Hand > 0:
		return input.Bad("topOff", "none and by hand", "one of them")
	}
	return t.Water.Check("topOff.water")
}

func (d *Dose) check(field string) error {
	return input.Join(
		d.Levels.Check(field+".levels"),
		input.NotNegative(field+".salt", float64(d.Salt), "g"),
		times(field, d.First, d.Every))
}

func (c *Renewal) check(field string, tank units.Volume) error {
	return input.Join(
		inside(field+".swap", c.Swap, tank),
		c.Batch.CheckKind(field+".batch"),
		times(field, c.First, c.Every))
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

func (l *Loss) check(field string, r *Routine) error {
	if !r.known(l.Of) {
		return input.Bad(field+".of", input.Quoted(string(l.Of)), "a level that is known in the tank and in all new water")
	}
	return l.checkRate(field)
}

// checkRate refuses a loss that does not say how fast.
func (l *Loss) checkRate(field string) error {
	given := 0
	for _, is := range [...]bool{l.HalfLife != 0, l.PerDay.Value() != 0, l.Rate != 0} {
		if is {
			given++
		}
	}
	switch {
	case l.HalfLife < 0:
		return input.Bad(field+".halfLife", l.HalfLife.String(), "a time above zero")
	case given > 1 && l.Rate == 0:
		return input.Bad(field, "a half-life and a share", "one of them")
	case given > 1:
		return input.Bad(field, "a rate and something else", "one of them")
	case l.Rate != 0:
		return input.Positive(field+".rate", l.Rate, "a day")
	case l.HalfLife == 0 && !(l.PerDay.Value() > 0 && l.PerDay.Value() < 1):
		return input.Bad(field+".perDay", l.PerDay.String(), "above 0 and below 100 %, or a half-life or a rate")
	}
	return nil
}
