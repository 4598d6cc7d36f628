package main

import (
	"errors"
	"slices"
	"sort"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// year is everything that is said of the span.
type year struct {
	answer
	h       *home.Home
	r       *paper.Report
	routine dilution.Routine
	batch   tested.Water
	bounds  dilution.Bounds
	moved   map[string]bool // of what a rate is told
	rated   map[string]bool // of what is told that the tank makes or uses it
	asked   time.Duration   // to be foretold; the forecast may end before
	series  []series

	byLog  []string // what the log says of rates and levels, if it is asked
	usedUp string   // the name of what runs out and ends it all

	// Why nothing is said of the limits, of their doubts, of the long run and of a calendar.
	untold, unsure, restless, dear error
}

// answer is what is written for programs.
type answer struct {
	Name      string
	Start     time.Time
	Ends      string          `json:",omitempty"` // why the forecast ends before the span does
	Steps     []dilution.Step // the columns of the table, each before what is due then
	Forecast  dilution.Forecast
	Limits    []dilution.Crossing
	Estimates []advice.Estimate      `json:",omitempty"` // of the end and of the days until limits are left
	Settled   *dilution.Settled      `json:",omitempty"`
	Schedule  *dilution.SchedulePlan `json:",omitempty"`
	Shopping  []bought               `json:",omitempty"`
}

const day = 24 * time.Hour

// look works it all out. It fails if there is no forecast at all: what else fails is
// told where it would have stood.
func look(h *home.Home) (*year, error) {
	y := &year{h: h, r: &paper.Report{}, moved: map[string]bool{}, rated: map[string]bool{}}
	y.Name, y.Start = h.Name, h.Forecast.Start
	if y.Start.IsZero() {
		y.Start = time.Now().UTC().Truncate(day)
	}
	if y.asked = h.Forecast.Span; y.asked == 0 {
		y.asked = 365 * day
	}
	if err := y.plan(); err != nil {
		return nil, err
	}
	if err := y.follow(y.asked); err != nil {
		return nil, err
	}
	y.columns()
	if y.Limits, y.untold = y.Forecast.Until(y.bounds); y.untold == nil && h.Doubts.Given {
		y.Estimates, y.unsure = y.estimates(y.Forecast.Span, y.bounds)
	}
	switch settled, err := y.routine.Settles(); {
	case y.usedUp != "":
		y.restless = errors.New(y.Ends)
	case err == nil:
		y.Settled = &settled
	default:
		y.restless = asWritten(err)
	}
	y.cheapest()
	y.shop()
	return y, nil
}

// plan makes a routine of what the file says.
func (y *year) plan() error {
	tank, err := y.h.AnyTank(y.r)
	if err != nil {
		return err
	}
	salinity, temperature := tank.Portion.Practical(), tank.Portion.Temperature()
	if s := y.h.Mix.Target; s != nil {
		salinity = *s
	} else {
		y.r.Assume("New water has the salinity of the tank.")
	}
	if t := y.h.Mix.Temperature; t.IsSet() {
		temperature = t
	}
	w, err := seawater.FromPractical(salinity, temperature)
	if err != nil {
		return home.At("mix", err)
	}
	y.batch = tested.Water{Portion: w.OfVolume(1 * units.Litre), Levels: y.h.Mix.Levels}
	tank, perDay := y.ofLog(tank)
	r := y.h.Routine
	y.routine = dilution.Routine{
		Tank: tank, PerDay: perDay, Evaporation: r.Evaporation, TopOff: r.TopOff, Pumped: r.Pumped, Doses: r.Doses,
		Changes: y.changes(), Stream: dilution.Stream{Batch: y.batch, Flow: r.Stream},
	}
	if y.moved["Salinity"] = r.Evaporation > 0; r.Evaporation == 0 {
		y.r.Hides("evaporation", "how the salinity moves")
	}
	y.know()
	return nil
}

// ofLog takes from the tests of the file what it does not say elsewhere: of what was tested
// often enough the level and the use that were fitted to them, else the last test.
func (y *year) ofLog(tank tested.Water) (tested.Water, tested.Levels) {
	perDay := y.h.Routine.PerDay
	log := y.h.Log(tank.Volume())
	for _, key := range log.Lacking {
		y.r.Hides(key, "what the tank uses of it")
	}
	if len(log.Tests) == 0 {
		return tank, perDay
	}
	demand, err := replenish.Consumption(log.Log)
	if err != nil && !log.TooFew(err) {
		y.r.Hides("tests", "what the tank uses by the log: "+log.AsWritten(err).Error())
	}
	var uses, levels []string
	for _, u := range demand.Uses {
		if _, said := perDay.Of(u.Parameter); !said {
			perDay = append(slices.Clone(perDay), u.PerDay.WithBase(-u.PerDay.Base()))
			uses = append(uses, usedOrMade(u))
		}
		if _, said := tank.Level(u.Parameter); !said {
			tank = tank.With(u.Now)
			levels = append(levels, paper.Precise(u.Now)+" of "+string(u.Parameter))
		}
	}
	slices.SortStableFunc(log.Tests, func(a, b replenish.Test) int { return -a.At.Compare(b.At) })
	for _, t := range log.Tests { // the last first
		if _, known := tank.Level(t.Level.Parameter()); !known {
			tank = tank.With(t.Level)
			levels = append(levels, paper.Precise(t.Level)+" of "+string(t.Level.Parameter()))
		}
	}
	if len(uses) > 0 {
		y.byLog = append(y.byLog, "By the tests of the log the tank uses "+paper.And(uses)+" a day.")
		if len(log.Doses) > 0 && len(y.h.Routine.Doses)+len(y.h.Routine.Pumped) == 0 {
			y.r.Hides("pumped, or doses", "what is dosed from now on: what the log says was dosed does not go on by itself")
		}
	}
	if len(levels) > 0 {
		y.byLog = append(y.byLog, "It starts where the tests of the log end, at "+paper.And(levels)+".")
	}
	return tank, perDay
}

// usedOrMade writes "0.2 dKH of alkalinity".
func usedOrMade(u replenish.Use) string {
	text, verb := paper.PlusMinus(u.PerDay, u.Uncertainty), ""
	if u.PerDay.Base() < 0 {
		text, verb = paper.PlusMinus(u.PerDay.WithBase(-u.PerDay.Base()), u.Uncertainty), "makes "
	}
	return verb + text + " of " + string(u.Parameter)
}

// changes are those that the file plans, once or by the calendar.
func (y *year) changes() []dilution.Renewal {
	c := y.h.Change
	renewal := dilution.Renewal{Batch: y.batch, Swap: c.Swap.Of(y.h.Tank.Volume), First: c.Every, Every: c.Every}
	if !c.At.IsZero() {
		renewal.First = c.At.Sub(y.Start)
	}
	switch {
	case renewal.Swap == 0:
		y.r.Hides("change.swap", "changes of water")
		return nil
	case c.Every == 0 && c.At.IsZero():
		y.r.Hides("change.every", "changes of water")
		return nil
	case c.Every == 0 && renewal.First < 0:
		return nil
	case renewal.First < 0:
		renewal.First = (renewal.First%c.Every + c.Every) % c.Every
	}
	return []dilution.Renewal{renewal}
}

// know finds out of each parameter whether it can be foretold, and takes its losses and
// limits if so. What is not known of it is named.
func (y *year) know() {
	rt, low, high := &y.routine, y.h.Limits.Low, y.h.Limits.High
	y.bounds = dilution.Bounds{Low: dilution.Goal{Salinity: low.Salinity}, High: dilution.Goal{Salinity: high.Salinity}}
	var noLevel, noBatch, noRate []string
	for _, p := range tested.Parameters() {
		name := strings.ReplaceAll(string(p), " ", "_")
		_, tank := rt.Tank.Level(p)
		_, batch := y.batch.Level(p)
		foretold := tank && (batch || len(rt.Changes) == 0 && rt.Stream.Flow == 0)
		_, made := rt.PerDay.Of(p)
		_, pumped := rt.Pumped.Of(p)
		loss := slices.IndexFunc(y.h.Routine.Losses, func(l dilution.Loss) bool { return l.Of == p })
		moved := made || pumped || loss >= 0
		y.moved[paper.Capital(string(p))], y.rated[paper.Capital(string(p))] = moved, made
		least, atLeast := low.Levels.Of(p)
		most, atMost := high.Levels.Of(p)
		switch limited := atLeast || atMost; {
		case !tank && (moved || limited):
			noLevel = append(noLevel, name)
		case tank && !foretold:
			noBatch = append(noBatch, name)
		case tank && !made:
			noRate = append(noRate, name)
		}
		if foretold && loss >= 0 {
			rt.Losses = append(rt.Losses, y.h.Routine.Losses[loss])
		}
		if foretold && atLeast {
			y.bounds.Low.Levels = append(y.bounds.Low.Levels, least)
		}
		if foretold && atMost {
			y.bounds.High.Levels = append(y.bounds.High.Levels, most)
		}
	}
	for _, lack := range []struct {
		object, what string
		of           []string
	}{
		{"tank.", "where it leads, and whether limits are kept", noLevel},
		{"mix.", "what becomes of it in the tank", noBatch},
		{"per_day.", "taken as nothing: where it leads, and whether limits are kept, is not known", noRate},
	} {
		if len(lack.of) > 0 {
			y.r.Hides(lack.object+strings.Join(lack.of, ", "), lack.what)
		}
	}
	if len(low.Levels)+len(high.Levels) == 0 {
		y.r.Hides("limits", "until when all is well")
	}
}

// follow forecasts as far as it goes.
func (y *year) follow(span time.Duration) error {
	var err error
	if y.Forecast, err = y.routine.Forecast(span); err == nil {
		return y.stop()
	}
	if _, bad := y.routine.Forecast(time.Minute); bad != nil {
		return asWritten(bad)
	}
	var salty *units.RangeError
	var bad *units.InputError
	switch y.Ends = asWritten(err).Error(); {
	case errors.As(err, &salty):
		y.Ends = "nobody tops off, and the water becomes saltier than any standard for seawater goes"
	case errors.As(err, &bad) && bad.Field == "topOff":
		y.Ends = "the tank is dry"
	}
	minutes := sort.Search(int(span/time.Minute), func(n int) bool {
		_, err := y.routine.Forecast(time.Duration(n+1) * time.Minute)
		return err != nil
	})
	if y.Forecast, err = y.routine.Forecast(time.Duration(minutes) * time.Minute); err != nil {
		return err
	}
	return y.stop()
}

// nothing is what part of the level at the start is none.
const nothing = 1e-6

// stop ends a forecast where something is used up that no animal lives without: what the sums
// say of such a water, a pH of 5, is no tank any more.
func (y *year) stop() error {
	var low tested.Levels
	for _, c := range y.Forecast.Cautions {
		if c.ID != "runs-out" || c.Severity != advice.Danger {
			continue
		}
		for _, l := range y.Forecast.Start.Levels {
			if strings.HasPrefix(c.Text, paper.Capital(string(l.Parameter()))+" ") {
				low = append(low, l.WithBase(l.Base()*nothing))
			}
		}
	}
	if len(low) == 0 {
		return nil
	}
	first, err := y.Forecast.Until(dilution.Bounds{Low: dilution.Goal{Levels: low}})
	if err != nil || !first[0].Crosses() {
		return err
	}
	y.usedUp = strings.ToLower(first[0].Name)
	y.Ends = y.usedUp + " is used up, and with it the tank"
	y.Forecast, err = y.routine.Forecast(first[0].After.Truncate(time.Minute) + 2*time.Minute)
	return err
}

// asWritten gives errors the paths of the file.
func asWritten(err error) error {
	return errors.New(strings.NewReplacer("losses[0].perDay", "loss_per_day", "changes[0].", "change.",
		"perDay", "per_day", "topOff.water", "top_off", "topOff.", "top_off.", "stream.flow", "stream",
		".levels", "", ".batch", "", "bounds.", "limits.", "routine: ", "", "in the long run: ", "",
	).Replace(err.Error()))
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
	times := []time.Duration{0}
	for _, months := range []int{1, 3, 6, 12} {
		if at := y.Start.AddDate(0, months, 0).Sub(y.Start); at < y.Forecast.Span-day {
			times = append(times, at)
		}
	}
	if len(times) == 1 {
		times = append(times, y.Forecast.Span/2)
	}
	for _, at := range append(times, y.Forecast.Span) {
		if w, err := y.Forecast.Before(at); err == nil {
			y.Steps = append(y.Steps, dilution.Step{At: at, Water: w})
		}
	}
	y.series = y.known()
}

// cheapest looks for a calendar, if there is a choice.
func (y *year) cheapest() {
	c := y.h.Calendar
	if len(c.Swaps) == 0 || len(c.Every) == 0 {
		return
	}
	span := y.Forecast.Span
	if y.usedUp != "" { // which other changes might prevent
		span = y.asked
	}
	s := dilution.Schedule{Routine: y.routine, Batch: y.batch, Bounds: y.bounds, Span: span, Every: c.Every,
		Mix: c.Mix, Work: c.Work}
	s.Routine.Changes = nil
	for _, v := range c.Swaps {
		s.Swaps = append(s.Swaps, v.Of(y.h.Tank.Volume))
	}
	if plan, err := dilution.PlanSchedule(s); err == nil {
		y.Schedule = &plan
	} else {
		y.dear = asWritten(err)
	}
}
