package conductivity

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
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

// propagate returns sa and its standard uncertainty to first order, with
// difference quotients for the derivatives.
func propagate(sa units.AbsoluteSalinity, reading float64, t units.Temperature, u Uncertainty, salinity solver) (
	_, uncertainty units.AbsoluteSalinity, err error) {
	const (
		kelvin = 1e-3 * units.CelsiusDegree
		part   = 1e-5
	)
	var byReading float64
	if h := part * reading; h > 0 {
		byReading = (salinity(reading+h, t, 0, units.Share(0)) - salinity(reading-h, t, 0,
			units.Share(0))) / (2 * h) * u.Reading
	} else { // nothing is below a reading of zero, which is salinity 0
		byReading = salinity(u.Reading, t, 0, units.Share(0))
	}
	byTemperature := (salinity(reading, t.Add(kelvin), 0, units.Share(0)) - salinity(reading, t.Add(-kelvin), 0,
		units.Share(0))) / (2 * kelvin.CelsiusDegrees())
	byThermometer := (salinity(reading, t, kelvin, units.Share(0)) - salinity(reading, t, -kelvin,
		units.Share(0))) / (2 * kelvin.CelsiusDegrees())
	byCell := (salinity(reading, t, 0, units.Share(part)) - salinity(reading, t, 0, units.Share(-part))) / (2 * part)
	uncertainty = units.Absolute(math.Hypot(
		math.Hypot(byReading, byTemperature*u.Temperature.CelsiusDegrees()),
		math.Hypot(byThermometer*u.Thermometer.CelsiusDegrees(), byCell*u.Cell.Value())))
	if err := input.NotNegative("uncertainty", uncertainty.GramsPerKilogram(), "g/kg"); err != nil {
		return noSalinity(), noSalinity(), err
	}
	return sa, uncertainty, nil
}
