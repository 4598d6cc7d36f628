package main

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// scenario is a scenario file as dotted names and texts, "tank.volume" and
// "280 L", so that every complaint can name its field. The first complaint is
// kept; later reads return nothing of use.
type scenario struct {
	texts map[string]string
	used  map[string]bool
	err   error
}

// parseScenario flattens a JSON object of objects and lists of texts.
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
		for _, key := range sorted(node) {
			s.flatten(join(key), node[key])
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

func sorted[V any](m map[string]V) []string {
	var keys []string
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
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

// text returns a field that must be given.
func (s *scenario) text(field, want string) string {
	s.used[field] = true
	text, ok := s.texts[field]
	if !ok {
		s.fail(field, "nothing", want)
	}
	return text
}

// quantity is a type of package units, by its pointer.
type quantity[Q any] interface {
	*Q
	UnmarshalText([]byte) error
}

// get reads a quantity that must be given.
func get[Q any, P quantity[Q]](s *scenario, field string) Q {
	_, none := units.Parse[Q, P]("") // what this quantity wants to see
	want := "a value"
	if bad, ok := none.(*units.InputError); ok {
		want = bad.Want
	}
	text := s.text(field, want)
	q, err := units.Parse[Q, P](text)
	if bad, ok := err.(*units.InputError); ok {
		s.fail(field, strconv.Quote(text), bad.Want)
	}
	return q
}

// optional reads a quantity that may be left out.
func optional[Q any, P quantity[Q]](s *scenario, field string) Q {
	if !s.has(field) {
		var none Q
		return none
	}
	return get[Q, P](s, field)
}

// measured reads a level that may be left out.
func measured[Q ~float64, P quantity[Q]](s *scenario, field string) dilution.Measured[Q] {
	if !s.has(field) {
		return dilution.Measured[Q]{}
	}
	return dilution.Known(get[Q, P](s, field))
}

// levels reads what is dissolved in a water, or what is added to it.
func (s *scenario) levels(of string) dilution.Levels {
	return dilution.Levels{
		Alkalinity: measured[units.Alkalinity](s, of+".alkalinity"),
		Calcium:    measured[units.MassPerLitre](s, of+".calcium"),
		Magnesium:  measured[units.MassPerLitre](s, of+".magnesium"),
		Nitrate:    measured[units.MassPerLitre](s, of+".nitrate"),
		Phosphate:  measured[units.MassPerLitre](s, of+".phosphate"),
	}
}

// water reads a water of one litre.
func (s *scenario) water(of string) dilution.State {
	w, err := seawater.FromPractical(get[units.PracticalSalinity](s, of+".salinity"), get[units.Temperature](s, of+".temperature"))
	if err != nil && s.err == nil {
		s.err = fmt.Errorf("%s: %w", of, err)
	}
	return dilution.State{Water: w.OfVolume(1 * units.Litre), Levels: s.levels(of)}
}

// days reads a time such as "14 days" or "36h".
func (s *scenario) days(field string) time.Duration {
	const want = `a time such as "14 days", "2 weeks" or "36h"`
	text := s.text(field, want)
	d, err := time.ParseDuration(text)
	for name, hours := range map[string]float64{"day": 24, "week": 168} {
		if count, ok := strings.CutSuffix(strings.TrimSuffix(text, "s"), name); ok {
			var n float64
			n, err = strconv.ParseFloat(strings.TrimSpace(count), 64)
			d = time.Duration(math.Round(n * hours * float64(time.Hour)))
		}
	}
	if err != nil || d <= 0 || d > 3650*24*time.Hour {
		s.fail(field, strconv.Quote(text), want)
	}
	return d
}

// list calls f for every element of a list, by its name.
func (s *scenario) list(field string, f func(at string)) {
	for i := 0; s.has(field + "." + strconv.Itoa(i)); i++ {
		f(field + "." + strconv.Itoa(i))
	}
}

// rest complains about fields that nothing read.
func (s *scenario) rest() {
	for _, name := range sorted(s.texts) {
		if !s.used[name] {
			s.fail(name, strconv.Quote(s.texts[name]), "no such field: it is misspelt, or does not go with the others")
			return
		}
	}
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
		name:  s.text("name", "a name for the scenario"),
		start: s.date("start"),
		span:  s.days("span"),
		step:  s.days("step"),
		routine: dilution.Routine{
			Tank:        s.water("tank"),
			PerDay:      s.levels("per_day"),
			Losses:      s.losses(),
			Evaporation: get[units.Flow](s, "evaporation"),
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
	r.Tank.Water = r.Tank.Water.OfVolume(get[units.Volume](s, "tank.volume"))
	if s.has("changes") || s.has("stream") || s.has("cheapest") {
		batch := s.water("batch")
		r.Changes = s.changes(batch)
		if s.has("stream") {
			r.Stream = dilution.Stream{Batch: batch, Flow: get[units.Flow](s, "stream.flow")}
		}
		in.seeks, in.schedule = s.cheapest(batch)
	}
	in.schedule.Routine, in.schedule.Bounds, in.schedule.Span = in.routine, in.bounds, in.span
	in.schedule.Routine.Changes = nil
	if in.doubtful = s.has("doubts"); in.doubtful {
		in.doubts = dilution.RoutineDoubts{
			Tank:        optional[units.Fraction](s, "doubts.tank"),
			Swap:        optional[units.Fraction](s, "doubts.swap"),
			Evaporation: optional[units.Fraction](s, "doubts.evaporation"),
			Salinity:    optional[units.PracticalSalinity](s, "doubts.salinity"),
			PerDay:      s.levels("doubts.per_day"),
			Levels:      s.levels("doubts"),
		}
	}
	s.rest()
	return in, s.err
}

func (s *scenario) date(field string) time.Time {
	const want = `a date such as "2026-01-31"`
	text := s.text(field, want)
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		s.fail(field, strconv.Quote(text), want)
	}
	return t
}

func (s *scenario) goal(field string) dilution.Goal {
	return dilution.Goal{Salinity: optional[units.PracticalSalinity](s, field+".salinity"), Levels: s.levels(field)}
}

// air reads the CO₂ in the air of the room.
func (s *scenario) air() carbonate.XCO2 {
	const field, want = "room_air", `the CO2 in the air of the room, such as "800 ppm"`
	if !s.has(field) {
		return 0
	}
	text := s.text(field, want)
	number, ok := strings.CutSuffix(text, " ppm")
	x, err := strconv.ParseFloat(number, 64)
	if !ok || err != nil || !(x > 0 && x < 1e5) {
		s.fail(field, strconv.Quote(text), want)
	}
	return carbonate.XCO2(x)
}

func (s *scenario) losses() []dilution.Loss {
	var list []dilution.Loss
	for _, name := range []string{"Alkalinity", "Calcium", "Magnesium", "Nitrate", "Phosphate"} {
		if field := "loss_per_day." + name; s.has(field) {
			list = append(list, dilution.Loss{Of: name, PerDay: get[units.Fraction](s, field)})
		}
	}
	return list
}

func (s *scenario) topOff() dilution.TopOff {
	t := dilution.TopOff{Water: s.levels("top_off")}
	const want = `"automatic", "hand" or "none"`
	switch by := s.text("top_off.by", want); by {
	case "automatic":
	case "hand":
		t.Hand = s.days("top_off.every")
	case "none":
		t.None = true
	default:
		s.fail("top_off.by", strconv.Quote(by), want)
	}
	return t
}

// calendar reads the first and the later times of what comes back.
func (s *scenario) calendar(at string) (first, every time.Duration) {
	if s.has(at + ".first") {
		first = s.days(at + ".first")
	}
	if s.has(at + ".every") {
		every = s.days(at + ".every")
	}
	return first, every
}

func (s *scenario) doses() (list []dilution.Dose) {
	s.list("doses", func(at string) {
		d := dilution.Dose{Levels: s.levels(at), Salt: optional[units.Mass](s, at+".salt")}
		d.First, d.Every = s.calendar(at)
		list = append(list, d)
	})
	return list
}

func (s *scenario) changes(batch dilution.State) (list []dilution.Renewal) {
	s.list("changes", func(at string) {
		c := dilution.Renewal{Batch: batch, Swap: get[units.Volume](s, at+".swap")}
		c.First, c.Every = s.calendar(at)
		list = append(list, c)
	})
	return list
}

func (s *scenario) cheapest(batch dilution.State) (bool, dilution.Schedule) {
	if !s.has("cheapest") {
		return false, dilution.Schedule{}
	}
	p := dilution.Schedule{
		Batch: batch,
		Mix:   get[units.Money](s, "cheapest.mix"),
		Work:  optional[units.Money](s, "cheapest.work"),
	}
	s.list("cheapest.swaps", func(at string) { p.Swaps = append(p.Swaps, get[units.Volume](s, at)) })
	s.list("cheapest.every", func(at string) { p.Every = append(p.Every, s.days(at)) })
	return true, p
}
