package rodi

import (
	"cmp"
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/conductivity"
	"example.org/wellmixed/units"
)

// System is a set of stages in the order of the water: sediment filter, carbon,
// membrane, resin. A stage that is left at its zero value is not there, but for
// the membrane, which has to be.
type System struct {
	Sediment Filter
	Carbon   Carbon
	Membrane Membrane
	Resin    Resin

	// What runs to the drain, one of the two: litres per litre of product as it is
	// now, or the flow that the restrictor lets pass.
	WasteRatio float64
	Waste      units.Flow

	BackPressure units.GaugePressure // behind the membrane: resin, float valve, a tank higher up; 0: none
	WaterPrice   units.Money         // of a cubic metre of tap water, its drain included; zero: not counted
}

// Feed is the tap water of the day.
type Feed struct {
	TDS         units.TDS
	Pressure    units.GaugePressure // just before the membrane, behind a pump if there is one
	Temperature units.Temperature

	// Charge is that of the anions of the feed, from an analysis, in moles of it per litre:
	// what the resin has to take, which the reading tells only to 20 %. 0: TDS tells.
	Charge units.AmountPerLitre

	CarbonDioxide units.AmountPerLitre // dissolved gas, see FreeCarbonDioxide; 0 if not known
	Chlorine      units.MassPerLitre   // free, as Cl₂; the US allow 4 mg/L [POT]
	Chloramine    units.MassPerLitre   // as Cl₂; likewise
}

// Product is what a System makes of a Feed.
type Product struct {
	Flow  units.Flow // of pure water
	Waste units.Flow
	Feed  units.Flow

	Recovery  units.Fraction // product over feed
	Rejection units.Fraction // of salt, at these conditions
	Osmotic   units.GaugePressure
	Net       units.GaugePressure // that drives water through the membrane
	Factor    units.Scalar        // of the temperature on the flow, 1 at 25 °C

	AfterMembrane units.TDS
	AfterResin    units.TDS // that of the membrane if there is no resin
	WasteTDS      units.TDS

	ContactTime time.Duration // of the feed in the bed of carbon, as if it were empty; 0 if not known
	Lasts       Lasts
	Cost        units.Money // of a litre of product: water and all stages whose life and price are known

	Assumptions []string
	Cautions    []advice.Caution
}

// Lasts is how much product each stage lasts for; 0 if that is not known.
type Lasts struct {
	Sediment, Carbon, Membrane, Resin units.Volume
}

// Produce works out what the system makes of a feed: flow, purity, waste, the
// life of its stages, and the cost of a litre. Water and salt balance: what goes
// in comes out as product and waste.
func (s System) Produce(f Feed) (Product, error) {
	if err := input.Join(s.check(), f.check()); err != nil {
		return Product{}, err
	}
	if most := s.Membrane.Most; most > 0 && f.Pressure > most {
		return Product{}, input.Bad("feed.pressure", f.Pressure.String(),
			"at most the "+most.String()+" that membrane and housing "+
				"bear: set a pressure reducer before them")
	}
	run, err := s.Membrane.run(f, s.BackPressure, s.WasteRatio, s.Waste)
	if err != nil {
		return Product{}, err
	}
	feed := run.product + run.waste
	recovery := units.Share(float64(run.product / feed))
	scale := func(factor float64) units.TDS { return units.TDSReading(f.TDS.PPM()*factor, f.TDS.Scale()) }
	p := Product{
		Flow: run.product, Waste: run.waste, Feed: feed,
		Recovery: recovery, Rejection: run.rejection,
		Osmotic: run.osmotic, Net: run.net, Factor: units.Scalar(run.factor),
		AfterMembrane: scale(1 - run.rejection.Value()),
		WasteTDS:      scale(ConcentrationFactor(recovery, run.rejection)),
	}
	p.AfterResin = p.AfterMembrane
	if s.Resin != (Resin{}) {
		p.AfterResin = scale((1 - run.rejection.Value()) * s.Resin.Leak.Value())
		charge := f.Charge * units.AmountPerLitre(1-run.rejection.Value())
		if f.Charge == 0 {
			charge = Equivalents(p.AfterMembrane)
		}
		if p.Lasts.Resin, err = s.Resin.LastsFor(charge + f.CarbonDioxide); err != nil {
			return Product{}, input.In("resin", err)
		}
	}
	carbon, err := s.Carbon.Lasts(f.Chlorine, f.Chloramine)
	if err != nil {
		return Product{}, input.In("carbon", err)
	}
	p.Lasts.Sediment = s.Sediment.Life * units.Volume(recovery.Value())
	p.Lasts.Carbon = carbon * units.Volume(recovery.Value())
	p.Lasts.Membrane = s.Membrane.Life
	if s.Carbon.Bed > 0 {
		p.ContactTime = max(feed.Time(s.Carbon.Bed), 0)
	}
	if p.Cost, err = s.cost(p); err != nil {
		return Product{}, err
	}
	p.Assumptions = s.assumptions(f)
	p.Cautions = s.cautions(f, p)
	return p, nil
}

