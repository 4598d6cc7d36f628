package dilution

import (
	"math"
	"slices"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// Goal is what a water should come to. Nitrate, phosphate and ammonia should
// come down to their level, or lie below it already; salinity and all others
// should come to theirs from either side. A salinity of zero is no goal, nor is a
// level that is not in the list.
//
// A level that is to rise is easier added than changed: it asks for changes of
// water only if nothing else does, and what it lacks after them is listed.
type Goal struct {
	Salinity units.PracticalSalinity
	Levels   tested.Levels
}

// check refuses goals that no water can have.
func (g *Goal) check(field string) error {
	return input.Join(input.NotNegative(field+".salinity", g.Salinity.Value(), ""), g.Levels.Check(field))
}

// Manner is how the water is changed.
type Manner uint8

// The manners of changing water.
const (
	AtOnce       Manner = iota // one change
	InSteps                    // equal changes, one every so often
	Continuously               // fresh water flows in while tank water runs off

	manners
)

// String returns "at once", "in steps" or "continuously".
func (m Manner) String() string {
	switch m {
	case AtOnce:
		return "at once"
	case InSteps:
		return "in steps"
	case Continuously:
		return "continuously"
	}
	return "no manner"
}

// MarshalText writes the manner.
func (m Manner) MarshalText() ([]byte, error) { return input.WriteChoice("manner", m, AtOnce, manners) }

// UnmarshalText reads what MarshalText writes.
func (m *Manner) UnmarshalText(text []byte) (err error) {
	*m, err = input.ReadChoice("manner", text, AtOnce, manners)
	return err
}

// Course is a way to a goal by changing water.
type Course struct {
	Tank   tested.Water
	Batch  tested.Water // the new water; its volume is what one mixing vessel holds
	Goal   Goal
	Limits tested.Limits // the zero value: the usual ones
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
	// Hold is what new water that flows in colder takes from the heater of the tank,
	// which holds its temperature; a plan for a flow counts on it.
	Hold units.Power

	Steps  []Step // after each change, or a dozen moments of the flow
	After  tested.Water
	Slowed string        // the limit that sets the pace, or nothing
	Lacks  tested.Levels // what no change of this water brings: still to be added, per litre

	Assumptions []string
	Cautions    []advice.Caution
}

// Step is a moment of a course.
type Step struct {
	At    time.Duration
	Water tested.Water // after the change
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
	for _, w := range [...]*tested.Water{&c.Tank, &c.Batch} {
		if settled, err := w.WithDIC(); err == nil {
			*w = settled
		}
	}
	// First with new water at the temperature of the tank. If its own serves as
	// well, it stays.
	level := c
	var err error
	level.Batch, err = c.Batch.At(c.Tank.Portion.Temperature())
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
		return CoursePlan{}, input.Bad("goal", "less than a hair short of the new water",
			"a goal that changing water reaches: "+alwaysStays)
	}
	p.BatchFrom, p.BatchTo = c.span(&p)
	if t := c.Batch.Portion.Temperature(); t.Celsius() >= p.BatchFrom.Celsius() && t.Celsius() <= p.BatchTo.Celsius() {
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
		p.Warm, err = mix.Heat(mix.Heating{Water: c.Batch.Portion, To: c.Tank.Portion.Temperature(), Heater: c.Heater})
		if err != nil {
			return CoursePlan{}, err
		}
	}
	p.Lacks = c.lacks(&p.After)
	p.Vessels = int(math.Ceil(float64(p.Total/c.Batch.Volume()) - 1e-9))
	p.Assumptions = c.assumptions(&p)
	p.Cautions = courseCautions(&c, &p)
	return p, nil
}

// check refuses what no course can start from.
func (c *Course) check() error {
	return input.Join(
		c.Tank.Check("tank"), c.Batch.Check("batch"), c.Goal.check("goal"), c.Limits.Check("limits"),
		input.NotNegative("heater", float64(c.Heater), "W"), c.checkManner())
}

