package main

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/form"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// scenario is a scenario file, and what of it the library takes.
type scenario struct{ *form.Form }

func parseScenario(data []byte) (*scenario, error) {
	f, err := form.Read(data)
	return &scenario{f}, err
}

// optional reads a quantity that may be left out.
func optional[Q any, P form.Quantity[Q]](s *scenario, field string) Q {
	q, _ := form.Optional[Q, P](s.Form, field)
	return q
}

// parameters are those that a forecast follows.
var parameters = []tested.Parameter{
	tested.Alkalinity,
	tested.Calcium,
	tested.Magnesium,
	tested.Nitrate,
	tested.Phosphate,
}

// levels reads what is dissolved in a water, or what is added to it.
func (s *scenario) levels(of string) tested.Levels { return s.Levels(of, parameters...) }

// water reads a water of one litre.
func (s *scenario) water(of string) tested.Water {
	w, err := seawater.FromPractical(form.Get[units.PracticalSalinity](s.Form, of+".salinity"),
		form.Get[units.Temperature](s.Form, of+".temperature"))
	if err != nil && s.Err == nil {
		s.Err = fmt.Errorf("%s: %w", of, err)
	}
	return tested.Water{Portion: w.OfVolume(1 * units.Litre), Levels: s.levels(of)}
}

// inputs are a scenario in the types of the library.
type inputs struct {
	name       string
	start      time.Time
	span, step time.Duration
	routine    dilution.Routine
	air        carbonate.XCO2 // of the room; 0 if not known
	bounds     dilution.Bounds
	doubts     dilution.RoutineDoubts
	doubtful   bool
	schedule   dilution.Schedule
	seeks      bool // the cheapest calendar
}

// read turns the texts into quantities and complains about the first that is
// missing, unreadable or unknown.
func (s *scenario) read() (inputs, error) {
	in := inputs{
		name:  s.Text("name", "a name for the scenario"),
		start: s.date("start"),
		span:  s.Days("span"),
		step:  s.Days("step"),
		routine: dilution.Routine{
			Tank:        s.water("tank"),
			PerDay:      s.levels("per_day"),
			Losses:      s.losses(),
			Evaporation: form.Get[units.Flow](s.Form, "evaporation"),
			TopOff:      s.topOff(),
			Pumped:      s.levels("pumped"),
			Doses:       s.doses(),
		},
		air: s.air(),
		bounds: dilution.Bounds{
			Low:  s.goal("limits.low"),
			High: s.goal("limits.high"),
		},
	}
	r := &in.routine
	r.Tank = r.Tank.OfVolume(form.Get[units.Volume](s.Form, "tank.volume"))
	if s.Has("changes") || s.Has("stream") || s.Has("cheapest") {
		batch := s.water("batch")
		r.Changes = s.changes(batch)
		if s.Has("stream") {
			r.Stream = dilution.Stream{Batch: batch, Flow: form.Get[units.Flow](s.Form, "stream.flow")}
		}
		in.seeks, in.schedule = s.cheapest(batch)
	}
	in.schedule.Routine, in.schedule.Bounds, in.schedule.Span = in.routine, in.bounds, in.span
	in.schedule.Routine.Changes = nil
	if in.doubtful = s.Has("doubts"); in.doubtful {
		in.doubts = dilution.RoutineDoubts{
			Tank:        optional[units.Fraction](s, "doubts.tank"),
			Swap:        optional[units.Fraction](s, "doubts.swap"),
			Evaporation: optional[units.Fraction](s, "doubts.evaporation"),
			Salinity:    optional[units.PracticalSalinity](s, "doubts.salinity"),
			PerDay:      s.levels("doubts.per_day"),
			Levels:      s.levels("doubts"),
		}
	}
	s.Rest()
	return in, s.Err
}

func (s *scenario) date(field string) time.Time {
	const want = `a date such as "2026-01-31"`
	text := s.Text(field, want)
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		s.Fail(field, strconv.Quote(text), want)
	}
	return t
}

func (s *scenario) goal(field string) dilution.Goal {
	return dilution.Goal{Salinity: optional[units.PracticalSalinity](s, field+".salinity"), Levels: s.levels(field)}
}

// air reads the CO₂ in the air of the room.
func (s *scenario) air() carbonate.XCO2 {
	const field, want = "room_air", `the CO2 in the air of the room, such as "800 ppm"`
	if !s.Has(field) {
		return 0
	}
	text := s.Text(field, want)
	number, ok := strings.CutSuffix(text, " ppm")
	x, err := strconv.ParseFloat(number, 64)
	if !ok || err != nil || !(x > 0 && x < 1e5) {
		s.Fail(field, strconv.Quote(text), want)
	}
	return carbonate.XCO2(x)
}

func (s *scenario) losses() []dilution.Loss {
	var list []dilution.Loss
	for _, p := range parameters {
		if field := "loss_per_day." + capital(string(p)); s.Has(field) {
			list = append(list, dilution.Loss{Of: p, PerDay: form.Get[units.Fraction](s.Form, field)})
		}
	}
	return list
}

func (s *scenario) topOff() dilution.TopOff {
	t := dilution.TopOff{Water: s.levels("top_off")}
	const want = `"automatic", "hand" or "none"`
	switch by := s.Text("top_off.by", want); by {
	case "automatic":
	case "hand":
		t.Hand = s.Days("top_off.every")
	case "none":
		t.None = true
	default:
		s.Fail("top_off.by", strconv.Quote(by), want)
	}
	return t
}

// calendar reads the first and the later times of what comes back.
func (s *scenario) calendar(at string) (first, every time.Duration) {
	if s.Has(at + ".first") {
		first = s.Days(at + ".first")
	}
	if s.Has(at + ".every") {
		every = s.Days(at + ".every")
	}
	return first, every
}

func (s *scenario) doses() (list []dilution.Dose) {
	s.Each("doses", func(at string) {
		d := dilution.Dose{Levels: s.levels(at), Salt: optional[units.Mass](s, at+".salt")}
		d.First, d.Every = s.calendar(at)
		list = append(list, d)
	})
	return list
}

func (s *scenario) changes(batch tested.Water) (list []dilution.Renewal) {
	s.Each("changes", func(at string) {
		c := dilution.Renewal{Batch: batch, Swap: form.Get[units.Volume](s.Form, at+".swap")}
		c.First, c.Every = s.calendar(at)
		list = append(list, c)
	})
	return list
}

func (s *scenario) cheapest(batch tested.Water) (bool, dilution.Schedule) {
	if !s.Has("cheapest") {
		return false, dilution.Schedule{}
	}
	p := dilution.Schedule{
		Batch: batch,
		Mix:   form.Get[units.Money](s.Form, "cheapest.mix"),
		Work:  optional[units.Money](s, "cheapest.work"),
	}
	s.Each("cheapest.swaps", func(at string) { p.Swaps = append(p.Swaps, form.Get[units.Volume](s.Form, at)) })
	s.Each("cheapest.every", func(at string) { p.Every = append(p.Every, s.Days(at)) })
	return true, p
}

func capital(name string) string { return strings.ToUpper(name[:1]) + name[1:] }
