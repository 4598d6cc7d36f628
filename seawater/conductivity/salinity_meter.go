package conductivity

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

// SalinityMeter is a meter that works out practical salinity by PSS-78 from the
// conductivity that its cell measures and the temperature that its thermometer
// shows. The zero value shows the truth.
//
// A meter that shows "ppt" of table salt is a SaltMeter.
type SalinityMeter struct {
	CellOffset        units.Fraction              // by what share the cell reads high, as Calibrated finds it
	ThermometerOffset units.TemperatureDifference // how much its own thermometer reads high
}

// Reading returns what the meter shows in seawater of salinity sa and
// temperature t.
func (m SalinityMeter) Reading(sa units.AbsoluteSalinity, t units.Temperature) (units.PracticalSalinity, error) {
	err := m.check(t)
	if err == nil {
		err = CheckRange(sa, t)
	}
	if err != nil {
		return units.Practical(math.NaN()), err
	}
	c := seawater(sa, t) * units.Conductivity(1+m.CellOffset.Value())
	reading := pss78.Salinity(c, t.Add(m.ThermometerOffset), 0)
	if err := m.checkReading(reading, t); err != nil {
		return units.Practical(math.NaN()), err
	}
	return reading, nil
}

// checkReading refuses a number that is beyond the scale.
func (m SalinityMeter) checkReading(reading units.PracticalSalinity, t units.Temperature) error {
	return input.As("reading", pss78.CheckRange(units.Practical(reading.Value()*(1-beyond)), t.Add(m.ThermometerOffset),
		0))
}

// Salinity returns the salinity of the seawater of temperature t in which the
// meter shows reading. It is the inverse of Reading.
func (m SalinityMeter) Salinity(reading units.PracticalSalinity, t units.Temperature) (units.AbsoluteSalinity, error) {
	err := m.check(t)
	if err == nil {
		err = input.NotNegative("reading", reading.Value(), "")
	}
	if err == nil {
		err = m.checkReading(reading, t)
	}
	if err != nil {
		return noSalinity(), err
	}
	return salinity(m.measured(reading, t), t)
}

// Estimate is Salinity with its standard uncertainty.
func (m SalinityMeter) Estimate(reading units.PracticalSalinity, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	err = u.check()
	if err == nil {
		sa, err = m.Salinity(reading, t)
	}
	if err != nil {
		return noSalinity(), noSalinity(), err
	}
	return propagate(sa, reading.Value(), t, u,
		func(reading float64, t units.Temperature, thermometer units.TemperatureDifference, cell units.Fraction) float64 {
			m := SalinityMeter{units.Share(m.CellOffset.Value() + cell.Value()), m.ThermometerOffset + thermometer}
			return plainSalinity(m.measured(units.Practical(reading), t), t)
		})
}

// Calibrated returns the meter with the cell offset that makes it show reading in
// seawater of a known salinity at the temperature t.
func (m SalinityMeter) Calibrated(reading units.PracticalSalinity, sa units.AbsoluteSalinity,
	t units.Temperature) (SalinityMeter, error) {
	m.CellOffset = units.Share(0)
	err := m.check(t)
	if err == nil {
		err = input.Positive("reading", reading.Value(), "")
	}
	if err == nil {
		err = m.checkReading(reading, t)
	}
	if err == nil {
		err = input.Positive("salinity", sa.GramsPerKilogram(), "g/kg")
	}
	if err == nil {
		err = CheckRange(sa, t)
	}
	if err != nil {
		m.CellOffset = units.Share(math.NaN())
		return m, err
	}
	m.CellOffset = units.Share(float64(m.measured(reading, t)/seawater(sa, t) - 1))
	if err = m.check(t); err != nil {
		m.CellOffset = units.Share(math.NaN())
	}
	return m, err
}

// measured returns the conductivity of the water in which the meter shows reading.
func (m SalinityMeter) measured(reading units.PracticalSalinity, t units.Temperature) units.Conductivity {
	c := pss78.Conductivity(reading, t.Add(m.ThermometerOffset), 0)
	return c / units.Conductivity(1+m.CellOffset.Value())
}

func (m SalinityMeter) check(t units.Temperature) error {
	if err := checkOffsets(m.CellOffset, m.ThermometerOffset); err != nil {
		return err
	}
	if err := input.Set("temperature", t); err != nil {
		return err
	}
	if err := pss78.CheckRange(units.Practical(0), t, 0); err != nil {
		return err
	}
	if err := pss78.CheckRange(units.Practical(0), t.Add(m.ThermometerOffset), 0); err != nil {
		return input.In("thermometer", err)
	}
	return nil
}