func (c *Course) checkManner() error {
	switch c.Manner {
	case AtOnce:
		return nil
	case InSteps:
		if !(c.Every > 0 && c.Every < longestCourse/mostSteps) {
			return input.Bad("every", c.Every.String(), "the time from change to change, above zero and below a month")
		}
		return nil
	case Continuously:
		return input.Positive("flow", float64(c.Flow), "L/h, the most that the pump gives")
	}
	return input.Bad("manner", input.Number(float64(c.Manner)), "AtOnce, InSteps or Continuously")
}

// longestCourse keeps the times of a course within what a Duration counts.
const longestCourse = 150 * 365 * 24 * time.Hour

// aim is one goal that new water brings nearer: a level, or the salinity if that
// was not given.
type aim struct {
	level tested.Level
	goal  float64 // practical salinity, or the base of the level
	falls bool
	left  Remaining // of the old water, when it is reached
}

// added tells whether the goal is to have more of what could as well be added.
func (a aim) added() bool { return !a.falls && a.level.Exists() }

// aims sorts the goals: those that new water brings nearer are returned,
// those that are reached or want something added are left out, and the impossible
// are an error.
func (c *Course) aims() ([]aim, error) {
	var list []aim
	add := func(level tested.Level, old, fresh, goal float64) error {
		field, say := "goal.salinity", input.Number
		if level.Exists() {
			field = "goal." + string(level.Parameter())
			say = func(x float64) string { return level.WithBase(x).String() }
		}
		switch {
		case old == goal, level.Parameter().Falls() && old <= goal:
			return nil
		case goal > math.Max(old, fresh) && !level.Exists():
			return input.Bad(field, say(goal), "no more than the new water has, "+say(fresh)+": mix it saltier")
		case goal > math.Max(old, fresh):
			return nil // lacks
		case goal < math.Min(old, fresh):
			return input.Bad(field, say(goal), "no less than the new water has, "+say(fresh))
		case goal == fresh:
			return input.Bad(field, say(goal), "a goal short of the new water at "+say(fresh)+": "+alwaysStays)
		}
		left, err := For(old, fresh, goal)
		list = append(list, aim{level, goal, old > goal, left})
		return err
	}
	if s := c.Goal.Salinity.Value(); s > 0 {
		old, fresh := c.Tank.Portion.Practical().Value(), c.Batch.Portion.Practical().Value()
		if err := add(tested.Level{}, old, fresh, s); err != nil {
			return nil, err
		}
	}
	for _, goal := range c.Goal.Levels {
		old, known := c.Tank.Level(goal.Parameter())
		fresh, also := c.Batch.Level(goal.Parameter())
		if !known || !also {
			return nil, goal.Must("goal", false, "a level that is known in the tank and in the new water")
		}
		if err := add(goal, old.Base(), fresh.Base(), goal.Base()); err != nil {
			return nil, err
		}
	}
	if slices.ContainsFunc(list, func(a aim) bool { return !a.added() }) {
		list = slices.DeleteFunc(list, aim.added)
	}
	return list, nil
}

const alwaysStays = "some of the old water always stays. Make the batch pass the goal, or aim a little short of it"

// short returns how far a water is from the goals, as a share of each goal:
// zero or less if all are reached.
func (c *Course) short(s *tested.Water, aims []aim) float64 {
	worst := math.Inf(-1)
	for _, a := range aims {
		is := s.Portion.Practical().Value()
		if a.level.Exists() {
			l, _ := s.Level(a.level.Parameter())
			is = l.Base()
		}
		d := is - a.goal
		if !a.falls {
			d = -d
		}
		worst = math.Max(worst, d/math.Max(math.Abs(a.goal), least(a.level)))
	}
	return worst
}

// least is the size below which a goal counts as nothing, in the base unit of its
// level: a microgram in a litre, as it were.
func least(l tested.Level) float64 {
	if !l.Exists() {
		return 1e-3
	}
	return 1e-5
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
		return CoursePlan{}, refused(l, what, "goes too far at once for the goal: change in steps, or prepare the batch "+
			"nearer to the tank")
	}
	return c.planOf(steps), nil
}

// refused is the error for a limit that no course keeps.
func refused(l *tested.Limit, what, why string) error {
	return input.Bad("limits", slowed(l, what), "a limit that leaves room: it "+why)
}

