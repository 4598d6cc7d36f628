package control

import (
	"math"
	"time"

	"example.org/wellmixed/units"
)

// Kind is what an additive carries, as far as it precipitates with others. A container may
// carry several: Calcium|Magnesium.
type Kind uint8

// The kinds.
const (
	Alkalinity Kind = 1 << iota // carbonate, bicarbonate
	Calcium
	Magnesium
	Lime // calcium hydroxide: calcium, alkalinity and a high pH at once
	Other

	allKinds = 1<<iota - 1
)

const kindsOfAll = 5

// precipitates lists, for each kind by its bit, what it must not meet undiluted: calcium
// and magnesium carbonate, and with lime the hydroxide of magnesium. Common practice.
var precipitates = [kindsOfAll]Kind{
	Calcium | Magnesium | Lime,       // Alkalinity
	Alkalinity | Lime,                // Calcium
	Alkalinity | Lime,                // Magnesium
	Alkalinity | Calcium | Magnesium, // Lime
	0,
}

// Precipitates tells whether two additives must not be in the same water undiluted.
func (k Kind) Precipitates(with Kind) bool {
	for i, bad := range precipitates {
		if k>>i&1 == 1 && bad&with != 0 {
			return true
		}
	}
	return false
}

// TimeApart returns how long to wait between two additives that precipitate, so that of
// the first no more than a share is left undiluted where the second goes in: the mixing
// chamber, of a volume, is flushed by the flow of the return pump as a stirred tank.
//
//	symbol   t = V/Q ln(1/x)
//	source   Levenspiel 1999, Chemical Reaction Engineering, chapter 13
//
// It is negative for input that cannot be.
func TimeApart(chamber units.Volume, flow units.Flow, left units.Fraction) time.Duration {
	x := left.Value()
	if !(chamber > 0 && flow > 0 && x > 0 && x < 1) {
		return -1
	}
	h := float64(chamber) / float64(flow) * math.Log(1/x)
	if !(h < 24*366) {
		return -1
	}
	return time.Duration(h * float64(time.Hour))
}

// Interlock keeps dosing pumps apart: one runs at a time, and what precipitates waits for
// Apart, counted from when the pump must have stopped. Step it before the dosers of the same
// turn. Its zero value lets nothing run, and after a start all kinds count as just dosed.
type Interlock struct {
	Apart time.Duration // above the watchdog, or nothing runs; see TimeApart

	tick     ticker
	watchdog time.Duration
	since    [kindsOfAll]time.Duration // that the kind was dosed; negative while it may go on
	running  Kind                      // now
	fresh    Kind                      // told by Dosing since the last step
	hand     Kind                      // told by Dosing before this turn
}

// Step passes the time, counting no more for a gap than the watchdog of the pumps.
func (l *Interlock) Step(now Clock, watchdog time.Duration) {
	p := l.tick.step(now, watchdog)
	for i := range l.since {
		l.since[i] = min(l.since[i]+p.credit, 366*day)
	}
	l.running, l.hand, l.fresh, l.watchdog = 0, l.fresh, 0, watchdog
}

// May tells whether an additive may be dosed now: no other pump runs, and what it
// precipitates with was dosed long enough ago.
func (l *Interlock) May(k Kind) bool {
	if !l.sane() || l.running != 0 || k == 0 {
		return false
	}
	for i, s := range l.since {
		if s < l.Apart && k.Precipitates(1<<i) {
			return false
		}
	}
	return true
}

// sane tells that a step of the watchdog is less than Apart.
func (l *Interlock) sane() bool { return l.watchdog > 0 && l.Apart > l.watchdog }

// Dosing tells that an additive is dosed now by hand, or for up to a watchdog by a pump that
// is no Doser, such as a top-off of lime water. A dose that runs and precipitates with it
// ends in the next turn.
func (l *Interlock) Dosing(k Kind) {
	l.fresh |= k
	l.dosing(k, l.watchdog)
}

