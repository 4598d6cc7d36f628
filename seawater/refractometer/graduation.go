package refractometer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Reading is where the line stands on the scale, in the unit of the scale: 35
// on PracticalScale, 1.0264 on GravityOfSeawater, 1.3394 on IndexScale. It has a
// meaning only with its instrument.
type Reading float64

// Graduation is the scale as it was drawn: for what solute, in what unit, and
// right at what temperature. It is made by one of the functions that return
// it; the zero value is no scale and is refused.
type Graduation struct {
	solute solute
	unit   unit
	pair   units.GravityPair
	drawn  units.Temperature
}

// unit is what the marks count.
type unit uint8

const (
	plain    unit = iota // practical salinity, or the index itself
	permille             // g per kg of solution
	percent              // mass percent of solution
	gravity              // specific gravity
)

// PracticalScale is a scale of practical salinity, the "ppt" of an instrument
// made for seawater.
func PracticalScale() Graduation { return drawn(seaSalt, plain) }

// SeaSaltScale is a scale of sea salt in g/kg.
func SeaSaltScale() Graduation { return drawn(seaSalt, permille) }

// GravityOfSeawater is a scale of specific gravity made for seawater, with
// the pair of temperatures marked on it.
func GravityOfSeawater(pair units.GravityPair) Graduation { return drawn(seaSalt, gravity).with(pair) }

// SodiumChloridePermille is a scale of sodium chloride in g/kg, the "ppt" of
// an instrument made for brine.
func SodiumChloridePermille() Graduation { return drawn(sodiumChloride, permille) }

// SodiumChloridePercent is a scale of sodium chloride in mass percent.
func SodiumChloridePercent() Graduation { return drawn(sodiumChloride, percent) }

// GravityOfSodiumChloride is a scale of specific gravity made for brine, with
// the pair of temperatures marked on it.
func GravityOfSodiumChloride(pair units.GravityPair) Graduation {
	return drawn(sodiumChloride, gravity).with(pair)
}

// BrixScale is a scale of sucrose in mass percent.
func BrixScale() Graduation { return drawn(sugar, percent) }

// IndexScale is a scale of refractive index relative to air.
func IndexScale() Graduation { return drawn(bare, plain) }

// At returns the same scale drawn to be right at another temperature than 20 °C.
func (g Graduation) At(t units.Temperature) Graduation {
	g.drawn = t
	return g
}

func (g Graduation) with(pair units.GravityPair) Graduation {
	g.pair = pair
	return g
}

func drawn(s solute, u unit) Graduation {
	return Graduation{solute: s, unit: u, drawn: units.Celsius(scaleTemperature)}
}

// scaleEnds returns the contents at which a scale ends. That of seawater is
// drawn past the 40 where the measurements end, along the straight line that
// they make, because an instrument that reads high still has to be read.
func (s solute) scaleEnds() (lo, hi float64) {
	switch s {
	case seaSalt:
		return 0, 50
	case sodiumChloride:
		return saltStrength.Min / 100, saltStrength.Max / 100
	case sugar:
		return sugarStrength.Min / 100, sugarStrength.Max / 100
	case bare:
		return prismIndex.Min, prismIndex.Max
	}
	return math.NaN(), math.NaN()
}

// index returns the index at which a mark of this content was drawn.
func (g Graduation) index(content float64) float64 { return g.solute.index(content, g.drawn) }

// content returns the content whose mark was drawn at index n.
func (g Graduation) content(n float64) float64 {
	switch g.solute {
	case seaSalt:
		fresh, slope := millardSeaver(g.drawn, 0, SodiumD)
		return (n - fresh) / slope
	case sodiumChloride:
		fresh, perSalt := saltScale(g.drawn)
		return saltPercent((n-fresh)/perSalt) / 100
	case sugar:
		return sucroseContent(n, g.drawn)
	case bare:
		return n
	}
	return math.NaN()
}