// steps is a course of equal changes: the states between which it moves.
type steps struct {
	each   units.Volume
	before []tested.Water // the first is the tank; later ones have its temperature again
	after  []tested.Water
}

// steps returns n equal changes that just reach the goals.
func (c *Course) steps(n int, left Remaining, aims []aim) steps {
	tank := c.Tank.Volume()
	walk := func(each units.Volume) steps {
		s := steps{each: each, before: make([]tested.Water, n), after: make([]tested.Water, n)}
		now := c.Tank
		for i := range n {
			s.before[i] = now
			s.after[i] = c.swap(&now, each)
			if i < n-1 {
				now, _ = s.after[i].At(c.Tank.Portion.Temperature())
			}
		}
		return s
	}
	short := func(v float64) float64 {
		s := walk(units.Volume(v))
		return c.short(&s.after[n-1], aims)
	}
	guess := left.ShareEach(n).Value() * float64(tank)
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
func (c *Course) swap(tank *tested.Water, v units.Volume) tested.Water {
	out, err := swapped(*tank, c.Batch, v)
	if err != nil { // a volume that is none, which no caller has
		return tested.Water{}
	}
	return out
}

// worst returns the limit that a course in steps passes by most, and what moves
// how far; nil if it keeps all.
func (c *Course) worst(s steps, every time.Duration) (limit *tested.Limit, what string, by float64) {
	by = 1 + 1e-9
	share := float64(s.each / c.Tank.Volume())
	look := func(l *tested.Limit, from, to *tested.Water, changes int, temperature bool) {
		w, x := passed(l, from, to, temperature)
		if y := float64(Repeated(units.Share(share), changes).Share().Value() / l.Share.Value()); l.Share.Value() > 0 &&
			y > x {
			w, x = newWater(l), y
		}
		if x > by {
			limit, what, by = l, w, x
		}
	}
	held := c.Limits.List()
	for i := range held {
		l := &held[i]
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

func newWater(l *tested.Limit) string { return "new water by " + l.Share.String() }

// passed returns the largest of the moves between two waters, as a multiple of
// what the limit allows, and says what moves. A move that is not known does not
// count, nor does within a time the fall of what is better gone.
func passed(l *tested.Limit, from, to *tested.Water, temperature bool) (what string, by float64) {
	look := func(name, unit string, a, b, allowed float64) {
		if x := math.Abs(b-a) / allowed; allowed > 0 && x > by {
			what, by = name+" by "+input.Number(allowed)+unit, x
		}
	}
	look("salinity", "", from.Portion.Practical().Value(), to.Portion.Practical().Value(), l.Salinity.Value())
	if temperature {
		look("temperature", " K", from.Portion.Temperature().Celsius(), to.Portion.Temperature().Celsius(),
			float64(l.Temperature))
	}
	if l.PH > 0 {
		a, b := inBoth(from, to)
		before, errA := a.CarbonChemistry()
		after, errB := b.CarbonChemistry()
		if errA == nil && errB == nil {
			look("pH", "", before.PH.Value(), after.PH.Value(), l.PH)
		}
	}
	for _, m := range l.Levels {
		a, knownA := from.Level(m.Parameter())
		b, knownB := to.Level(m.Parameter())
		if !knownA || !knownB || l.Within > 0 && m.Parameter().Falls() && b.Base() <= a.Base() {
			continue
		}
		allowed, unit := m.Counted()
		x, _ := m.WithBase(a.Base()).Counted()
		y, _ := m.WithBase(b.Base()).Counted()
		look(capital(string(m.Parameter())), " "+unit, x, y, allowed)
	}
	return what, by
}

// inBoth returns two waters with the levels that are known in both: what one of
// them knows alone would move the pH that is worked out without moving the water.
func inBoth(a, b *tested.Water) (tested.Water, tested.Water) {
	if same(a.Levels, b.Levels) {
		return *a, *b
	}
	x, y := *a, *b
	if w, err := a.WithDIC(); err == nil {
		x = w
	}
	if w, err := b.WithDIC(); err == nil {
		y = w
	}
	for _, l := range oneSidedLevels(x.Levels, y.Levels) {
		x.Levels = x.Levels.Without(l.Parameter())
	}
	for _, l := range oneSidedLevels(y.Levels, x.Levels) {
		y.Levels = y.Levels.Without(l.Parameter())
	}
	return x, y
}

// same tells whether two lists are of the same parameters, in one order.
func same(a, b tested.Levels) bool {
	return slices.EqualFunc(a, b, func(x, y tested.Level) bool { return x.Parameter() == y.Parameter() })
}

// inSteps finds the fewest equal steps that keep the limits, by doubling and
// halving.
func (c *Course) inSteps(left Remaining, aims []aim) (CoursePlan, error) {
	fits := func(n int) (steps, *tested.Limit, string) {
		s := c.steps(n, left, aims)
		l, what, _ := c.worst(s, c.Every)
		return s, l, what
	}
	few, many := 0, 1 // few is too few
	pace := ""
	s, l, what := fits(many)
	for l != nil {
		pace = slowed(l, what)
		if many > mostSteps {
			return CoursePlan{}, refused(l, what, "makes the goal take more than "+input.Number(mostSteps)+
				" changes: prepare the batch "+
				"nearer to the tank, or change less often")
		}
		few, many = many, 2*many
		s, l, what = fits(many)
	}
	for many-few > 1 {
		n := (few + many) / 2
		if t, l, what := fits(n); l == nil {
			many, s = n, t
		} else {
			few, pace = n, slowed(l, what)
		}
	}
	p := c.planOf(s)
	p.Slowed = pace
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
// then the blend of that much old and the rest new, at the temperature that the
// heater of the tank holds.
func (c *Course) flowing(left Remaining, aims []aim) (CoursePlan, error) {
	tank := c.Tank.Volume()
	at := func(r Remaining) tested.Water {
		w, err := c.swap(&c.Tank, units.Volume(1-r)*tank).At(c.Tank.Portion.Temperature())
		if err != nil {
			return tested.Water{}
		}
		return w
	}
	short := func(r float64) float64 { s := at(Remaining(r)); return c.short(&s, aims) }
	r, ok := solve.Brent(short, 0.99*float64(left), math.Min(1.01*float64(left), 1), 1e-15)
	if !ok { // a batch that differs much is far from what volumes say
		r, ok = solve.Brent(short, 0, 1, 1e-15)
	}
	if !ok {
		return CoursePlan{}, input.Bad("goal", "short of the new water by less than can be told",
			"a goal that changing water reaches: "+alwaysStays)
	}
	left = Remaining(r * (1 - 1e-12)) // on the side of the goal
	held := c.Limits.List()
	takes := func(q units.Flow) time.Duration { return q.Time(left.Feed(tank)) }
	broken := func(q units.Flow) (*tested.Limit, string) {
		all := takes(q)
		for i := range held {
			l := &held[i]
			within := min(l.Within, all)
			if fresh := Continuous(q.Volume(within), tank).Share(); l.Share.Value() > 0 &&
				fresh.Value() > l.Share.Value()*(1+1e-9) {
				return l, newWater(l)
			}
			for k := range moments {
				start := time.Duration(float64(all-within) * float64(k) / (moments - 1))
				from, to := at(Continuous(q.Volume(start), tank)), at(Continuous(q.Volume(start+within), tank))
				if what, by := passed(l, &from, &to, false); by > 1+1e-9 {
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
	if l, what := broken(c.Flow); l != nil {
		p.Slowed = slowed(l, what)
		slow := units.Flow(left.Feed(tank).Litres() / longestFlow.Hours())
		if l, what := broken(slow); l != nil || slow >= c.Flow {
			return CoursePlan{}, refused(l, what, "makes the goal take years: prepare the batch nearer to the tank")
		}
		fast := c.Flow
		for fast/slow > 1+1e-6 {
			q := units.Flow(math.Sqrt(float64(fast) * float64(slow)))
			if l, what := broken(q); l == nil {
				slow = q
			} else {
				fast, p.Slowed = q, slowed(l, what)
			}
		}
		p.Flow = slow
	}
	p.Total = left.Feed(tank)
	p.Duration = p.Flow.Time(p.Total)
	if p.Duration < 0 {
		return CoursePlan{}, input.Bad("flow", c.Flow.String(), "a flow that reaches the goal within a lifetime")
	}
	for k := 1; k <= moments; k++ {
		share := float64(k) / moments
		p.Steps = append(p.Steps, Step{
			time.Duration(float64(p.Duration) * share),
			at(Continuous(p.Total*units.Volume(share), tank)),
		})
	}
	p.After = p.Steps[moments-1].Water
	b := c.Batch.Portion
	flow := float64(b.OfVolume(units.Volume(p.Flow)).Mass.Kilograms()) / 3600 // kg/s
	p.Hold = units.Power(math.Max(0,
		flow*float64(b.HeatCapacity())*float64(c.Tank.Portion.Temperature().Sub(b.Temperature()))))
	return p, nil
}

// slowed says which limit sets the pace.
func slowed(l *tested.Limit, what string) string {
	return what + " within " + tested.Stretch(l.Within) + " (" + l.Origin + ")"
}

// span returns the temperatures of new water for which no step moves the tank
// by more than the limits allow, up to what heat capacities differ by. A flow has
// no such bound: the heater of the tank holds its temperature.
func (c *Course) span(p *CoursePlan) (from, to units.Temperature) {
	room := math.Inf(1)
	share := float64(p.Each / c.Tank.Volume())
	for _, l := range c.Limits.List() {
		if l.Temperature > 0 && share > 0 {
			room = math.Min(room, float64(l.Temperature)/share)
		}
	}
	t := c.Tank.Portion.Temperature()
	return t.Add(units.TemperatureDifference(math.Max(-room,
		-2-t.Celsius()))), t.Add(units.TemperatureDifference(math.Min(room, 40-t.Celsius())))
}

// lacks returns what the water still lacks of its goals.
func (c *Course) lacks(s *tested.Water) tested.Levels {
	var out tested.Levels
	for _, goal := range c.Goal.Levels {
		is, known := s.Level(goal.Parameter())
		if d := goal.Base() - is.Base(); known && !goal.Parameter().Falls() && d > 1e-9*math.Abs(goal.Base()) {
			out = append(out, goal.WithBase(d))
		}
	}
	return out
}

// assumptions lists what the plan takes for granted, the limits that could not
// be looked after among it.
func (c *Course) assumptions(p *CoursePlan) []string {
	list := []string{
		"The tank is well mixed, nothing reacts, and what animals use or make in the meantime is not counted.",
	}
	if p.Changes > 1 {
		list = append(list, "Between the changes the tank comes back to its temperature, and exchanges no gas with the air.")
	}
	if p.Flow > 0 {
		list = append(list, "The heater of the tank holds its temperature while new water flows in.")
	}
	if p.Adjust {
		list = append(list, "The new water is brought to the temperature of the tank first.")
	}
	list = append(list, unseen(c.Limits.List(), &c.Tank, &c.Batch, "the tank and in the new water")...)
	for _, goal := range c.Goal.Levels {
		was, _ := c.Tank.Level(goal.Parameter())
		is, known := p.After.Level(goal.Parameter())
		x := goal.Base()
		if known && !goal.Parameter().Falls() && (x-was.Base())*(x-is.Base()) < -1e-9*x*x {
			list = append(list, capital(string(goal.Parameter()))+" goes past its goal, to "+goal.WithBase(is.Base()).String()+
				", because another goal asks for more new water.")
		}
	}
	return append(list, left(c.Tank, c.Batch, p.After)...)
}

// unseen lists the limits that could not be kept in view, because they limit what is
// not known in both waters. What neither water was tested for is not worth a word.
func unseen(held tested.Held, a, b *tested.Water, where string) []string {
	var list []string
	say := func(name string) {
		if text := name + " is not known in " + where + ": its limit could not be kept in view."; !contains(list, text) {
			list = append(list, text)
		}
	}
	_, errA := a.CarbonChemistry()
	_, errB := b.CarbonChemistry()
	for i := range held {
		l := &held[i]
		for _, m := range l.Levels {
			_, knownA := a.Level(m.Parameter())
			_, knownB := b.Level(m.Parameter())
			if knownA != knownB {
				say(capital(string(m.Parameter())))
			}
		}
		if l.PH > 0 && (errA != nil || errB != nil) {
			say("The pH")
		}
	}
	return list
}
