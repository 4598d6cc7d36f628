package main

import (
	"strconv"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/form"
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// scenario is a scenario file, and what of it the library takes.
type scenario struct{ *form.Form }

func parseScenario(data []byte) (*scenario, error) {
	f, err := form.Read(data)
	return &scenario{f}, err
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

	fresh, tank   tested.Water // their Portion comes with the job
	volume        units.Volume
	salinity      units.PracticalSalinity
	temperature   units.Temperature
	nitratePerDay *units.MassPerLitre // as NO₃; nil if not given
	nitrateLimit  *units.MassPerLitre
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
	of      tested.Parameter
	reagent salts.Reagent
}

// read turns the texts into quantities and complains about the first that is
// missing, unreadable or unknown.
func (s *scenario) read() (inputs, error) {
	in := inputs{
		name:    s.Text("name", "a name for the scenario"),
		tap:     form.Get[units.TDS](s.Form, "pure_water.tap"),
		product: form.Get[units.TDS](s.Form, "pure_water.product"),
		flow:    form.Get[units.Flow](s.Form, "pure_water.flow"),
		waste:   s.Number("pure_water.waste_ratio"),
		batch: mix.Batch{
			Target:           form.Get[units.PracticalSalinity](s.Form, "batch.target"),
			Temperature:      form.Get[units.Temperature](s.Form, "batch.temperature"),
			Amount:           s.amount(),
			Salt:             s.salt(),
			Scoop:            s.scoop(),
			Vessel:           s.vessel(),
			WaterTemperature: form.Get[units.Temperature](s.Form, "pure_water.temperature"),
		},
		fresh:   s.levels("batch"),
		tank:    s.levels("tank"),
		heating: mix.Heating{Heater: form.Get[units.Power](s.Form, "heater.power")},

		volume:        form.Get[units.Volume](s.Form, "tank.volume"),
		salinity:      form.Get[units.PracticalSalinity](s.Form, "tank.salinity"),
		temperature:   form.Get[units.Temperature](s.Form, "tank.temperature"),
		nitratePerDay: optional[units.MassPerLitre](s, "tank.nitrate_per_day"),
		nitrateLimit:  optional[units.MassPerLitre](s, "tank.nitrate_limit"),
		evaporation:   form.Get[units.Flow](s.Form, "tank.evaporation"),
		salinityLimit: form.Get[units.PracticalSalinity](s.Form, "tank.salinity_limit"),

		swap:  form.Get[units.Volume](s.Form, "change.swap"),
		every: s.Days("change.every"),
	}
	in.measured, in.corrects = form.Optional[units.PracticalSalinity](s.Form, "batch.measured")
	if loss, given := form.Optional[units.ThermalConductance](s.Form, "heater.loss"); given {
		in.heating.Loss = loss
		in.heating.Room = form.Get[units.Temperature](s.Form, "heater.room")
	}
	s.purifier(&in)
	s.chemistry(&in)
	s.doubts(&in)
	s.goal(&in)
	s.additives(&in)
	s.Rest()
	return in, s.Err
}

// purifier reads what is known of the stages.
func (s *scenario) purifier(in *inputs) {
	if s.Has("pure_water.membrane") {
		in.system.Membrane.Rated = rodi.Rating{
			Flow:        form.Get[units.Flow](s.Form, "pure_water.membrane.flow"),
			Pressure:    form.Get[units.GaugePressure](s.Form, "pure_water.membrane.pressure"),
			Temperature: form.Get[units.Temperature](s.Form, "pure_water.membrane.temperature"),
			Rejection:   form.Get[units.Fraction](s.Form, "pure_water.membrane.rejection"),
		}
		in.system.WasteRatio = in.waste
		in.feed = rodi.Feed{
			TDS:         in.tap,
			Pressure:    form.Get[units.GaugePressure](s.Form, "pure_water.pressure"),
			Temperature: in.batch.WaterTemperature,
		}
	}
	if s.Has("pure_water.resin") {
		in.system.Resin = rodi.Resin{
			Volume:   form.Get[units.Volume](s.Form, "pure_water.resin.volume"),
			Capacity: form.Get[units.AmountPerLitre](s.Form, "pure_water.resin.capacity"),
			Usable:   form.Get[units.Fraction](s.Form, "pure_water.resin.usable"),
		}
	}
	if after, given := form.Optional[units.TDS](s.Form, "pure_water.after_membrane"); given {
		in.judged = true
		in.readings = rodi.Readings{
			Feed:          in.tap,
			AfterMembrane: after,
			AfterResin:    in.product,
			Step:          s.Number("pure_water.step"),
		}
	}
}

// chemistry reads the pH of the tank and the air of the room.
func (s *scenario) chemistry(in *inputs) {
	if s.Has("tank.ph") {
		text := s.Text("tank.ph", "")
		if total, err := units.Parse[carbonate.TotalPH](text); err == nil {
			in.tankPH = &total
		} else if nbs, err := units.Parse[carbonate.NBSPH](text); err == nil {
			in.tankNBS = &nbs
		} else {
			s.Fail("tank.ph", input.Quoted(text),
				`a pH with its scale, "8.1 total" or, from a meter set in ordinary buffers, "8.2 NBS"`)
		}
	}
	if s.Has("air.co2") {
		in.air = carbonate.XCO2(s.Number("air.co2")) // ppm
		if in.air < 100 || in.air > 20000 {
			s.Fail("air.co2", input.Quoted(s.Text("air.co2", "")),
				`parts per million in the room, "430" outdoors, up to "2000" in closed rooms`)
		}
	}
}

func (s *scenario) doubts(in *inputs) {
	in.doubtful = s.Has("doubts")
	d := &in.doubts
	d.Tank, _ = form.Optional[units.Fraction](s.Form, "doubts.tank")
	d.Swap, _ = form.Optional[units.Fraction](s.Form, "doubts.swap")
	d.Salinity, _ = form.Optional[units.PracticalSalinity](s.Form, "doubts.salinity")
	d.Temperature, _ = form.Optional[units.TemperatureDifference](s.Form, "doubts.temperature")
	if s.Has("doubts.ph") {
		d.PH = s.Number("doubts.ph")
	}
	d.Levels = s.levels("doubts").Levels
}

func (s *scenario) goal(in *inputs) {
	if in.hasGoal = s.Has("goal"); !in.hasGoal {
		return
	}
	in.goal.Levels = s.levels("goal").Levels
	in.goal.Salinity, _ = form.Optional[units.PracticalSalinity](s.Form, "goal.salinity")
	in.goalEvery = s.Days("goal.every")
}

// additives reads what is at hand to give back.
func (s *scenario) additives(in *inputs) {
	for _, of := range []tested.Parameter{tested.Alkalinity, tested.Calcium, tested.Magnesium} {
		field := "additives." + string(of)
		if !s.Has(field) {
			continue
		}
		compound := form.Get[salts.Compound](s.Form, field+".compound")
		in.additives = append(in.additives, additive{
			of,
			salts.Reagent{Compound: compound, Purity: form.Get[units.Fraction](s.Form, field+".purity")},
		})
	}
}

func (s *scenario) amount() mix.Amount {
	var list []mix.Amount
	if v, ok := form.Optional[units.Volume](s.Form, "batch.final_volume"); ok {
		list = append(list, mix.FinalVolume(v))
	}
	if v, ok := form.Optional[units.Volume](s.Form, "batch.water_volume"); ok {
		list = append(list, mix.WaterVolume(v))
	}
	if h, ok := form.Optional[units.Length](s.Form, "batch.final_level"); ok {
		list = append(list, mix.FinalLevel(h))
	}
	if h, ok := form.Optional[units.Length](s.Form, "batch.water_level"); ok {
		list = append(list, mix.WaterLevel(h))
	}
	if len(list) != 1 {
		s.Fail("batch", strconv.Itoa(len(list))+" amounts", "one of final_volume, water_volume, final_level, water_level")
		return mix.Amount{}
	}
	return list[0]
}

func (s *scenario) salt() mix.Salt {
	salt := mix.Salt{Name: s.Text("salt.name", "a name for the salt")}
	salt.SeaSalt, _ = form.Optional[units.Fraction](s.Form, "salt.sea_salt")
	if s.Has("salt.label") {
		salt.Label.PerLitreOfWater, _ = form.Optional[units.MassPerLitre](s.Form, "salt.label.per_litre_of_water")
		salt.Label.PerLitreOfMix, _ = form.Optional[units.MassPerLitre](s.Form, "salt.label.per_litre_of_mix")
		salt.Label.Gives = form.Get[units.PracticalSalinity](s.Form, "salt.label.gives")
		salt.Label.At = form.Get[units.Temperature](s.Form, "salt.label.at")
	}
	salt.BulkDensity, _ = form.Optional[units.Density](s.Form, "salt.bulk_density")
	salt.Package, _ = form.Optional[units.Mass](s.Form, "salt.package")
	salt.Price, _ = form.Optional[units.Money](s.Form, "salt.price")
	return salt
}

func (s *scenario) scoop() mix.Scoop {
	var scoop mix.Scoop
	scoop.Volume, _ = form.Optional[units.Volume](s.Form, "scoop.volume")
	scoop.Mass, _ = form.Optional[units.Mass](s.Form, "scoop.mass")
	return scoop
}

func (s *scenario) vessel() mix.Vessel {
	if !s.Has("vessel") {
		return mix.Vessel{}
	}
	length := func(name string) units.Length { return form.Get[units.Length](s.Form, "vessel."+name) }
	var v mix.Vessel
	var err error
	switch shape := s.Text("vessel.shape", `"box", "cylinder", "bucket" or "marks"`); shape {
	case "box":
		v, err = mix.Box(length("length"), length("width"), length("height"))
	case "cylinder":
		v, err = mix.Cylinder(length("diameter"), length("height"))
	case "bucket":
		v, err = mix.Bucket(length("bottom_diameter"), length("top_diameter"), length("height"))
	case "marks":
		var marks []mix.Mark
		for i := 0; s.Has("vessel.marks." + strconv.Itoa(i)); i++ {
			at := "marks." + strconv.Itoa(i)
			marks = append(marks, mix.Mark{
				Height: length(at + ".height"),
				Volume: form.Get[units.Volume](s.Form, "vessel."+at+".volume"),
			})
		}
		v, err = mix.Marked(marks...)
	default:
		s.Fail("vessel.shape", input.Quoted(shape), `"box", "cylinder", "bucket" or "marks"`)
	}
	if h, ok := form.Optional[units.Length](s.Form, "vessel.safe_fill"); ok && err == nil && s.Err == nil {
		v, err = v.SafeFillTo(h)
	}
	if err != nil && s.Err == nil {
		s.Err = err
	}
	return v
}

// levels reads what was measured in a water besides salinity.
func (s *scenario) levels(of string) tested.Water {
	return tested.Water{
		Levels: s.Levels(of, tested.Alkalinity, tested.Calcium, tested.Magnesium, tested.Nitrate, tested.Phosphate,
			tested.Ammonia),
	}
}

// optional reads a quantity that may be left out.
func optional[Q any, P form.Quantity[Q]](s *scenario, field string) *Q {
	if q, given := form.Optional[Q, P](s.Form, field); given {
		return &q
	}
	return nil
}
