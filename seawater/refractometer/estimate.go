package refractometer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
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
	x := [...]float64{float64(r), t.Celsius(), 0}
	doubts := [len(x)]float64{float64(u.Reading), u.Temperature.CelsiusDegrees(), u.Lag.CelsiusDegrees()}
	_, off, _ := spread.Of(x[:], doubts[:], func() float64 {
		prism := units.Celsius(x[1])
		drop := prism.Add(units.TemperatureDifference(x[2]))
		return absolute(i.practical(i.Graduation.read(Reading(x[0])), drop, prism))
	})
	uncertainty = units.Absolute(off)
	if err := input.NotNegative("uncertainty", uncertainty.GramsPerKilogram(), "g/kg"); err != nil {
		return none, none, err
	}
	return sa, uncertainty, nil
}
