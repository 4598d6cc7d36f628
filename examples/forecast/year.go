package main

import (
	"errors"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// year is everything that is said of the span.
type year struct {
	answer
	h        *home.Home
	r        *paper.Report
	routine  dilution.Routine
	batch    tested.Water
	bounds   dilution.Bounds
	rates    map[string]bool // of what something is told that moves it
	series   []series
	times    []time.Duration // of Steps
	untold   error           // why nothing is said of the limits
	unsure   error           // why nothing is said of the doubts
	restless error           // why it does not settle
	dear     error           // why no calendar keeps the limits
	shopping []bought
}

// answer is what is written for programs.
type answer struct {
	Name      string
	Start     time.Time
	Forecast  dilution.Forecast
	Ends      string          `json:",omitempty"` // why the forecast ends before the span does
	Steps     []dilution.Step // the columns of the table, each before what is due then
	Limits    []dilution.Crossing
	Estimates []advice.Estimate      `json:",omitempty"` // of the end and of the days until limits are left
	Settled   *dilution.Settled      `json:",omitempty"`
	Schedule  *dilution.SchedulePlan `json:",omitempty"`
}

// look works it all out. It fails if there is no forecast at all: what else fails is
// told where it would have stood.
func look(h *home.Home) (year, error) {
	y := year{h: h, r: &paper.Report{}, rates: map[string]bool{}}
	y.Name, y.Start = h.Name, h.Forecast.Start
	if y.Start.IsZero() {
		y.Start = time.Now().UTC().Truncate(24 * time.Hour)
	}
	if err := y.plan(); err != nil {
		return y, err
	}
	span := h.Forecast.Span
	if span == 0 {
		span = 365 * 24 * time.Hour
	}
	if err := y.follow(span); err != nil {
		return y, err
	}
	y.watch()
	y.columns()
	if y.Limits, y.untold = y.Forecast.Until(y.bounds); y.untold == nil && h.Doubts.Given {
		y.Estimates, y.unsure = y.estimates(y.Forecast.Span, y.bounds)
	}
	var settled dilution.Settled
	if settled, y.restless = y.routine.Settles(); y.restless == nil {
		y.Settled = &settled
	}
	y.cheapest()
	y.shop()
	return y, nil
}

// plan makes a routine of what the file says.
func (y *year) plan() error {
	h := y.h
	tank, err := h.AnyTank(y.r)
	if err != nil {
		return err
	}
	if y.batch, err = y.newWater(tank); err != nil {
		return err
	}
	y.routine = dilution.Routine{
		Tank: tank, PerDay: h.Routine.PerDay, Evaporation: h.Routine.Evaporation, TopOff: h.Routine.TopOff,
		Pumped: h.Routine.Pumped, Doses: h.Routine.Doses, Changes: y.changes(),
		Stream: dilution.Stream{Batch: y.batch, Flow: h.Routine.Stream},
	}
	if h.Routine.Evaporation == 0 {
		y.r.Hides("evaporation", "how the salinity moves")
	}
	var of []string
	for _, l := range tank.Levels {
		if _, known := y.batch.Level(l.Parameter()); !known && (h.Routine.Stream > 0 || len(y.routine.Changes) > 0) {
			of = append(of, string(l.Parameter()))
		}
	}
	y.hides("mix.", of, "what becomes of the tank's")
	of = nil
	for _, l := range h.Routine.PerDay {
		if _, known := tank.Level(l.Parameter()); !known {
			of = append(of, string(l.Parameter()))
		}
	}
	y.hides("tank.", of, "where it leads")
	for _, l := range h.Routine.Losses {
		if y.foretold(l.Of) {
			y.routine.Losses = append(y.routine.Losses, l)
		}
	}
	return nil
}

// newWater is that of all changes.
func (y *year) newWater(tank tested.Water) (tested.Water, error) {
	salinity, temperature := tank.Portion.Practical(), tank.Portion.Temperature()
	if t := y.h.Mix.Temperature; t.IsSet() {
		temperature = t
	}
	if s := y.h.Mix.Target; s != nil {
		salinity = *s
	} else {
		y.r.Assume("New water has the salinity of the tank.")
	}
	w, err := seawater.FromPractical(salinity, temperature)
	if err != nil {
		return tested.Water{}, home.At("mix", err)
	}
	return tested.Water{Portion: w.OfVolume(1 * units.Litre), Levels: y.h.Mix.Levels}, nil
}

// changes are those that the file plans, once or by the calendar.
func (y *year) changes() []dilution.Renewal {
	c := y.h.Change
	renewal := dilution.Renewal{Batch: y.batch, Swap: c.Swap.Of(y.h.Tank.Volume), First: c.Every, Every: c.Every}
	if renewal.Swap == 0 {
		y.r.Hides("change.swap", "changes of water")
		return nil
	}
	if c.At.IsZero() && c.Every == 0 {
		y.r.Hides("change.every", "changes of water")
		return nil
	}
	if !c.At.IsZero() {
		renewal.First = c.At.Sub(y.Start)
	}
	if renewal.First < 0 {
		if c.Every == 0 {
			return nil
		}
		renewal.First = (renewal.First%c.Every + c.Every) % c.Every
	}
	return []dilution.Renewal{renewal}
}

// foretold tells whether a level is known in the tank and in all new water.
func (y *year) foretold(p tested.Parameter) bool {
	_, tank := y.routine.Tank.Level(p)
	_, batch := y.batch.Level(p)
	return tank && (batch || len(y.routine.Changes) == 0 && y.routine.Stream.Flow == 0)
}

// hides notes what is not known because of several keys of one object.
func (y *year) hides(object string, of []string, what string) {
	if len(of) > 0 {
		y.r.Hides(object+strings.ReplaceAll(strings.Join(of, ", "), "organic a", "organic_a"), what)
	}
}

// follow forecasts as far as it goes.
func (y *year) follow(span time.Duration) error {
	var err error
	if y.Forecast, err = y.routine.Forecast(span); err == nil {
		return nil
	}
	short, long := time.Minute, span
	if _, bad := y.routine.Forecast(short); bad != nil {
		return asWritten(bad)
	}
	y.Ends = why(err)
	for long-short > time.Minute {
		half := (short + long) / 2
		if _, err := y.routine.Forecast(half); err == nil {
			short = half
		} else {
			long = half
		}
	}
	y.Forecast, err = y.routine.Forecast(short)
	return err
}

// why a tank has no future.
func why(err error) string {
	var salty *units.RangeError
	var bad *units.InputError
	switch {
	case errors.As(err, &salty):
		return "nobody tops off, and the water becomes saltier than any standard for seawater goes"
	case errors.As(err, &bad) && bad.Field == "topOff":
		return "the tank is dry"
	}
	return err.Error()
}

// asWritten gives errors the paths of the file.
func asWritten(err error) error {
	return errors.New(strings.NewReplacer("losses[0].perDay", "loss_per_day", "changes[0].", "change.", "perDay", "per_day", "topOff.water", "top_off",
		"topOff.", "top_off.", "stream.flow", "stream", ".levels", "", ".batch", "",
		"bounds.", "limits.", "routine: ", "", "in the long run: ", "",
	).Replace(err.Error()))
}

// watch takes the limits of what is foretold, and notes of what there is a rate.
func (y *year) watch() {
	rt := &y.routine
	y.rates["Salinity"] = rt.Evaporation > 0
	for _, list := range []tested.Levels{rt.PerDay, rt.Pumped} {
		for _, l := range list {
			y.rates[capital(string(l.Parameter()))] = true
		}
	}
	for _, l := range rt.Losses {
		y.rates[capital(string(l.Of))] = true
	}
	var unknown, unmoved []string
	side := func(g dilution.Goal) (kept dilution.Goal) {
		kept.Salinity = g.Salinity
		for _, l := range g.Levels {
			p := l.Parameter()
			switch _, tank := rt.Tank.Level(p); {
			case y.foretold(p):
				kept.Levels = append(kept.Levels, l)
				if !y.rates[capital(string(p))] {
					unmoved = add(unmoved, string(p))
				}
			case !tank:
				unknown = add(unknown, string(p))
			}
		}
		return kept
	}
	y.bounds = dilution.Bounds{Low: side(y.h.Limits.Low), High: side(y.h.Limits.High)}
	y.hides("tank.", unknown, "whether its limits are kept")
	y.hides("per_day.", unmoved, "whether its limits are kept")
	if len(y.bounds.Low.Levels)+len(y.bounds.High.Levels) == 0 {
		y.r.Hides("limits", "until when all is well")
	}
}

func add(list []string, name string) []string {
	for _, n := range list {
		if n == name {
			return list
		}
	}
	return append(list, name)
}

// estimates are the standard uncertainties of a forecast of so long.
func (y *year) estimates(span time.Duration, b dilution.Bounds) ([]advice.Estimate, error) {
	d := y.h.Doubts
	return y.routine.Estimates(span, b, dilution.RoutineDoubts{
		Tank: d.Tank, Swap: d.Swap, Evaporation: d.Evaporation, Salinity: d.Salinity, PerDay: d.PerDay, Levels: d.Levels,
	})
}

// columns are the start, some moments on the way and the end.
func (y *year) columns() {
	span := y.Forecast.Span
	y.times = []time.Duration{0}
	for _, months := range []int{1, 3, 6, 12} {
		if at := y.Start.AddDate(0, months, 0).Sub(y.Start); at < span-24*time.Hour {
			y.times = append(y.times, at)
		}
	}
	if len(y.times) == 1 {
		y.times = append(y.times, span/2)
	}
	y.times = append(y.times, span)
	for _, at := range y.times {
		if w, err := y.Forecast.Before(at); err == nil {
			y.Steps = append(y.Steps, dilution.Step{At: at, Water: w})
		}
	}
	y.series = y.allSeries()
}

// cheapest looks for a calendar, if there is a choice.
func (y *year) cheapest() {
	c := y.h.Calendar
	if len(c.Swaps) == 0 || len(c.Every) == 0 {
		return
	}
	s := dilution.Schedule{Routine: y.routine, Batch: y.batch, Bounds: y.bounds, Span: y.Forecast.Span, Every: c.Every,
		Mix: c.Mix, Work: c.Work}
	s.Routine.Changes = nil
	for _, v := range c.Swaps {
		s.Swaps = append(s.Swaps, v.Of(y.h.Tank.Volume))
	}
	var plan dilution.SchedulePlan
	if plan, y.dear = dilution.PlanSchedule(s); y.dear == nil {
		y.Schedule = &plan
	}
}

func (y *year) date(at time.Duration) time.Time { return y.Start.Add(at) }

func capital(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

// limitWater is the tank at a salinity.
func (y *year) limitWater(s units.PracticalSalinity) (tested.Water, error) {
	w, err := seawater.FromPractical(s, y.routine.Tank.Portion.Temperature())
	return tested.Water{Portion: w.OfVolume(1 * units.Litre)}, err
}
