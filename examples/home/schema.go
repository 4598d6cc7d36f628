package home

import (
	"fmt"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// walk goes through all keys: the path, where it goes, what it means, an example. Examples
// make one home that works; "or " stands before another way to say the same.
func (h *Home) walk(f *file) {
	f.text("name", &h.Name, "what you call this tank", "Window bay")
	h.prefer(f)
	h.tank(f)
	h.salt(f)
	h.vessel(f)
	h.pure(f)
	h.batch(f)
	h.change(f)
	h.routine(f)
	h.aims(f)
	h.doubts(f)
	h.additives(f)
	h.log(f)
	h.ahead(f)
	h.recipe(f)
}

func (h *Home) prefer(f *file) {
	unit, salinity := units.Metric, "ppt"
	for _, path := range []string{"mix.volume", "tank.volume"} {
		if text, said := f.texts[path]; said && strings.Contains(strings.ToLower(text), "gal") {
			unit = units.US
		} else if said {
			unit = units.Metric
		}
	}
	f.get("prefer.units", &unit, "units of what is printed, metric, US or both; if not said, those of tank.volume", "both")
	f.choice("prefer.salinity", &salinity, []string{"ppt", "SG", "mS/cm"}, "how a salinity is printed first")
	h.Pair = units.SG25C()
	f.by("prefer.gravity", func(text string) error {
		g, err := units.Parse[units.SpecificGravity]("1.0264 " + text)
		if err != nil {
			return &units.InputError{
				Got:  text,
				Want: `the temperatures of water and reference, such as "25/25 °C" or "60/60 °F"`,
			}
		}
		h.Pair = g.Pair()
		return nil
	}, "temperatures at which a plain \"1.026 SG\" is taken and printed", "25/25 °C")
	h.Style = paper.Style{Units: unit, By: salinity, Pair: h.Pair}
}

func (h *Home) tank(f *file) {
	t := &h.Tank
	f.get("tank.volume", &t.Volume, "water in the tank, without rock and sand", "310 L")
	h.salinity(f, "tank.salinity", &t.Salinity, "salinity of the tank, in any way of measuring it", "35.3 ppt")
	temperature(f, "tank.temperature", &t.Temperature, "temperature of the tank", "25.5 °C")
	f.get("tank.ph", &t.PH, "pH with its scale, total, or NBS of a meter set in ordinary buffers", "8.15 NBS")
	h.levels(f, "tank", &t.Levels, "what was tested in the tank", "7.4 dKH")
	f.get("room.temperature", &h.Room, "temperature of the room", "19 °C")
	f.get("room.co2", &h.Air, "CO2 in the air of the room", "600 ppm")
	h.Unheated = f.get("heater.power", &h.Heater, "power of the heater in the mixing vessel; 0 W if "+
		"there is none", "200 W") && h.Heater == 0
	f.get("heater.loss", &h.Loss, "heat that the mixing vessel loses; needs room.temperature", "3 W/K")
}

func (h *Home) salt(f *file) {
	s := &h.Salt
	f.text("salt.name", &s.Name, "what the dry salt is called", "dry sea salt")
	f.get("salt.per_litre_of_water", &s.Label.PerLitreOfWater, "what the label says to dissolve in a litre of water",
		"38.5 g/L")
	f.get("salt.per_litre_of_mix", &s.Label.PerLitreOfMix, "what the label says makes a litre of finished mix",
		"or 37.9 g/L")
	f.get("salt.sea_salt", &s.SeaSalt, "share of anhydrous sea salt in the product, in the place of a label", "or 92 %")
	s.Label.Gives, s.Label.At = units.Practical(35), units.Celsius(25)
	var gives *units.PracticalSalinity
	h.salinity(f, "salt.gives", &gives, "salinity that the label promises; 35 ppt if not said", "35 ppt")
	f.get("salt.at", &s.Label.At, "temperature of the label; 25 °C if not said", "25 °C")
	f.get("salt.package", &s.Package, "salt in one package", "12 kg")
	var makes units.Volume
	f.get("salt.package_makes", &makes, "mix that one package makes, in the place of a label", "or 320 L")
	f.get("salt.price", &s.Price, "price of one package", "48 EUR")
	f.get("salt.bulk_density", &s.BulkDensity, "mass of a volume of the dry salt as it lies in a scoop", "1.12 g/mL")
	f.get("scoop.volume", &h.Scoop.Volume, "a level scoop", "150 mL")
	f.get("scoop.mass", &h.Scoop.Mass, "what a level scoop of this salt weighs", "or 168 g")
	if gives != nil {
		s.Label.Gives = *gives
	}
	if makes > 0 && s.Package > 0 {
		s.Label.PerLitreOfMix = units.MassPerLitre(float64(s.Package/units.Gram)/makes.Litres()) * units.GramPerLitre
	} else if makes > 0 {
		f.fail("salt.package_makes", makes.String(), "salt.package beside it, what one package weighs")
	}
	if s.Label.PerLitreOfWater == 0 && s.Label.PerLitreOfMix == 0 {
		s.Label = mix.Label{}
	}
}

func (h *Home) vessel(f *file) {
	var shape string
	var length, width, height, diameter, bottom, top, safe units.Length
	f.choice("vessel.shape", &shape, []string{"bucket", "box", "cylinder", "marks"}, "shape of the mixing vessel")
	f.get("vessel.bottom_diameter", &bottom, "inside, of a bucket", "36 cm")
	f.get("vessel.top_diameter", &top, "inside, of a bucket", "44 cm")
	f.get("vessel.height", &height, "inside", "50 cm")
	f.get("vessel.length", &length, "inside, of a box", "or 60 cm")
	f.get("vessel.width", &width, "inside, of a box", "or 40 cm")
	f.get("vessel.diameter", &diameter, "inside, of a cylinder", "or 40 cm")
	var marks []mix.Mark
	f.each("vessel.marks", func(_ int, path string) {
		var m mix.Mark
		f.get(path+".height", &m.Height, "of a mark whose volume was found by filling", "or 36 cm")
		f.get(path+".volume", &m.Volume, "what the vessel holds up to the mark", "or 42 L")
		marks = append(marks, m)
	})
	f.get("vessel.safe_fill", &safe, "how high it may be filled", "44 cm")
	var v mix.Vessel
	var err error
	switch shape {
	case "":
		return
	case "box":
		v, err = mix.Box(length, width, height)
	case "cylinder":
		v, err = mix.Cylinder(diameter, height)
	case "bucket":
		v, err = mix.Bucket(bottom, top, height)
	case "marks":
		v, err = mix.Marked(marks...)
	}
	if err == nil && safe > 0 {
		v, err = v.SafeFillTo(safe)
	}
	if err != nil {
		f.problem(At("vessel", err))
	}
	h.Vessel = v
}

func (h *Home) pure(f *file) {
	p := &h.Pure
	h.tds(f, "pure_water.tap", &p.Tap, "dissolved solids of the tap, with the factor of the meter, "+
		"or µS/cm", "236 ppm x0.5")
	h.tds(f, "pure_water.product", &p.Product, "dissolved solids behind the last stage", "0 ppm x0.5")
	h.tds(f, "pure_water.after_membrane", &p.AfterMembrane, "dissolved solids between membrane and resin", "6 ppm x0.5")
	number(f, "pure_water.step", &p.Step, "step of that meter, ppm", "1")
	f.get("pure_water.flow", &p.Flow, "pure water that the purifier makes", "7.5 L/h")
	ratio(f, "pure_water.waste", &p.Waste, "litres to the drain for a litre of product", "3:1")
	temperature(f, "pure_water.temperature", &p.Temperature, "temperature of the pure water as it is poured", "17 °C")
	f.get("pure_water.pressure", &p.Pressure, "before the membrane", "4 bar")
	f.get("pure_water.bought", &p.Bought, "price of a litre, if pure water is bought", "or 0.30 EUR")
	m := &p.System.Membrane.Rated
	f.get("pure_water.membrane.flow", &m.Flow, "rated flow of the membrane", "75 US gal/day")
	f.get("pure_water.membrane.pressure", &m.Pressure, "at which it is rated", "50 psi")
	f.get("pure_water.membrane.temperature", &m.Temperature, "at which it is rated", "25 °C")
	f.get("pure_water.membrane.rejection", &m.Rejection, "rated rejection of salt", "97 %")
	f.get("pure_water.membrane.life", &p.System.Membrane.Life, "product that it is expected to make", "8000 L")
	f.get("pure_water.membrane.price", &p.System.Membrane.Price, "price of a membrane", "55 EUR")
	r := &p.System.Resin
	f.get("pure_water.resin.volume", &r.Volume, "resin in one filling", "0.6 L")
	f.get("pure_water.resin.capacity", &r.Capacity, "capacity of the resin", "0.6 mol/L")
	f.get("pure_water.resin.usable", &r.Usable, "share of it that is used until the reading rises", "80 %")
	f.get("pure_water.resin.price", &r.Price, "price of one filling", "14 EUR")
	f.get("pure_water.sediment.life", &p.System.Sediment.Life, "tap water that a sediment cartridge takes", "6000 L")
	f.get("pure_water.sediment.price", &p.System.Sediment.Price, "price of a cartridge", "6 EUR")
	p.System.WasteRatio = p.Waste
}

func (h *Home) batch(f *file) {
	m := &h.Mix
	h.salinity(f, "mix.target", &m.Target, "salinity to mix to", "35 ppt")
	temperature(f, "mix.temperature", &m.Temperature, "temperature of the finished mix; that of the tank "+
		"if not said", "25 °C")
	var volume, water units.Volume
	var level, waterLevel units.Length
	said := 0
	of := func(given bool, a mix.Amount) {
		if given {
			said++
			m.Amount = a
		}
	}
	of(f.get("mix.volume", &volume, "finished mix; what the change takes if nothing is said", "50 L"),
		mix.FinalVolume(volume))
	of(f.get("mix.water", &water, "pure water, poured up to a line", "or 48 L"), mix.WaterVolume(water))
	of(f.get("mix.level", &level, "of the finished mix in the vessel", "or 40 cm"), mix.FinalLevel(level))
	of(f.get("mix.water_level", &waterLevel, "of the pure water in the vessel", "or 39 cm"), mix.WaterLevel(waterLevel))
	if said > 1 {
		f.fail("mix", fmt.Sprintf("%d amounts", said), "one of volume, water, level and water_level")
	}
	m.Volume = volume
	h.salinity(f, "mix.measured", &m.Measured, "salinity that the mix was found to have, after the night", "34.4 ppt")
	h.levels(f, "mix", &m.Levels, "what the new water holds", "8.6 dKH")
}

func (h *Home) change(f *file) {
	c := &h.Change
	f.get("change.swap", &c.Swap, "water to change, a volume or a share of the tank", "48 L")
	span(f, "change.every", &c.Every, "from one change to the next", "2 weeks")
	moment(f, "change.at", &c.At, "when the next change is to be made", "2026-03-07 09:00")
}

func (h *Home) routine(f *file) {
	r := &h.Routine
	h.levels(f, "per_day", &r.PerDay, "what the tank adds in a day; below zero what it uses", "-0.5 dKH")
	f.keys = append(f.keys, Key{
		Path:    "loss_per_day.LEVEL",
		Meaning: "share that goes in a day, by algae or media",
		Example: "1 %",
	})
	for _, p := range tested.Parameters() {
		var share units.Fraction
		if f.get("loss_per_day."+strings.ReplaceAll(string(p), " ", "_"), &share, "", "1 %") {
			r.Losses = append(r.Losses, dilution.Loss{Of: p, PerDay: share})
		}
	}
	f.get("evaporation", &r.Evaporation, "water that evaporates", "4 L/day")
	by := "automatic"
	f.choice("top_off.by", &by, []string{"automatic", "hand", "none"}, "how evaporated water is made good")
	span(f, "top_off.every", &r.TopOff.Hand, "from one filling up by hand to the next", "or 2 days")
	r.TopOff.None = by == "none"
	if by == "hand" && r.TopOff.Hand == 0 {
		f.fail("top_off.every", "nothing", "the time from one filling up to the next")
	}
	h.levels(f, "top_off", &r.TopOff.Water, "what the top-off water holds", "0 dKH")
	h.levels(f, "pumped", &r.Pumped, "what pumps give in a day", "0.2 dKH")
	f.each("doses", func(_ int, path string) {
		var d dilution.Dose
		h.levels(f, path, &d.Levels, "what a dose raises in the tank", "0.1 dKH")
		f.get(path+".salt", &d.Salt, "salt that a dose leaves besides", "1.2 g")
		span(f, path+".first", &d.First, "from the start to the first dose", "12 h")
		span(f, path+".every", &d.Every, "from dose to dose; once if not said", "1 day")
		r.Doses = append(r.Doses, d)
	})
	f.get("stream", &r.Stream, "new water that runs in all the time", "or 2 L/day")
}

func (h *Home) aims(f *file) {
	goal := func(path string, g *dilution.Goal, meaning, salinity, level string) {
		var s *units.PracticalSalinity
		h.salinity(f, path+".salinity", &s, meaning+" of salinity", salinity)
		if s != nil {
			g.Salinity = *s
		}
		h.levels(f, path, &g.Levels, meaning+" of a level", level)
	}
	goal("goal", &h.Goal.Goal, "goal", "or 35 ppt", "8.5 dKH")
	span(f, "goal.every", &h.Goal.Every, "between changes on the way to the goal", "2 days")
	goal("limits.low", &h.Limits.Low, "lower limit", "34 ppt", "7 dKH")
	goal("limits.high", &h.Limits.High, "upper limit", "36.5 ppt", "9.5 dKH")
}

func (h *Home) doubts(f *file) {
	d := &h.Doubts
	f.get("doubts.tank", &d.Tank, "standard uncertainty of the volume of the tank", "8 %")
	f.get("doubts.swap", &d.Swap, "of the volume that is changed", "2 %")
	f.get("doubts.evaporation", &d.Evaporation, "of what evaporates", "10 %")
	f.get("doubts.salinity", &d.Salinity, "of a reading of salinity", "0.3")
	f.get("doubts.temperature", &d.Temperature, "of a thermometer", "0.3 K")
	number(f, "doubts.ph", &d.PH, "of a pH", "0.05")
	h.levels(f, "doubts", &d.Levels, "of a test kit", "0.3 dKH")
	h.levels(f, "doubts.per_day", &d.PerDay, "of what the tank adds in a day", "0.05 dKH")
	d.Given = f.has("doubts")
}

func (h *Home) additives(f *file) {
	f.each("additives", func(_ int, path string) {
		var a Additive
		var dry salts.Reagent
		var parts []replenish.Ingredient
		f.text(path+".name", &a.Name, "what the additive is called", "baking soda")
		f.get(path+".for", &a.For, "parameter that it raises", "alkalinity")
		isDry := f.get(path+".compound", &dry.Compound, "of an additive that is weighed: formula or name", "NaHCO3")
		said := f.get(path+".purity", &dry.Purity, "of that compound", "99 %")
		f.each(path+".stock", func(_ int, path string) {
			var p replenish.Ingredient
			f.get(path+".compound", &p.Compound, "of an additive that is a solution", "or Na2CO3")
			f.get(path+".purity", &p.Purity, "of that compound", "or 99 %")
			f.get(path+".per_litre", &p.PerLitre, "that a litre of the solution holds", "or 60 g/L")
			parts = append(parts, p)
		})
		f.get(path+".package", &a.Package, "in one package", "1 kg")
		f.get(path+".price", &a.Price, "of one package", "4 EUR")
		switch {
		case f.listing:
		case isDry == (len(parts) > 0):
			f.fail(path, "a compound and a stock, or neither", "one of them")
		case isDry:
			if !said {
				h.pure100(path+".purity", &dry)
			}
			a.Is, a.Holds = replenish.Dry(dry), dry.Compound
		default:
			for k := range parts {
				h.pure100(path+".stock.purity", &parts[k].Reagent)
			}
			a.Is, a.Holds = replenish.Stock(parts...), parts[0].Compound
		}
		if a.Name == "" {
			a.Name = a.Holds.Name()
		}
		h.Additives = append(h.Additives, a)
	})
}

// pure100 takes a compound whose purity nobody says as pure.
func (h *Home) pure100(key string, r *salts.Reagent) {
	if r.Purity == (units.Fraction{}) {
		r.Purity = units.Percent(100)
		h.Guess(key, "taken as 100 %")
	}
}

func (h *Home) log(f *file) {
	f.each("tests", func(_ int, path string) {
		var t Test
		moment(f, path+".at", &t.At, "when the tank was tested", "2026-03-01 09:00")
		h.salinity(f, path+".salinity", &t.Salinity, "what was found", "35.2 ppt")
		h.levels(f, path, &t.Levels, "what was found", "7.6 dKH")
		h.Tests = append(h.Tests, t)
	})
	f.each("dosed", func(i int, path string) {
		var d Dosed
		f.text(path+".additive", &d.Additive, "name of what was dosed", "baking soda")
		moment(f, path+".from", &d.From, "when, or from when on", "2026-03-01 10:00")
		moment(f, path+".to", &d.To, "until when", "2026-03-06 10:00")
		amount(f, path+".amount", &d.Amount, "how much in all", "18 g")
		if h.Named(d.Additive) == nil && !f.listing {
			f.fail(path+".additive", units.Quoted(d.Additive), "the name of one of the additives")
		}
		h.Dosed = append(h.Dosed, d)
	})
	f.each("changed", func(_ int, path string) {
		var c Changed
		moment(f, path+".at", &c.At, "when water was changed", "2026-03-05 11:00")
		f.get(path+".swap", &c.Swap, "how much", "45 L")
		h.levels(f, path, &c.Levels, "what the new water held", "8.4 dKH")
		h.Changed = append(h.Changed, c)
	})
	h.levels(f, "lowest", &h.Lowest, "to which a level may fall before something is done", "6 dKH")
	l := &h.LimeWater
	f.get("lime_water.top_off", &l.TopOff, "lime water in the place of top-off water", "4 L/day")
	f.get("lime_water.temperature", &l.Temperature, "at which it is made", "19 °C")
	f.get("lime_water.saturation", &l.Saturation, "how near it is to as much lime as dissolves", "100 %")
}

// Named returns the additive of a name.
func (h *Home) Named(name string) *Additive {
	for i := range h.Additives {
		if h.Additives[i].Name == name {
			return &h.Additives[i]
		}
	}
	return nil
}

func (h *Home) ahead(f *file) {
	moment(f, "forecast.start", &h.Forecast.Start, "from when to look ahead; today if not said", "2026-01-01")
	span(f, "forecast.span", &h.Forecast.Span, "how far to look ahead; a year if not said", "1 year")
	f.each("calendar.swaps", func(_ int, path string) {
		var s Swap
		f.get(path, &s, "a change to choose from", "28 L")
		h.Calendar.Swaps = append(h.Calendar.Swaps, s)
	})
	f.each("calendar.every", func(_ int, path string) {
		var d time.Duration
		span(f, path, &d, "a time from change to change to choose from", "14 days")
		h.Calendar.Every = append(h.Calendar.Every, d)
	})
	f.get("calendar.mix", &h.Calendar.Mix, "price of a litre of new water", "0.40 EUR")
	f.get("calendar.work", &h.Calendar.Work, "what a change is worth to you in work", "2.50 EUR")
	f.each("readings", func(_ int, path string) {
		var r string
		f.text(path, &r, "what a meter shows in the tank, by its name in the table of meters", "hydrometer60=1.0262")
		h.Readings = append(h.Readings, r)
	})
}

func (h *Home) recipe(f *file) {
	r := &h.Recipe
	f.text("recipe.like", &r.Like, "a published recipe to come near to; the sea if not said", "or kester")
	h.salinity(f, "recipe.salinity", &r.Salinity, "that the mix is to have; mix.target if not said", "or 35 ppt")
	maybe(f, "recipe.volume", &r.Volume, "finished mix; that of the batch if not said", "100 L")
	maybe(f, "recipe.tolerance", &r.Tolerance, "how far every ion may be off; 1 % if not said", "2 %")
	f.each("recipe.targets", func(_ int, path string) {
		var t Target
		f.text(path+".of", &t.Of, "ion or sum that is to be otherwise", "Ca")
		f.text(path+".amount", &t.Amount, "what it is to be", "430 mg/L")
		f.text(path+".tolerance", &t.Tolerance, "how far it may be off", "or 1 %")
		f.text(path+".weight", &t.Weight, "how much its miss counts", "or 3")
		r.Targets = append(r.Targets, t)
	})
	f.each("recipe.shelf", func(_ int, path string) {
		var j Jar
		f.get(path+".compound", &j.Compound, "a compound on the shelf", "NaCl")
		f.get(path+".purity", &j.Purity, "of it", "99 %")
		f.get(path+".price", &j.Price, "of a package", "9 EUR")
		f.get(path+".package", &j.Package, "in a package", "10 kg")
		maybe(f, path+".left", &j.Left, "if it is not plenty", "or 3 kg")
		var allowed string
		f.choice(path+".allowed", &allowed, []string{"no", "yes"}, "though it is usually left out")
		j.AllowedByItself = allowed == "yes"
		r.Shelf = append(r.Shelf, j)
	})
}

// temperature reads that of a water that can be worked with: hot water is not meant here, and
// 77 °C mostly are °F.
func temperature(f *file, path string, into *units.Temperature, meaning, example string) {
	if !f.get(path, into, meaning, example) {
		return
	}
	if _, err := seawater.PureWater(*into); err != nil {
		f.fail(path, units.Quoted(f.texts[path]), "a water temperature, -2 to 40 °C or 28.4 to 104 °F")
		*into = units.Temperature{}
	}
}

func span(f *file, path string, into *time.Duration, meaning, example string) {
	var d units.Duration
	if f.get(path, &d, meaning, example) {
		*into = time.Duration(d)
	}
}

func moment(f *file, path string, into *time.Time, meaning, example string) {
	var m Moment
	if f.get(path, &m, meaning, example) {
		*into = m.Time
	}
}
