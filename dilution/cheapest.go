package dilution

import (
	"math"
	"slices"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// Schedule asks for the cheapest calendar of water changes that keeps a tank
// within its bounds.
type Schedule struct {
	Routine Routine      // without changes: they are what is asked for
	Batch   tested.Water // the new water
	Bounds  Bounds
	Span    time.Duration // in which the bounds are to hold, as well as in the long run

	Swaps []units.Volume  // to choose from
	Every []time.Duration // to choose from; the first change is after one such time

	Mix  units.Money // for a litre of new water
	Work units.Money // for a change, whatever its volume
}

// SchedulePlan is the answer to a Schedule.
type SchedulePlan struct {
	Best     Option
	Options  []Option // all of them, the cheapest first
	Forecast Forecast // of the best, over the span
	Settled  Settled
	Cautions []advice.Caution
}

// Option is one calendar.
type Option struct {
	Swap   units.Volume
	Every  time.Duration
	PerDay units.Money // mix and work

	// Breaks lists the bounds that are left: within the span, and then those that are
	// left in the long run only, where After counts from some moment of a period. Why
	// says it, or why the option was passed over for another.
	Breaks []Crossing
	Keeps  bool // none, and it settles
	Why    string
}

// mostOptions bounds the search.
const mostOptions = 10_000

// PlanSchedule tries all pairs of the volumes and times for the cheapest that keeps
// the bounds over the span and in the steady state. Of two that cost the same it
// takes the one with less water, then the one with fewer changes. If no pair keeps
// all bounds, the error names the bound that stands against it.
func PlanSchedule(s Schedule) (SchedulePlan, error) {
	if err := s.check(); err != nil {
		return SchedulePlan{}, err
	}
	if err := s.begins(); err != nil {
		return SchedulePlan{}, err
	}
	var p SchedulePlan
	for _, swap := range s.Swaps {
		for _, every := range s.Every {
			o := Option{Swap: swap, Every: every, PerDay: s.cost(swap, every)}
			p.Options = append(p.Options, o)
		}
	}
	slices.SortStableFunc(p.Options, func(a, b Option) int {
		switch {
		case a.before(&b):
			return -1
		case b.before(&a):
			return 1
		}
		return 0
	})
	found := false
	for i := range p.Options {
		o := &p.Options[i]
		f, settled, err := s.try(o)
		if err != nil {
			return SchedulePlan{}, err
		}
		switch {
		case o.Keeps && !found:
			found = true
			o.Why = "the cheapest that keeps the bounds"
			p.Best, p.Forecast, p.Settled = *o, f, settled
			p.Cautions = f.Cautions
		case o.Keeps:
			o.Why = "keeps the bounds, but there is a better one"
		}
	}
	if !found {
		return SchedulePlan{}, impossible(p.Options)
	}
	return p, nil
}

// begins refuses bounds that the tank is beyond already.
func (s *Schedule) begins() error {
	r := s.with(&Option{Swap: s.Swaps[0], Every: s.Every[0]})
	m, err := r.motion()
	if err != nil {
		return err
	}
	list, err := m.watches(&s.Bounds)
	if err != nil {
		return err
	}
	row := m.begin(&r)
	for i := range list {
		if list[i].beyond(row, m.litres) > 0 {
			return input.Bad(list[i].field(), list[i].String(), "a bound that the tank keeps as it is now: bring it there first")
		}
	}
	return nil
}

// with returns the routine with the changes of an option.
func (s *Schedule) with(o *Option) Routine {
	r := s.Routine
	r.Changes = []Renewal{{Batch: s.Batch, Swap: o.Swap, First: o.Every, Every: o.Every}}
	return r
}

// cost returns what a calendar costs a day.
func (s *Schedule) cost(swap units.Volume, every time.Duration) units.Money {
	m := units.Money{Amount: (s.Mix.Amount*swap.Litres() + s.Work.Amount) / inDays(every), Currency: s.Mix.Currency}
	if m.Currency == "" {
		m.Currency = s.Work.Currency
	}
	return m
}

// before puts the cheaper first, then less water, then fewer changes.
func (o *Option) before(other *Option) bool {
	const same = 1e-12
	d := o.PerDay.Amount - other.PerDay.Amount
	if math.Abs(d) > same*(o.PerDay.Amount+other.PerDay.Amount) {
		return d < 0
	}
	a, b := float64(o.Swap)/inDays(o.Every), float64(other.Swap)/inDays(other.Every)
	if math.Abs(a-b) > same*(a+b) {
		return a < b
	}
	return o.Every > other.Every
}

// try finds out whether an option keeps the bounds. What no tank could go
// through is said in Why; only bounds that nothing is known of are an error.
func (s *Schedule) try(o *Option) (Forecast, Settled, error) {
	r := s.with(o)
	f, err := r.Forecast(s.Span)
	if err != nil {
		o.Why = err.Error()
		return Forecast{}, Settled{}, nil
	}
	list, err := f.Until(s.Bounds)
	if err != nil {
		return Forecast{}, Settled{}, err
	}
	o.Breaks = leaving(nil, list)
	if len(o.Breaks) > 0 {
		o.Why = "does not keep " + o.Breaks[0].String() + ": left after " + sayDays(o.Breaks[0].After)
	}
	settled, err := r.Settles()
	if err != nil {
		if o.Why == "" {
			o.Why = err.Error()
		}
		return Forecast{}, Settled{}, nil
	}
	long, err := settled.Round.Until(s.Bounds)
	if err != nil {
		return Forecast{}, Settled{}, err
	}
	o.Breaks = leaving(o.Breaks, long)
	o.Keeps = len(o.Breaks) == 0
	if !o.Keeps && o.Why == "" {
		o.Why = "does not keep " + o.Breaks[0].String() + " in the long run"
	}
	return f, settled, nil
}

// leaving appends the bounds that are left and are not in the list already.
func leaving(list, more []Crossing) []Crossing {
	for _, c := range more {
		if c.Crosses() && find(list, c) < 0 {
			list = append(list, c)
		}
	}
	return list
}

// impossible names the bound that no option keeps. If each bound is kept by one or
// another, it names the one that most do not keep.
func impossible(options []Option) error {
	worst, times := Crossing{}, 0
	for i := range options {
		for _, c := range options[i].Breaks {
			n := 0
			for k := range options {
				if find(options[k].Breaks, c) >= 0 {
					n++
				}
			}
			if n > times {
				worst, times = c, n
			}
		}
	}
	if times == 0 {
		return input.Bad("swaps", options[0].Swap.String(), "a change that the tank can go through: "+options[0].Why)
	}
	want := "a bound that one of the choices keeps: offer more water, more often, or other new water"
	if times < len(options) {
		want = "a bound that a choice keeps together with the others: more water breaks one, less another"
	}
	return input.Bad(worst.field(), worst.String(), want)
}

func (s *Schedule) check() error {
	list := []error{input.In("routine", s.Routine.check()), s.Batch.CheckKind("batch"), s.checkChoice()}
	if len(s.Routine.Changes) > 0 {
		list = append(list, input.Bad("routine.changes", input.Number(float64(len(s.Routine.Changes))),
			"none: they are what is asked for"))
	}
	if !(s.Span > 0) {
		list = append(list, input.Bad("span", s.Span.String(), "a time above zero"))
	}
	if s.Mix != (units.Money{}) && s.Work != (units.Money{}) && s.Mix.Currency != s.Work.Currency {
		list = append(list, input.Bad("work", s.Work.String(), "the currency of the mix, "+s.Mix.Currency))
	}
	return input.Join(append(list,
		input.NotNegative("mix", s.Mix.Amount, s.Mix.Currency),
		input.NotNegative("work", s.Work.Amount, s.Work.Currency))...)
}

// checkChoice refuses volumes and times that leave nothing to choose, or too much.
func (s *Schedule) checkChoice() error {
	var list []error
	if len(s.Swaps) == 0 {
		list = append(list, input.Bad("swaps", "nothing", "volumes to choose from"))
	}
	if len(s.Every) == 0 {
		list = append(list, input.Bad("every", "nothing", "times to choose from"))
	} else if len(s.Swaps) > mostOptions/len(s.Every) {
		list = append(list, input.Bad("swaps", input.Number(float64(len(s.Swaps))),
			"fewer than "+input.Number(mostOptions)+" pairs of a volume and a time"))
	}
	for _, v := range s.Swaps {
		err := input.Positive("swaps", float64(v), "L")
		if err == nil {
			err = inside("swaps", v, s.Routine.Tank.Volume())
		}
		list = append(list, err)
	}
	for _, d := range s.Every {
		if !(d > 0) {
			list = append(list, input.Bad("every", d.String(), "a time above zero"))
		}
	}
	return input.Join(list...)
}