// Water is so much of the product, as a water that a batch, a change or a top-off takes.
// Its salinity is what the reading behind the last stage amounts to, [Dissolved], counted
// as sea salt; of single solutes a reading tells nothing, so it has no levels.
func (p Product) Water(v units.Volume, t units.Temperature) (tested.Water, error) {
	err := input.Join(checkTDS("afterResin", p.AfterResin), input.Positive("volume", v.Litres(), "L"),
		input.Set("temperature", t))
	if err != nil {
		return tested.Water{}, err
	}
	pure, err := tested.Pure(v, t)
	if err != nil {
		return tested.Water{}, err
	}
	salt := Dissolved(p.AfterResin).Mass(v)
	residue := units.Absolute(float64(salt) / float64(pure.Portion.Mass+salt) * 1000)
	made, err := seawater.FromAbsolute(residue, t)
	if err != nil {
		return tested.Water{}, err
	}
	return tested.Water{Portion: made.OfVolume(v)}, nil
}

// Run is the making of one volume of product.
type Run struct {
	Time  time.Duration
	Feed  units.Volume // taken from the tap
	Waste units.Volume // of it, to the drain
	Cost  units.Money
}

// Fill works out how long a container of pure water takes, and what it takes.
func (p Product) Fill(v units.Volume) (Run, error) {
	if err := input.Positive("volume", float64(v), "L"); err != nil {
		return Run{}, err
	}
	if err := input.Positive("product.flow", float64(p.Flow), "L/h"); err != nil {
		return Run{}, err
	}
	if err := input.NotNegative("product.waste", float64(p.Waste), "L/h"); err != nil {
		return Run{}, err
	}
	r := Run{Time: p.Flow.Time(v), Waste: v * units.Volume(p.Waste/p.Flow), Cost: p.Cost.Times(v.Litres())}
	r.Feed = v + r.Waste
	if r.Time < 0 || !(r.Feed <= math.MaxFloat64) {
		return Run{}, input.Bad("volume", v.String(), "what comes within a lifetime")
	}
	if err := input.NotNegative("product.cost", r.Cost.Amount, r.Cost.Currency); err != nil {
		return Run{}, err
	}
	return r, nil
}

// Idle returns what runs to the drain in a time in which a float valve holds the
// product back and no shut-off valve closes the feed: the waste flows on all day.
// Of a time before now it is NaN.
func (p Product) Idle(d time.Duration) units.Volume {
	if d < 0 {
		return input.NaN[units.Volume]()
	}
	return p.Waste.Volume(d)
}

// cost returns the cost of a litre of product.
func (s System) cost(p Product) (units.Money, error) {
	total := units.Money{}
	for _, part := range [...]struct {
		field string
		price units.Money
		lasts units.Volume
	}{
		{"waterPrice", s.WaterPrice, 1 * units.CubicMetre * units.Volume(p.Recovery.Value())},
		{"sediment.price", s.Sediment.Price, p.Lasts.Sediment},
		{"carbon.price", s.Carbon.Price, p.Lasts.Carbon},
		{"membrane.price", s.Membrane.Price, p.Lasts.Membrane},
		{"resin.price", s.Resin.Price, p.Lasts.Resin},
	} {
		if part.price.Amount == 0 || !(part.lasts > 0) {
			continue
		}
		if total.Currency == "" {
			total.Currency = part.price.Currency
		}
		if part.price.Currency != total.Currency {
			return units.Money{}, input.Bad(part.field, part.price.String(),
				"a price in "+total.Currency+" like those before it")
		}
		total.Amount += part.price.Amount / part.lasts.Litres()
		if err := input.NotNegative(part.field, total.Amount, total.Currency+" a litre"); err != nil {
			return units.Money{}, err
		}
	}
	return total, nil
}

// temperatureRange is what thin-film membranes and the plastic of their housings
// bear (common practice).
var temperatureRange = units.Range{
	Quantity: "temperature",
	Min:      0,
	Max:      hottest,
	Unit:     "°C",
	Source:   "thin-film membranes, common practice",
}

func (f Feed) check() error {
	return input.Join(
		checkTDS("feed.tds", f.TDS),
		input.Positive("feed.pressure", float64(f.Pressure), "bar"),
		cmp.Or(input.Set("feed.temperature", f.Temperature),
			input.As("feed.temperature", temperatureRange.Check(f.Temperature.Celsius()))),
		input.NotNegative("feed.charge", float64(f.Charge), "mmol/L"),
		input.NotNegative("feed.carbonDioxide", float64(f.CarbonDioxide), "mmol/L"),
		input.NotNegative("feed.chlorine", float64(f.Chlorine), "mg/L"),
		input.NotNegative("feed.chloramine", float64(f.Chloramine), "mg/L"))
}