// dosing tells that a pump runs for so long from now.
func (l *Interlock) dosing(k Kind, told time.Duration) {
	l.running |= k
	for i := range l.since {
		if k>>i&1 == 1 {
			l.since[i] = -told
		}
	}
}

// DoserSettings describe a pump that doses a volume a day in small parts.
type DoserSettings struct {
	Watchdog time.Duration

	Kind   Kind
	PerDay units.Volume
	Each   units.Volume // one dose
	DayCap units.Volume // in any 24 h, whatever happens

	Flow            units.Flow // measured: dilution.CalibratePump
	FlowUncertainty units.Flow // standard; two of it are counted in every promise

	Container units.Volume // full
	Line      units.Volume // in the tube, what is left of one additive after a change for another

	PHMost         float64          // no dose at or above it, nor without a good reading; 0 without a guard
	AlkalinityMost units.Alkalinity // the same of alkalinity
}

// Check returns what is wrong with the settings.
func (s DoserSettings) Check() Refusal {
	flow, watchdog := s.Flow.LitresPerHour(), s.Watchdog.Seconds()
	each, perDay := s.Each.Litres(), s.PerDay.Litres()
	step := flow * watchdog / 3600
	kinds := float64(allKinds)
	if s.Kind.Precipitates(s.Kind) { // in one bottle: no number is right
		kinds = 0
	}
	d := [...]demand{
		{SetWatchdog, watchdog, quick, watchful},
		{SetKind, float64(s.Kind), 1, kinds},
		{SetFlow, flow, little, much},
		{SetFlowUncertainty, s.FlowUncertainty.LitresPerHour(), 0, flow / 2},
		{SetPerDay, perDay, 0, much},
		{SetEach, each, little, math.Max(perDay, little)},
		// In the 25 hours begun that count there is room for what they bring, one dose more, and a
		// late step.
		{SetDayCap, s.DayCap.Litres(), perDay*25/24 + 2*each + 2*step, much},
		{SetContainer, s.Container.Litres(), max(2*each, 4*step), much},
		{SetLine, s.Line.Litres(), 0, s.Container.Litres()},
		{SetPHMost, s.PHMost, 0, 14},
		{SetAlkalinityMost, s.AlkalinityMost.DKH(), 0, 100},
	}
	return first(d[:])
}

// WorstCase returns the most that one fault lets into the tank: with a pump whose relay
// does not open all of a full container, otherwise the cap of a day.
func (s DoserSettings) WorstCase(f Fault) units.Volume {
	more := units.Volume(1 + 2*float64(s.FlowUncertainty/s.Flow))
	switch {
	case !s.Check().OK() || f >= faults:
		return units.Volume(math.NaN())
	case f == PumpStuckOn || f == Siphon:
		return s.Container
	case f == ControllerHung || f == ClockJumps:
		return min(s.Container, 2*s.Flow.Volume(s.Watchdog)*more)
	}
	return min(s.Container, s.DayCap*more)
}

// DoserInput is what the firmware knows at a step.
type DoserInput struct {
	PH          Reading
	Alkalinity  Reading // dKH
	Circulating bool    // the return pump runs: nothing is dosed into standing water
	Hold        bool    // a person works at the tank
}

// Doser doses. Make it with NewDoser, restore it, and step it with the Interlock of all.
// Its zero value never pumps.
type Doser struct {
	s    DoserSettings
	sane bool
	tick ticker

	alarms   Alarms
	today    dayTotal
	owed     float64 // L, at most one dose: what a power cut kept back is not caught up
	due      float64 // L of the dose that runs
	left     float64 // L in the container, by count
	leftover float64 // L in the tube of what was there before
	before   Kind
	pumping  bool
	told     time.Duration // Decision.For of the last step: the pump ran no longer

	into  time.Duration // the day that runs, of 24 h in which steps came
	dosed float64       // L in it
	less  float64       // L of the last, if it was less than set; or 0
}

