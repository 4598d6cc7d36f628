package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/salts"
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

// parseScenario flattens a JSON object of objects of texts.
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

// drop removes fields.
func (s *scenario) drop(fields ...string) {
	for _, f := range fields {
		delete(s.texts, f)
	}
}

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
	if bad, ok := err.(*units.InputError); ok {
		s.fail(field, strconv.Quote(text), bad.Want)
	}
	return q
}

// optional reads a quantity that may be left out.
func optional[Q any, P interface {
	*Q
	UnmarshalText([]byte) error
}](s *scenario, field string) (Q, bool) {
	if !s.has(field) {
		var none Q
		return none, false
	}
	return get[Q, P](s, field), true
}

// number reads a plain number of zero or more.
func (s *scenario) number(field string) float64 {
	const want = `a number such as "3"`
	text := s.text(field, want)
	x, err := strconv.ParseFloat(text, 64)
	if !(err == nil && x >= 0 && x < 1e6) {
		s.fail(field, strconv.Quote(text), want)
	}
	return x
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
			d = time.Duration(n * hours * float64(time.Hour))
		}
	}
	if err != nil || d <= 0 || d > 3650*24*time.Hour {
		s.fail(field, strconv.Quote(text), want)
	}
	return d
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
	name         string
	tap, product units.TDS
	flow         units.Flow
	waste        float64 // litres to the drain for a litre of product

	batch    mix.Batch
	measured units.PracticalSalinity
	corrects bool // measured is given
	heating  mix.Heating

	fresh, tank   dilution.State // their Water comes with the job
	volume        units.Volume
	salinity      units.PracticalSalinity
	temperature   units.Temperature
	nitratePerDay dilution.Measured[units.MassPerLitre]
	nitrateLimit  dilution.Measured[units.MassPerLitre]
	evaporation   units.Flow
	salinityLimit units.PracticalSalinity

	swap  units.Volume
	every time.Duration

	system   rodi.System // of the purifier; its membrane is described or not
	feed     rodi.Feed
	readings rodi.Readings
	judged   bool // readings are given

	tankPH    *carbonate.TotalPH // one of the two, or none
	tankNBS   *carbonate.NBSPH
	air       carbonate.XCO2 // of the room; 0 if not given
	doubts    dilution.Doubts
	doubtful  bool // doubts are given
	goal      dilution.Goal
	hasGoal   bool
	goalEvery time.Duration
	additives []additive
}

// additive is what gives back one parameter.
type additive struct {
	of      replenish.Parameter
	reagent salts.Reagent
}

// read turns the texts into quantities and complains about the first that is
// missing, unreadable or unknown.
func (s *scenario) read() (inputs, error) {
	in := inputs{
		name:    s.text("name", "a name for the scenario"),
		tap:     get[units.TDS](s, "pure_water.tap"),
		product: get[units.TDS](s, "pure_water.product"),
		flow:    get[units.Flow](s, "pure_water.flow"),
		waste:   s.number("pure_water.waste_ratio"),
		batch: mix.Batch{
			Target:           get[units.PracticalSalinity](s, "batch.target"),
			Temperature:      get[units.Temperature](s, "batch.temperature"),
			Amount:           s.amount(),
			Salt:             s.salt(),
			Scoop:            s.scoop(),
			Vessel:           s.vessel(),
			WaterTemperature: get[units.Temperature](s, "pure_water.temperature"),
		},
		fresh:   s.levels("batch"),
		tank:    s.levels("tank"),
		heating: mix.Heating{Heater: get[units.Power](s, "heater.power")},

		volume:        get[units.Volume](s, "tank.volume"),
		salinity:      get[units.PracticalSalinity](s, "tank.salinity"),
		temperature:   get[units.Temperature](s, "tank.temperature"),
		nitratePerDay: measured[units.MassPerLitre](s, "tank.nitrate_per_day"),
		nitrateLimit:  measured[units.MassPerLitre](s, "tank.nitrate_limit"),
		evaporation:   get[units.Flow](s, "tank.evaporation"),
		salinityLimit: get[units.PracticalSalinity](s, "tank.salinity_limit"),

		swap:  get[units.Volume](s, "change.swap"),
		every: s.days("change.every"),
	}
	in.measured, in.corrects = optional[units.PracticalSalinity](s, "batch.measured")
	if loss, given := optional[units.ThermalConductance](s, "heater.loss"); given {
		in.heating.Loss = loss
		in.heating.Room = get[units.Temperature](s, "heater.room")
	}
	s.purifier(&in)
	s.chemistry(&in)
	s.doubts(&in)
	s.goal(&in)
	s.additives(&in)
	s.rest()
	return in, s.err
}

