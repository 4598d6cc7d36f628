package electrode

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// PH returns the pH of the water of temperature t in which the electrode gives
// reading. t serves the slope of the electrode; the pH is that of the water at t,
// and another at another temperature.
//
//	symbol   pH = pHi + (E0 - E)/(s k(T))
//	range    -2 <= t <= 60 °C, 0 <= pH <= 14
//	outside  an error, as of a calibration that cannot be one; the pH is NaN
func (c Calibration[S]) PH(reading units.Voltage, t units.Temperature) (S, error) {
	err := c.checkAt(t)
	if err == nil {
		err = glassVoltage.Check(float64(reading))
	}
	ph := c.ph(reading, t)
	if err == nil {
		err = glassPH.Check(ph)
	}
	if err != nil {
		return on[S](math.NaN()), err
	}
	return on[S](ph), nil
}

// Reading returns what the electrode gives in water of a pH and a temperature. It is
// the inverse of PH.
func (c Calibration[S]) Reading(ph S, t units.Temperature) (units.Voltage, error) {
	err := c.checkAt(t)
	if err == nil {
		err = glassPH.Check(ph.Value())
	}
	if err != nil {
		return input.NaN[units.Voltage](), err
	}
	return c.Offset - c.perUnit(t)*units.Voltage(ph.Value()-c.Isopotential.Value()), nil
}

// Estimate is PH with its standard uncertainty, in units of pH: of the reading, its
// temperature, the calibration and the isopotential point.
//
//	symbol   u² = (u(E)/(s k))² + ((pH - pHi) u(T)/T)² + (u(E0)/(s k))² + ((pH - pHi) u(s)/s)²
//	              - 2 r (pH - pHi) u(E0) u(s)/(s² k) + ((1 - Tc/T) u(pHi))²
//	source   [GUM] eq. 16; r the correlation of E0 and s, Tc the temperature of the calibration
//
// It is the uncertainty of the pH at the temperature t, on the scale of the buffers.
// What the junction of the electrode does between a dilute buffer and seawater is
// not in it: TotalFromNBS adds that.
func (c Calibration[S]) Estimate(reading units.Voltage, t units.Temperature,
	u Uncertainty) (ph S, uncertainty float64, err error) {
	err = u.check()
	if err == nil {
		err = c.checkUncertainties()
	}
	if err == nil {
		ph, err = c.PH(reading, t)
	}
	if err != nil {
		return on[S](math.NaN()), math.NaN(), err
	}
	perMillivolt := 1 / float64(c.perUnit(t))
	away := ph.Value() - c.Isopotential.Value()
	byOffset := perMillivolt * float64(c.OffsetUncertainty)
	bySlope := -away / c.Slope.Value() * c.SlopeUncertainty.Value()
	variance := square(byOffset) + square(bySlope) + float64(2*c.Correlation)*byOffset*bySlope
	variance = math.Max(0, variance) // rounding, where the two cancel
	variance += square(perMillivolt*float64(u.Reading)) +
		square(away/t.Kelvin()*u.Temperature.CelsiusDegrees())
	if c.IsopotentialUncertainty > 0 {
		variance += square((1 - c.Temperature.Kelvin()/t.Kelvin()) * float64(c.IsopotentialUncertainty))
	}
	if err := input.NotNegative("uncertainty of the pH", math.Sqrt(variance), ""); err != nil {
		return on[S](math.NaN()), math.NaN(), err // beyond all numbers
	}
	return ph, math.Sqrt(variance), nil
}

// perUnit returns the millivolts of one unit of pH.
func (c *Calibration[S]) perUnit(t units.Temperature) units.Voltage {
	return units.Voltage(c.Slope.Value()) * Nernst(t)
}

// ph is PH without questions.
func (c *Calibration[S]) ph(reading units.Voltage, t units.Temperature) float64 {
	return c.Isopotential.Value() + float64((c.Offset-reading)/c.perUnit(t))
}

func (c *Calibration[S]) checkAt(t units.Temperature) error {
	if err := c.check(); err != nil {
		return err
	}
	if err := input.Set("temperature", t); err != nil {
		return err
	}
	return glassTemperature.Check(t.Celsius())
}

func (c *Calibration[S]) checkUncertainties() error {
	if err := input.NotNegative("uncertainty of the slope", c.SlopeUncertainty.Value(), ""); err != nil {
		return err
	}
	if err := input.NotNegative("uncertainty of the offset", float64(c.OffsetUncertainty), "mV"); err != nil {
		return err
	}
	err := input.NotNegative("uncertainty of the isopotential point", float64(c.IsopotentialUncertainty), "")
	if err != nil {
		return err
	}
	if !(c.Correlation >= -1 && c.Correlation <= 1) {
		return input.Bad("correlation", input.Number(float64(c.Correlation)), "-1 to 1")
	}
	if c.IsopotentialUncertainty > 0 {
		if err := input.Set("temperature of the calibration", c.Temperature); err != nil {
			return err
		}
		return input.As("temperature of the calibration", glassTemperature.Check(c.Temperature.Celsius()))
	}
	return nil
}
