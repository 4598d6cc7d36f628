// Package home reads one file about one tank and what belongs to it, and runs the
// commands that answer from it: all of them take the same file, and each ignores what it
// does not need.
//
// A file is a JSON object of texts with their units. The schema below is the only place
// where a key, its meaning and an example stand; the walk that reads a file also makes
// the table of keys (-keys, KEYS.md) and the full example (-example-full). What a file
// does not say is left out of an answer and named there. All that is wrong with a file is
// told at once, by the path as it is written: "tank.volume", "tests[2].at".
package home

import (
	"errors"
	"maps"
	"slices"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Home is what a file says, in the types of the library. What it does not say is nil or the
// zero value.
type Home struct {
	Name  string
	Style paper.Style
	Pair  units.GravityPair // at which a plain "1.026 SG" is taken
	Notes []string          // what was taken for granted while reading

	guesses [][2]string // of keys that say nothing, and that matter

	Tank     Water
	Room     units.Temperature
	Air      carbonate.XCO2 // CO₂ in the air of the room
	Heater   units.Power
	Unheated bool                     // the file says that there is no heater
	Loss     units.ThermalConductance // of the mixing vessel
	Scoop    mix.Scoop
	Vessel   mix.Vessel
	Salt     mix.Salt
	Pure     Pure
	Mix      Mix
	Change   Change
	Routine  Routine
	Goal     Goal
	Limits   dilution.Bounds
	Doubts   Doubts

	Additives []Additive
	Tests     []Test
	Dosed     []Dosed
	Changed   []Changed
	Lowest    tested.Levels
	LimeWater LimeWater

	Forecast Forecast
	Calendar Calendar
	Readings []string // of meters, "hydrometer60=1.0262"
	Recipe   Recipe
}

// Water is a water as it was measured.
type Water struct {
	Volume      units.Volume
	Salinity    *units.PracticalSalinity
	Temperature units.Temperature
	PH          PH
	Levels      tested.Levels
}

// Pure is how pure water comes about.
type Pure struct {
	Tap, Product, AfterMembrane units.TDS
	Step                        float64 // of the meter, ppm
	Flow                        units.Flow
	Waste                       float64 // litres to the drain for a litre of product
	Temperature                 units.Temperature
	Pressure                    units.GaugePressure
	Bought                      units.Money // of a litre
	System                      rodi.System
}

// Mix is the batch to make.
type Mix struct {
	Target      *units.PracticalSalinity
	Temperature units.Temperature
	Amount      mix.Amount
	Volume      units.Volume             // of the finished mix, where it is said so
	Measured    *units.PracticalSalinity // after the night
	Levels      tested.Levels
}

// Change is the change of water.
type Change struct {
	Swap  Swap
	Every time.Duration
	At    time.Time // of the next one
}

// Routine is what happens between changes.
type Routine struct {
	PerDay      tested.Levels
	Losses      []dilution.Loss
	Evaporation units.Flow
	TopOff      dilution.TopOff
	Pumped      tested.Levels
	Doses       []dilution.Dose
	Stream      units.Flow
}

// Goal is where the tank is to go.
type Goal struct {
	dilution.Goal
	Every time.Duration // between the changes on the way
}

// Doubts are the standard uncertainties of all that was measured.
type Doubts struct {
	Tank, Swap, Evaporation units.Fraction
	Salinity                units.PracticalSalinity
	Temperature             units.TemperatureDifference
	PH                      float64
	Levels, PerDay          tested.Levels
	Given                   bool
}

// Additive is what raises a parameter.
type Additive struct {
	Name    string
	For     tested.Parameter // empty: what it holds says
	Is      replenish.Additive
	Holds   salts.Compound // of a dry one, or the first of a stock
	Price   units.Money    // of a package
	Package units.Mass
}

// Test is one day's testing.
type Test struct {
	At       time.Time
	Salinity *units.PracticalSalinity
	Levels   tested.Levels
}

// Dosed is what was given from one time to another.
type Dosed struct {
	Additive string
	From, To time.Time
	Amount   replenish.Amount
}

// Changed is a change of water that was made.
type Changed struct {
	At     time.Time
	Swap   units.Volume
	Levels tested.Levels
}

// LimeWater is lime water as top-off.
type LimeWater struct {
	TopOff      units.Flow
	Temperature units.Temperature
	Saturation  units.Fraction
}

// Forecast is how far to look ahead.
type Forecast struct {
	Start time.Time
	Span  time.Duration
}

// Calendar is what a calendar of changes may be chosen from.
type Calendar struct {
	Swaps     []Swap
	Every     []time.Duration
	Mix, Work units.Money // of a litre of new water, and of a change
}

// Recipe is a salt mix to be made from single salts.
type Recipe struct {
	Like      string
	Salinity  *units.PracticalSalinity
	Volume    *units.Volume
	Tolerance *units.Fraction
	Targets   []Target
	Shelf     []Jar
}

// Target is what one component of a mix is to be.
type Target struct{ Of, Amount, Tolerance, Weight string }

// Jar is a compound on the shelf.
type Jar struct {
	Compound        salts.Compound
	Purity          units.Fraction
	Price           units.Money
	Package         units.Mass
	Left            *units.Mass // nil: plenty
	AllowedByItself bool
}

// Read reads a file. What lies over it is said by path: "tank.volume" and "310 L". Beside
// an error, which joins all that is wrong, stands nothing.
func Read(data []byte, over map[string]string) (*Home, error) {
	f := parse(data)
	for _, path := range amounts { // one that lies over the file takes the place of another
		if _, said := over[path]; said {
			for _, other := range amounts {
				delete(f.texts, other)
			}
		}
	}
	maps.Copy(f.texts, over)
	h := &Home{}
	h.walk(f)
	f.rest()
	if len(f.problems) > 0 {
		return nil, errors.Join(f.problems...)
	}
	h.lastTests()
	return h, nil
}

// lastTests takes what the file does not say of the tank from the last tests of it.
func (h *Home) lastTests() {
	for i := len(h.Tests) - 1; i >= 0; i-- {
		t := h.Tests[i]
		day := t.At.Format("2 January")
		if h.Tank.Salinity == nil && t.Salinity != nil {
			h.Tank.Salinity = t.Salinity
			h.Note("tank.salinity", "not said, taken from the test of "+day)
		}
		for _, l := range t.Levels {
			if _, said := h.Tank.Levels.Of(l.Parameter()); !said {
				h.Tank.Levels = append(h.Tank.Levels, l)
				h.Note("tank."+string(l.Parameter()), "not said, taken from the test of "+day)
			}
		}
	}
}

// amounts are the ways to say how much to mix.
var amounts = []string{"mix.volume", "mix.water", "mix.level", "mix.water_level"}

// Keys lists all that a file can say.
func Keys() []Key {
	f := newFile()
	f.listing = true
	new(Home).walk(f)
	return f.keys
}

// Note says what was taken for granted in reading, once.
func (h *Home) Note(name, text string) {
	if text = name + ": " + text + "."; !slices.Contains(h.Notes, text) {
		h.Notes = append(h.Notes, text)
	}
}

// Guess says what a key is taken as that says nothing, where that matters to the answer: it
// stands among what was not told.
func (h *Home) Guess(key, text string) {
	if g := [2]string{key, text}; !slices.Contains(h.guesses, g) {
		h.guesses = append(h.guesses, g)
	}
}

// Temperature is that of the tank, or the usual one, which is noted.
func (h *Home) Temperature() units.Temperature {
	switch {
	case h.Tank.Temperature.IsSet():
		return h.Tank.Temperature
	case h.Mix.Temperature.IsSet():
		return h.Mix.Temperature
	}
	h.Guess("tank.temperature", "taken as 25 °C")
	return units.Celsius(25)
}

// TankSalinity is that of the tank, or what the mix is to have, which is noted.
func (h *Home) TankSalinity() (units.PracticalSalinity, error) {
	switch {
	case h.Tank.Salinity != nil:
		return *h.Tank.Salinity, nil
	case h.Mix.Target != nil:
		h.Guess("tank.salinity", "taken as that of the mix, and so the change seems to move nothing")
		return *h.Mix.Target, nil
	}
	return units.Practical(0), Missing("tank.salinity", `the salinity of the tank, such as "35 ppt" or "1.026 SG"`)
}

// usualShare is what a change takes where nobody says how much (common practice: 10 to 20 %
// every week or two).
const usualShare = 0.10

// SwapVolume is how much a change takes: what is said, or the usual share of the tank, which
// is noted; zero if nobody can tell.
func (h *Home) SwapVolume() (v units.Volume, usual bool) {
	if v = h.Change.Swap.Of(h.Tank.Volume); v > 0 || h.Tank.Volume == 0 {
		return v, false
	}
	h.Guess("change.swap", "taken as 10 % of the tank (common practice is 10 to 20 %)")
	return usualShare * h.Tank.Volume, true
}

// TankWater is the tank as a water of the library, with the CO₂ that its pH tells.
func (h *Home) TankWater() (tested.Water, error) {
	s, err := h.TankSalinity()
	if err != nil {
		return tested.Water{}, err
	}
	if h.Tank.Volume <= 0 {
		return tested.Water{}, Missing("tank.volume", `the water in the tank, such as "310 L"`)
	}
	w, err := seawater.FromPractical(s, h.Temperature())
	if err != nil {
		return tested.Water{}, At("tank", err)
	}
	tank := tested.Water{Portion: w.OfVolume(h.Tank.Volume), Levels: h.Tank.Levels}
	if h.Tank.PH.Given() {
		tank.Carbon = carbonate.PH(h.Tank.PH.Total(w))
	}
	return tank, nil
}

// Additive is what is at hand to raise a parameter: of several the first.
func (h *Home) Additive(of tested.Parameter) (Additive, bool) {
	for _, a := range h.Additives {
		if a.For == of || a.For == "" && of.In(a.Holds.Dose(1)) > 0 {
			return a, true
		}
	}
	return Additive{}, false
}

// Missing complains about a key that an answer cannot do without.
func Missing(path, want string) error {
	return &units.InputError{Field: path, Got: "nothing", Want: want}
}

// At says in which part of the file an error of the library lies.
func At(path string, err error) error {
	var bad *units.InputError
	if many, joined := err.(interface{ Unwrap() []error }); joined {
		var list []error
		for _, e := range many.Unwrap() {
			list = append(list, At(path, e))
		}
		return errors.Join(list...)
	}
	if errors.As(err, &bad) {
		return &units.InputError{Field: asWritten(path + "." + bad.Field), Got: bad.Got, Want: bad.Want}
	}
	return &partError{path, err}
}

// asWritten is the path in the file of a field of the library.
func asWritten(field string) string {
	for _, r := range [...][2]string{
		{"change.tank.", "tank."}, {"change.batch.", "mix."}, {"change.changes.", "change."}, {"mix.amount", "mix.volume"},
	} {
		if rest, found := strings.CutPrefix(field, r[0]); found {
			return r[1] + rest
		}
	}
	return field
}

type partError struct {
	path string
	err  error
}

func (e *partError) Error() string { return e.path + ": " + e.err.Error() }
func (e *partError) Unwrap() error { return e.err }
