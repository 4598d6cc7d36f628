package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// scenario is a scenario file as dotted names and texts, "tank.volume" and
// "310 L", so that every complaint can name its field. The first complaint is
// kept; later reads return nothing of use.
type scenario struct {
	texts map[string]string
	used  map[string]bool
	err   error
}

// parseScenario flattens a JSON object of objects, lists and texts.
func parseScenario(data []byte) (*scenario, error) {
	var tree map[string]any
	if err := json.Unmarshal(data, &tree); err != nil {
		return nil, fmt.Errorf("the scenario is not a JSON object: %w", err)
	}
	s := &scenario{texts: map[string]string{}, used: map[string]bool{}}
	s.flatten("", tree)
	return s, s.err
}

func (s *scenario) flatten(name string, node any) {
	join := func(key string) string { return strings.TrimPrefix(name+"."+key, ".") }
	switch node := node.(type) {
	case map[string]any:
		for key, child := range node {
			s.flatten(join(key), child)
		}
	case []any:
		for i, child := range node {
			s.flatten(join(strconv.Itoa(i)), child)
		}
	case string:
		s.texts[name] = node
	default:
		s.fail(name, fmt.Sprint(node), `a text in quotes with its unit, such as "20 L"`)
	}
}

func (s *scenario) fail(field, got, want string) {
	if s.err == nil {
		s.err = &units.InputError{Field: field, Got: got, Want: want}
	}
}

// set replaces a text, as flags do.
func (s *scenario) set(field, text string) { s.texts[field] = text }

// has tells whether a field, or any field below it, is given.
func (s *scenario) has(field string) bool {
	for name := range s.texts {
		if name == field || strings.HasPrefix(name, field+".") {
			return true
		}
	}
	return false
}

// each calls do with the name of every entry of a list.
func (s *scenario) each(list string, do func(entry string)) {
	for i := 0; s.has(list + "." + strconv.Itoa(i)); i++ {
		do(list + "." + strconv.Itoa(i))
	}
}

// text returns a field that must be given.
func (s *scenario) text(field, want string) string {
	s.used[field] = true
	text, ok := s.texts[field]
	if !ok {
		s.fail(field, "nothing", want)
	}
	return text
}

// get reads a quantity that must be given.
func get[Q any, P interface {
	*Q
	UnmarshalText([]byte) error
}](s *scenario, field string) Q {
	_, none := units.Parse[Q, P]("") // what this quantity wants to see
	want := "a value"
	if bad, ok := none.(*units.InputError); ok {
		want = bad.Want
	}
	text := s.text(field, want)
	q, err := units.Parse[Q, P](text)
	s.complain(field, text, err)
	return q
}

// complain gives the error of a text the name of its field.
func (s *scenario) complain(field, text string, err error) {
	if bad, ok := err.(*units.InputError); ok {
		s.fail(field, strconv.Quote(text), bad.Want)
	}
}

// level reads a level of a parameter.
func (s *scenario) level(field string, p replenish.Parameter) replenish.Level {
	_, none := p.Parse("")
	want := "a level"
	if bad, ok := none.(*units.InputError); ok {
		want = bad.Want
	}
	text := s.text(field, want)
	l, err := p.Parse(text)
	s.complain(field, text, err)
	return l
}

// levels reads what is given of all parameters below a name.
func (s *scenario) levels(of string) []replenish.Level {
	var list []replenish.Level
	for _, p := range parameters {
		if field := of + "." + p.String(); s.has(field) {
			list = append(list, s.level(field, p))
		}
	}
	return list
}

// parameters in the order of the reports.
var parameters = []replenish.Parameter{
	replenish.Alkalinity, replenish.Calcium, replenish.Magnesium, replenish.Potassium, replenish.Strontium, replenish.Bromide,
	replenish.Boron, replenish.Fluoride, replenish.Iodine, replenish.Iron, replenish.Nitrate, replenish.Phosphate,
}

// moment reads a time of the day.
func (s *scenario) moment(field string) time.Time {
	const layout, want = "2006-01-02 15:04", `a time such as "2026-03-01 09:00"`
	text := s.text(field, want)
	at, err := time.Parse(layout, text)
	if err != nil {
		s.fail(field, strconv.Quote(text), want)
	}
	return at
}

// amount reads a mass or a volume.
func (s *scenario) amount(field string) replenish.Amount {
	const want = `an amount such as "12 g" or "40 mL"`
	text := s.text(field, want)
	if v, err := units.Parse[units.Volume](text); err == nil {
		return replenish.Amount{Volume: v}
	}
	m, err := units.Parse[units.Mass](text)
	if err != nil {
		s.fail(field, strconv.Quote(text), want)
	}
	return replenish.Amount{Mass: m}
}

// number reads the number before a word.
func (s *scenario) number(field, want string, words ...string) (x float64, word string) {
	text := s.text(field, want)
	number, word, _ := strings.Cut(strings.TrimSpace(text), " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || !slices.Contains(words, word) {
		s.fail(field, strconv.Quote(text), want)
	}
	return x, word
}

// rest complains about fields that nothing read.
func (s *scenario) rest() {
	var unknown []string
	for name := range s.texts {
		if !s.used[name] {
			unknown = append(unknown, name)
		}
	}
	if len(unknown) > 0 {
		slices.Sort(unknown)
		s.fail(unknown[0], strconv.Quote(s.texts[unknown[0]]), "no such field: it is misspelt, or does not go with the others")
	}
}

