package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/internal/form"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/salts"
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

// level reads a level of a parameter.
func (s *scenario) level(field string, p tested.Parameter) tested.Level {
	_, none := p.Parse("")
	want := "a level"
	if bad, ok := none.(*units.InputError); ok {
		want = bad.Want
	}
	text := s.Text(field, want)
	l, err := p.Parse(text)
	s.Complain(field, text, err)
	return l
}

// levels reads what is given of all parameters below a name.
func (s *scenario) levels(of string) []tested.Level {
	var list []tested.Level
	for _, p := range parameters {
		if field := of + "." + string(p); s.Has(field) {
			list = append(list, s.level(field, p))
		}
	}
	return list
}

// parameters in the order of the reports.
var parameters = []tested.Parameter{
	tested.Alkalinity, tested.Calcium, tested.Magnesium, tested.Potassium, tested.Strontium, tested.Bromide,
	tested.Boron, tested.Fluoride, tested.Iodine, tested.Iron, tested.Nitrate, tested.Phosphate,
}

// moment reads a time of the day.
func (s *scenario) moment(field string) time.Time {
	const layout, want = "2006-01-02 15:04", `a time such as "2026-03-01 09:00"`
	text := s.Text(field, want)
	at, err := time.Parse(layout, text)
	if err != nil {
		s.Fail(field, strconv.Quote(text), want)
	}
	return at
}

// amount reads a mass or a volume.
func (s *scenario) amount(field string) replenish.Amount {
	const want = `an amount such as "12 g" or "40 mL"`
	text := s.Text(field, want)
	if v, err := units.Parse[units.Volume](text); err == nil {
		return replenish.Amount{Volume: v}
	}
	m, err := units.Parse[units.Mass](text)
	if err != nil {
		s.Fail(field, strconv.Quote(text), want)
	}
	return replenish.Amount{Mass: m}
}

// number reads the number before a word.
func (s *scenario) number(field, want string, words ...string) (x float64, word string) {
	text := s.Text(field, want)
	number, word, _ := strings.Cut(strings.TrimSpace(text), " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || !slices.Contains(words, word) {
		s.Fail(field, strconv.Quote(text), want)
	}
	return x, word
}

// inputs are a scenario in the types of the library.
type inputs struct {
	name     string
	tank     tested.Water
	air      carbonate.XCO2
	log      replenish.Log
	hasLog   bool
	lowest   []tested.Level
	everyDay []named
	goals    []named
	lime     replenish.LimeWater
	hasLime  bool
}

// named is a parameter with the additive that is to raise it.
type named struct {
	field    string // of the scenario
	to       tested.Level
	of       tested.Parameter
	additive replenish.Additive
	name     string
}

