package refractometer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Uncertainty is how well a reading and its temperature are known, as standard
// uncertainties. A scale that is read to the nearest division d has d/√12,
// that is 0.29 d.
type Uncertainty struct {
	Reading     Reading                     // of the line on the scale
	Temperature units.TemperatureDifference // of prism and drop together
	Lag         units.TemperatureDifference // of the drop from the prism; zero once it has settled
}

// Estimate returns the salinity of the water in which the instrument shows a
// reading, and its standard uncertainty. It is Salinity with the law of
// propagation of JCGM 100 in first order. What the formulas and the setting of
// the zero miss is not in it.
func (i Instrument) Estimate(r Reading, t units.Temperature, u Uncertainty) (
	sa, uncertainty units.AbsoluteSalinity, err error) {
	none := units.Absolute(math.NaN())
	if err := first(input.NotNegative("uncertainty of the reading", float64(u.Reading), ""),
		input.NotNegative("uncertainty of the temperature", float64(u.Temperature), "K"),
		input.NotNegative("uncertainty of the lag", float64(u.Lag), "K")); err != nil {
		return none, none, err
	}
	sa, err = i.Salinity(r, t)
	if err != nil {
		return none, none, err
	}
	// Slopes by central differences: of the reading over a hundred-thousandth of
	// the scale, of the temperatures over 0.02 K.
	lo, hi := i.Graduation.solute.scaleEnds()
	h := 1e-5 * (i.Graduation.mark(hi) - i.Graduation.mark(lo))
	const k = units.TemperatureDifference(0.01)
	above := i.practical(i.Graduation.read(r+h), t, t)
	below := i.practical(i.Graduation.read(r-h), t, t)
	perReading := (above - below) / (2 * float64(h))
	content := i.Graduation.read(r)
	if math.IsNaN(below) { // the end of a scale of specific gravity
		perReading = (above - i.practical(content, t, t)) / float64(h)
	}
	warm, cool := t.Add(k), t.Add(-k)
	perKelvin := (i.practical(content, warm, warm) - i.practical(content, cool, cool)) / (2 * float64(k))
	perLag := (i.practical(content, warm, t) - i.practical(content, cool, t)) / (2 * float64(k))
	square := func(x float64) float64 { return x * x }
	variance := square(perReading*float64(u.Reading)) +
		square(perKelvin*float64(u.Temperature)) + square(perLag*float64(u.Lag))
	uncertainty = units.Absolute(absolute(math.Sqrt(variance)))
	if err := input.NotNegative("uncertainty", uncertainty.GramsPerKilogram(), "g/kg"); err != nil {
		return none, none, err
	}
	return sa, uncertainty, nil
}
