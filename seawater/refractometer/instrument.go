package refractometer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Instrument is a refractometer: its scale, how it was set, and what it does
// about temperature. The zero value has no scale and is refused with a
// *units.InputError.
//
//	hobby := refractometer.Instrument{
//		Graduation:   refractometer.PracticalScale(),
//		Zero:         refractometer.Zeroing{Standard: refractometer.PureWater(), Temperature: units.Celsius(22)},
//		Compensation: refractometer.Automatic(refractometer.PureWater()),
//	}
type Instrument struct {
	Graduation   Graduation
	Zero         Zeroing
	Compensation Compensation
}

// Zeroing is how the scale was set: with what on the prism, at what
// temperature of both, and to what mark the screw brought the line. The zero
// value is an instrument as it was drawn, never set.
type Zeroing struct {
	Standard    Liquid
	Temperature units.Temperature
	Mark        Reading // pure water is 0 on a salinity scale, 1 on 20/20 °C, 1.333 on an index scale
}

// Compensation is what an instrument does about temperature: it takes away the
// drift of one liquid from the temperature that its scale was drawn for to that
// of its prism, Min to Max. The zero value is an instrument that does nothing.
type Compensation struct {
	Liquid   Liquid
	Min, Max units.Temperature
}

// Automatic is the compensation for a liquid from 10 to 30 °C, the range
// marked on most instruments (common practice). For SugarSolution it is from 15
// to 30 °C, where the drift of sucrose is known.
func Automatic(l Liquid) Compensation {
	lo := units.Celsius(10)
	if l.solute == sugar {
		lo = units.Celsius(sugarTemperature.Min)
	}
	return Compensation{l, lo, units.Celsius(30)}
}

// Reading returns what the instrument shows in water of a salinity, once drop
// and prism have come to one temperature t: that of the room more often than
// that of the tank.
//
// The error is a *units.RangeError if the practical salinity is outside 0 to
// 40, the temperature outside 0 to 30 °C or outside the compensation, or the
// line beyond the scale; and a *units.InputError if the instrument is none.
func (i Instrument) Reading(sa units.AbsoluteSalinity, t units.Temperature) (Reading, error) {
	return i.ReadingUnsettled(sa, t, t)
}

// ReadingUnsettled returns what the instrument shows if the line is read while
// the drop is still at another temperature than the prism: the index is that of
// the sample, the compensation that of the prism.
func (i Instrument) ReadingUnsettled(sa units.AbsoluteSalinity, sample, prism units.Temperature) (Reading, error) {
	if err := i.check(sample, prism); err != nil {
		return input.NaN[Reading](), err
	}
	s := sa.GramsPerKilogram() / gramsPerPractical()
	inside, ok := within(s, msSalinity.Min, msSalinity.Max)
	if !ok {
		return input.NaN[Reading](), msSalinity.Check(s)
	}
	g := i.Graduation
	content := g.content(seaSalt.index(inside, sample) + i.shift(prism))
	onScale, ok := g.onScale(content)
	if !ok {
		return input.NaN[Reading](), g.offScale(g.beyond(content))
	}
	return g.mark(onScale), nil
}

// Salinity returns the salinity of the water in which the instrument shows a
// reading, once drop and prism have come to one temperature t. It undoes
// Reading, and its errors are the same.
func (i Instrument) Salinity(r Reading, t units.Temperature) (units.AbsoluteSalinity, error) {
	return i.SalinityUnsettled(r, t, t)
}

// SalinityUnsettled returns the salinity if the reading was made while the
// drop was still at another temperature than the prism.
func (i Instrument) SalinityUnsettled(r Reading, sample, prism units.Temperature) (units.AbsoluteSalinity, error) {
	none := units.Absolute(math.NaN())
	if err := i.check(sample, prism); err != nil {
		return none, err
	}
	content, ok := i.Graduation.onScale(i.Graduation.read(r))
	if !ok {
		return none, i.Graduation.offScale(r)
	}
	s := i.practical(content, sample, prism)
	inside, ok := within(s, msSalinity.Min, msSalinity.Max)
	if !ok {
		return none, msSalinity.Check(s)
	}
	return units.Absolute(absolute(inside)), nil
}

