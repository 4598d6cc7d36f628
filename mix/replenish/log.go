package replenish

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// Log is what a keeper wrote down: tests, and what was done to the water in
// between. Entries may stand in any order. What happened at the moment of a
// test is taken to have happened after it.
type Log struct {
	Volume  units.Volume // net, of the tank
	Tests   []Test
	Doses   []Dosed
	Changes []WaterChange
}

// Test is a reading of one parameter.
type Test struct {
	At          time.Time
	Level       tested.Level
	Uncertainty tested.Level // standard, of the kit and its reading; for all tests of a parameter or for none
}

// Dosed is what went into the tank: all at once at From, or evenly from From to To, as a
// pump doses. It is an additive and an amount of it, or, of a product of which nothing is
// known but what it did, by how much it raised levels of the tank: "+1.5 dKH".
type Dosed struct {
	From, To time.Time // To may be left out
	Additive Additive
	Amount   Amount
	Raised   tested.Levels // in the place of Additive and Amount; negative for what was taken out
}

// WaterChange is so much tank water replaced by new water at once.
type WaterChange struct {
	At      time.Time
	Swapped units.Volume
	Fresh   []tested.Level // of the new water: of every parameter that is asked for
}

func (l Log) check() error {
	list := []error{input.Positive("volume", l.Volume.Litres(), "L")}
	for i, t := range l.Tests {
		list = append(list, t.check(input.At("tests", i)))
	}
	for i, d := range l.Doses {
		list = append(list, d.check(input.At("doses", i)))
	}
	for i, c := range l.Changes {
		field := input.At("changes", i)
		list = append(list, when(field+".at", c.At))
		if !(c.Swapped >= 0 && c.Swapped <= l.Volume) {
			list = append(list, input.Bad(field+".swapped", c.Swapped.String(),
				"zero to the volume of the tank, "+l.Volume.String()))
		}
		for _, f := range c.Fresh {
			list = append(list, f.Check(field+".fresh"))
		}
	}
	return input.Join(list...)
}

func (t *Test) check(field string) error {
	list := []error{
		when(field+".at", t.At),
		cmp.Or(t.Level.Check(field), t.Level.Must(field, t.Level.Base() >= 0, "zero or more")),
	}
	if u := t.Uncertainty; u.Exists() {
		field += ".uncertainty"
		if u.Parameter() != t.Level.Parameter() {
			list = append(list, input.Bad(field, string(u.Parameter()), string(t.Level.Parameter())))
		} else {
			list = append(list, cmp.Or(u.Check(field), u.Must(field, u.Base() > 0, "a number above zero")))
		}
	}
	return input.Join(list...)
}

func (d *Dosed) check(field string) error {
	list := []error{when(field+".from", d.From)}
	if !d.To.IsZero() {
		list = append(list, when(field+".to", d.To))
		if d.To.Before(d.From) {
			list = append(list, input.Bad(field+".to", d.To.Format(time.RFC3339), "after from, "+d.From.Format(time.RFC3339)))
		}
	}
	if len(d.Raised) > 0 {
		if d.Additive.Exists() || d.Amount != (Amount{}) {
			list = append(list, input.Bad(field+".raised", "an additive besides", "the one or the other"))
		}
		return input.Join(append(list, d.Raised.CheckRates(field+".raised"))...)
	}
	_, err := d.Additive.check(field + ".additive")
	if err == nil {
		_, err = d.Additive.count(field+".amount", d.Amount)
	}
	return input.Join(append(list, err)...)
}

// brings returns by how much a dose raises a parameter in a volume, in mmol/L or meq/L.
func (d *Dosed) brings(p tested.Parameter, v units.Volume) (float64, error) {
	if len(d.Raised) > 0 {
		if l, known := d.Raised.Of(p); known {
			return l.Base(), nil
		}
		return 0, nil
	}
	x, err := d.Additive.count("dose", d.Amount)
	return float64(p.In(d.Additive.per().Scale(x))) / 1000 / v.Litres(), err
}