// purifier reads what is known of the stages.
func (s *scenario) purifier(in *inputs) {
	if s.has("pure_water.membrane") {
		in.system.Membrane.Rated = rodi.Rating{
			Flow:        get[units.Flow](s, "pure_water.membrane.flow"),
			Pressure:    get[units.GaugePressure](s, "pure_water.membrane.pressure"),
			Temperature: get[units.Temperature](s, "pure_water.membrane.temperature"),
			Rejection:   get[units.Fraction](s, "pure_water.membrane.rejection"),
		}
		in.system.WasteRatio = in.waste
		in.feed = rodi.Feed{TDS: in.tap, Pressure: get[units.GaugePressure](s, "pure_water.pressure"), Temperature: in.batch.WaterTemperature}
	}
	if s.has("pure_water.resin") {
		in.system.Resin = rodi.Resin{
			Volume:   get[units.Volume](s, "pure_water.resin.volume"),
			Capacity: get[units.AmountPerLitre](s, "pure_water.resin.capacity"),
			Usable:   get[units.Fraction](s, "pure_water.resin.usable"),
		}
	}
	if after, given := optional[units.TDS](s, "pure_water.after_membrane"); given {
		in.judged = true
		in.readings = rodi.Readings{Feed: in.tap, AfterMembrane: after, AfterResin: in.product, Step: s.number("pure_water.step")}
	}
}

// chemistry reads the pH of the tank and the air of the room.
func (s *scenario) chemistry(in *inputs) {
	if s.has("tank.ph") {
		text := s.text("tank.ph", "")
		if total, err := units.Parse[carbonate.TotalPH](text); err == nil {
			in.tankPH = &total
		} else if nbs, err := units.Parse[carbonate.NBSPH](text); err == nil {
			in.tankNBS = &nbs
		} else {
			s.fail("tank.ph", strconv.Quote(text), `a pH with its scale, "8.1 total" or, from a meter set in ordinary buffers, "8.2 NBS"`)
		}
	}
	if s.has("air.co2") {
		in.air = carbonate.XCO2(s.number("air.co2")) // ppm
	}
}

func (s *scenario) doubts(in *inputs) {
	in.doubtful = s.has("doubts")
	d := &in.doubts
	d.Tank, _ = optional[units.Fraction](s, "doubts.tank")
	d.Swap, _ = optional[units.Fraction](s, "doubts.swap")
	d.Salinity, _ = optional[units.PracticalSalinity](s, "doubts.salinity")
	d.Temperature, _ = optional[units.TemperatureDifference](s, "doubts.temperature")
	if s.has("doubts.ph") {
		d.PH = s.number("doubts.ph")
	}
	d.Levels = s.levels("doubts").Levels
}

func (s *scenario) goal(in *inputs) {
	if in.hasGoal = s.has("goal"); !in.hasGoal {
		return
	}
	in.goal.Levels = s.levels("goal").Levels
	in.goal.Salinity, _ = optional[units.PracticalSalinity](s, "goal.salinity")
	in.goalEvery = s.days("goal.every")
}

// additives reads what is at hand to give back.
func (s *scenario) additives(in *inputs) {
	for _, of := range []replenish.Parameter{replenish.Alkalinity, replenish.Calcium, replenish.Magnesium} {
		field := "additives." + of.String()
		if !s.has(field) {
			continue
		}
		compound := get[salts.Compound](s, field+".compound")
		in.additives = append(in.additives, additive{of, salts.Reagent{Compound: compound, Purity: get[units.Fraction](s, field+".purity")}})
	}
}