// practical returns the practical salinity of the water that brings the line
// to the mark of a content, within the range of the formulas or not.
func (i Instrument) practical(content float64, sample, prism units.Temperature) float64 {
	fresh, slope := millardSeaver(sample, 0, SodiumD)
	return (i.Graduation.index(content) - i.shift(prism) - fresh) / slope
}

// shift returns by how much screw and bimetal have moved the scale, in terms
// of index.
func (i Instrument) shift(prism units.Temperature) float64 {
	g, z := i.Graduation, i.Zero
	shift := i.Compensation.shift(g.drawn, prism)
	if z.none() {
		return shift
	}
	// A mark that is zero by a hair too little is the end of the scale.
	content, _ := g.onScale(g.read(z.Mark))
	return shift + g.index(content) - z.Standard.index(z.Temperature) - i.Compensation.shift(g.drawn, z.Temperature)
}

// shift returns how much higher the index of the liquid is at the temperature
// that the scale was drawn for than at that of the prism.
func (c Compensation) shift(drawn, prism units.Temperature) float64 {
	if c == (Compensation{}) {
		return 0
	}
	return c.Liquid.index(drawn) - c.Liquid.index(prism)
}

// check refuses an instrument that is none, and temperatures at which it
// cannot be used.
func (i Instrument) check(sample, prism units.Temperature) error {
	if err := i.Graduation.check(); err != nil {
		return err
	}
	if err := i.Compensation.check(i.Graduation.drawn); err != nil {
		return input.In("compensation", err)
	}
	if err := i.checkZero(); err != nil {
		return input.In("zero", err)
	}
	if err := first(input.Set("sample.temperature", sample), input.Set("prism.temperature", prism)); err != nil {
		return err
	}
	if err := msTemperature.Check(sample.Celsius()); err != nil {
		return input.In("sample", err)
	}
	if err := i.Compensation.checkPrism(prism); err != nil {
		return input.In("prism", err)
	}
	return nil
}

func (i Instrument) checkZero() error {
	z := i.Zero
	if z.none() {
		return nil
	}
	if err := first(input.Set(temperatureName, z.Temperature), z.Standard.check(z.Temperature),
		i.Compensation.checkPrism(z.Temperature)); err != nil {
		return err
	}
	if _, ok := i.Graduation.onScale(i.Graduation.read(z.Mark)); !ok {
		return i.Graduation.offScale(z.Mark)
	}
	return nil
}

// none tells whether the screw was never touched. A freezing point that was set
// equals one that was not, so it is asked for.
func (z Zeroing) none() bool { return z == (Zeroing{}) && !z.Temperature.IsSet() }

func (c Compensation) check(drawn units.Temperature) error {
	if c == (Compensation{}) && !c.Min.IsSet() && !c.Max.IsSet() {
		return nil
	}
	if c.Liquid.solute == bare {
		return input.Bad("liquid", "a standard of known index", "one whose drift with temperature is known")
	}
	if err := first(input.Set("lowest temperature", c.Min), input.Set("highest temperature", c.Max)); err != nil {
		return err
	}
	if !(c.Min.Celsius() < c.Max.Celsius()) {
		return input.Bad("range", c.Min.String()+" to "+c.Max.String(), "a lower and a higher temperature")
	}
	return c.Liquid.check(drawn)
}

// checkPrism refuses a prism at a temperature at which the drop could not be
// told or the compensation is not made for.
func (c Compensation) checkPrism(t units.Temperature) error {
	if err := msTemperature.Check(t.Celsius()); err != nil {
		return err
	}
	if c == (Compensation{}) {
		return nil
	}
	compensated := units.Range{Quantity: temperatureName, Min: c.Min.Celsius(), Max: c.Max.Celsius(),
		Unit: "°C", Source: "compensation of the instrument"}
	return first(compensated.Check(t.Celsius()), c.Liquid.check(t))
}

// absolute returns a practical salinity in g/kg, below zero too.
func absolute(practical float64) float64 { return practical * gramsPerPractical() }

func gramsPerPractical() float64 {
	return teos10.AbsoluteFromPractical(units.Practical(1)).GramsPerKilogram()
}
