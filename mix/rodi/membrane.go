package rodi

import (
	"cmp"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// Membrane is a reverse-osmosis element, described by the rating on its label.
type Membrane struct {
	Rated     Rating
	Rejection units.Fraction      // found by Rejection at the present conditions; 0: Rated tells
	Flux      FluxConstants       // of its maker's table; zero: the usual ones
	Most      units.GaugePressure // that element and housing bear; 0 if not known
	Life      units.Volume        // of product it is expected to make; 0 if not known
	Price     units.Money
}

// Rating is the test by which a membrane is rated.
type Rating struct {
	Flow        units.Flow // of product
	Pressure    units.GaugePressure
	Temperature units.Temperature // 25 °C on most labels
	Rejection   units.Fraction
	Feed        units.TDS      // the test water; zero value: its osmotic pressure is left out
	Recovery    units.Fraction // 15 % on most data sheets; 0: a small part
}

// Rejection returns the share of salt that a membrane holds back, from readings
// of its feed and its product, and the standard uncertainty that a display of
// the given step in ppm leaves. The error of the meter's factor cancels when one
// meter reads both.
//
//	symbol   R = 1 - κ'/κ; u(R)² = (1 + (κ'/κ)²) (d/√12)²/κ²
//	source   definition; display of step d [GUM] 4.3.7, propagation 5.1.2
//
// Read the product after some minutes of running: after standstill it is salty.
func Rejection(feed, product units.TDS, step float64) (r, uncertainty units.Fraction, err error) {
	return rejection("product", feed, product, step)
}

// RejectionOf returns the share of salt that a membrane holds back, from two readings of one
// meter, in whatever unit it shows: conductivity, or dissolved solids on any scale, which
// cancels. Each reading has a standard uncertainty of its own, because meters show more
// digits of little; d/√12 for a display of step d.
//
//	symbol   R = 1 - κ'/κ; u(R)² = (u(κ')² + (κ'/κ)² u(κ)²)/κ²
//	source   definition; propagation [GUM] 5.1.2
//
// The readings of two meters are in TDS, each with its scale: [Rejection].
func RejectionOf[Q ~float64](feed, product, ofFeed, ofProduct Q) (r, uncertainty units.Fraction, err error) {
	nan := units.Share(math.NaN())
	err = input.Join(input.Positive("feed", float64(feed), ""), input.NotNegative("product", float64(product), ""),
		input.NotNegative("ofFeed", float64(ofFeed), ""), input.NotNegative("ofProduct", float64(ofProduct), ""))
	if err == nil && product > feed {
		err = input.Bad("product", input.Number(float64(product)),
			"at most the feed, "+input.Number(float64(feed))+": are the readings exchanged?")
	}
	if err != nil {
		return nan, nan, err
	}
	passed := float64(product / feed)
	return units.Share(1 - passed), units.Share(math.Hypot(float64(ofProduct/feed), passed*float64(ofFeed/feed))), nil
}

// rejection is Rejection, with the name of the field that the product's reading
// came from.
func rejection(field string, feed, product units.TDS, step float64) (r, uncertainty units.Fraction, err error) {
	nan := units.Share(math.NaN())
	if err := checkTDS("feed", feed); err != nil {
		return nan, nan, err
	}
	if err := checkTDS(field, product); err != nil {
		return nan, nan, err
	}
	if err := input.NotNegative("step", step, "ppm"); err != nil {
		return nan, nan, err
	}
	if err := input.Positive("feed", feed.PPM(), "ppm"); err != nil {
		return nan, nan, err
	}
	if step > feed.PPM() {
		return nan, nan, input.Bad("step", input.Number(step)+" ppm",
			"no more than the "+input.Number(feed.PPM())+" ppm of the feed")
	}
	f, p := float64(feed.Conductivity()), float64(product.Conductivity())
	if err := input.Positive("feed", f, "mS/cm"); err != nil { // which a reading of 5e-324 ppm is not
		return nan, nan, err
	}
	if !(p <= f) {
		return nan, nan, input.Bad(field, product.String(),
			"at most the feed, "+feed.String()+": are the readings exchanged?")
	}
	passed := p / f
	u := displayed(step)
	ofFeed := u / feed.PPM()
	ofProduct := ofFeed * float64(feed.Scale()/product.Scale())
	return units.Share(1 - passed), units.Share(math.Hypot(ofProduct, passed*ofFeed)), nil
}

// ConcentrationFactor returns how much saltier than the feed the waste is.
//
//	symbol   C"/C = (1 - Y (1 - R))/(1 - Y)
//	source   mass balance of water and salt
//	range    0 <= Y < 1, 0 <= R <= 1
//	outside  NaN
func ConcentrationFactor(recovery, rejection units.Fraction) float64 {
	y, r := recovery.Value(), rejection.Value()
	if !(y >= 0 && y < 1 && r >= 0 && r <= 1) {
		return math.NaN()
	}
	return (1 - y*(1-r)) / (1 - y)
}

// alongMembrane returns g, the mean over feed of what the membrane does not let
// pass, at a recovery. It is the logarithmic mean, as [D4516] has it.
func alongMembrane(recovery float64) float64 {
	if recovery == 0 {
		return 1
	}
	return -math.Log1p(-recovery) / recovery
}

func (r Rating) check() error {
	list := []error{
		input.Positive("flow", float64(r.Flow), "L/h"),
		input.Positive("pressure", float64(r.Pressure), "bar"),
		cmp.Or(input.Set("temperature", r.Temperature),
			input.As("temperature", temperatureRange.Check(r.Temperature.Celsius()))),
	}
	if !(r.Rejection.Value() > 0 && r.Rejection.Value() < 1) {
		list = append(list, input.Bad("rejection", r.Rejection.String(), "above 0 and below 100 %"))
	}
	if r.Feed != (units.TDS{}) {
		list = append(list, checkTDS("feed", r.Feed))
	}
	if !(r.Recovery.Value() >= 0 && r.Recovery.Value() < 1) {
		list = append(list, input.Bad("recovery", r.Recovery.String(), "0 to below 100 %"))
	}
	return input.Join(list...)
}

func (m Membrane) check() error {
	list := []error{
		input.In("rated", m.Rated.check()),
		input.NotNegative("most", float64(m.Most), "bar"),
		checkLife(m.Life, m.Price),
	}
	if !(m.Rejection.Value() >= 0 && m.Rejection.Value() <= 1) {
		list = append(list, input.Bad("rejection", m.Rejection.String(), "0 to 100 %"))
	}
	if k := m.Flux.orUsual(); !(k.Cold >= 0 && k.Cold <= 10000 && k.Warm >= 0 && k.Warm <= 10000) {
		list = append(list, input.Bad("flux", input.Number(k.Cold)+" K and "+input.Number(k.Warm)+" K",
			"0 to 10000 K, usually near 2700 K"))
	}
	return input.Join(list...)
}

// net returns the pressure that drove the water in the test of the rating.
func (r Rating) net() units.GaugePressure {
	if r.Feed == (units.TDS{}) {
		return r.Pressure
	}
	return r.Pressure - osmotic(r.Feed, r.Temperature)*units.GaugePressure(alongMembrane(r.Recovery.Value()))
}

// throughput is what a membrane does at the conditions of the day.
type throughput struct {
	product, waste units.Flow
	osmotic, net   units.GaugePressure
	factor         float64 // TCF
	rejection      units.Fraction
}

// run works out flow and rejection, for either a ratio of waste to product or a
// flow of waste.
func (m Membrane) run(f Feed, back units.GaugePressure, ratio float64, waste units.Flow) (throughput, error) {
	rated := m.Rated.net()
	if !(rated > 0) {
		return throughput{}, input.Bad("membrane.rated.pressure", m.Rated.Pressure.String(),
			"more than the osmotic pressure of its test water")
	}
	x := throughput{factor: TemperatureFactor(f.Temperature, m.Flux)}
	perBar := float64(m.Rated.Flow) / float64(rated) * x.factor / TemperatureFactor(m.Rated.Temperature, m.Flux)
	pure := osmotic(f.TDS, f.Temperature)
	flow := func(recovery float64) float64 {
		return perBar * float64(f.Pressure-back-pure*units.GaugePressure(alongMembrane(recovery)))
	}
	recovery := 1 / (1 + ratio)
	if waste > 0 {
		w := float64(waste)
		q, ok := solve.Brent(func(q float64) float64 { return flow(q/(q+w)) - q }, 0, perBar*float64(f.Pressure-back), 0)
		if !ok {
			q = 0 // not even the osmotic pressure of the feed is overcome
		}
		recovery = q / (q + w)
		x.product, x.waste = units.Flow(q), waste
	} else {
		x.product = units.Flow(flow(recovery))
		x.waste = units.Flow(ratio) * x.product
	}
	g := alongMembrane(recovery)
	x.osmotic = pure * units.GaugePressure(g)
	x.net = f.Pressure - back - x.osmotic
	if !(x.net > 0 && x.product > 0) {
		return throughput{}, input.Bad("feed.pressure", f.Pressure.String(),
			"more than the "+input.Fixed(float64(x.osmotic+back), 2)+" bar of osmosis and back pressure")
	}
	if total := float64(x.product + x.waste); !(total <= math.MaxFloat64) {
		return throughput{}, input.Bad("membrane.rated.flow", m.Rated.Flow.String(), "the flow of one membrane")
	}
	x.rejection = m.Rejection
	if m.Rejection.Value() == 0 {
		passed := 1 - m.Rated.Rejection.Value()
		share := passed / alongMembrane(m.Rated.Recovery.Value()) // of the salt along the membrane, in the test
		b := share / (1 - share) * float64(rated/x.net)
		x.rejection = units.Share(1 - g*b/(1+b))
	}
	if !(x.rejection.Value() >= 0) {
		return throughput{}, input.Bad("feed.pressure", f.Pressure.String(), "enough to hold salt back: at this pressure "+
			"and recovery the membrane does not")
	}
	return x, nil
}