// when refuses an entry without a date, or with one of another age: a
// time.Duration reaches no further than 292 years.
func when(field string, t time.Time) error {
	if t.IsZero() {
		return input.Bad(field, "no time", "when it was")
	}
	if t.Year() < firstYear || t.Year() > lastYear {
		return input.Bad(field, "the year "+input.Number(float64(t.Year())),
			"a year from "+input.Number(firstYear)+" to "+input.Number(lastYear))
	}
	return nil
}

const firstYear, lastYear = 1900, 2150

// line is one test as a linear equation in what is sought:
//
//	level = keeps · (level at the start) - days · (use per day) + came
//
// It holds exactly: of what was there and what came, a change of water takes its
// share.
type line struct {
	at                time.Time
	level             float64 // mmol/L or meq/L
	uncertainty       float64 // 0: not stated
	keeps, days, came float64
}

// event is what happens to a parameter at a moment.
type event struct {
	at    time.Time
	order int // of what happens at one moment: tests, then the rest
	apply func(*line)
	test  *Test
}

// lines follows a parameter through the log. The last of them stands for the
// end of the log: it is no test, but where the tank is now.
func (l Log) lines(p tested.Parameter) (tests []line, now line, err error) {
	var events []event
	flow := 0.0 // per day, while pumps run
	for _, t := range l.Tests {
		if t.Level.Parameter() == p {
			events = append(events, event{at: t.At, test: &t})
		}
	}
	for _, d := range l.Doses {
		brings, err := d.brings(p, l.Volume)
		if err != nil {
			return nil, line{}, err
		}
		if brings == 0 {
			continue
		}
		if d.To.IsZero() || d.To.Equal(d.From) {
			events = append(events, event{at: d.From, order: 1, apply: func(s *line) { s.came += brings }})
			continue
		}
		perDay := brings / days(d.To.Sub(d.From))
		events = append(events,
			event{at: d.From, order: 1, apply: func(*line) { flow += perDay }},
			event{at: d.To, order: 1, apply: func(*line) { flow -= perDay }})
	}
	for i, c := range l.Changes {
		share := float64(c.Swapped / l.Volume)
		if share == 0 {
			continue
		}
		at := slices.IndexFunc(c.Fresh, func(f tested.Level) bool { return f.Parameter() == p })
		if at < 0 {
			return nil, line{}, input.Bad(input.At("changes", i)+".fresh."+string(p), "nothing", "the level of the new water")
		}
		fresh := c.Fresh[at].Base()
		events = append(events, event{at: c.At, order: 1, apply: func(s *line) {
			s.keeps *= 1 - share
			s.days *= 1 - share
			s.came = s.came*(1-share) + fresh*share
		}})
	}
	slices.SortStableFunc(events, func(a, b event) int {
		if c := a.at.Compare(b.at); c != 0 {
			return c
		}
		return a.order - b.order
	})
	// Everything is told from the first test on.
	s := line{keeps: 1}
	started := false
	for _, e := range events {
		if started {
			passed := days(e.at.Sub(s.at))
			s.days += passed
			s.came += flow * passed
		}
		s.at = e.at
		switch {
		case e.test != nil:
			started = true
			s.level, s.uncertainty = e.test.Level.Base(), 0
			if e.test.Uncertainty.Exists() {
				s.uncertainty = e.test.Uncertainty.Base()
			}
			tests = append(tests, s)
		default:
			e.apply(&s)
			if !started { // before the first test, only pumps that go on matter
				s = line{keeps: 1, at: e.at}
			}
		}
	}
	return tests, s, nil
}

func days(d time.Duration) float64 { return d.Hours() / 24 }

// asked lists the parameters that were tested, in their order.
func (l Log) asked() []tested.Parameter {
	var list []tested.Parameter
	for _, p := range tested.Parameters() {
		if slices.ContainsFunc(l.Tests, func(t Test) bool { return t.Level.Parameter() == p }) {
			list = append(list, p)
		}
	}
	return list
}

// counting returns how the last test of a parameter counts it.
func (l Log) counting(p tested.Parameter) tested.Level {
	var last Test
	for _, t := range l.Tests {
		if t.Level.Parameter() == p && !t.At.Before(last.At) {
			last = t
		}
	}
	return last.Level.WithBase(math.NaN())
}