// NewDoser returns a doser that does not know what it has dosed today nor what is in its
// container: it waits for Restore, or for a person to Acknowledge and ChangeContainer.
func NewDoser(s DoserSettings) (Doser, Refusal) {
	r := s.Check()
	d := Doser{s: s, sane: r.OK()}
	if !d.sane {
		d.alarms.raise(Refused, float64(r.Setting), 0)
		return d, r
	}
	d.alarms.raise(StateLost, 0, 0)
	d.alarms.begin(0) // its cause is over, and it latches
	return d, r
}

// Alarms returns its alarms.
func (d *Doser) Alarms() *Alarms { return &d.alarms }

// Acknowledge is a person's word that what raised the alarms has been looked at.
func (d *Doser) Acknowledge() { d.alarms.acknowledge() }

// ChangeContainer tells what the container holds now, and what was in the tube before: the
// same kind, or another, which the tube still holds and which is dosed first.
func (d *Doser) ChangeContainer(holds units.Volume, before Kind) {
	d.left = 0
	if x := holds.Litres(); x >= 0 && finite(x) {
		d.left = min(x, d.s.Container.Litres())
	}
	d.before, d.leftover, d.alarms.unsaved = before&allKinds, d.s.Line.Litres(), true
}

// Left returns what is left in the container by count.
func (d *Doser) Left() units.Volume { return units.Volume(d.left) }

// Dosed returns what was dosed in the last 24 h, at the flow of the settings.
func (d *Doser) Dosed() units.Volume { return units.Volume(d.today.sum()) }

// Kind returns what the next dose carries: of the settings, and of what the tube still
// holds.
func (d *Doser) Kind() Kind {
	if d.leftover > 0 {
		return d.s.Kind | d.before
	}
	return d.s.Kind
}

// Step decides whether the pump runs until the next step.
func (d *Doser) Step(now Clock, in DoserInput, lock *Interlock) Decision {
	if !d.sane || lock == nil {
		return Decision{}
	}
	p := d.tick.step(now, d.s.Watchdog)
	d.alarms.begin(p.credit)
	d.today.pass(p.credit)
	if d.pumping {
		v := d.s.Flow.LitresPerHour() * hours(min(p.charge, d.told))
		d.today.add(v)
		d.dosed += v
		d.due -= v
		d.left = max(d.left-v, 0)
		d.leftover = max(d.leftover-v, 0)
	}
	if p.odd {
		d.alarms.raise(ClockOdd, p.charge.Seconds(), d.s.Watchdog.Seconds())
	}
	each := d.s.Each.Litres()
	d.owed = min(d.owed+float64(d.s.PerDay.Litres()*float64(p.credit)/float64(day)), each)
	d.guard(in)
	d.endOfDay(p.credit)
	if d.owed >= each && !d.pumping && !lock.May(d.Kind()) {
		d.alarms.raise(Waiting, d.owed, each)
	}
	may := d.alarms.end() && !p.odd && !in.Hold && in.Circulating
	before := d.pumping
	if wants := d.wants(may, lock); wants && d.today.sum()+d.step() > d.s.DayCap.Litres() {
		d.alarms.raise(DayCap, d.today.sum(), d.s.DayCap.Litres())
		d.pumping = false
	} else {
		d.pumping = wants
	}
	switch {
	case d.pumping && !before:
		d.owed, d.due = d.owed-each, each
	case before && !d.pumping: // what a dose was short of is not made up, what it had too much is
		d.owed += min(d.due, 0)
		d.due = 0
	}
	out := Decision{Pump: d.pumping, Enable: d.pumping, Save: d.alarms.save() || d.pumping != before}
	if d.pumping {
		d.told = max(min(d.s.Watchdog, d.s.Flow.Time(units.Volume(d.due))), time.Millisecond)
		lock.dosing(d.Kind(), d.told)
		out.For = d.told
	}
	return out
}

// enoughOfADay is the share of PerDay, less two doses, below which a day was dosed too little:
// doses that were broken off or waited too long are not made up.
const enoughOfADay = 0.9