func (s System) check() error {
	list := []error{
		input.In("sediment", checkLife(s.Sediment.Life, s.Sediment.Price)),
		input.In("carbon", s.Carbon.check()),
		input.In("membrane", s.Membrane.check()),
	}
	if s.Resin != (Resin{}) {
		list = append(list, input.In("resin", s.Resin.check()))
	}
	waste := input.Join(
		input.NotNegative("wasteRatio", s.WasteRatio, ""),
		input.NotNegative("waste", float64(s.Waste), "L/h"))
	if waste == nil && (s.WasteRatio > 0) == (s.Waste > 0) {
		waste = input.Bad("wasteRatio", input.Number(s.WasteRatio)+" and a waste of "+s.Waste.String(),
			"one of the two above zero")
	}
	return input.Join(append(list, waste,
		input.NotNegative("backPressure", float64(s.BackPressure), "bar"),
		input.In("water", checkPrice(s.WaterPrice)))...)
}

// checkTDS refuses a reading that no meter gives in water that a membrane can
// purify: a factor outside 0.3 to 1, or more than 40 g/L.
func checkTDS(field string, r units.TDS) error {
	if !(r.Scale() >= 0.3 && r.Scale() <= 1) {
		return input.Bad(field, r.String(), "a reading with the factor of the meter, 0.3 to 1: units.TDSReading(280, 0.5)")
	}
	if err := input.NotNegative(field, r.PPM(), "ppm"); err != nil {
		return err
	}
	return input.As(field, conductivity.SodiumChloride.CheckRange(Dissolved(r)))
}

func checkLife(life units.Volume, price units.Money) error {
	if err := input.NotNegative("life", float64(life), "L"); err != nil {
		return err
	}
	return checkPrice(price)
}

func checkPrice(m units.Money) error { return input.NotNegative("price", m.Amount, m.Currency) }

// finite returns a volume, or 0, not known, for one without bound.
func finite(litres float64) units.Volume {
	if !(litres <= math.MaxFloat64) {
		return 0
	}
	return units.Volume(litres)
}

func (s System) assumptions(f Feed) []string {
	k := s.Membrane.Flux.orUsual()
	list := []string{
		"Flow rises with temperature by " + input.Number(k.Cold) + " K below 25 °C and " + input.Number(k.Warm) +
			" K above" + defaulted(s.Membrane.Flux == FluxConstants{}, ": usual constants, other membranes differ by 4 % at "+
			"15 °C and 8 % at 5 °C") + ".",
		"The membrane is as good as its rating, and warmth helps water and salt through it alike. Its product carries so " +
			"little salt that its own osmotic pressure is left out.",
		"Salt is counted as the meter sees it, and for osmotic pressure as sodium chloride. Silica and gases are not seen.",
	}
	if s.Membrane.Rejection.Value() > 0 {
		list = append(list, "The rejection is the one measured, for these conditions.")
	}
	if s.Membrane.Rated.Feed == (units.TDS{}) {
		list = append(list, "The salt of the rating's test water was not given, so its osmotic pressure is left out: flow "+
			"comes out a few per cent low.")
	}
	switch {
	case s.Resin == (Resin{}):
	case s.Resin.Life > 0:
		list = append(list, "The resin lasts as long as its box says, whatever comes to it.")
	default:
		list = append(list, "The resin takes up "+load(f)+", and a site per molecule of carbon dioxide"+
			defaulted(f.CarbonDioxide == 0, "; that of the feed is not known and was left out: the resin will last less, "+
				"often half")+".")
	}
	switch {
	case s.Carbon.Life > 0:
		list = append(list, "The carbon lasts as long as its box says"+
			defaulted(f.Chloramine > 0, "; boxes seldom mean chloramine, of which it may let through much sooner")+".")
	case f.Chlorine+f.Chloramine > 0 && s.Carbon != (Carbon{}):
		list = append(list, "The carbon removes what its label says at the label's flow; sediment and organic matter "+
			"shorten that.")
	}
	return append(list, "The cost is that of water and of the stages with a price and a known life; work, electricity "+
		"and the system itself are not in it.")
}

// load says how much charge comes to the resin.
func load(f Feed) string {
	if f.Charge > 0 {
		return "what the membrane lets through of the " + input.Number(f.Charge.MillimolesPerLitre()) +
			" meq/L of the analysis"
	}
	return "1 meq/L per 100 µS/cm, within 20 %"
}

func defaulted(yes bool, text string) string {
	if yes {
		return text
	}
	return ""
}
