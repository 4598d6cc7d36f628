package conductivity

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
)

// Uncertainty holds standard uncertainties, of zero where something is known
// exactly. That of a display of the step d is d/√12 [GUM, 4.3.7].
//
// Temperature is that of the temperature given to Estimate, Thermometer that of
// the meter's own; they are taken as independent. Where the temperature given is
// the one that the meter shows, put its uncertainty in Thermometer if the meter
// compensates or shows salinity, in Temperature if it shows raw conductivity, and
// zero in the other.
type Uncertainty struct {
	Reading     float64 // in the unit of the reading: mS/cm, a practical salinity, ppm, mg/L
	Temperature units.TemperatureDifference
	Thermometer units.TemperatureDifference
	Cell        units.Fraction // of the calibration
}

func (u Uncertainty) check() error {
	if err := input.NotNegative("uncertainty.reading", u.Reading, ""); err != nil {
		return err
	}
	if err := input.NotNegative("uncertainty.temperature", u.Temperature.CelsiusDegrees(), "K"); err != nil {
		return err
	}
	if err := input.NotNegative("uncertainty.thermometer", u.Thermometer.CelsiusDegrees(), "K"); err != nil {
		return err
	}
	return input.NotNegative("uncertainty.cell", u.Cell.Value(), "")
}

// solver finds a salinity in g/kg. Thermometer and cell are changes of the offsets of the
// meter.
type solver func(reading float64, t units.Temperature, thermometer units.TemperatureDifference,
	cell units.Fraction) float64

// propagate returns sa and its standard uncertainty to first order.
func propagate(sa units.AbsoluteSalinity, reading float64, t units.Temperature, u Uncertainty, salinity solver) (
	_, uncertainty units.AbsoluteSalinity, err error) {
	x := [...]float64{reading, t.Celsius(), 0, 0}
	doubts := [len(x)]float64{u.Reading, u.Temperature.CelsiusDegrees(), u.Thermometer.CelsiusDegrees(), u.Cell.Value()}
	_, off, _ := spread.Of(x[:], doubts[:], func() float64 {
		return salinity(x[0], units.Celsius(x[1]), units.TemperatureDifference(x[2]), units.Share(x[3]))
	})
	uncertainty = units.Absolute(off)
	if err := input.NotNegative("uncertainty", off, "g/kg"); err != nil {
		return noSalinity(), noSalinity(), err
	}
	return sa, uncertainty, nil
}