// endOfDay notes a day in which less was dosed than set, until the next is over.
func (d *Doser) endOfDay(credit time.Duration) {
	perDay := d.s.PerDay.Litres()
	least := enoughOfADay*perDay - 2*d.s.Each.Litres()
	if d.into += credit; d.into >= day {
		d.less = 0
		if d.dosed < least {
			d.less = max(d.dosed, 1e-300) // nothing is less, too
		}
		d.into, d.dosed = 0, 0
	}
	if d.less > 0 {
		d.alarms.raise(DosedLess, d.less, perDay)
	}
}

// step is the most that comes between two steps.
func (d *Doser) step() float64 { return d.s.Flow.Volume(d.s.Watchdog).Litres() }

// wants tells whether the pump is to run: a dose is due, or not at its end to a millisecond
// of the pump.
func (d *Doser) wants(may bool, lock *Interlock) bool {
	switch {
	case !may:
		return false
	case d.pumping:
		return d.due > d.s.Flow.Volume(time.Millisecond).Litres() && lock.mayGoOn(d.Kind())
	}
	return d.owed >= d.s.Each.Litres() && lock.May(d.Kind())
}

// mayGoOn lets a dose that has begun come to its end unless another pump runs, or something
// that it precipitates with was dosed by hand.
func (l *Interlock) mayGoOn(k Kind) bool {
	return l.sane() && l.running == 0 && k != 0 && !k.Precipitates(l.hand)
}

// guard looks at the container and at the water.
func (d *Doser) guard(in DoserInput) {
	if step := d.step(); d.left < step {
		d.alarms.raise(ContainerEmpty, d.left, step)
	}
	d.alarms.guardPH(in.PH, d.s.PHMost)
	if most := d.s.AlkalinityMost.DKH(); most > 0 && !(in.Alkalinity.good() && in.Alkalinity.Value < most) {
		d.alarms.raise(AlkalinityHigh, in.Alkalinity.Value, most)
	}
}

// guardPH keeps what raises the pH out of water that is high, or not known; without a limit
// it keeps nothing.
func (a *Alarms) guardPH(ph Reading, most float64) {
	switch {
	case !(most > 0):
	case !ph.good():
		a.raise(PHDoubtful, ph.Value, most)
	case !(ph.Value < most):
		a.raise(PHHigh, ph.Value, most)
	}
}

// Save writes what has to outlast a power cut.
func (d *Doser) Save(b *[DoserState]byte) {
	c := create(b[:], stateOfDoser)
	d.fields(&c)
	c.seal(b[:])
}

// Restore takes a state that Save wrote and tells whether it was one. A pump that ran when
// it was written is charged with the rest of its dose. A state that is refused changes
// nothing.
func (d *Doser) Restore(b *[DoserState]byte) bool {
	next := *d
	c := open(b[:], stateOfDoser)
	next.fields(&c)
	each := d.s.Each.Litres()
	holds := d.s.Container.Litres()
	sound := next.owed <= each && next.owed >= -holds && next.due <= each && next.due >= -holds
	if c.failed || !d.sane || !sound || next.before > allKinds {
		return false
	}
	next.alarms.unsaved, next.alarms.acked = next.pumping, false
	if next.pumping {
		rest := max(next.due, 0) + d.step()
		next.pumping, next.due = false, 0
		next.today.add(rest)
		next.left = max(next.left-rest, 0)
	}
	next.owed = min(next.owed, 0) // nothing is caught up
	next.tick = ticker{}
	*d = next
	return true
}

func (d *Doser) fields(c *coder) {
	c.identity(float64(d.s.Kind), d.s.Flow.LitresPerHour())
	c.alarms(&d.alarms)
	c.day(&d.today)
	c.float(&d.owed)
	c.float(&d.due)
	c.amount(&d.left)
	c.amount(&d.leftover)
	c.byte((*byte)(&d.before))
	c.flag(&d.pumping)
	c.duration(&d.into)
	c.amount(&d.dosed)
	c.amount(&d.less)
}