// mark returns what is printed at a content, and read undoes it. Only the marks
// of specific gravity, which are curved, end at pure water.
func (g Graduation) mark(content float64) Reading {
	switch g.unit {
	case permille:
		return Reading(content * g.permille())
	case percent:
		return Reading(content * 100)
	case gravity:
		return Reading(float64(g.density(content)) / waterDensityAt(g.pair.Water))
	}
	return Reading(content)
}

func (g Graduation) read(mark Reading) float64 {
	switch g.unit {
	case permille:
		return float64(mark) / g.permille()
	case percent:
		return float64(mark) / 100
	case gravity:
		rho := units.Density(float64(mark) * waterDensityAt(g.pair.Water))
		if g.solute == sodiumChloride {
			return saltFromDensity(rho, g.pair.Liquid)
		}
		sa := teos10.SalinityFromDensityExact(rho, g.pair.Liquid, 0)
		return teos10.PracticalFromAbsolute(sa).Value()
	}
	return float64(mark)
}

// permille returns the g/kg in a unit of content.
func (g Graduation) permille() float64 {
	if g.solute == seaSalt {
		return gramsPerPractical()
	}
	return 1000
}

func (g Graduation) density(content float64) units.Density {
	if g.solute == sodiumChloride {
		return saltDensity(content, g.pair.Liquid)
	}
	return teos10.DensityExact(teos10.AbsoluteFromPractical(units.Practical(content)), g.pair.Liquid, 0)
}

// onScale returns the content if its mark is on the scale.
func (g Graduation) onScale(content float64) (float64, bool) {
	lo, hi := g.solute.scaleEnds()
	return within(content, lo, hi)
}

// offScale is the error for a line that stands beyond the last mark.
func (g Graduation) offScale(mark Reading) error {
	lo, hi := g.solute.scaleEnds()
	return &units.RangeError{Got: units.Scalar(float64(mark)), Range: units.Range{
		Quantity: "reading", Min: float64(g.mark(lo)), Max: float64(g.mark(hi)), Source: "the ends of the scale"}}
}

// beyond returns the mark that a content beyond the scale would have. Below
// pure water there is no density; the scale is reflected there.
func (g Graduation) beyond(content float64) Reading {
	if lo, _ := g.solute.scaleEnds(); g.unit == gravity && content < lo {
		return 2*g.mark(lo) - g.mark(2*lo-content)
	}
	return g.mark(content)
}

// gravityTemperature is the range of temperatures that a pair can name.
var gravityTemperature = units.Range{Quantity: temperatureName, Min: 0, Max: 40, Unit: "°C",
	Source: "IAPWS SR7-09; Laliberté 2009"}

func (g Graduation) check() error {
	if g.solute == nothing {
		return input.Bad("graduation", "none", "one of the scales of this package")
	}
	if err := first(input.Set(temperatureName, g.drawn), Liquid{g.solute, g.bottom()}.check(g.drawn)); err != nil {
		return input.In("graduation", err)
	}
	if g.unit != gravity {
		return nil
	}
	if err := first(gravityTemperature.Check(g.pair.Liquid.Celsius()), gravityTemperature.Check(g.pair.Water.Celsius()),
		input.Set("temperature of the liquid", g.pair.Liquid),
		input.Set("temperature of the water", g.pair.Water)); err != nil {
		return input.In("graduation", err)
	}
	return nil
}

// bottom is the content at the beginning of the scale.
func (g Graduation) bottom() float64 {
	lo, _ := g.solute.scaleEnds()
	return lo
}

// within tells whether x lies in an interval. Rounding alone may carry x past
// its ends, by some last bits of an index: then x is the end.
func within(x, lo, hi float64) (float64, bool) {
	slack := 1e-11 * (hi - lo)
	if !(x >= lo-slack && x <= hi+slack) {
		return math.NaN(), false
	}
	return math.Min(math.Max(x, lo), hi), true
}
