package dilution

import (
	"math"
	"slices"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Goal is what a water should come to. Nitrate, phosphate and ammonia should
// come down to their level, or lie below it already; salinity and all others
// should come to theirs from either side. What is zero or not known is no goal.
//
// A level that is to rise is easier added than changed: it asks for changes of
// water only if nothing else does, and what it lacks after them is listed.
type Goal struct {
	Salinity units.PracticalSalinity
	Levels
}

// Swing is how far each parameter may move, up or down. What is zero or not
// known has no limit.
type Swing struct {
	Salinity    units.PracticalSalinity
	Temperature units.TemperatureDifference
	PH          float64        // needs the DIC of tank and batch
	Share       units.Fraction // of the water that is new
	Levels
}

// Limit is a swing that must not be passed within any stretch of time. Origin
// tells where it comes from: a paper, or "common practice".
type Limit struct {
	Swing
	Within time.Duration
	Origin string
}

// Usual returns limits for a tank of corals and fish: what the hobby holds to be
// gentle (common practice; the figures differ from keeper to keeper, and none is
// a limit of physiology).
func Usual() []Limit {
	return []Limit{
		{Swing{Temperature: advice.TemperaturePerHour, PH: advice.PHPerHour}, time.Hour, advice.CommonPractice},
		{Swing{
			Salinity: units.Practical(advice.SalinityPerDay), Temperature: advice.TemperaturePerDay, PH: advice.PHPerDay,
			Share: advice.SharePerDay,
			Levels: Levels{
				Alkalinity: Known(advice.AlkalinityPerDay),
				Calcium:    Known(advice.CalciumPerDay),
				Magnesium:  Known(advice.MagnesiumPerDay),
			},
		}, 24 * time.Hour, advice.CommonPractice},
	}
}

// Manner is how the water is changed.
type Manner uint8

// The manners of changing water.
const (
	AtOnce       Manner = iota // one change
	InSteps                    // equal changes, one every so often
	Continuously               // fresh water flows in while tank water runs off
)

// Course is a way to a goal by changing water.
type Course struct {
	Tank   State
	Batch  State // the new water; its volume is what one mixing vessel holds
	Goal   Goal
	Limits []Limit // Usual(), or your own; none for none
	Manner Manner
	Every  time.Duration // from change to change, in steps
	Flow   units.Flow    // at most so fast, continuously
	Heater units.Power   // warms a batch that is too cold; 0 if there is none
}

// CoursePlan is the answer to a Course.
type CoursePlan struct {
	Changes  int           // 1 at once, 0 continuously
	Each     units.Volume  // swapped at each change
	Flow     units.Flow    // of a continuous change
	Duration time.Duration // from the first change to the last, or of the flow
	Total    units.Volume  // of new water, at the temperature at which it is poured
	Vessels  int           // how often the mixing vessel has to be filled for it

	// BatchFrom and BatchTo bound the temperature of the new water. If the batch is
	// outside, it has to come to that of the tank first; Warm is what that takes
	// of the heater, for one vessel.
	BatchFrom, BatchTo units.Temperature
	Adjust             bool
	Warm               mix.HeatPlan
	Hold               units.Power // that new water takes from the heater of the tank while it flows in

	Steps  []Step // after each change, or a dozen moments of the flow
	After  State
	Slowed string // the limit that sets the pace, or nothing
	Lacks  Levels // what no change of this water brings: still to be added, per litre

	Assumptions []string
	Cautions    []advice.Caution
}

// Step is a moment of a course.
type Step struct {
	At    time.Duration
	State State // after the change
}

// mostSteps is where a course in steps is given up.
const mostSteps = 2000

// PlanCourse works out how much water to change for a goal, and how gently, so
// that no limit is passed. Steps are equal, and as few as the limits allow; a
// flow is as fast as they allow.
//
// A goal beyond the new water cannot be reached by changing water: what has to be
// added is listed as lacking, what would have to be taken away is an error. A
// goal that equals the new water is an error too, because old water never leaves
// entirely. If a change at once passes a limit, the error names it.
func PlanCourse(c Course) (CoursePlan, error) {
	if err := c.check(); err != nil {
		return CoursePlan{}, err
	}
	// First with new water at the temperature of the tank. If its own serves as
	// well, it stays.
	level := c
	var err error
	level.Batch, err = c.Batch.at(c.Tank.Water.Temperature())
	if err != nil {
		return CoursePlan{}, err
	}
	aims, err := level.aims()
	if err != nil {
		return CoursePlan{}, err
	}
	p, err := level.plan(aims)
	if err != nil {
		return CoursePlan{}, err
	}
	if len(aims) > 0 && !(c.short(&p.After, aims) <= 1e-9) {
		return CoursePlan{}, input.Bad("goal", "less than a hair short of the new water", "a goal that changing water reaches: some of the old water always stays. Make the batch pass the goal, or aim a little short of it")
	}
	p.BatchFrom, p.BatchTo = c.span(&p)
	if t := c.Batch.Water.Temperature(); t.Celsius() >= p.BatchFrom.Celsius() && t.Celsius() <= p.BatchTo.Celsius() {
		own, err := c.plan(aims)
		if err == nil && own.Changes == p.Changes && c.short(&own.After, aims) <= 1e-9 {
			own.BatchFrom, own.BatchTo = p.BatchFrom, p.BatchTo
			p = own
		} else {
			p.Adjust = true
		}
	} else {
		p.Adjust = true
	}
	if p.Adjust && c.Heater > 0 {
		p.Warm, err = mix.Heat(mix.Heating{Water: c.Batch.Water, To: c.Tank.Water.Temperature(), Heater: c.Heater})
		if err != nil {
			return CoursePlan{}, err
		}
	}
	p.Lacks = c.lacks(&p.After)
	p.Vessels = int(math.Ceil(float64(p.Total/c.Batch.Water.Volume()) - 1e-9))
	p.Assumptions = c.assumptions(&p)
	p.Cautions = courseCautions(&c, &p)
	return p, nil
}

// at returns the same water at another temperature.
func (s State) at(t units.Temperature) (State, error) {
	w, err := s.Water.At(t)
	if err != nil {
		return s, err
	}
	// Levels are per litre, and the litre changes.
	warm := w.OfMass(s.Water.Mass)
	grown := float64(s.Water.Density() / warm.Density())
	out := State{Water: warm, DIC: s.DIC, Levels: s.names()}
	for i := range out.count() {
		if m := s.get(i); m.known {
			out.set(i, Known(m.value/grown))
		}
	}
	return out, nil
}

// check refuses what no course can start from.
func (c *Course) check() error {
	if err := input.Positive("tank", float64(c.Tank.Water.Volume()), "L"); err != nil {
		return err
	}
	if err := input.Positive("batch", float64(c.Batch.Water.Volume()), "L"); err != nil {
		return err
	}
	if err := measured(c.Tank.Water, c.Batch.Water.Sample); err != nil {
		return err
	}
	if err := c.Tank.check("tank"); err != nil {
		return err
	}
	if err := c.Batch.check("batch"); err != nil {
		return err
	}
	if err := c.Goal.check("goal"); err != nil {
		return err
	}
	if err := input.NotNegative("goal.salinity", c.Goal.Salinity.Value(), ""); err != nil {
		return err
	}
	for i := range c.Limits {
		if err := c.Limits[i].check(); err != nil {
			return err
		}
	}
	if err := input.NotNegative("heater", float64(c.Heater), "W"); err != nil {
		return err
	}
	switch c.Manner {
	case AtOnce:
		return nil
	case InSteps:
		if !(c.Every > 0) {
			return input.Bad("every", c.Every.String(), "the time from change to change")
		}
		return nil
	case Continuously:
		return input.Positive("flow", float64(c.Flow), "L/h, the most that the pump gives")
	}
	return input.Bad("manner", input.Number(float64(c.Manner)), "AtOnce, InSteps or Continuously")
}

func (l *Limit) check() error {
	if !(l.Within > 0) {
		return input.Bad("limit.within", l.Within.String(), "a time above zero")
	}
	for _, x := range [...]struct {
		field string
		value float64
	}{{"salinity", l.Salinity.Value()}, {"temperature", float64(l.Temperature)}, {"pH", l.PH}, {"share", float64(l.Share)}} {
		if err := input.NotNegative("limit."+x.field, x.value, ""); err != nil {
			return err
		}
	}
	for i := range l.count() {
		if m := l.get(i); m.known && !(m.value > 0 && !math.IsInf(m.value, 0)) {
			return input.Bad("limit."+l.field(i), input.Number(m.value), "above zero: a level that may not move at all allows no change of water")
		}
	}
	return nil
}

// aim is one goal that new water brings nearer.
type aim struct {
	level int // salinity is -1
	goal  float64
	falls bool
	left  Remaining // of the old water, when it is reached
}

// added tells whether the goal is to have more of what could as well be added.
func (a aim) added() bool { return !a.falls && a.level != salinity }

const salinity = -1

// falling tells whether less of a level is always as good.
func falling(level int) bool { return level == nitrate || level == phosphate || level == ammonia }

// aims sorts the goals: those that new water brings nearer are returned,
// those that are reached or want something added are left out, and the impossible
// are an error.
func (c *Course) aims() ([]aim, error) {
	var list []aim
	add := func(level int, field string, old, fresh, goal float64) error {
		switch {
		case old == goal, falling(level) && old <= goal:
			return nil
		case goal > math.Max(old, fresh) && level == salinity:
			return input.Bad("goal."+field, input.Number(goal), "no more than the new water has, "+input.Number(fresh)+": mix it saltier")
		case goal > math.Max(old, fresh):
			return nil // lacks
		case goal < math.Min(old, fresh):
			return input.Bad("goal."+field, input.Number(goal), "no less than the new water has, "+input.Number(fresh))
		case goal == fresh:
			return input.Bad("goal."+field, input.Number(goal), "a goal short of the new water at "+input.Number(fresh)+": some of the old water always stays. Make the batch pass the goal, or aim a little short of it")
		}
		left, err := For(old, fresh, goal)
		list = append(list, aim{level, goal, old > goal, left})
		return err
	}
	if s := c.Goal.Salinity.Value(); s > 0 {
		old, fresh := c.Tank.Water.Practical().Value(), c.Batch.Water.Practical().Value()
		if err := add(salinity, "salinity", old, fresh, s); err != nil {
			return nil, err
		}
	}
	for i := range c.Goal.count() {
		m := c.Goal.get(i)
		if !m.known {
			continue
		}
		old, fresh := c.Goal.find(&c.Tank.Levels, i), c.Goal.find(&c.Batch.Levels, i)
		if !old.known || !fresh.known {
			return nil, input.Bad("goal."+c.Goal.field(i), input.Number(m.value), "a level that is known in the tank and in the new water")
		}
		if err := add(i, c.Goal.field(i), old.value, fresh.value, m.value); err != nil {
			return nil, err
		}
	}
	if slices.ContainsFunc(list, func(a aim) bool { return !a.added() }) {
		list = slices.DeleteFunc(list, aim.added)
	}
	return list, nil
}

// short returns how far a water is from the goals, as a share of each goal:
// zero or less if all are reached.
func (c *Course) short(s *State, aims []aim) float64 {
	worst := math.Inf(-1)
	for _, a := range aims {
		is := s.Water.Practical().Value()
		if a.level != salinity {
			is = c.Goal.find(&s.Levels, a.level).value
		}
		d := is - a.goal
		if !a.falls {
			d = -d
		}
		worst = math.Max(worst, d/math.Max(math.Abs(a.goal), 1e-3))
	}
	return worst
}

// plan plans the course with the batch as it is.
func (c *Course) plan(aims []aim) (CoursePlan, error) {
	if len(aims) == 0 {
		return CoursePlan{After: c.Tank}, nil
	}
	left := Remaining(1)
	for _, a := range aims {
		left = min(left, a.left)
	}
	switch c.Manner {
	case InSteps:
		return c.inSteps(left, aims)
	case Continuously:
		return c.flowing(left, aims)
	}
	steps := c.steps(1, left, aims)
	if l, what, _ := c.worst(steps, 1); l != nil {
		return CoursePlan{}, refused(l, what, "goes too far at once for the goal: change in steps, or prepare the batch nearer to the tank")
	}
	return c.planOf(steps), nil
}

// refused is the error for a limit that no course keeps.
func refused(l *Limit, what, why string) error {
	return input.Bad("limits", what+" within "+hours(l.Within)+" ("+l.Origin+")", "a limit that leaves room: it "+why)
}

func hours(d time.Duration) string {
	if h := d.Hours(); h != 24 {
		return input.Number(h) + " h"
	}
	return "a day"
}

// steps is a course of equal changes: the states between which it moves.
type steps struct {
	each   units.Volume
	before []State // the first is the tank; later ones have its temperature again
	after  []State
}

// steps returns n equal changes that just reach the goals.
func (c *Course) steps(n int, left Remaining, aims []aim) steps {
	tank := c.Tank.Water.Volume()
	walk := func(each units.Volume) steps {
		s := steps{each: each, before: make([]State, n), after: make([]State, n)}
		now := c.Tank
		for i := range n {
			s.before[i] = now
			s.after[i] = c.swap(&now, each)
			if i < n-1 {
				now, _ = s.after[i].at(c.Tank.Water.Temperature())
			}
		}
		return s
	}
	short := func(v float64) float64 {
		s := walk(units.Volume(v))
		return c.short(&s.after[n-1], aims)
	}
	guess := float64(left.ShareEach(n)) * float64(tank)
	lo, hi := 0.99*guess, math.Min(1.01*guess, float64(tank))
	v, ok := solve.Brent(short, lo, hi, 1e-12*guess)
	if !ok {
		v, ok = solve.Brent(short, 0, float64(tank), 1e-12*float64(tank))
	}
	if !ok {
		v = float64(tank)
	}
	return walk(units.Volume(v))
}

// swap returns the tank after a change.
func (c *Course) swap(tank *State, v units.Volume) State {
	v = min(v, tank.Water.Volume())
	water := seawater.Blend(rest(tank.Water, v), c.Batch.Water.OfVolume(v))
	return after(tank, &c.Batch, v, water)
}

// worst returns the limit that a course in steps passes by most, and what moves
// how far; nil if it keeps all.
func (c *Course) worst(s steps, every time.Duration) (limit *Limit, what string, by float64) {
	by = 1 + 1e-9
	share := float64(s.each / c.Tank.Water.Volume())
	look := func(l *Limit, from, to *State, changes int, temperature bool) {
		w, x := l.passed(from, to, temperature)
		if y := float64(Repeated(units.Fraction(share), changes).Share() / l.Share); l.Share > 0 && y > x {
			w, x = l.newWater(), y
		}
		if x > by {
			limit, what, by = l, w, x
		}
	}
	for i := range c.Limits {
		l := &c.Limits[i]
		inside := 1 // changes within the time of the limit
		if n := len(s.before); n > 1 {
			inside = int(min(math.Ceil(float64(l.Within)/float64(every)), float64(n)))
		}
		for first := range s.before {
			look(l, &s.before[first], &s.after[first], 1, true)
			if last := first + inside - 1; inside > 1 && last < len(s.after) {
				look(l, &s.before[first], &s.after[last], inside, false) // the heater has been at work in between
			}
		}
	}
	return limit, what, by
}

func (l *Limit) newWater() string { return "new water by " + l.Share.String() }

// passed returns the largest of the moves between two waters, as a multiple of
// what the limit allows, and says what moves. A move that is not known does not
// count.
func (l *Limit) passed(from, to *State, temperature bool) (what string, by float64) {
	look := func(name, unit string, a, b, allowed float64) {
		if x := math.Abs(b-a) / allowed; allowed > 0 && x > by {
			what, by = name+" by "+input.Number(allowed)+unit, x
		}
	}
	look("salinity", "", from.Water.Practical().Value(), to.Water.Practical().Value(), l.Salinity.Value())
	if temperature {
		look("temperature", " K", from.Water.Temperature().Celsius(), to.Water.Temperature().Celsius(), float64(l.Temperature))
	}
	if l.PH > 0 {
		a, errA := from.Chemistry()
		b, errB := to.Chemistry()
		if errA == nil && errB == nil {
			look("pH", "", a.PH.Value(), b.PH.Value(), l.PH)
		}
	}
	for i := range l.count() {
		a, b, m := l.find(&from.Levels, i), l.find(&to.Levels, i), l.get(i)
		if m.known && a.known && b.known {
			name, unit, one := l.name(i)
			look(name, " "+unit, a.value/one, b.value/one, m.value/one)
		}
	}
	return what, by
}

// inSteps finds the fewest equal steps that keep the limits, by doubling and
// halving.
func (c *Course) inSteps(left Remaining, aims []aim) (CoursePlan, error) {
	fits := func(n int) (steps, *Limit, string) {
		s := c.steps(n, left, aims)
		l, what, _ := c.worst(s, c.Every)
		return s, l, what
	}
	few, many := 0, 1 // few is too few
	slowed := ""
	s, l, what := fits(many)
	for l != nil {
		slowed = what + " within " + hours(l.Within) + " (" + l.Origin + ")"
		if many > mostSteps {
			return CoursePlan{}, refused(l, what, "makes the goal take more than "+input.Number(mostSteps)+" changes: prepare the batch nearer to the tank, or change less often")
		}
		few, many = many, 2*many
		s, l, what = fits(many)
	}
	for many-few > 1 {
		n := (few + many) / 2
		if t, l, what := fits(n); l == nil {
			many, s = n, t
		} else {
			few, slowed = n, what+" within "+hours(l.Within)+" ("+l.Origin+")"
		}
	}
	p := c.planOf(s)
	p.Slowed = slowed
	return p, nil
}

// planOf puts a course in steps into a plan.
func (c *Course) planOf(s steps) CoursePlan {
	n := len(s.after)
	p := CoursePlan{
		Changes: n, Each: s.each, Total: units.Volume(n) * s.each,
		Duration: time.Duration(n-1) * c.Every, After: s.after[n-1],
	}
	for i, a := range s.after {
		p.Steps = append(p.Steps, Step{time.Duration(i) * c.Every, a})
	}
	return p
}

// moments is how many states of a flow the plan shows and the limits are
// tried at.
const moments = 12

// longestFlow is where a continuous change is given up.
const longestFlow = 2 * 365 * 24 * time.Hour

// flowing finds the fastest flow that keeps the limits. What is left of the
// old water after a time is that of a stirred tank, exp(-q t/V), and the water is
// then the blend of that much old and the rest new.
func (c *Course) flowing(left Remaining, aims []aim) (CoursePlan, error) {
	tank := c.Tank.Water.Volume()
	at := func(r Remaining) State { return c.swap(&c.Tank, units.Volume(1-r)*tank) }
	short := func(r float64) float64 { s := at(Remaining(r)); return c.short(&s, aims) }
	if r, ok := solve.Brent(short, 0.99*float64(left), math.Min(1.01*float64(left), 1), 1e-13); ok {
		left = Remaining(r)
	}
	takes := func(q units.Flow) time.Duration { return q.Time(left.Feed(tank)) }
	passed := func(q units.Flow) (*Limit, string) {
		all := takes(q)
		for i := range c.Limits {
			l := &c.Limits[i]
			within := min(l.Within, all)
			if fresh := Continuous(q.Volume(within), tank).Share(); l.Share > 0 && fresh > l.Share*(1+1e-9) {
				return l, l.newWater()
			}
			for k := range moments {
				start := time.Duration(float64(all-within) * float64(k) / (moments - 1))
				from, to := at(Continuous(q.Volume(start), tank)), at(Continuous(q.Volume(start+within), tank))
				if what, by := l.passed(&from, &to, true); by > 1+1e-9 {
					return l, what
				}
				if all == within {
					break
				}
			}
		}
		return nil, ""
	}
	p := CoursePlan{Flow: c.Flow}
	if l, what := passed(c.Flow); l != nil {
		p.Slowed = what + " within " + hours(l.Within) + " (" + l.Origin + ")"
		slow := units.Flow(left.Feed(tank).Litres() / longestFlow.Hours())
		if l, what := passed(slow); l != nil || slow >= c.Flow {
			return CoursePlan{}, refused(l, what, "makes the goal take years: prepare the batch nearer to the tank")
		}
		fast := c.Flow
		for fast/slow > 1+1e-6 {
			q := units.Flow(math.Sqrt(float64(fast) * float64(slow)))
			if l, what := passed(q); l == nil {
				slow = q
			} else {
				fast, p.Slowed = q, what+" within "+hours(l.Within)+" ("+l.Origin+")"
			}
		}
		p.Flow = slow
	}
	p.Total = left.Feed(tank)
	p.Duration = p.Flow.Time(p.Total)
	for k := 1; k <= moments; k++ {
		t := time.Duration(float64(p.Duration) * float64(k) / moments)
		p.Steps = append(p.Steps, Step{t, at(Continuous(p.Flow.Volume(t), tank))})
	}
	p.After = p.Steps[moments-1].State
	b := c.Batch.Water
	flow := float64(b.OfVolume(units.Volume(p.Flow)).Mass.Kilograms()) / 3600 // kg/s
	p.Hold = units.Power(math.Max(0, flow*float64(b.HeatCapacity())*float64(c.Tank.Water.Temperature().Sub(b.Temperature()))))
	return p, nil
}

// span returns the temperatures of new water for which no step moves the tank
// by more than the limits allow, up to what heat capacities differ by.
func (c *Course) span(p *CoursePlan) (from, to units.Temperature) {
	room := math.Inf(1)
	for _, l := range c.Limits {
		if !(l.Temperature > 0) {
			continue
		}
		share := float64(p.Each / c.Tank.Water.Volume())
		if p.Flow > 0 {
			share = float64(Continuous(p.Flow.Volume(min(l.Within, p.Duration)), c.Tank.Water.Volume()).Share())
		}
		if share > 0 {
			room = math.Min(room, float64(l.Temperature)/share)
		}
	}
	t := c.Tank.Water.Temperature()
	return t.Add(units.TemperatureDifference(math.Max(-room, -2-t.Celsius()))), t.Add(units.TemperatureDifference(math.Min(room, 40-t.Celsius())))
}

// lacks returns what the water still lacks of its goals.
func (c *Course) lacks(s *State) Levels {
	out := c.Goal.names()
	for i := range out.count() {
		goal, is := c.Goal.get(i), c.Goal.find(&s.Levels, i)
		if d := goal.value - is.value; goal.known && is.known && !falling(i) && d > 1e-9*math.Abs(goal.value) {
			out.set(i, Known(d))
		}
	}
	return out
}

// assumptions lists what the plan takes for granted, the limits that could not
// be looked after among it.
func (c *Course) assumptions(p *CoursePlan) []string {
	list := []string{"The tank is well mixed, nothing reacts, and what animals use or make in the meantime is not counted."}
	if p.Changes > 1 {
		list = append(list, "Between the changes the tank comes back to its temperature, and exchanges no gas with the air.")
	}
	if p.Adjust {
		list = append(list, "The new water is brought to the temperature of the tank first.")
	}
	for i := range c.Limits {
		l := &c.Limits[i]
		for k := range l.count() {
			if l.get(k).known && !(l.find(&c.Tank.Levels, k).known && l.find(&c.Batch.Levels, k).known) {
				name, _, _ := l.name(k)
				list = append(list, name+" is not known in both waters: its limit could not be kept in view.")
			}
		}
		if _, err := c.Tank.Chemistry(); l.PH > 0 && err != nil {
			list = append(list, "The pH of the tank is not known: its limit could not be kept in view.")
		} else if _, err := c.Batch.Chemistry(); l.PH > 0 && err != nil {
			list = append(list, "The pH of the new water is not known: its limit could not be kept in view.")
		}
	}
	for i := range c.Goal.count() {
		goal, was, is := c.Goal.get(i), c.Goal.find(&c.Tank.Levels, i), c.Goal.find(&p.After.Levels, i)
		if goal.known && !falling(i) && (goal.value-was.value)*(goal.value-is.value) < -1e-9*goal.value*goal.value {
			name, unit, one := c.Goal.name(i)
			list = append(list, name+" goes past its goal, to "+input.Number(is.value/one)+" "+unit+", because another goal asks for more new water.")
		}
	}
	return list
}