// inputs are a scenario in the types of the library.
type inputs struct {
	name     string
	tank     replenish.Tank
	log      replenish.Log
	hasLog   bool
	lowest   []replenish.Level
	everyDay []named
	goals    []named
	lime     replenish.LimeWater
	hasLime  bool
}

// named is a parameter with the additive that is to raise it.
type named struct {
	field    string // of the scenario
	to       replenish.Level
	of       replenish.Parameter
	additive replenish.Additive
	name     string
}

// read turns the texts into quantities and complains about the first that is
// missing, unreadable or unknown.
func (s *scenario) read() (inputs, error) {
	in := inputs{name: s.text("name", "a name for the scenario"), tank: s.tank()}
	additives := s.additives()
	pick := func(entry string) (replenish.Additive, string) {
		field := entry + ".additive"
		name := s.text(field, "the name of an additive")
		a, known := additives[name]
		if !known {
			s.fail(field, strconv.Quote(name), "the name of one of the additives")
		}
		return a, name
	}
	uncertainty := s.levels("uncertainty")
	in.hasLog = s.has("tests")
	in.log.Volume = in.tank.Volume
	s.each("tests", func(entry string) {
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
	s.each("doses", func(entry string) {
		d := replenish.Dosed{From: s.moment(entry + ".from"), Amount: s.amount(entry + ".amount")}
		if s.has(entry + ".to") {
			d.To = s.moment(entry + ".to")
		}
		d.Additive, _ = pick(entry)
		in.log.Doses = append(in.log.Doses, d)
	})
	s.each("changes", func(entry string) {
		in.log.Changes = append(in.log.Changes, replenish.WaterChange{
			At: s.moment(entry + ".at"), Swapped: get[units.Volume](s, entry+".swapped"), Fresh: s.levels(entry),
		})
	})
	in.lowest = s.levels("lowest")
	s.each("every_day", func(entry string) {
		n := named{field: entry, of: get[replenish.Parameter](s, entry+".parameter")}
		n.additive, n.name = pick(entry)
		in.everyDay = append(in.everyDay, n)
	})
	s.each("goals", func(entry string) {
		n := named{field: entry, of: get[replenish.Parameter](s, entry+".parameter")}
		n.additive, n.name = pick(entry)
		n.to = s.level(entry+".to", n.of)
		in.goals = append(in.goals, n)
	})
	if in.hasLime = s.has("lime_water"); in.hasLime {
		in.lime = replenish.LimeWater{
			Tank:        in.tank,
			TopOff:      get[units.Flow](s, "lime_water.top_off"),
			Temperature: get[units.Temperature](s, "lime_water.temperature"),
			Saturation:  get[units.Fraction](s, "lime_water.saturation"),
		}
	}
	s.rest()
	return in, s.err
}

func (s *scenario) tank() replenish.Tank {
	t := replenish.Tank{Volume: get[units.Volume](s, "tank.volume"), Levels: s.levels("levels")}
	salinity, temperature := get[units.PracticalSalinity](s, "tank.salinity"), get[units.Temperature](s, "tank.temperature")
	water, err := seawater.FromPractical(salinity, temperature)
	if err != nil && s.err == nil {
		s.err = fmt.Errorf("tank: %w", err)
	}
	t.Water = water
	if s.has("tank.air") {
		ppm, _ := s.number("tank.air", `a content of CO2 such as "600 ppm"`, "ppm")
		t.Air = carbonate.XCO2(ppm)
	}
	if s.has("tank.ph") {
		x, scale := s.number("tank.ph", `a pH with its scale, such as "8.1 NBS" for an electrode set in dilute buffers, or "8.0 total"`, "NBS", "total")
		ph := carbonate.PHTotal(x)
		if scale == "NBS" {
			c := carbonate.At(salinity, temperature, carbonate.Options{})
			ph = carbonate.PHNBS(x).Total(&c)
		}
		t.Carbon = carbonate.PH(ph)
	}
	return t
}

func (s *scenario) additives() map[string]replenish.Additive {
	list := map[string]replenish.Additive{}
	reagent := func(at string) salts.Reagent {
		return salts.Reagent{Compound: get[salts.Compound](s, at+".compound"), Purity: get[units.Fraction](s, at+".purity")}
	}
	s.each("additives", func(entry string) {
		name := s.text(entry+".name", "a name for the additive")
		if _, twice := list[name]; twice {
			s.fail(entry+".name", strconv.Quote(name), "another name than that of an additive before")
		}
		switch {
		case s.has(entry+".dry") == s.has(entry+".stock"):
			s.fail(entry, "dry and stock, or neither", "one of them")
		case s.has(entry + ".dry"):
			list[name] = replenish.Dry(reagent(entry + ".dry"))
		default:
			var parts []replenish.Ingredient
			s.each(entry+".stock", func(part string) {
				parts = append(parts, replenish.Ingredient{Reagent: reagent(part), PerLitre: get[units.MassPerLitre](s, part+".per_litre")})
			})
			list[name] = replenish.Stock(parts...)
		}
	})
	return list
}