func (s *scenario) amount() mix.Amount {
	var list []mix.Amount
	if v, ok := optional[units.Volume](s, "batch.final_volume"); ok {
		list = append(list, mix.FinalVolume(v))
	}
	if v, ok := optional[units.Volume](s, "batch.water_volume"); ok {
		list = append(list, mix.WaterVolume(v))
	}
	if h, ok := optional[units.Length](s, "batch.final_level"); ok {
		list = append(list, mix.FinalLevel(h))
	}
	if h, ok := optional[units.Length](s, "batch.water_level"); ok {
		list = append(list, mix.WaterLevel(h))
	}
	if len(list) != 1 {
		s.fail("batch", strconv.Itoa(len(list))+" amounts", "one of final_volume, water_volume, final_level, water_level")
		return mix.Amount{}
	}
	return list[0]
}

func (s *scenario) salt() mix.Salt {
	salt := mix.Salt{Name: s.text("salt.name", "a name for the salt")}
	salt.SeaSalt, _ = optional[units.Fraction](s, "salt.sea_salt")
	if s.has("salt.label") {
		salt.Label.PerLitreOfWater, _ = optional[units.MassPerLitre](s, "salt.label.per_litre_of_water")
		salt.Label.PerLitreOfMix, _ = optional[units.MassPerLitre](s, "salt.label.per_litre_of_mix")
		salt.Label.Gives = get[units.PracticalSalinity](s, "salt.label.gives")
		salt.Label.At = get[units.Temperature](s, "salt.label.at")
	}
	salt.BulkDensity, _ = optional[units.Density](s, "salt.bulk_density")
	salt.Package, _ = optional[units.Mass](s, "salt.package")
	salt.Price, _ = optional[units.Money](s, "salt.price")
	return salt
}

func (s *scenario) scoop() mix.Scoop {
	var scoop mix.Scoop
	scoop.Volume, _ = optional[units.Volume](s, "scoop.volume")
	scoop.Mass, _ = optional[units.Mass](s, "scoop.mass")
	return scoop
}

func (s *scenario) vessel() mix.Vessel {
	if !s.has("vessel") {
		return mix.Vessel{}
	}
	length := func(name string) units.Length { return get[units.Length](s, "vessel."+name) }
	var v mix.Vessel
	var err error
	switch shape := s.text("vessel.shape", `"box", "cylinder", "bucket" or "marks"`); shape {
	case "box":
		v, err = mix.Box(length("length"), length("width"), length("height"))
	case "cylinder":
		v, err = mix.Cylinder(length("diameter"), length("height"))
	case "bucket":
		v, err = mix.Bucket(length("bottom_diameter"), length("top_diameter"), length("height"))
	case "marks":
		var marks []mix.Mark
		for i := 0; s.has("vessel.marks." + strconv.Itoa(i)); i++ {
			at := "marks." + strconv.Itoa(i)
			marks = append(marks, mix.Mark{Height: length(at + ".height"), Volume: get[units.Volume](s, "vessel."+at+".volume")})
		}
		v, err = mix.Marked(marks...)
	default:
		s.fail("vessel.shape", strconv.Quote(shape), `"box", "cylinder", "bucket" or "marks"`)
	}
	if h, ok := optional[units.Length](s, "vessel.safe_fill"); ok && err == nil && s.err == nil {
		v, err = v.SafeFillTo(h)
	}
	if err != nil && s.err == nil {
		s.err = err
	}
	return v
}

// levels reads what was measured in a water besides salinity.
func (s *scenario) levels(of string) dilution.State {
	return dilution.State{Levels: dilution.Levels{
		Alkalinity: measured[units.Alkalinity](s, of+".alkalinity"),
		Calcium:    measured[units.MassPerLitre](s, of+".calcium"),
		Magnesium:  measured[units.MassPerLitre](s, of+".magnesium"),
		Nitrate:    measured[units.MassPerLitre](s, of+".nitrate"),
		Phosphate:  measured[units.MassPerLitre](s, of+".phosphate"),
		Ammonia:    measured[units.MassPerLitre](s, of+".ammonia"),
	}}
}

func measured[Q ~float64, P interface {
	*Q
	UnmarshalText([]byte) error
}](s *scenario, field string) dilution.Measured[Q] {
	if q, given := optional[Q, P](s, field); given {
		return dilution.Known(q)
	}
	return dilution.Measured[Q]{}
}
