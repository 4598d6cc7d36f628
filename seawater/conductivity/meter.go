package conductivity

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Meter is a meter that shows conductivity. The zero value shows the
// conductivity of the water as it is, and truly.
//
//	Meter{Compensation: Compensation{Scheme: Linear, Reference: units.Celsius(25), PerKelvin: units.Percent(2)}}
//
// It measures κ (1 + CellOffset), which its compensation refers to the reference
// temperature from the temperature t + ThermometerOffset.
type Meter struct {
	Compensation      Compensation
	CellOffset        units.Fraction              // by what share the cell reads high, as Calibrated finds it
	ThermometerOffset units.TemperatureDifference // how much its own thermometer reads high
}

// CellOffset returns by what share a meter reads high that multiplies by the
// cell constant set, of a cell that has the constant actual, both in 1/cm.
func CellOffset(set, actual float64) (units.Fraction, error) {
	if err := input.Positive("cell constant as set", set, "1/cm"); err != nil {
		return units.Share(math.NaN()), err
	}
	if err := input.Positive("cell constant", actual, "1/cm"); err != nil {
		return units.Share(math.NaN()), err
	}
	f := units.Share(set/actual - 1)
	if err := checkOffsets(f, 0); err != nil {
		return units.Share(math.NaN()), err
	}
	return f, nil
}

// Shows returns what the meter shows in any water, salt or pure, of the
// conductivity c at its temperature t.
func (m Meter) Shows(c units.Conductivity, t units.Temperature) (units.Conductivity, error) {
	if err := m.check(t); err != nil {
		return input.NaN[units.Conductivity](), err
	}
	if err := checkConductivity("conductivity", c); err != nil {
		return input.NaN[units.Conductivity](), err
	}
	return m.found(m.shows(c, t), c*units.Conductivity(1+m.CellOffset.Value()), t.Add(m.ThermometerOffset))
}

// Measured returns the conductivity, at its temperature t, of the water in which
// the meter shows reading. It is the inverse of Shows; with the scheme Seawater,
// which calls all purified water salinity 0, as far as there is one.
func (m Meter) Measured(reading units.Conductivity, t units.Temperature) (units.Conductivity, error) {
	if err := m.check(t); err != nil {
		return input.NaN[units.Conductivity](), err
	}
	if err := checkConductivity("reading", reading); err != nil {
		return input.NaN[units.Conductivity](), err
	}
	return m.found(m.measured(reading, t), reading, m.Compensation.Reference)
}

// found refuses an answer that the scheme Seawater made from a conductivity beyond
// the end of the scale, and one that is no number.
func (m Meter) found(answer, from units.Conductivity, at units.Temperature) (units.Conductivity, error) {
	if m.Compensation.Scheme == Seawater {
		if _, err := salinity(from, at); err != nil {
			return input.NaN[units.Conductivity](), err
		}
	}
	if !possible(answer) {
		return input.NaN[units.Conductivity](), input.Bad("conductivity", answer.String(), "the conductivity of water")
	}
	return answer, nil
}

// Reading returns what the meter shows in seawater of salinity sa and
// temperature t.
func (m Meter) Reading(sa units.AbsoluteSalinity, t units.Temperature) (units.Conductivity, error) {
	if err := CheckRange(sa, t); err != nil {
		return input.NaN[units.Conductivity](), err
	}
	return m.Shows(seawater(sa, t), t)
}

// Salinity returns the salinity of the seawater of temperature t in which the
// meter shows reading. It is the inverse of Reading.
func (m Meter) Salinity(reading units.Conductivity, t units.Temperature) (units.AbsoluteSalinity, error) {
	c, err := m.Measured(reading, t)
	if err != nil {
		return noSalinity(), err
	}
	sa, err := salinity(c, t)
	return sa, hinted(err)
}