// read turns the texts into quantities and complains about the first that is
// missing, unreadable or unknown.
func (s *scenario) read() (inputs, error) {
	in := inputs{name: s.Text("name", "a name for the scenario")}
	in.tank, in.air = s.tank()
	additives := s.additives()
	pick := func(entry string) (replenish.Additive, string) {
		field := entry + ".additive"
		name := s.Text(field, "the name of an additive")
		a, known := additives[name]
		if !known {
			s.Fail(field, strconv.Quote(name), "the name of one of the additives")
		}
		return a, name
	}
	uncertainty := s.levels("uncertainty")
	in.hasLog = s.Has("tests")
	in.log.Volume = in.tank.Volume()
	s.Each("tests", func(entry string) {
		at := s.moment(entry + ".at")
		for _, l := range s.levels(entry) {
			t := replenish.Test{At: at, Level: l}
			for _, u := range uncertainty {
				if u.Parameter() == l.Parameter() {
					t.Uncertainty = u
				}
			}
			in.log.Tests = append(in.log.Tests, t)
		}
	})
	s.Each("doses", func(entry string) {
		d := replenish.Dosed{From: s.moment(entry + ".from"), Amount: s.amount(entry + ".amount")}
		if s.Has(entry + ".to") {
			d.To = s.moment(entry + ".to")
		}
		d.Additive, _ = pick(entry)
		in.log.Doses = append(in.log.Doses, d)
	})
	s.Each("changes", func(entry string) {
		in.log.Changes = append(in.log.Changes, replenish.WaterChange{
			At: s.moment(entry + ".at"), Swapped: form.Get[units.Volume](s.Form, entry+".swapped"), Fresh: s.levels(entry),
		})
	})
	in.lowest = s.levels("lowest")
	s.Each("every_day", func(entry string) {
		n := named{field: entry, of: form.Get[tested.Parameter](s.Form, entry+".parameter")}
		n.additive, n.name = pick(entry)
		in.everyDay = append(in.everyDay, n)
	})
	s.Each("goals", func(entry string) {
		n := named{field: entry, of: form.Get[tested.Parameter](s.Form, entry+".parameter")}
		n.additive, n.name = pick(entry)
		n.to = s.level(entry+".to", n.of)
		in.goals = append(in.goals, n)
	})
	if in.hasLime = s.Has("lime_water"); in.hasLime {
		in.lime = replenish.LimeWater{
			Tank:        in.tank,
			Air:         in.air,
			TopOff:      form.Get[units.Flow](s.Form, "lime_water.top_off"),
			Temperature: form.Get[units.Temperature](s.Form, "lime_water.temperature"),
			Saturation:  form.Get[units.Fraction](s.Form, "lime_water.saturation"),
		}
	}
	s.Rest()
	return in, s.Err
}

func (s *scenario) tank() (t tested.Water, air carbonate.XCO2) {
	volume := form.Get[units.Volume](s.Form, "tank.volume")
	t.Levels = s.levels("levels")
	salinity, temperature := form.Get[units.PracticalSalinity](s.Form,
		"tank.salinity"), form.Get[units.Temperature](s.Form, "tank.temperature")
	water, err := seawater.FromPractical(salinity, temperature)
	if err != nil && s.Err == nil {
		s.Err = fmt.Errorf("tank: %w", err)
	}
	t.Portion = water.OfVolume(volume)
	if s.Has("tank.air") {
		ppm, _ := s.number("tank.air", `a content of CO2 such as "600 ppm"`, "ppm")
		air = carbonate.XCO2(ppm)
	}
	if s.Has("tank.ph") {
		x, scale := s.number("tank.ph",
			`a pH with its scale, such as "8.1 NBS" for an electrode set in dilute buffers, or "8.0 total"`, "NBS", "total")
		ph := carbonate.PHTotal(x)
		if scale == "NBS" {
			c := carbonate.At(salinity, temperature, carbonate.Options{})
			ph = carbonate.PHNBS(x).Total(&c)
		}
		t.Carbon = carbonate.PH(ph)
	}
	return t, air
}

func (s *scenario) additives() map[string]replenish.Additive {
	list := map[string]replenish.Additive{}
	reagent := func(at string) salts.Reagent {
		return salts.Reagent{
			Compound: form.Get[salts.Compound](s.Form, at+".compound"),
			Purity:   form.Get[units.Fraction](s.Form, at+".purity"),
		}
	}
	s.Each("additives", func(entry string) {
		name := s.Text(entry+".name", "a name for the additive")
		if _, twice := list[name]; twice {
			s.Fail(entry+".name", strconv.Quote(name), "another name than that of an additive before")
		}
		switch {
		case s.Has(entry+".dry") == s.Has(entry+".stock"):
			s.Fail(entry, "dry and stock, or neither", "one of them")
		case s.Has(entry + ".dry"):
			list[name] = replenish.Dry(reagent(entry + ".dry"))
		default:
			var parts []replenish.Ingredient
			s.Each(entry+".stock", func(part string) {
				parts = append(parts, replenish.Ingredient{
					Reagent:  reagent(part),
					PerLitre: form.Get[units.MassPerLitre](s.Form, part+".per_litre"),
				})
			})
			list[name] = replenish.Stock(parts...)
		}
	})
	return list
}