// Estimate is Salinity with its standard uncertainty.
func (m Meter) Estimate(reading units.Conductivity, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	err = u.check()
	if err == nil {
		sa, err = m.Salinity(reading, t)
	}
	if err != nil {
		return noSalinity(), noSalinity(), err
	}
	return propagate(sa, float64(reading), t, u,
		func(reading float64, t units.Temperature, thermometer units.TemperatureDifference, cell units.Fraction) float64 {
			return plainSalinity(m.moved(thermometer, cell).measured(units.Conductivity(reading), t), t)
		})
}

// Calibrated returns the meter with the cell offset that makes it show reading in
// a water whose conductivity at the temperature t is truth: that of a Standard,
// or of seawater by pss78.Conductivity.
func (m Meter) Calibrated(reading, truth units.Conductivity, t units.Temperature) (Meter, error) {
	m.CellOffset = units.Share(0)
	err := input.Positive("reading", float64(reading), "mS/cm")
	if err == nil {
		err = input.Positive("conductivity", float64(truth), "mS/cm")
	}
	if err == nil {
		err = checkConductivity("conductivity", truth)
	}
	var c units.Conductivity
	if err == nil {
		c, err = m.Measured(reading, t)
	}
	if err != nil {
		m.CellOffset = units.Share(math.NaN())
		return m, err
	}
	m.CellOffset = units.Share(float64(c/truth - 1))
	if err = m.check(t); err != nil {
		m.CellOffset = units.Share(math.NaN())
	}
	return m, err
}

// shows and measured are Shows and Measured without questions.
func (m Meter) shows(c units.Conductivity, t units.Temperature) units.Conductivity {
	return units.Conductivity(m.Compensation.refer(float64(c)*(1+m.CellOffset.Value()), t.Add(m.ThermometerOffset)))
}

func (m Meter) measured(reading units.Conductivity, t units.Temperature) units.Conductivity {
	return units.Conductivity(m.Compensation.undo(float64(reading),
		t.Add(m.ThermometerOffset)) / (1 + m.CellOffset.Value()))
}

// moved returns the meter with other offsets.
func (m Meter) moved(thermometer units.TemperatureDifference, cell units.Fraction) Meter {
	m.ThermometerOffset += thermometer
	m.CellOffset = units.Share(m.CellOffset.Value() + cell.Value())
	return m
}

func (m Meter) check(t units.Temperature) error {
	if err := m.Compensation.check(); err != nil {
		return err
	}
	if err := checkOffsets(m.CellOffset, m.ThermometerOffset); err != nil {
		return err
	}
	if err := input.Set("temperature", t); err != nil {
		return err
	}
	if err := waterRange.Check(t.Celsius()); err != nil {
		return err
	}
	return m.Compensation.checkTemperature(t.Add(m.ThermometerOffset))
}

func checkOffsets(cell units.Fraction, thermometer units.TemperatureDifference) error {
	if !(cell.Value() >= -0.9 && cell.Value() <= 9) {
		return input.Bad("cell offset", cell.String(), "-90 % and up to 900 %, 0 % of a true cell")
	}
	if d := thermometer.CelsiusDegrees(); d-d != 0 {
		return input.Bad("thermometer offset", thermometer.String(), "a finite number")
	}
	return nil
}

// seawater returns the conductivity of seawater.
func seawater(sa units.AbsoluteSalinity, t units.Temperature) units.Conductivity {
	return pss78.Conductivity(teos10.PracticalFromAbsolute(sa), t, 0)
}

// plainSalinity returns the absolute salinity, g/kg, of seawater of a conductivity.
func plainSalinity(c units.Conductivity, t units.Temperature) float64 {
	return teos10.AbsoluteFromPractical(pss78.Salinity(c, t, 0)).GramsPerKilogram()
}

// beyond is what rounding may add to the salinity where the scale ends.
const beyond = 1e-9

// salinity is plainSalinity that refuses what is beyond the scale.
func salinity(c units.Conductivity, t units.Temperature) (units.AbsoluteSalinity, error) {
	sp := pss78.Salinity(c, t, 0)
	if err := pss78.CheckRange(units.Practical(sp.Value()*(1-beyond)), t, 0); err != nil {
		return noSalinity(), err
	}
	return teos10.AbsoluteFromPractical(sp), nil
}
